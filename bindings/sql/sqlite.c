/* SPDX-License-Identifier: MIT */
/* The SQL functions as an extension that SQLite loads: functions, aggregates, and those that give rows as tables. */
#include "call.h"

#include <sqlite3ext.h>
SQLITE_EXTENSION_INIT1

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define SQL_FLAGS (SQLITE_UTF8 | SQLITE_DETERMINISTIC | SQLITE_INNOCUOUS)

static sql_value read_value(sqlite3_value *from)
{
    sql_value value = {SQL_NULL, 0, 0, NULL, 0, NULL};
    switch (sqlite3_value_type(from)) {
    case SQLITE_FLOAT:
        value.sort = SQL_NUMBER;
        value.number = sqlite3_value_double(from);
        break;
    case SQLITE_INTEGER:
        value.sort = SQL_WHOLE;
        value.whole = sqlite3_value_int64(from);
        break;
    case SQLITE_TEXT:
        value.sort = SQL_TEXT;
        value.text = (const char *)sqlite3_value_text(from);
        value.length = (size_t)sqlite3_value_bytes(from);
        if (!value.text)
            value.sort = SQL_OTHER;
        break;
    case SQLITE_BLOB:
        value.sort = SQL_OTHER;
        break;
    default:
        break;
    }
    return value;
}

/* SQLITE_SUBTYPE 'J' is how SQLite's own JSON functions know JSON from text. */
static void give(sqlite3_context *context, sql_value value, int is_json)
{
    switch (value.sort) {
    case SQL_NUMBER:
        sqlite3_result_double(context, value.number);
        break;
    case SQL_WHOLE:
    case SQL_BOOL:
        sqlite3_result_int64(context, value.whole);
        break;
    case SQL_TEXT:
        sqlite3_result_text64(context, value.text, value.length, SQLITE_TRANSIENT, SQLITE_UTF8);
        if (is_json)
            sqlite3_result_subtype(context, 'J');
        break;
    default:
        sqlite3_result_null(context);
    }
}

/* A statement that begins after sqlite3_interrupt(), while another one is running, is interrupted as that one is. (There is a
 * function that asks, sqlite3_is_interrupted(), but only from 3.41 on.) */
static int is_interrupted(void *db)
{
    sqlite3_stmt *statement = NULL;
    const int prepared = sqlite3_prepare_v2(db, "SELECT 1", -1, &statement, NULL);
    const int done = prepared == SQLITE_OK ? sqlite3_step(statement) : prepared;
    sqlite3_finalize(statement);
    return done == SQLITE_INTERRUPT;
}

static void let_stop(sql_answer *answer, sqlite3 *db)
{
    answer->stop = (bind_stop){is_interrupted, db, 0};
}

/* An error of SQLite is one text, so the name of the status stands at its end. */
static char *error_text(const sql_answer *answer)
{
    return answer->rule ? sqlite3_mprintf("%s [%s]", answer->message, answer->rule)
                        : sqlite3_mprintf("%s", answer->message);
}

static void give_error(sqlite3_context *context, const sql_answer *answer)
{
    char *text = error_text(answer);
    if (text)
        sqlite3_result_error(context, text, -1);
    else
        sqlite3_result_error_nomem(context);
    sqlite3_free(text);
}

static void finish(sqlite3_context *context, sql_answer *answer)
{
    if (answer->stop.stopped)
        sqlite3_result_error_code(context, SQLITE_INTERRUPT);
    else if (answer->failed)
        give_error(context, answer);
    else
        give(context, answer->value, answer->function->gives == SQL_GIVES_JSON);
    sql_done(answer);
}

static size_t read_arguments(int count, sqlite3_value **from, sql_value *arguments)
{
    const size_t maximum = count < SQL_MAXIMUM_ARGUMENTS ? (size_t)count : SQL_MAXIMUM_ARGUMENTS;
    for (size_t i = 0; i < maximum; i++)
        arguments[i] = read_value(from[i]);
    return maximum;
}

static void call(sqlite3_context *context, int count, sqlite3_value **from)
{
    sql_value arguments[SQL_MAXIMUM_ARGUMENTS];
    sql_answer answer;
    const size_t given = read_arguments(count, from, arguments);
    let_stop(&answer, sqlite3_context_db_handle(context));
    sql_call(sqlite3_user_data(context), arguments, given, &answer);
    finish(context, &answer);
}

static void version(sqlite3_context *context, int count, sqlite3_value **from)
{
    (void)count;
    (void)from;
    sqlite3_result_text(context, FERRULE_VERSION, -1, SQLITE_STATIC);
}

/* ---- the short way from numbers to a number --------------------------------------------------------------- */

typedef struct quick_arguments {
    int count;
    sqlite3_value **from;
} quick_arguments;

static inline int quick_number(sqlite3_value *from, double *number)
{
    const int type = sqlite3_value_type(from);
    *number = sqlite3_value_double(from);
    return type == SQLITE_FLOAT || type == SQLITE_INTEGER;
}

static inline int quick_whole(sqlite3_value *from, int maximum, int *number)
{
    const sqlite3_int64 whole = sqlite3_value_int64(from);
    *number = (int)whole;
    return sqlite3_value_type(from) == SQLITE_INTEGER && whole >= 0 && whole <= maximum;
}

static inline int quick_word(sqlite3_value *from, const bind_kind *kind, void *to)
{
    if (sqlite3_value_type(from) != SQLITE_TEXT)
        return 0;
    const char *text = (const char *)sqlite3_value_text(from);
    return text && sql_quick_word(kind, text, (size_t)sqlite3_value_bytes(from), to);
}

#define SQL_SOURCE quick_arguments
#define SQL_QUICK_NUMBER(place, to)                                                                          \
    if ((place) < from.count && !quick_number(from.from[place], &(to)))                                      \
    return 0
#define SQL_QUICK_WHOLE(place, to)                                                                           \
    if ((place) < from.count && !quick_whole(from.from[place], INT32_MAX, &(to)))                            \
    return 0
#define SQL_QUICK_BOOL(place, to)                                                                            \
    if ((place) < from.count && !quick_whole(from.from[place], 1, &(to)))                                    \
    return 0
#define SQL_QUICK_WORD(place, type, to)                                                                      \
    if ((place) < from.count && !quick_word(from.from[place], &bind_kinds[BIND_##type], &(to)))              \
    return 0

#include "frames.h"
#include "quick.h"

#define Q(symbol, place, function)                                                                           \
    static void symbol(sqlite3_context *context, int count, sqlite3_value **from)                            \
    {                                                                                                        \
        const sql_function *f = &sql_functions[place];                                                       \
        const quick_arguments given = {count, from};                                                         \
        double number;                                                                                       \
        if (count >= (int)f->required && count <= (int)f->parameter_count &&                                 \
            quick_##function(given, &number))                                                                \
            sqlite3_result_double(context, number);                                                          \
        else                                                                                                 \
            call(context, count, from);                                                                      \
    }
#define X(symbol, place, takes_arrays)
#define Y(symbol, place)
#include "symbols.h"
#undef Q

typedef void (*quick_call)(sqlite3_context *, int, sqlite3_value **);

static quick_call find_quick(size_t place)
{
    static const struct {
        size_t place;
        quick_call call;
    } ways[] = {
#define Q(symbol, place, function) {place, symbol},
#include "symbols.h"
    };
    for (size_t i = 0; i < sizeof ways / sizeof ways[0]; i++)
        if (ways[i].place == place)
            return ways[i].call;
    return call;
}

/* ---- aggregates ------------------------------------------------------------------------------------------- */

static void *grow(void *context, void *old, size_t bytes)
{
    (void)context;
    return sqlite3_realloc64(old, bytes);
}

static void step(sqlite3_context *context, int count, sqlite3_value **from)
{
    sql_value arguments[SQL_MAXIMUM_ARGUMENTS];
    sql_answer answer;
    sql_gathered **gathered = sqlite3_aggregate_context(context, sizeof *gathered);
    if (!gathered) {
        sqlite3_result_error_nomem(context);
        return;
    }
    const size_t given = read_arguments(count, from, arguments);
    let_stop(&answer, sqlite3_context_db_handle(context));
    if (sql_gather(sqlite3_user_data(context), gathered, arguments, given, grow, NULL, &answer) < 0)
        give_error(context, &answer);
    sql_done(&answer);
}

static void end(sqlite3_context *context)
{
    sql_answer answer;
    sql_gathered **gathered = sqlite3_aggregate_context(context, 0);
    let_stop(&answer, sqlite3_context_db_handle(context));
    sql_gathered_call(sqlite3_user_data(context), gathered ? *gathered : NULL, &answer);
    finish(context, &answer);
    if (gathered)
        sqlite3_free(*gathered);
}

/* ---- functions that give rows: tables whose hidden columns are the arguments ------------------------------ */

typedef struct row_table {
    sqlite3_vtab base;
    const sql_function *function;
    sqlite3 *db;
} row_table;

typedef struct row_cursor {
    sqlite3_vtab_cursor base;
    sql_answer answer;
    size_t row;
    int has_answer, is_null;
    sqlite3_value *given[SQL_MAXIMUM_ARGUMENTS];
} row_cursor;

static int open_table(sqlite3 *db, void *function, int argc, const char *const *argv, sqlite3_vtab **table,
                      char **error)
{
    const sql_function *f = function;
    sqlite3_str *text = sqlite3_str_new(db);
    (void)argc;
    (void)argv;
    (void)error;
    sqlite3_str_appendall(text, "CREATE TABLE x(");
    for (size_t i = 0; i < f->column_count; i++)
        sqlite3_str_appendf(text, "%s\"%w\"", i ? ", " : "", f->columns[i].name);
    for (size_t i = 0; i < f->parameter_count; i++) {
        int twice = 0;
        for (size_t k = 0; k < f->column_count; k++)
            twice |= strcmp(f->columns[k].name, f->parameters[i].name) == 0;
        sqlite3_str_appendf(text, ", \"%s%w\" HIDDEN", twice ? "given_" : "", f->parameters[i].name);
    }
    sqlite3_str_appendall(text, ")");
    char *declaration = sqlite3_str_finish(text);
    if (!declaration)
        return SQLITE_NOMEM;
    int done = sqlite3_declare_vtab(db, declaration);
    sqlite3_free(declaration);
    row_table *made = done == SQLITE_OK ? sqlite3_malloc(sizeof *made) : NULL;
    if (done == SQLITE_OK && !made)
        return SQLITE_NOMEM;
    if (done == SQLITE_OK) {
        memset(made, 0, sizeof *made);
        made->function = f;
        made->db = db;
        sqlite3_vtab_config(db, SQLITE_VTAB_INNOCUOUS);
        *table = &made->base;
    }
    return done;
}

static int close_table(sqlite3_vtab *table)
{
    sqlite3_free(table);
    return SQLITE_OK;
}

/* idxNum has a bit for each argument that is given; they come to row_filter in their order. */
static int choose_arguments(sqlite3_vtab *table, sqlite3_index_info *info)
{
    const sql_function *f = ((row_table *)table)->function;
    int place[SQL_MAXIMUM_ARGUMENTS], next = 1;
    unsigned unusable = 0;
    for (size_t i = 0; i < f->parameter_count; i++)
        place[i] = -1;
    for (int i = 0; i < info->nConstraint; i++) {
        const size_t argument = (size_t)info->aConstraint[i].iColumn - f->column_count;
        if (info->aConstraint[i].iColumn < (int)f->column_count ||
            info->aConstraint[i].op != SQLITE_INDEX_CONSTRAINT_EQ)
            continue;
        if (info->aConstraint[i].usable)
            place[argument] = i;
        else
            unusable |= 1u << argument;
    }
    info->idxNum = 0;
    for (size_t i = 0; i < f->parameter_count; i++) {
        if (place[i] < 0 && unusable >> i & 1)
            return SQLITE_CONSTRAINT; /* another order of the tables gives it */
        if (place[i] < 0)
            continue;
        info->idxNum |= (int)(1u << i);
        info->aConstraintUsage[place[i]].argvIndex = next++;
        info->aConstraintUsage[place[i]].omit = 1;
    }
    info->estimatedCost = 10;
    info->estimatedRows = f->rows ? 10 : 1;
    return SQLITE_OK;
}

static int open_cursor(sqlite3_vtab *table, sqlite3_vtab_cursor **cursor)
{
    (void)table;
    row_cursor *made = sqlite3_malloc(sizeof *made);
    if (!made)
        return SQLITE_NOMEM;
    memset(made, 0, sizeof *made);
    *cursor = &made->base;
    return SQLITE_OK;
}

static void empty_cursor(row_cursor *cursor)
{
    if (cursor->has_answer)
        sql_done(&cursor->answer);
    cursor->has_answer = 0;
    for (size_t i = 0; i < SQL_MAXIMUM_ARGUMENTS; i++) {
        sqlite3_value_free(cursor->given[i]);
        cursor->given[i] = NULL;
    }
}

static int close_cursor(sqlite3_vtab_cursor *cursor)
{
    empty_cursor((row_cursor *)cursor);
    sqlite3_free(cursor);
    return SQLITE_OK;
}

/* A NULL gives one row of NULL, or no row where a list gives the rows, as in PostgreSQL. */
static int filter(sqlite3_vtab_cursor *base, int mask, const char *text, int count, sqlite3_value **from)
{
    row_cursor *cursor = (row_cursor *)base;
    const sql_function *f = ((row_table *)base->pVtab)->function;
    sql_value arguments[SQL_MAXIMUM_ARGUMENTS];
    int next = 0, is_null = 0;
    size_t given = 0;
    (void)text;
    empty_cursor(cursor);
    for (size_t i = 0; i < f->parameter_count; i++) {
        arguments[i] = (sql_value){SQL_LEFT_OUT, 0, 0, NULL, 0, NULL};
        if ((mask >> i & 1) == 0 || next >= count)
            continue;
        arguments[i] = read_value(from[next]);
        is_null |= arguments[i].sort == SQL_NULL;
        cursor->given[i] = sqlite3_value_dup(from[next++]);
        given = i + 1;
    }
    let_stop(&cursor->answer, ((row_table *)base->pVtab)->db);
    sql_call(f, arguments, given, &cursor->answer);
    cursor->has_answer = 1;
    cursor->row = 0;
    cursor->is_null = is_null && !cursor->answer.failed;
    if (cursor->is_null)
        cursor->answer.row_count = f->rows ? 0 : 1;
    if (!cursor->answer.failed)
        return SQLITE_OK;
    sqlite3_free(base->pVtab->zErrMsg);
    base->pVtab->zErrMsg = NULL;
    if (cursor->answer.stop.stopped)
        return SQLITE_INTERRUPT;
    base->pVtab->zErrMsg = error_text(&cursor->answer);
    return SQLITE_ERROR;
}

static int next_row(sqlite3_vtab_cursor *cursor)
{
    ((row_cursor *)cursor)->row++;
    return SQLITE_OK;
}

static int is_at_end(sqlite3_vtab_cursor *base)
{
    const row_cursor *cursor = (row_cursor *)base;
    return cursor->row >= cursor->answer.row_count;
}

static int give_column(sqlite3_vtab_cursor *base, sqlite3_context *context, int column)
{
    row_cursor *cursor = (row_cursor *)base;
    const sql_function *f = ((row_table *)base->pVtab)->function;
    const size_t place = (size_t)column;
    if (place >= f->column_count) {
        sqlite3_value *given = cursor->given[place - f->column_count];
        if (given)
            sqlite3_result_value(context, given);
    } else if (!cursor->is_null) {
        give(context, sql_figure(&cursor->answer, cursor->row, place),
             f->columns[place].gives == SQL_GIVES_JSON);
    }
    return SQLITE_OK;
}

static int give_row_number(sqlite3_vtab_cursor *cursor, sqlite3_int64 *number)
{
    *number = (sqlite3_int64)((row_cursor *)cursor)->row;
    return SQLITE_OK;
}

static const sqlite3_module row_module = {
    .xConnect = open_table,
    .xBestIndex = choose_arguments,
    .xDisconnect = close_table,
    .xOpen = open_cursor,
    .xClose = close_cursor,
    .xFilter = filter,
    .xNext = next_row,
    .xEof = is_at_end,
    .xColumn = give_column,
    .xRowid = give_row_number,
};

/* ---- set-ups of the rows of a query: a table whose hidden columns are the query and the workplaces ---------- */

typedef struct setups_cursor {
    sqlite3_vtab_cursor base;
    sql_answer answer;
    sql_planner *planner;
    sqlite3_stmt *query;
    sqlite3_value *keys[SQL_SETUP_ROWS];
    int key, is_over;
    size_t row, planned, number;
} setups_cursor;

static int open_setups(sqlite3 *db, void *unused, int argc, const char *const *argv, sqlite3_vtab **table,
                       char **error)
{
    const sql_function *f = &sql_plan_setups_function;
    (void)unused;
    sqlite3_str *text = sqlite3_str_new(db);
    (void)argc;
    (void)argv;
    (void)error;
    sqlite3_str_appendall(text, "CREATE TABLE x(row_number, row_key, status, path");
    for (size_t i = 0; i < f->column_count; i++)
        sqlite3_str_appendf(text, ", \"%w\"", f->columns[i].name);
    sqlite3_str_appendall(text, ", query HIDDEN, workplaces HIDDEN)");
    char *declaration = sqlite3_str_finish(text);
    if (!declaration)
        return SQLITE_NOMEM;
    const int done = sqlite3_declare_vtab(db, declaration);
    sqlite3_free(declaration);
    row_table *made = done == SQLITE_OK ? sqlite3_malloc(sizeof *made) : NULL;
    if (done == SQLITE_OK && !made)
        return SQLITE_NOMEM;
    if (done == SQLITE_OK) {
        memset(made, 0, sizeof *made);
        made->function = f;
        made->db = db;
        *table = &made->base;
    }
    return done;
}

/* Both arguments have to be there; they come to filter_setups in their order. */
static int choose_setups(sqlite3_vtab *table, sqlite3_index_info *info)
{
    const int first = SQL_SETUP_OWN + (int)sql_plan_setups_function.column_count;
    int place[SQL_SETUP_ARGUMENTS] = {-1, -1}, is_unusable = 0;
    for (int i = 0; i < info->nConstraint; i++) {
        const int argument = info->aConstraint[i].iColumn - first;
        if (argument < 0 || info->aConstraint[i].op != SQLITE_INDEX_CONSTRAINT_EQ)
            continue;
        if (info->aConstraint[i].usable)
            place[argument] = i;
        else
            is_unusable = 1;
    }
    if (is_unusable)
        return SQLITE_CONSTRAINT; /* another order of the tables gives it */
    for (int i = 0; i < SQL_SETUP_ARGUMENTS; i++) {
        if (place[i] < 0) {
            sqlite3_free(table->zErrMsg);
            table->zErrMsg = sqlite3_mprintf("%s: takes query, workplaces", sql_plan_setups_function.name);
            return SQLITE_ERROR;
        }
        info->aConstraintUsage[place[i]].argvIndex = i + 1;
        info->aConstraintUsage[place[i]].omit = 1;
    }
    info->estimatedCost = 1e4;
    info->estimatedRows = 1000;
    return SQLITE_OK;
}

static int open_setups_cursor(sqlite3_vtab *table, sqlite3_vtab_cursor **cursor)
{
    (void)table;
    setups_cursor *made = sqlite3_malloc(sizeof *made);
    if (!made)
        return SQLITE_NOMEM;
    memset(made, 0, sizeof *made);
    *cursor = &made->base;
    return SQLITE_OK;
}

static void drop_keys(setups_cursor *cursor)
{
    for (size_t i = 0; i < SQL_SETUP_ROWS; i++) {
        sqlite3_value_free(cursor->keys[i]);
        cursor->keys[i] = NULL;
    }
}

static void empty_setups(setups_cursor *cursor)
{
    if (cursor->planner)
        sql_done(&cursor->answer);
    drop_keys(cursor);
    sqlite3_finalize(cursor->query);
    sqlite3_free(cursor->planner);
    cursor->query = NULL;
    cursor->planner = NULL;
    cursor->row = cursor->planned = cursor->number = 0;
    cursor->is_over = 0;
}

static int close_setups(sqlite3_vtab_cursor *base)
{
    empty_setups((setups_cursor *)base);
    sqlite3_free(base);
    return SQLITE_OK;
}

static int refuse_setups(setups_cursor *cursor, int code, char *text)
{
    sqlite3_vtab *table = cursor->base.pVtab;
    sqlite3_free(table->zErrMsg);
    table->zErrMsg = code == SQLITE_INTERRUPT ? NULL : text;
    if (code == SQLITE_INTERRUPT)
        sqlite3_free(text);
    empty_setups(cursor);
    return code;
}

/* The next rows of the query as set-ups. */
static int fill_block(setups_cursor *cursor)
{
    sqlite3 *db = sqlite3_db_handle(cursor->query);
    int step = SQLITE_ROW;
    size_t rows = 0;
    drop_keys(cursor);
    while (rows < SQL_SETUP_ROWS && !cursor->is_over && (step = sqlite3_step(cursor->query)) == SQLITE_ROW) {
        const int count = sqlite3_column_count(cursor->query);
        for (int i = 0; i < count; i++) {
            sqlite3_value *from = sqlite3_column_value(cursor->query, i);
            const sql_value value = read_value(from);
            sql_setups_value(cursor->planner, (size_t)i, &value);
            if (i == cursor->key)
                cursor->keys[rows] = sqlite3_value_dup(from);
        }
        sql_setups_row(cursor->planner);
        rows++;
    }
    cursor->is_over |= step == SQLITE_DONE;
    if (step != SQLITE_ROW && step != SQLITE_DONE)
        return refuse_setups(
            cursor, step & 0xff,
            sqlite3_mprintf("%s: query: %s", sql_plan_setups_function.name, sqlite3_errmsg(db)));
    cursor->planned = sql_plan_block(cursor->planner);
    cursor->row = 0;
    return SQLITE_OK;
}

/* One statement that only reads, whose columns are known. */
static int prepare_setups(setups_cursor *cursor, sqlite3 *db, sqlite3_value *query)
{
    const char *name = sql_plan_setups_function.name, *text = (const char *)sqlite3_value_text(query),
               *rest = NULL;
    if (sqlite3_prepare_v2(db, text ? text : "", -1, &cursor->query, &rest) != SQLITE_OK)
        return refuse_setups(cursor, SQLITE_ERROR,
                             sqlite3_mprintf("%s: query: %s", name, sqlite3_errmsg(db)));
    if (!cursor->query || !sqlite3_stmt_readonly(cursor->query) || sqlite3_column_count(cursor->query) == 0 ||
        rest[strspn(rest, " \t\r\n;")])
        return refuse_setups(
            cursor, SQLITE_ERROR,
            sqlite3_mprintf("%s: query has to be one SELECT, not '%.80s'", name, text ? text : ""));
    for (int i = 0; i < sqlite3_column_count(cursor->query); i++)
        if (sql_setups_column(cursor->planner, sqlite3_column_name(cursor->query, i), &cursor->answer) < 0)
            return refuse_setups(cursor, SQLITE_ERROR, error_text(&cursor->answer));
    cursor->key = sql_setups_key(cursor->planner);
    return fill_block(cursor);
}

static int filter_setups(sqlite3_vtab_cursor *base, int number, const char *text, int count,
                         sqlite3_value **from)
{
    setups_cursor *cursor = (setups_cursor *)base;
    const sql_value workplaces = read_value(from[1]);
    (void)number;
    (void)text;
    (void)count;
    empty_setups(cursor);
    cursor->is_over = sqlite3_value_type(from[0]) == SQLITE_NULL || workplaces.sort == SQL_NULL;
    if (cursor->is_over)
        return SQLITE_OK;
    let_stop(&cursor->answer, ((row_table *)base->pVtab)->db);
    cursor->planner = sql_begin_setups(&workplaces, grow, NULL, &cursor->answer);
    if (!cursor->planner)
        return refuse_setups(cursor, SQLITE_ERROR, error_text(&cursor->answer));
    return prepare_setups(cursor, ((row_table *)base->pVtab)->db, from[0]);
}

static int next_setup(sqlite3_vtab_cursor *base)
{
    setups_cursor *cursor = (setups_cursor *)base;
    cursor->number++;
    if (++cursor->row < cursor->planned || cursor->is_over)
        return SQLITE_OK;
    return fill_block(cursor);
}

static int is_after_setups(sqlite3_vtab_cursor *base)
{
    const setups_cursor *cursor = (setups_cursor *)base;
    return cursor->row >= cursor->planned;
}

static int give_setup(sqlite3_vtab_cursor *base, sqlite3_context *context, int column)
{
    setups_cursor *cursor = (setups_cursor *)base;
    const sql_function *f = &sql_plan_setups_function;
    if (column == SQL_SETUP_KEY) {
        if (cursor->keys[cursor->row])
            sqlite3_result_value(context, cursor->keys[cursor->row]);
    } else if (column < SQL_SETUP_OWN + (int)f->column_count) {
        const int is_json =
            column >= SQL_SETUP_OWN && f->columns[column - SQL_SETUP_OWN].gives == SQL_GIVES_JSON;
        give(context, sql_setups_figure(cursor->planner, cursor->row, (size_t)column, &cursor->answer),
             is_json);
    }
    return SQLITE_OK;
}

static int give_setup_number(sqlite3_vtab_cursor *cursor, sqlite3_int64 *number)
{
    *number = (sqlite3_int64)((setups_cursor *)cursor)->number;
    return SQLITE_OK;
}

static const sqlite3_module setups_module = {
    .xConnect = open_setups,
    .xBestIndex = choose_setups,
    .xDisconnect = close_table,
    .xOpen = open_setups_cursor,
    .xClose = close_setups,
    .xFilter = filter_setups,
    .xNext = next_setup,
    .xEof = is_after_setups,
    .xColumn = give_setup,
    .xRowid = give_setup_number,
};

/* ---- loading ---------------------------------------------------------------------------------------------- */

static int add_function(sqlite3 *db, const sql_function *f)
{
    void *data = (void *)(uintptr_t)f; /* only ever read */
    if (f->shape == SQL_STATUS_OF_TEXT_FORM || f->shape == SQL_ERROR_OF_TEXT_FORM)
        return SQLITE_OK; /* arguments have no types here: the form of that name takes text as well */
    if (f->shape == SQL_ROWS_FORM)
        return sqlite3_create_module_v2(db, f->name, &row_module, data, NULL);
    if (f->shape == SQL_AGGREGATE_FORM)
        return sqlite3_create_function_v2(db, f->name, -1, SQL_FLAGS, data, NULL, step, end, NULL);
    return sqlite3_create_function_v2(db, f->name, -1, SQL_FLAGS, data,
                                      find_quick((size_t)(f - sql_functions)), NULL, NULL, NULL);
}

static int add_all(sqlite3 *db, char **error, const sqlite3_api_routines *api)
{
    SQLITE_EXTENSION_INIT2(api)
    if (sqlite3_libversion_number() < 3031000) {
        *error = sqlite3_mprintf("ferrule needs SQLite 3.31 or newer");
        return SQLITE_ERROR;
    }
    int done = sqlite3_create_function_v2(db, "fer_version", 0, SQL_FLAGS, NULL, version, NULL, NULL, NULL);
    for (size_t i = 0; i < sql_function_count && done == SQLITE_OK; i++)
        done = add_function(db, &sql_functions[i]);
    if (done == SQLITE_OK)
        done = sqlite3_create_module_v2(db, sql_plan_setups_function.name, &setups_module, NULL, NULL);
    return done;
}

/* SQLite looks for a name made of the file's: mod_ferrule.so or ferrule.so. */
#define EXPORTED __attribute__((visibility("default")))
EXPORTED int sqlite3_modferrule_init(sqlite3 *db, char **error, const sqlite3_api_routines *api);
EXPORTED int sqlite3_ferrule_init(sqlite3 *db, char **error, const sqlite3_api_routines *api);

int sqlite3_modferrule_init(sqlite3 *db, char **error, const sqlite3_api_routines *api)
{
    return add_all(db, error, api);
}

int sqlite3_ferrule_init(sqlite3 *db, char **error, const sqlite3_api_routines *api)
{
    return add_all(db, error, api);
}
