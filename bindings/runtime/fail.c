/* SPDX-License-Identifier: MIT */
/* Errors of statuses: what they are about, and which field. */
#include "say.h"

#include <string.h>

const bind_status *bind_find_status(fer_status status)
{
    for (size_t i = 0; i < bind_status_count; i++)
        if (bind_statuses[i].status == status)
            return &bind_statuses[i];
    return &bind_statuses[0];
}

const char *bind_status_name(fer_status status)
{
    return bind_find_status(status)->name;
}

void bind_error_class(const bind_failure *failure, char *name, size_t capacity)
{
    const char *word = failure->status == FER_OK ? "TYPE" : bind_status_name(failure->status);
    size_t length = strcspn(word, "_");
    if (length >= capacity)
        length = capacity - 1;
    for (size_t i = 0; i < length; i++)
        name[i] = i ? (char)(word[i] - 'A' + 'a') : word[i];
    name[length] = 0;
}

int bind_is_member(const bind_kind *kind, const char *name, size_t length)
{
    for (const bind_member *m = kind->members; m && m->name; m++)
        if (strlen(m->name) == length && memcmp(m->name, name, length) == 0)
            return 1;
    return 0;
}

static const bind_function *find_function(const char *name)
{
    const bind_function *function = bind_functions;
    while (function->name && strcmp(function->name, name) != 0)
        function++;
    return function->name ? function : NULL;
}

/* Whether a name begins with the first word of a status, in any case. */
static int begins(const char *name, const char *class, int is_whole)
{
    for (; *class; class ++, name++)
        if ((*name | 0x20) != (*class | 0x20))
            return 0;
    return !is_whole || !*name;
}

/* The member that a status is about, behind the first word: of HOSE_INSIDE_... the member inside. */
static const bind_member *find_member(const bind_kind *kind, const char *words)
{
    for (const bind_member *m = kind->members; m->name; m++) {
        const size_t length = strlen(m->name);
        if (begins(words, m->name, 0) && (words[length] == '_' || !words[length]))
            return m;
    }
    return NULL;
}

/* The path of a struct, or of its member that the status is about, with its value. */
static void note_struct(const bind_way *at, const bind_kind *kind, const char *from)
{
    const char *name = bind_status_name(at->failure->status), *rest = strchr(name, '_');
    const bind_member *m = rest ? find_member(kind, rest + 1) : NULL;
    const bind_way inner = {at->host, at->failure, at, m ? m->name : NULL, 0};
    bind_note(m ? &inner : at, NULL);
    if (m && m->count)
        return;
    at->failure->kind = m ? m->kind : kind;
    at->failure->value = from + (m ? m->offset : 0);
}

/* The struct that the first word of the status names, in a value of ours: itself or what it holds. */
static int say_struct_at_fault(const bind_way *at, const bind_kind *kind, const char *from, const char *class)
{
    if (begins(kind->name, class, 1)) {
        note_struct(at, kind, from);
        bind_write(&at->failure->out, " (%c%s: ", class[0] | 0x20, class + 1);
        bind_write_value(&at->failure->out, host_language.style, kind, from);
        bind_write(&at->failure->out, ")");
        return 1;
    }
    for (const bind_member *m = kind->members; m->name; m++) {
        const bind_way inner = {at->host, at->failure, at, m->name, 0};
        if (m->kind->members && say_struct_at_fault(&inner, m->kind, from + m->offset, class))
            return 1;
    }
    return 0;
}

/* An argument; of a list, and of a struct with much in it, only what it is. */
static void say_argument(const bind_way *call, const bind_parameter *p, bind_object object)
{
    bind_any value;
    bind_writer *out = &call->failure->out;
    const size_t used = out->used;
    if (p->is_list && !host_language.show) {
        bind_write(out, "a list");
    } else if (bind_take_again(call, p, object, &value)) {
        bind_write_value(out, host_language.style, p->kind, &value);
        if (out->used - used > SHOWN_STRUCT) {
            out->used = used;
            bind_write(out, "a %s", p->kind->name);
        }
    } else {
        bind_say_object(call, object);
    }
}

/* A struct in which nothing is given, such as an argument that was left out. */
static int is_left_out(const bind_way *call, const bind_parameter *p, bind_object object)
{
    static const bind_any zero;
    bind_any value;
    if (p->optional && host_is_nothing(call->host, object))
        return 1;
    return bind_take_again(call, p, object, &value) && memcmp(&value, &zero, p->kind->size) == 0;
}

/* What a status is about: the struct that its first word names, the arguments named so, or all that were given. The value
 * of a struct is read into `value`, which lasts until the error was made. */
static void say_offender(const bind_way *call, const bind_parameter *parameters, const bind_object *arguments,
                         size_t count, const char *class, bind_any *value)
{
    const char *comma = " (";
    int named = 0;
    for (size_t i = 0; i < count && parameters[i].name; i++) {
        const bind_way at = {call->host, call->failure, call, parameters[i].name, 0};
        if (bind_take_again(call, &parameters[i], arguments[i], value) &&
            say_struct_at_fault(&at, parameters[i].kind, (const char *)value, class))
            return;
    }
    for (size_t i = 0; i < count && parameters[i].name; i++)
        named += begins(parameters[i].name, class, 0);
    for (size_t i = 0; i < count && parameters[i].name; i++) {
        const bind_parameter *p = &parameters[i];
        const bind_way at = {call->host, call->failure, call, p->name, 0};
        if (named ? !begins(p->name, class, 0) : is_left_out(call, p, arguments[i]))
            continue;
        if (named == 1)
            bind_note(&at, arguments[i]);
        bind_write(&call->failure->out, "%s%s: ", comma, p->name);
        say_argument(call, p, arguments[i]);
        comma = ", ";
    }
    bind_write(&call->failure->out, comma[0] == ',' ? ")" : "");
}

/* ---- all faults ------------------------------------------------------------------------------------------ */

/* What was given of an order, a press and a rack. */
typedef struct whole {
    bind_any order, joint, press, die;
    const fer_die *dies;
    fer_die *list;
    size_t die_count;
    int has_order, has_joint, has_press;
} whole;

static void take_part(const bind_way *call, const bind_parameter *p, bind_object object, whole *w)
{
    const bind_kind *const die = &bind_kinds[BIND_fer_die];
    if (!p->kind || host_is_nothing(call->host, object))
        return;
    if (p->is_list && p->kind == die && !w->dies)
        w->dies = w->list =
            bind_take_list(call->host, die, object, &w->die_count, call->failure->function, p->name);
    else if (p->kind == die && !w->dies && bind_take_again(call, p, object, &w->die))
        w->dies = (const fer_die *)&w->die, w->die_count = 1;
    else if (p->kind == &bind_kinds[BIND_fer_order])
        w->has_order = bind_take_again(call, p, object, &w->order);
    else if (p->kind == &bind_kinds[BIND_fer_joint])
        w->has_joint = bind_take_again(call, p, object, &w->joint);
    else if (p->kind == &bind_kinds[BIND_fer_press])
        w->has_press = bind_take_again(call, p, object, &w->press);
}

static int is_given(const whole *w, const char *path)
{
    if (strncmp(path, "press.", 6) == 0)
        return w->has_press;
    if (strncmp(path, "dies[]", 6) == 0)
        return w->dies != NULL;
    return w->has_order || (w->has_joint && strncmp(path, "joint.", 6) == 0);
}

/* Those of what was given, in their order; the list ends with its failure. */
static size_t list_faults(bind_host *host, whole *w, fer_fault **faults)
{
    const size_t capacity = FER_FIELD_COUNT + 4 * w->die_count;
    size_t found = 0, kept = 0;
    if (!w->has_order)
        ((fer_order *)&w->order)->joint = *(const fer_joint *)&w->joint;
    if (!(*faults = host_memory(host, capacity * sizeof **faults)))
        return 0;
    fer_check_order((const fer_order *)&w->order, (const fer_press *)&w->press, w->dies, w->die_count,
                    *faults, capacity, &found);
    for (size_t i = 0; i < found; i++)
        if (is_given(w, fer_field_path((*faults)[i].field)))
            (*faults)[kept++] = (*faults)[i];
    return kept;
}

/* The member at the end of a path. */
static void note_member(bind_failure *failure, const bind_kind *kind, const char *from, const char *path)
{
    for (const bind_member *m = kind->members; m && m->name; m++) {
        const size_t length = strlen(m->name);
        if (strncmp(m->name, path, length) != 0 || (path[length] && path[length] != '.'))
            continue;
        if (path[length]) {
            note_member(failure, m->kind, from + m->offset, path + length + 1);
        } else {
            failure->object = NULL;
            failure->kind = m->kind;
            failure->value = from + m->offset;
        }
        return;
    }
}

/* The fault of the status says more exactly than the words of its name which field it is. */
static void note_fault(bind_failure *failure, const whole *w, const fer_fault *fault)
{
    const char *path = fer_field_path(fault->field), *rest = strchr(path, '.');
    failure->path[0] = 0;
    bind_write_fault_path(&(bind_writer){failure->path, sizeof failure->path, 0}, fault, failure->is_one_die);
    if (strncmp(path, "press.", 6) == 0)
        note_member(failure, &bind_kinds[BIND_fer_press], (const char *)&w->press, rest + 1);
    else if (strncmp(path, "dies[]", 6) == 0)
        note_member(failure, &bind_kinds[BIND_fer_die], (const char *)&w->dies[fault->die], rest + 1);
    else
        note_member(failure, &bind_kinds[BIND_fer_order], (const char *)&w->order, path);
}

static void fail_with_faults(const bind_way *call, const bind_parameter *parameters,
                             const bind_object *arguments, size_t count)
{
    bind_failure *failure = call->failure;
    fer_fault *faults = NULL;
    whole w;
    memset(&w, 0, sizeof w);
    for (size_t i = 0; i < count && parameters[i].name; i++)
        take_part(call, &parameters[i], arguments[i], &w);
    failure->is_one_die = !w.list;
    failure->fault_count = list_faults(call->host, &w, &faults);
    failure->faults = faults;
    for (size_t i = failure->fault_count; i-- > 0;)
        if (faults[i].status == failure->status)
            note_fault(failure, &w, &faults[i]);
    host_fail(call->host, failure);
    host_give_back(call->host, faults);
    host_give_back(call->host, w.list);
}

void bind_raise(bind_host *host, const char *name, fer_status status, const bind_object *arguments,
                size_t count)
{
    bind_failure failure;
    bind_any value;
    char class[32];
    bind_begin(&failure, status, name);
    const bind_way call = {host, &failure, NULL, failure.function, 0};
    const bind_function *function = find_function(failure.function);
    bind_error_class(&failure, class, sizeof class);
    bind_write(&failure.out, "%s: %s", failure.function, bind_find_status(status)->sentence);
    if (function)
        say_offender(&call, function->arguments, arguments, count, class, &value);
    if (function && host_language.lists_faults)
        fail_with_faults(&call, function->arguments, arguments, count);
    else
        host_fail(host, &failure);
}

void bind_refuse_text(bind_host *host, const char *function, const char *argument, bind_object object)
{
    bind_failure failure;
    bind_begin(&failure, FER_OK, function);
    const bind_way call = {host, &failure, NULL, failure.function, 0};
    const bind_way at = {host, &failure, &call, argument, 0};
    size_t length;
    if (host_text(host, object, &length))
        bind_complain(&at, object, BIND_WRONG_VALUE, "holds a zero byte");
    else
        bind_complain_about(&at, object, "has to be text");
    host_fail(host, &failure);
}

void bind_refuse_count(bind_host *host, const char *name, size_t given)
{
    bind_failure failure;
    bind_begin(&failure, FER_OK, name);
    const bind_function *function = find_function(failure.function);
    const char *comma = ": takes ";
    bind_write(&failure.out, "%s", failure.function);
    for (const bind_parameter *p = function ? function->arguments : NULL; p && p->name; p++) {
        bind_write(&failure.out, p->optional ? "%s%s (may be left out)" : "%s%s", comma, p->name);
        comma = ", ";
    }
    bind_write(&failure.out, comma[0] == ',' ? "; %zu %s given" : ": wrong number of arguments, %zu %s given",
               given, given == 1 ? "argument" : "arguments");
    host_fail(host, &failure);
}
