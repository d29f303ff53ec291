/* SPDX-License-Identifier: MIT */
/* Values: types, constructors, attributes, text, comparison. Conversions and errors are in convert.c. */
#include "convert.h"

PyTypeObject bind_types[BIND_COUNT];

const bind_kind *bind_kind_of(PyObject *object)
{
    const uintptr_t type = (uintptr_t)Py_TYPE(object), first = (uintptr_t)bind_types;
    return type >= first && type < first + sizeof bind_types
               ? &bind_kinds[(type - first) / sizeof bind_types[0]]
               : NULL;
}

static const bind_kind *kind_of_type(PyTypeObject *type)
{
    return &bind_kinds[type - bind_types]; /* no type has subclasses */
}

static const void *data_of(PyObject *object)
{
    return ((bind_value *)object)->data;
}

static double base_of(PyObject *object)
{
    return ((bind_value *)object)->data[0];
}

PyObject *bind_new(const bind_kind *kind, const void *from)
{
    PyTypeObject *type = &bind_types[kind - bind_kinds];
    PyObject *object = type->tp_alloc(type, 0);
    if (object)
        memcpy(((bind_value *)object)->data, from, kind->size);
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
    const bind_kind *kind = bind_kind_of(a);
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
    const Py_hash_t hash = (Py_hash_t)hash_of(bind_kind_of(self), data_of(self));
    return hash == -1 ? -2 : hash;
}

/* ---- text ------------------------------------------------------------------------------------------------- */

/* As float() reads it. */
static const char *not_finite(double number)
{
    return number != number ? "nan" : number > 0 ? "inf" : "-inf";
}

PyObject *bind_quantity_text(const bind_kind *kind, double base, int unit, int decimals)
{
    char text[FER_TEXT_CAPACITY];
    size_t length = 0;
    const bind_text *texts = &bind_texts[kind - bind_kinds];
    const fer_unit in = unit < 0 ? bind_shown_unit(kind) : (fer_unit)unit;
    const fer_status status = texts->format(base, in, decimals, text, sizeof text, &length);
    if (status == FER_TEXT_VALUE_NOT_FINITE)
        return PyUnicode_FromFormat("%s %s", not_finite(base), fer_unit_symbol(in));
    if (status != FER_OK)
        return bind_raise_status("format", status, NULL);
    return PyUnicode_FromStringAndSize(text, (Py_ssize_t)length);
}

/* As an argument of a constructor: text where text can say it. */
static PyObject *quantity_argument(const bind_kind *kind, double base)
{
    if (base - base != 0.0)
        return PyUnicode_FromFormat("%s(%s=float(\"%s\"))", kind->name,
                                    bind_units[bind_texts[kind - bind_kinds].base].name, not_finite(base));
    PyObject *text = bind_quantity_text(kind, base, -1, FER_SHORTEST);
    PyObject *quoted = text ? PyUnicode_FromFormat("\"%U\"", text) : NULL;
    Py_XDECREF(text);
    return quoted;
}

static PyObject *struct_text(const bind_kind *kind, const char *from);

static PyObject *member_text(const bind_kind *kind, const char *from)
{
    if (kind->form == BIND_QUANTITY)
        return quantity_argument(kind, *(const double *)(const void *)from);
    const double number = kind->form == BIND_NUMBER ? *(const double *)(const void *)from : 0.0;
    if (number - number != 0.0)
        return PyUnicode_FromFormat("float(\"%s\")", not_finite(number));
    if (kind->members)
        return struct_text(kind, from);
    PyObject *plain = bind_plain(kind, from);
    if (plain && kind->form == BIND_SET)
        Py_SETREF(plain, PyList_AsTuple(plain));
    PyObject *text = !plain                    ? NULL
                     : kind->form == BIND_ENUM ? PyUnicode_FromFormat("\"%U\"", plain)
                                               : PyObject_Repr(plain);
    Py_XDECREF(plain);
    return text;
}

static PyObject *array_text(const bind_member *m, const char *from)
{
    PyObject *text = PyUnicode_FromString("(");
    for (size_t i = 0; text && i < m->count; i++) {
        PyObject *one = member_text(m->kind, from + i * m->kind->size);
        PyUnicode_AppendAndDel(&text, one);
        PyUnicode_AppendAndDel(&text, PyUnicode_FromString(","));
    }
    PyUnicode_AppendAndDel(&text, PyUnicode_FromString(")"));
    return text;
}

static int is_zero(const char *from, size_t size)
{
    for (size_t i = 0; i < size; i++)
        if (from[i])
            return 0;
    return 1;
}

/* Hose(inside="12.7 mm", outside="19.9 mm"): what Python evaluates to the same value, without what is not given. */
static PyObject *struct_text(const bind_kind *kind, const char *from)
{
    PyObject *text = PyUnicode_FromFormat("%s(", kind->name);
    const char *comma = "";
    for (const bind_member *m = kind->members; text && m->name; m++) {
        const char *at = from + m->offset;
        const int left_out = kind->form == BIND_FOUND
                                 ? bind_is_there(kind, from) != (m == kind->members)
                                 : is_zero(at, m->kind->size * (m->count ? m->count : 1));
        if (m->optional && left_out)
            continue;
        PyUnicode_AppendAndDel(&text, PyUnicode_FromFormat("%s%s=", comma, m->name));
        PyUnicode_AppendAndDel(&text, m->count ? array_text(m, at) : member_text(m->kind, at));
        comma = ", ";
    }
    PyUnicode_AppendAndDel(&text, PyUnicode_FromString(")"));
    return text;
}

static PyObject *represent(PyObject *self)
{
    const bind_kind *kind = bind_kind_of(self);
    if (kind->form != BIND_QUANTITY)
        return struct_text(kind, data_of(self));
    PyObject *text = quantity_argument(kind, base_of(self));
    if (!text || base_of(self) - base_of(self) != 0.0)
        return text;
    PyObject *whole = PyUnicode_FromFormat("%s(%U)", kind->name, text);
    Py_DECREF(text);
    return whole;
}

static PyObject *quantity_str(PyObject *self)
{
    return bind_quantity_text(bind_kind_of(self), base_of(self), -1, FER_SHORTEST);
}

/* f"{d:.2f in}": decimals, unit; each may be left out. */
static PyObject *quantity_format(PyObject *self, PyObject *spec)
{
    const bind_kind *kind = bind_kind_of(self);
    Py_ssize_t length;
    const char *text = PyUnicode_AsUTF8AndSize(spec, &length);
    int decimals = FER_SHORTEST, unit = -1;
    if (!text || strlen(text) != (size_t)length)
        return text ? bind_refuse_unit(PyExc_ValueError, kind, "\\0") : NULL;
    if (*text == '.') {
        char *end;
        const long number = strtol(text + 1, &end, 10);
        if (end == text + 1 || *end != 'f' || number < 0 || number > 1000)
            return PyErr_Format(PyExc_ValueError, "%s: decimals are written .2f, before the unit: \".2f in\"",
                                kind->name);
        decimals = (int)number;
        text = end + 1;
    }
    while (*text == ' ')
        text++;
    if (*text && (unit = bind_find_unit(kind, text)) < 0)
        return bind_refuse_unit(PyExc_ValueError, kind, text);
    return bind_quantity_text(kind, base_of(self), unit, decimals);
}

/* ---- attributes ------------------------------------------------------------------------------------------- */

static PyObject *get_member(PyObject *self, void *closure)
{
    const bind_member *m = closure;
    const bind_kind *kind = bind_kind_of(self);
    const char *at = (const char *)data_of(self) + m->offset;
    if (kind->form == BIND_FOUND && m == kind->members && !bind_is_there(kind, data_of(self)))
        Py_RETURN_NONE;
    return m->count ? bind_give_tuple(m->kind, at, m->count) : bind_give(m->kind, at);
}

static PyObject *get_unit(PyObject *self, void *closure)
{
    return PyFloat_FromDouble(((const bind_unit *)closure)->read(base_of(self)));
}

static int refuse_change(PyObject *self, PyObject *name, PyObject *value)
{
    (void)value;
    if (bind_kind_of(self)->form == BIND_QUANTITY)
        PyErr_Format(PyExc_AttributeError, "a %s is a value and does not change", bind_kind_of(self)->name);
    else
        PyErr_Format(PyExc_AttributeError,
                     "a %s is a value and does not change: make another by replace(%S=...)",
                     bind_kind_of(self)->name, name);
    return -1;
}

static PyObject *reduce(PyObject *self, PyObject *unused)
{
    (void)unused;
    const bind_kind *kind = bind_kind_of(self);
    if (kind->form == BIND_QUANTITY) {
        PyObject *module = PyImport_ImportModule("ferrule");
        PyObject *maker =
            module ? PyObject_GetAttrString(module, bind_units[bind_texts[kind - bind_kinds].base].name)
                   : NULL;
        Py_XDECREF(module);
        return maker ? Py_BuildValue("N(d)", maker, base_of(self)) : NULL;
    }
    PyObject *members = PyTuple_New(PyTuple_GET_SIZE(bind_names(kind)));
    for (Py_ssize_t i = 0; members && kind->members[i].name; i++) {
        PyObject *member = get_member(self, (void *)(uintptr_t)&kind->members[i]);
        if (!member)
            Py_CLEAR(members);
        else
            PyTuple_SET_ITEM(members, i, member);
    }
    return members ? Py_BuildValue("ON", Py_TYPE(self), members) : NULL;
}

static PyObject *to_dict(PyObject *self, PyObject *unused)
{
    (void)unused;
    return bind_plain(bind_kind_of(self), data_of(self));
}

static PyObject *replace(PyObject *self, PyObject *args, PyObject *kwargs)
{
    const bind_kind *kind = bind_kind_of(self);
    const bind_where where = {NULL, kind->name, 0};
    if (PyTuple_GET_SIZE(args))
        return PyErr_Format(PyExc_TypeError, "%s.replace() takes members by name only", kind->name);
    PyObject *other = bind_new(kind, data_of(self));
    if (other && kwargs && bind_fill(kind, NULL, kwargs, ((bind_value *)other)->data, 1, &where) < 0)
        Py_CLEAR(other);
    return other;
}

static int is_found(PyObject *self)
{
    return bind_is_there(bind_kind_of(self), data_of(self));
}

/* ---- constructors ----------------------------------------------------------------------------------------- */

static int take_unit(const bind_kind *kind, PyObject *kwargs, double *base)
{
    PyObject *name, *number;
    Py_ssize_t at = 0;
    PyDict_Next(kwargs, &at, &name, &number);
    const char *text = PyUnicode_AsUTF8(name);
    const bind_where where = {NULL, kind->name, 0};
    const bind_where argument = {&where, text, 0};
    if (!text)
        return -1;
    for (const bind_unit *unit = bind_units; unit < bind_units + FER_UNIT_COUNT; unit++)
        if (unit->kind == kind && strcmp(unit->name, text) == 0) {
            if (bind_take(&bind_kinds[BIND_double], number, base, &argument) < 0)
                return -1;
            *base = unit->make(*base);
            return 0;
        }
    bind_refuse_unit(PyExc_TypeError, kind, text);
    return -1;
}

static PyObject *new_quantity(PyTypeObject *type, PyObject *args, PyObject *kwargs)
{
    const bind_kind *kind = kind_of_type(type);
    const bind_where where = {NULL, kind->name, 0};
    const Py_ssize_t texts = PyTuple_GET_SIZE(args), units = kwargs ? PyDict_GET_SIZE(kwargs) : 0;
    double base;
    if (texts + units != 1) {
        const char *unit = bind_units[bind_texts[kind - bind_kinds].base].name;
        return PyErr_Format(PyExc_TypeError,
                            "%s is made of one thing: text with a unit, or a number with its unit: %s(%s=1)",
                            kind->name, kind->name, unit);
    }
    if ((texts ? bind_take(kind, PyTuple_GET_ITEM(args, 0), &base, &where) : take_unit(kind, kwargs, &base)) <
        0)
        return NULL;
    return bind_new(kind, &base);
}

static PyObject *new_struct(PyTypeObject *type, PyObject *args, PyObject *kwargs)
{
    const bind_kind *kind = kind_of_type(type);
    const bind_where where = {NULL, kind->name, 0};
    PyObject *self = type->tp_alloc(type, 0);
    if (self && bind_fill(kind, args, kwargs, ((bind_value *)self)->data, 0, &where) < 0)
        Py_CLEAR(self);
    return self;
}

/* ---- arithmetic ------------------------------------------------------------------------------------------- */

/* The kind of a quantity that can be added and multiplied; a temperature is a point on a scale and cannot. */
static const bind_kind *amount_kind(PyObject *object)
{
    const bind_kind *kind = bind_kind_of(object);
    if (!kind || kind->form != BIND_QUANTITY)
        return NULL;
    for (size_t unit = 0; unit < FER_UNIT_COUNT; unit++)
        if (bind_units[unit].kind == kind && bind_units[unit].has_zero)
            return NULL;
    return kind;
}

/* A number without a unit, or a ratio. */
static int take_factor(PyObject *object, double *factor)
{
    if (bind_kind_of(object) == &bind_kinds[BIND_fer_ratio]) {
        *factor = base_of(object);
        return 1;
    }
    if (!bind_is_number(object))
        return 0;
    *factor = PyFloat_AsDouble(object);
    return *factor == -1.0 && PyErr_Occurred() ? -1 : 1;
}

static PyObject *sum(PyObject *a, PyObject *b, double sign)
{
    const bind_kind *kind = amount_kind(a);
    if (!kind || Py_TYPE(a) != Py_TYPE(b))
        Py_RETURN_NOTIMPLEMENTED;
    const double base = base_of(a) + sign * base_of(b);
    return bind_new(kind, &base);
}

static PyObject *add(PyObject *a, PyObject *b)
{
    return sum(a, b, 1.0);
}

static PyObject *subtract(PyObject *a, PyObject *b)
{
    return sum(a, b, -1.0);
}

static PyObject *times(PyObject *amount, PyObject *other, int divide)
{
    const bind_kind *kind = amount_kind(amount);
    double factor;
    const int taken = kind ? take_factor(other, &factor) : 0;
    if (taken < 0)
        return NULL;
    if (!taken)
        Py_RETURN_NOTIMPLEMENTED;
    if (divide && factor == 0.0)
        return PyErr_Format(PyExc_ZeroDivisionError, "%s divided by zero", kind->name);
    const double base = divide ? base_of(amount) / factor : base_of(amount) * factor;
    return bind_new(kind, &base);
}

static PyObject *multiply(PyObject *a, PyObject *b)
{
    /* The amount is what is not the factor; of ratio times length the length. */
    const int swap = !amount_kind(a) || (bind_kind_of(a) == &bind_kinds[BIND_fer_ratio] && amount_kind(b));
    return swap ? times(b, a, 0) : times(a, b, 0);
}

static PyObject *divide(PyObject *a, PyObject *b)
{
    if (Py_TYPE(a) != Py_TYPE(b) || !amount_kind(a))
        return times(a, b, 1);
    if (base_of(b) == 0.0)
        return PyErr_Format(PyExc_ZeroDivisionError, "%s divided by zero", bind_kind_of(a)->name);
    const double base = base_of(a) / base_of(b);
    return bind_new(&bind_kinds[BIND_fer_ratio], &base);
}

static PyObject *with_sign(PyObject *self, double base)
{
    const bind_kind *kind = amount_kind(self);
    return kind ? bind_new(kind, &base)
                : PyErr_Format(PyExc_TypeError, "%s has no sums and multiples", bind_kind_of(self)->name);
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
    const bind_kind *kind = bind_kind_of(self);
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
    {"__format__", quantity_format, METH_O, "Text with decimals and unit: f\"{d:.2f in}\"."},
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
    size_t count = 0;
    for (const bind_member *m = kind->members; m && m->name; m++)
        count++;
    PyGetSetDef *rows = PyMem_Calloc(count + FER_UNIT_COUNT + 1, sizeof *rows), *row = rows;
    if (!rows)
        return NULL;
    for (const bind_member *m = kind->members; m && m->name; m++)
        *row++ = (PyGetSetDef){m->name, get_member, NULL, m->text, (void *)(uintptr_t)m};
    for (const bind_unit *unit = bind_units; unit < bind_units + FER_UNIT_COUNT; unit++)
        if (unit->kind == kind)
            *row++ =
                (PyGetSetDef){unit->name, get_unit, NULL, "number in this unit", (void *)(uintptr_t)unit};
    return rows;
}

static int make_type(const bind_kind *kind, PyObject *module)
{
    static char names[BIND_COUNT][64];
    PyTypeObject *type = &bind_types[kind - bind_kinds];
    const int is_quantity = kind->form == BIND_QUANTITY;
    char *name = names[kind - bind_kinds];
    PyOS_snprintf(name, sizeof names[0], "ferrule.%s", kind->name);
    *type = (PyTypeObject){
        PyVarObject_HEAD_INIT(NULL, 0).tp_name = name,
        .tp_basicsize = (Py_ssize_t)(offsetof(bind_value, data) + kind->size),
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
    if (!is_quantity && PyDict_SetItemString(type->tp_dict, "__match_args__", bind_names(kind)) < 0)
        return -1;
    return PyModule_AddObjectRef(module, kind->name, (PyObject *)type);
}

int bind_start(PyObject *module)
{
    if (bind_start_conversions(module) < 0)
        return -1;
    for (const bind_kind *kind = bind_kinds; kind < bind_kinds + BIND_COUNT; kind++)
        if (kind->form == BIND_QUANTITY || kind->members)
            if (make_type(kind, module) < 0)
                return -1;
    return 0;
}

/* What SWIG's module lacks: a docstring that begins with the signature, the package's name, none of its helpers. */
int bind_finish_functions(PyMethodDef *methods, PyObject *module_dict)
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
