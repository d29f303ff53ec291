/* SPDX-License-Identifier: MIT */
#include "host.h"

#include <inttypes.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

const bind_language host_language = {.values_are_text = 1,
                                     .has_unsigned = 1,
                                     .maker = "[ferrule::%s %s]",
                                     .wanted = {"a %s: a dict with ", ""},
                                     .style = &bind_plain_style};

static Tcl_Obj *obj(bind_object object)
{
    return (Tcl_Obj *)object;
}

/* ---- looking: everything is text, so what a value is depends on what is wanted ----------------------------- */

int host_is_nothing(bind_host *host, bind_object object)
{
    int length;
    (void)host;
    Tcl_GetStringFromObj(obj(object), &length);
    return length == 0;
}

const bind_kind *host_kind(bind_host *host, bind_object object)
{
    (void)host;
    (void)object;
    return NULL;
}

int host_value(bind_host *host, const bind_kind *kind, bind_object object, void *to)
{
    (void)host;
    (void)kind;
    (void)object;
    (void)to;
    return 0;
}

const char *host_text(bind_host *host, bind_object object, size_t *length)
{
    int bytes;
    const char *text = Tcl_GetStringFromObj(obj(object), &bytes);
    (void)host;
    *length = (size_t)bytes;
    return text;
}

int host_number(bind_host *host, bind_object object, double *number)
{
    (void)host;
    if (Tcl_GetDoubleFromObj(NULL, obj(object), number) == TCL_OK)
        return 1;
    *number = NAN;
    return Tcl_StringCaseMatch(Tcl_GetString(obj(object)), "nan", TCL_MATCH_NOCASE);
}

/* Tcl gives the bits of a number between the greatest of the signed and the unsigned ones. */
int host_integer(bind_host *host, bind_object object, uint64_t *number)
{
    Tcl_WideInt whole;
    double real = 0;
    const int is_number = host_number(host, object, &real);
    if (Tcl_GetWideIntFromObj(NULL, obj(object), &whole) == TCL_OK) {
        *number = (uint64_t)whole;
        return is_number && real > 0 && whole < 0 ? 2 : 1;
    }
    return is_number && (real >= 0x1p63 || real < -0x1p63) ? -1 : 0;
}

int host_bool(bind_host *host, bind_object object, int *is_true)
{
    (void)host;
    return Tcl_GetBooleanFromObj(NULL, obj(object), is_true) == TCL_OK;
}

/* "13 mm" is a list of two as well, so members have names always. */
int host_list(bind_host *host, bind_object *whole, int is_struct, size_t *count)
{
    int items;
    (void)host;
    if (is_struct || Tcl_ListObjLength(NULL, obj(*whole), &items) != TCL_OK)
        return 0;
    *count = (size_t)items;
    return 1;
}

bind_object host_item(bind_host *host, bind_object object, size_t i)
{
    Tcl_Obj *item = NULL;
    (void)host;
    Tcl_ListObjIndex(NULL, obj(object), (int)i, &item);
    return item;
}

/* "13 mm" and "fitted wall" have the form of a dict, too: what stands for its first member does not begin with the
 * name of a member, nor with a letter where that member is a quantity. */
int host_table(bind_host *host, bind_object object, const bind_kind *kind)
{
    Tcl_Obj *first = NULL;
    int size, length;
    (void)host;
    if (Tcl_DictObjSize(NULL, obj(object), &size) != TCL_OK)
        return 0;
    if (size == 0 || !bind_is_shorthand(kind))
        return 1;
    if (Tcl_ListObjIndex(NULL, obj(object), 0, &first) != TCL_OK || !first)
        return 0;
    const char *name = Tcl_GetStringFromObj(first, &length);
    const bind_kind *inner = kind->members->kind;
    while (inner->members)
        inner = inner->members->kind;
    const int is_letter = (*name >= 'a' && *name <= 'z') || (*name >= 'A' && *name <= 'Z') || *name == '_';
    return bind_is_member(kind, name, (size_t)length) || (is_letter && inner->form == BIND_QUANTITY);
}

bind_object host_member(bind_host *host, bind_object object, const bind_kind *kind, size_t place)
{
    Tcl_Obj *value = NULL, *key = Tcl_NewStringObj(kind->members[place].name, -1);
    (void)host;
    Tcl_IncrRefCount(key);
    Tcl_DictObjGet(NULL, obj(object), key, &value);
    Tcl_DecrRefCount(key);
    return value;
}

int host_stranger(bind_host *host, bind_object object, const bind_kind *kind, size_t found, char *name,
                  size_t capacity)
{
    (void)found;
    Tcl_DictSearch search;
    Tcl_Obj *key, *value;
    int done, length, is_found = 0;
    (void)host;
    Tcl_DictObjFirst(NULL, obj(object), &search, &key, &value, &done);
    for (; !done && !is_found; Tcl_DictObjNext(&search, &key, &value, &done)) {
        const char *text = Tcl_GetStringFromObj(key, &length);
        is_found = !bind_is_member(kind, text, (size_t)length);
        strncpy(name, text, capacity - 1);
        name[capacity - 1] = 0;
    }
    Tcl_DictObjDone(&search);
    return is_found;
}

void host_drop(bind_host *host, bind_object object)
{
    (void)host;
    (void)object;
}

const char *host_type(bind_host *host, bind_object object)
{
    (void)host;
    (void)object;
    return "''";
}

/* ---- making ----------------------------------------------------------------------------------------------- */

bind_object host_new_quantity(bind_host *host, const bind_kind *kind, double base)
{
    char text[FER_TEXT_CAPACITY + 32];
    bind_writer out = {text, sizeof text, 0};
    (void)host;
    bind_write_quantity(&out, kind, base, -1, FER_SHORTEST);
    return Tcl_NewStringObj(text, (int)out.used);
}

bind_object host_new_number(bind_host *host, double number)
{
    (void)host;
    return Tcl_NewDoubleObj(number);
}

bind_object host_new_integer(bind_host *host, int64_t number)
{
    (void)host;
    return Tcl_NewWideIntObj(number);
}

bind_object host_new_unsigned(bind_host *host, uint64_t number)
{
    (void)host;
    char digits[24];
    snprintf(digits, sizeof digits, "%" PRIu64, number);
    return Tcl_NewStringObj(digits, -1);
}

bind_object host_new_bool(bind_host *host, int is_true)
{
    (void)host;
    return Tcl_NewBooleanObj(is_true);
}

bind_object host_new_text(bind_host *host, const char *text, size_t length)
{
    (void)host;
    return Tcl_NewStringObj(text, (int)length);
}

bind_object host_new_word(bind_host *host, const bind_kind *kind, const char *name)
{
    (void)kind;
    return host_new_text(host, name, strlen(name));
}

bind_object host_new_list(bind_host *host)
{
    (void)host;
    return Tcl_NewListObj(0, NULL);
}

void host_put_item(bind_host *host, bind_object list, bind_object item)
{
    (void)host;
    Tcl_ListObjAppendElement(NULL, obj(list), obj(item));
}

bind_object host_new_table(bind_host *host, const bind_kind *kind)
{
    (void)host;
    (void)kind;
    return Tcl_NewDictObj();
}

void host_put_member(bind_host *host, bind_object table, const char *name, bind_object value)
{
    (void)host;
    Tcl_DictObjPut(NULL, obj(table), Tcl_NewStringObj(name, -1), obj(value));
}

void *host_memory(bind_host *host, size_t bytes)
{
    void *memory = malloc(bytes);
    if (!memory)
        Tcl_SetObjResult((Tcl_Interp *)host, Tcl_NewStringObj("not enough memory", -1));
    return memory;
}

void host_give_back(bind_host *host, void *memory)
{
    const size_t *results = Tcl_GetAssocData((Tcl_Interp *)host, TCL_RESULTS, NULL);
    const size_t *work = Tcl_GetAssocData((Tcl_Interp *)host, TCL_WORK, NULL);
    if ((!results || memory != results + 2) && (!work || memory != work + 2))
        free(memory);
}

static void free_memory(ClientData memory, Tcl_Interp *interp)
{
    (void)interp;
    ckfree(memory);
}

/* SWIG does not free what is made for results in Tcl, so there is one buffer for them in each interpreter, and one for
 * working memory. No script runs between their filling and their reading. */
void *bind_tcl_memory(Tcl_Interp *interp, const char *use, size_t bytes)
{
    size_t *capacity = Tcl_GetAssocData(interp, use, NULL);
    if (!capacity || capacity[0] < bytes) {
        Tcl_DeleteAssocData(interp, use);
        capacity = (size_t *)ckalloc(bytes + 2 * sizeof *capacity);
        capacity[0] = bytes;
        Tcl_SetAssocData(interp, use, free_memory, capacity);
    }
    return capacity + 2;
}

/* ---- errors, arguments, results ---------------------------------------------------------------------------- */

/* errorCode: FERRULE, first word of the status or TYPE, name, code, function, path of the field at fault. */
void host_fail(bind_host *host, const bind_failure *failure)
{
    Tcl_Interp *interp = (Tcl_Interp *)host;
    const int is_type = failure->status == FER_OK;
    const char *name = is_type ? "TYPE" : bind_status_name(failure->status);
    Tcl_Obj *words[] = {
        Tcl_NewStringObj("FERRULE", -1),
        Tcl_NewStringObj(name, (int)strcspn(name, "_")),
        Tcl_NewStringObj(is_type ? "" : name, -1),
        is_type ? Tcl_NewObj() : Tcl_NewIntObj((int)failure->status),
        Tcl_NewStringObj(failure->function, -1),
        Tcl_NewStringObj(failure->path, -1),
    };
    Tcl_SetObjErrorCode(interp, Tcl_NewListObj(6, words));
    Tcl_SetObjResult(interp, Tcl_NewStringObj(failure->message, -1));
}

/* SWIG's form of the arguments: "oo|o:ferrule::crimp_diameter joint compression ?model?" */
int bind_tcl_count(Tcl_Interp *interp, int objc, const char *form)
{
    const int names = (int)strcspn(form, ":"), minimum = (int)strcspn(form, "|:"), given = objc - 1;
    const int maximum = names - (form[minimum] == '|');
    const char *begin = form + names + 1, *end = begin + strcspn(begin, " ");
    char name[80];
    if (given >= minimum && given <= maximum)
        return TCL_OK;
    for (const char *at = begin; at < end; at++)
        if (*at == ':')
            begin = at + 1;
    const size_t length = (size_t)(end - begin) < sizeof name ? (size_t)(end - begin) : sizeof name - 1;
    memcpy(name, begin, length);
    name[length] = 0;
    bind_refuse_count((bind_host *)interp, name, (size_t)given);
    return TCL_ERROR;
}

size_t bind_tcl_arguments(int objc, Tcl_Obj *const objv[], bind_object *list, size_t maximum)
{
    const size_t count = (size_t)(objc - 1) < maximum ? (size_t)(objc - 1) : maximum;
    for (size_t i = 0; i < count; i++)
        list[i] = objv[i + 1];
    return count;
}

/* One result is itself, several are a list. */
void bind_tcl_append(Tcl_Interp *interp, int *count, Tcl_Obj *object)
{
    Tcl_Obj *pair[] = {Tcl_GetObjResult(interp), object};
    if (++*count == 1)
        Tcl_SetObjResult(interp, object);
    else if (*count == 2)
        Tcl_SetObjResult(interp, Tcl_NewListObj(2, pair));
    else {
        Tcl_Obj *all = Tcl_DuplicateObj(pair[0]);
        Tcl_ListObjAppendElement(NULL, all, object);
        Tcl_SetObjResult(interp, all);
    }
}
