/* SPDX-License-Identifier: MIT */
/* Values: types, constructors, attributes, text, comparison. Objects are taken by the runtime. */
#include "host.h"

#include <math.h>

PyTypeObject python_types[BIND_COUNT];

static const bind_kind *kind_of_type(PyTypeObject *type)
{
    return &bind_kinds[type - python_types]; /* no type has subclasses */
}

static const void *data_of(PyObject *object)
{
    return ((python_value *)object)->data;
}

static double base_of(PyObject *object)
{
    return ((python_value *)object)->data[0];
}

PyObject *python_new(const bind_kind *kind, const void *from)
{
    PyTypeObject *type = &python_types[kind - bind_kinds];
    PyObject *object = type->tp_alloc(type, 0);
    if (object)
        memcpy(((python_value *)object)->data, from, kind->size);
    return object;
}

/* ---- comparison ------------------------------------------------------------------------------------------- */

/* Equal as values. A number that is not there (NaN) is equal to another that is not there. */
static int same_number(double a, double b)
{
    return a == b || (a != a && b != b);
}

static int same(const bind_kind *kind, const char *a, const char *b)
{
    if (kind->form == BIND_QUANTITY || kind->form == BIND_NUMBER)
        return same_number(*(const double *)(const void *)a, *(const double *)(const void *)b);
    if (!kind->members)
        return memcmp(a, b, kind->size) == 0;
    for (const bind_member *m = kind->members; m->name; m++)
        for (size_t i = 0; i < (m->count ? m->count : 1); i++)
            if (!same(m->kind, a + m->offset + i * m->kind->size, b + m->offset + i * m->kind->size))
                return 0;
    return 1;
}

static PyObject *compare(PyObject *a, PyObject *b, int operation)
{
    const bind_kind *kind = python_kind(a);
    if (Py_TYPE(a) != Py_TYPE(b))
        Py_RETURN_NOTIMPLEMENTED;
    if (kind->form == BIND_QUANTITY)
        Py_RETURN_RICHCOMPARE(base_of(a), base_of(b), operation);
    if (operation != Py_EQ && operation != Py_NE)
        Py_RETURN_NOTIMPLEMENTED;
    return PyBool_FromLong(same(kind, data_of(a), data_of(b)) == (operation == Py_EQ));
}

static Py_uhash_t mix(Py_uhash_t hash, Py_uhash_t more)
{
    return (hash ^ more) * (Py_uhash_t)1099511628211u;
}

static Py_uhash_t hash_of(const bind_kind *kind, const char *from)
{
    Py_uhash_t hash = (Py_uhash_t)(kind - bind_kinds);
    if (kind->form == BIND_QUANTITY || kind->form == BIND_NUMBER) {
        const double number = *(const double *)(const void *)from;
        return mix(hash, number == number ? (Py_uhash_t)_Py_HashDouble(NULL, number) : 0);
    }
    if (!kind->members)
        for (size_t i = 0; i < kind->size; i++)
            hash = mix(hash, (unsigned char)from[i]);
    for (const bind_member *m = kind->members; m && m->name; m++)
        for (size_t i = 0; i < (m->count ? m->count : 1); i++)
            hash = mix(hash, hash_of(m->kind, from + m->offset + i * m->kind->size));
    return hash;
}

static Py_hash_t hash_value(PyObject *self)
{
    const Py_hash_t hash = (Py_hash_t)hash_of(python_kind(self), data_of(self));
    return hash == -1 ? -2 : hash;
}

/* ---- text ------------------------------------------------------------------------------------------------- */

PyObject *python_quantity_text(const bind_kind *kind, double base, int unit, int decimals)
{
    char text[FER_TEXT_CAPACITY + 32];
    bind_writer out = {text, sizeof text, 0};
    const fer_status status = bind_write_quantity(&out, kind, base, unit, decimals);
    if (status == FER_OK)
        return PyUnicode_FromStringAndSize(text, (Py_ssize_t)out.used);
    bind_raise(NULL, "format", status, NULL, 0);
    return NULL;
}

/* Length("12.7 mm"), Hose(inside="12.7 mm", outside="19.9 mm") */
static void write_whole(bind_writer *out, const bind_kind *kind, const void *from)
{
    const int is_bare = kind->form == BIND_QUANTITY && isfinite(*(const double *)from);
    if (is_bare) {
        bind_put(out, kind->name);
        bind_put(out, "(");
    }
    bind_write_value(out, &python_style, kind, from);
    bind_put(out, is_bare ? ")" : "");
}

/* What Python evaluates to the same value. */
static PyObject *represent(PyObject *self)
{
    char text[4000], *long_text = NULL;
    bind_writer out = {text, sizeof text, 0};
    write_whole(&out, python_kind(self), data_of(self));
    if (out.used >= sizeof text) {
        const size_t size = out.used + 1;
        if (!(long_text = PyMem_Malloc(size)))
            return PyErr_NoMemory();
        out = (bind_writer){long_text, size, 0};
        write_whole(&out, python_kind(self), data_of(self));
    }
    PyObject *written = PyUnicode_FromStringAndSize(out.text, (Py_ssize_t)out.used);
    PyMem_Free(long_text);
    return written;
}

static PyObject *quantity_str(PyObject *self)
{
    return python_quantity_text(python_kind(self), base_of(self), -1, FER_SHORTEST);
}

static void refuse_unit(PyObject *exception, const bind_kind *kind, const char *unit)
{
    char text[1000];
    bind_writer out = {text, sizeof text, 0};
    bind_refuse_unit(&out, kind, unit);
    PyErr_SetString(exception, text);
}

static PyObject *write_form(PyObject *self, PyObject *spec)
{
    const bind_kind *kind = python_kind(self);
    char trouble[1000];
    bind_writer out = {trouble, sizeof trouble, 0};
    Py_ssize_t length;
    const char *text = PyUnicode_AsUTF8AndSize(spec, &length);
    int decimals = FER_SHORTEST, unit = -1;
    if (!text)
        return NULL;
    if (bind_read_form(&out, kind, strlen(text) == (size_t)length ? text : "\\0", &decimals, &unit))
        return python_quantity_text(kind, base_of(self), unit, decimals);
    PyErr_SetString(PyExc_ValueError, trouble);
    return NULL;
}

/* How many characters of a form say fill, alignment and width; `aligned` is how many of them are the first two. */
static Py_ssize_t field_size(PyObject *spec, Py_ssize_t *aligned)
{
    const Py_ssize_t length = PyUnicode_GET_LENGTH(spec);
    Py_ssize_t size = 0;
    for (Py_ssize_t i = 0; i < 2 && i < length; i++) {
        const Py_UCS4 character = PyUnicode_READ_CHAR(spec, i);
        if (character == '<' || character == '>' || character == '^')
            size = i + 1;
    }
    *aligned = size;
    while (size < length && PyUnicode_READ_CHAR(spec, size) >= '0' && PyUnicode_READ_CHAR(spec, size) <= '9')
        size++;
    return size;
}

/* f"{d:>10.2f in}": as Python's own forms begin, with fill, alignment and width; to the right, as numbers are. */
static PyObject *in_field(PyObject *text, PyObject *spec, Py_ssize_t size, Py_ssize_t aligned)
{
    PyObject *field = text ? PyUnicode_Substring(spec, 0, size) : NULL;
    if (field && !aligned)
        Py_SETREF(field, PyUnicode_FromFormat(">%U", field));
    PyObject *padded = field ? PyObject_Format(text, field) : NULL;
    Py_XDECREF(field);
    Py_XDECREF(text);
    return padded;
}

/* f"{d:.2f in}": field, decimals or fraction, unit; each may be left out. */
static PyObject *quantity_format(PyObject *self, PyObject *spec)
{
    Py_ssize_t aligned, size = field_size(spec, &aligned);
    if (!size)
        return write_form(self, spec);
    if (size > aligned && PyUnicode_READ_CHAR(spec, aligned) == '0')
        return PyErr_Format(PyExc_ValueError, "%s: a width does not begin with 0", python_kind(self)->name);
    PyObject *form = PyUnicode_Substring(spec, size, PyUnicode_GET_LENGTH(spec));
    PyObject *text = form ? write_form(self, form) : NULL;
    Py_XDECREF(form);
    return in_field(text, spec, size, aligned);
}

/* ---- attributes ------------------------------------------------------------------------------------------- */

static PyObject *get_member(PyObject *self, void *closure)
{
    const bind_member *m = closure;
    const bind_kind *kind = python_kind(self);
    const char *at = (const char *)data_of(self) + m->offset;
    if (kind->form == BIND_FOUND && m == kind->members && !bind_is_there(kind, data_of(self)))
        Py_RETURN_NONE;
    return m->count ? python_give_tuple(m->kind, at, m->count) : python_give(m->kind, at);
}

PyObject *python_fault_path(const fer_fault *fault, int is_one_die)
{
    char path[256];
    bind_writer out = {path, sizeof path, 0};
    path[0] = 0;
    bind_write_fault_path(&out, fault, is_one_die);
    return PyUnicode_FromString(path);
}

static PyObject *get_path(PyObject *self, void *closure)
{
    (void)closure;
    return python_fault_path(data_of(self), 0);
}

static PyObject *get_message(PyObject *self, void *closure)
{
    (void)closure;
    return PyUnicode_FromString(bind_find_status(((const fer_fault *)data_of(self))->status)->sentence);
}

static PyObject *get_unit(PyObject *self, void *closure)
{
    return PyFloat_FromDouble(((const bind_unit *)closure)->read(base_of(self)));
}

static int refuse_change(PyObject *self, PyObject *name, PyObject *value)
{
    (void)value;
    if (python_kind(self)->form == BIND_QUANTITY)
        PyErr_Format(PyExc_AttributeError, "a %s is a value and does not change", python_kind(self)->name);
    else
        PyErr_Format(PyExc_AttributeError,
                     "a %s is a value and does not change: make another by replace(%S=...)",
                     python_kind(self)->name, name);
    return -1;
}

static PyObject *reduce(PyObject *self, PyObject *unused)
{
    (void)unused;
    const bind_kind *kind = python_kind(self);
    if (kind->form == BIND_QUANTITY) {
        PyObject *module = PyImport_ImportModule("ferrule");
        PyObject *maker =
            module ? PyObject_GetAttrString(module, bind_units[bind_texts[kind - bind_kinds].base].name)
                   : NULL;
        Py_XDECREF(module);
        return maker ? Py_BuildValue("N(d)", maker, base_of(self)) : NULL;
    }
    PyObject *members = PyTuple_New(PyTuple_GET_SIZE(python_names(kind)));
    for (Py_ssize_t i = 0; members && kind->members[i].name; i++) {
        PyObject *member = get_member(self, (void *)(uintptr_t)&kind->members[i]);
        if (!member)
            Py_CLEAR(members);
        else
            PyTuple_SET_ITEM(members, i, member);
    }
    return members ? Py_BuildValue("ON", Py_TYPE(self), members) : NULL;
}

static int fill(const bind_kind *kind, PyObject *args, PyObject *kwargs, int changes, PyObject *self)
{
    bind_host host;
    host.count = 0;
    const int filled = bind_take_members(&host, kind, args, kwargs, changes, ((python_value *)self)->data);
    python_end(&host);
    return filled;
}

static PyObject *to_dict(PyObject *self, PyObject *unused)
{
    (void)unused;
    return python_plain(python_kind(self), data_of(self));
}

static PyObject *replace(PyObject *self, PyObject *args, PyObject *kwargs)
{
    const bind_kind *kind = python_kind(self);
    if (PyTuple_GET_SIZE(args))
        return PyErr_Format(PyExc_TypeError, "%s.replace() takes members by name only", kind->name);
    PyObject *other = python_new(kind, data_of(self));
    if (other && kwargs && fill(kind, NULL, kwargs, 1, other) < 0)
        Py_CLEAR(other);
    return other;
}

static int is_found(PyObject *self)
{
    return bind_is_there(python_kind(self), data_of(self));
}

/* ---- constructors ----------------------------------------------------------------------------------------- */

static int take_unit(const bind_kind *kind, PyObject *kwargs, double *base)
{
    PyObject *name, *number;
    Py_ssize_t at = 0;
    PyDict_Next(kwargs, &at, &name, &number);
    const char *text = PyUnicode_AsUTF8(name);
    if (!text)
        return -1;
    for (const bind_unit *unit = bind_units; unit < bind_units + FER_UNIT_COUNT; unit++)
        if (unit->kind == kind && strcmp(unit->name, text) == 0) {
            if (python_take(&bind_kinds[BIND_double], number, base, kind->name, text) < 0)
                return -1;
            *base = unit->make(*base);
            return 0;
        }
    refuse_unit(PyExc_TypeError, kind, text);
    return -1;
}

/* Length("12,7 mm", decimal=",") */
static int take_text(const bind_kind *kind, PyObject *text, PyObject *decimal, double *base)
{
    bind_host host;
    host.count = 0;
    Py_ssize_t length;
    const char *sign = PyUnicode_Check(decimal) ? PyUnicode_AsUTF8AndSize(decimal, &length) : "";
    const int taken =
        !sign ? -1 : bind_take_text(&host, kind, (bind_object)text, length == 1 ? sign : "", base);
    python_end(&host);
    return taken;
}

static PyObject *new_quantity(PyTypeObject *type, PyObject *args, PyObject *kwargs)
{
    const bind_kind *kind = kind_of_type(type);
    const Py_ssize_t texts = PyTuple_GET_SIZE(args), units = kwargs ? PyDict_GET_SIZE(kwargs) : 0;
    PyObject *decimal = texts == 1 && units == 1 ? PyDict_GetItemString(kwargs, "decimal") : NULL;
    double base;
    if (decimal)
        return take_text(kind, PyTuple_GET_ITEM(args, 0), decimal, &base) < 0 ? NULL
                                                                              : python_new(kind, &base);
    if (texts + units != 1) {
        const char *unit = bind_units[bind_texts[kind - bind_kinds].base].name;
        return PyErr_Format(PyExc_TypeError,
                            "%s is made of one thing: text with a unit (and decimal=\",\" where that is its "
                            "decimal sign), or a number with its unit: %s(%s=1)",
                            kind->name, kind->name, unit);
    }
    if ((texts ? python_take(kind, PyTuple_GET_ITEM(args, 0), &base, kind->name, NULL)
               : take_unit(kind, kwargs, &base)) < 0)
        return NULL;
    return python_new(kind, &base);
}

static PyObject *new_struct(PyTypeObject *type, PyObject *args, PyObject *kwargs)
{
    const bind_kind *kind = kind_of_type(type);
    PyObject *self = type->tp_alloc(type, 0);
    if (self && fill(kind, args, kwargs, 0, self) < 0)
        Py_CLEAR(self);
    return self;
}

/* ---- arithmetic ------------------------------------------------------------------------------------------- */

/* A quantity, or a number without a unit, whose kind is NULL. 0: neither; -1: it raises. */
static int take_operand(PyObject *object, const bind_kind **kind, double *base)
{
    *kind = python_kind(object);
    if (*kind) {
        *base = base_of(object);
        return (*kind)->form == BIND_QUANTITY;
    }
    if (!python_is_number(object))
        return 0;
    *base = PyFloat_AsDouble(object);
    return *base == -1.0 && PyErr_Occurred() ? -1 : 1;
}

static PyObject *compute(PyObject *a, char operation, PyObject *b)
{
    const bind_kind *left, *right, *kind;
    double x, y, base;
    if ((operation == '+' || operation == '-') && Py_TYPE(a) != Py_TYPE(b))
        Py_RETURN_NOTIMPLEMENTED;
    int taken = take_operand(a, &left, &x);
    if (taken > 0)
        taken = take_operand(b, &right, &y);
    if (taken < 0)
        return NULL;
    if (!taken || !bind_combine(left, x, operation, right, y, &kind, &base))
        Py_RETURN_NOTIMPLEMENTED;
    if (operation == '/' && y == 0.0)
        return PyErr_Format(PyExc_ZeroDivisionError, "%s divided by zero", left->name);
    return python_new(kind, &base);
}

static PyObject *add(PyObject *a, PyObject *b)
{
    return compute(a, '+', b);
}

static PyObject *subtract(PyObject *a, PyObject *b)
{
    return compute(a, '-', b);
}

static PyObject *multiply(PyObject *a, PyObject *b)
{
    return compute(a, '*', b);
}

static PyObject *divide(PyObject *a, PyObject *b)
{
    return compute(a, '/', b);
}

static PyObject *with_sign(PyObject *self, double base)
{
    const bind_kind *kind = python_kind(self);
    return bind_is_amount(kind) ? python_new(kind, &base)
                                : PyErr_Format(PyExc_TypeError, "%s has no sums and multiples", kind->name);
}

static PyObject *negative(PyObject *self)
{
    return with_sign(self, -base_of(self));
}

static PyObject *positive(PyObject *self)
{
    return with_sign(self, base_of(self));
}

static PyObject *absolute(PyObject *self)
{
    return with_sign(self, base_of(self) < 0 ? -base_of(self) : base_of(self) + 0.0);
}

static int is_not_zero(PyObject *self)
{
    return base_of(self) != 0.0;
}

static PyObject *refuse_float(PyObject *self)
{
    const bind_kind *kind = python_kind(self);
    return PyErr_Format(PyExc_TypeError, "a %s is not a number without a unit: ask for one, as in .%s",
                        kind->name, bind_units[bind_texts[kind - bind_kinds].base].name);
}

/* ---- types ------------------------------------------------------------------------------------------------ */

static PyNumberMethods quantity_numbers = {
    .nb_add = add,
    .nb_subtract = subtract,
    .nb_multiply = multiply,
    .nb_true_divide = divide,
    .nb_negative = negative,
    .nb_positive = positive,
    .nb_absolute = absolute,
    .nb_bool = is_not_zero,
    .nb_float = refuse_float,
};
static PyNumberMethods found_numbers = {.nb_bool = is_found};

/* What needs no speed is in the package's modules in Python, which are imported when they are asked. */
static PyObject *ask_module(const char *name, const char *function, PyObject *self, PyObject *more)
{
    PyObject *module = PyImport_ImportModule(name);
    PyObject *result = module ? PyObject_CallMethod(module, function, "OO", self, more) : NULL;
    Py_XDECREF(module);
    return result;
}

static PyObject *to_pint(PyObject *self, PyObject *args, PyObject *kwargs)
{
    static char *names[] = {"registry", NULL};
    PyObject *registry = Py_None;
    return PyArg_ParseTupleAndKeywords(args, kwargs, "|O:to_pint", names, &registry)
               ? ask_module("ferrule._pint", "to_pint", self, registry)
               : NULL;
}

static PyObject *html(PyObject *self, PyObject *unused)
{
    (void)unused;
    return ask_module("ferrule._html", "html", self, Py_None);
}

static PyMethodDef quantity_methods[] = {
    {"__format__", quantity_format, METH_O,
     "Text with width, decimals or fraction, and unit: f\"{d:10.2f in}\", f\"{d:.1/64 in}\"."},
    {"to_pint", (PyCFunction)(void (*)(void))to_pint, METH_VARARGS | METH_KEYWORDS,
     "to_pint($self, /, registry=None)\n--\n\nA quantity of pint, in the base unit; without a registry in "
     "pint's "
     "application registry."},
    {"__reduce__", reduce, METH_NOARGS, NULL},
    {0},
};
static PyMethodDef struct_methods[] = {
    {"replace", (PyCFunction)(void (*)(void))replace, METH_VARARGS | METH_KEYWORDS,
     "replace($self, /, **changes)\n--\n\nThe same with some members changed; a dict changes members of a "
     "member."},
    {"to_dict", to_dict, METH_NOARGS,
     "to_dict($self, /)\n--\n\nPlain data for JSON: quantities and words as text, None for what is not "
     "there."},
    {"_repr_html_", html, METH_NOARGS, "_repr_html_($self, /)\n--\n\nA table for a notebook."},
    {"__reduce__", reduce, METH_NOARGS, NULL},
    {0},
};

static PyGetSetDef *attributes(const bind_kind *kind)
{
    size_t count = FER_UNIT_COUNT;
    if (kind->members)
        for (count = 0; kind->members[count].name;)
            count++;
    PyGetSetDef *rows = PyMem_Calloc(count + 3, sizeof *rows), *row = rows;
    if (!rows)
        return NULL;
    for (const bind_member *m = kind->members; m && m->name; m++)
        *row++ = (PyGetSetDef){m->name, get_member, NULL, m->text, (void *)(uintptr_t)m};
    if (kind == &bind_kinds[BIND_fer_fault]) {
        *row++ = (PyGetSetDef){"path", get_path, NULL, "the field, such as \"dies[3].size\"", NULL};
        *row++ = (PyGetSetDef){"message", get_message, NULL, "which rule was broken", NULL};
    }
    for (const bind_unit *unit = bind_units; !kind->members && unit < bind_units + FER_UNIT_COUNT; unit++)
        if (unit->kind == kind)
            *row++ =
                (PyGetSetDef){unit->name, get_unit, NULL, "number in this unit", (void *)(uintptr_t)unit};
    return rows;
}

static int make_type(const bind_kind *kind, PyObject *module)
{
    static char names[BIND_COUNT][64];
    PyTypeObject *type = &python_types[kind - bind_kinds];
    const int is_quantity = kind->form == BIND_QUANTITY;
    char *name = names[kind - bind_kinds];
    PyOS_snprintf(name, sizeof names[0], "ferrule.%s", kind->name);
    *type = (PyTypeObject){
        PyVarObject_HEAD_INIT(NULL, 0).tp_name = name,
        .tp_basicsize = (Py_ssize_t)(offsetof(python_value, data) + kind->size),
        .tp_flags =
            Py_TPFLAGS_DEFAULT, /* without BASETYPE: no subclasses, so the kind follows from the type */
        .tp_doc = kind->text,
        .tp_new = is_quantity ? new_quantity : new_struct,
        .tp_repr = represent,
        .tp_str = is_quantity ? quantity_str : NULL,
        .tp_hash = hash_value,
        .tp_richcompare = compare,
        .tp_setattro = refuse_change,
        .tp_as_number = is_quantity                ? &quantity_numbers
                        : kind->form == BIND_FOUND ? &found_numbers
                                                   : NULL,
        .tp_methods = is_quantity ? quantity_methods : struct_methods,
        .tp_getset = attributes(kind),
    };
    if (!type->tp_getset || PyType_Ready(type) < 0)
        return -1;
    if (!is_quantity && PyDict_SetItemString(type->tp_dict, "__match_args__", python_names(kind)) < 0)
        return -1;
    return PyModule_AddObjectRef(module, kind->name, (PyObject *)type);
}

int python_start(PyObject *module)
{
    if (python_start_conversions(module) < 0)
        return -1;
    for (const bind_kind *kind = bind_kinds; kind < bind_kinds + BIND_COUNT; kind++)
        if (kind->form == BIND_QUANTITY || kind->members)
            if (make_type(kind, module) < 0)
                return -1;
    return 0;
}

/* What SWIG's module lacks: a docstring that begins with the signature, the package's name, none of its helpers. */
int python_finish_functions(PyMethodDef *methods, PyObject *module_dict)
{
    PyObject *package = PyUnicode_FromString("ferrule");
    for (PyMethodDef *method = methods; package && method->ml_name; method++) {
        PyObject *function = PyDict_GetItemString(module_dict, method->ml_name);
        while (method->ml_doc && *method->ml_doc == '\n')
            method->ml_doc++;
        if (strncmp(method->ml_name, "SWIG_", 5) == 0
                ? PyDict_DelItemString(module_dict, method->ml_name) < 0
                : PyObject_SetAttrString(function, "__module__", package) < 0)
            Py_CLEAR(package);
    }
    Py_XDECREF(package);
    return package ? 0 : -1;
}
