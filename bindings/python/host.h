/* SPDX-License-Identifier: MIT */
/** @file
 * Python's side of the runtime: what host.c, convert.c and value.c need of each other. */
#ifndef FERRULE_BINDINGS_PYTHON_HOST_H
#define FERRULE_BINDINGS_PYTHON_HOST_H

#include "value.h"

enum { PYTHON_MOST_HELD = 64 };

/** One taking of a value: references that it holds, the newest last. They are at most two for each struct in a struct. */
struct bind_host {
    size_t count;
    PyObject *ends_fixed[PYTHON_MOST_HELD];
};

void python_end(bind_host *host); /**< lets go of all that is kept */

extern const bind_style python_style; /**< Hose(inside="12.7 mm", outside="19.9 mm") */

/** NULL: not one of ours. */
static inline const bind_kind *python_kind(PyObject *object)
{
    const uintptr_t type = (uintptr_t)Py_TYPE(object), first = (uintptr_t)python_types;
    return type >= first && type < first + sizeof python_types
               ? &bind_kinds[(type - first) / sizeof python_types[0]]
               : NULL;
}

/* value.c */
PyObject *python_new(const bind_kind *kind, const void *from);
PyObject *python_fault_path(const fer_fault *, int is_one_die);
PyObject *python_quantity_text(const bind_kind *kind, double base, int unit,
                               int decimals); /**< unit -1: the usual */

/* convert.c */
int python_start_conversions(PyObject *module);
PyObject *python_names(const bind_kind *kind); /**< tuple of the members' names, borrowed */
int python_is_number(PyObject *object);
PyObject *python_word(const bind_kind *kind, int number);
int python_is_word(const bind_kind *kind, PyObject *object); /**< of the class of this enum */
PyObject *python_plain(const bind_kind *kind, const void *from);
PyObject *python_give_tuple(const bind_kind *kind, const void *from, size_t count);

#endif
