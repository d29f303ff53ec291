/* SPDX-License-Identifier: MIT */
/* Python's objects as the runtime looks at them, and its exceptions. */
#include "host.h"

#include <time.h>

#include <assert.h>

/* ---- what is kept ----------------------------------------------------------------------------------------- */

static bind_object hold(bind_host *host, PyObject *object)
{
    assert(host->count < PYTHON_MOST_HELD);
    host->ends_fixed[host->count++] = object;
    return object;
}

void host_drop(bind_host *host, bind_object object)
{
    PyObject *last = NULL;
    while (host->count && last != object) {
        last = host->ends_fixed[--host->count];
        Py_DECREF(last);
    }
}

void python_end(bind_host *host)
{
    while (host->count)
        Py_DECREF(host->ends_fixed[--host->count]);
}

/* ---- messages --------------------------------------------------------------------------------------------- */

static int is_pint(PyObject *object)
{
    PyObject *module = PyObject_GetAttrString((PyObject *)Py_TYPE(object), "__module__");
    const char *text = module && PyUnicode_Check(module) ? PyUnicode_AsUTF8(module) : NULL;
    const int is = text && strncmp(text, "pint", 4) == 0 && (text[4] == '.' || !text[4]);
    Py_XDECREF(module);
    PyErr_Clear();
    return is;
}

static int is_shown(PyObject *object)
{
    const int is_list =
        (PyList_CheckExact(object) || PyTuple_CheckExact(object)) && PySequence_Size(object) <= 8;
    return is_list || object == Py_None || PyBool_Check(object) || PyLong_CheckExact(object) ||
           PyFloat_CheckExact(object) || PyUnicode_CheckExact(object) || python_kind(object);
}

/* Itself where that is short and safe. */
static int show(bind_host *host, bind_object object, bind_writer *out)
{
    (void)host;
    PyErr_Clear();
    PyObject *text = is_pint(object) ? PyObject_Str(object) : is_shown(object) ? PyObject_Repr(object) : NULL;
    if (text && PyUnicode_GET_LENGTH(text) > 200)
        Py_SETREF(text, PyUnicode_FromFormat("%.200U...", text));
    const char *shown = text ? PyUnicode_AsUTF8(text) : NULL;
    if (shown)
        bind_write(out, "%s", shown);
    Py_XDECREF(text);
    PyErr_Clear();
    return shown != NULL;
}

static void write_number(bind_writer *out, double number)
{
    char *digits = PyOS_double_to_string(number, 'r', 0, Py_DTSF_ADD_DOT_0, NULL);
    bind_write(out, number - number == 0.0 ? "%s" : "float(\"%s\")", digits ? digits : "");
    PyMem_Free(digits);
}

/* As text cannot say it. */
static void write_none(bind_writer *out, const bind_kind *kind, double base)
{
    bind_write(out, "%s(%s=", kind->name, bind_units[bind_texts[kind - bind_kinds].base].name);
    write_number(out, base);
    bind_write(out, ")");
}

const bind_style python_style = {.open = "%s(",
                                 .sign = "=",
                                 .close = ")",
                                 .list = {"(", ")"},
                                 .one = ",)",
                                 .set = {"(", ")"},
                                 .quote = "\"",
                                 .words = {"False", "True"},
                                 .number = write_number,
                                 .none = write_none};

/* ---- signals ---------------------------------------------------------------------------------------------- */

/* Twenty times a second: who waits for Ctrl-C does not notice, and the interpreter's lock may be another thread's. */
int python_is_interrupted(void *of)
{
    static const double pause = 0.05;
    python_long_call *call = of;
    struct timespec time;
    (void)timespec_get(&time, TIME_UTC);
    const double now = (double)time.tv_sec + 1e-9 * (double)time.tv_nsec;
    if (now < call->next && now >= call->next - pause)
        return 0;
    call->next = now + pause;
    PyEval_RestoreThread(call->state);
    const int is_raised = PyErr_CheckSignals() < 0;
    call->state = PyEval_SaveThread();
    return is_raised;
}

/* ---- looking ---------------------------------------------------------------------------------------------- */

static int convert(bind_host *host, const bind_kind *kind, bind_object object, double *base)
{
    (void)host;
    if (PyErr_Occurred() || !is_pint(object))
        return 0;
    PyObject *module = PyImport_ImportModule("ferrule._pint");
    PyObject *number = module ? PyObject_CallMethod(module, "from_pint", "sO", kind->name, object) : NULL;
    const int is_taken = number && PyFloat_Check(number);
    if (is_taken)
        *base = PyFloat_AS_DOUBLE(number);
    Py_XDECREF(module);
    Py_XDECREF(number);
    return is_taken;
}

/* None, NaN and what pandas has for them. */
static int says_nothing(bind_host *host, bind_object object)
{
    (void)host;
    PyObject *value = object;
    if (PyErr_Occurred())
        return 0;
    if (value == Py_None || strcmp(Py_TYPE(value)->tp_name, "NAType") == 0 ||
        strcmp(Py_TYPE(value)->tp_name, "pandas._libs.missing.NAType") == 0)
        return 1;
    if (!python_is_number(value))
        return 0;
    const double number = PyFloat_AsDouble(value);
    PyErr_Clear();
    return number != number;
}

static int is_raised(bind_host *host)
{
    (void)host;
    return PyErr_Occurred() != NULL;
}

const bind_language host_language = {.has_unsigned = 1,
                                     .lists_faults = 1,
                                     .names_needed = 1,
                                     .maker = "ferrule.%s(%s)",
                                     .wanted = {"a %s(", ")"},
                                     .style = &python_style,
                                     .show = show,
                                     .convert = convert,
                                     .is_absent = says_nothing,
                                     .is_raised = is_raised};

int host_is_nothing(bind_host *host, bind_object object)
{
    (void)host;
    return object == Py_None;
}

const bind_kind *host_kind(bind_host *host, bind_object object)
{
    (void)host;
    return python_kind(object);
}

int host_value(bind_host *host, const bind_kind *kind, bind_object object, void *to)
{
    (void)host;
    if (Py_TYPE(object) == &python_types[kind - bind_kinds]) {
        memcpy(to, ((python_value *)object)->data, kind->size);
        return 1;
    }
    if (kind->form != BIND_ENUM || !python_is_word(kind, object))
        return 0;
    *(int *)to = (int)PyLong_AsLong(object);
    return 1;
}

const char *host_text(bind_host *host, bind_object object, size_t *length)
{
    Py_ssize_t size = 0;
    (void)host;
    const char *text = PyUnicode_Check((PyObject *)object) ? PyUnicode_AsUTF8AndSize(object, &size) : NULL;
    *length = (size_t)size;
    return text;
}

int host_number(bind_host *host, bind_object object, double *number)
{
    (void)host;
    if (!python_is_number(object))
        return 0;
    *number = PyFloat_AsDouble(object);
    return *number != -1.0 || !PyErr_Occurred();
}

int host_integer(bind_host *host, bind_object object, uint64_t *number)
{
    int is_out, found = 1;
    (void)host;
    PyObject *index = PyBool_Check(object) || !PyIndex_Check(object) ? NULL : PyNumber_Index(object);
    if (!index)
        return 0;
    *number = (uint64_t)PyLong_AsLongLongAndOverflow(index, &is_out);
    if (is_out > 0) {
        *number = PyLong_AsUnsignedLongLong(index);
        found = PyErr_Occurred() ? -1 : 2;
        PyErr_Clear();
    }
    Py_DECREF(index);
    return is_out < 0 ? -1 : found;
}

int host_bool(bind_host *host, bind_object object, int *is_true)
{
    (void)host;
    *is_true = object == Py_True;
    return PyBool_Check((PyObject *)object);
}

/* Any iterable, but for what is text or has names; a struct's members only in a tuple. */
int host_list(bind_host *host, bind_object *whole, int is_struct, size_t *count)
{
    PyObject *object = *whole;
    if (!PyTuple_Check(object)) {
        if (is_struct || PyUnicode_Check(object) || PyBytes_Check(object) || PyDict_Check(object))
            return 0;
        PyObject *items = PySequence_Tuple(object);
        if (!items && PyErr_ExceptionMatches(PyExc_TypeError))
            PyErr_Clear();
        if (!items)
            return 0;
        *whole = object = hold(host, items);
    }
    *count = (size_t)PyTuple_GET_SIZE(object);
    return 1;
}

bind_object host_item(bind_host *host, bind_object object, size_t place)
{
    return hold(host, Py_NewRef(PyTuple_GET_ITEM((PyObject *)object, (Py_ssize_t)place)));
}

int host_table(bind_host *host, bind_object object, const bind_kind *kind)
{
    (void)host;
    (void)kind;
    return PyDict_Check((PyObject *)object);
}

/* Kept, since the taking may run code that changes the dict. */
bind_object host_member(bind_host *host, bind_object object, const bind_kind *kind, size_t place)
{
    PyObject *member =
        PyDict_GetItemWithError(object, PyTuple_GET_ITEM(python_names(kind), (Py_ssize_t)place));
    return member ? hold(host, Py_NewRef(member)) : NULL;
}

int host_stranger(bind_host *host, bind_object object, const bind_kind *kind, size_t found, char *name,
                  size_t capacity)
{
    PyObject *key, *value;
    Py_ssize_t at = 0;
    if (PyDict_GET_SIZE((PyObject *)object) == (Py_ssize_t)found)
        return 0;
    while (PyDict_Next(object, &at, &key, &value)) {
        const int is_known = PyUnicode_Check(key) ? PySequence_Contains(python_names(kind), key) : 0;
        bind_writer out = {name, capacity, 0};
        if (is_known > 0)
            continue;
        if (!show(host, key, &out))
            bind_write(&out, "%s", Py_TYPE(key)->tp_name);
        return 1;
    }
    return -1;
}

const char *host_type(bind_host *host, bind_object object)
{
    (void)host;
    return Py_TYPE((PyObject *)object)->tp_name;
}

void *host_memory(bind_host *host, size_t bytes)
{
    (void)host;
    void *memory = PyMem_Malloc(bytes);
    if (!memory)
        PyErr_NoMemory();
    return memory;
}

void host_give_back(bind_host *host, void *memory)
{
    (void)host;
    PyMem_Free(memory);
}

/* ---- exceptions ------------------------------------------------------------------------------------------- */

/* What Python itself has for an argument that cannot be taken, with path and value beside. */
static PyObject *plain_error(bind_fault fault, PyObject *text, PyObject *path, PyObject *value)
{
    PyObject *const classes[] = {[BIND_WRONG_TYPE] = PyExc_TypeError,
                                 [BIND_WRONG_RANGE] = PyExc_OverflowError,
                                 [BIND_WRONG_VALUE] = PyExc_ValueError};
    PyObject *error = PyObject_CallOneArg(classes[fault], text);
    if (error && (PyObject_SetAttrString(error, "path", path) < 0 ||
                  PyObject_SetAttrString(error, "value", value) < 0))
        Py_CLEAR(error);
    return error;
}

/* Status and path of each. */
static PyObject *list_faults(const bind_failure *failure)
{
    PyObject *list = PyList_New(0);
    for (size_t i = 0; list && i < failure->fault_count; i++) {
        PyObject *status = python_word(&bind_kinds[BIND_fer_status], (int)failure->faults[i].status);
        PyObject *path = python_fault_path(&failure->faults[i], failure->is_one_die);
        PyObject *one = status && path ? PyTuple_Pack(2, status, path) : NULL;
        if (!one || PyList_Append(list, one) < 0)
            Py_CLEAR(list);
        Py_XDECREF(one);
        Py_XDECREF(path);
        Py_XDECREF(status);
    }
    return list;
}

static PyObject *status_error(const bind_failure *failure, PyObject *text, PyObject *path, PyObject *value)
{
    PyObject *word = python_word(&bind_kinds[BIND_fer_status], (int)failure->status);
    PyObject *module = word ? PyImport_ImportModule("ferrule._errors") : NULL;
    PyObject *faults = module ? list_faults(failure) : NULL;
    PyObject *error = faults ? PyObject_CallMethod(module, "new_error", "sOOOOO", failure->function, word,
                                                   text, path, value, faults)
                             : NULL;
    Py_XDECREF(faults);
    Py_XDECREF(module);
    Py_XDECREF(word);
    return error;
}

/* Nothing was said where an error of Python's own is under way. */
void host_fail(bind_host *host, const bind_failure *failure)
{
    (void)host;
    if (!failure->out.used)
        return;
    PyErr_Clear();
    PyObject *text = PyUnicode_DecodeUTF8(failure->message, (Py_ssize_t)strlen(failure->message), "replace");
    PyObject *path = PyUnicode_FromString(failure->path);
    PyObject *value = failure->object ? Py_NewRef((PyObject *)failure->object)
                      : failure->kind ? python_give(failure->kind, failure->value)
                                      : Py_NewRef(Py_None);
    PyObject *error = !text || !path || !value    ? NULL
                      : failure->status == FER_OK ? plain_error(failure->fault, text, path, value)
                                                  : status_error(failure, text, path, value);
    if (error)
        PyErr_SetObject((PyObject *)Py_TYPE(error), error);
    Py_XDECREF(text);
    Py_XDECREF(path);
    Py_XDECREF(value);
    Py_XDECREF(error);
}

/* In one unit with the functions above, which so cost no calls: a tenth of the time of a constructor. */
#include "take.c"

/* ---- what the primitives call ----------------------------------------------------------------------------- */

int python_take_slowly(const bind_kind *kind, PyObject *object, void *to, const char *function,
                       const char *argument)
{
    bind_host host;
    host.count = 0;
    const int taken = bind_take_argument(&host, kind, object, to, function, argument);
    python_end(&host);
    return taken;
}

void *python_take_list(const bind_kind *kind, PyObject *object, size_t *count, const char *function,
                       const char *argument)
{
    bind_host host;
    host.count = 0;
    void *list = bind_take_list(&host, kind, object, count, function, argument);
    python_end(&host);
    return list;
}

const char *python_take_text(PyObject *object, size_t *length, const char *function, const char *argument)
{
    bind_host host;
    host.count = 0;
    size_t bytes;
    const char *text = host_text(&host, object, &bytes);
    if (PyErr_Occurred())
        return NULL;
    if (!text || (!length && strlen(text) != bytes)) {
        bind_refuse_text(&host, function, argument, object);
        return NULL;
    }
    if (length)
        *length = bytes;
    return text;
}

void python_raise(const char *function, fer_status status, PyObject *args, PyObject *kwargs,
                  char *const *argument_names)
{
    bind_host host;
    bind_object given[32];
    size_t count = 0;
    host.count = 0;
    for (; argument_names[count] && count < 32; count++) {
        PyObject *object = (Py_ssize_t)count < PyTuple_GET_SIZE(args) ? PyTuple_GET_ITEM(args, count)
                           : kwargs ? PyDict_GetItemString(kwargs, argument_names[count])
                                    : NULL;
        given[count] = object ? object : Py_None;
    }
    bind_raise(&host, function, status, given, count);
    python_end(&host);
}
