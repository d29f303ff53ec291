/* SPDX-License-Identifier: MIT */
/* What every language has besides the functions of the library, for those that have no types of their own for it. */
#include "say.h"

#include <math.h>
#include <string.h>

/* ---- quantities by themselves ----------------------------------------------------------------------------- */

static bind_object fail(const bind_way *call)
{
    host_fail(call->host, call->failure);
    return NULL;
}

static const bind_kind *find_kind(const char *name)
{
    for (const bind_kind *kind = bind_kinds; kind < bind_kinds + BIND_COUNT; kind++)
        if (strcmp(kind->name, name) == 0)
            return kind;
    return NULL;
}

static bind_object refuse_kind(bind_host *host, const char *function, const char *name)
{
    bind_failure failure;
    bind_begin(&failure, FER_OK, function);
    const bind_way call = {host, &failure, NULL, failure.function, 0};
    bind_write(&failure.out, "%s: there is no kind of value called ", function);
    bind_say_text(&failure.out, name, strlen(name));
    return fail(&call);
}

bind_object bind_make(bind_host *host, const char *name, bind_object from)
{
    bind_any value;
    const bind_kind *kind = find_kind(name);
    if (!kind)
        return refuse_kind(host, "make", name);
    return bind_take_argument(host, kind, from, &value, kind->name, NULL) < 0 ? NULL
                                                                              : bind_give(host, kind, &value);
}

bind_object bind_parsed(bind_host *host, const char *name, bind_object text, const char *decimal)
{
    double base;
    const bind_kind *kind = find_kind(name);
    if (!kind)
        return refuse_kind(host, "parse", name);
    return bind_take_text(host, kind, text, decimal, &base) < 0 ? NULL : bind_give(host, kind, &base);
}

/* An operand: a quantity, or a number without a unit, whose kind is NULL. */
static int take_operand(const bind_way *call, bind_object object, const bind_kind **kind, double *base)
{
    size_t length, stop;
    *kind = host_kind(call->host, object);
    if (*kind)
        return (*kind)->form == BIND_QUANTITY && host_value(call->host, *kind, object, base);
    if (host_number(call->host, object, base))
        return 1;
    const char *text = host_language.values_are_text ? host_text(call->host, object, &length) : NULL;
    for (*kind = bind_kinds; text && *kind < bind_kinds + BIND_COUNT; ++*kind)
        if ((*kind)->form == BIND_QUANTITY && bind_parse(*kind, text, length, base, &stop) == FER_OK)
            return 1;
    *kind = NULL;
    return 0;
}

static int take_quantity_of_any_kind(const bind_way *call, bind_object object, const bind_kind **kind,
                                     double *base)
{
    if (take_operand(call, object, kind, base) && *kind)
        return 1;
    bind_write(&call->failure->out, "%s: ", call->name);
    bind_say_object(call, object);
    bind_write(&call->failure->out, " is not a quantity with a unit");
    return 0;
}

static bind_object struct_text(const bind_way *call, const bind_kind *kind, bind_object value)
{
    bind_any taken;
    char text[8000];
    bind_writer out = {text, sizeof text, 0};
    if (bind_take_argument(call->host, kind, value, &taken, "text", NULL) < 0)
        return NULL;
    bind_write(&out, "%s", kind->name);
    bind_write_value(&out, &bind_plain_style, kind, &taken);
    return host_new_text(call->host, text, strlen(text));
}

bind_object bind_written(bind_host *host, bind_object value, const char *form)
{
    bind_failure failure;
    bind_begin(&failure, FER_OK, "text");
    const bind_way call = {host, &failure, NULL, "text", 0};
    const bind_kind *kind = host_kind(host, value);
    char text[FER_TEXT_CAPACITY + 32];
    bind_writer out = {text, sizeof text, 0};
    double base;
    int decimals = FER_SHORTEST, unit = -1;
    if (kind && kind->members)
        return struct_text(&call, kind, value);
    if (!take_quantity_of_any_kind(&call, value, &kind, &base) ||
        !bind_read_form(&failure.out, kind, form, &decimals, &unit))
        return fail(&call);
    failure.status = bind_write_quantity(&out, kind, base, unit, decimals);
    if (failure.status != FER_OK) {
        bind_write(&failure.out, "text: %s (%d)", bind_find_status(failure.status)->sentence, decimals);
        return fail(&call);
    }
    return host_new_text(host, text, out.used);
}

bind_object bind_number(bind_host *host, bind_object quantity, const char *name)
{
    bind_failure failure;
    bind_begin(&failure, FER_OK, "number");
    const bind_way call = {host, &failure, NULL, "number", 0};
    const bind_kind *kind;
    double base;
    if (!take_quantity_of_any_kind(&call, quantity, &kind, &base))
        return fail(&call);
    const int unit = bind_find_unit(kind, name);
    if (unit < 0) {
        bind_refuse_unit(&failure.out, kind, name);
        return fail(&call);
    }
    return host_new_number(host, bind_units[unit].read(base));
}

bind_object bind_compute(bind_host *host, bind_object left, const char *operation, bind_object right)
{
    bind_failure failure;
    bind_begin(&failure, FER_OK, "compute");
    const bind_way call = {host, &failure, NULL, "compute", 0};
    const bind_kind *a = NULL, *b = NULL, *kind;
    double x = 0, y = 0, base;
    const int taken = take_operand(&call, left, &a, &x) && take_operand(&call, right, &b, &y) && (a || b);
    const int is_one = operation[0] && !operation[1];
    if (taken && strcmp(operation, "<=>") == 0 && a == b && !isnan(x) && !isnan(y))
        return host_new_integer(host, x < y ? -1 : x > y);
    if (taken && is_one && operation[0] == '/' && y == 0 && a) {
        bind_write(&failure.out, "compute: %s divided by zero", a->name);
        return fail(&call);
    }
    if (taken && is_one && bind_combine(a, x, operation[0], b, y, &kind, &base))
        return host_new_quantity(host, kind, base);
    bind_write(&failure.out, "compute: there is no ");
    bind_say_object(&call, left);
    bind_write(&failure.out, " ");
    bind_say_text(&failure.out, operation, strlen(operation));
    bind_write(&failure.out, " ");
    bind_say_object(&call, right);
    return fail(&call);
}

/* ---- what there is ---------------------------------------------------------------------------------------- */

static void put_text(bind_host *host, bind_object table, const char *name, const char *text)
{
    host_put_member(host, table, name, host_new_text(host, text, strlen(text)));
}

static bind_object parameters(bind_host *host, const bind_parameter *p)
{
    const bind_object list = host_new_list(host);
    for (; p->name; p++) {
        const bind_object row = host_new_table(host, NULL);
        put_text(host, row, "name", p->name);
        put_text(host, row, "kind", p->kind ? p->kind->name : "text");
        host_put_member(host, row, "list", host_new_bool(host, p->is_list));
        host_put_member(host, row, "optional", host_new_bool(host, p->optional));
        host_put_item(host, list, row);
    }
    return list;
}

static bind_object functions(bind_host *host)
{
    const bind_object list = host_new_list(host);
    for (const bind_function *f = bind_functions; f->name; f++) {
        const bind_object row = host_new_table(host, NULL);
        put_text(host, row, "name", f->name);
        put_text(host, row, "text", f->text);
        host_put_member(host, row, "arguments", parameters(host, f->arguments));
        host_put_member(host, row, "results", parameters(host, f->results));
        host_put_item(host, list, row);
    }
    return list;
}

static bind_object members(bind_host *host, const bind_kind *kind)
{
    const bind_object list = host_new_list(host);
    for (const bind_member *m = kind->members; m && m->name; m++) {
        const bind_object row = host_new_table(host, NULL);
        put_text(host, row, "name", m->name);
        put_text(host, row, "kind", m->kind->name);
        put_text(host, row, "text", m->text);
        host_put_member(host, row, "list", host_new_bool(host, m->count > 0));
        host_put_member(host, row, "optional", host_new_bool(host, m->optional));
        host_put_item(host, list, row);
    }
    return list;
}

static bind_object names(bind_host *host, const bind_kind *kind)
{
    const bind_object list = host_new_list(host);
    for (const bind_word *word = kind->words; word && word->name; word++)
        host_put_item(host, list, host_new_text(host, word->name, strlen(word->name)));
    for (const bind_unit *unit = bind_units; unit < bind_units + FER_UNIT_COUNT; unit++)
        if (unit->kind == kind)
            host_put_item(host, list, host_new_text(host, unit->name, strlen(unit->name)));
    return list;
}

static bind_object kinds(bind_host *host)
{
    static const char *const forms[] = {"quantity", "struct", "found",   "set",
                                        "enum",     "bool",   "integer", "number"};
    const bind_object list = host_new_list(host);
    for (const bind_kind *kind = bind_kinds; kind < bind_kinds + BIND_COUNT; kind++) {
        const bind_object row = host_new_table(host, NULL);
        put_text(host, row, "name", kind->name);
        put_text(host, row, "text", kind->text ? kind->text : "");
        put_text(host, row, "form", forms[kind->form]);
        host_put_member(host, row, "members", members(host, kind));
        host_put_member(host, row, "names", names(host, kind));
        host_put_item(host, list, row);
    }
    return list;
}

static bind_object statuses(bind_host *host)
{
    const bind_object list = host_new_list(host);
    for (size_t i = 0; i < bind_status_count; i++) {
        const bind_object row = host_new_table(host, NULL);
        put_text(host, row, "name", bind_statuses[i].name);
        put_text(host, row, "sentence", bind_statuses[i].sentence);
        host_put_member(host, row, "code", host_new_integer(host, bind_statuses[i].status));
        host_put_item(host, list, row);
    }
    return list;
}

bind_object bind_describe(bind_host *host)
{
    const bind_object table = host_new_table(host, NULL);
    host_put_member(host, table, "kinds", kinds(host));
    host_put_member(host, table, "functions", functions(host));
    host_put_member(host, table, "statuses", statuses(host));
    return table;
}
