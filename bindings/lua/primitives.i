/* SPDX-License-Identifier: MIT */
/* Lua's primitives of types.i. A value is named by its place on the stack; host.c looks at it. */
%{
#include "host.h"

#define FER_HOST ((bind_host *)L)
#define FER_OBJECT(place) ((bind_object)(intptr_t)(place))
#define FER_ARGUMENTS(list, upper) bind_lua_arguments(L, list, upper)
#define FER_RETURN(result, object) (void)(object), SWIG_arg++
#define FER_APPEND(results, object) (void)(object), SWIG_arg++
#define FER_NOTHING(results) (void)0
#define FER_WARN_OLD(text) lua_warning(L, text, 0)

#undef SWIG_check_num_args
#define SWIG_check_num_args(function, lower, upper)                                                             \
    if (lua_gettop(L) < lower || lua_gettop(L) > upper) {                                                       \
        bind_refuse_count(FER_HOST, function, (size_t)lua_gettop(L));                                          \
        SWIG_fail;                                                                                             \
    }
%}
%include "script.i"

%init %{
    bind_lua_start(L);
%}
