/* SPDX-License-Identifier: MIT */
/* Every SQL function through SQLite, in this process: right, odd and wrong values, any number of them. A call gives a value
 * or an error with a message, twice the same; numbers are finite; a text is UTF-8 as long as all texts that went in are. */
#include "call.h"
#include "frame.h"
#include "mutate.h"

#include <math.h>
#include <sqlite3.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

int sqlite3_ferrule_init(sqlite3 *db, char **error, const sqlite3_api_routines *api);
int LLVMFuzzerInitialize(int *count, char ***arguments);

enum { VALUES_MAXIMUM = 72, TEXT_MAXIMUM = 6000 };

/* A value to bind. */
typedef struct given {
    int type; /* as SQLite's */
    double number;
    int64_t whole;
    size_t length;
    char *text;
} given;

static sqlite3 *db;
static const char *playing = "sqlite";

#define PROMISE(condition) FUZZ_REQUIRE(condition, playing)

int LLVMFuzzerInitialize(int *count, char ***arguments)
{
    char *error = NULL;
    (void)count, (void)arguments;
    PROMISE(sqlite3_open(":memory:", &db) == SQLITE_OK);
    PROMISE(sqlite3_ferrule_init(db, &error, NULL) == SQLITE_OK);
    return 0;
}

/* ---- values ----------------------------------------------------------------------------------------------- */

typedef struct text_buffer {
    char *text;
    size_t length;
} text_buffer;

static void add(text_buffer *buffer, const char *text)
{
    const size_t length = strlen(text);
    if (buffer->length + length < TEXT_MAXIMUM) {
        memcpy(buffer->text + buffer->length, text, length + 1);
        buffer->length += length;
    }
}

static fuzz_limits limits_of(const char *name, const bind_kind *kind)
{
    size_t longest = 0;
    fuzz_limits limits = {1.0, 0.0, 10.0};
    if (kind && kind->form == BIND_QUANTITY) {
        limits = fuzz_member_limits[kind - bind_kinds][0];
    }
    for (const fuzz_usual *usual = fuzz_usuals; usual->name; usual++) {
        const size_t length = strlen(usual->name);
        if (length > longest && strncmp(name, usual->name, length) == 0) {
            longest = length;
            limits = (fuzz_limits){usual->number, 0.0, 10.0 * usual->number};
        }
    }
    return limits;
}

static void add_value(fuzz_stream *stream, text_buffer *buffer, const bind_kind *kind, fuzz_limits limits,
                      int quoted, int depth);

static void add_odd(fuzz_stream *stream, text_buffer *buffer)
{
    static const char *const odd[] = {
        "null",        "1e999",       "-0.0",      "\"\"",  "{}",       "[]",
        "true",        "[[[[[]]]]]",  "{\"a\":1}", "\"1\"", "{",        "]",
        "\"\\u0000\"", "\"\\ud800\"", "nan",       "1e308", "\"20 %\"", "12345678901234567890"};
    add(buffer, odd[fuzz_byte(stream) % (sizeof odd / sizeof *odd)]);
}

static void add_members(fuzz_stream *stream, text_buffer *buffer, const bind_kind *kind, int depth)
{
    const char *comma = "";
    add(buffer, "{");
    for (const bind_member *m = kind->members; m->name; m++) {
        if (m->optional && fuzz_byte(stream) % 4 == 0) {
            continue;
        }
        add(buffer, comma), add(buffer, "\""), add(buffer, m->name), add(buffer, "\":");
        add_value(stream, buffer, m->kind, fuzz_member_limits[kind - bind_kinds][m - kind->members], 1,
                  depth + 1);
        comma = ",";
    }
    add(buffer, "}");
}

/* A value as text or JSON. */
static void add_value(fuzz_stream *stream, text_buffer *buffer, const bind_kind *kind, fuzz_limits limits,
                      int quoted, int depth)
{
    char text[256];
    const char *const quote = quoted ? "\"" : "";
    int words = 0;
    if (fuzz_byte(stream) > 250 || depth > 5) {
        add_odd(stream, buffer);
        return;
    }
    switch (kind->form) {
    case BIND_QUANTITY:
        (void)snprintf(text, sizeof text, "%s%.17g %s%s", quote, fuzz_number(stream, limits, 0),
                       fer_unit_symbol(bind_texts[kind - bind_kinds].base), quote);
        break;
    case BIND_STRUCT:
    case BIND_FOUND:
        add_members(stream, buffer, kind, depth);
        return;
    case BIND_ENUM:
        while (kind->words[words].name) {
            words++;
        }
        (void)snprintf(text, sizeof text, "%s%s%s", quote, kind->words[fuzz_byte(stream) % words].name,
                       quote);
        break;
    case BIND_SET:
        (void)snprintf(text, sizeof text, "[]");
        break;
    case BIND_BOOL:
        (void)snprintf(text, sizeof text, fuzz_byte(stream) % 2 ? "true" : "false");
        break;
    case BIND_INTEGER:
        (void)snprintf(text, sizeof text, "%d", fuzz_byte(stream) - 3);
        break;
    default:
        (void)snprintf(text, sizeof text, "%.17g", fuzz_number(stream, limits, 0));
    }
    add(buffer, text);
}

static void as_text(fuzz_stream *stream, const sql_parameter *p, given *value)
{
    text_buffer buffer = {value->text, 0};
    const fuzz_limits limits = limits_of(p->name, p->kind);
    buffer.text[0] = '\0';
    if (p->reads == SQL_READS_LIST) {
        const int count = fuzz_byte(stream) % 5;
        add(&buffer, "[");
        for (int i = 0; i < count; i++) {
            add(&buffer, i ? "," : "");
            add_value(stream, &buffer, p->kind, limits, 1, 1);
        }
        add(&buffer, "]");
    } else {
        add_value(stream, &buffer, p->kind, limits, 0, 0);
    }
    value->type = SQLITE_TEXT;
    value->length = buffer.length;
}

/* Raw: any bytes as text or blob, any number. */
static void raw(fuzz_stream *stream, given *value)
{
    static const int types[] = {SQLITE_NULL, SQLITE_TEXT, SQLITE_BLOB, SQLITE_INTEGER, SQLITE_FLOAT};
    const fuzz_limits any = {1.0, -1e6, 1e6};
    value->type = types[fuzz_byte(stream) % 5];
    value->number = fuzz_number(stream, any, 1);
    value->whole = (int64_t)((uint64_t)fuzz_byte(stream) << 56 | fuzz_byte(stream));
    value->length = fuzz_byte(stream) % 64;
    for (size_t i = 0; i < value->length; i++) {
        value->text[i] = (char)fuzz_byte(stream);
    }
}

static void make_value(fuzz_stream *stream, const sql_parameter *p, given *value)
{
    if (!p || fuzz_byte(stream) > 244) {
        raw(stream, value);
        return;
    }
    switch (p->reads) {
    case SQL_READS_NUMBER:
        value->type = SQLITE_FLOAT;
        value->number = fuzz_number(stream, limits_of(p->name, p->kind), 0);
        break;
    case SQL_READS_WHOLE:
    case SQL_READS_BOOL:
        value->type = SQLITE_INTEGER;
        value->whole =
            p->reads == SQL_READS_BOOL ? fuzz_byte(stream) % 2 : (int64_t)limits_of(p->name, p->kind).usual;
        value->whole += fuzz_byte(stream) % 8;
        break;
    default:
        if (p->kind) {
            as_text(stream, p, value);
        } else {
            raw(stream, value);
        }
    }
}

/* ---- calls ------------------------------------------------------------------------------------------------ */

static void bind(sqlite3_stmt *statement, int place, const given *value)
{
    switch (value->type) {
    case SQLITE_FLOAT:
        (void)sqlite3_bind_double(statement, place, value->number);
        break;
    case SQLITE_INTEGER:
        (void)sqlite3_bind_int64(statement, place, value->whole);
        break;
    case SQLITE_TEXT:
        (void)sqlite3_bind_text64(statement, place, value->text, value->length, SQLITE_TRANSIENT,
                                  SQLITE_UTF8);
        break;
    case SQLITE_BLOB:
        (void)sqlite3_bind_blob64(statement, place, value->text, value->length, SQLITE_TRANSIENT);
        break;
    default:
        (void)sqlite3_bind_null(statement, place);
    }
}

/* What a call gave, in a number that tells answers apart. */
typedef struct answer {
    uint64_t sum;
    int code, rows;
} answer;

static void count_bytes(answer *a, const void *bytes, size_t size)
{
    for (size_t i = 0; i < size; i++) {
        a->sum = (a->sum ^ ((const unsigned char *)bytes)[i]) * UINT64_C(0x100000001B3);
    }
}

static void read_columns(sqlite3_stmt *statement, answer *a)
{
    for (int i = 0; i < sqlite3_column_count(statement); i++) {
        const int type = sqlite3_column_type(statement, i);
        const double number = sqlite3_column_double(statement, i);
        PROMISE(type != SQLITE_FLOAT || isfinite(number));
        count_bytes(a, &type, sizeof type);
        if (type == SQLITE_FLOAT) {
            count_bytes(a, &number, sizeof number);
        } else if (type != SQLITE_NULL) {
            const char *const text = (const char *)sqlite3_column_text(statement, i);
            const size_t length = (size_t)sqlite3_column_bytes(statement, i);
            PROMISE(text && strlen(text) == length); /* no zero byte within */
            count_bytes(a, text, length);
        }
    }
}

static answer play(const char *sql, const given *values, int count)
{
    answer a = {UINT64_C(0xCBF29CE484222325), 0, 0};
    sqlite3_stmt *statement = NULL;
    a.code = sqlite3_prepare_v2(db, sql, -1, &statement, NULL);
    if (a.code == SQLITE_OK) {
        for (int i = 0; i < count; i++) {
            bind(statement, i + 1, &values[i]);
        }
        while ((a.code = sqlite3_step(statement)) == SQLITE_ROW && a.rows < 50) {
            read_columns(statement, &a);
            a.rows++;
        }
    }
    if (a.code != SQLITE_DONE && a.code != SQLITE_ROW) {
        const char *const message = sqlite3_errmsg(db);
        PROMISE(message && *message && a.code != SQLITE_INTERNAL && a.code != SQLITE_CORRUPT &&
                a.code != SQLITE_MISUSE);
        count_bytes(&a, message, strlen(message));
    }
    (void)sqlite3_finalize(statement);
    return a;
}

static void write_sql(text_buffer *buffer, const sql_function *f, int count, int rows)
{
    char place[64];
    add(buffer, f->shape == SQL_ROWS_FORM ? "SELECT * FROM " : "SELECT ");
    add(buffer, f->name), add(buffer, "(");
    for (int i = 0; i < count; i++) {
        (void)snprintf(place, sizeof place, "%s%s%d", i ? ", " : "",
                       f->shape == SQL_AGGREGATE_FORM ? "column" : "?", i + 1);
        add(buffer, place);
    }
    add(buffer, ")");
    for (int row = 0; f->shape == SQL_AGGREGATE_FORM && row < rows; row++) {
        add(buffer, row ? "), (" : " FROM (VALUES (");
        for (int i = 0; i < count; i++) {
            (void)snprintf(place, sizeof place, "%s?%d", i ? ", " : "", row * count + i + 1);
            add(buffer, place);
        }
        add(buffer, row + 1 == rows ? "))" : "");
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static given values[VALUES_MAXIMUM];
    static char texts[VALUES_MAXIMUM][TEXT_MAXIMUM], sql[TEXT_MAXIMUM];
    fuzz_stream stream = {data, size, 0, {0.0}, 0, 0};
    const unsigned high = fuzz_byte(&stream);
    const sql_function *const f = &sql_functions[(high << 8 | fuzz_byte(&stream)) % sql_function_count];
    const uint8_t way = fuzz_byte(&stream);
    text_buffer buffer = {sql, 0};
    const int declared = (int)f->parameter_count, required = (int)f->required;
    int count = way < 128   ? declared
                : way < 240 ? required
                            : way % 16,
        rows = f->shape == SQL_AGGREGATE_FORM ? 1 + way % 5 : 1;
    rows = count > 0 && rows * count > VALUES_MAXIMUM ? VALUES_MAXIMUM / count : rows;
    playing = f->name;
    for (int i = 0; i < count * rows && i < VALUES_MAXIMUM; i++) {
        values[i] = (given){SQLITE_NULL, 0.0, 0, 0, texts[i]};
        make_value(&stream, i % count < declared ? &f->parameters[i % count] : NULL, &values[i]);
    }
    write_sql(&buffer, f, count, count > 0 ? rows : 0);
    const answer one = play(sql, values, count * rows), other = play(sql, values, count * rows);
    if (getenv("FUZZ_SHOW")) {
        (void)fprintf(stderr, "%s\n%d rows, code %d: %s\n", sql, one.rows, one.code, sqlite3_errmsg(db));
        for (int i = 0; i < count * rows; i++) {
            (void)fprintf(stderr, "  ?%d type %d: %.17g %lld %.*s\n", i + 1, values[i].type, values[i].number,
                          (long long)values[i].whole, (int)values[i].length, values[i].text);
        }
    }
    PROMISE(one.code == other.code && one.rows == other.rows && one.sum == other.sum);
    return 0;
}
