/* SPDX-License-Identifier: MIT */
#ifndef FERRULE_BINDINGS_SQL_HOST_H
#define FERRULE_BINDINGS_SQL_HOST_H

#include "call.h"

#include <json-c/json.h>

/** One call, as the runtime sees it. */
struct bind_host {
    const sql_function *function;
    sql_answer *answer;
};

/** "16 mm" of 16 and a unit, so that the number is the nearest one to what was meant; a word if it is not finite. */
sql_json *host_number_with_unit(double number, fer_unit unit);

void host_out_of_memory(bind_host *host);

/** @name Of call.c, for functions that are not in its table
 * An answer that has failed, with a message of its own; JSON that has to be complete, -1: refused; a number in a list of quantities is
 * one in the base unit; a figure of a struct that begins at `row`. @{ */
void host_start(sql_answer *answer, const sql_function *function);
void host_refuse(sql_answer *answer, fer_status status, const char *form, ...);
int host_read_json(bind_host *host, const sql_parameter *p, const sql_value *value, sql_json **read);
void host_give_items_units(const bind_kind *kind, sql_json *items);
sql_value host_column(sql_answer *answer, const sql_column *column, const char *row);
/** @} */

#endif
