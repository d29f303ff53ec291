/* SPDX-License-Identifier: MIT */
#include "typed.h"

#include <stdlib.h>
#include <string.h>

enum { MAXIMUM_VIEWS = 256, MAXIMUM_ARGUMENTS = 32, MAXIMUM_BLOCKS = 16, BUFFER_WORDS = 1024 };

const bind_language host_language = {
    .has_unsigned = 1, .wanted = {"a %s: a value with ", ""}, .style = &bind_plain_style};

typedef enum view_form { NOTHING, VALUE, LIST, TEXT } view_form;

/* Words that are looked at as a value. */
typedef struct view {
    view_form form;
    const bind_kind *kind;   /* of a value, or of each item of a list */
    const int64_t *words;    /* the first of them */
    size_t count;            /* items of a list, bytes of text */
    const bind_member *next; /* the member that begins at `at`: they are asked for in their order */
    const int64_t *at;
    int64_t own; /* the number of an enumerator out of a set */
} view;

/* One call. A thread has one at a time, since the library calls nobody back. */
struct bind_host {
    int is_over, is_failure;
    size_t argument_count, view_count, used; /* used: words of the view */
    bind_object arguments[MAXIMUM_ARGUMENTS];
    view views[MAXIMUM_VIEWS];
    void *blocks[MAXIMUM_BLOCKS]; /* what was allocated */
    int64_t buffer[BUFFER_WORDS];
    int64_t *result; /* short_result, or allocated */
    size_t length, capacity;
    int64_t short_result[BUFFER_WORDS];
};

static _Thread_local bind_host call = {.is_over = 1};
static view nothing = {.form = NOTHING};

/* ---- a call ----------------------------------------------------------------------------------------------- */

void typed_forget(bind_host *host)
{
    if (host->result != host->short_result)
        free(host->result);
    host->result = host->short_result;
    host->capacity = BUFFER_WORDS;
    host->length = 1; /* the first word says how many there are */
}

bind_host *typed_host(void)
{
    if (call.is_over) {
        typed_forget(&call);
        call.is_over = call.is_failure = 0;
        call.argument_count = call.view_count = call.used = 0;
    }
    return &call;
}

void *host_memory(bind_host *host, size_t bytes)
{
    static const bind_failure none = {.function = "", .message = "not enough memory"};
    void *memory = NULL;
    for (size_t i = 0; i < MAXIMUM_BLOCKS && !memory; i++)
        if (!host->blocks[i])
            memory = host->blocks[i] = malloc(bytes);
    if (!memory)
        host_fail(host, &none);
    return memory;
}

void host_give_back(bind_host *host, void *memory)
{
    for (size_t i = 0; i < MAXIMUM_BLOCKS; i++)
        if (memory && host->blocks[i] == memory) {
            free(memory);
            host->blocks[i] = NULL;
        }
}

int64_t *typed_memory(bind_host *host, size_t words)
{
    int64_t *buffer = host->buffer + host->used;
    if (words > BUFFER_WORDS - host->used)
        return host_memory(host, words * sizeof *buffer);
    host->used += words;
    return buffer;
}

typed_words typed_finish(bind_host *host, size_t *length)
{
    const int64_t count = (int64_t)host->length - 1;
    for (size_t i = 0; i < MAXIMUM_BLOCKS; i++)
        if (host->blocks[i])
            host_give_back(host, host->blocks[i]);
    host->result[0] = host->is_failure ? -count : count;
    host->is_over = 1;
    if (length)
        *length = host->length;
    return host->result;
}

static view *new_view(bind_host *host)
{
    if (host->view_count == MAXIMUM_VIEWS)
        return &nothing;
    view *made = &host->views[host->view_count++];
    memset(made, 0, sizeof *made);
    return made;
}

static bind_object next_argument(bind_host *host, view argument)
{
    view *made = new_view(host);
    if (made != &nothing)
        *made = argument;
    if (host->argument_count < MAXIMUM_ARGUMENTS)
        host->arguments[host->argument_count++] = made;
    return made;
}

/* How many words a value of a kind has. */
static size_t size(const bind_kind *kind)
{
    size_t words = !kind->members || kind->form == BIND_FOUND;
    for (const bind_member *m = kind->members; m && m->name; m++)
        words += size(m->kind) * (m->count ? m->count : 1);
    return words;
}

bind_object typed_value(bind_host *host, const bind_kind *kind, typed_words words)
{
    const view value = {.form = words ? VALUE : NOTHING, .kind = kind, .words = words ? words + 1 : NULL};
    return next_argument(host, value);
}

bind_object typed_list(bind_host *host, const bind_kind *kind, typed_words words)
{
    const view list = {.form = words ? LIST : NOTHING,
                       .kind = kind,
                       .words = words ? words + 1 : NULL,
                       .count = words ? (size_t)words[0] / size(kind) : 0};
    return next_argument(host, list);
}

bind_object typed_text(bind_host *host, typed_words words)
{
    const view text = {.form = words ? TEXT : NOTHING,
                       .words = words ? words + 1 : NULL,
                       .count = words ? (size_t)words[0] : 0};
    return next_argument(host, text);
}

size_t typed_arguments(bind_host *host, bind_object *list, size_t maximum)
{
    const size_t count = host->argument_count < maximum ? host->argument_count : maximum;
    memcpy(list, host->arguments, count * sizeof *list);
    return count;
}

/* ---- looking ---------------------------------------------------------------------------------------------- */

static double number_of(int64_t word)
{
    double number;
    memcpy(&number, &word, sizeof number);
    return number;
}

static int is_value(const view *value, bind_form form)
{
    return value->form == VALUE && value->kind->form == form;
}

int host_is_nothing(bind_host *host, bind_object object)
{
    (void)host;
    return ((const view *)object)->form == NOTHING;
}

const bind_kind *host_kind(bind_host *host, bind_object object)
{
    const view *value = object;
    (void)host;
    return value->form == VALUE && (value->kind->members || value->kind->form == BIND_QUANTITY) ? value->kind
                                                                                                : NULL;
}

int host_value(bind_host *host, const bind_kind *kind, bind_object object, void *to)
{
    if (kind->form != BIND_QUANTITY || host_kind(host, object) != kind)
        return 0;
    memcpy(to, ((const view *)object)->words, kind->size);
    return 1;
}

const char *host_text(bind_host *host, bind_object object, size_t *length)
{
    const view *value = object;
    (void)host;
    if (value->form == TEXT) {
        *length = value->count;
        return (const char *)value->words;
    }
    if (!is_value(value, BIND_ENUM))
        return NULL;
    for (const bind_word *word = value->kind->words; word->name; word++)
        if (word->number == *value->words) {
            *length = strlen(word->name);
            return word->name;
        }
    return NULL;
}

int host_number(bind_host *host, bind_object object, double *number)
{
    const view *value = object;
    (void)host;
    if (is_value(value, BIND_NUMBER))
        *number = number_of(*value->words);
    else if (is_value(value, BIND_INTEGER) || is_value(value, BIND_ENUM))
        *number = (double)*value->words;
    else
        return 0;
    return 1;
}

/* Only uint64_t may be above INT64_MAX; a count or place below zero is none. */
int host_integer(bind_host *host, bind_object object, uint64_t *number)
{
    const view *value = object;
    (void)host;
    if (!is_value(value, BIND_INTEGER))
        return 0;
    *number = (uint64_t)*value->words;
    if (*value->words >= 0 || value->kind->is_signed || value->kind->size < 8)
        return 1;
    return value->kind == &bind_kinds[BIND_uint64_t] ? 2 : -1;
}

int host_bool(bind_host *host, bind_object object, int *is_true)
{
    const view *value = object;
    (void)host;
    if (!is_value(value, BIND_BOOL))
        return 0;
    *is_true = *value->words != 0;
    return 1;
}

int host_list(bind_host *host, bind_object *whole, int is_struct, size_t *count)
{
    const view *list = *whole;
    (void)host;
    (void)is_struct;
    *count = list->count;
    if (!is_value(list, BIND_SET))
        return list->form == LIST;
    for (uint64_t bits = (uint64_t)*list->words; bits; bits &= bits - 1)
        ++*count;
    return 1;
}

bind_object host_item(bind_host *host, bind_object object, size_t place)
{
    const view *list = object;
    view *item = new_view(host);
    if (item == &nothing)
        return item;
    item->form = VALUE;
    if (list->form == LIST) {
        item->kind = list->kind;
        item->words = list->words + place * size(list->kind);
        return item;
    }
    uint64_t bits = (uint64_t)*list->words;
    for (; place; place--)
        bits &= bits - 1;
    while (!(bits >> item->own & 1))
        item->own++;
    item->kind = list->kind->element;
    item->words = &item->own;
    return item;
}

int host_table(bind_host *host, bind_object object, const bind_kind *kind)
{
    (void)host;
    (void)object;
    (void)kind;
    return 0;
}

bind_object host_member(bind_host *host, bind_object object, const bind_kind *kind, size_t place)
{
    view *whole = object;
    const char *name = kind->members[place].name;
    const int may_lack = whole->kind->form == BIND_FOUND;
    if (!whole->next || whole->next->name != name) {
        whole->next = whole->kind->members;
        whole->at = whole->words + may_lack;
    }
    for (; whole->next->name; whole->next++) {
        const bind_member *m = whole->next;
        const int64_t *words = whole->at;
        whole->at += size(m->kind) * (m->count ? m->count : 1);
        if (m->name != name)
            continue;
        whole->next++;
        view *member = may_lack && m == whole->kind->members && !*whole->words ? &nothing : new_view(host);
        if (member != &nothing)
            *member =
                (view){.form = m->count ? LIST : VALUE, .kind = m->kind, .words = words, .count = m->count};
        return member;
    }
    return NULL;
}

int host_stranger(bind_host *host, bind_object object, const bind_kind *kind, size_t found, char *name,
                  size_t capacity)
{
    (void)found;
    (void)host;
    (void)object;
    (void)kind;
    (void)name;
    (void)capacity;
    return 0;
}

void host_drop(bind_host *host, bind_object object)
{
    if (object != &nothing)
        host->view_count = (size_t)((view *)object - host->views);
}

const char *host_type(bind_host *host, bind_object object)
{
    return host_is_nothing(host, object) ? "null" : "a value";
}

/* ---- making ----------------------------------------------------------------------------------------------- */

/* Space for more words of the result; NULL: none, and said so. */
static int64_t *more(bind_host *host, size_t words)
{
    if (words > host->capacity - host->length) {
        const size_t capacity = 2 * (host->length + words);
        int64_t *longer = malloc(capacity * sizeof *longer);
        if (!longer)
            abort(); /* no Java and no .NET goes on without memory either */
        memcpy(longer, host->result, host->length * sizeof *longer);
        const size_t length = host->length;
        typed_forget(host);
        host->result = longer;
        host->capacity = capacity;
        host->length = length;
    }
    host->length += words;
    return host->result + host->length - words;
}

static bind_object put(bind_host *host, int64_t word)
{
    *more(host, 1) = word;
    return host;
}

bind_object host_new_number(bind_host *host, double number)
{
    memcpy(more(host, 1), &number, sizeof number);
    return host;
}

bind_object host_new_quantity(bind_host *host, const bind_kind *kind, double base)
{
    (void)kind;
    return host_new_number(host, base);
}

bind_object host_new_integer(bind_host *host, int64_t number)
{
    return put(host, number);
}

bind_object host_new_unsigned(bind_host *host, uint64_t number)
{
    return put(host, (int64_t)number);
}

bind_object host_new_bool(bind_host *host, int is_true)
{
    return put(host, is_true != 0);
}

bind_object host_new_text(bind_host *host, const char *text, size_t length)
{
    put(host, (int64_t)length);
    int64_t *words = more(host, (length + 7) / 8);
    memcpy(words, text, length);
    return host;
}

/* The words of a value; gives what comes behind them. */
static int64_t *write_words(const bind_kind *kind, const char *from, int64_t *to)
{
    switch (kind->form) {
    case BIND_QUANTITY:
    case BIND_NUMBER:
        memcpy(to, from, sizeof *to);
        return to + 1;
    case BIND_ENUM:
    case BIND_BOOL:
        *to = *(const int *)(const void *)from;
        return to + 1;
    case BIND_SET:
        *to = (int64_t) * (const uint64_t *)(const void *)from;
        return to + 1;
    case BIND_INTEGER:
        *to = bind_integer(kind, from);
        return to + 1;
    default:
        break;
    }
    if (kind->form == BIND_FOUND)
        *to++ = bind_is_there(kind, from);
    for (const bind_member *m = kind->members; m->name; m++)
        for (size_t i = 0; i < (m->count ? m->count : 1); i++)
            to = write_words(m->kind, from + m->offset + i * m->kind->size, to);
    return to;
}

bind_object typed_give(bind_host *host, const bind_kind *kind, const void *from)
{
    write_words(kind, from, more(host, size(kind)));
    return host;
}

bind_object typed_give_list(bind_host *host, const bind_kind *kind, const void *from, size_t count)
{
    put(host, (int64_t)count);
    for (size_t i = 0; i < count; i++)
        typed_give(host, kind, (const char *)from + i * kind->size);
    return host;
}

/* give.c makes lists and tables for languages without classes of their own; here nobody asks for them. */
bind_object host_new_word(bind_host *host, const bind_kind *kind, const char *name)
{
    (void)kind;
    return host_new_text(host, name, strlen(name));
}

bind_object host_new_list(bind_host *host)
{
    return host;
}

bind_object host_new_table(bind_host *host, const bind_kind *kind)
{
    (void)kind;
    return host;
}

void host_put_item(bind_host *host, bind_object list, bind_object item)
{
    (void)host;
    (void)list;
    (void)item;
}

void host_put_member(bind_host *host, bind_object table, const char *name, bind_object value)
{
    (void)host;
    (void)table;
    (void)name;
    (void)value;
}

/* ---- errors, text ----------------------------------------------------------------------------------------- */

static void put_text(bind_host *host, const char *text)
{
    host_new_text(host, text, strlen(text));
}

/* Code, class, name, function, path, message. */
void host_fail(bind_host *host, const bind_failure *failure)
{
    char class[32];
    bind_error_class(failure, class, sizeof class);
    typed_forget(host);
    host->is_failure = 1;
    put(host, failure->status);
    put_text(host, class);
    put_text(host, failure->status == FER_OK ? "" : bind_status_name(failure->status));
    put_text(host, failure->function);
    put_text(host, failure->path);
    put_text(host, failure->message);
}

static const bind_kind *find_kind(bind_host *host, const char *name)
{
    static const bind_failure none = {.function = "kind", .message = "there is no kind of value called so"};
    for (const bind_kind *kind = bind_kinds; kind < bind_kinds + BIND_COUNT; kind++)
        if (strcmp(kind->name, name) == 0)
            return kind;
    host_fail(host, &none);
    return NULL;
}

bind_object typed_read(bind_host *host, const char *name, const char *function, const char *argument,
                       typed_words text)
{
    bind_any value;
    const bind_kind *kind = find_kind(host, name);
    if (!kind || bind_take_argument(host, kind, typed_text(host, text), &value, function, argument) < 0)
        return NULL;
    return typed_give(host, kind, &value);
}

bind_object typed_parse(bind_host *host, const char *name, typed_words text, const char *decimal)
{
    return bind_parsed(host, name, typed_text(host, text), decimal);
}

bind_object typed_write(bind_host *host, const char *name, typed_words value, const char *form)
{
    const bind_kind *kind = find_kind(host, name);
    return kind ? bind_written(host, typed_value(host, kind, value), form) : NULL;
}

bind_object typed_number(bind_host *host, const char *name, typed_words value, const char *unit)
{
    const bind_kind *kind = find_kind(host, name);
    return kind ? bind_number(host, typed_value(host, kind, value), unit) : NULL;
}

const char *typed_layout(void)
{
    return typed_layout_text;
}
