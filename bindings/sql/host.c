/* SPDX-License-Identifier: MIT */
/* JSON as the values that script.c reads and makes. Quantities are text; a member may also be a number with the unit
 * behind its name: {"size": "16 mm"} is {"size_mm": 16}. */
#include "host.h"

#include <inttypes.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

const int host_first_place = 0;
const int host_values_are_text = 1;
const int host_has_unsigned = 1;
const char *const host_maker = NULL;
const char *const host_table_name = "JSON object";

static json_t *json(bind_object object)
{
    return (json_t *)object;
}

/* ---- looking ---------------------------------------------------------------------------------------------- */

int host_is_nothing(bind_host *host, bind_object object)
{
    (void)host;
    return json_is_null(json(object));
}

const bind_kind *host_kind(bind_host *host, bind_object object)
{
    (void)host;
    (void)object;
    return NULL;
}

double host_base(bind_host *host, bind_object object)
{
    (void)host;
    (void)object;
    return NAN;
}

const char *host_text(bind_host *host, bind_object object, size_t *length)
{
    (void)host;
    *length = json_string_length(json(object));
    return json_string_value(json(object));
}

int host_number(bind_host *host, bind_object object, double *number)
{
    (void)host;
    *number = json_number_value(json(object));
    return json_is_number(json(object));
}

/* Whole numbers above the signed ones are written as text, here and in results. */
static int read_unsigned(const char *digits, uint64_t *number)
{
    if (!*digits || strspn(digits, "0123456789") != strlen(digits) || strlen(digits) > 20)
        return 0;
    *number = 0;
    for (; *digits; digits++) {
        const uint64_t digit = (uint64_t)(*digits - '0');
        if (*number > (UINT64_MAX - digit) / 10)
            return -1;
        *number = *number * 10 + digit;
    }
    return *number > INT64_MAX ? 2 : 1;
}

int host_integer(bind_host *host, bind_object object, uint64_t *number)
{
    (void)host;
    if (json_is_integer(json(object))) {
        *number = (uint64_t)json_integer_value(json(object));
        return 1;
    }
    if (json_is_string(json(object)))
        return read_unsigned(json_string_value(json(object)), number);
    const double real = json_number_value(json(object));
    if (!json_is_real(json(object)) || trunc(real) != real)
        return 0;
    if (!(real >= -0x1p53 && real <= 0x1p53))
        return -1;
    *number = (uint64_t)(int64_t)real;
    return 1;
}

int host_bool(bind_host *host, bind_object object, int *is_true)
{
    (void)host;
    const json_int_t whole = json_integer_value(json(object));
    *is_true = json_is_true(json(object)) || whole == 1;
    return json_is_boolean(json(object)) || (json_is_integer(json(object)) && (whole == 0 || whole == 1));
}

int host_list(bind_host *host, bind_object object, int is_struct, size_t *count)
{
    (void)host;
    (void)is_struct;
    *count = json_array_size(json(object));
    return json_is_array(json(object));
}

bind_object host_item(bind_host *host, bind_object object, size_t place)
{
    (void)host;
    return json_array_get(json(object), place);
}

json_t *host_number_with_unit(double number, fer_unit unit)
{
    char text[2 * FER_TEXT_CAPACITY];
    size_t length;
    const fer_length plain = {number};
    if (fer_format_length(plain, FER_UNIT_mm, FER_SHORTEST, text, FER_TEXT_CAPACITY, &length) != FER_OK)
        return json_string(number != number ? "NaN" : number > 0 ? "Infinity" : "-Infinity");
    snprintf(strchr(text, ' '), FER_TEXT_CAPACITY, " %s", fer_unit_symbol(unit));
    return json_string(text);
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

/* What is given both ways stays, and is told as a stranger. */
static void take_unit_names(json_t *table, const bind_kind *kind)
{
    const char *name;
    json_t *value;
    void *next;
    fer_unit unit;
    json_object_foreach_safe(table, next, name, value) {
        const bind_member *m =
            bind_is_member(kind, name, strlen(name)) ? NULL : find_unit_name(kind, name, &unit);
        if (!m || json_object_get(table, m->name) || !(json_is_number(value) || json_is_null(value)))
            continue;
        if (json_is_number(value))
            json_object_set_new(table, m->name, host_number_with_unit(json_number_value(value), unit));
        json_object_del(table, name);
    }
}

int host_table(bind_host *host, bind_object object, const bind_kind *kind)
{
    (void)host;
    if (!json_is_object(json(object)))
        return 0;
    take_unit_names(json(object), kind);
    return 1;
}

bind_object host_member(bind_host *host, bind_object object, const char *name)
{
    (void)host;
    return json_object_get(json(object), name);
}

int host_stranger(bind_host *host, bind_object object, const bind_kind *kind, char *name, size_t capacity)
{
    const char *key;
    json_t *value;
    (void)host;
    json_object_foreach(json(object), key, value) {
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
    switch (json_typeof(json(object))) {
    case JSON_OBJECT:
        return "a JSON object";
    case JSON_ARRAY:
        return "a JSON array";
    case JSON_TRUE:
        return "true";
    case JSON_FALSE:
        return "false";
    case JSON_NULL:
        return "null";
    default:
        return "a JSON value";
    }
}

/* ---- making ----------------------------------------------------------------------------------------------- */

bind_object host_new_quantity(bind_host *host, const bind_kind *kind, double base)
{
    char text[FER_TEXT_CAPACITY];
    size_t length;
    const fer_unit unit = bind_shown_unit(kind);
    (void)host;
    if (bind_texts[kind - bind_kinds].format(base, unit, FER_SHORTEST, text, sizeof text, &length) != FER_OK)
        snprintf(text, sizeof text, "%s %s", base != base ? "nan" : base > 0 ? "inf" : "-inf",
                 fer_unit_symbol(unit));
    return json_string(text);
}

bind_object host_new_number(bind_host *host, double number)
{
    (void)host;
    json_t *real = json_real(number);
    return real ? real : json_null();
}

bind_object host_new_integer(bind_host *host, int64_t number)
{
    (void)host;
    return json_integer(number);
}

bind_object host_new_unsigned(bind_host *host, uint64_t number)
{
    char digits[24];
    (void)host;
    snprintf(digits, sizeof digits, "%" PRIu64, number);
    return json_string(digits);
}

bind_object host_new_bool(bind_host *host, int is_true)
{
    (void)host;
    return json_boolean(is_true);
}

bind_object host_new_text(bind_host *host, const char *text, size_t length)
{
    (void)host;
    return json_stringn_nocheck(text, length);
}

bind_object host_new_word(bind_host *host, const bind_kind *kind, const char *name)
{
    (void)host;
    (void)kind;
    return json_string(name);
}

bind_object host_new_list(bind_host *host)
{
    (void)host;
    return json_array();
}

void host_put_item(bind_host *host, bind_object list, bind_object item)
{
    (void)host;
    json_array_append_new(json(list), json(item));
}

bind_object host_new_table(bind_host *host, const bind_kind *kind)
{
    (void)host;
    (void)kind;
    return json_object();
}

void host_put_member(bind_host *host, bind_object table, const char *name, bind_object value)
{
    (void)host;
    json_object_set_new(json(table), name, json(value));
}

/* ---- memory and errors ------------------------------------------------------------------------------------ */

void *host_room(bind_host *host, size_t bytes)
{
    sql_answer *answer = host->answer;
    if (answer->room_count == SQL_MOST_ROOMS)
        return NULL;
    void *room = malloc(bytes);
    if (room)
        answer->room[answer->room_count++] = room;
    else
        host_out_of_memory(host);
    return room;
}

void host_give_back(bind_host *host, void *room)
{
    sql_answer *answer = host->answer;
    for (size_t i = 0; i < answer->room_count; i++)
        if (answer->room[i] == room) {
            free(room);
            answer->room[i] = answer->room[--answer->room_count];
            return;
        }
}

void host_out_of_memory(bind_host *host)
{
    sql_answer *answer = host->answer;
    answer->failed = 1;
    answer->status = FER_OK;
    snprintf(answer->message, sizeof answer->message, "%s: not enough memory", host->function->name);
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
    const int written =
        snprintf(answer->message, sizeof answer->message, "%s%s", host->function->name, rest);
    if (written >= (int)sizeof answer->message) { /* not cut inside a character */
        char *end = answer->message + sizeof answer->message - 1;
        while (((unsigned char)*--end & 0xC0) == 0x80)
            *end = 0;
        *end = 0;
    }
}
