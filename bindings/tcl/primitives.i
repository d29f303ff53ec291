/* SPDX-License-Identifier: MIT */
/* Tcl's primitives of types.i. Everything is text there: a quantity is its text, a struct a dict; see host.c. */
%{
#include "host.h"

#define FER_HOST ((bind_host *)interp)
#define FER_OBJECT(object) ((bind_object)(object))
#define FER_ARGUMENTS(list, upper) bind_tcl_arguments(objc, objv, list, upper)
#define FER_RETURN(result, object) Tcl_SetObjResult(interp, (Tcl_Obj *)(object))
#define FER_APPEND(results, object) bind_tcl_append(interp, &result_count, (Tcl_Obj *)(object))
#define FER_NOTHING(results)                                                                                   \
    int result_count = 0;                                                                                      \
    Tcl_ResetResult(interp)
#define FER_MEMORY(T, list, count) list = (T *)bind_tcl_memory(interp, TCL_RESULTS, (count) * sizeof(T))
#define FER_WORK(list, count) list = (fer_work *)bind_tcl_memory(interp, TCL_WORK, (count) * sizeof(fer_work))

#undef SWIG_GetArgs
#define SWIG_GetArgs(interp, objc, objv, form, ...) bind_tcl_count(interp, objc, form)
%}
%include "script.i"
