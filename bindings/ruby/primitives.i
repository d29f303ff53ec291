/* SPDX-License-Identifier: MIT */
/* Ruby's primitives of types.i; host.c looks at its values. host_fail() raises at once, so what is taken from the heap
 * belongs to the garbage collector, which finds it by a variable of the wrapper. */
%{
#include "host.h"

#define FER_HOST ((bind_host *)NULL)
#define FER_OBJECT(object) bind_ruby_object(object)
#define FER_ARGUMENTS(list, upper) bind_ruby_arguments(argc, argv, list, upper)
#define FER_RETURN(result, object) result = bind_ruby_value(object)
#define FER_APPEND(results, object) results = bind_ruby_append(results, &result_count, bind_ruby_value(object))
#define FER_NOTHING(results)                                                                                   \
    int result_count = 0;                                                                                      \
    results = Qnil

#define FER_TAKE_LIST(T, object, list, count, function, argument)                                              \
    volatile VALUE hold_##list = Qnil;                                                                         \
    list = (T *)bind_take_list((bind_host *)&hold_##list, &bind_kinds[BIND_##T], FER_OBJECT(object), &count,   \
                               function, argument)
#define FER_MEMORY(T, list, count)                                                                                      \
    volatile VALUE hold_##list = Qnil;                                                                         \
    list = (T *)host_memory((bind_host *)&hold_##list, (count) * sizeof(T))
#define FER_FREE(list) bind_ruby_free(hold_##list)

#define FER_WARN_OLD(text) rb_category_warn(RB_WARN_CATEGORY_DEPRECATED, "%s", text)

#define rb_raise(class, ...) bind_refuse_count(FER_HOST, __func__ + sizeof "_wrap_" - 1, (size_t)argc)
%}
%include "script.i"

%init %{
    bind_ruby_start();
%}
