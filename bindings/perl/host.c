/* SPDX-License-Identifier: MIT */
#define PERL_NO_GET_CONTEXT
#include "host.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#ifdef MULTIPLICITY
#define PERL_OF(host)                                                                                        \
    PerlInterpreter *my_perl = (PerlInterpreter *)(host);                                                    \
    (void)my_perl
#else
#define PERL_OF(host) (void)(host)
#endif

const bind_language host_language = {.has_unsigned = 1,
                                     .maker = "Ferrule::%s(%s)",
                                     .wanted = {"a %s: a hash with ", ""},
                                     .style = &bind_plain_style};

static SV *sv(bind_object object)
{
    return (SV *)object;
}

/* ---- looking ---------------------------------------------------------------------------------------------- */

int host_is_nothing(bind_host *host, bind_object object)
{
    PERL_OF(host);
    SvGETMAGIC(sv(object));
    return !SvOK(sv(object));
}

/* The package Ferrule::Length is the kind Length. */
const bind_kind *host_kind(bind_host *host, bind_object object)
{
    PERL_OF(host);
    SvGETMAGIC(sv(object));
    if (!SvROK(sv(object)) || !SvOBJECT(SvRV(sv(object))))
        return NULL;
    const char *name = HvNAME(SvSTASH(SvRV(sv(object))));
    if (!name || strncmp(name, "Ferrule::", 9) != 0)
        return NULL;
    for (const bind_kind *kind = bind_kinds; kind < bind_kinds + BIND_COUNT; kind++)
        if (strcmp(kind->name, name + 9) == 0) {
            const int is_table = SvTYPE(SvRV(sv(object))) == SVt_PVHV;
            const int is_scalar = SvTYPE(SvRV(sv(object))) < SVt_PVAV;
            return kind->members ? (is_table ? kind : NULL) : is_scalar ? kind : NULL;
        }
    return NULL;
}

int host_value(bind_host *host, const bind_kind *kind, bind_object object, void *to)
{
    PERL_OF(host);
    if (kind->members || host_kind(host, object) != kind)
        return 0;
    *(double *)to = SvNV(SvRV(sv(object)));
    return 1;
}

/* Text without the mark of UTF-8 is what stood in a source or file, so bytes that are UTF-8 are taken for that;
 * what cannot be UTF-8 is Latin-1, as Perl says. */
const char *host_text(bind_host *host, bind_object object, size_t *length)
{
    PERL_OF(host);
    STRLEN bytes;
    SvGETMAGIC(sv(object));
    if (SvROK(sv(object)) || !SvPOK(sv(object)))
        return NULL;
    const char *text = SvPV_nomg(sv(object), bytes);
    if (!SvUTF8(sv(object)) && !is_utf8_string((const U8 *)text, bytes)) {
        SV *copy = sv_2mortal(newSVpvn(text, bytes));
        text = SvPVutf8(copy, bytes);
    }
    *length = bytes;
    return text;
}

int host_number(bind_host *host, bind_object object, double *number)
{
    PERL_OF(host);
    SvGETMAGIC(sv(object));
    if (SvROK(sv(object)) || !SvOK(sv(object)) || !(SvNIOK(sv(object)) || looks_like_number(sv(object))))
        return 0;
    *number = SvNV_nomg(sv(object));
    return 1;
}

int host_integer(bind_host *host, bind_object object, uint64_t *number)
{
    PERL_OF(host);
    double real;
    if (!host_number(host, object, &real))
        return 0;
    (void)SvIV_please_nomg(sv(object)); /* text of digits becomes a whole number */
    if (SvIOK(sv(object))) {
        *number = SvIsUV(sv(object)) ? SvUV_nomg(sv(object)) : (uint64_t)SvIV_nomg(sv(object));
        return SvIsUV(sv(object)) && *number > INT64_MAX ? 2 : 1;
    }
    if (real >= 0x1p63 || real < -0x1p63)
        return -1;
    *number = real == real ? (uint64_t)(int64_t)real : 0;
    return (double)(int64_t)*number == real;
}

/* Perl's own false and true are the empty text and 1. */
int host_bool(bind_host *host, bind_object object, int *is_true)
{
    PERL_OF(host);
    double number;
    size_t length = 1;
    const char *text = host_text(host, object, &length);
    *is_true = SvTRUE_nomg(sv(object));
    return (text && !length) || (host_number(host, object, &number) && (number == 0 || number == 1));
}

static SV *inner(bind_object object, svtype type)
{
    SV *inside = SvROK(sv(object)) ? SvRV(sv(object)) : NULL;
    return inside && SvTYPE(inside) == type && !SvOBJECT(inside) ? inside : NULL;
}

int host_list(bind_host *host, bind_object *whole, int is_struct, size_t *count)
{
    PERL_OF(host);
    (void)is_struct;
    SvGETMAGIC(sv(*whole));
    AV *list = (AV *)inner(*whole, SVt_PVAV);
    if (!list)
        return 0;
    *count = (size_t)(av_len(list) + 1);
    return 1;
}

bind_object host_item(bind_host *host, bind_object object, size_t i)
{
    PERL_OF(host);
    SV **item = av_fetch((AV *)SvRV(sv(object)), (SSize_t)i, 0);
    return item ? *item : &PL_sv_undef;
}

int host_table(bind_host *host, bind_object object, const bind_kind *kind)
{
    PERL_OF(host);
    (void)kind;
    SvGETMAGIC(sv(object));
    return inner(object, SVt_PVHV) != NULL;
}

bind_object host_member(bind_host *host, bind_object object, const bind_kind *kind, size_t place)
{
    PERL_OF(host);
    const char *name = kind->members[place].name;
    SV **member = hv_fetch((HV *)SvRV(sv(object)), name, (I32)strlen(name), 0);
    return member ? *member : NULL;
}

int host_stranger(bind_host *host, bind_object object, const bind_kind *kind, size_t found, char *name,
                  size_t capacity)
{
    (void)found;
    PERL_OF(host);
    HV *table = (HV *)SvRV(sv(object));
    HE *entry;
    int is_found = 0;
    hv_iterinit(table);
    while (!is_found && (entry = hv_iternext(table))) {
        STRLEN length;
        const char *text = SvPV(hv_iterkeysv(entry), length);
        is_found = !bind_is_member(kind, text, length);
        my_strlcpy(name, text, capacity);
    }
    hv_iterinit(table);
    return is_found;
}

void host_drop(bind_host *host, bind_object object)
{
    (void)host;
    (void)object;
}

const char *host_type(bind_host *host, bind_object object)
{
    PERL_OF(host);
    if (!SvOK(sv(object)))
        return "undef";
    if (!SvROK(sv(object)))
        return "a value of another kind";
    return SvOBJECT(SvRV(sv(object)))             ? "an object of another kind"
           : SvTYPE(SvRV(sv(object))) == SVt_PVAV ? "an array"
           : SvTYPE(SvRV(sv(object))) == SVt_PVHV ? "a hash"
                                                  : "a reference of another kind";
}

/* ---- making ----------------------------------------------------------------------------------------------- */

static void bless_as(pTHX_ SV *reference, const char *name)
{
    sv_bless(reference, gv_stashpv(Perl_form(aTHX_ "Ferrule::%s", name), GV_ADD));
}

bind_object host_new_quantity(bind_host *host, const bind_kind *kind, double base)
{
    PERL_OF(host);
    SV *reference = newRV_noinc(newSVnv(base));
    bless_as(aTHX_ reference, kind->name);
    SvREADONLY_on(SvRV(reference));
    return reference;
}

bind_object host_new_number(bind_host *host, double number)
{
    PERL_OF(host);
    return newSVnv(number);
}

bind_object host_new_integer(bind_host *host, int64_t number)
{
    PERL_OF(host);
    return newSViv(number);
}

bind_object host_new_unsigned(bind_host *host, uint64_t number)
{
    PERL_OF(host);
    return newSVuv(number);
}

bind_object host_new_bool(bind_host *host, int is_true)
{
    PERL_OF(host);
    return newSViv(is_true);
}

bind_object host_new_text(bind_host *host, const char *text, size_t length)
{
    PERL_OF(host);
    SV *made = newSVpvn(text, length);
    if (is_utf8_string((const U8 *)text, length) && !is_invariant_string((const U8 *)text, length))
        SvUTF8_on(made);
    return made;
}

bind_object host_new_word(bind_host *host, const bind_kind *kind, const char *name)
{
    (void)kind;
    return host_new_text(host, name, strlen(name));
}

bind_object host_new_list(bind_host *host)
{
    PERL_OF(host);
    return newRV_noinc((SV *)newAV());
}

void host_put_item(bind_host *host, bind_object list, bind_object item)
{
    PERL_OF(host);
    av_push((AV *)SvRV(sv(list)), sv(item));
}

bind_object host_new_table(bind_host *host, const bind_kind *kind)
{
    PERL_OF(host);
    SV *reference = newRV_noinc((SV *)newHV());
    if (kind)
        bless_as(aTHX_ reference, kind->name);
    return reference;
}

void host_put_member(bind_host *host, bind_object table, const char *name, bind_object value)
{
    PERL_OF(host);
    (void)hv_store((HV *)SvRV(sv(table)), name, (I32)strlen(name), sv(value), 0);
}

/* Freed with the temporary values, also where something dies on the way. */
void *host_memory(bind_host *host, size_t bytes)
{
    PERL_OF(host);
    return SvPVX(sv_2mortal(newSV(bytes)));
}

void host_give_back(bind_host *host, void *memory)
{
    (void)host;
    (void)memory;
}

/* ---- errors, arguments ------------------------------------------------------------------------------------- */

/* Ferrule::Error::Stem with message, path, name, code, function, file, line in $@; the wrapper dies. */
void host_fail(bind_host *host, const bind_failure *failure)
{
    PERL_OF(host);
    char class[32];
    const bind_object error = host_new_table(host, NULL);
    bind_error_class(failure, class, sizeof class);
    host_put_member(host, error, "message", host_new_text(host, failure->message, strlen(failure->message)));
    host_put_member(host, error, "function", newSVpv(failure->function, 0));
    host_put_member(host, error, "file", newSVpv(CopFILE(PL_curcop), 0));
    host_put_member(host, error, "line", newSViv((IV)CopLINE(PL_curcop)));
    if (failure->path[0])
        host_put_member(host, error, "path", newSVpv(failure->path, 0));
    if (failure->status != FER_OK) {
        host_put_member(host, error, "name", newSVpv(bind_status_name(failure->status), 0));
        host_put_member(host, error, "code", newSViv((IV)failure->status));
    }
    bless_as(aTHX_ sv(error), Perl_form(aTHX_ "Error::%s", class));
    sv_setsv(ERRSV, sv(error));
    SvREFCNT_dec(sv(error));
}

size_t bind_perl_arguments(SV **arguments, size_t given, bind_object *list, size_t maximum)
{
    const size_t count = given < maximum ? given : maximum;
    for (size_t i = 0; i < count; i++)
        list[i] = arguments[i];
    return count;
}

/* SWIG's "Usage: crimp_diameter(joint,compression,model);" */
void bind_perl_count(bind_host *host, const char *usage, size_t given)
{
    char name[80] = "";
    const char *begin = usage + strlen("Usage: ");
    strncpy(name, begin, sizeof name - 1);
    name[strcspn(name, "(")] = 0;
    bind_refuse_count(host, name, given);
}
