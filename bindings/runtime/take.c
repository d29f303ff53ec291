/* SPDX-License-Identifier: MIT */
/* Values of a language into C values, by the table of kinds. */
#include "say.h"

#include <math.h>
#include <string.h>

static int take(const bind_kind *kind, bind_object object, void *to, const bind_way *at);

/* "nan mm", "inf mm": where quantities are text, results that are not numbers are this. */
static int is_no_number(const bind_kind *kind, const char *text, double *to)
{
    const int sign = *text == '-';
    const char *digits = text + sign;
    if (!host_language.values_are_text ||
        (strncmp(digits, "nan ", 4) != 0 && strncmp(digits, "inf ", 4) != 0) ||
        bind_find_unit(kind, digits + 4) < 0)
        return 0;
    *to = *digits == 'n' ? NAN : sign ? -INFINITY : INFINITY;
    return 1;
}

fer_status bind_parse(const bind_kind *kind, const char *text, size_t length, double *to, size_t *stop)
{
    const fer_status status = bind_texts[kind - bind_kinds].parse(text, length, to, stop);
    return status == FER_OK || !is_no_number(kind, text, to) ? status : FER_OK;
}

static int is_absent(const bind_way *at, bind_object object)
{
    return host_language.is_absent && host_language.is_absent(at->host, object);
}

static int take_quantity(const bind_kind *kind, bind_object object, double *to, const bind_way *at)
{
    size_t length, stop = 0;
    const char *text = host_text(at->host, object, &length);
    if (text) {
        const fer_status status = bind_parse(kind, text, length, to, &stop);
        return status == FER_OK ? 0 : bind_refuse_quantity(kind, object, text, length, status, stop, at);
    }
    if (host_language.convert && host_language.convert(at->host, kind, object, to))
        return 0;
    if (is_absent(at, object))
        return bind_refuse_absent(object, at);
    return bind_refuse(kind, object, at);
}

static int take_word(const bind_kind *kind, bind_object object, int *to, const bind_way *at)
{
    size_t length;
    const char *text = host_text(at->host, object, &length);
    const bind_word *word = text ? bind_find_word(kind, text, length) : NULL;
    if (!word)
        return bind_refuse(kind, object, at);
    *to = word->number;
    return 0;
}

static int take_set(const bind_kind *kind, bind_object object, uint64_t *to, const bind_way *at)
{
    bind_object list = object;
    size_t count;
    uint64_t bits = 0;
    if (!host_list(at->host, &list, 0, &count))
        return bind_refuse(kind, object, at);
    for (size_t i = 0; i < count; i++) {
        const bind_way place = {at->host, at->failure, at, NULL, i};
        const bind_object item = host_item(at->host, list, i);
        int number = 0;
        if (take(kind->element, item, &number, &place) < 0)
            return -1;
        host_drop(at->host, item);
        bits |= UINT64_C(1) << number;
    }
    *to = bits;
    return 0;
}

static int take_integer(const bind_kind *kind, bind_object object, void *to, const bind_way *at)
{
    const int bits = (int)kind->size * 8 - 1;
    const int64_t maximum = INT64_MAX >> (63 - bits);
    uint64_t number = 0;
    const int taken = host_integer(at->host, object, &number);
    const int64_t whole = (int64_t)number;
    int fits = taken == 1 && whole >= -maximum - 1 && whole <= maximum;
    if (!taken)
        return bind_refuse(kind, object, at);
    if (!kind->is_signed && kind->size < 8)
        fits = taken == 1 && whole >= 0 && whole <= 2 * maximum + 1;
    else if (!kind->is_signed)
        fits = taken == 2 || (taken == 1 && (whole >= 0 || !host_language.has_unsigned));
    if (!fits)
        return bind_complain(at, object, BIND_WRONG_RANGE, "is out of range");
    bind_store_integer(kind, number, to);
    return 0;
}

static int take_items(const bind_kind *kind, bind_object list, size_t count, char *to, const bind_way *at)
{
    for (size_t i = 0; i < count; i++) {
        const bind_way place = {at->host, at->failure, at, NULL, i};
        const bind_object item = host_item(at->host, list, i);
        if (!host_value(at->host, kind, item, to + i * kind->size) &&
            take(kind, item, to + i * kind->size, &place) < 0)
            return -1;
        host_drop(at->host, item);
    }
    return 0;
}

/* ---- structs ---------------------------------------------------------------------------------------------- */

/* What the members of a struct are read from. */
typedef struct source {
    bind_object list, table; /* NULL: none */
    size_t count;            /* of the list */
    int changes; /* 1: what is not given stays as it is, and a table changes members of a member */
} source;

static int take_members(const bind_kind *kind, const source *from, char *to, const bind_way *at);

static int take_member(const bind_member *m, bind_object object, int changes, char *to, const bind_way *at)
{
    size_t count;
    if (!m->count) {
        const source inner = {NULL, object, 0, 1};
        return changes && m->kind->members && host_table(at->host, object, m->kind)
                   ? take_members(m->kind, &inner, to, at)
                   : take(m->kind, object, to, at);
    }
    if (!host_list(at->host, &object, 0, &count))
        return bind_complain_about(at, object, "has to be a list");
    if (count != m->count)
        return bind_complain(at, object, BIND_WRONG_VALUE, "has another length");
    return take_items(m->kind, object, count, to, at);
}

static int finish_found(const bind_kind *kind, const char *given, int changes, char *to, const bind_way *at)
{
    if (!bind_is_there(kind, to))
        bind_clear(kind->members->kind, to + kind->members->offset);
    else if (!given[0] && !changes)
        return bind_complain(at, NULL, BIND_WRONG_TYPE,
                             "needs a value, or the status that says why there is none");
    return 0;
}

/* The member at a place; NULL: it is not given. */
static bind_object find_member(const bind_kind *kind, const source *from, size_t place, size_t *by_name,
                               const bind_way *at)
{
    const bind_object named = from->table ? host_member(at->host, from->table, kind, place) : NULL;
    *by_name += named != NULL;
    if (place >= from->count)
        return named;
    if (!named)
        return host_item(at->host, from->list, place);
    bind_complain(at, named, BIND_WRONG_TYPE, "is given twice");
    return NULL;
}

static int take_members(const bind_kind *kind, const source *from, char *to, const bind_way *at)
{
    char given[256] = {0}, name[SHOWN_BYTES];
    size_t by_name = 0;
    int is_missing = 0;
    if (!from->changes)
        memset(to, 0, kind->size);
    for (size_t i = 0; kind->members[i].name; i++) {
        const bind_member *m = &kind->members[i];
        const bind_way inner = {at->host, at->failure, at, m->name, 0};
        const bind_object member = find_member(kind, from, i, &by_name, &inner);
        if (!member && (at->failure->out.used || bind_is_raised(at)))
            return -1;
        is_missing |= !member && !m->optional;
        if (!member)
            continue;
        given[i] = !host_is_nothing(at->host, member);
        if (!given[i] && m->optional)
            memset(to + m->offset, 0, m->kind->size * (m->count ? m->count : 1));
        else if (take_member(m, member, from->changes, to + m->offset, &inner) < 0)
            return -1;
        host_drop(at->host, member);
    }
    const int stranger =
        from->table ? host_stranger(at->host, from->table, kind, by_name, name, sizeof name) : 0;
    if (stranger < 0)
        return bind_complain(at, from->table, BIND_WRONG_TYPE, "changed while it was read");
    if (stranger)
        return bind_refuse_stranger(kind, name, at);
    if (is_missing && !from->changes)
        return bind_refuse_missing(kind, given, at);
    return kind->form == BIND_FOUND ? finish_found(kind, given, from->changes, to, at) : 0;
}

static size_t member_count(const bind_kind *kind)
{
    size_t count = 0;
    while (kind->members[count].name)
        count++;
    return count;
}

/* Whether a struct of ours is the first member, or its first member and so on. What is none may be anything. */
static int may_stand_for(const bind_kind *kind, const bind_kind *its)
{
    if (!its || !its->members)
        return 1;
    while (kind != its && bind_is_shorthand(kind))
        kind = kind->members->kind;
    return kind == its;
}

static int take_struct(const bind_kind *kind, bind_object object, char *to, const bind_way *at)
{
    const bind_kind *its = host_kind(at->host, object);
    source from = {NULL, object, 0, 0};
    if (its == kind || (!its && host_table(at->host, object, kind)))
        return take_members(kind, &from, to, at);
    from = (source){object, NULL, 0, 0};
    if (!its && host_list(at->host, &from.list, 1, &from.count))
        return from.count > member_count(kind)
                   ? bind_complain(at, object, BIND_WRONG_TYPE, "has fewer members than are given")
                   : take_members(kind, &from, to, at);
    if (!bind_is_shorthand(kind) || host_is_nothing(at->host, object) || !may_stand_for(kind, its))
        return bind_refuse(kind, object, at);
    memset(to, 0, kind->size);
    return take(kind->members->kind, object, to + kind->members->offset, at);
}

static int take(const bind_kind *kind, bind_object object, void *to, const bind_way *at)
{
    if (host_value(at->host, kind, object, to))
        return 0;
    switch (kind->form) {
    case BIND_QUANTITY:
        return take_quantity(kind, object, to, at);
    case BIND_ENUM:
        return take_word(kind, object, to, at);
    case BIND_SET:
        return take_set(kind, object, to, at);
    case BIND_BOOL:
        return host_bool(at->host, object, to) ? 0 : bind_refuse(kind, object, at);
    case BIND_INTEGER:
        return take_integer(kind, object, to, at);
    case BIND_NUMBER:
        return host_number(at->host, object, to) ? 0
               : is_absent(at, object)           ? bind_refuse_absent(object, at)
                                                 : bind_refuse(kind, object, at);
    default:
        return take_struct(kind, object, to, at);
    }
}

/* ---- what the primitives call ----------------------------------------------------------------------------- */

int bind_take_again(const bind_way *call, const bind_parameter *p, bind_object object, bind_any *value)
{
    bind_failure unused;
    bind_expect(&unused, "");
    const bind_way again = {call->host, &unused, NULL, p->name, 0};
    return p->kind && !p->is_list && p->kind->members && take(p->kind, object, value, &again) >= 0;
}

int bind_take_argument(bind_host *host, const bind_kind *kind, bind_object object, void *to,
                       const char *function, const char *argument)
{
    bind_failure failure;
    bind_expect(&failure, function);
    const bind_way call = {host, &failure, NULL, function, 0};
    const bind_way at = {host, &failure, &call, argument, 0};
    const int taken = take(kind, object, to, argument ? &at : &call);
    if (taken < 0)
        host_fail(host, &failure);
    return taken;
}

/* Texts of quantities only: of a struct, which of its texts would be meant? */
static int take_text(const bind_kind *kind, bind_object object, const char *decimal, double *to,
                     const bind_way *call)
{
    size_t length, stop = 0;
    const bind_text *texts = &bind_texts[kind - bind_kinds];
    const int is_comma = strcmp(decimal, ",") == 0;
    const bind_way at = {call->host, call->failure, call, "decimal", 0};
    if (!is_comma && strcmp(decimal, ".") != 0)
        return bind_complain(&at, NULL, BIND_WRONG_VALUE, "has to be \",\" or \".\"");
    const char *text = kind->form == BIND_QUANTITY ? host_text(call->host, object, &length) : NULL;
    if (!text)
        return bind_complain_about(call, object, "with a decimal sign has to be text of a quantity");
    const fer_status status = (is_comma ? texts->parse_comma : texts->parse)(text, length, to, &stop);
    return status == FER_OK ? 0 : bind_refuse_quantity(kind, object, text, length, status, stop, call);
}

int bind_take_text(bind_host *host, const bind_kind *kind, bind_object object, const char *decimal,
                   double *to)
{
    bind_failure failure;
    bind_expect(&failure, kind->name);
    const bind_way call = {host, &failure, NULL, kind->name, 0};
    const int taken = take_text(kind, object, decimal, to, &call);
    if (taken < 0)
        host_fail(host, &failure);
    return taken;
}

int bind_take_members(bind_host *host, const bind_kind *kind, bind_object list, bind_object table,
                      int changes, void *to)
{
    bind_failure failure;
    source from = {list, table, 0, changes};
    bind_expect(&failure, kind->name);
    const bind_way call = {host, &failure, NULL, kind->name, 0};
    int taken = 0;
    if (list)
        host_list(host, &from.list, 1, &from.count);
    if (from.count > member_count(kind))
        taken = bind_complain(&call, NULL, BIND_WRONG_TYPE, "has fewer members than are given");
    else
        taken = take_members(kind, &from, to, &call);
    if (taken < 0)
        host_fail(host, &failure);
    return taken;
}

void *bind_take_list(bind_host *host, const bind_kind *kind, bind_object object, size_t *count,
                     const char *function, const char *argument)
{
    bind_failure failure;
    bind_object items = object;
    bind_expect(&failure, function);
    const bind_way call = {host, &failure, NULL, function, 0};
    const bind_way at = {host, &failure, &call, argument, 0};
    *count = 0;
    if (host_kind(host, object) || !host_list(host, &items, 0, count)) {
        bind_complain_about(&at, object, "has to be a list");
        host_fail(host, &failure);
        return NULL;
    }
    char *list = host_memory(host, (*count ? *count : 1) * kind->size);
    if (list && take_items(kind, items, *count, list, &at) < 0) {
        host_give_back(host, list);
        host_fail(host, &failure);
        return NULL;
    }
    return list;
}
