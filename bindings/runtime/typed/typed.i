/* SPDX-License-Identifier: MIT */
/* The primitives of types.i for languages with fixed types, see typed.h. A language's own primitives.i defines
 *   FER_WORDS(object)   an argument as words; NULL where it is null
 *   FER_FINISH          the words of the result, as what the wrapper returns
 * and says with TYPED_PASS which types arguments and results have on both sides. All that is allocated for a call is
 * given back by FER_FINISH, so that a refused argument needs nothing besides. */
%{
#include "typed.h"

#undef SWIG_fail
#define SWIG_fail return FER_FINISH
#define FER_HOST typed_host()
#define FER_MAXIMUM_RESULTS 65536
#define FER_TAKE(T, object, to, function, argument)                                                            \
    if (bind_take_argument(FER_HOST, &bind_kinds[BIND_##T],                                                    \
                           typed_value(FER_HOST, &bind_kinds[BIND_##T], FER_WORDS(object)), to, function,      \
                           argument) < 0)                                                                      \
    SWIG_fail
#define FER_TAKE_LIST(T, object, list, count, function, argument)                                              \
    list = (T *)bind_take_list(FER_HOST, &bind_kinds[BIND_##T],                                                \
                               typed_list(FER_HOST, &bind_kinds[BIND_##T], FER_WORDS(object)), &count,         \
                               function, argument);                                                            \
    if (!list)                                                                                                 \
    SWIG_fail
#define FER_TAKE_TEXT(object, text, length, function, argument)                                                \
    do {                                                                                                       \
        size_t bytes = 0;                                                                                      \
        text = (char *)host_text(FER_HOST, typed_text(FER_HOST, FER_WORDS(object)), &bytes);                   \
        if (!text || memchr(text, 0, bytes)) {                                                                 \
            bind_refuse_text(FER_HOST, function, argument, typed_text(FER_HOST, FER_WORDS(object)));                                                    \
            SWIG_fail;                                                                                         \
        }                                                                                                      \
    } while (0)
#define FER_IS_LEFT_OUT(object) (!(object) && typed_value(FER_HOST, NULL, NULL))
#define FER_GIVE(T, from) typed_give(FER_HOST, &bind_kinds[BIND_##T], from)
#define FER_GIVE_LIST(T, from, count) typed_give_list(FER_HOST, &bind_kinds[BIND_##T], from, count)
#define FER_GIVE_TEXT(text, length) host_new_text(FER_HOST, text, length)
#define FER_RETURN(result, object) (void)(object)
#define FER_APPEND(results, object) (void)(object)
#define FER_NOTHING(results) (void)0
#define FER_RAISE(status, function)                                                                            \
    do {                                                                                                       \
        bind_object given[32];                                                                                 \
        const size_t given_count = typed_arguments(FER_HOST, given, 32);                                       \
        bind_raise(FER_HOST, function, status, given, given_count);                                            \
        SWIG_fail;                                                                                             \
    } while (0)
#define FER_FREE(list) host_give_back(FER_HOST, list)
#define FER_MEMORY(T, list, count)                                                                                      \
    if (!(list = (T *)host_memory(FER_HOST, (count) * sizeof(T))))                                      \
    SWIG_fail
%}

%define FER_LONG_CALL(FUNCTION)
%enddef

TYPED_PASS(SWIGTYPE)
TYPED_PASS(SWIGTYPE *)
TYPED_PASS(enum SWIGTYPE)
TYPED_PASS(int)
TYPED_PASS(unsigned int)
TYPED_PASS(long)
TYPED_PASS(unsigned long)
TYPED_PASS(long long)
TYPED_PASS(unsigned long long)
TYPED_PASS(size_t)
TYPED_PASS(double)
TYPED_PASS(const char *)
TYPED_PASS(typed_words)
TYPED_PASS(bind_object)


/* What the classes call besides the library's functions. */
%typemap(in, numinputs=0, noblock=1) bind_host * { $1 = FER_HOST; }
%typemap(in, noblock=1) typed_words { $1 = FER_WORDS($input); }
%typemap(in, noblock=1) const char *  { FER_TAKE_TEXT($input, $1, NULL, "$symname", "$1_name"); }
%typemap(freearg) const char * "";
%typemap(out, noblock=1) const char * { FER_RETURN($result, FER_GIVE_TEXT($1, strlen($1))); }
%typemap(out, noblock=1) bind_object { if (!$1) SWIG_fail; }
%rename(read) typed_read;
%rename(parse) typed_parse;
%rename(text) typed_write;
%rename(number) typed_number;
%rename(layout) typed_layout;
bind_object typed_read(bind_host *host, const char *kind, const char *function, const char *argument, typed_words text);
bind_object typed_parse(bind_host *host, const char *kind, typed_words text, const char *decimal);
bind_object typed_write(bind_host *host, const char *kind, typed_words value, const char *form);
bind_object typed_number(bind_host *host, const char *kind, typed_words value, const char *unit);
const char *typed_layout(void);
