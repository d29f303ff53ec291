/* SPDX-License-Identifier: MIT */
/* Python's primitives of types.i; the work is done in the runtime, host.c, convert.c and value.c. */
%{
#include "value.h"

#undef PyArg_ParseTupleAndKeywords
#define PyArg_ParseTupleAndKeywords python_arguments
#define FER_MAXIMUM_RESULTS 65536

#define FER_TAKE(T, object, to, function, argument)                                                            \
    if (python_take(&bind_kinds[BIND_##T], object, to, function, argument) < 0)                         \
    SWIG_fail
#define FER_TAKE_LIST(T, object, list, count, function, argument)                                              \
    do {                                                                                                       \
        list = (T *)python_take_list(&bind_kinds[BIND_##T], object, &count, function, argument);                 \
        if (!list)                                                                                             \
            SWIG_fail;                                                                                         \
    } while (0)
#define FER_TAKE_TEXT(object, text, length, function, argument)                                                \
    do {                                                                                                       \
        text = (char *)python_take_text(object, length, function, argument);                                  \
        if (!text)                                                                                             \
            SWIG_fail;                                                                                         \
    } while (0)
#define FER_IS_LEFT_OUT(object) ((object) == Py_None)
#define FER_GIVE(T, from) python_give(&bind_kinds[BIND_##T], from)
#define FER_GIVE_LIST(T, from, count) python_give_list(&bind_kinds[BIND_##T], from, count)
#define FER_GIVE_TEXT(text, length) PyUnicode_DecodeUTF8(text, (Py_ssize_t)(length), NULL)
#define FER_APPEND(results, object)                                                                            \
    if (!(results = python_append(results, object)))                                                             \
    SWIG_fail
#define FER_RETURN(result, object)                                                                             \
    if (!(result = (object)))                                                                                  \
    SWIG_fail
#define FER_NOTHING(results) results = Py_NewRef(Py_None)
#define FER_RAISE(status, function)                                                                            \
    do {                                                                                                       \
        python_raise(function, status, args, kwargs, kwnames);                                                   \
        SWIG_fail;                                                                                             \
    } while (0)
#define FER_MEMORY(T, list, count)                                                                                      \
    if (!(list = (T *)PyMem_Malloc((count) * sizeof(T)))) {                                           \
        PyErr_NoMemory();                                                                                      \
        SWIG_fail;                                                                                             \
    }
#define FER_FREE(list) PyMem_Free(list)
#define FER_WARN_OLD(text)                                                                                     \
    if (PyErr_WarnEx(PyExc_DeprecationWarning, text, 1) < 0)                                                   \
    SWIG_fail
%}

%init %{
    if (python_start(m) < 0 || python_finish_functions(SwigMethods, d) < 0)
        return NULL;
%}

/* Other threads of Python run while the call does, and a signal such as Ctrl-C ends it between two blocks of trials. */
%define FER_LONG_CALL(FUNCTION)
%exception FUNCTION {
    python_long_call long_call = {PyEval_SaveThread(), 0.0};
    bind_stop stop = {python_is_interrupted, &long_call, 0};
    $action
    PyEval_RestoreThread(long_call.state);
    if (stop.stopped)
        SWIG_fail;
}
%enddef
%{
#define BIND_STOP &stop
#include "parts.h"
%}
