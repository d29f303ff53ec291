/* SPDX-License-Identifier: MIT */
#include "host.h"

#include <string.h>

const bind_language host_language = {.has_unsigned = 1,
                                     .maker = "Ferrule.%s(%s)",
                                     .wanted = {"a %s: a hash with ", ""},
                                     .style = &bind_plain_style};

static VALUE classes[BIND_COUNT]; /* by kind, as ferrule.rb says; Qnil: none yet */
static VALUE module;              /* Ferrule */
static ID kind_id, base_id;       /* of a class the number of its kind; of a quantity its number */

#define value(object) bind_ruby_value(object)

/* ---- looking ---------------------------------------------------------------------------------------------- */

int host_is_nothing(bind_host *host, bind_object object)
{
    (void)host;
    return NIL_P(value(object));
}

const bind_kind *host_kind(bind_host *host, bind_object object)
{
    (void)host;
    if (SPECIAL_CONST_P(value(object)) ||
        !(RB_TYPE_P(value(object), T_OBJECT) || RB_TYPE_P(value(object), T_STRUCT)))
        return NULL;
    const VALUE class = rb_obj_class(value(object)), number = rb_attr_get(class, kind_id);
    if (!FIXNUM_P(number) || FIX2LONG(number) < 0 || FIX2LONG(number) >= BIND_COUNT ||
        classes[FIX2LONG(number)] != class)
        return NULL;
    return &bind_kinds[FIX2LONG(number)];
}

int host_value(bind_host *host, const bind_kind *kind, bind_object object, void *to)
{
    if (kind->members || host_kind(host, object) != kind)
        return 0;
    const VALUE base = rb_attr_get(value(object), base_id);
    *(double *)to = RB_FLOAT_TYPE_P(base) ? RFLOAT_VALUE(base) : nan("");
    return 1;
}

const char *host_text(bind_host *host, bind_object object, size_t *length)
{
    (void)host;
    VALUE text = value(object);
    if (SYMBOL_P(text))
        text = rb_sym2str(text);
    if (!RB_TYPE_P(text, T_STRING))
        return NULL;
    text = rb_str_conv_enc(text, rb_enc_get(text), rb_utf8_encoding());
    *length = (size_t)RSTRING_LEN(text);
    return RSTRING_PTR(text);
}

int host_number(bind_host *host, bind_object object, double *number)
{
    (void)host;
    if (!RTEST(rb_obj_is_kind_of(value(object), rb_cNumeric)))
        return 0;
    *number = rb_num2dbl(value(object));
    return 1;
}

int host_integer(bind_host *host, bind_object object, uint64_t *number)
{
    double real;
    if (FIXNUM_P(value(object))) {
        *number = (uint64_t)FIX2LONG(value(object));
        return 1;
    }
    if (!host_number(host, object, &real))
        return 0;
    if (RB_TYPE_P(value(object), T_BIGNUM) && real > 0 && rb_absint_numwords(value(object), 64, NULL) == 1) {
        *number = NUM2ULL(value(object));
        return *number > INT64_MAX ? 2 : 1;
    }
    const int is_below = real < 0 && RB_TYPE_P(value(object), T_BIGNUM) &&
                         FIX2INT(rb_big_cmp(value(object), LL2NUM(INT64_MIN))) < 0;
    if (real >= 0x1p63 || real < -0x1p63 || is_below)
        return -1;
    *number = real == real ? (uint64_t)(int64_t)real : 0;
    return (double)(int64_t)*number == real;
}

int host_bool(bind_host *host, bind_object object, int *is_true)
{
    (void)host;
    *is_true = value(object) == Qtrue;
    return value(object) == Qtrue || value(object) == Qfalse;
}

int host_list(bind_host *host, bind_object *whole, int is_struct, size_t *count)
{
    (void)host;
    (void)is_struct;
    if (!RB_TYPE_P(value(*whole), T_ARRAY))
        return 0;
    *count = (size_t)RARRAY_LEN(value(*whole));
    return 1;
}

bind_object host_item(bind_host *host, bind_object object, size_t i)
{
    (void)host;
    return bind_ruby_object(rb_ary_entry(value(object), (long)i));
}

int host_table(bind_host *host, bind_object object, const bind_kind *kind)
{
    (void)host;
    (void)kind;
    return RB_TYPE_P(value(object), T_HASH);
}

/* By symbol, or else by text. */
bind_object host_member(bind_host *host, bind_object object, const bind_kind *kind, size_t place)
{
    const VALUE symbol = ID2SYM(rb_intern(kind->members[place].name));
    (void)host;
    if (RB_TYPE_P(value(object), T_STRUCT))
        return bind_ruby_object(rb_struct_aref(value(object), symbol));
    VALUE member = rb_hash_lookup2(value(object), symbol, Qundef);
    if (member == Qundef)
        member = rb_hash_lookup2(value(object), rb_sym2str(symbol), Qundef);
    return member == Qundef ? NULL : bind_ruby_object(member);
}

int host_stranger(bind_host *host, bind_object object, const bind_kind *kind, size_t found, char *name,
                  size_t capacity)
{
    (void)found;
    size_t length;
    if (!RB_TYPE_P(value(object), T_HASH))
        return 0;
    const VALUE keys = rb_funcall(value(object), rb_intern("keys"), 0);
    for (long i = 0; i < RARRAY_LEN(keys); i++) {
        const bind_object key = bind_ruby_object(rb_ary_entry(keys, i));
        const char *text = host_text(host, key, &length);
        if (!text || !bind_is_member(kind, text, length)) {
            strncpy(name, text ? text : host_type(host, key), capacity - 1);
            name[capacity - 1] = 0;
            return 1;
        }
    }
    return 0;
}

void host_drop(bind_host *host, bind_object object)
{
    (void)host;
    (void)object;
}

const char *host_type(bind_host *host, bind_object object)
{
    (void)host;
    return NIL_P(value(object))                ? "nil"
           : RB_TYPE_P(value(object), T_ARRAY) ? "an array"
           : RB_TYPE_P(value(object), T_HASH)  ? "a hash"
                                               : rb_obj_classname(value(object));
}

/* ---- making ----------------------------------------------------------------------------------------------- */

static VALUE class_of_kind(const bind_kind *kind)
{
    return classes[kind - bind_kinds];
}

bind_object host_new_quantity(bind_host *host, const bind_kind *kind, double base)
{
    (void)host;
    const VALUE made = rb_obj_alloc(class_of_kind(kind));
    rb_ivar_set(made, base_id, rb_float_new(base));
    return bind_ruby_object(rb_obj_freeze(made));
}

bind_object host_new_number(bind_host *host, double number)
{
    (void)host;
    return bind_ruby_object(rb_float_new(number));
}

bind_object host_new_integer(bind_host *host, int64_t number)
{
    (void)host;
    return bind_ruby_object(LL2NUM(number));
}

bind_object host_new_unsigned(bind_host *host, uint64_t number)
{
    (void)host;
    return bind_ruby_object(ULL2NUM(number));
}

bind_object host_new_bool(bind_host *host, int is_true)
{
    (void)host;
    return bind_ruby_object(is_true ? Qtrue : Qfalse);
}

bind_object host_new_text(bind_host *host, const char *text, size_t length)
{
    (void)host;
    return bind_ruby_object(rb_utf8_str_new(text, (long)length));
}

/* :fitted_wall */
bind_object host_new_word(bind_host *host, const bind_kind *kind, const char *name)
{
    char text[80];
    size_t length = 0;
    (void)host;
    (void)kind;
    for (; name[length] && length + 1 < sizeof text; length++)
        text[length] =
            name[length] >= 'A' && name[length] <= 'Z' ? (char)(name[length] - 'A' + 'a') : name[length];
    text[length] = 0;
    return bind_ruby_object(ID2SYM(rb_intern(text)));
}

bind_object host_new_list(bind_host *host)
{
    (void)host;
    return bind_ruby_object(rb_ary_new());
}

void host_put_item(bind_host *host, bind_object list, bind_object item)
{
    (void)host;
    rb_ary_push(value(list), value(item));
}

bind_object host_new_table(bind_host *host, const bind_kind *kind)
{
    (void)host;
    return bind_ruby_object(kind ? rb_obj_alloc(class_of_kind(kind)) : rb_hash_new());
}

void host_put_member(bind_host *host, bind_object table, const char *name, bind_object member)
{
    const VALUE symbol = ID2SYM(rb_intern(name));
    (void)host;
    if (RB_TYPE_P(value(table), T_STRUCT))
        rb_struct_aset(value(table), symbol, value(member));
    else
        rb_hash_aset(value(table), symbol, value(member));
}

/* A text that nobody sees; the host is the variable that keeps it (see primitives.i). */
void *host_memory(bind_host *host, size_t bytes)
{
    const VALUE memory = rb_str_new(NULL, (long)bytes);
    *(volatile VALUE *)(void *)host = memory;
    return RSTRING_PTR(memory);
}

void host_give_back(bind_host *host, void *memory)
{
    (void)host;
    (void)memory;
}

void bind_ruby_free(VALUE hold)
{
    if (RB_TYPE_P(hold, T_STRING))
        rb_str_resize(hold, 0);
}

/* ---- errors, arguments, start ------------------------------------------------------------------------------ */

/* Ferrule::StemError with name, code and function. */
void host_fail(bind_host *host, const bind_failure *failure)
{
    char class[48];
    (void)host;
    bind_error_class(failure, class, 32);
    strcat(class, "Error");
    const VALUE text = rb_utf8_str_new_cstr(failure->message);
    const VALUE error = rb_class_new_instance(1, &text, rb_const_get(module, rb_intern(class)));
    rb_iv_set(error, "@function", rb_utf8_str_new_cstr(failure->function));
    if (failure->path[0])
        rb_iv_set(error, "@path", rb_utf8_str_new_cstr(failure->path));
    if (failure->status != FER_OK) {
        rb_iv_set(error, "@name", rb_utf8_str_new_cstr(bind_status_name(failure->status)));
        rb_iv_set(error, "@code", INT2FIX((int)failure->status));
    }
    rb_exc_raise(error);
}

size_t bind_ruby_arguments(int argc, const VALUE *argv, bind_object *list, size_t maximum)
{
    const size_t count = (size_t)argc < maximum ? (size_t)argc : maximum;
    for (size_t i = 0; i < count; i++)
        list[i] = bind_ruby_object(argv[i]);
    return count;
}

/* One result is itself, several are an array. */
VALUE bind_ruby_append(VALUE results, int *count, VALUE result)
{
    if (++*count == 1)
        return result;
    return *count == 2 ? rb_ary_new_from_args(2, results, result) : rb_ary_push(results, result);
}

/* Core.register(class): the class of the kind that is called like it. */
static VALUE register_class(VALUE self, VALUE name, VALUE class)
{
    (void)self;
    const char *text = StringValueCStr(name);
    for (const bind_kind *kind = bind_kinds; kind < bind_kinds + BIND_COUNT; kind++)
        if (strcmp(kind->name, text) == 0 && NIL_P(class_of_kind(kind)) && RB_TYPE_P(class, T_CLASS)) {
            classes[kind - bind_kinds] = class;
            rb_ivar_set(class, kind_id, INT2FIX((int)(kind - bind_kinds)));
            return class;
        }
    rb_raise(rb_eArgError, "%s is no kind of value, or has its class", text);
}

void bind_ruby_start(void)
{
    kind_id = rb_intern("@ferrule_kind");
    base_id = rb_intern("@base");
    module = rb_path2class("Ferrule");
    for (int kind = 0; kind < BIND_COUNT; kind++) {
        classes[kind] = Qnil;
        rb_gc_register_address(&classes[kind]);
    }
    rb_define_module_function(rb_path2class("Ferrule::Core"), "register", register_class, 2);
}
