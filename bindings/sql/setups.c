/* SPDX-License-Identifier: MIT */
/* Set-ups of the rows of a query, in blocks: the same in every database. */
#include "host.h"

#include <ferrule/bulk.h>

#include <json-c/json.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

enum { MAXIMUM_COLUMNS = 128, KEY = -1, WORKPLACE = -2 };

/* A row as it was read: what could not be read is an error of the row. */
typedef struct read_row {
    fer_status status;
    const char *path;
    int has_blank, has_amount; /* uncertainties that are NULL, and that are there */
} read_row;

struct sql_planner {
    int places[MAXIMUM_COLUMNS]; /* of the query's columns: one of sql_order_columns, KEY or WORKPLACE */
    size_t column_count, first;  /* rows of the blocks before */
    size_t read, planned;
    char path[64];
    fer_order_columns columns;
    int workplace[SQL_SETUP_ROWS];
    read_row rows[SQL_SETUP_ROWS];
    fer_order orders[SQL_SETUP_ROWS];
    fer_setup setups[SQL_SETUP_ROWS];
    fer_row_status statuses[SQL_SETUP_ROWS];
    fer_fault faults[SQL_SETUP_ROWS];
    size_t count;
    fer_workplace *workplaces;
    fer_press *presses;
    fer_die *dies;
};

/* ---- workplaces --------------------------------------------------------------------------------------------- */

/* A list of presses, each with its rack, in lists of the answer's. */
typedef struct rack_list {
    size_t count, all;
    fer_press *presses;
    fer_die **dies;
    size_t *counts;
} rack_list;

static int take_workplace(bind_host *host, sql_json *given, size_t place, rack_list *racks)
{
    sql_json *press = NULL, *dies = NULL;
    char name[48];
    snprintf(name, sizeof name, "workplaces[%zu]", place);
    if (!json_object_is_type(given, json_type_object) || !json_object_object_get_ex(given, "press", &press) ||
        !json_object_object_get_ex(given, "dies", &dies) || json_object_object_length(given) != 2) {
        host_refuse(host->answer, FER_OK,
                    "%s: %s has to be an object with two members, press and dies, a list; such as "
                    "[{\"press\": {\"graduation\": \"0.05 mm\"}, \"dies\": [\"22 mm\"]}]",
                    host->function->name, name);
        return -1;
    }
    const sql_place *arguments = host->function->library->arguments;
    for (const sql_place *a = arguments; a->name; a++) {
        if (strcmp(a->name, "press") == 0 && bind_take_argument(host, a->kind, press, &racks->presses[place],
                                                                host->function->library->name, name) < 0)
            return -1;
        if (a->count_offset) {
            host_give_items_units(a->kind, dies);
            racks->dies[place] = bind_take_list(host, a->kind, dies, &racks->counts[place],
                                                host->function->library->name, name);
            if (!racks->dies[place])
                return -1;
            racks->all += racks->counts[place];
        }
    }
    return 0;
}

static int take_workplaces(bind_host *host, sql_json *given, rack_list *racks)
{
    racks->count = json_object_is_type(given, json_type_array) ? json_object_array_length(given) : 0;
    if (racks->count == 0) {
        host_refuse(host->answer, FER_OK,
                    "%s: workplaces has to be a list of at least one press with its dies",
                    host->function->name);
        return -1;
    }
    if (racks->count > SQL_MAXIMUM_LISTS - 4) {
        host_refuse(host->answer, FER_OK, "%s: workplaces has %zu presses; it takes %d", host->function->name,
                    racks->count, SQL_MAXIMUM_LISTS - 4);
        return -1;
    }
    racks->presses = host_memory(host, racks->count * sizeof *racks->presses);
    racks->dies = host_memory(host, racks->count * sizeof *racks->dies);
    racks->counts = host_memory(host, racks->count * sizeof *racks->counts);
    if (!racks->presses || !racks->dies || !racks->counts)
        return -1;
    memset(racks->presses, 0, racks->count * sizeof *racks->presses);
    for (size_t i = 0; i < racks->count; i++)
        if (take_workplace(host, json_object_array_get_idx(given, i), i, racks) < 0)
            return -1;
    return 0;
}

/* All in one piece, so that the database's memory needs nothing but to be given back. */
static sql_planner *make_planner(bind_host *host, const rack_list *racks, sql_grow grow, void *context)
{
    const size_t presses = racks->count * sizeof(fer_press),
                 racks_size = racks->count * sizeof(fer_workplace);
    sql_planner *planner =
        grow(context, NULL, sizeof *planner + racks_size + presses + racks->all * sizeof(fer_die));
    if (!planner) {
        host_out_of_memory(host);
        return NULL;
    }
    memset(planner, 0, sizeof *planner);
    planner->count = racks->count;
    planner->workplaces = (fer_workplace *)(planner + 1);
    planner->presses = (fer_press *)(planner->workplaces + racks->count);
    planner->dies = (fer_die *)(planner->presses + racks->count);
    memcpy(planner->presses, racks->presses, presses);
    fer_die *dies = planner->dies;
    for (size_t i = 0; i < racks->count; i++) {
        const fer_workplace here = {&planner->presses[i], dies, racks->counts[i]};
        planner->workplaces[i] = here;
        memcpy(dies, racks->dies[i], racks->counts[i] * sizeof *dies);
        dies += racks->counts[i];
    }
    return planner;
}

sql_planner *sql_begin_setups(const sql_value *workplaces, sql_grow grow, void *context, sql_answer *answer)
{
    const sql_function *function = &sql_plan_setups_function;
    bind_host host = {function, answer};
    rack_list racks = {0, 0, NULL, NULL, NULL};
    sql_json *given = NULL;
    sql_planner *planner = NULL;
    host_start(answer, function);
    if (host_read_json(&host, &function->parameters[1], workplaces, &given) == 0 &&
        take_workplaces(&host, given, &racks) == 0)
        planner = make_planner(&host, &racks, grow, context);
    json_object_put(given);
    while (answer->list_count)
        host_give_back(&host, answer->lists[0]);
    return planner;
}

/* ---- columns ------------------------------------------------------------------------------------------------- */

static int find_column(const char *name)
{
    if (strcmp(name, "row_key") == 0)
        return KEY;
    if (strcmp(name, "workplace") == 0)
        return WORKPLACE;
    size_t i = 0;
    while (i < sql_order_column_count && strcmp(sql_order_columns[i].name, name) != 0)
        i++;
    return (int)i;
}

/* The numbers of a column stand in the orders of the block. */
static void point_at(sql_planner *planner, const sql_order_column *column)
{
    const char *first = (const char *)planner->orders + column->member;
    const fer_length_column rows = {(const fer_length *)(const void *)first, sizeof(fer_order), 0};
    memcpy((char *)&planner->columns + column->column, &rows, sizeof rows);
}

int sql_setups_column(sql_planner *planner, const char *name, sql_answer *answer)
{
    const int found = find_column(name);
    int is_twice = 0;
    for (size_t i = 0; i < planner->column_count; i++)
        is_twice |= planner->places[i] == found;
    if (found == (int)sql_order_column_count || is_twice || planner->column_count == MAXIMUM_COLUMNS) {
        host_refuse(
            answer, FER_OK,
            "%s: the query's column %.60s %s; taken are row_key, workplace and the numbers of an order with "
            "their units, such as hose_inside_mm",
            sql_plan_setups_function.name, name, is_twice ? "stands twice" : "is none that is taken");
        return -1;
    }
    planner->places[planner->column_count++] = found;
    if (found >= 0)
        point_at(planner, &sql_order_columns[found]);
    return 0;
}

int sql_setups_key(const sql_planner *planner)
{
    for (size_t i = 0; i < planner->column_count; i++)
        if (planner->places[i] == KEY)
            return (int)i;
    return -1;
}

/* ---- values -------------------------------------------------------------------------------------------------- */

static void note(read_row *row, fer_status status, const char *path)
{
    if (row->status == FER_OK) {
        row->status = status;
        row->path = path;
    }
}

static double real_of(const sql_value *value)
{
    return value->sort == SQL_NUMBER                             ? value->number
           : value->sort == SQL_WHOLE || value->sort == SQL_BOOL ? (double)value->whole
                                                                 : NAN;
}

/* -1 where it is none: the row fails, as with any number that is not in the list. */
static int whole_of(const sql_value *value)
{
    const double number = real_of(value);
    return number >= 0.0 && number <= INT32_MAX && trunc(number) == number ? (int)number : -1;
}

static int word_of(const bind_kind *kind, const sql_value *value)
{
    if (value->sort != SQL_TEXT || !kind)
        return whole_of(value);
    const bind_word *word = bind_find_word(kind, value->text, value->length);
    return word ? word->number : value->length == 0 ? 0 : -1;
}

static void read_number(read_row *row, const sql_order_column *column, const sql_value *value, double *number)
{
    size_t stop;
    fer_status status = FER_OK;
    if (value->sort == SQL_NULL)
        *number = column->blank ? NAN : 0.0;
    else if (value->sort == SQL_TEXT && column->kind)
        status = bind_texts[column->kind - bind_kinds].parse(value->text, value->length, number, &stop);
    else
        *number = real_of(value);
    if (status != FER_OK || (value->sort != SQL_NULL && value->sort != SQL_TEXT && *number != *number))
        note(row, status != FER_OK ? status : FER_ARGUMENT_UNREADABLE, column->path);
    row->has_blank |= column->blank == 1 && value->sort == SQL_NULL;
    row->has_amount |= column->blank == 1 && value->sort != SQL_NULL;
}

void sql_setups_value(sql_planner *planner, size_t column, const sql_value *value)
{
    read_row *row = &planner->rows[planner->read];
    const int place = planner->places[column];
    if (column == 0)
        memset(row, 0, sizeof *row);
    if (place == WORKPLACE)
        planner->workplace[planner->read] = value->sort == SQL_NULL ? 0 : whole_of(value);
    if (place < 0)
        return;
    const sql_order_column *here = &sql_order_columns[place];
    char *to = (char *)&planner->orders[planner->read] + here->member;
    if (here->bytes == sizeof(double)) {
        double number = NAN;
        read_number(row, here, value, &number);
        memcpy(to, &number, sizeof number);
    } else {
        const int number = value->sort == SQL_NULL ? 0 : word_of(here->kind, value);
        memcpy(to, &number, sizeof number);
        if (here->is_flag && number != 0 && number != 1)
            note(row, FER_ARGUMENT_UNREADABLE, here->path);
    }
}

/* Where no uncertainty is there, none was given; one that is not beside others is not known, which is not 0. */
void sql_setups_row(sql_planner *planner)
{
    const read_row *row = &planner->rows[planner->read];
    for (size_t i = 0; i < planner->column_count && row->has_blank && !row->has_amount; i++) {
        const sql_order_column *column =
            planner->places[i] < 0 ? NULL : &sql_order_columns[planner->places[i]];
        if (column && column->blank == 1)
            memset((char *)&planner->orders[planner->read] + column->member, 0, column->bytes);
    }
    planner->read++;
}

/* ---- the block ------------------------------------------------------------------------------------------------ */

size_t sql_plan_block(sql_planner *planner)
{
    const fer_whole_column workplace = {planner->workplace, 0, 0};
    fer_plan_setups(planner->read, &planner->columns, planner->workplaces, planner->count, workplace,
                    planner->setups, planner->statuses, planner->faults);
    planner->first += planner->planned;
    planner->planned = planner->read;
    planner->read = 0;
    return planner->planned;
}

/* "dies[].size" of the fourth die is "dies[3].size". */
static const char *fault_path(sql_planner *planner, const fer_fault *fault)
{
    const char *path = fer_field_path(fault->field), *list = strstr(path, "[]");
    if (!list)
        return path;
    snprintf(planner->path, sizeof planner->path, "%.*s[%zu]%s", (int)(list - path), path, fault->die,
             list + 2);
    return planner->path;
}

static sql_value text_or_null(const char *text)
{
    sql_value value = {*text ? SQL_TEXT : SQL_NULL, 0, 0, text, strlen(text), NULL};
    return value;
}

sql_value sql_setups_figure(sql_planner *planner, size_t row, size_t column, sql_answer *answer)
{
    const read_row *read = &planner->rows[row];
    const fer_status status = read->status != FER_OK ? read->status : (fer_status)planner->statuses[row];
    const sql_value number = {SQL_WHOLE, 0, (int64_t)(planner->first + row + 1), NULL, 0, NULL};
    const sql_value nothing = {SQL_NULL, 0, 0, NULL, 0, NULL};
    switch (column) {
    case SQL_SETUP_NUMBER:
        return number;
    case SQL_SETUP_KEY:
        return nothing;
    case SQL_SETUP_STATUS:
        return text_or_null(fer_status_name(status));
    case SQL_SETUP_PATH:
        return status == FER_OK         ? nothing
               : read->status != FER_OK ? text_or_null(read->path)
                                        : text_or_null(fault_path(planner, &planner->faults[row]));
    default:
        return status == FER_OK
                   ? host_column(answer, &sql_plan_setups_function.columns[column - SQL_SETUP_OWN],
                                 (const char *)&planner->setups[row])
                   : nothing;
    }
}
