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

/* ---- tables of structs --------------------------------------------------------------------------------------- */

/* A number in a struct: its name as a column, NumPy's name of its kind, where it lies. */
typedef struct {
    const char *name, *kind;
    size_t offset;
} number_place;

#include "layouts.c"

/* For a dtype of NumPy: by the name of a struct its size, and names, kinds and offsets of its numbers. */
static PyObject *layout_of(size_t k)
{
    const Py_ssize_t count = (Py_ssize_t)layouts[k].count;
    PyObject *rows = PyTuple_New(count);
    for (Py_ssize_t i = 0; rows && i < count; i++) {
        const number_place *here = &layouts[k].places[i];
        PyObject *row = Py_BuildValue("(ssn)", here->name, here->kind, (Py_ssize_t)here->offset);
        if (!row) {
            Py_CLEAR(rows);
        } else {
            PyTuple_SET_ITEM(rows, i, row);
        }
    }
    return rows ? Py_BuildValue("(nN)", (Py_ssize_t)layouts[k].size, rows) : NULL;
}

static PyObject *list_layouts(void)
{
    PyObject *dict = PyDict_New();
    for (size_t k = 0; dict && k < sizeof layouts / sizeof layouts[0]; k++) {
        PyObject *layout = layout_of(k);
        if (!layout || PyDict_SetItemString(dict, layouts[k].name, layout) < 0) {
            Py_CLEAR(dict);
        }
        Py_XDECREF(layout);
    }
    return dict;
}

/* A column from one of its rows on: a single number, which counts for every row, or numbers in a row. */
static int take_column(PyObject *object, int type, npy_intp start, npy_intp rows, fer_whole_column *column)
{
    PyArrayObject *array = (PyArrayObject *)object;
    if (!PyArray_Check(object) || PyArray_TYPE(array) != type || !PyArray_ISNOTSWAPPED(array) ||
        PyArray_NDIM(array) > 1 || (PyArray_NDIM(array) == 1 && PyArray_DIM(array, 0) < start + rows)) {
        PyErr_SetString(PyExc_TypeError, "a column is not an array of its kind and length");
        return -1;
    }
    const int many = PyArray_NDIM(array) == 1 && PyArray_STRIDE(array, 0) != 0;
    column->first =
        (const int *)(void *)(PyArray_BYTES(array) + (many ? start * PyArray_STRIDE(array, 0) : 0));
    column->step = many ? PyArray_STRIDE(array, 0) : 0;
    column->same = !many;
    return 0;
}

/* All columns are alike but for what they point at: each is written where it stands among the columns of orders. */
static int take_order_columns(PyObject *pairs, npy_intp start, npy_intp rows, fer_order_columns *orders)
{
    const size_t count = sizeof columns_of_orders / sizeof columns_of_orders[0];
    for (Py_ssize_t i = 0; i < PyTuple_GET_SIZE(pairs); i++) {
        PyObject *pair = PyTuple_GET_ITEM(pairs, i);
        const size_t which = PyLong_AsSize_t(PyTuple_GET_ITEM(pair, 0));
        fer_whole_column column;
        if (which >= count ||
            take_column(PyTuple_GET_ITEM(pair, 1), columns_of_orders[which].type, start, rows, &column) < 0) {
            return -1;
        }
        memcpy((char *)orders + columns_of_orders[which].offset, &column, sizeof column);
    }
    return 0;
}

/* An array of structs as this module lays them out. */
static void *take_structs(PyObject *object, size_t size, npy_intp rows)
{
    PyArrayObject *array = (PyArrayObject *)object;
    if (!PyArray_Check(object) || PyArray_NDIM(array) != 1 || PyArray_ITEMSIZE(array) != (npy_intp)size ||
        PyArray_DIM(array, 0) < rows || !PyArray_ISCARRAY(array)) {
        PyErr_SetString(PyExc_TypeError, "an array of structs is not of its kind and length");
        return NULL;
    }
    return PyArray_DATA(array);
}

/* From pairs of a press and its rack, each an array. */
static fer_workplace *take_workplaces(PyObject *pairs)
{
    const Py_ssize_t count = PyTuple_GET_SIZE(pairs);
    fer_workplace *workplaces = PyMem_Calloc((size_t)count + 1, sizeof *workplaces);
    for (Py_ssize_t i = 0; workplaces && i < count; i++) {
        PyObject *press = PyTuple_GET_ITEM(PyTuple_GET_ITEM(pairs, i), 0),
                 *dies = PyTuple_GET_ITEM(PyTuple_GET_ITEM(pairs, i), 1);
        workplaces[i].press = take_structs(press, sizeof(fer_press), 1);
        workplaces[i].dies = take_structs(dies, sizeof(fer_die), 0);
        if (!workplaces[i].press || !workplaces[i].dies) {
            PyMem_Free(workplaces);
            return NULL;
        }
        workplaces[i].count = (size_t)PyArray_DIM((PyArrayObject *)dies, 0);
    }
    return workplaces;
}

/* plan_setups(rows, start, columns, common, workplaces, workplace, setups, statuses, faults): rows of a table from one on. */
static PyObject *plan_setups(PyObject *self, PyObject *arguments)
{
    Py_ssize_t rows, start;
    PyObject *columns, *common, *pairs, *which, *places[3];
    fer_order_columns orders;
    fer_whole_column workplace;
    (void)self;
    memset(&orders, 0, sizeof orders);
    if (!PyArg_ParseTuple(arguments, "nnO!OO!OOOO", &rows, &start, &PyTuple_Type, &columns, &common,
                          &PyTuple_Type, &pairs, &which, &places[0], &places[1], &places[2]) ||
        take_order_columns(columns, start, rows, &orders) < 0 ||
        take_column(which, NPY_INT, start, rows, &workplace) < 0) {
        return NULL;
    }
    orders.common = take_structs(common, sizeof(fer_order), 1);
    fer_setup *setups = take_structs(places[0], sizeof(fer_setup), rows);
    fer_row_status *statuses = take_structs(places[1], sizeof(fer_row_status), rows);
    fer_fault *faults = take_structs(places[2], sizeof(fer_fault), rows);
    fer_workplace *workplaces = orders.common && setups && statuses && faults ? take_workplaces(pairs) : NULL;
    if (!workplaces) {
        return PyErr_Occurred() ? NULL : PyErr_NoMemory();
    }
    size_t failed;
    Py_BEGIN_ALLOW_THREADS;
    failed = fer_plan_setups((size_t)rows, &orders, workplaces, (size_t)PyTuple_GET_SIZE(pairs), workplace,
                             setups, statuses, faults);
    Py_END_ALLOW_THREADS;
    (void)feclearexcept(FE_ALL_EXCEPT);
    PyMem_Free(workplaces);
    return PyLong_FromSize_t(failed);
}

/* inspect_crimps(rows, start, setups, readings, count, gauges, marks, guard, process, inspections, statuses): the setups, readings and
 * results are those of the rows alone, the columns of the gauges those of the whole table. */
static PyObject *inspect_crimps(PyObject *self, PyObject *arguments)
{
    Py_ssize_t rows, start, count;
    PyObject *from[2], *gauge[3], *rules[3], *to[2];
    fer_whole_column columns[3];
    fer_gauge_columns gauges;
    (void)self;
    if (!PyArg_ParseTuple(arguments, "nnOOn(OOO)OOOOO", &rows, &start, &from[0], &from[1], &count, &gauge[0],
                          &gauge[1], &gauge[2], &rules[0], &rules[1], &rules[2], &to[0], &to[1])) {
        return NULL;
    }
    for (int i = 0; i < 3; i++) {
        if (take_column(gauge[i], NPY_DOUBLE, start, rows, &columns[i]) < 0) {
            return NULL;
        }
    }
    memcpy(&gauges, columns, sizeof gauges);
    const fer_setup *setups = take_structs(from[0], sizeof(fer_setup), rows);
    const fer_reading *readings = setups ? take_structs(from[1], sizeof(fer_reading), rows * count) : NULL;
    const fer_marks *marks = readings ? take_structs(rules[0], sizeof(fer_marks), 1) : NULL;
    const fer_guard *guard = marks ? take_structs(rules[1], sizeof(fer_guard), 1) : NULL;
    const fer_process *process = guard ? take_structs(rules[2], sizeof(fer_process), 1) : NULL;
    fer_inspection *inspections = process ? take_structs(to[0], sizeof(fer_inspection), rows) : NULL;
    fer_row_status *statuses = inspections ? take_structs(to[1], sizeof(fer_row_status), rows) : NULL;
    if (!statuses) {
        return NULL;
    }
    size_t failed;
    Py_BEGIN_ALLOW_THREADS;
    failed = fer_inspect_crimps((size_t)rows, setups, readings, (size_t)count, &gauges, *marks, *guard,
                                *process, inspections, statuses);
    Py_END_ALLOW_THREADS;
    (void)feclearexcept(FE_ALL_EXCEPT);
    return PyLong_FromSize_t(failed);
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

/* Written into the module; 0 where that failed. */
static int add_dict(PyObject *module, const char *name, PyObject *dict)
{
    const int done = dict && PyModule_AddObject(module, name, dict) == 0;
    if (!done) {
        Py_XDECREF(dict);
    }
    return done;
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

static PyMethodDef methods[] = {
    {"plan_setups", plan_setups, METH_VARARGS, "Rows of a table of orders; see ferrule.bulk.plan_setup."},
    {"inspect_crimps", inspect_crimps, METH_VARARGS,
     "Rows of a table of readings; see ferrule.bulk.inspect_crimp."},
    {NULL, NULL, 0, NULL}};

static struct PyModuleDef definition = {PyModuleDef_HEAD_INIT, .m_name = "ferrule._ufuncs",
                                        .m_doc = "Universal functions; see ferrule.bulk.", .m_size = -1,
                                        .m_methods = methods};

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
    if (module && !(add_dict(module, "units", list_units()) && add_dict(module, "layouts", list_layouts()))) {
        Py_CLEAR(module);
    }
    return module;
}
