/* SPDX-License-Identifier: MIT */
/* Values and messages in text, the same in all languages but for their style. */
#include "say.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

void bind_write(bind_writer *out, const char *form, ...)
{
    const size_t used = out->used < out->capacity ? out->used : out->capacity;
    va_list values;
    va_start(values, form);
    const int length = vsnprintf(out->text + used, out->capacity - used, form, values);
    va_end(values);
    out->used += length > 0 ? (size_t)length : 0;
}

void bind_put(bind_writer *out, const char *text)
{
    const size_t used = out->used < out->capacity ? out->used : out->capacity, length = strlen(text);
    const size_t capacity = out->capacity - used, fits = length < capacity ? length
                                                         : capacity        ? capacity - 1
                                                                           : 0;
    memcpy(out->text + used, text, fits);
    if (capacity)
        out->text[used + fits] = 0;
    out->used += length;
}

/* ---- values ----------------------------------------------------------------------------------------------- */

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

const char *bind_word_of(const bind_kind *kind, int number)
{
    for (const bind_word *word = kind->words; word->name; word++)
        if (word->number == number)
            return word->name;
    return "UNKNOWN";
}

static const char *not_finite(double number)
{
    return number != number ? "nan" : number > 0 ? "inf" : "-inf";
}

fer_status bind_write_quantity(bind_writer *out, const bind_kind *kind, double base, int unit, int decimals)
{
    char spare[FER_TEXT_CAPACITY];
    size_t length = 0;
    const int has_room = out->used + FER_TEXT_CAPACITY <= out->capacity;
    char *const text = has_room ? out->text + out->used : spare;
    const fer_unit in = unit < 0 ? bind_shown_unit(kind) : (fer_unit)unit;
    const fer_status status =
        bind_texts[kind - bind_kinds].format(base, in, decimals, text, FER_TEXT_CAPACITY, &length);
    if (status == FER_TEXT_VALUE_NOT_FINITE) {
        bind_write(out, "%s %s", not_finite(base), fer_unit_symbol(in));
        return FER_OK;
    }
    if (status == FER_OK && has_room)
        out->used += length;
    else
        bind_put(out, status == FER_OK ? text : "");
    return status;
}

/* The shortest digits of 15 or 17 that read back the same. */
static void write_number(bind_writer *out, double number)
{
    char text[32];
    snprintf(text, sizeof text, "%.15g", number);
    if (strtod(text, NULL) != number)
        snprintf(text, sizeof text, "%.17g", number);
    bind_put(out, text);
}

static void write_none(bind_writer *out, const bind_kind *kind, double base)
{
    bind_write_quantity(out, kind, base, -1, FER_SHORTEST);
}

const bind_style bind_plain_style = {.open = "{",
                                     .sign = ": ",
                                     .close = "}",
                                     .list = {"[", "]"},
                                     .one = "]",
                                     .set = {"", ""},
                                     .quote = "",
                                     .words = {"false", "true"},
                                     .number = write_number,
                                     .none = write_none};

static int is_zero(const char *from, size_t size)
{
    for (size_t i = 0; i < size; i++)
        if (from[i])
            return 0;
    return 1;
}

static void write_list(bind_writer *out, const bind_style *style, const bind_member *m, const char *from)
{
    bind_put(out, style->list[0]);
    for (size_t i = 0; i < m->count; i++) {
        bind_put(out, i ? ", " : "");
        bind_write_value(out, style, m->kind, from + i * m->kind->size);
    }
    bind_put(out, m->count == 1 ? style->one : style->list[1]);
}

/* Members, without what is not given. */
static void write_struct(bind_writer *out, const bind_style *style, const bind_kind *kind, const char *from)
{
    const char *comma = "";
    bind_write(out, style->open, kind->name);
    for (const bind_member *m = kind->members; m->name; m++) {
        const char *at = from + m->offset;
        const int left_out = kind->form == BIND_FOUND
                                 ? bind_is_there(kind, from) != (m == kind->members)
                                 : is_zero(at, m->kind->size * (m->count ? m->count : 1));
        if (m->optional && left_out)
            continue;
        bind_put(out, comma);
        bind_put(out, m->name);
        bind_put(out, style->sign);
        if (m->count)
            write_list(out, style, m, at);
        else
            bind_write_value(out, style, m->kind, at);
        comma = ", ";
    }
    bind_put(out, style->close);
}

static void write_set(bind_writer *out, const bind_style *style, const bind_kind *kind, uint64_t bits)
{
    int count = 0;
    bind_put(out, style->set[0]);
    for (int bit = 0; bit < 64; bit++)
        if (bits >> bit & 1)
            bind_write(out, "%s%s%s%s", count++ ? ", " : "", style->quote, bind_word_of(kind->element, bit),
                       style->quote);
    bind_put(out, count == 1 && *style->set[1] ? style->one : style->set[1]);
}

static void write_integer(bind_writer *out, const bind_kind *kind, int64_t whole)
{
    if (kind->is_signed)
        bind_write(out, "%lld", (long long)whole);
    else
        bind_write(out, "%llu", (unsigned long long)whole);
}

void bind_write_value(bind_writer *out, const bind_style *style, const bind_kind *kind, const void *from)
{
    const double number =
        kind->form == BIND_QUANTITY || kind->form == BIND_NUMBER ? *(const double *)from : 0.0;
    switch (kind->form) {
    case BIND_QUANTITY:
        if (!isfinite(number)) {
            style->none(out, kind, number);
            break;
        }
        bind_put(out, style->quote);
        bind_write_quantity(out, kind, number, -1, FER_SHORTEST);
        bind_put(out, style->quote);
        break;
    case BIND_NUMBER:
        style->number(out, number);
        break;
    case BIND_BOOL:
        bind_put(out, style->words[*(const int *)from != 0]);
        break;
    case BIND_INTEGER:
        write_integer(out, kind, bind_integer(kind, from));
        break;
    case BIND_ENUM:
        bind_put(out, style->quote);
        bind_put(out, bind_word_of(kind, *(const int *)from));
        bind_put(out, style->quote);
        break;
    case BIND_SET:
        write_set(out, style, kind, *(const uint64_t *)from);
        break;
    default:
        write_struct(out, style, kind, from);
    }
}

/* ---- messages --------------------------------------------------------------------------------------------- */

/* The message is not cleared as a whole: it is long, and most calls do not fail. */
void bind_begin(bind_failure *failure, fer_status status, const char *function)
{
    failure->status = status;
    failure->fault = BIND_WRONG_TYPE;
    failure->function = function;
    /* what SWIG calls a function varies from language to language */
    if (function && strncmp(function, "fer_", 4) == 0)
        failure->function += 4;
    else if (function && strncmp(function, "bind_", 5) == 0)
        failure->function += 5;
    failure->path[0] = failure->message[0] = 0;
    failure->object = NULL;
    failure->kind = NULL;
    failure->faults = NULL;
    failure->fault_count = 0;
    failure->out = (bind_writer){failure->message, sizeof failure->message, 0};
}

/* Not cut inside a character. */
void bind_say_text(bind_writer *out, const char *text, size_t length)
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
    bind_write(out, "%s%s", shown, cut < length ? "..." : "");
}

/* A value of the language: itself where that is short, otherwise its type. */
void bind_say_object(const bind_way *at, bind_object object)
{
    bind_writer *out = &at->failure->out;
    const bind_kind *kind = host_kind(at->host, object);
    size_t length;
    double number;
    if (host_language.show) {
        if (!host_language.show(at->host, object, out))
            bind_put(out, host_type(at->host, object));
    } else if (host_is_nothing(at->host, object)) {
        bind_put(out, host_type(at->host, object));
    } else if (kind && kind->form == BIND_QUANTITY && host_value(at->host, kind, object, &number)) {
        bind_write(out, "%s ", kind->name);
        bind_write_quantity(out, kind, number, -1, FER_SHORTEST);
    } else if (kind) {
        bind_write(out, "a %s", kind->name);
    } else {
        const char *text = host_text(at->host, object, &length);
        if (text) {
            bind_put(out, "'");
            bind_say_text(out, text, length);
            bind_put(out, "'");
        } else if (host_number(at->host, object, &number)) {
            write_number(out, number);
        } else {
            bind_put(out, host_type(at->host, object));
        }
    }
}

/* Members of an order stand without its name: "joint.hose.outside" wherever the joint is given. */
static int is_in_order(const bind_way *at)
{
    const bind_way *order = at->outer;
    return at->name && order->outer && !order->outer->outer && order->name &&
           strcmp(order->name, "order") == 0;
}

/* "dies[1].size", behind the function or constructor, which is the outermost. */
static void write_path(bind_writer *out, const bind_way *at)
{
    if (!at->outer)
        return;
    if (is_in_order(at)) {
        bind_put(out, at->name);
        return;
    }
    write_path(out, at->outer);
    if (at->name)
        bind_write(out, at->outer->outer ? ".%s" : "%s", at->name);
    else
        bind_write(out, "[%zu]", at->place + (size_t)host_language.first_place);
}

void bind_note(const bind_way *at, bind_object object)
{
    bind_failure *failure = at->failure;
    failure->path[0] = 0;
    write_path(&(bind_writer){failure->path, sizeof failure->path, 0}, at);
    failure->object = object;
}

/* "choose_die: dies[1].size" */
static void say_way(const bind_way *at)
{
    bind_writer *out = &at->failure->out;
    out->used = 0;
    bind_write(out, at->outer ? "%s: " : "%s", at->failure->function);
    write_path(out, at);
}

void bind_write_fault_path(bind_writer *out, const fer_fault *fault, int is_one_die)
{
    const char *path = fer_field_path(fault->field), *place = strstr(path, "[]");
    if (!place)
        bind_put(out, path);
    else if (is_one_die)
        bind_write(out, "die%s", place + 2);
    else
        bind_write(out, "%.*s[%zu]%s", (int)(place - path), path,
                   fault->die + (size_t)host_language.first_place, place + 2);
}

void bind_blame(const bind_way *at, bind_object object)
{
    bind_begin(at->failure, FER_OK, at->failure->function);
    bind_note(at, object);
    say_way(at);
}

void bind_say_units(bind_writer *out, const bind_kind *kind)
{
    const char *comma = "";
    for (const bind_unit *unit = bind_units; unit < bind_units + FER_UNIT_COUNT; unit++)
        if (unit->kind == kind) {
            bind_write(out, "%s%s", comma, unit->name);
            comma = ", ";
        }
}

static void say_members(bind_writer *out, const bind_kind *kind)
{
    const char *comma = "";
    int more = 0;
    bind_write(out, host_language.wanted[0], kind->name);
    for (const bind_member *m = kind->members; m->name; m++) {
        if (host_language.names_needed && m->optional) {
            more = 1;
            continue;
        }
        bind_write(out, "%s%s", comma, m->name);
        comma = ", ";
    }
    bind_write(out, "%s%s%s", more ? comma : "", more ? "..." : "", host_language.wanted[1]);
}

/* Of a long list only how its words look: nobody reads forty of them in a message. */
static void say_words(bind_writer *out, const bind_kind *kind)
{
    size_t count = 0;
    while (kind->words[count].name)
        count++;
    bind_put(out, count > 20 ? "a word of " : "one of ");
    if (count > 20)
        bind_write(out, "%s such as \"%s\"", kind->name, kind->words[0].name);
    for (size_t i = 0; count <= 20 && i < count; i++)
        bind_write(out, "%s\"%s\"", i ? ", " : "", kind->words[i].name);
}

static void say_wanted(bind_writer *out, const bind_kind *kind)
{
    switch (kind->form) {
    case BIND_QUANTITY:
        bind_write(out, "a %s or text with a unit such as \"20 %s\"", kind->name,
                   fer_unit_symbol(bind_shown_unit(kind)));
        break;
    case BIND_ENUM:
        say_words(out, kind);
        break;
    case BIND_SET:
        bind_write(out, "a list of words of %s", kind->element->name);
        break;
    case BIND_BOOL:
        bind_write(out, "%s or %s", host_language.style->words[1], host_language.style->words[0]);
        break;
    case BIND_INTEGER:
        bind_put(out, "a whole number");
        break;
    case BIND_NUMBER:
        bind_put(out, "a number");
        break;
    default:
        say_members(out, kind);
    }
}

/* How to write a bare number: with the usual unit, and with the base unit where it may have been meant so. */
static void say_how(bind_writer *out, const bind_kind *kind, const char *number)
{
    const fer_unit units[] = {bind_shown_unit(kind), bind_texts[kind - bind_kinds].base};
    for (int i = 0; i < 1 + (units[0] != units[1]); i++) {
        bind_write(out, "%s \"%s %s\"",
                   !i                    ? "write"
                   : host_language.maker ? ", or"
                                         : " or",
                   number, fer_unit_symbol(units[i]));
        if (host_language.maker) {
            bind_put(out, " or ");
            bind_write(out, host_language.maker, bind_units[units[i]].name, number);
        }
    }
}

/* ---- refusals --------------------------------------------------------------------------------------------- */

int bind_refuse(const bind_kind *kind, bind_object object, const bind_way *at)
{
    bind_writer *out = &at->failure->out;
    double number;
    if (bind_is_raised(at))
        return -1;
    bind_blame(at, object);
    if (kind->form == BIND_QUANTITY && host_number(at->host, object, &number)) {
        char text[32];
        bind_writer digits = {text, sizeof text, 0};
        write_number(&digits, number);
        bind_put(out, " needs a unit: ");
        say_how(out, kind, text);
        bind_write(out, ", not %s", text);
        return -1;
    }
    bind_put(out, " has to be ");
    say_wanted(out, kind);
    bind_put(out, ", not ");
    bind_say_object(at, object);
    return -1;
}

int bind_complain(const bind_way *at, bind_object object, bind_fault fault, const char *trouble)
{
    if (bind_is_raised(at))
        return -1;
    bind_blame(at, object);
    at->failure->fault = fault;
    bind_write(&at->failure->out, " %s", trouble);
    return -1;
}

int bind_complain_about(const bind_way *at, bind_object object, const char *trouble)
{
    if (bind_is_raised(at))
        return -1;
    bind_blame(at, object);
    bind_write(&at->failure->out, " %s, not ", trouble);
    bind_say_object(at, object);
    return -1;
}

int bind_refuse_quantity(const bind_kind *kind, bind_object object, const char *text, size_t length,
                         fer_status status, size_t stop, const bind_way *at)
{
    bind_writer *out = &at->failure->out;
    bind_blame(at, object);
    at->failure->status = status;
    bind_write(out, ": %s (", bind_find_status(status)->sentence);
    bind_say_object(at, object);
    bind_write(out, ", byte %zu", stop);
    if (status == FER_TEXT_UNIT_MISSING && length < SHOWN_BYTES) {
        char number[SHOWN_BYTES];
        snprintf(number, sizeof number, "%.*s", (int)length, text);
        bind_put(out, "; ");
        say_how(out, kind, number);
    }
    if (status == FER_TEXT_UNIT_MISSING || status == FER_TEXT_UNIT_UNKNOWN ||
        status == FER_TEXT_UNIT_OTHER_KIND) {
        bind_put(out, "; units: ");
        bind_say_units(out, kind);
    }
    bind_put(out, ")");
    return -1;
}

/* Whether a status is called OF_MEMBER_MISSING: HOSE_INSIDE_MISSING of a hose and inside; DIAMETER_MISSING of "" and diameter. Of a
 * list of dies `of` is "dies". */
static int is_missing_of(const char *status, const char *of, const char *member)
{
    char name[64];
    const size_t length = strlen(of), cut = length && of[length - 1] == 's' ? length - 1 : length;
    snprintf(name, sizeof name, "%.*s%s%s_MISSING", (int)cut, of, length ? "_" : "", member);
    for (char *at = name; *at; at++)
        if (*at >= 'a' && *at <= 'z')
            *at = (char)(*at - 'a' + 'A');
    return strcmp(status, name) == 0;
}

/* The status that says of this very quantity that it is not given, where it always has to be; "..., and this needs it" does not. */
static fer_status missing_status(const bind_way *at, bind_object object)
{
    const bind_way *of = at->outer;
    while (of && !of->name)
        of = of->outer;
    for (size_t i = 0; at->name && of && i < bind_status_count; i++)
        if (!strchr(bind_statuses[i].sentence, ',') &&
            (is_missing_of(bind_statuses[i].name, of->name, at->name) ||
             is_missing_of(bind_statuses[i].name, "", at->name)))
            return bind_statuses[i].status;
    return host_is_nothing(at->host, object) ? FER_QUANTITY_MISSING : FER_QUANTITY_NOT_A_NUMBER;
}

int bind_refuse_absent(bind_object object, const bind_way *at)
{
    bind_blame(at, object);
    at->failure->status = missing_status(at, object);
    bind_write(&at->failure->out, ": %s (", bind_find_status(at->failure->status)->sentence);
    bind_say_object(at, object);
    bind_put(&at->failure->out, ")");
    return -1;
}

int bind_refuse_missing(const bind_kind *kind, const char *given, const bind_way *at)
{
    bind_writer *out = &at->failure->out;
    const char *comma = "";
    const bind_member *first = kind->members;
    while (given[first - kind->members] || first->optional)
        first++;
    const bind_way inner = {at->host, at->failure, at, first->name, 0};
    bind_blame(&inner, NULL);
    if (host_language.missing_has_status)
        at->failure->status = missing_status(&inner, NULL);
    say_way(at);
    bind_write(out, ": a %s needs ", kind->name);
    for (size_t i = 0; kind->members[i].name; i++)
        if (!given[i] && !kind->members[i].optional) {
            bind_write(out, "%s%s", comma, kind->members[i].name);
            comma = ", ";
        }
    return -1;
}

int bind_refuse_stranger(const bind_kind *kind, const char *name, const bind_way *at)
{
    bind_writer *out = &at->failure->out;
    bind_blame(at, NULL);
    bind_write(out, ": %s has no member ", kind->name);
    bind_say_text(out, name, strlen(name));
    bind_put(out, "; its members are ");
    for (const bind_member *m = kind->members; m->name; m++)
        bind_write(out, "%s%s", m == kind->members ? "" : ", ", m->name);
    return -1;
}
