/* SPDX-License-Identifier: MIT */
/* C values as values of a language that makes lists and tables of them. */
#include "script.h"

static bind_object give_set(bind_host *host, const bind_kind *kind, uint64_t bits)
{
    const bind_object list = host_new_list(host);
    for (int bit = 0; bit < 64; bit++)
        if (bits >> bit & 1)
            host_put_item(host, list, host_new_word(host, kind->element, bind_word_of(kind->element, bit)));
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
        return host_new_word(host, kind, bind_word_of(kind, *(const int *)from));
    case BIND_SET:
        return give_set(host, kind, *(const uint64_t *)from);
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
