/* SPDX-License-Identifier: MIT */
/* The functions of the library as NumPy's universal functions: columns in, columns and one status per row out.
 *
 * loops.c, which make_ufuncs.py writes out of the headers, has one loop per function: a row of the columns becomes the
 * arguments of the call, its results become a row of columns. Where a plural twin in C takes columns as they lie in
 * memory, it is used instead. No loop touches a Python object, so NumPy lets go of the interpreter's lock.
 */
#define PY_SSIZE_T_CLEAN
#include <Python.h>

#define NPY_NO_DEPRECATED_API NPY_1_7_API_VERSION
#include <numpy/arrayobject.h>
#include <numpy/ufuncobject.h>

#include <ferrule/bulk.h>
#include <ferrule/ferrule.h>

#include <fenv.h>
#include <limits.h>
#include <string.h>

typedef struct {
    const char *name;
    PyUFuncGenericFunction loop;
    const char *types;
    int inputs, outputs;
    const char *signature; /* NULL: every column has one scalar per row */
} function;

/* ---- numbers in columns ------------------------------------------------------------------------------------ */

static inline double take_number(const char *at)
{
    double number;
    memcpy(&number, at, sizeof number);
    return number;
}

/* An integer that no int can hold becomes the nearest one that it can, which every function refuses or takes. */
static inline int take_integer(const char *at)
{
    int64_t number;
    memcpy(&number, at, sizeof number);
    return number > INT_MAX ? INT_MAX : number < INT_MIN ? INT_MIN : (int)number;
}

static inline void give_number(char *at, double number)
{
    memcpy(at, &number, sizeof number);
}

static inline void give_integer(char *at, int64_t number)
{
    memcpy(at, &number, sizeof number);
}

static inline void give_status(char *at, fer_status status)
{
    const fer_row_status number = (fer_row_status)status;
    memcpy(at, &number, sizeof number);
}

#include "loops.c"

/* ---- plural twins ------------------------------------------------------------------------------------------ */

/* loops.c numbers the columns of each function. The two that have a plural twin have them in the same places. */
enum {
    block_rows = 512,
    last_input = in_crimp_diameter_compression_fraction,
    model_basis = in_crimp_diameter_basis,
    model_flow = in_crimp_diameter_flow,
    result = out_crimp_diameter_diameter_mm,
    status = out_crimp_diameter_status
};
_Static_assert((int)in_compression_diameter_mm == (int)last_input &&
                   (int)in_compression_basis == (int)model_basis &&
                   (int)in_compression_flow == (int)model_flow &&
                   (int)out_compression_compression_fraction == (int)result &&
                   (int)out_compression_status == (int)status &&
                   (int)in_compression_hose_inside_mm == (int)in_crimp_diameter_hose_inside_mm &&
                   (int)in_compression_ferrule_length_mm == (int)in_crimp_diameter_ferrule_length_mm,
               "both have a joint, a number and a model, in this order");

/* One value for all rows where the step is 0. */
static fer_length_column lengths_at(char **args, const npy_intp *steps, int k)
{
    const fer_length_column column = {(const fer_length *)(void *)args[k], steps[k], steps[k] == 0};
    return column;
}

static fer_ratio_column ratios_at(char **args, const npy_intp *steps, int k)
{
    const fer_ratio_column column = {(const fer_ratio *)(void *)args[k], steps[k], steps[k] == 0};
    return column;
}

static fer_joint_columns joints_at(char **args, const npy_intp *steps)
{
    fer_joint_columns joints;
    joints.hose_inside = lengths_at(args, steps, in_crimp_diameter_hose_inside_mm);
    joints.hose_outside = lengths_at(args, steps, in_crimp_diameter_hose_outside_mm);
    joints.hose_reinforcement = lengths_at(args, steps, in_crimp_diameter_hose_reinforcement_mm);
    joints.stem_outside = lengths_at(args, steps, in_crimp_diameter_stem_outside_mm);
    joints.stem_bore = lengths_at(args, steps, in_crimp_diameter_stem_bore_mm);
    joints.ferrule_wall = lengths_at(args, steps, in_crimp_diameter_ferrule_wall_mm);
    joints.ferrule_outside = lengths_at(args, steps, in_crimp_diameter_ferrule_outside_mm);
    joints.ferrule_length = lengths_at(args, steps, in_crimp_diameter_ferrule_length_mm);
    return joints;
}

typedef void plural(size_t rows, char **args, const npy_intp *steps, fer_model model, void *results,
                    fer_row_status *statuses);

static void plural_diameters(size_t rows, char **args, const npy_intp *steps, fer_model model, void *results,
                             fer_row_status *statuses)
{
    const fer_joint_columns joints = joints_at(args, steps);
    (void)fer_crimp_diameters(rows, &joints, ratios_at(args, steps, last_input), model, results, statuses);
}

static void plural_compressions(size_t rows, char **args, const npy_intp *steps, fer_model model,
                                void *results, fer_row_status *statuses)
{
    const fer_joint_columns joints = joints_at(args, steps);
    (void)fer_compressions(rows, &joints, lengths_at(args, steps, last_input), model, results, statuses);
}

/* Results that lie side by side are written where they are to be, others by blocks. */
static void run_plural(plural *run, char **args, const npy_intp *sizes, const npy_intp *steps)
{
    const fer_model model = {(fer_basis)take_integer(args[model_basis]),
                             (fer_flow)take_integer(args[model_flow])};
    if (steps[result] == sizeof(double) && steps[status] == sizeof(fer_row_status)) {
        run((size_t)sizes[0], args, steps, model, args[result], (fer_row_status *)(void *)args[status]);
        return;
    }
    double results[block_rows];
    fer_row_status statuses[block_rows];
    char *here[last_input + 1];
    for (npy_intp start = 0; start < sizes[0]; start += block_rows) {
        const npy_intp rows = sizes[0] - start < block_rows ? sizes[0] - start : block_rows;
        for (int k = 0; k <= last_input; k++) {
            here[k] = args[k] + start * steps[k];
        }
        run((size_t)rows, here, steps, model, results, statuses);
        for (npy_intp i = 0; i < rows; i++) {
            give_number(args[result] + (start + i) * steps[result], results[i]);
            memcpy(args[status] + (start + i) * steps[status], &statuses[i], sizeof statuses[i]);
        }
    }
}

/* A model a row goes through the general loop. */
static void loop_diameters(char **args, const npy_intp *sizes, const npy_intp *steps, void *unused)
{
    if (sizes[0] > 0 && steps[model_basis] == 0 && steps[model_flow] == 0) {
        run_plural(plural_diameters, args, sizes, steps);
    } else {
        loop_crimp_diameter(args, sizes, steps, unused);
    }
}

static void loop_compressions(char **args, const npy_intp *sizes, const npy_intp *steps, void *unused)
{
    if (sizes[0] > 0 && steps[model_basis] == 0 && steps[model_flow] == 0) {
        run_plural(plural_compressions, args, sizes, steps);
    } else {
        loop_compression(args, sizes, steps, unused);
    }
}

/* ---- the module -------------------------------------------------------------------------------------------- */

enum { function_count = sizeof functions / sizeof functions[0] };

/* NumPy keeps pointers to these as long as the process lives. */
static PyUFuncGenericFunction loops[function_count];
static void *data[function_count];

static PyUFuncGenericFunction quickest_loop(const function *f)
{
    if (f->loop == loop_crimp_diameter) {
        return loop_diameters;
    }
    return f->loop == loop_compression ? loop_compressions : f->loop;
}

/* What a row did wrong is its status; the marks that it left in the floating-point unit would become NumPy's warnings. */
static void run_function(char **args, const npy_intp *sizes, const npy_intp *steps, void *place)
{
    const function *f = place;
    quickest_loop(f)(args, sizes, steps, NULL);
    (void)feclearexcept(FE_ALL_EXCEPT);
}

static int add_function(PyObject *module, int place)
{
    const function *f = &functions[place];
    loops[place] = run_function;
    data[place] = (void *)(uintptr_t)f;
    PyObject *made = PyUFunc_FromFuncAndDataAndSignature(
        &loops[place], &data[place], (char *)(uintptr_t)f->types, 1, f->inputs, f->outputs, PyUFunc_None,
        f->name, NULL, 0, f->signature);
    return made ? PyModule_AddObject(module, f->name, made) : -1;
}

/* A dict of the units: kind of quantity, numerator, denominator, zero; see FER_UNIT_LIST. */
static PyObject *list_units(void)
{
#define UNIT(kind, field, unit, numerator, denominator, zero, symbols)                                       \
    {#unit, #kind, (numerator), (denominator), (zero)},
    static const struct {
        const char *unit, *kind;
        double numerator, denominator, zero;
    } units[] = {FER_UNIT_LIST(UNIT)};
    PyObject *dict = PyDict_New();
    for (size_t i = 0; dict && i < sizeof units / sizeof units[0]; i++) {
        PyObject *row =
            Py_BuildValue("(sddd)", units[i].kind, units[i].numerator, units[i].denominator, units[i].zero);
        if (!row || PyDict_SetItemString(dict, units[i].unit, row) < 0) {
            Py_CLEAR(dict);
        }
        Py_XDECREF(row);
    }
    return dict;
}

static struct PyModuleDef definition = {PyModuleDef_HEAD_INIT, .m_name = "ferrule._ufuncs",
                                        .m_doc = "Universal functions; see ferrule.bulk.", .m_size = -1};

PyMODINIT_FUNC PyInit__ufuncs(void);

PyMODINIT_FUNC PyInit__ufuncs(void)
{
    import_array();
    import_umath();
    PyObject *module = PyModule_Create(&definition);
    for (int i = 0; module && i < function_count; i++) {
        if (add_function(module, i) < 0) {
            Py_CLEAR(module);
        }
    }
    PyObject *units = module ? list_units() : NULL;
    if (module && (!units || PyModule_AddObject(module, "units", units) < 0)) {
        Py_CLEAR(module);
    }
    return module;
}
