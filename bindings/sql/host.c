/* SPDX-License-Identifier: MIT */
/* JSON as the values that the runtime reads and makes. Quantities are text; a member may also be a number with the unit
 * behind its name: {"size": "16 mm"} is {"size_mm": 16}. */
#include "host.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static int is_null(bind_host *host, bind_object object)
{
    (void)host;
    return !object;
}

/* What fails after that fails because of it. */
static int is_raised(bind_host *host)
{
    return host->answer->stop.stopped;
}

const bind_language host_language = {.values_are_text = 1,
                                     .missing_has_status = 1,
                                     .is_absent = is_null,
                                     .has_unsigned = 1,
                                     .wanted = {"a %s: a JSON object with ", ""},
                                     .style = &bind_plain_style,
                                     .is_raised = is_raised};

/* In JSON-C null is no object at all, which the runtime takes for what is not there. */
static sql_json *json(bind_object object)
{
    return (sql_json *)object;
}

static int is(bind_object object, json_type type)
{
    return json_object_is_type(json(object), type);
}

/* ---- looking ---------------------------------------------------------------------------------------------- */

int host_is_nothing(bind_host *host, bind_object object)
{
    (void)host;
    return !object;
}

const bind_kind *host_kind(bind_host *host, bind_object object)
{
    (void)host;
    (void)object;
    return NULL;
}

int host_value(bind_host *host, const bind_kind *kind, bind_object object, void *to)
{
    (void)host;
    (void)kind;
    (void)object;
    (void)to;
    return 0;
}

const char *host_text(bind_host *host, bind_object object, size_t *length)
{
    (void)host;
    if (!is(object, json_type_string))
        return NULL;
    *length = (size_t)json_object_get_string_len(json(object));
    return json_object_get_string(json(object));
}

static int is_number(bind_object object)
{
    return is(object, json_type_double) || is(object, json_type_int);
}

int host_number(bind_host *host, bind_object object, double *number)
{
    (void)host;
    *number = is_number(object) ? json_object_get_double(json(object)) : NAN;
    return is_number(object);
}

int host_integer(bind_host *host, bind_object object, uint64_t *number)
{
    (void)host;
    if (is(object, json_type_int)) {
        const int64_t whole = json_object_get_int64(json(object));
        const uint64_t large = json_object_get_uint64(json(object));
        *number = whole == INT64_MAX ? large : (uint64_t)whole;
        return whole == INT64_MAX && large > INT64_MAX ? 2 : 1;
    }
    const double real = is(object, json_type_double) ? json_object_get_double(json(object)) : NAN;
    if (!(trunc(real) == real))
        return 0;
    if (!(real >= -0x1p53 && real <= 0x1p53))
        return -1;
    *number = (uint64_t)(int64_t)real;
    return 1;
}

int host_bool(bind_host *host, bind_object object, int *is_true)
{
    (void)host;
    const int64_t whole = is(object, json_type_int) ? json_object_get_int64(json(object)) : -1;
    *is_true = is(object, json_type_boolean) ? json_object_get_boolean(json(object)) : whole == 1;
    return is(object, json_type_boolean) || whole == 0 || whole == 1;
}

int host_list(bind_host *host, bind_object *whole, int is_struct, size_t *count)
{
    (void)host;
    (void)is_struct;
    *count = is(*whole, json_type_array) ? json_object_array_length(json(*whole)) : 0;
    return is(*whole, json_type_array);
}

bind_object host_item(bind_host *host, bind_object object, size_t place)
{
    enum { PAUSE = 4096 };
    if (place % PAUSE == PAUSE - 1 && sql_is_stopped(host->answer))
        return NULL; /* which is no item of any list, and ends it */
    return json_object_array_get_idx(json(object), place);
}

/* The digits of a number that read back the same, in any locale; 0: it is not finite. */
static int write_digits(double number, char *text, size_t capacity)
{
    size_t length;
    const fer_length plain = {number};
    if (fer_format_length(plain, FER_UNIT_mm, FER_SHORTEST, text, capacity, &length) != FER_OK)
        return 0;
    *strchr(text, ' ') = 0;
    return 1;
}

sql_json *host_number_with_unit(double number, fer_unit unit)
{
    char digits[FER_TEXT_CAPACITY], text[FER_TEXT_CAPACITY + 16];
    if (!write_digits(number, digits, sizeof digits))
        return json_object_new_string(number != number ? "NaN" : number > 0 ? "Infinity" : "-Infinity");
    snprintf(text, sizeof text, "%s %s", digits, fer_unit_symbol(unit));
    return json_object_new_string(text);
}

/* The quantity of a name such as "size_mm" and its unit; NULL: no such member. */
static const bind_member *find_unit_name(const bind_kind *kind, const char *name, fer_unit *unit)
{
    for (const bind_member *m = kind->members; m && m->name; m++) {
        const size_t length = strlen(m->name);
        if (m->kind->form != BIND_QUANTITY || strncmp(name, m->name, length) != 0 || name[length] != '_')
            continue;
        for (int i = 0; i < FER_UNIT_COUNT; i++)
            if (bind_units[i].kind == m->kind && strcmp(bind_units[i].name, name + length + 1) == 0) {
                *unit = (fer_unit)i;
                return m;
            }
    }
    return NULL;
}

/* What is given both ways stays, and is reported as a stranger. 1: something was changed. */
static int take_unit_name(sql_json *table, const bind_kind *kind)
{
    for (const struct lh_entry *e = json_object_get_object(table)->head; e; e = e->next) {
        const char *name = lh_entry_k(e);
        sql_json *value = (sql_json *)(uintptr_t)lh_entry_v(e), *other;
        fer_unit unit;
        const bind_member *m =
            bind_is_member(kind, name, strlen(name)) ? NULL : find_unit_name(kind, name, &unit);
        if (!m || json_object_object_get_ex(table, m->name, &other) || (value && !is_number(value)))
            continue;
        sql_json *text = value ? host_number_with_unit(json_object_get_double(value), unit) : NULL;
        json_object_object_del(table, name);
        json_object_object_add(table, m->name, text);
        return 1;
    }
    return 0;
}

int host_table(bind_host *host, bind_object object, const bind_kind *kind)
{
    (void)host;
    if (!is(object, json_type_object))
        return 0;
    while (take_unit_name(json(object), kind)) {
    }
    return 1;
}

bind_object host_member(bind_host *host, bind_object object, const bind_kind *kind, size_t place)
{
    (void)host;
    return json_object_object_get(json(object), kind->members[place].name);
}

int host_stranger(bind_host *host, bind_object object, const bind_kind *kind, size_t found, char *name,
                  size_t capacity)
{
    (void)found;
    (void)host;
    for (const struct lh_entry *e = json_object_get_object(json(object))->head; e; e = e->next) {
        const char *key = lh_entry_k(e);
        if (!bind_is_member(kind, key, strlen(key))) {
            snprintf(name, capacity, "%s", key);
            return 1;
        }
    }
    return 0;
}

void host_drop(bind_host *host, bind_object object)
{
    (void)host;
    (void)object;
}

const char *host_type(bind_host *host, bind_object object)
{
    (void)host;
    switch (json_object_get_type(json(object))) {
    case json_type_object:
        return "a JSON object";
    case json_type_array:
        return "a JSON array";
    case json_type_boolean:
        return json_object_get_boolean(json(object)) ? "true" : "false";
    case json_type_null:
        return "null";
    default:
        return "a JSON value";
    }
}

/* ---- making ----------------------------------------------------------------------------------------------- */

bind_object host_new_quantity(bind_host *host, const bind_kind *kind, double base)
{
    char text[FER_TEXT_CAPACITY + 32];
    bind_writer out = {text, sizeof text, 0};
    (void)host;
    bind_write_quantity(&out, kind, base, -1, FER_SHORTEST);
    return json_object_new_string(text);
}

bind_object host_new_number(bind_host *host, double number)
{
    char digits[FER_TEXT_CAPACITY];
    (void)host;
    return write_digits(number, digits, sizeof digits) ? json_object_new_double_s(number, digits) : NULL;
}

bind_object host_new_integer(bind_host *host, int64_t number)
{
    (void)host;
    return json_object_new_int64(number);
}

bind_object host_new_unsigned(bind_host *host, uint64_t number)
{
    (void)host;
    return json_object_new_uint64(number);
}

bind_object host_new_bool(bind_host *host, int is_true)
{
    (void)host;
    return json_object_new_boolean(is_true);
}

bind_object host_new_text(bind_host *host, const char *text, size_t length)
{
    (void)host;
    return json_object_new_string_len(text, (int)length);
}

bind_object host_new_word(bind_host *host, const bind_kind *kind, const char *name)
{
    (void)host;
    (void)kind;
    return json_object_new_string(name);
}

bind_object host_new_list(bind_host *host)
{
    (void)host;
    return json_object_new_array();
}

void host_put_item(bind_host *host, bind_object list, bind_object item)
{
    (void)host;
    json_object_array_add(json(list), json(item));
}

bind_object host_new_table(bind_host *host, const bind_kind *kind)
{
    (void)host;
    (void)kind;
    return json_object_new_object();
}

void host_put_member(bind_host *host, bind_object table, const char *name, bind_object value)
{
    (void)host;
    json_object_object_add(json(table), name, json(value));
}

/* ---- memory and errors ------------------------------------------------------------------------------------ */

void *host_memory(bind_host *host, size_t bytes)
{
    sql_answer *answer = host->answer;
    void *memory = answer->list_count < SQL_MAXIMUM_LISTS ? malloc(bytes) : NULL;
    if (memory)
        answer->lists[answer->list_count++] = memory;
    else
        host_out_of_memory(host);
    return memory;
}

void host_give_back(bind_host *host, void *memory)
{
    sql_answer *answer = host->answer;
    for (size_t i = 0; i < answer->list_count; i++)
        if (answer->lists[i] == memory) {
            free(memory);
            answer->lists[i] = answer->lists[--answer->list_count];
            return;
        }
}

void host_out_of_memory(bind_host *host)
{
    sql_answer *answer = host->answer;
    answer->failed = 2;
    answer->status = FER_OK;
    snprintf(answer->message, sizeof answer->message, "%s: not enough memory", host->function->name);
}

/* Bytes of the UTF-8 character at text; 0: none. */
static size_t character(const unsigned char *text)
{
    const size_t length = *text < 0x80   ? 1
                          : *text < 0xC2 ? 0
                          : *text < 0xE0 ? 2
                          : *text < 0xF0 ? 3
                          : *text < 0xF5 ? 4
                                         : 0;
    for (size_t i = 1; i < length; i++)
        if ((text[i] & 0xC0) != 0x80)
            return 0;
    return length;
}

/* Text of SQLite may hold any bytes, and a message may be cut inside a character. */
static void mend(char *text)
{
    while (*text) {
        const size_t length = character((const unsigned char *)text);
        if (!length)
            *text = '?';
        text += length ? length : 1;
    }
}

/* The message begins with the name in C without its prefix; here the function that was called is named. */
void host_fail(bind_host *host, const bind_failure *failure)
{
    sql_answer *answer = host->answer;
    const char *name = host->function->library ? host->function->library->name : "";
    const char *rest = failure->message;
    const size_t length = strlen(name);
    if (strncmp(rest, name, length) == 0)
        rest += length;
    answer->failed = 1;
    answer->status = failure->status;
    answer->rule = failure->status == FER_OK ? NULL : bind_status_name(failure->status);
    snprintf(answer->message, sizeof answer->message, "%s%.1900s", host->function->name, rest);
    mend(answer->message);
}
