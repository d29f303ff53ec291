/* SPDX-License-Identifier: MIT */
/** @file
 * Tcl values for the runtime. */
#ifndef FERRULE_BINDINGS_TCL_HOST_H
#define FERRULE_BINDINGS_TCL_HOST_H

#include <tcl.h>

#include "script.h"

/* The interpreter's own buffers, by the name that it keeps them under. */
#define TCL_RESULTS "ferrule results"
#define TCL_WORK    "ferrule work"

int bind_tcl_count(Tcl_Interp *interp, int objc, const char *form);
size_t bind_tcl_arguments(int objc, Tcl_Obj *const objv[], bind_object *list, size_t maximum);
void bind_tcl_append(Tcl_Interp *interp, int *count, Tcl_Obj *object);
void *bind_tcl_memory(Tcl_Interp *interp, const char *use, size_t bytes);

#endif
