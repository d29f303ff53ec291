/* SPDX-License-Identifier: MIT */
/** @file
 * What value.c and convert.c need of each other. */
#ifndef FERRULE_BINDINGS_PYTHON_CONVERT_H
#define FERRULE_BINDINGS_PYTHON_CONVERT_H

#include "value.h"

/* value.c */
const bind_kind *bind_kind_of(PyObject *object); /* NULL: not one of ours */
PyObject *bind_new(const bind_kind *kind, const void *from);
PyObject *bind_quantity_text(const bind_kind *kind, double base, int unit,
                             int decimals); /* unit -1: the usual */

/* convert.c */
int bind_start_conversions(PyObject *module);
PyObject *bind_names(const bind_kind *kind); /* tuple of the members' names, borrowed */
int bind_fill(const bind_kind *kind, PyObject *args, PyObject *kwargs, void *to, int changes,
              const bind_where *where);
int bind_is_number(PyObject *object);
PyObject *bind_plain(const bind_kind *kind, const void *from);
PyObject *bind_give_tuple(const bind_kind *kind, const void *from, size_t count);
PyObject *bind_refuse_unit(PyObject *exception, const bind_kind *kind, const char *text);
PyObject *bind_raise_status(const char *function, fer_status status, PyObject *about); /* steals about */

#endif
