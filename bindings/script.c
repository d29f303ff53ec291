/* SPDX-License-Identifier: MIT */
#include "script.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { SHOWN_BYTES = 80, SHOWN_STRUCT = 200 };

/* The way to the value that is being taken: function, argument, member or place in a list. */
typedef struct way {
    bind_host *host;
    bind_failure *failure;
    const struct way *outer;
    const char *name; /* NULL: a place in a list */
    size_t place;
} way;

/* ---- messages --------------------------------------------------------------------------------------------- */

/* The message is not cleared as a whole: it is long, and most calls do not fail. */
static void start(bind_failure *failure, fer_status status, const char *function)
{
    failure->status = status;
    failure->function = function;
    /* what SWIG calls a function varies from language to language */
    if (function && strncmp(function, "fer_", 4) == 0)
        failure->function += 4;
    else if (function && strncmp(function, "bind_", 5) == 0)
        failure->function += 5;
    failure->message[0] = 0;
}

static void say(bind_failure *failure, const char *form, ...)
{
    const size_t used = strlen(failure->message);
    va_list values;
    va_start(values, form);
    vsnprintf(failure->message + used, sizeof failure->message - used, form, values);
    va_end(values);
}

/* Without control characters, and not cut inside a character. */
static void say_text(bind_failure *failure, const char *text, size_t length)
{
    char shown[SHOWN_BYTES + 1];
    size_t cut = length < SHOWN_BYTES ? length : SHOWN_BYTES;
    if (cut < length)
        while (cut && ((unsigned char)text[cut] & 0xC0) == 0x80)
            cut--;
    for (size_t i = 0; i < cut; i++) { /* C0 80 is how some languages write a zero byte */
        const unsigned char byte = (unsigned char)text[i];
        shown[i] = byte < ' ' || byte == 0x7F || byte == 0xC0 ? '?' : text[i];
        if (byte == 0xC0 && i + 1 < cut)
            shown[++i] = '?';
    }
    shown[cut] = 0;
    say(failure, "%s%s", shown, cut < length ? "..." : "");
}

static void say_number(bind_failure *failure, double number)
{
    char text[32];
    snprintf(text, sizeof text, "%.15g", number);
    if (strtod(text, NULL) != number)
        snprintf(text, sizeof text, "%.17g", number);
    say(failure, "%s", text);
}

static void say_quantity(bind_failure *failure, const bind_kind *kind, double base)
{
    char text[FER_TEXT_CAPACITY];
    size_t length;
    const fer_unit unit = bind_shown_unit(kind);
    if (bind_texts[kind - bind_kinds].format(base, unit, FER_SHORTEST, text, sizeof text, &length) == FER_OK)
        say(failure, "%s", text);
    else
        say(failure, "%s %s", base != base ? "nan" : base > 0 ? "inf" : "-inf", fer_unit_symbol(unit));
}

static void say_value(bind_failure *failure, const bind_kind *kind, const void *from);

/* {inside: 12.7 mm, outside: 19.9 mm}, without what is not given. */
static void say_struct(bind_failure *failure, const bind_kind *kind, const char *from)
{
    static const bind_any zero;
    const char *comma = "";
    say(failure, "{");
    for (const bind_member *m = kind->members; m->name; m++) {
        const char *at = from + m->offset;
        const size_t count = m->count ? m->count : 1;
        const int left_out = kind->form == BIND_FOUND ? bind_is_there(kind, from) != (m == kind->members)
                                                      : memcmp(at, &zero, m->kind->size * count) == 0;
        if (m->optional && left_out)
            continue;
        say(failure, "%s%s: ", comma, m->name);
        for (size_t i = 0; i < count; i++) {
            say(failure, "%s", i ? ", " : m->count ? "[" : "");
            say_value(failure, m->kind, at + i * m->kind->size);
        }
        say(failure, m->count ? "]" : "");
        comma = ", ";
    }
    say(failure, "}");
}

int64_t bind_integer(const bind_kind *kind, const void *from)
{
    switch (kind->size) {
    case 1:
        return kind->is_signed ? *(const int8_t *)from : *(const uint8_t *)from;
    case 2:
        return kind->is_signed ? *(const int16_t *)from : *(const uint16_t *)from;
    case 4:
        return kind->is_signed ? *(const int32_t *)from : (int64_t) * (const uint32_t *)from;
    default:
        return *(const int64_t *)from;
    }
}

static const char *word_of(const bind_kind *kind, int number)
{
    for (const bind_word *word = kind->words; word->name; word++)
        if (word->number == number)
            return word->name;
    return "UNKNOWN";
}

static void say_value(bind_failure *failure, const bind_kind *kind, const void *from)
{
    switch (kind->form) {
    case BIND_QUANTITY:
        say_quantity(failure, kind, *(const double *)from);
        break;
    case BIND_NUMBER:
        say_number(failure, *(const double *)from);
        break;
    case BIND_BOOL:
        say(failure, *(const int *)from ? "true" : "false");
        break;
    case BIND_INTEGER:
        if (kind->is_signed)
            say(failure, "%lld", (long long)bind_integer(kind, from));
        else
            say(failure, "%llu", (unsigned long long)bind_integer(kind, from));
        break;
    case BIND_ENUM:
        say(failure, "%s", word_of(kind, *(const int *)from));
        break;
    case BIND_SET:
        for (int bit = 0, found = 0; bit < 32; bit++)
            if (*(const uint32_t *)from >> bit & 1)
                say(failure, "%s%s", found++ ? ", " : "", word_of(kind->element, bit));
        break;
    default:
        say_struct(failure, kind, from);
    }
}

/* A value of the language: itself where that is short, otherwise its type. */
static void say_object(const way *at, bind_object object)
{
    const bind_kind *kind = host_kind(at->host, object);
    size_t length;
    double number;
    if (host_is_nothing(at->host, object)) {
        say(at->failure, "%s", host_type(at->host, object));
    } else if (kind && kind->form == BIND_QUANTITY) {
        say(at->failure, "%s ", kind->name);
        say_quantity(at->failure, kind, host_base(at->host, object));
    } else if (kind) {
        say(at->failure, "a %s", kind->name);
    } else {
        const char *text = host_text(at->host, object, &length);
        if (text) {
            say(at->failure, "'");
            say_text(at->failure, text, length);
            say(at->failure, "'");
        } else if (host_number(at->host, object, &number)) {
            say_number(at->failure, number);
        } else {
            say(at->failure, "%s", host_type(at->host, object));
        }
    }
}

/* "choose_die: dies[1].size" */
static void say_way(const way *at)
{
    if (at->outer)
        say_way(at->outer);
    if (at->name)
        say(at->failure, !at->outer ? "%s" : at->outer->outer ? ".%s" : ": %s", at->name);
    else
        say(at->failure, "[%zu]", at->place + (size_t)host_first_place);
}

static int complain(const way *at, const char *trouble)
{
    say_way(at);
    say(at->failure, " %s", trouble);
    return -1;
}

static void say_units(bind_failure *failure, const bind_kind *kind)
{
    const char *comma = "";
    for (const bind_unit *unit = bind_units; unit < bind_units + FER_UNIT_COUNT; unit++)
        if (unit->kind == kind) {
            say(failure, "%s%s", comma, unit->name);
            comma = ", ";
        }
}

static void say_wanted(bind_failure *failure, const bind_kind *kind)
{
    switch (kind->form) {
    case BIND_QUANTITY:
        say(failure, "a %s or text with a unit such as \"20 %s\"", kind->name,
            fer_unit_symbol(bind_shown_unit(kind)));
        break;
    case BIND_ENUM:
        say(failure, "one of ");
        for (const bind_word *word = kind->words; word->name; word++)
            say(failure, "%s\"%s\"", word == kind->words ? "" : ", ", word->name);
        break;
    case BIND_SET:
        say(failure, "a list of words of %s", kind->element->name);
        break;
    case BIND_BOOL:
        say(failure, "true or false");
        break;
    case BIND_INTEGER:
        say(failure, "a whole number");
        break;
    case BIND_NUMBER:
        say(failure, "a number");
        break;
    default:
        say(failure, "a %s: a %s with ", kind->name, host_table_name);
        for (const bind_member *m = kind->members; m->name; m++)
            say(failure, "%s%s", m == kind->members ? "" : ", ", m->name);
    }
}

/* How to write a bare number: with the usual unit, and with the base unit where it may have been meant so. */
static void say_how(bind_failure *failure, const bind_kind *kind, const char *number)
{
    const fer_unit units[] = {bind_shown_unit(kind), bind_texts[kind - bind_kinds].base};
    for (int i = 0; i < 1 + (units[0] != units[1]); i++) {
        say(failure, "%s \"%s %s\"", i ? " or" : "write", number, fer_unit_symbol(units[i]));
        if (host_maker) {
            say(failure, " or ");
            say(failure, host_maker, bind_units[units[i]].name, number);
        }
    }
}

static int refuse(const bind_kind *kind, bind_object object, const way *at)
{
    double number;
    say_way(at);
    if (kind->form == BIND_QUANTITY && !host_kind(at->host, object) &&
        host_number(at->host, object, &number)) {
        bind_failure digits;
        start(&digits, FER_OK, NULL);
        say_number(&digits, number);
        say(at->failure, " needs a unit: ");
        say_how(at->failure, kind, digits.message);
        say(at->failure, ", not %s", digits.message);
        return -1;
    }
    say(at->failure, " has to be ");
    say_wanted(at->failure, kind);
    say(at->failure, ", not ");
    say_object(at, object);
    return -1;
}

/* ---- taking ----------------------------------------------------------------------------------------------- */

static int take(const bind_kind *kind, bind_object object, void *to, const way *at);

static int refuse_text(const bind_kind *kind, const char *text, size_t length, fer_status status, size_t stop,
                       const way *at)
{
    bind_failure *failure = at->failure;
    failure->status = status;
    say_way(at);
    for (size_t i = 0; i < bind_status_count; i++)
        if (bind_statuses[i].status == status)
            say(failure, ": %s ('", bind_statuses[i].sentence);
    say_text(failure, text, length);
    say(failure, "', byte %zu", stop);
    if (status == FER_TEXT_UNIT_MISSING && length < SHOWN_BYTES) {
        char number[SHOWN_BYTES];
        snprintf(number, sizeof number, "%.*s", (int)length, text);
        say(failure, "; ");
        say_how(failure, kind, number);
    }
    if (status == FER_TEXT_UNIT_MISSING || status == FER_TEXT_UNIT_UNKNOWN ||
        status == FER_TEXT_UNIT_OTHER_KIND) {
        say(failure, "; units: ");
        say_units(failure, kind);
    }
    say(failure, ")");
    return -1;
}

/* "nan mm", "inf mm": where quantities are text, results that are not numbers are this. */
static int is_no_number(const bind_kind *kind, const char *text, double *to)
{
    const int sign = *text == '-';
    const char *digits = text + sign;
    if (!host_values_are_text || (strncmp(digits, "nan ", 4) != 0 && strncmp(digits, "inf ", 4) != 0) ||
        bind_find_unit(kind, digits + 4) < 0)
        return 0;
    *to = *digits == 'n' ? NAN : sign ? -INFINITY : INFINITY;
    return 1;
}

static int take_quantity(const bind_kind *kind, bind_object object, double *to, const way *at)
{
    size_t length, stop = 0;
    if (host_kind(at->host, object) == kind) {
        *to = host_base(at->host, object);
        return 0;
    }
    const char *text = host_kind(at->host, object) ? NULL : host_text(at->host, object, &length);
    if (!text)
        return refuse(kind, object, at);
    const fer_status status = bind_texts[kind - bind_kinds].parse(text, length, to, &stop);
    if (status == FER_OK || is_no_number(kind, text, to))
        return 0;
    return refuse_text(kind, text, length, status, stop, at);
}

static int take_word(const bind_kind *kind, bind_object object, int *to, const way *at)
{
    size_t length;
    const char *text = host_text(at->host, object, &length);
    const bind_word *word = text ? bind_find_word(kind, text, length) : NULL;
    if (!word)
        return refuse(kind, object, at);
    *to = word->number;
    return 0;
}

static int take_set(const bind_kind *kind, bind_object object, uint32_t *to, const way *at)
{
    size_t count;
    *to = 0;
    if (!host_list(at->host, object, 0, &count))
        return refuse(kind, object, at);
    for (size_t i = 0; i < count; i++) {
        const way place = {at->host, at->failure, at, NULL, i};
        const bind_object item = host_item(at->host, object, i);
        int number = 0;
        if (take_word(kind->element, item, &number, &place) < 0)
            return -1;
        host_drop(at->host, item);
        *to |= UINT32_C(1) << number;
    }
    return 0;
}

static int take_integer(const bind_kind *kind, bind_object object, void *to, const way *at)
{
    const int bits = (int)kind->size * 8 - 1;
    const int64_t maximum = INT64_MAX >> (63 - bits);
    uint64_t number = 0;
    const int taken = host_integer(at->host, object, &number);
    const int64_t whole = (int64_t)number;
    int fits = taken == 1 && whole >= -maximum - 1 && whole <= maximum;
    if (!taken)
        return refuse(kind, object, at);
    if (!kind->is_signed && kind->size < 8)
        fits = taken == 1 && whole >= 0 && whole <= 2 * maximum + 1;
    else if (!kind->is_signed)
        fits = taken == 2 || (taken == 1 && (whole >= 0 || !host_has_unsigned));
    if (!fits)
        return complain(at, "is out of range");
    bind_store_integer(kind, number, to);
    return 0;
}

static int take_items(const bind_kind *kind, bind_object object, size_t count, char *to, const way *at)
{
    for (size_t i = 0; i < count; i++) {
        const way place = {at->host, at->failure, at, NULL, i};
        const bind_object item = host_item(at->host, object, i);
        if (take(kind, item, to + i * kind->size, &place) < 0)
            return -1;
        host_drop(at->host, item);
    }
    return 0;
}

static int take_member(const bind_member *m, bind_object object, char *to, const way *at)
{
    size_t count;
    if (!m->count)
        return take(m->kind, object, to, at);
    if (!host_list(at->host, object, 0, &count))
        return complain(at, "has to be a list");
    if (count != m->count)
        return complain(at, "has another length");
    return take_items(m->kind, object, count, to, at);
}

static int refuse_missing(const bind_kind *kind, const char *given, const way *at)
{
    const char *comma = "";
    say_way(at);
    say(at->failure, ": a %s needs ", kind->name);
    for (size_t i = 0; kind->members[i].name; i++)
        if (!given[i] && !kind->members[i].optional) {
            say(at->failure, "%s%s", comma, kind->members[i].name);
            comma = ", ";
        }
    return -1;
}

static int refuse_stranger(const bind_kind *kind, const char *name, const way *at)
{
    say_way(at);
    say(at->failure, ": %s has no member ", kind->name);
    say_text(at->failure, name, strlen(name));
    say(at->failure, "; its members are ");
    for (const bind_member *m = kind->members; m->name; m++)
        say(at->failure, "%s%s", m == kind->members ? "" : ", ", m->name);
    return -1;
}

static int finish_struct(const bind_kind *kind, const char *given, char *to, const way *at)
{
    for (size_t i = 0; kind->members[i].name; i++)
        if (!given[i] && !kind->members[i].optional)
            return refuse_missing(kind, given, at);
    if (kind->form == BIND_FOUND && !bind_is_there(kind, to))
        bind_clear(kind->members->kind, to + kind->members->offset);
    else if (kind->form == BIND_FOUND && !given[0])
        return complain(at, "needs a value, or the status that says why there is none");
    return 0;
}

/* Members by name, or by place where `count` says how many. */
static int take_members(const bind_kind *kind, bind_object object, const size_t *count, char *to,
                        const way *at)
{
    char given[256] = {0}, name[SHOWN_BYTES];
    memset(to, 0, kind->size);
    for (size_t i = 0; kind->members[i].name && (!count || i < *count); i++) {
        const bind_member *m = &kind->members[i];
        const way inner = {at->host, at->failure, at, m->name, 0};
        const bind_object member =
            count ? host_item(at->host, object, i) : host_member(at->host, object, m->name);
        if (!member)
            continue;
        given[i] = !host_is_nothing(at->host, member);
        if ((given[i] || !m->optional) && take_member(m, member, to + m->offset, &inner) < 0)
            return -1;
        host_drop(at->host, member);
    }
    if (!count && host_stranger(at->host, object, kind, name, sizeof name))
        return refuse_stranger(kind, name, at);
    return finish_struct(kind, given, to, at);
}

static size_t member_count(const bind_kind *kind)
{
    size_t count = 0;
    while (kind->members[count].name)
        count++;
    return count;
}

static int take_struct(const bind_kind *kind, bind_object object, char *to, const way *at)
{
    const bind_kind *its = host_kind(at->host, object);
    size_t count;
    if (its == kind || (!its && host_table(at->host, object, kind)))
        return take_members(kind, object, NULL, to, at);
    if (!its && host_list(at->host, object, 1, &count))
        return count > member_count(kind) ? complain(at, "has fewer members than are given")
                                          : take_members(kind, object, &count, to, at);
    if (!bind_is_shorthand(kind) || host_is_nothing(at->host, object) || (its && its->members))
        return refuse(kind, object, at);
    memset(to, 0, kind->size);
    return take(kind->members->kind, object, to + kind->members->offset, at);
}

static int take(const bind_kind *kind, bind_object object, void *to, const way *at)
{
    switch (kind->form) {
    case BIND_QUANTITY:
        return take_quantity(kind, object, to, at);
    case BIND_ENUM:
        return take_word(kind, object, to, at);
    case BIND_SET:
        return take_set(kind, object, to, at);
    case BIND_BOOL:
        return host_bool(at->host, object, to) ? 0 : refuse(kind, object, at);
    case BIND_INTEGER:
        return take_integer(kind, object, to, at);
    case BIND_NUMBER:
        return !host_kind(at->host, object) && host_number(at->host, object, to) ? 0
                                                                                 : refuse(kind, object, at);
    default:
        return take_struct(kind, object, to, at);
    }
}

int bind_take_argument(bind_host *host, const bind_kind *kind, bind_object object, void *to,
                       const char *function, const char *argument)
{
    bind_failure failure;
    start(&failure, FER_OK, function);
    const way call = {host, &failure, NULL, failure.function, 0};
    const way at = {host, &failure, &call, argument, 0};
    const int taken = take(kind, object, to, &at);
    if (taken < 0)
        host_fail(host, &failure);
    return taken;
}

void *bind_take_list(bind_host *host, const bind_kind *kind, bind_object object, size_t *count,
                     const char *function, const char *argument)
{
    bind_failure failure;
    start(&failure, FER_OK, function);
    const way call = {host, &failure, NULL, failure.function, 0};
    const way at = {host, &failure, &call, argument, 0};
    *count = 0;
    if (host_kind(host, object) || !host_list(host, object, 0, count)) {
        complain(&at, "has to be a list");
        host_fail(host, &failure);
        return NULL;
    }
    char *list = host_memory(host, (*count ? *count : 1) * kind->size);
    if (list && take_items(kind, object, *count, list, &at) < 0) {
        host_give_back(host, list);
        host_fail(host, &failure);
        return NULL;
    }
    return list;
}

/* ---- giving ----------------------------------------------------------------------------------------------- */

static bind_object give_set(bind_host *host, const bind_kind *kind, uint32_t bits)
{
    const bind_object list = host_new_list(host);
    for (int bit = 0; bit < 32; bit++)
        if (bits >> bit & 1)
            host_put_item(host, list, host_new_word(host, kind->element, word_of(kind->element, bit)));
    return list;
}

static bind_object give_struct(bind_host *host, const bind_kind *kind, const char *from)
{
    const bind_object table = host_new_table(host, kind);
    for (const bind_member *m = kind->members; m->name; m++) {
        const char *at = from + m->offset;
        if (kind->form == BIND_FOUND && m == kind->members && !bind_is_there(kind, from))
            continue;
        host_put_member(host, table, m->name,
                        m->count ? bind_give_list(host, m->kind, at, m->count)
                                 : bind_give(host, m->kind, at));
    }
    return table;
}

static bind_object give_integer(bind_host *host, const bind_kind *kind, int64_t whole)
{
    return whole < 0 && !kind->is_signed ? host_new_unsigned(host, (uint64_t)whole)
                                         : host_new_integer(host, whole);
}

bind_object bind_give(bind_host *host, const bind_kind *kind, const void *from)
{
    switch (kind->form) {
    case BIND_QUANTITY:
        return host_new_quantity(host, kind, *(const double *)from);
    case BIND_ENUM:
        return host_new_word(host, kind, word_of(kind, *(const int *)from));
    case BIND_SET:
        return give_set(host, kind, *(const uint32_t *)from);
    case BIND_BOOL:
        return host_new_bool(host, *(const int *)from);
    case BIND_INTEGER:
        return give_integer(host, kind, bind_integer(kind, from));
    case BIND_NUMBER:
        return host_new_number(host, *(const double *)from);
    default:
        return give_struct(host, kind, from);
    }
}

bind_object bind_give_list(bind_host *host, const bind_kind *kind, const void *from, size_t count)
{
    const bind_object list = host_new_list(host);
    for (size_t i = 0; i < count; i++)
        host_put_item(host, list, bind_give(host, kind, (const char *)from + i * kind->size));
    return list;
}

/* ---- errors ----------------------------------------------------------------------------------------------- */

static const bind_status *find_status(fer_status status)
{
    for (size_t i = 0; i < bind_status_count; i++)
        if (bind_statuses[i].status == status)
            return &bind_statuses[i];
    return &bind_statuses[0];
}

const char *bind_status_name(fer_status status)
{
    return find_status(status)->name;
}

void bind_error_class(const bind_failure *failure, char *name, size_t capacity)
{
    const char *word = failure->status == FER_OK ? "TYPE" : bind_status_name(failure->status);
    size_t length = strcspn(word, "_");
    if (length >= capacity)
        length = capacity - 1;
    for (size_t i = 0; i < length; i++)
        name[i] = i ? (char)(word[i] - 'A' + 'a') : word[i];
    name[length] = 0;
}

int bind_is_member(const bind_kind *kind, const char *name, size_t length)
{
    for (const bind_member *m = kind->members; m && m->name; m++)
        if (strlen(m->name) == length && memcmp(m->name, name, length) == 0)
            return 1;
    return 0;
}

static const bind_function *find_function(const char *name)
{
    const bind_function *function = bind_functions;
    while (function->name && strcmp(function->name, name) != 0)
        function++;
    return function->name ? function : NULL;
}

/* Whether a name begins with the first word of a status, in any case. */
static int begins(const char *name, const char *class, int is_whole)
{
    for (; *class; class ++, name++)
        if ((*name | 0x20) != (*class | 0x20))
            return 0;
    return !is_whole || !*name;
}

/* The struct of a name in a value of ours: itself or what it holds. */
static const void *find_struct(const bind_kind **kind, const char *from, const char *class)
{
    if (!(*kind)->members)
        return NULL;
    if (begins((*kind)->name, class, 1))
        return from;
    for (const bind_member *m = (*kind)->members; m->name; m++) {
        const bind_kind *inner = m->kind;
        const void *found = find_struct(&inner, from + m->offset, class);
        if (found) {
            *kind = inner;
            return found;
        }
    }
    return NULL;
}

/* A struct of an argument, read once more; 0: the argument is none. */
static int take_again(const way *call, const bind_parameter *p, bind_object object, bind_any *value)
{
    bind_failure unused;
    start(&unused, FER_OK, NULL);
    const way again = {call->host, &unused, NULL, p->name, 0};
    return p->kind && !p->is_list && p->kind->members && take(p->kind, object, value, &again) >= 0;
}

/* The struct that the first word of the status names. */
static int say_struct_at_fault(const way *call, const bind_parameter *p, bind_object object,
                               const char *class)
{
    bind_any value;
    const bind_kind *kind = p->kind;
    if (!take_again(call, p, object, &value))
        return 0;
    const void *found = find_struct(&kind, (const char *)&value, class);
    if (!found)
        return 0;
    say(call->failure, " (%c%s: ", class[0] | 0x20, class + 1);
    say_value(call->failure, kind, found);
    say(call->failure, ")");
    return 1;
}

/* An argument; of a list, and of a struct with much in it, only what it is. */
static void say_argument(const way *call, const bind_parameter *p, bind_object object)
{
    bind_any value;
    const size_t used = strlen(call->failure->message);
    if (p->is_list) {
        say(call->failure, "a list");
    } else if (take_again(call, p, object, &value)) {
        say_value(call->failure, p->kind, &value);
        if (strlen(call->failure->message) - used > SHOWN_STRUCT) {
            call->failure->message[used] = 0;
            say(call->failure, "a %s", p->kind->name);
        }
    } else {
        say_object(call, object);
    }
}

/* A struct in which nothing is given, such as an argument that was left out. */
static int is_left_out(const way *call, const bind_parameter *p, bind_object object)
{
    static const bind_any zero;
    bind_any value;
    if (p->optional && host_is_nothing(call->host, object))
        return 1;
    return take_again(call, p, object, &value) && memcmp(&value, &zero, p->kind->size) == 0;
}

/* What a status is about: the struct that its first word names, the arguments named so, or all that were given. */
static void say_offender(const way *call, const bind_function *function, const bind_object *arguments,
                         size_t count, const char *class)
{
    const char *comma = " (";
    int named = 0;
    for (size_t i = 0; i < count && function->arguments[i].name; i++)
        if (say_struct_at_fault(call, &function->arguments[i], arguments[i], class))
            return;
    for (size_t i = 0; i < count && function->arguments[i].name; i++)
        named |= begins(function->arguments[i].name, class, 0);
    for (size_t i = 0; i < count && function->arguments[i].name; i++) {
        const bind_parameter *p = &function->arguments[i];
        if (named ? !begins(p->name, class, 0) : is_left_out(call, p, arguments[i]))
            continue;
        say(call->failure, "%s%s: ", comma, p->name);
        say_argument(call, p, arguments[i]);
        comma = ", ";
    }
    say(call->failure, comma[0] == ',' ? ")" : "");
}

void bind_raise(bind_host *host, const char *name, fer_status status, const bind_object *arguments,
                size_t count)
{
    bind_failure failure;
    start(&failure, status, name);
    const way call = {host, &failure, NULL, failure.function, 0};
    const bind_function *function = find_function(failure.function);
    char class[32];
    bind_error_class(&failure, class, sizeof class);
    say(&failure, "%s: %s", failure.function, find_status(status)->sentence);
    if (function)
        say_offender(&call, function, arguments, count, class);
    host_fail(host, &failure);
}

void bind_refuse_text(bind_host *host, const char *function, const char *argument)
{
    bind_failure failure;
    start(&failure, FER_OK, function);
    say(&failure, "%s: %s has to be text without a zero byte", failure.function, argument);
    host_fail(host, &failure);
}

void bind_refuse_count(bind_host *host, const char *name, size_t given)
{
    bind_failure failure;
    start(&failure, FER_OK, name);
    const bind_function *function = find_function(failure.function);
    const char *comma = ": takes ";
    say(&failure, "%s", failure.function);
    for (const bind_parameter *p = function ? function->arguments : NULL; p && p->name; p++) {
        say(&failure, p->optional ? "%s%s (may be left out)" : "%s%s", comma, p->name);
        comma = ", ";
    }
    say(&failure, comma[0] == ',' ? "; %zu %s given" : ": wrong number of arguments, %zu %s given", given,
        given == 1 ? "argument" : "arguments");
    host_fail(host, &failure);
}

/* ---- quantities by themselves ----------------------------------------------------------------------------- */

static bind_object fail(const way *call)
{
    host_fail(call->host, call->failure);
    return NULL;
}

static const bind_kind *find_kind(const char *name)
{
    for (const bind_kind *kind = bind_kinds; kind < bind_kinds + BIND_COUNT; kind++)
        if (strcmp(kind->name, name) == 0)
            return kind;
    return NULL;
}

bind_object bind_make(bind_host *host, const char *name, bind_object from)
{
    bind_any value;
    const bind_kind *kind = find_kind(name);
    bind_failure failure;
    start(&failure, FER_OK, kind ? kind->name : "make");
    const way call = {host, &failure, NULL, failure.function, 0};
    if (!kind) {
        say(&failure, "make: there is no kind of value called ");
        say_text(&failure, name, strlen(name));
        return fail(&call);
    }
    return take(kind, from, &value, &call) < 0 ? fail(&call) : bind_give(host, kind, &value);
}

/* An operand: a quantity, or a number without a unit, whose kind is NULL. */
static int take_operand(const way *call, bind_object object, const bind_kind **kind, double *base)
{
    size_t length, stop;
    *kind = host_kind(call->host, object);
    if (*kind && (*kind)->form == BIND_QUANTITY) {
        *base = host_base(call->host, object);
        return 1;
    }
    if (*kind)
        return 0;
    if (host_number(call->host, object, base))
        return 1;
    const char *text = host_values_are_text ? host_text(call->host, object, &length) : NULL;
    for (*kind = bind_kinds; text && *kind < bind_kinds + BIND_COUNT; ++*kind)
        if ((*kind)->form == BIND_QUANTITY &&
            (bind_texts[*kind - bind_kinds].parse(text, length, base, &stop) == FER_OK ||
             is_no_number(*kind, text, base)))
            return 1;
    *kind = NULL;
    return 0;
}

static int take_quantity_of_any_kind(const way *call, bind_object object, const bind_kind **kind,
                                     double *base)
{
    if (take_operand(call, object, kind, base) && *kind)
        return 1;
    say(call->failure, "%s: ", call->name);
    say_object(call, object);
    say(call->failure, " is not a quantity with a unit");
    return 0;
}

static int refuse_unit(const way *call, const bind_kind *kind, const char *unit)
{
    say(call->failure, "%s: '", kind->name);
    say_text(call->failure, unit, strlen(unit));
    say(call->failure, "' is not one of its units: ");
    say_units(call->failure, kind);
    return -1;
}

/* ".2f in": decimals and unit, each may be left out. */
static int read_form(const way *call, const bind_kind *kind, const char *form, int *decimals, int *unit)
{
    if (*form == '.') {
        char *end;
        const long number = strtol(form + 1, &end, 10);
        if (end == form + 1 || *end != 'f' || number < 0 || number > 1000) {
            say(call->failure, "%s: decimals are written .2f, before the unit: \".2f in\"", kind->name);
            return -1;
        }
        *decimals = (int)number;
        form = end + 1;
    }
    while (*form == ' ')
        form++;
    if (*form && (*unit = bind_find_unit(kind, form)) < 0)
        return refuse_unit(call, kind, form);
    return 0;
}

static bind_object struct_text(const way *call, const bind_kind *kind, bind_object value)
{
    bind_any taken;
    bind_failure text;
    start(&text, FER_OK, NULL);
    if (take(kind, value, &taken, call) < 0)
        return fail(call);
    say(&text, "%s", kind->name);
    say_value(&text, kind, &taken);
    return host_new_text(call->host, text.message, strlen(text.message));
}

bind_object bind_written(bind_host *host, bind_object value, const char *form)
{
    bind_failure failure;
    start(&failure, FER_OK, "text");
    const way call = {host, &failure, NULL, "text", 0};
    const bind_kind *kind = host_kind(host, value);
    char text[FER_TEXT_CAPACITY];
    size_t length;
    double base;
    int decimals = FER_SHORTEST, unit;
    if (kind && kind->members)
        return struct_text(&call, kind, value);
    if (!take_quantity_of_any_kind(&call, value, &kind, &base))
        return fail(&call);
    unit = (int)bind_shown_unit(kind);
    if (read_form(&call, kind, form, &decimals, &unit) < 0)
        return fail(&call);
    failure.status =
        bind_texts[kind - bind_kinds].format(base, (fer_unit)unit, decimals, text, sizeof text, &length);
    if (failure.status == FER_TEXT_VALUE_NOT_FINITE) {
        say(&failure, "%s %s",
            base != base ? "nan"
            : base > 0   ? "inf"
                         : "-inf",
            fer_unit_symbol((fer_unit)unit));
        return host_new_text(host, failure.message, strlen(failure.message));
    }
    if (failure.status != FER_OK) {
        say(&failure, "text: %s (%d)", find_status(failure.status)->sentence, decimals);
        return fail(&call);
    }
    return host_new_text(host, text, length);
}

bind_object bind_number(bind_host *host, bind_object quantity, const char *name)
{
    bind_failure failure;
    start(&failure, FER_OK, "number");
    const way call = {host, &failure, NULL, "number", 0};
    const bind_kind *kind;
    double base;
    if (!take_quantity_of_any_kind(&call, quantity, &kind, &base))
        return fail(&call);
    const int unit = bind_find_unit(kind, name);
    if (unit < 0) {
        refuse_unit(&call, kind, name);
        return fail(&call);
    }
    return host_new_number(host, bind_units[unit].read(base));
}

/* A temperature is a point on a scale: it has no sums and multiples. */
static int is_amount(const bind_kind *kind)
{
    for (const bind_unit *unit = bind_units; unit < bind_units + FER_UNIT_COUNT; unit++)
        if (unit->kind == kind && unit->has_zero)
            return 0;
    return kind != NULL;
}

/* The kind of a result; its number is `*base`. 0: there is none. */
static int compute(const bind_kind *a, double left, char operation, const bind_kind *b, double right,
                   const bind_kind **kind, double *base)
{
    const bind_kind *ratio = &bind_kinds[BIND_fer_ratio];
    *kind = a;
    if (operation == '+' || operation == '-') {
        *base = operation == '+' ? left + right : left - right;
        return a == b && is_amount(a);
    }
    if (operation == '*') {
        /* The amount is what is not the factor; of ratio times length the length. */
        *kind = (!a || a == ratio) && is_amount(b) ? b : a;
        *base = left * right;
        return is_amount(*kind) && (!a || !b || a == ratio || b == ratio);
    }
    *base = left / right;
    if (a == b)
        *kind = ratio;
    return operation == '/' && is_amount(a) && (!b || b == ratio || a == b);
}

bind_object bind_compute(bind_host *host, bind_object left, const char *operation, bind_object right)
{
    bind_failure failure;
    start(&failure, FER_OK, "compute");
    const way call = {host, &failure, NULL, "compute", 0};
    const bind_kind *a = NULL, *b = NULL, *kind;
    double x = 0, y = 0, base;
    const int taken = take_operand(&call, left, &a, &x) && take_operand(&call, right, &b, &y) && (a || b);
    const int is_one = operation[0] && !operation[1];
    if (taken && strcmp(operation, "<=>") == 0 && a == b && !isnan(x) && !isnan(y))
        return host_new_integer(host, x < y ? -1 : x > y);
    if (taken && is_one && operation[0] == '/' && y == 0 && a) {
        say(&failure, "compute: %s divided by zero", a->name);
        return fail(&call);
    }
    if (taken && is_one && compute(a, x, operation[0], b, y, &kind, &base))
        return host_new_quantity(host, kind, base);
    say(&failure, "compute: there is no ");
    say_object(&call, left);
    say(&failure, " ");
    say_text(&failure, operation, strlen(operation));
    say(&failure, " ");
    say_object(&call, right);
    return fail(&call);
}

/* ---- what there is ---------------------------------------------------------------------------------------- */

static void put_text(bind_host *host, bind_object table, const char *name, const char *text)
{
    host_put_member(host, table, name, host_new_text(host, text, strlen(text)));
}

static bind_object parameters(bind_host *host, const bind_parameter *p)
{
    const bind_object list = host_new_list(host);
    for (; p->name; p++) {
        const bind_object row = host_new_table(host, NULL);
        put_text(host, row, "name", p->name);
        put_text(host, row, "kind", p->kind ? p->kind->name : "text");
        host_put_member(host, row, "list", host_new_bool(host, p->is_list));
        host_put_member(host, row, "optional", host_new_bool(host, p->optional));
        host_put_item(host, list, row);
    }
    return list;
}

static bind_object functions(bind_host *host)
{
    const bind_object list = host_new_list(host);
    for (const bind_function *f = bind_functions; f->name; f++) {
        const bind_object row = host_new_table(host, NULL);
        put_text(host, row, "name", f->name);
        put_text(host, row, "text", f->text);
        host_put_member(host, row, "arguments", parameters(host, f->arguments));
        host_put_member(host, row, "results", parameters(host, f->results));
        host_put_item(host, list, row);
    }
    return list;
}

static bind_object members(bind_host *host, const bind_kind *kind)
{
    const bind_object list = host_new_list(host);
    for (const bind_member *m = kind->members; m && m->name; m++) {
        const bind_object row = host_new_table(host, NULL);
        put_text(host, row, "name", m->name);
        put_text(host, row, "kind", m->kind->name);
        put_text(host, row, "text", m->text);
        host_put_member(host, row, "list", host_new_bool(host, m->count > 0));
        host_put_member(host, row, "optional", host_new_bool(host, m->optional));
        host_put_item(host, list, row);
    }
    return list;
}

static bind_object names(bind_host *host, const bind_kind *kind)
{
    const bind_object list = host_new_list(host);
    for (const bind_word *word = kind->words; word && word->name; word++)
        host_put_item(host, list, host_new_text(host, word->name, strlen(word->name)));
    for (const bind_unit *unit = bind_units; unit < bind_units + FER_UNIT_COUNT; unit++)
        if (unit->kind == kind)
            host_put_item(host, list, host_new_text(host, unit->name, strlen(unit->name)));
    return list;
}

static bind_object kinds(bind_host *host)
{
    static const char *const forms[] = {"quantity", "struct", "found",   "set",
                                        "enum",     "bool",   "integer", "number"};
    const bind_object list = host_new_list(host);
    for (const bind_kind *kind = bind_kinds; kind < bind_kinds + BIND_COUNT; kind++) {
        const bind_object row = host_new_table(host, NULL);
        put_text(host, row, "name", kind->name);
        put_text(host, row, "text", kind->text ? kind->text : "");
        put_text(host, row, "form", forms[kind->form]);
        host_put_member(host, row, "members", members(host, kind));
        host_put_member(host, row, "names", names(host, kind));
        host_put_item(host, list, row);
    }
    return list;
}

static bind_object statuses(bind_host *host)
{
    const bind_object list = host_new_list(host);
    for (size_t i = 0; i < bind_status_count; i++) {
        const bind_object row = host_new_table(host, NULL);
        put_text(host, row, "name", bind_statuses[i].name);
        put_text(host, row, "sentence", bind_statuses[i].sentence);
        host_put_member(host, row, "code", host_new_integer(host, bind_statuses[i].status));
        host_put_item(host, list, row);
    }
    return list;
}

bind_object bind_describe(bind_host *host)
{
    const bind_object table = host_new_table(host, NULL);
    host_put_member(host, table, "kinds", kinds(host));
    host_put_member(host, table, "functions", functions(host));
    host_put_member(host, table, "statuses", statuses(host));
    return table;
}
