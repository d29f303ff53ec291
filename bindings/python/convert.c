/* SPDX-License-Identifier: MIT */
/* C values as Python objects, arguments of calls, words. */
#include "host.h"

static PyObject *names[BIND_COUNT]; /* tuples of members' names */

PyObject *python_names(const bind_kind *kind)
{
    return names[kind - bind_kinds];
}

int python_is_number(PyObject *object)
{
    const PyTypeObject *type = Py_TYPE(object);
    const int has_number =
        type->tp_as_number && (type->tp_as_number->nb_float || type->tp_as_number->nb_index);
    return has_number && !PyBool_Check(object) && !python_kind(object) && !PySequence_Check(object);
}

/* PyArg_ParseTupleAndKeywords() for the formats that SWIG writes here, "OO|O:name", in half the time; what is wrong
 * with a call is left to Python's own to say. */
int python_arguments(PyObject *args, PyObject *kwargs, const char *format, char **argument_names, ...)
{
    const Py_ssize_t given = PyTuple_GET_SIZE(args);
    PyObject *key, *value, *objects[32];
    Py_ssize_t at = 0, minimum = -1, maximum = 0;
    for (const char *letter = format; *letter && *letter != ':'; letter++) {
        if (*letter == '|')
            minimum = maximum;
        else
            maximum++;
    }
    minimum = minimum < 0 ? maximum : minimum;
    int is_clear = given <= maximum && maximum <= 32;
    va_list slots;
    for (Py_ssize_t i = 0; is_clear && i < maximum; i++)
        objects[i] = i < given ? PyTuple_GET_ITEM(args, i) : NULL;
    while (is_clear && kwargs && PyDict_Next(kwargs, &at, &key, &value)) {
        const char *name = PyUnicode_AsUTF8(key);
        Py_ssize_t i = given;
        while (name && i < maximum && strcmp(argument_names[i], name) != 0)
            i++;
        if ((is_clear = name && i < maximum))
            objects[i] = value;
    }
    for (Py_ssize_t i = 0; is_clear && i < minimum; i++)
        is_clear = objects[i] != NULL;
    PyErr_Clear();
    va_start(slots, argument_names);
    for (Py_ssize_t i = 0; is_clear && i < maximum; i++)
        *va_arg(slots, PyObject **) = objects[i];
    const int parsed = is_clear || PyArg_VaParseTupleAndKeywords(args, kwargs, format, argument_names, slots);
    va_end(slots);
    return parsed;
}

/* ---- giving ----------------------------------------------------------------------------------------------- */

static PyObject *give_integer(const bind_kind *kind, const void *from)
{
    const int64_t whole = bind_integer(kind, from);
    return whole < 0 && !kind->is_signed ? PyLong_FromUnsignedLongLong((uint64_t)whole)
                                         : PyLong_FromLongLong(whole);
}

static PyObject *enum_class(const bind_kind *kind);

PyObject *python_word(const bind_kind *kind, int number)
{
    PyObject *class = enum_class(kind);
    return class ? PyObject_CallFunction(class, "i", number) : NULL;
}

static PyObject *give_set(const bind_kind *kind, uint64_t bits)
{
    PyObject *list = PyList_New(0);
    for (int number = 0; list && number < 64; number++)
        if (bits >> number & 1) {
            PyObject *word = python_word(kind->element, number);
            if (!word || PyList_Append(list, word) < 0)
                Py_CLEAR(list);
            Py_XDECREF(word);
        }
    PyObject *tuple = list ? PyList_AsTuple(list) : NULL;
    Py_XDECREF(list);
    return tuple;
}

PyObject *python_give(const bind_kind *kind, const void *from)
{
    switch (kind->form) {
    case BIND_ENUM:
        return python_word(kind, *(const int *)from);
    case BIND_SET:
        return give_set(kind, *(const uint64_t *)from);
    case BIND_BOOL:
        return PyBool_FromLong(*(const int *)from);
    case BIND_INTEGER:
        return give_integer(kind, from);
    case BIND_NUMBER:
        return PyFloat_FromDouble(*(const double *)from);
    default:
        return python_new(kind, from);
    }
}

PyObject *python_give_list(const bind_kind *kind, const void *from, size_t count)
{
    PyObject *list = PyList_New((Py_ssize_t)count);
    for (size_t i = 0; list && i < count; i++) {
        PyObject *item = python_give(kind, (const char *)from + i * kind->size);
        if (item)
            PyList_SET_ITEM(list, (Py_ssize_t)i, item);
        else
            Py_CLEAR(list);
    }
    return list;
}

PyObject *python_give_tuple(const bind_kind *kind, const void *from, size_t count)
{
    PyObject *list = python_give_list(kind, from, count);
    PyObject *tuple = list ? PyList_AsTuple(list) : NULL;
    Py_XDECREF(list);
    return tuple;
}

/* One result is itself, several are a tuple. Steals both, gives NULL on failure. */
PyObject *python_append(PyObject *results, PyObject *result)
{
    PyObject *all = NULL;
    if (results == Py_None && result) {
        Py_DECREF(results);
        return result;
    }
    if (results && result && PyTuple_CheckExact(results)) {
        PyObject *one = PyTuple_Pack(1, result);
        all = one ? PySequence_Concat(results, one) : NULL;
        Py_XDECREF(one);
    } else if (results && result) {
        all = PyTuple_Pack(2, results, result);
    }
    Py_XDECREF(results);
    Py_XDECREF(result);
    return all;
}

static PyObject *plain_members(const bind_kind *kind, const char *from)
{
    PyObject *dict = PyDict_New();
    for (const bind_member *m = kind->members; dict && m->name; m++) {
        const char *at = from + m->offset;
        const int is_none = kind->form == BIND_FOUND && m == kind->members && !bind_is_there(kind, from);
        PyObject *plain = is_none ? Py_NewRef(Py_None) : m->count ? PyList_New(0) : python_plain(m->kind, at);
        for (size_t i = 0; plain && !is_none && i < m->count; i++) {
            PyObject *one = python_plain(m->kind, at + i * m->kind->size);
            if (!one || PyList_Append(plain, one) < 0)
                Py_CLEAR(plain);
            Py_XDECREF(one);
        }
        if (!plain || PyDict_SetItemString(dict, m->name, plain) < 0)
            Py_CLEAR(dict);
        Py_XDECREF(plain);
    }
    return dict;
}

/* For JSON: text for quantities and words, None for a number that is not there. */
PyObject *python_plain(const bind_kind *kind, const void *from)
{
    if (kind->members)
        return plain_members(kind, from);
    if (kind->form == BIND_QUANTITY || kind->form == BIND_NUMBER) {
        const double number = *(const double *)from;
        if (number - number != 0.0)
            Py_RETURN_NONE;
        return kind->form == BIND_NUMBER ? PyFloat_FromDouble(number)
                                         : python_quantity_text(kind, number, -1, FER_SHORTEST);
    }
    PyObject *given = python_give(kind, from), *plain = given;
    if (given && kind->form == BIND_ENUM) {
        plain = PyObject_GetAttrString(given, "name");
        Py_DECREF(given);
    } else if (given && kind->form == BIND_SET) {
        plain = PyList_New(0);
        for (Py_ssize_t i = 0; plain && i < PyTuple_GET_SIZE(given); i++) {
            PyObject *name = PyObject_GetAttrString(PyTuple_GET_ITEM(given, i), "name");
            if (!name || PyList_Append(plain, name) < 0)
                Py_CLEAR(plain);
            Py_XDECREF(name);
        }
        Py_DECREF(given);
    }
    return plain;
}

/* ---- words, made by _words.py -------------------------------------------------------------------------------- */

static PyObject *make_enum(const bind_kind *kind)
{
    PyObject *python = PyImport_ImportModule("ferrule._words"),
             *module = PyImport_ImportModule("ferrule._ferrule");
    PyObject *words = PyList_New(0), *readers = PyDict_New(), *class = NULL;
    int failed = !python || !module || !words || !readers;
    for (const bind_word *word = kind->words; !failed && word->name; word++) {
        PyObject *row = Py_BuildValue("(sis)", word->name, word->number, word->text);
        failed = !row || PyList_Append(words, row) < 0;
        Py_XDECREF(row);
    }
    for (const bind_reader *reader = kind->readers; !failed && reader->name; reader++) {
        PyObject *function = PyObject_GetAttrString(module, reader->function);
        failed = !function || PyDict_SetItemString(readers, reader->name, function) < 0;
        Py_XDECREF(function);
    }
    if (!failed)
        class = PyObject_CallMethod(python, "make_enum", "ssOO", kind->name, kind->text, words, readers);
    Py_XDECREF(python);
    Py_XDECREF(module);
    Py_XDECREF(words);
    Py_XDECREF(readers);
    return class;
}

/* The classes of the interpreter that is running. Each interpreter makes its own, keeps them in its own dict, and takes them
 * along when it ends: what is noted here is looked at only while the same one runs. Numbers are not used twice. */
static struct {
    int64_t interpreter;
    PyObject *classes[BIND_COUNT];
} noted = {-1, {0}};

static PyObject **noted_class(const bind_kind *kind)
{
    const int64_t interpreter = PyInterpreterState_GetID(PyInterpreterState_Get());
    if (noted.interpreter != interpreter) {
        memset(noted.classes, 0, sizeof noted.classes);
        noted.interpreter = interpreter;
    }
    return &noted.classes[kind - bind_kinds];
}

/* The interpreter's own dict of classes by name, borrowed. */
static PyObject *classes_of_interpreter(void)
{
    PyObject *own = PyInterpreterState_GetDict(PyInterpreterState_Get());
    PyObject *name = own ? PyUnicode_FromString("ferrule._words") : NULL, *made = PyDict_New();
    PyObject *all = name && made ? PyDict_SetDefault(own, name, made) : NULL;
    Py_XDECREF(name);
    Py_XDECREF(made);
    return all;
}

/* Borrowed; NULL: none was made yet in this interpreter, or it raises. */
static PyObject *find_class(const bind_kind *kind)
{
    PyObject *class = *noted_class(kind);
    if (class)
        return class;
    PyObject *all = classes_of_interpreter(), *name = all ? PyUnicode_FromString(kind->name) : NULL;
    class = name ? PyDict_GetItemWithError(all, name) : NULL;
    Py_XDECREF(name);
    return *noted_class(kind) = class;
}

int python_is_word(const bind_kind *kind, PyObject *object)
{
    return !PyUnicode_Check(object) && (PyObject *)Py_TYPE(object) == find_class(kind);
}

/* Borrowed. While one is made another thread may make it too: the first one stays. */
static PyObject *enum_class(const bind_kind *kind)
{
    PyObject *class = find_class(kind);
    PyObject *made = class || PyErr_Occurred() ? NULL : make_enum(kind);
    class = find_class(kind);
    if (!class && made && PyDict_SetItemString(classes_of_interpreter(), kind->name, made) == 0)
        class = *noted_class(kind) = made; /* the dict holds it */
    Py_XDECREF(made);
    return class;
}

/* For the package: the class of a name, None where no enum is called so. */
static PyObject *enum_of(PyObject *module, PyObject *name)
{
    (void)module;
    for (const bind_kind *kind = bind_kinds; kind < bind_kinds + BIND_COUNT; kind++)
        if (kind->form == BIND_ENUM && PyUnicode_CompareWithASCIIString(name, kind->name) == 0)
            return Py_XNewRef(enum_class(kind));
    Py_RETURN_NONE;
}

static PyMethodDef enum_method = {"_make_enum", enum_of, METH_O, NULL};

static int name_enums(PyObject *module)
{
    PyObject *all = PyList_New(0), *function = PyCFunction_New(&enum_method, NULL);
    int failed = !all || !function;
    for (const bind_kind *kind = bind_kinds; !failed && kind < bind_kinds + BIND_COUNT; kind++) {
        PyObject *name = kind->form == BIND_ENUM ? PyUnicode_FromString(kind->name) : NULL;
        failed = kind->form == BIND_ENUM && (!name || PyList_Append(all, name) < 0);
        Py_XDECREF(name);
    }
    failed = failed || PyModule_AddObjectRef(module, "_ENUMS", all) < 0 ||
             PyModule_AddObjectRef(module, "_make_enum", function) < 0;
    Py_XDECREF(all);
    Py_XDECREF(function);
    return failed ? -1 : 0;
}

static PyObject *member_names(const bind_kind *kind)
{
    Py_ssize_t count = 0;
    while (kind->members[count].name)
        count++;
    PyObject *tuple = PyTuple_New(count);
    for (Py_ssize_t i = 0; tuple && i < count; i++) {
        PyObject *name = PyUnicode_InternFromString(kind->members[i].name);
        if (name)
            PyTuple_SET_ITEM(tuple, i, name);
        else
            Py_CLEAR(tuple);
    }
    return tuple;
}

int python_start_conversions(PyObject *module)
{
    int failed = name_enums(module) < 0;
    for (const bind_kind *kind = bind_kinds; !failed && kind < bind_kinds + BIND_COUNT; kind++)
        failed = kind->members && !(names[kind - bind_kinds] = member_names(kind));
    return failed ? -1 : 0;
}
