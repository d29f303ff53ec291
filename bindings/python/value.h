/* SPDX-License-Identifier: MIT */
/** @file
 * Python's values and the primitives of types.i: take an object into a C value, give a C value as an object. What is the
 * same in all languages is in the runtime (script.h), which looks at Python's objects by host.c.
 */
#ifndef FERRULE_BINDINGS_PYTHON_VALUE_H
#define FERRULE_BINDINGS_PYTHON_VALUE_H

#define PY_SSIZE_T_CLEAN
#include <Python.h>
#include <string.h>

#include "script.h"

/** A quantity or struct as a Python object: the C value itself, and no reference to anything. */
typedef struct python_value {
    PyObject_HEAD double data[];
} python_value;

/** One static type a kind; what is not a quantity or struct has none. */
extern PyTypeObject python_types[BIND_COUNT];

int python_start(PyObject *module);
int python_finish_functions(PyMethodDef *methods, PyObject *module_dict);
int python_take_slowly(const bind_kind *kind, PyObject *object, void *to, const char *function,
                       const char *argument);
PyObject *python_give(const bind_kind *kind, const void *from);
void *python_take_list(const bind_kind *kind, PyObject *object, size_t *count, const char *function,
                       const char *argument);
PyObject *python_give_list(const bind_kind *kind, const void *from, size_t count);
const char *python_take_text(PyObject *object, size_t *length, const char *function, const char *argument);
int python_arguments(PyObject *args, PyObject *kwargs, const char *format, char **names, ...);
PyObject *python_append(PyObject *results, PyObject *result);
void python_raise(const char *function, fer_status status, PyObject *args, PyObject *kwargs,
                  char *const *names);

/** A call during which other threads of Python run. */
typedef struct python_long_call {
    PyThreadState *state;
    double next; /**< when signals are looked at again, in seconds */
} python_long_call;

/** 1: a handler of a signal raised, such as KeyboardInterrupt. */
int python_is_interrupted(void *long_call);

/** Takes an argument; nearly always it is a value of the very kind. `argument` may be NULL: the whole is meant. */
static inline int python_take(const bind_kind *kind, PyObject *object, void *to, const char *function,
                              const char *argument)
{
    if (Py_TYPE(object) != &python_types[kind - bind_kinds])
        return python_take_slowly(kind, object, to, function, argument);
    memcpy(to, ((python_value *)object)->data, kind->size);
    return 0;
}

#endif
