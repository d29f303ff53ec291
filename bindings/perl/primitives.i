/* SPDX-License-Identifier: MIT */
/* Perl's primitives of types.i; host.c looks at its values. */
%{
#include "host.h"

#ifdef MULTIPLICITY
#define FER_HOST ((bind_host *)my_perl)
#else
#define FER_HOST ((bind_host *)NULL)
#endif
#define FER_OBJECT(object) ((bind_object)(object))
#define FER_ARGUMENTS(list, upper) bind_perl_arguments(&ST(0), (size_t)items, list, upper)
#define FER_RETURN(result, object)                                                                             \
    do {                                                                                                       \
        SV *made = sv_2mortal((SV *)(object));                                                                 \
        EXTEND(SP, argvi + 1);                                                                                 \
        ST(argvi) = made;                                                                                      \
        argvi++;                                                                                               \
    } while (0)
#define FER_APPEND(results, object) FER_RETURN(results, object)
#define FER_NOTHING(results) (void)0
#define FER_WARN_OLD(text) Perl_ck_warner(aTHX_ packWARN(WARN_DEPRECATED), "%s", text)

#undef SWIG_croak
#define SWIG_croak(usage)                                                                                      \
    {                                                                                                          \
        bind_perl_count(FER_HOST, usage, (size_t)items);                                                       \
        SWIG_fail;                                                                                             \
    }
%}
%include "script.i"
