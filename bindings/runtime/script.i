/* SPDX-License-Identifier: MIT */
/* The primitives of types.i for the scripting languages, whose values the runtime reads and makes. A language's own
 * primitives.i defines
 *   FER_HOST                  the interpreter as a bind_host *
 *   FER_OBJECT(object)        a value as a bind_object
 *   FER_ARGUMENTS(list, most) fills a list of bind_object with the arguments of the call, gives their number
 *   FER_RETURN, FER_APPEND, FER_NOTHING  as types.i says
 * and, where memory is not freed by hand, its own FER_TAKE_LIST, FER_MEMORY, FER_FREE. */
%{
#include "script.h"

#define FER_MAXIMUM_RESULTS 65536
#define FER_TAKE(T, object, to, function, argument)                                                            \
    if (bind_take_argument(FER_HOST, &bind_kinds[BIND_##T], FER_OBJECT(object), to, function, argument) < 0)   \
    SWIG_fail
#define FER_IS_LEFT_OUT(object) host_is_nothing(FER_HOST, FER_OBJECT(object))
#define FER_GIVE(T, from) bind_give(FER_HOST, &bind_kinds[BIND_##T], from)
#define FER_GIVE_LIST(T, from, count) bind_give_list(FER_HOST, &bind_kinds[BIND_##T], from, count)
#define FER_GIVE_TEXT(text, length) host_new_text(FER_HOST, text, length)
#define FER_RAISE(status, function)                                                                            \
    do {                                                                                                       \
        bind_object given[32];                                                                                 \
        const size_t given_count = FER_ARGUMENTS(given, 32);                                                   \
        bind_raise(FER_HOST, function, status, given, given_count);                                            \
        SWIG_fail;                                                                                             \
    } while (0)
#define FER_TAKE_TEXT(object, text, length, function, argument)                                                \
    do {                                                                                                       \
        size_t bytes = 0;                                                                                      \
        text = (char *)host_text(FER_HOST, FER_OBJECT(object), &bytes);                                        \
        if (!text || strlen(text) != bytes) {                                                                  \
            bind_refuse_text(FER_HOST, function, argument, FER_OBJECT(object));                                                    \
            SWIG_fail;                                                                                         \
        }                                                                                                      \
    } while (0)
#ifndef FER_FREE
#define FER_TAKE_LIST(T, object, list, count, function, argument)                                              \
    list = (T *)bind_take_list(FER_HOST, &bind_kinds[BIND_##T], FER_OBJECT(object), &count, function, argument); \
    if (!list)                                                                                                 \
    SWIG_fail
#define FER_FREE(list) host_give_back(FER_HOST, list)
#endif
#ifndef FER_MEMORY
#define FER_MEMORY(T, list, count)                                                                                      \
    if (!(list = (T *)host_memory(FER_HOST, (count) * sizeof(T))))                                      \
    SWIG_fail
#endif
%}

%define FER_LONG_CALL(FUNCTION)
%enddef

/* What every language has besides the library's functions. */
%typemap(in, numinputs=0, noblock=1) bind_host * { $1 = FER_HOST; }
%typemap(in, noblock=1) bind_object { $1 = FER_OBJECT($input); }
%typemap(out, noblock=1) bind_object { if (!$1) SWIG_fail; FER_RETURN($result, $1); }
%typemap(in, noblock=1) const char *  { FER_TAKE_TEXT($input, $1, NULL, "$symname", "$1_name"); }
%typemap(freearg) const char * "";
%rename(make) bind_make;
%rename(parse) bind_parsed;
%rename(text) bind_written;
%rename(number) bind_number;
%rename(compute) bind_compute;
%rename(describe) bind_describe;
bind_object bind_make(bind_host *host, const char *kind, bind_object from);
bind_object bind_parsed(bind_host *host, const char *kind, bind_object text, const char *decimal);
bind_object bind_written(bind_host *host, bind_object value, const char *form);
bind_object bind_number(bind_host *host, bind_object quantity, const char *unit);
bind_object bind_compute(bind_host *host, bind_object left, const char *operation, bind_object right);
bind_object bind_describe(bind_host *host);
