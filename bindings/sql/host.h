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

#endif
