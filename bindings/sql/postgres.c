/* SPDX-License-Identifier: MIT */
/* The SQL functions as an extension of PostgreSQL. Nothing of ours is allocated when PostgreSQL leaves by a jump: an
 * answer is emptied before an error is raised, and what PostgreSQL may raise from is called only while no JSON is allocated. */
#include <postgres.h>

#include <catalog/pg_type_d.h>
#include <executor/spi.h>
#include <fmgr.h>
#include <funcapi.h>
#include <mb/pg_wchar.h>
#include <miscadmin.h>
#include <utils/array.h>
#include <utils/builtins.h>
#include <utils/lsyscache.h>
#include <utils/memutils.h>
#include <utils/tuplestore.h>

#include "call.h"

#include <string.h>

PG_MODULE_MAGIC;

/* ---- values ----------------------------------------------------------------------------------------------- */

/* Text in UTF-8, which it mostly is already. */
static void read_text(sql_value *value, const text *from)
{
    value->sort = SQL_TEXT;
    value->text = VARDATA_ANY(from);
    value->length = (size_t)VARSIZE_ANY_EXHDR(from);
    if (GetDatabaseEncoding() == PG_UTF8)
        return;
    const char *changed = pg_server_to_any(value->text, (int)value->length, PG_UTF8);
    if (changed != value->text) {
        value->text = changed;
        value->length = strlen(changed);
    }
}

static text *make_text(const char *from, size_t length)
{
    const char *changed = pg_any_to_server(from, (int)length, PG_UTF8);
    return cstring_to_text_with_len(changed, changed == from ? (int)length : (int)strlen(changed));
}

static pg_attribute_always_inline sql_value read_value(FunctionCallInfo fcinfo, int place,
                                                       const sql_parameter *p)
{
    sql_value value = {SQL_NULL, 0, 0, NULL, 0, NULL};
    if (PG_ARGISNULL(place))
        return value;
    switch (p->reads) {
    case SQL_READS_NUMBER:
        value.sort = SQL_NUMBER;
        value.number = PG_GETARG_FLOAT8(place);
        break;
    case SQL_READS_WHOLE:
        value.sort = SQL_WHOLE;
        value.whole = PG_GETARG_INT64(place);
        break;
    case SQL_READS_BOOL:
        value.sort = SQL_BOOL;
        value.whole = PG_GETARG_BOOL(place);
        break;
    default:
        read_text(&value, PG_GETARG_TEXT_PP(place));
    }
    return value;
}

/* An array, as JSON. Everything that PostgreSQL may raise from comes before the JSON is made. */
static sql_json *read_array(ArrayType *array)
{
    const bool is_numbers = ARR_ELEMTYPE(array) == FLOAT8OID;
    Datum *items;
    bool *nulls;
    int count;
    if (is_numbers)
        deconstruct_array(array, FLOAT8OID, sizeof(float8), FLOAT8PASSBYVAL, TYPALIGN_DOUBLE, &items, &nulls,
                          &count);
    else
        deconstruct_array(array, TEXTOID, -1, false, TYPALIGN_INT, &items, &nulls, &count);
    sql_value *texts = palloc0((Size)(count + 1) * sizeof *texts);
    for (int i = 0; i < count && !is_numbers; i++)
        if (!nulls[i])
            read_text(&texts[i], DatumGetTextPP(items[i]));
    sql_json *list = sql_new_items();
    for (int i = 0; i < count; i++) {
        if (nulls[i])
            sql_add_null(list);
        else if (is_numbers)
            sql_add_number(list, DatumGetFloat8(items[i]));
        else
            sql_add_text(list, texts[i].text, texts[i].length);
    }
    return list;
}

static Datum make_datum(sql_value value, bool *is_null)
{
    *is_null = false;
    switch (value.sort) {
    case SQL_NUMBER:
        return Float8GetDatum(value.number);
    case SQL_WHOLE:
        return Int64GetDatum(value.whole);
    case SQL_BOOL:
        return BoolGetDatum(value.whole != 0);
    case SQL_TEXT:
        return PointerGetDatum(make_text(value.text, value.length));
    default:
        *is_null = true;
        return (Datum)0;
    }
}

/* ---- interrupts ------------------------------------------------------------------------------------------- */

/* CHECK_FOR_INTERRUPTS() would jump past memory of ours: this only looks, and raise_error() has the jump. */
static int is_interrupted(void *unused)
{
    (void)unused;
    return INTERRUPTS_PENDING_CONDITION() && INTERRUPTS_CAN_BE_PROCESSED() &&
           (QueryCancelPending || ProcDiePending);
}

static const bind_stop cancel = {is_interrupted, NULL, 0};

/* ---- errors ----------------------------------------------------------------------------------------------- */

static int sqlstate(const sql_answer *answer)
{
    const char *rule = answer->rule;
    const char *end = "_OUT_OF_RANGE";
    if (!rule)
        return ERRCODE_INVALID_PARAMETER_VALUE;
    if (strncmp(rule, "TEXT_", 5) == 0)
        return ERRCODE_INVALID_TEXT_REPRESENTATION;
    const size_t length = strlen(rule), end_length = strlen(end);
    return length > end_length && strcmp(rule + length - end_length, end) == 0
               ? ERRCODE_NUMERIC_VALUE_OUT_OF_RANGE
               : ERRCODE_INVALID_PARAMETER_VALUE;
}

/* The answer is emptied first: ereport does not come back. */
static void raise_error(sql_answer *answer)
{
    const int state = sqlstate(answer), number = (int)answer->status;
    const char *rule = answer->rule;
    const sql_shape shape = answer->function->shape;
    const char *library = answer->function->library ? answer->function->library->name : "";
    char message[sizeof answer->message];
    const int stopped = answer->stop.stopped;
    strcpy(message, answer->message);
    sql_done(answer);
    if (stopped) {
        CHECK_FOR_INTERRUPTS();
        ereport(ERROR, (errcode(ERRCODE_QUERY_CANCELED), errmsg("%s", message)));
    }
    const char *shown = pg_any_to_server(message, (int)strlen(message), PG_UTF8);
    ereport(ERROR,
            (errcode(state), errmsg("%s", shown), rule ? errdetail("Status %s, number %d.", rule, number) : 0,
             rule && (shape == SQL_NUMBER_FORM || shape == SQL_ROWS_FORM)
                 ? errhint("fer_%s_status with the same arguments gives the status in place of an error.",
                           library)
                 : 0));
}

/* ---- functions that give one value ------------------------------------------------------------------------ */

static size_t read_arguments(FunctionCallInfo fcinfo, int first, const sql_function *f, sql_value *arguments)
{
    const size_t count = (size_t)(PG_NARGS() - first);
    for (size_t i = 0; i < count && i < f->parameter_count; i++)
        arguments[i] = read_value(fcinfo, first + (int)i, &f->parameters[i]);
    return count;
}

static void read_arguments_with_arrays(FunctionCallInfo fcinfo, const sql_function *f, sql_value *arguments)
{
    for (size_t i = 0; i < f->parameter_count; i++) /* first what may raise an error */
        if (f->parameters[i].reads != SQL_READS_LIST)
            arguments[i] = read_value(fcinfo, (int)i, &f->parameters[i]);
        else
            (void)PG_GETARG_ARRAYTYPE_P((int)i);
    for (size_t i = 0; i < f->parameter_count; i++)
        if (f->parameters[i].reads == SQL_READS_LIST) {
            arguments[i] = (sql_value){SQL_ITEMS, 0, 0, NULL, 0, NULL};
            arguments[i].items = read_array(PG_GETARG_ARRAYTYPE_P((int)i));
        }
}

static Datum give_held(FunctionCallInfo fcinfo, sql_answer *answer);

static pg_attribute_always_inline Datum give(FunctionCallInfo fcinfo, sql_answer *answer)
{
    bool is_null;
    if (answer->failed)
        raise_error(answer);
    if (answer->document || answer->list_count || answer->function->shape == SQL_ROWS_FORM)
        return give_held(fcinfo, answer);
    const Datum datum = make_datum(answer->value, &is_null);
    if (is_null)
        PG_RETURN_NULL();
    return datum;
}

static Datum call(FunctionCallInfo fcinfo, size_t place)
{
    const sql_function *f = &sql_functions[place];
    sql_value arguments[SQL_MAXIMUM_ARGUMENTS];
    sql_answer answer;
    answer.stop = cancel;
    sql_call(f, arguments, read_arguments(fcinfo, 0, f, arguments), &answer);
    return give(fcinfo, &answer);
}

static Datum call_with_arrays(FunctionCallInfo fcinfo, size_t place)
{
    const sql_function *f = &sql_functions[place];
    sql_value arguments[SQL_MAXIMUM_ARGUMENTS] = {{SQL_NULL, 0, 0, NULL, 0, NULL}};
    sql_answer answer;
    answer.stop = cancel;
    read_arguments_with_arrays(fcinfo, f, arguments);
    sql_call(f, arguments, f->parameter_count, &answer);
    for (size_t i = 0; i < f->parameter_count; i++)
        if (arguments[i].sort == SQL_ITEMS)
            sql_drop_items(arguments[i].items);
    return give(fcinfo, &answer);
}

/* ---- functions that give rows ----------------------------------------------------------------------------- */

static HeapTuple make_row(sql_answer *answer, TupleDesc shape, size_t row)
{
    Datum values[128];
    bool nulls[128];
    for (size_t i = 0; i < answer->function->column_count; i++)
        values[i] = make_datum(sql_figure(answer, row, i), &nulls[i]);
    return heap_form_tuple(shape, values, nulls);
}

static Datum make_result(FunctionCallInfo fcinfo, sql_answer *answer, bool *is_null)
{
    const sql_function *f = answer->function;
    TupleDesc shape;
    *is_null = false;
    if (f->shape != SQL_ROWS_FORM)
        return make_datum(answer->value, is_null);
    if (f->rows) {
        InitMaterializedSRF(fcinfo, 0);
        ReturnSetInfo *set = (ReturnSetInfo *)fcinfo->resultinfo;
        for (size_t i = 0; i < answer->row_count; i++) {
            CHECK_FOR_INTERRUPTS();
            tuplestore_puttuple(set->setResult, make_row(answer, set->setDesc, i));
        }
        return (Datum)0;
    }
    *is_null = answer->row_count == 0;
    if (*is_null)
        return (Datum)0;
    if (get_call_result_type(fcinfo, NULL, &shape) != TYPEFUNC_COMPOSITE ||
        shape->natts != (int)f->column_count)
        elog(ERROR, "%s: the type of its result is not that of this version of ferrule", f->name);
    return HeapTupleGetDatum(make_row(answer, BlessTupleDesc(shape), 0));
}

/* What is in use while a result is made is lists and JSON of our own; they are given back whatever happens. */
static pg_noinline Datum give_held(FunctionCallInfo fcinfo, sql_answer *answer)
{
    volatile Datum given = (Datum)0;
    bool is_null = false;
    PG_TRY();
    {
        given = make_result(fcinfo, answer, &is_null);
    }
    PG_CATCH();
    {
        sql_done(answer);
        PG_RE_THROW();
    }
    PG_END_TRY();
    sql_done(answer);
    fcinfo->isnull = is_null;
    return given;
}

/* ---- aggregates ------------------------------------------------------------------------------------------- */

typedef struct pg_gathered {
    const sql_function *function;
    sql_gathered *gathered;
} pg_gathered;

static void *grow(void *context, void *old, size_t bytes)
{
    if (!AllocHugeSizeIsValid(bytes))
        return NULL;
    return old ? repalloc_huge(old, bytes) : MemoryContextAllocHuge(context, bytes);
}

static Datum step(FunctionCallInfo fcinfo, size_t place)
{
    const sql_function *f = &sql_functions[place];
    sql_value arguments[SQL_MAXIMUM_ARGUMENTS];
    sql_answer answer;
    MemoryContext context;
    if (!AggCheckCallContext(fcinfo, &context))
        elog(ERROR, "%s: this is a step of an aggregate", f->name);
    pg_gathered *state = PG_ARGISNULL(0) ? NULL : (pg_gathered *)PG_GETARG_POINTER(0);
    if (!state) {
        state = MemoryContextAllocZero(context, sizeof *state);
        state->function = f;
    }
    const size_t count = read_arguments(fcinfo, 1, f, arguments);
    answer.stop = cancel;
    if (sql_gather(f, &state->gathered, arguments, count, grow, context, &answer) < 0)
        raise_error(&answer);
    sql_done(&answer);
    PG_RETURN_POINTER(state);
}

PG_FUNCTION_INFO_V1(sql_aggregate_end);
Datum sql_aggregate_end(PG_FUNCTION_ARGS)
{
    sql_answer answer;
    if (!AggCheckCallContext(fcinfo, NULL))
        elog(ERROR, "ferrule: this is the end of an aggregate");
    if (PG_ARGISNULL(0))
        PG_RETURN_NULL();
    const pg_gathered *state = (const pg_gathered *)PG_GETARG_POINTER(0);
    answer.stop = cancel;
    sql_gathered_call(state->function, state->gathered, &answer);
    return give(fcinfo, &answer);
}

/* ---- set-ups of the rows of a query ------------------------------------------------------------------------ */

/* A query as it is read, a block at a time. */
typedef struct query_reader {
    sql_planner *planner;
    sql_answer answer;
    TupleDesc rows; /* of the query */
    int key;
    FmgrInfo key_text;
} query_reader;

static bool is_taken_type(Oid type)
{
    static const Oid taken[] = {FLOAT8OID, FLOAT4OID, NUMERICOID, INT2OID,    INT4OID,
                                INT8OID,   BOOLOID,   TEXTOID,    VARCHAROID, UNKNOWNOID};
    for (size_t i = 0; i < sizeof taken / sizeof taken[0]; i++)
        if (taken[i] == type)
            return true;
    return false;
}

static sql_value number_of(double number)
{
    return (sql_value){SQL_NUMBER, number, 0, NULL, 0, NULL};
}

static sql_value whole_of(sql_sort sort, int64 whole)
{
    return (sql_value){sort, 0, whole, NULL, 0, NULL};
}

static sql_value read_datum(Datum datum, Oid type)
{
    sql_value value = {SQL_NULL, 0, 0, NULL, 0, NULL};
    switch (type) {
    case FLOAT8OID:
        return number_of(DatumGetFloat8(datum));
    case FLOAT4OID:
        return number_of(DatumGetFloat4(datum));
    case NUMERICOID:
        return number_of(DatumGetFloat8(DirectFunctionCall1(numeric_float8_no_overflow, datum)));
    case INT2OID:
        return whole_of(SQL_WHOLE, DatumGetInt16(datum));
    case INT4OID:
        return whole_of(SQL_WHOLE, DatumGetInt32(datum));
    case INT8OID:
        return whole_of(SQL_WHOLE, DatumGetInt64(datum));
    case BOOLOID:
        return whole_of(SQL_BOOL, DatumGetBool(datum));
    case UNKNOWNOID:
        value.sort = SQL_TEXT;
        value.text = DatumGetCString(datum);
        value.length = strlen(value.text);
        return value;
    default:
        read_text(&value, DatumGetTextPP(datum));
        return value;
    }
}

/* The query's columns; one whose type is none of ours is refused, but for the key. */
static void look_at_columns(query_reader *reader)
{
    const char *name = sql_plan_setups_function.name;
    for (int i = 0; i < reader->rows->natts; i++)
        if (sql_setups_column(reader->planner, NameStr(TupleDescAttr(reader->rows, i)->attname),
                              &reader->answer) < 0)
            raise_error(&reader->answer);
    reader->key = sql_setups_key(reader->planner);
    for (int i = 0; i < reader->rows->natts; i++) {
        const Form_pg_attribute column = TupleDescAttr(reader->rows, i);
        if (i != reader->key && !is_taken_type(column->atttypid))
            ereport(ERROR, (errcode(ERRCODE_INVALID_PARAMETER_VALUE),
                            errmsg("%s: the query's column %s is neither a number, text nor a truth", name,
                                   NameStr(column->attname))));
    }
    if (reader->key >= 0) {
        Oid function;
        bool is_varlena;
        getTypeOutputInfo(TupleDescAttr(reader->rows, reader->key)->atttypid, &function, &is_varlena);
        fmgr_info(function, &reader->key_text);
    }
}

/* The rows that were fetched, and their keys as text. */
static void read_block(query_reader *reader, Datum *keys, bool *no_keys)
{
    for (uint64 row = 0; row < SPI_processed; row++) {
        const HeapTuple tuple = SPI_tuptable->vals[row];
        no_keys[row] = true;
        for (int i = 0; i < reader->rows->natts; i++) {
            bool is_null;
            const Datum datum = heap_getattr(tuple, i + 1, reader->rows, &is_null);
            if (i == reader->key && !is_null) {
                keys[row] = PointerGetDatum(cstring_to_text(OutputFunctionCall(&reader->key_text, datum)));
                no_keys[row] = false;
            }
            const sql_value nothing = {SQL_NULL, 0, 0, NULL, 0, NULL};
            const sql_value value = is_null || i == reader->key
                                        ? nothing
                                        : read_datum(datum, TupleDescAttr(reader->rows, i)->atttypid);
            sql_setups_value(reader->planner, (size_t)i, &value);
        }
        sql_setups_row(reader->planner);
    }
}

static void give_block(query_reader *reader, ReturnSetInfo *set, const Datum *keys, const bool *no_keys)
{
    const size_t columns = SQL_SETUP_OWN + sql_plan_setups_function.column_count;
    const size_t rows = sql_plan_block(reader->planner);
    Datum values[128];
    bool nulls[128];
    for (size_t row = 0; row < rows; row++) {
        for (size_t i = 0; i < columns; i++)
            values[i] = make_datum(sql_setups_figure(reader->planner, row, i, &reader->answer), &nulls[i]);
        values[SQL_SETUP_KEY] = keys[row];
        nulls[SQL_SETUP_KEY] = no_keys[row];
        tuplestore_putvalues(set->setResult, set->setDesc, values, nulls);
    }
}

static void run_query(query_reader *reader, const char *query, ReturnSetInfo *set)
{
    MemoryContext here = /* the macro of PostgreSQL is no standard C */
        AllocSetContextCreateInternal(CurrentMemoryContext, "ferrule set-ups", ALLOCSET_DEFAULT_SIZES);
    Datum *keys = palloc0(SQL_SETUP_ROWS * sizeof *keys);
    bool *no_keys = palloc0(SQL_SETUP_ROWS * sizeof *no_keys);
    const Portal portal = SPI_cursor_open_with_args(NULL, query, 0, NULL, NULL, NULL, true, 0);
    reader->rows = portal->tupDesc;
    if (!reader->rows)
        ereport(ERROR, (errcode(ERRCODE_INVALID_PARAMETER_VALUE),
                        errmsg("%s: query has to be one SELECT", sql_plan_setups_function.name)));
    look_at_columns(reader);
    for (;;) {
        CHECK_FOR_INTERRUPTS();
        SPI_cursor_fetch(portal, true, SQL_SETUP_ROWS);
        if (SPI_processed == 0)
            break;
        MemoryContext before = MemoryContextSwitchTo(here);
        read_block(reader, keys, no_keys);
        give_block(reader, set, keys, no_keys);
        MemoryContextSwitchTo(before);
        MemoryContextReset(here);
        SPI_freetuptable(SPI_tuptable);
    }
    SPI_cursor_close(portal);
}

PG_FUNCTION_INFO_V1(sql_plan_setups_rows);
Datum sql_plan_setups_rows(PG_FUNCTION_ARGS)
{
    const char *query = text_to_cstring(PG_GETARG_TEXT_PP(0));
    sql_value workplaces = {SQL_NULL, 0, 0, NULL, 0, NULL};
    query_reader *reader = palloc0(sizeof *reader);
    read_text(&workplaces, PG_GETARG_TEXT_PP(1));
    InitMaterializedSRF(fcinfo, 0);
    reader->answer.stop = cancel;
    reader->planner = sql_begin_setups(&workplaces, grow, CurrentMemoryContext, &reader->answer);
    if (!reader->planner)
        raise_error(&reader->answer);
    if (SPI_connect() != SPI_OK_CONNECT)
        elog(ERROR, "ferrule: SPI_connect");
    PG_TRY();
    {
        run_query(reader, query, (ReturnSetInfo *)fcinfo->resultinfo);
    }
    PG_CATCH();
    {
        sql_done(&reader->answer);
        PG_RE_THROW();
    }
    PG_END_TRY();
    sql_done(&reader->answer);
    SPI_finish();
    return (Datum)0;
}

PG_FUNCTION_INFO_V1(sql_version);
Datum sql_version(PG_FUNCTION_ARGS)
{
    (void)fcinfo;
    PG_RETURN_TEXT_P(cstring_to_text(FERRULE_VERSION));
}

/* ---- the short way from numbers to a number --------------------------------------------------------------- */

#define SQL_SOURCE                  FunctionCallInfo
#define SQL_QUICK_NUMBER(place, to) (to) = DatumGetFloat8(from->args[place].value)
#define SQL_QUICK_BOOL(place, to)   (to) = DatumGetBool(from->args[place].value)
#define SQL_QUICK_WHOLE(place, to)                                                                           \
    do {                                                                                                     \
        const int64 whole = DatumGetInt64(from->args[place].value);                                          \
        if (whole < INT32_MIN || whole > INT32_MAX)                                                          \
            return 0;                                                                                        \
        (to) = (int)whole;                                                                                   \
    } while (0)
#define SQL_QUICK_WORD(place, type, to)                                                                      \
    if (!quick_word(from, place, &bind_kinds[BIND_##type], &(to)))                                           \
    return 0

static inline int quick_word(FunctionCallInfo from, int place, const bind_kind *kind, void *to)
{
    const text *word = (const text *)DatumGetPointer(from->args[place].value);
    if (VARATT_IS_EXTENDED(word) && !VARATT_IS_SHORT(word))
        return 0;
    return sql_quick_word(kind, VARDATA_ANY(word), (size_t)VARSIZE_ANY_EXHDR(word), to);
}

#include "frames.h"
#include "quick.h"

/* ---- a symbol for each function, so that a script of an older version still finds its own ----------------- */

#define X(symbol, place, takes_arrays)                                                                       \
    PG_FUNCTION_INFO_V1(symbol);                                                                             \
    Datum symbol(PG_FUNCTION_ARGS)                                                                           \
    {                                                                                                        \
        return takes_arrays ? call_with_arrays(fcinfo, place) : call(fcinfo, place);                         \
    }
#define Q(symbol, place, function)                                                                           \
    PG_FUNCTION_INFO_V1(symbol);                                                                             \
    Datum symbol(PG_FUNCTION_ARGS)                                                                           \
    {                                                                                                        \
        double number;                                                                                       \
        if (quick_##function(fcinfo, &number))                                                               \
            PG_RETURN_FLOAT8(number);                                                                        \
        return call(fcinfo, place);                                                                          \
    }
#define Y(symbol, place)                                                                                     \
    PG_FUNCTION_INFO_V1(symbol);                                                                             \
    Datum symbol(PG_FUNCTION_ARGS)                                                                           \
    {                                                                                                        \
        return step(fcinfo, place);                                                                          \
    }
#include "symbols.h"
