/* SPDX-License-Identifier: MIT */
/* Python's primitives of types.i; the work is done in value.c and convert.c. */
%{
#include "value.h"

#undef PyArg_ParseTupleAndKeywords
#define PyArg_ParseTupleAndKeywords bind_arguments
#define FER_MAXIMUM_RESULTS 65536

#define FER_TAKE(T, object, to, function, argument)                                                            \
    if (bind_take_argument(&bind_kinds[BIND_##T], object, to, function, argument) < 0)                         \
    SWIG_fail
#define FER_WHERE(function, argument)                                                                          \
    const bind_where call = {NULL, function, 0};                                                               \
    const bind_where where = {&call, argument, 0};
#define FER_TAKE_LIST(T, object, list, count, function, argument)                                              \
    do {                                                                                                       \
        FER_WHERE(function, argument)                                                                          \
        list = (T *)bind_take_list(&bind_kinds[BIND_##T], object, &count, &where);                             \
        if (!list)                                                                                             \
            SWIG_fail;                                                                                         \
    } while (0)
#define FER_TAKE_TEXT(object, text, length, function, argument)                                                \
    do {                                                                                                       \
        FER_WHERE(function, argument)                                                                          \
        text = (char *)bind_take_text(object, length, &where);                                                 \
        if (!text)                                                                                             \
            SWIG_fail;                                                                                         \
    } while (0)
#define FER_IS_LEFT_OUT(object) ((object) == Py_None)
#define FER_GIVE(T, from) bind_give(&bind_kinds[BIND_##T], from)
#define FER_GIVE_LIST(T, from, count) bind_give_list(&bind_kinds[BIND_##T], from, count)
#define FER_GIVE_TEXT(text, length) PyUnicode_DecodeUTF8(text, (Py_ssize_t)(length), NULL)
#define FER_APPEND(results, object)                                                                            \
    if (!(results = bind_append(results, object)))                                                             \
    SWIG_fail
#define FER_RETURN(result, object)                                                                             \
    if (!(result = (object)))                                                                                  \
    SWIG_fail
#define FER_NOTHING(results) results = Py_NewRef(Py_None)
#define FER_RAISE(status, function)                                                                            \
    do {                                                                                                       \
        bind_raise(function, status, args, kwargs, kwnames);                                                   \
        SWIG_fail;                                                                                             \
    } while (0)
#define FER_MEMORY(T, list)                                                                                      \
    if (!(list = (T *)PyMem_Malloc(FER_MAXIMUM_RESULTS * sizeof(T)))) {                                           \
        PyErr_NoMemory();                                                                                      \
        SWIG_fail;                                                                                             \
    }
#define FER_FREE(list) PyMem_Free(list)
#define FER_WARN_OLD(text)                                                                                     \
    if (PyErr_WarnEx(PyExc_DeprecationWarning, text, 1) < 0)                                                   \
    SWIG_fail
%}

%init %{
    if (bind_start(m) < 0 || bind_finish_functions(SwigMethods, d) < 0)
        return NULL;
%}

/* Other threads of Python run while the call does. */
%define FER_LONG_CALL(FUNCTION)
%exception FUNCTION {
    Py_BEGIN_ALLOW_THREADS
    $action
    Py_END_ALLOW_THREADS
}
%enddef
