/* SPDX-License-Identifier: MIT */
/* Python object to C value and back. */
#include "convert.h"

static PyObject *enums[BIND_COUNT]; /* classes, once they were asked for */
static PyObject *names[BIND_COUNT]; /* tuples of members' names */

PyObject *bind_names(const bind_kind *kind)
{
    return names[kind - bind_kinds];
}

int bind_is_number(PyObject *object)
{
    const PyTypeObject *type = Py_TYPE(object);
    const int has_number =
        type->tp_as_number && (type->tp_as_number->nb_float || type->tp_as_number->nb_index);
    return has_number && !PyBool_Check(object) && !bind_kind_of(object) && !PySequence_Check(object);
}

static PyObject *unit_names(const bind_kind *kind)
{
    PyObject *text = PyUnicode_FromString("");
    for (const bind_unit *unit = bind_units; unit < bind_units + FER_UNIT_COUNT; unit++)
        if (unit->kind == kind)
            PyUnicode_AppendAndDel(
                &text, PyUnicode_FromFormat(PyUnicode_GET_LENGTH(text) ? ", %s" : "%s", unit->name));
    return text;
}

PyObject *bind_refuse_unit(PyObject *exception, const bind_kind *kind, const char *text)
{
    PyObject *known = unit_names(kind);
    if (known)
        PyErr_Format(exception, "%s: '%.80s' is not one of its units: %U", kind->name, text, known);
    Py_XDECREF(known);
    return NULL;
}

/* ---- refusals --------------------------------------------------------------------------------------------- */

/* "choose_die: dies[1].size" */
static PyObject *way_to(const bind_where *where)
{
    if (!where->outer)
        return PyUnicode_FromString(where->name);
    PyObject *outer = way_to(where->outer), *way = NULL;
    if (outer && where->name)
        way = PyUnicode_FromFormat(where->outer->outer ? "%U.%s" : "%U: %s", outer, where->name);
    else if (outer)
        way = PyUnicode_FromFormat("%U[%zd]", outer, where->place);
    Py_XDECREF(outer);
    return way;
}

/* An object in a message: itself where that is short and safe, otherwise its type. */
static PyObject *shown(PyObject *object)
{
    PyObject *text = NULL;
    const int is_plain = object == Py_None || PyBool_Check(object) || PyLong_CheckExact(object) ||
                         PyFloat_CheckExact(object) || PyUnicode_CheckExact(object) || bind_kind_of(object);
    const int is_list =
        (PyList_CheckExact(object) || PyTuple_CheckExact(object)) && PySequence_Size(object) <= 8;
    if ((is_plain || is_list) && !(text = PyObject_Repr(object)))
        PyErr_Clear();
    PyObject *result = text
                           ? PyUnicode_FromFormat(PyUnicode_GET_LENGTH(text) > 200 ? "%.200U..." : "%U", text)
                           : PyUnicode_FromFormat("%s", Py_TYPE(object)->tp_name);
    Py_XDECREF(text);
    return result;
}

static PyObject *words_of(const bind_kind *kind)
{
    PyObject *text = PyUnicode_FromString("one of ");
    for (const bind_word *word = kind->words; word->name; word++)
        PyUnicode_AppendAndDel(&text,
                               PyUnicode_FromFormat("%s\"%s\"", word == kind->words ? "" : ", ", word->name));
    return text;
}

/* "a Hose(inside, outside, ...)": with the members that it needs. */
static PyObject *struct_of(const bind_kind *kind)
{
    PyObject *text = PyUnicode_FromFormat("a %s(", kind->name);
    const char *comma = "";
    int more = 0;
    for (const bind_member *m = kind->members; m && m->name; m++) {
        more |= m->optional;
        if (m->optional)
            continue;
        PyUnicode_AppendAndDel(&text, PyUnicode_FromFormat("%s%s", comma, m->name));
        comma = ", ";
    }
    PyUnicode_AppendAndDel(&text, PyUnicode_FromFormat("%s%s)", more ? comma : "", more ? "..." : ""));
    return text;
}

static PyObject *wanted(const bind_kind *kind)
{
    switch (kind->form) {
    case BIND_QUANTITY:
        return PyUnicode_FromFormat("a %s or text with a unit such as \"20 %s\"", kind->name,
                                    fer_unit_symbol(bind_shown_unit(kind)));
    case BIND_ENUM:
        return words_of(kind);
    case BIND_SET:
        return PyUnicode_FromFormat("a list of %s", kind->element->name);
    case BIND_BOOL:
        return PyUnicode_FromString("True or False");
    case BIND_INTEGER:
        return PyUnicode_FromString("a whole number");
    case BIND_NUMBER:
        return PyUnicode_FromString("a number");
    default:
        return struct_of(kind);
    }
}

static int refuse(const bind_kind *kind, PyObject *object, const bind_where *where)
{
    PyObject *way = way_to(where), *seen = shown(object), *want = wanted(kind);
    if (way && seen && want && kind->form == BIND_QUANTITY && bind_is_number(object)) {
        const fer_unit unit = bind_shown_unit(kind), base = bind_texts[kind - bind_kinds].base;
        if (unit == base) {
            PyErr_Format(PyExc_TypeError, "%U needs a unit: write \"%U %s\" or ferrule.%s(%U), not %U", way,
                         seen, fer_unit_symbol(unit), bind_units[unit].name, seen, seen);
        } else { /* a bare 0.2 may be meant either way */
            PyErr_Format(
                PyExc_TypeError,
                "%U needs a unit: write \"%U %s\" or ferrule.%s(%U), or \"%U %s\" or ferrule.%s(%U), not %U",
                way, seen, fer_unit_symbol(unit), bind_units[unit].name, seen, seen, fer_unit_symbol(base),
                bind_units[base].name, seen, seen);
        }
    } else if (way && seen && want) {
        PyErr_Format(PyExc_TypeError, "%U has to be %U, not %U", way, want, seen);
    }
    Py_XDECREF(way);
    Py_XDECREF(seen);
    Py_XDECREF(want);
    return -1;
}

static int complain(PyObject *exception, const bind_where *where, const char *trouble)
{
    PyObject *way = way_to(where);
    if (way)
        PyErr_Format(exception, "%U %s", way, trouble);
    Py_XDECREF(way);
    return -1;
}

/* The same with what was given. */
static int complain_about(PyObject *object, const bind_where *where, const char *trouble)
{
    PyObject *way = way_to(where), *seen = shown(object);
    if (way && seen)
        PyErr_Format(PyExc_TypeError, "%U %s, not %U", way, trouble, seen);
    Py_XDECREF(way);
    Py_XDECREF(seen);
    return -1;
}

/* ---- taking ----------------------------------------------------------------------------------------------- */

static int take_quantity_text(const bind_kind *kind, PyObject *object, double *to, const bind_where *where)
{
    Py_ssize_t length;
    size_t stop = 0;
    const char *text = PyUnicode_AsUTF8AndSize(object, &length);
    if (!text)
        return -1;
    const fer_status status = bind_texts[kind - bind_kinds].parse(text, (size_t)length, to, &stop);
    if (status == FER_OK)
        return 0;
    PyObject *way = way_to(where), *seen = shown(object), *known = unit_names(kind);
    const int is_unit = status == FER_TEXT_UNIT_MISSING || status == FER_TEXT_UNIT_UNKNOWN ||
                        status == FER_TEXT_UNIT_OTHER_KIND;
    if (way && seen && known)
        bind_raise_status(
            PyUnicode_AsUTF8(way), status,
            PyUnicode_FromFormat(is_unit ? "%U, byte %zu; units: %U" : "%U, byte %zu", seen, stop, known));
    Py_XDECREF(way);
    Py_XDECREF(seen);
    Py_XDECREF(known);
    return -1;
}

/* A quantity of pint; Python's part converts it, or says how it reads where it is of another kind. */
static int take_pint(const bind_kind *kind, PyObject *object, double *to, const bind_where *where)
{
    PyObject *module = PyImport_ImportModule("ferrule._pint"), *way = NULL, *want = NULL;
    PyObject *base = module ? PyObject_CallMethod(module, "from_pint", "sO", kind->name, object) : NULL;
    Py_XDECREF(module);
    if (base && PyFloat_Check(base)) {
        *to = PyFloat_AS_DOUBLE(base);
        Py_DECREF(base);
        return 0;
    }
    if (base && (way = way_to(where)) && (want = wanted(kind)))
        PyErr_Format(PyExc_TypeError, "%U has to be %U, not %S", way, want, base);
    Py_XDECREF(way);
    Py_XDECREF(want);
    Py_XDECREF(base);
    return -1;
}

static int is_pint(PyObject *object)
{
    PyObject *module = PyObject_GetAttrString((PyObject *)Py_TYPE(object), "__module__");
    const char *text = module && PyUnicode_Check(module) ? PyUnicode_AsUTF8(module) : NULL;
    const int is = text && strncmp(text, "pint", 4) == 0 && (text[4] == '.' || !text[4]);
    Py_XDECREF(module);
    PyErr_Clear();
    return is;
}

static int take_quantity(const bind_kind *kind, PyObject *object, double *to, const bind_where *where)
{
    if (PyUnicode_Check(object))
        return take_quantity_text(kind, object, to, where);
    return is_pint(object) ? take_pint(kind, object, to, where) : refuse(kind, object, where);
}

static int take_word(const bind_kind *kind, PyObject *object, void *to, const bind_where *where)
{
    int number = 0;
    if ((PyObject *)Py_TYPE(object) == enums[kind - bind_kinds]) {
        number = (int)PyLong_AsLong(object);
    } else {
        Py_ssize_t length;
        const char *text = PyUnicode_Check(object) ? PyUnicode_AsUTF8AndSize(object, &length) : NULL;
        if (!text && PyErr_Occurred())
            return -1;
        const bind_word *word = text ? bind_find_word(kind, text, (size_t)length) : NULL;
        if (!word)
            return refuse(kind, object, where);
        number = word->number;
    }
    memcpy(to, &number, sizeof number);
    return 0;
}

static int take_set(const bind_kind *kind, PyObject *object, uint32_t *to, const bind_where *where)
{
    PyObject *items = PyUnicode_Check(object) ? NULL : PySequence_Tuple(object);
    uint32_t bits = 0;
    if (!items) {
        if (PyErr_Occurred() && !PyErr_ExceptionMatches(PyExc_TypeError))
            return -1;
        PyErr_Clear();
        return refuse(kind, object, where);
    }
    for (Py_ssize_t i = 0; i < PyTuple_GET_SIZE(items); i++) {
        const bind_where place = {where, NULL, i};
        int number = 0;
        if (take_word(kind->element, PyTuple_GET_ITEM(items, i), &number, &place) < 0) {
            Py_DECREF(items);
            return -1;
        }
        bits |= UINT32_C(1) << number;
    }
    Py_DECREF(items);
    *to = bits;
    return 0;
}

static int take_integer(const bind_kind *kind, PyObject *object, void *to, const bind_where *where)
{
    if (PyBool_Check(object) || !PyIndex_Check(object))
        return refuse(kind, object, where);
    PyObject *index = PyNumber_Index(object);
    if (!index)
        return -1;
    const int bits = (int)kind->size * 8 - kind->is_signed;
    const long long minimum = kind->is_signed ? -(long long)(~0ull >> (64 - bits)) - 1 : 0;
    unsigned long long number;
    int is_out;
    if (kind->is_signed) {
        const long long whole = PyLong_AsLongLongAndOverflow(index, &is_out);
        is_out |= whole < minimum || whole > -(minimum + 1);
        number = (unsigned long long)whole;
    } else {
        number = PyLong_AsUnsignedLongLong(index);
        is_out = PyErr_Occurred() != NULL || number > ~0ull >> (64 - bits);
        PyErr_Clear();
    }
    Py_DECREF(index);
    if (is_out)
        return complain(PyExc_OverflowError, where, "is out of range");
    bind_store_integer(kind, number, to);
    return 0;
}

static int take_number(const bind_kind *kind, PyObject *object, double *to, const bind_where *where)
{
    if (!bind_is_number(object))
        return refuse(kind, object, where);
    *to = PyFloat_AsDouble(object);
    return *to == -1.0 && PyErr_Occurred() ? -1 : 0;
}

static int take_struct(const bind_kind *kind, PyObject *object, void *to, const bind_where *where)
{
    if (PyDict_Check(object))
        return bind_fill(kind, NULL, object, to, 0, where);
    if (PyTuple_Check(object))
        return bind_fill(kind, object, NULL, to, 0, where);
    if (!bind_is_shorthand(kind) || object == Py_None)
        return refuse(kind, object, where);
    memset(to, 0, kind->size);
    return bind_take(kind->members->kind, object, (char *)to + kind->members->offset, where);
}

int bind_take(const bind_kind *kind, PyObject *object, void *to, const bind_where *where)
{
    if (Py_TYPE(object) == &bind_types[kind - bind_kinds]) {
        memcpy(to, ((bind_value *)object)->data, kind->size);
        return 0;
    }
    switch (kind->form) {
    case BIND_QUANTITY:
        return take_quantity(kind, object, to, where);
    case BIND_ENUM:
        return take_word(kind, object, to, where);
    case BIND_SET:
        return take_set(kind, object, to, where);
    case BIND_BOOL:
        if (!PyBool_Check(object))
            return refuse(kind, object, where);
        *(int *)to = object == Py_True;
        return 0;
    case BIND_INTEGER:
        return take_integer(kind, object, to, where);
    case BIND_NUMBER:
        return take_number(kind, object, to, where);
    default:
        return take_struct(kind, object, to, where);
    }
}

void *bind_take_list(const bind_kind *kind, PyObject *object, size_t *count, const bind_where *where)
{
    PyObject *items = PyUnicode_Check(object) || PyBytes_Check(object) || PyDict_Check(object)
                          ? NULL
                          : PySequence_Tuple(object);
    if (!items) {
        if (!PyErr_Occurred() || PyErr_ExceptionMatches(PyExc_TypeError))
            complain_about(object, where, "has to be a list");
        return NULL;
    }
    *count = (size_t)PyTuple_GET_SIZE(items);
    char *list = PyMem_Calloc(*count ? *count : 1, kind->size);
    if (!list)
        PyErr_NoMemory();
    for (size_t i = 0; list && i < *count; i++) {
        const bind_where place = {where, NULL, (Py_ssize_t)i};
        if (bind_take(kind, PyTuple_GET_ITEM(items, i), list + i * kind->size, &place) < 0) {
            PyMem_Free(list);
            list = NULL;
        }
    }
    Py_DECREF(items);
    return list;
}

const char *bind_take_text(PyObject *object, size_t *length, const bind_where *where)
{
    Py_ssize_t size = 0;
    const char *text = NULL;
    if (PyUnicode_Check(object))
        text = PyUnicode_AsUTF8AndSize(object, &size);
    else
        complain_about(object, where, "has to be text");
    if (text && !length && strlen(text) != (size_t)size) {
        complain(PyExc_ValueError, where, "holds a zero byte");
        text = NULL;
    }
    if (length)
        *length = (size_t)size;
    return text;
}

/* PyArg_ParseTupleAndKeywords() for the formats that SWIG writes here, "OO|O:name", in half the time; what is wrong
 * with a call is left to Python's own to say. */
int bind_arguments(PyObject *args, PyObject *kwargs, const char *format, char **argument_names, ...)
{
    const Py_ssize_t minimum = (Py_ssize_t)strcspn(format, "|:"), given = PyTuple_GET_SIZE(args);
    const Py_ssize_t maximum = (Py_ssize_t)strcspn(format, ":") - (format[minimum] == '|');
    PyObject *key, *value, *objects[32] = {0};
    Py_ssize_t at = 0;
    int is_clear = given <= maximum && maximum <= 32;
    va_list slots;
    for (Py_ssize_t i = 0; is_clear && i < given; i++)
        objects[i] = PyTuple_GET_ITEM(args, i);
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

/* ---- filling a struct ------------------------------------------------------------------------------------- */

static int take_member(const bind_member *m, PyObject *object, char *to, int changes, const bind_where *where)
{
    if (object == Py_None && m->optional) {
        memset(to, 0, m->kind->size * (m->count ? m->count : 1));
        return 0;
    }
    if (!m->count)
        return changes && PyDict_Check(object) && m->kind->members
                   ? bind_fill(m->kind, NULL, object, to, 1, where)
                   : bind_take(m->kind, object, to, where);
    size_t count = 0;
    void *list = bind_take_list(m->kind, object, &count, where);
    if (!list)
        return -1;
    if (count == m->count)
        memcpy(to, list, count * m->kind->size);
    PyMem_Free(list);
    return count == m->count ? 0 : complain(PyExc_ValueError, where, "has another length");
}

static int refuse_member(const bind_kind *kind, PyObject *kwargs, const bind_where *where)
{
    PyObject *name, *value, *way = way_to(where), *known = PyUnicode_FromString(""),
                            *comma = PyUnicode_FromString(", ");
    Py_ssize_t at = 0;
    if (known && comma)
        Py_SETREF(known, PyUnicode_Join(comma, bind_names(kind)));
    while (way && known && PyDict_Next(kwargs, &at, &name, &value)) {
        const int is_known = PyUnicode_Check(name) ? PySequence_Contains(bind_names(kind), name) : 0;
        if (is_known == 0) {
            PyObject *seen = shown(name);
            if (seen)
                PyErr_Format(PyExc_TypeError, "%U: %s has no member %U; its members are %U", way, kind->name,
                             seen, known);
            Py_XDECREF(seen);
            break;
        }
    }
    Py_XDECREF(way);
    Py_XDECREF(known);
    Py_XDECREF(comma);
    return PyErr_Occurred() ? -1 : complain(PyExc_TypeError, where, "changed while it was read");
}

static int refuse_missing(const bind_kind *kind, const char *given, const bind_where *where)
{
    PyObject *way = way_to(where), *missing = PyUnicode_FromString("");
    for (Py_ssize_t i = 0; missing && kind->members[i].name; i++)
        if (!given[i] && !kind->members[i].optional)
            PyUnicode_AppendAndDel(
                &missing,
                PyUnicode_FromFormat(PyUnicode_GET_LENGTH(missing) ? ", %s" : "%s", kind->members[i].name));
    if (way && missing)
        PyErr_Format(PyExc_TypeError, "%U: a %s needs %U", way, kind->name, missing);
    Py_XDECREF(way);
    Py_XDECREF(missing);
    return -1;
}

static int finish_found(const bind_kind *kind, const char *given, char *to, const bind_where *where)
{
    if (!bind_is_there(kind, to))
        bind_clear(kind->members->kind, to + kind->members->offset);
    else if (!given[0])
        return complain(PyExc_TypeError, where, "needs a value, or the status that says why there is none");
    return 0;
}

/* Members by place and by name. With `changes` what is not given stays as it is, and a dict changes members. */
int bind_fill(const bind_kind *kind, PyObject *args, PyObject *kwargs, void *to, int changes,
              const bind_where *where)
{
    char given[256] = {0};
    const Py_ssize_t count = PyTuple_GET_SIZE(bind_names(kind)), by_place = args ? PyTuple_GET_SIZE(args) : 0;
    Py_ssize_t by_name = 0;
    int missing = 0;
    if (by_place > count)
        return complain(PyExc_TypeError, where, "has fewer members than are given");
    if (!changes)
        memset(to, 0, kind->size);
    for (Py_ssize_t i = 0; i < count; i++) {
        const bind_member *m = &kind->members[i];
        const bind_where inner = {where, m->name, 0};
        PyObject *object =
            kwargs ? PyDict_GetItemWithError(kwargs, PyTuple_GET_ITEM(bind_names(kind), i)) : NULL;
        if (!object && PyErr_Occurred())
            return -1;
        if (object && i < by_place)
            return complain(PyExc_TypeError, &inner, "is given twice");
        by_name += object != NULL;
        if (i < by_place)
            object = PyTuple_GET_ITEM(args, i);
        given[i] = object && object != Py_None;
        missing |= !object && !m->optional && !changes;
        if (object) {
            Py_INCREF(object); /* the taking may run code that changes the dict */
            const int failed = take_member(m, object, (char *)to + m->offset, changes, &inner);
            Py_DECREF(object);
            if (failed)
                return -1;
        }
    }
    if (kwargs && by_name != PyDict_GET_SIZE(kwargs))
        return refuse_member(kind, kwargs, where);
    if (missing)
        return refuse_missing(kind, given, where);
    if (kind->form == BIND_FOUND)
        return finish_found(kind, changes ? "\1" : given, to, where);
    return 0;
}

/* ---- giving ----------------------------------------------------------------------------------------------- */

static PyObject *give_integer(const bind_kind *kind, const void *from)
{
    switch (kind->size) {
    case 1:
        return PyLong_FromLong(kind->is_signed ? *(const int8_t *)from : *(const uint8_t *)from);
    case 2:
        return PyLong_FromLong(kind->is_signed ? *(const int16_t *)from : *(const uint16_t *)from);
    case 4:
        return PyLong_FromLongLong(kind->is_signed ? *(const int32_t *)from
                                                   : (long long)*(const uint32_t *)from);
    default:
        return kind->is_signed ? PyLong_FromLongLong(*(const int64_t *)from)
                               : PyLong_FromUnsignedLongLong(*(const uint64_t *)from);
    }
}

static PyObject *enum_class(const bind_kind *kind);

static PyObject *give_word(const bind_kind *kind, int number)
{
    PyObject *class = enum_class(kind);
    return class ? PyObject_CallFunction(class, "i", number) : NULL;
}

static PyObject *give_set(const bind_kind *kind, uint32_t bits)
{
    PyObject *list = PyList_New(0);
    for (int number = 0; list && number < 32; number++)
        if (bits >> number & 1) {
            PyObject *word = give_word(kind->element, number);
            if (!word || PyList_Append(list, word) < 0)
                Py_CLEAR(list);
            Py_XDECREF(word);
        }
    PyObject *tuple = list ? PyList_AsTuple(list) : NULL;
    Py_XDECREF(list);
    return tuple;
}

PyObject *bind_give(const bind_kind *kind, const void *from)
{
    switch (kind->form) {
    case BIND_ENUM:
        return give_word(kind, *(const int *)from);
    case BIND_SET:
        return give_set(kind, *(const uint32_t *)from);
    case BIND_BOOL:
        return PyBool_FromLong(*(const int *)from);
    case BIND_INTEGER:
        return give_integer(kind, from);
    case BIND_NUMBER:
        return PyFloat_FromDouble(*(const double *)from);
    default:
        return bind_new(kind, from);
    }
}

PyObject *bind_give_list(const bind_kind *kind, const void *from, size_t count)
{
    PyObject *list = PyList_New((Py_ssize_t)count);
    for (size_t i = 0; list && i < count; i++) {
        PyObject *item = bind_give(kind, (const char *)from + i * kind->size);
        if (item)
            PyList_SET_ITEM(list, (Py_ssize_t)i, item);
        else
            Py_CLEAR(list);
    }
    return list;
}

PyObject *bind_give_tuple(const bind_kind *kind, const void *from, size_t count)
{
    PyObject *list = bind_give_list(kind, from, count);
    PyObject *tuple = list ? PyList_AsTuple(list) : NULL;
    Py_XDECREF(list);
    return tuple;
}

/* One result is itself, several are a tuple. Steals both, gives NULL on failure. */
PyObject *bind_append(PyObject *results, PyObject *result)
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
        PyObject *plain = is_none ? Py_NewRef(Py_None) : m->count ? PyList_New(0) : bind_plain(m->kind, at);
        for (size_t i = 0; plain && !is_none && i < m->count; i++) {
            PyObject *one = bind_plain(m->kind, at + i * m->kind->size);
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
PyObject *bind_plain(const bind_kind *kind, const void *from)
{
    if (kind->members)
        return plain_members(kind, from);
    if (kind->form == BIND_QUANTITY || kind->form == BIND_NUMBER) {
        const double number = *(const double *)from;
        if (number - number != 0.0)
            Py_RETURN_NONE;
        return kind->form == BIND_NUMBER ? PyFloat_FromDouble(number)
                                         : bind_quantity_text(kind, number, -1, FER_SHORTEST);
    }
    PyObject *given = bind_give(kind, from), *plain = given;
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

/* ---- words and exceptions, made by _words.py and _errors.py ------------------------------------------------- */

PyObject *bind_raise_status(const char *function, fer_status status, PyObject *about)
{
    PyObject *word = give_word(&bind_kinds[BIND_fer_status], (int)status);
    PyObject *python = word ? PyImport_ImportModule("ferrule._errors") : NULL;
    PyObject *error =
        python ? PyObject_CallMethod(python, "make_error", "sOO", function, word, about ? about : Py_None)
               : NULL;
    Py_XDECREF(python);
    if (error)
        PyErr_SetObject((PyObject *)Py_TYPE(error), error);
    Py_XDECREF(word);
    Py_XDECREF(error);
    Py_XDECREF(about);
    return NULL;
}

void bind_raise(const char *function, fer_status status, PyObject *args, PyObject *kwargs,
                char *const *argument_names)
{
    PyObject *arguments = PyDict_New();
    for (Py_ssize_t i = 0; arguments && argument_names[i]; i++) {
        PyObject *object = i < PyTuple_GET_SIZE(args) ? PyTuple_GET_ITEM(args, i)
                           : kwargs                   ? PyDict_GetItemString(kwargs, argument_names[i])
                                                      : NULL;
        if (object && PyDict_SetItemString(arguments, argument_names[i], object) < 0)
            Py_CLEAR(arguments);
    }
    if (arguments)
        bind_raise_status(function, status, arguments);
}

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

/* Borrowed. While one is made another thread may make it too: the first one stays. */
static PyObject *enum_class(const bind_kind *kind)
{
    PyObject **place = &enums[kind - bind_kinds], *made = *place ? NULL : make_enum(kind);
    if (!*place)
        *place = made;
    else
        Py_XDECREF(made);
    return *place;
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

int bind_start_conversions(PyObject *module)
{
    int failed = name_enums(module) < 0;
    for (const bind_kind *kind = bind_kinds; !failed && kind < bind_kinds + BIND_COUNT; kind++)
        failed = kind->members && !(names[kind - bind_kinds] = member_names(kind));
    return failed ? -1 : 0;
}
