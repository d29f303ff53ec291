/* SPDX-License-Identifier: MIT */
/* The Python package under the fuzzer: CPython with the modules linked in, so that sanitizers and coverage see them. What is
 * called and checked stands in FUZZ_MODULE: fuzz_python.py, or fuzz_numpy.py for the functions over arrays. */
#include "mutate.h"

#define PY_SSIZE_T_CLEAN
#include <Python.h>

#include <stdio.h>
#include <stdlib.h>

PyObject *PyInit__ferrule(void);
#ifdef FUZZ_UFUNCS
PyObject *PyInit__ufuncs(void);
#endif
int LLVMFuzzerInitialize(int *count, char ***arguments);

static PyObject *play;

static void check(int done)
{
    if (!done) {
        PyErr_Print();
        (void)fprintf(stderr, "the Python package broke a promise\n");
        abort();
    }
}

/* Every block from malloc, so that the sanitizer sees where it ends. */
static void start(void)
{
    PyPreConfig before;
    PyConfig config;
    PyPreConfig_InitPythonConfig(&before);
    before.allocator = PYMEM_ALLOCATOR_MALLOC;
    before.utf8_mode = 1;
    check(!PyStatus_Exception(Py_PreInitialize(&before)));
    PyImport_AppendInittab("ferrule._ferrule", PyInit__ferrule);
#ifdef FUZZ_UFUNCS
    PyImport_AppendInittab("ferrule._ufuncs", PyInit__ufuncs);
#endif
    PyConfig_InitIsolatedConfig(&config);
    config.write_bytecode = 0;
    const PyStatus status = Py_InitializeFromConfig(&config);
    PyConfig_Clear(&config);
    check(!PyStatus_Exception(status));
}

int LLVMFuzzerInitialize(int *count, char ***arguments)
{
    (void)count, (void)arguments;
    start();
    PyObject *const path = PySys_GetObject("path"); /* borrowed */
    const char *const folders[] = {FUZZ_SOURCE, FUZZ_PACKAGE, FUZZ_DESCRIBED};
    for (size_t i = 0; i < 3; i++) {
        PyObject *const folder = PyUnicode_FromString(folders[i]);
        check(folder && path && PyList_Insert(path, 0, folder) == 0);
        Py_DECREF(folder);
    }
    PyObject *const module = PyImport_ImportModule(FUZZ_MODULE);
    check(module != NULL);
    play = PyObject_GetAttrString(module, "play");
    check(play != NULL);
    Py_DECREF(module);
    return 0;
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    PyObject *const result = PyObject_CallFunction(play, "y#", (const char *)data, (Py_ssize_t)size);
    check(result != NULL);
    Py_DECREF(result);
    return 0;
}
