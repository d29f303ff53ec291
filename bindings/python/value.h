/* SPDX-License-Identifier: MIT */
/** @file
 * Python's values and the primitives of types.i: take an object into a C value, give a C value as an object.
 */
#ifndef FERRULE_BINDINGS_PYTHON_VALUE_H
#define FERRULE_BINDINGS_PYTHON_VALUE_H

#define PY_SSIZE_T_CLEAN
#include <Python.h>
#include <string.h>

#include "kinds.h"

/** A quantity or struct as a Python object: the C value itself, and no reference to anything. */
typedef struct bind_value {
    PyObject_HEAD double data[];
} bind_value;

/** One static type a kind; what is not a quantity or struct has none. */
extern PyTypeObject bind_types[BIND_COUNT];

/** The way to the value that is being taken, for messages: function, argument, member or place in a list. */
typedef struct bind_where {
    const struct bind_where *outer;
    const char *name; /* NULL: a place in a list */
    Py_ssize_t place;
} bind_where;

int bind_start(PyObject *module);
int bind_finish_functions(PyMethodDef *methods, PyObject *module_dict);
int bind_take(const bind_kind *kind, PyObject *object, void *to, const bind_where *where);
PyObject *bind_give(const bind_kind *kind, const void *from);
void *bind_take_list(const bind_kind *kind, PyObject *object, size_t *count, const bind_where *where);
PyObject *bind_give_list(const bind_kind *kind, const void *from, size_t count);
const char *bind_take_text(PyObject *object, size_t *length, const bind_where *where);
int bind_arguments(PyObject *args, PyObject *kwargs, const char *format, char **names, ...);
PyObject *bind_append(PyObject *results, PyObject *result);
void bind_raise(const char *function, fer_status status, PyObject *args, PyObject *kwargs,
                char *const *names);

/** Takes an argument; nearly always it is a value of the very kind. */
static inline int bind_take_argument(const bind_kind *kind, PyObject *object, void *to, const char *function,
                                     const char *argument)
{
    if (Py_TYPE(object) == &bind_types[kind - bind_kinds]) {
        memcpy(to, ((bind_value *)object)->data, kind->size);
        return 0;
    }
    const bind_where call = {NULL, function, 0};
    const bind_where where = {&call, argument, 0};
    return bind_take(kind, object, to, &where);
}

#endif
