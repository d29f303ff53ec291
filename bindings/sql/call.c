/* SPDX-License-Identifier: MIT */
#include "host.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const sql_value nothing = {SQL_NULL, 0, 0, NULL, 0, NULL};

/* ---- the answer ------------------------------------------------------------------------------------------- */

int sql_is_stopped(sql_answer *answer)
{
    answer->stop.stopped = answer->stop.stopped || answer->stop.is_asked(answer->stop.with);
    return answer->stop.stopped;
}

/* The frame and the texts are not cleared here: they are large, and most calls use little of them. */
void host_start(sql_answer *answer, const sql_function *function)
{
    answer->failed = 0;
    answer->status = FER_OK;
    answer->rule = NULL;
    answer->message[0] = 0;
    answer->value = nothing;
    answer->row_count = 0;
    answer->function = function;
    answer->rows = NULL;
    answer->document = NULL;
    answer->list_count = 0;
}

void sql_done(sql_answer *answer)
{
    json_object_put(answer->document);
    answer->document = NULL;
    while (answer->list_count)
        free(answer->lists[--answer->list_count]);
}

void host_refuse(sql_answer *answer, fer_status status, const char *form, ...)
{
    va_list values;
    va_start(values, form);
    vsnprintf(answer->message, sizeof answer->message, form, values);
    va_end(values);
    answer->failed = 1;
    answer->status = status;
    answer->rule = status == FER_OK ? NULL : fer_status_name(status);
}

static sql_value number_value(double number)
{
    sql_value value = nothing;
    value.sort = isfinite(number) ? SQL_NUMBER : SQL_NULL;
    value.number = number;
    return value;
}

static sql_value whole_value(sql_sort sort, int64_t whole)
{
    sql_value value = nothing;
    value.sort = sort;
    value.whole = whole;
    return value;
}

static sql_value text_value(const char *text)
{
    sql_value value = nothing;
    value.sort = SQL_TEXT;
    value.text = text;
    value.length = strlen(text);
    return value;
}

/* ---- arguments -------------------------------------------------------------------------------------------- */

/* What a value is, in few words. */
static void show(const sql_value *value, char *shown, size_t capacity)
{
    switch (value->sort) {
    case SQL_NUMBER:
        snprintf(shown, capacity, "%.15g", value->number);
        break;
    case SQL_WHOLE:
        snprintf(shown, capacity, "%lld", (long long)value->whole);
        break;
    case SQL_BOOL:
        snprintf(shown, capacity, value->whole ? "true" : "false");
        break;
    case SQL_TEXT:
        snprintf(shown, capacity, "'%.*s'", value->length < 60 ? (int)value->length : 60, value->text);
        for (char *at = shown; *at; at++)
            if ((unsigned char)*at < ' ' || (unsigned char)*at >= 0x7F)
                *at = '?';
        break;
    case SQL_ITEMS:
        snprintf(shown, capacity, "an array");
        break;
    default:
        snprintf(shown, capacity, "bytes");
    }
}

static int refuse(bind_host *host, const sql_parameter *p, const sql_value *value, const char *wanted)
{
    char shown[80];
    show(value, shown, sizeof shown);
    host_refuse(host->answer, FER_OK, "%s: %s has to be %s, not %s", host->function->name, p->name, wanted,
                shown);
    return -1;
}

static sql_json *finite_or_word(double number)
{
    return isfinite(number) ? json_object_new_double(number)
                            : json_object_new_string(isnan(number) ? "NaN"
                                                     : number > 0  ? "Infinity"
                                                                   : "-Infinity");
}

static sql_json *as_json(const sql_value *value)
{
    switch (value->sort) {
    case SQL_NUMBER:
        return finite_or_word(value->number);
    case SQL_WHOLE:
        return json_object_new_int64(value->whole);
    case SQL_BOOL:
        return json_object_new_boolean((int)value->whole);
    case SQL_TEXT:
        return value->length < INT32_MAX ? json_object_new_string_len(value->text, (int)value->length) : NULL;
    default:
        return NULL;
    }
}

sql_json *sql_new_items(void)
{
    return json_object_new_array();
}

void sql_add_number(sql_json *items, double number)
{
    json_object_array_add(items, finite_or_word(number));
}

void sql_add_text(sql_json *items, const char *text, size_t length)
{
    json_object_array_add(items, length < INT32_MAX ? json_object_new_string_len(text, (int)length) : NULL);
}

void sql_add_null(sql_json *items)
{
    json_object_array_add(items, NULL);
}

void sql_drop_items(sql_json *items)
{
    json_object_put(items);
}

/* The long way, by the runtime: it takes what can be taken, and says what is wrong with the rest. */
static int take_by_script(bind_host *host, const sql_parameter *p, const sql_value *value, char *to)
{
    sql_json *object = as_json(value);
    const int taken =
        object ? bind_take_argument(host, p->kind, object, to, host->function->library->name, p->name)
               : (host_out_of_memory(host), -1);
    json_object_put(object);
    return taken;
}

static int take_text(bind_host *host, const sql_parameter *p, const sql_value *value, char *to)
{
    double base;
    size_t stop;
    if (value->sort == SQL_TEXT && p->optional && value->length == 0)
        return 0;
    if (value->sort == SQL_TEXT &&
        bind_texts[p->kind - bind_kinds].parse(value->text, value->length, &base, &stop) == FER_OK) {
        memcpy(to, &base, sizeof base);
        return 0;
    }
    return value->sort == SQL_OTHER || value->sort == SQL_ITEMS ? refuse(host, p, value, "text with a unit")
                                                                : take_by_script(host, p, value, to);
}

static int take_number(bind_host *host, const sql_parameter *p, const sql_value *value, char *to)
{
    char wanted[64] = "a number";
    double number = value->number;
    if (value->sort == SQL_TEXT && p->kind->form == BIND_QUANTITY &&
        (sql_gives_status(host->function) || sql_gives_message(host->function)))
        return take_text(host, p, value, to);
    if (value->sort == SQL_WHOLE)
        number = (double)value->whole;
    else if (value->sort != SQL_NUMBER) {
        if (p->kind->form == BIND_QUANTITY)
            snprintf(wanted, sizeof wanted, "a number in the unit %s",
                     bind_units[bind_texts[p->kind - bind_kinds].base].name);
        return refuse(host, p, value, wanted);
    }
    memcpy(to, &number, sizeof number);
    return 0;
}

static int take_word(bind_host *host, const sql_parameter *p, const sql_value *value, char *to)
{
    const bind_word *word =
        value->sort == SQL_TEXT ? bind_find_word(p->kind, value->text, value->length) : NULL;
    if (word)
        memcpy(to, &word->number, sizeof word->number);
    if (word || (value->sort == SQL_TEXT && p->optional && value->length == 0))
        return 0;
    return value->sort == SQL_OTHER || value->sort == SQL_ITEMS ? refuse(host, p, value, "a word")
                                                                : take_by_script(host, p, value, to);
}

/* A number for an item of a list is one in the base unit, where the function takes numbers. */
void host_give_items_units(const bind_kind *kind, sql_json *items)
{
    while (kind->form != BIND_QUANTITY && bind_is_shorthand(kind))
        kind = kind->members->kind;
    if (kind->form != BIND_QUANTITY || !json_object_is_type(items, json_type_array))
        return;
    const fer_unit unit = bind_texts[kind - bind_kinds].base;
    for (size_t i = 0; i < json_object_array_length(items); i++) {
        sql_json *item = json_object_array_get_idx(items, i);
        if (json_object_is_type(item, json_type_double) || json_object_is_type(item, json_type_int))
            json_object_array_put_idx(items, i, host_number_with_unit(json_object_get_double(item), unit));
    }
}

/* All of the text has to be JSON; a number at its end is known to be complete only by a zero byte after it. */
static sql_json *parse_json(json_tokener *tokener, const sql_value *value, size_t *stop)
{
    json_tokener_set_flags(tokener, JSON_TOKENER_STRICT | JSON_TOKENER_VALIDATE_UTF8);
    sql_json *read = json_tokener_parse_ex(tokener, value->text, (int)value->length);
    *stop = json_tokener_get_parse_end(tokener);
    if (json_tokener_get_error(tokener) == json_tokener_continue)
        read = json_tokener_parse_ex(tokener, "", 1);
    return read;
}

/* The members of all objects in JSON that is known to be right: where they begin and end in the text. */
enum { MAXIMUM_DEPTH = 32 };
typedef struct member_reader {
    const char *at, *end;
    const char *name,
        *object; /* of the member that was found last: its name with the quotes, where its object begins */
    size_t name_size;
    const char *begins[MAXIMUM_DEPTH + 1]; /* of the objects and lists that are open */
    int depth;
} member_reader;

static const char *string_end(const char *at, const char *end)
{
    for (at++; at < end && *at != '"'; at++)
        at += *at == '\\' && at + 1 < end;
    return at < end ? at + 1 : end;
}

/* 1: a string that stands at `at` is the name of a member. */
static int take_string(member_reader *reader)
{
    reader->name = reader->at;
    reader->at = string_end(reader->at, reader->end);
    reader->name_size = (size_t)(reader->at - reader->name);
    while (reader->at < reader->end && strchr(" \t\r\n", *reader->at))
        reader->at++;
    reader->object = reader->begins[reader->depth];
    return reader->at < reader->end && *reader->at == ':';
}

static int next_member(member_reader *reader)
{
    while (reader->at < reader->end) {
        const char byte = *reader->at;
        if (byte == '"') {
            if (take_string(reader))
                return 1;
            continue;
        }
        if ((byte == '{' || byte == '[') && reader->depth < MAXIMUM_DEPTH)
            reader->begins[++reader->depth] = reader->at;
        reader->depth -= (byte == '}' || byte == ']') && reader->depth > 0;
        reader->at++;
    }
    return 0;
}

static size_t count_in_text(const sql_value *value)
{
    member_reader reader = {.at = value->text, .end = value->text + value->length};
    size_t count = 0;
    while (next_member(&reader))
        count++;
    return count;
}

static size_t count_in_tree(sql_json *tree)
{
    size_t count = 0;
    if (json_object_is_type(tree, json_type_array))
        for (size_t i = 0; i < json_object_array_length(tree); i++)
            count += count_in_tree(json_object_array_get_idx(tree, i));
    if (json_object_is_type(tree, json_type_object)) {
        json_object_object_foreach(tree, name, member)
        {
            (void)name;
            count += 1 + count_in_tree(member);
        }
    }
    return count;
}

/* JSON-C keeps the last of two members of one name, so that the text has more of them than what was read. */
static void refuse_twice(bind_host *host, const sql_parameter *p, const sql_value *value)
{
    enum {
        SEARCHED = 16384
    }; /* every name is compared with all before it: in more text it would take long */
    member_reader later = {.at = value->text, .end = value->text + value->length};
    while (value->length <= SEARCHED && next_member(&later)) {
        member_reader earlier = {.at = value->text, .end = later.name};
        while (next_member(&earlier))
            if (earlier.object == later.object && earlier.name_size == later.name_size &&
                memcmp(earlier.name, later.name, later.name_size) == 0) {
                host_refuse(host->answer, FER_OK, "%s: %s has %.*s twice in one object", host->function->name,
                            p->name, (int)(later.name_size < 80 ? later.name_size : 80), later.name);
                return;
            }
    }
    /* the same, once with an escape */
    host_refuse(host->answer, FER_OK, "%s: %s has a name twice in one object", host->function->name, p->name);
}

int host_read_json(bind_host *host, const sql_parameter *p, const sql_value *value, sql_json **read)
{
    *read = NULL;
    if (value->sort == SQL_ITEMS) {
        *read = json_object_get(value->items);
        return 0;
    }
    if (value->sort != SQL_TEXT || value->length >= INT32_MAX)
        return refuse(host, p, value, "JSON text");
    json_tokener *tokener = json_tokener_new_ex(MAXIMUM_DEPTH);
    if (!tokener) {
        host_out_of_memory(host);
        return -1;
    }
    size_t stop;
    *read = parse_json(tokener, value, &stop);
    const enum json_tokener_error error = json_tokener_get_error(tokener);
    const int failed = error != json_tokener_success || memchr(value->text, 0, value->length);
    if (failed)
        host_refuse(host->answer, FER_OK, "%s: %s is not JSON: %s (byte %zu)%s", host->function->name,
                    p->name, error == json_tokener_success ? "zero byte" : json_tokener_error_desc(error),
                    stop, p->reads == SQL_READS_JSON ? "" : "; a list is written [..., ...]");
    json_tokener_free(tokener);
    if (failed)
        return -1;
    if (count_in_text(value) == count_in_tree(*read))
        return 0;
    json_object_put(*read);
    *read = NULL;
    refuse_twice(host, p, value);
    return -1;
}

static int take_json(bind_host *host, const sql_parameter *p, const sql_value *value, char *frame, char *to)
{
    sql_json *object;
    int taken = host_read_json(host, p, value, &object);
    if (taken == 0 && p->reads == SQL_READS_JSON) {
        taken = bind_take_argument(host, p->kind, object, to, host->function->library->name, p->name);
    } else if (taken == 0) {
        size_t count;
        if (host->function->shape != SQL_TEXT_FORM)
            host_give_items_units(p->kind, object);
        void *list = bind_take_list(host, p->kind, object, &count, host->function->library->name, p->name);
        memcpy(to, &list, sizeof list);
        memcpy(frame + p->count_offset, &count, sizeof count);
        taken = list ? 0 : -1;
    }
    json_object_put(object);
    return taken;
}

static int take(bind_host *host, const sql_parameter *p, const sql_value *value, char *frame)
{
    char *to = frame + p->offset;
    switch (p->reads) {
    case SQL_READS_NUMBER:
        return take_number(host, p, value, to);
    case SQL_READS_TEXT:
        return take_text(host, p, value, to);
    case SQL_READS_WORD:
        return take_word(host, p, value, to);
    case SQL_READS_WHOLE:
    case SQL_READS_BOOL:
        if (p->kind->size == sizeof(int) && value->sort == SQL_WHOLE && value->whole >= 0 &&
            value->whole <= (p->reads == SQL_READS_BOOL ? 1 : INT32_MAX)) {
            const int whole = (int)value->whole;
            memcpy(to, &whole, sizeof whole);
            return 0;
        }
        return value->sort == SQL_OTHER || value->sort == SQL_ITEMS ? refuse(host, p, value, "a whole number")
                                                                    : take_by_script(host, p, value, to);
    default:
        return take_json(host, p, value, frame, to);
    }
}

/* "fer_crimp_diameter: takes hose_inside, ..., model_flow (may be left out); 2 given" */
static void refuse_count(sql_answer *answer, const sql_function *function, size_t count)
{
    char list[1200] = "";
    size_t used = 0;
    for (size_t i = 0; i < function->parameter_count && used < sizeof list; i++) {
        const char *after = function->parameters[i].optional ? " (may be left out)" : "";
        used += (size_t)snprintf(list + used, sizeof list - used, "%s%s%s", i ? ", " : "",
                                 function->parameters[i].name, after);
    }
    host_refuse(answer, FER_OK, "%s: takes %s; %zu given", function->name, *list ? list : "no argument",
                count);
}

/* 1: all there; 0: the call is NULL; -1: failed. */
static int look_at(const sql_function *function, const sql_value *arguments, size_t count, sql_answer *answer)
{
    size_t given = 0;
    for (size_t i = 0; i < count; i++)
        given += arguments[i].sort != SQL_LEFT_OUT || i >= function->required;
    if (count > function->parameter_count || given < function->required) {
        refuse_count(answer, function, count);
        return -1;
    }
    for (size_t i = 0; i < count; i++)
        if (arguments[i].sort == SQL_NULL)
            return 0;
    return 1;
}

/* ---- results ---------------------------------------------------------------------------------------------- */

static sql_value word_value(const bind_kind *kind, const char *from)
{
    const char *text;
    int number;
    if (!kind) {
        memcpy(&text, from, sizeof text);
        return text_value(text);
    }
    memcpy(&number, from, sizeof number);
    for (const bind_word *word = kind->words; word->name; word++)
        if (word->number == number)
            return text_value(word->name);
    return nothing;
}

static sql_value json_value(sql_answer *answer, sql_json *object)
{
    size_t length;
    json_object_put(answer->document);
    answer->document = object;
    const char *text = json_object_to_json_string_length(
        object, JSON_C_TO_STRING_PLAIN | JSON_C_TO_STRING_NOSLASHESCAPE, &length);
    if (text)
        return text_value(text);
    host_refuse(answer, FER_OK, "%s: not enough memory", answer->function->name);
    return nothing;
}

static sql_value quantity_text(sql_answer *answer, const bind_kind *kind, double base)
{
    size_t length;
    const fer_unit unit = bind_shown_unit(kind);
    return bind_texts[kind - bind_kinds].format(base, unit, FER_SHORTEST, answer->text, sizeof answer->text,
                                                &length) == FER_OK
               ? text_value(answer->text)
               : nothing;
}

static sql_value give(sql_answer *answer, sql_gives gives, const bind_kind *kind, const char *from)
{
    bind_host host = {answer->function, answer};
    double number;
    int truth;
    switch (gives) {
    case SQL_GIVES_NUMBER:
        memcpy(&number, from, sizeof number);
        return number_value(number);
    case SQL_GIVES_TEXT:
        memcpy(&number, from, sizeof number);
        return quantity_text(answer, kind, number);
    case SQL_GIVES_WORD:
        return word_value(kind, from);
    case SQL_GIVES_WHOLE:
        return whole_value(SQL_WHOLE, bind_integer(kind, from));
    case SQL_GIVES_BOOL:
        memcpy(&truth, from, sizeof truth);
        return whole_value(SQL_BOOL, truth != 0);
    default:
        return json_value(answer, bind_give(&host, kind, from));
    }
}

sql_value host_column(sql_answer *answer, const sql_column *column, const char *row)
{
    if (column->found_offset != SQL_ALWAYS) {
        fer_status found;
        memcpy(&found, row + column->found_offset, sizeof found);
        if (found != FER_OK)
            return nothing;
    }
    return give(answer, column->gives, column->kind, row + column->offset);
}

sql_value sql_figure(sql_answer *answer, size_t row, size_t column)
{
    const sql_function *function = answer->function;
    const size_t size = function->rows ? function->rows->kind->size : 0;
    return host_column(answer, &function->columns[column], answer->rows + row * size);
}

static bind_object give_place(bind_host *host, const sql_place *place, const char *frame)
{
    if (!place->count_offset)
        return place->kind ? bind_give(host, place->kind, frame + place->offset) : host_new_text(host, "", 0);
    const void *list;
    size_t count;
    memcpy(&list, frame + place->offset, sizeof list);
    memcpy(&count, frame + place->count_offset, sizeof count);
    return bind_give_list(host, place->kind, list, count);
}

/* One result is itself, several are a table with their names. */
static sql_value give_document(sql_answer *answer, const char *frame)
{
    bind_host host = {answer->function, answer};
    const sql_place *results = answer->function->library->results;
    if (results[0].name && !results[1].name)
        return json_value(answer, give_place(&host, &results[0], frame));
    const bind_object table = host_new_table(&host, NULL);
    for (const sql_place *r = results; r->name; r++)
        host_put_member(&host, table, r->name, give_place(&host, r, frame));
    return json_value(answer, table);
}

/* ---- calls ------------------------------------------------------------------------------------------------ */

/* The message shows the arguments; a list is shown as that word, so it may be empty. */
static void raise(bind_host *host, fer_status status, const char *frame)
{
    const sql_library *library = host->function->library;
    bind_object given[16];
    size_t count = 0;
    for (const sql_place *a = library->arguments; a->name; a++)
        given[count++] = a->count_offset ? host_new_list(host) : bind_give(host, a->kind, frame + a->offset);
    bind_raise(host, library->name, status, given, count);
    while (count)
        json_object_put(given[--count]);
}

static int make_memories(bind_host *host, char *frame)
{
    for (const sql_place *r = host->function->library->results; r->name; r++)
        if (r->count_offset) {
            void *memory = host_memory(host, SQL_MAXIMUM_RESULTS * r->kind->size);
            if (!memory)
                return -1;
            memcpy(frame + r->offset, &memory, sizeof memory);
        }
    return 0;
}

static void give_rows(sql_answer *answer, const char *frame)
{
    const sql_place *rows = answer->function->rows;
    answer->rows = frame;
    answer->row_count = 1;
    if (rows) {
        memcpy(&answer->rows, frame + rows->offset, sizeof answer->rows);
        memcpy(&answer->row_count, frame + rows->count_offset, sizeof answer->row_count);
    }
}

static void run(bind_host *host, char *frame)
{
    const sql_function *function = host->function;
    sql_answer *answer = host->answer;
    if (make_memories(host, frame) < 0)
        return;
    const fer_status status = function->library->call(frame, &answer->stop);
    if (answer->stop.stopped)
        host_refuse(answer, FER_OK, "%s: interrupted", function->name);
    else if (sql_gives_status(function))
        answer->value = text_value(fer_status_name(status));
    else if (status != FER_OK)
        raise(host, status, frame);
    else if (sql_gives_message(function))
        answer->value = nothing;
    else if (function->shape == SQL_ROWS_FORM)
        give_rows(answer, frame);
    else if (function->column_count)
        answer->value = host_column(answer, &function->columns[0], frame);
    else if (function->gives == SQL_GIVES_JSON)
        answer->value = give_document(answer, frame);
    else if (!function->library->results[0].name)
        answer->value = whole_value(SQL_BOOL, 1);
    else
        answer->value = give(answer, function->gives, function->library->results[0].kind,
                             frame + function->library->results[0].offset);
}

static void refuse_unit_text(sql_answer *answer, const sql_value *text, fer_status status, size_t stop)
{
    char shown[80];
    show(text, shown, sizeof shown);
    host_refuse(answer, status, "%s: %s (%s, byte %zu)", answer->function->name, fer_status_sentence(status),
                shown, stop);
}

static int is_sign(const sql_value *value, char sign)
{
    return value->sort == SQL_TEXT && value->length == 1 && value->text[0] == sign;
}

static void read_unit(bind_host *host, const sql_value *arguments, size_t count)
{
    const bind_unit *unit = &bind_units[host->function->unit];
    const bind_text *texts = &bind_texts[unit->kind - bind_kinds];
    const sql_value *text = &arguments[0];
    const int is_comma = count > 1 && is_sign(&arguments[1], ',');
    double base = NAN;
    size_t stop = 0;
    if (count > 1 && !is_comma && !is_sign(&arguments[1], '.')) {
        refuse(host, &host->function->parameters[1], &arguments[1], "'.' or ','");
        return;
    }
    if (text->sort != SQL_TEXT) {
        refuse(host, &host->function->parameters[0], text, "text with a unit");
        return;
    }
    const fer_status status =
        (is_comma ? texts->parse_comma : texts->parse)(text->text, text->length, &base, &stop);
    if (status != FER_OK)
        refuse_unit_text(host->answer, text, status, stop);
    else if (sql_gives_status(host->function))
        host->answer->value = text_value(fer_status_name(FER_OK));
    else if (!sql_gives_message(host->function))
        host->answer->value = number_value(unit->read(base));
}

static void write_unit(bind_host *host, double number, int decimals)
{
    const bind_unit *unit = &bind_units[host->function->unit];
    sql_answer *answer = host->answer;
    size_t length;
    const fer_status status = bind_texts[unit->kind - bind_kinds].format(
        unit->make(number), host->function->unit, decimals, answer->text, sizeof answer->text, &length);
    if (status != FER_OK)
        host_refuse(answer, status, "%s: %s (%.15g, decimals %d)", host->function->name,
                    fer_status_sentence(status), number, decimals);
    else
        answer->value = text_value(answer->text);
}

static void change_unit(bind_host *host, double number)
{
    const bind_unit *unit = &bind_units[host->function->unit];
    const double changed =
        host->function->shape == SQL_UNIT_FROM_BASE ? unit->read(number) : unit->make(number);
    if (!isfinite(changed))
        host_refuse(host->answer, FER_TEXT_VALUE_NOT_FINITE, "%s: %s (%.15g)", host->function->name,
                    fer_status_sentence(FER_TEXT_VALUE_NOT_FINITE), number);
    else
        host->answer->value = number_value(changed);
}

static void call_unit(bind_host *host, const sql_value *arguments, size_t count)
{
    const sql_function *function = host->function;
    int decimals = FER_SHORTEST;
    double number;
    if (function->shape == SQL_UNIT_READ || function->shape == SQL_UNIT_STATUS ||
        function->shape == SQL_UNIT_ERROR) {
        read_unit(host, arguments, count);
        return;
    }
    if (take_number(host, &function->parameters[0], &arguments[0], (char *)&number) < 0)
        return;
    if (count > 1) {
        if (arguments[1].sort != SQL_WHOLE || arguments[1].whole < -128 || arguments[1].whole > 1000) {
            refuse(host, &function->parameters[1], &arguments[1], "a whole number up to 30");
            return;
        }
        decimals = (int)arguments[1].whole;
        decimals = decimals < FER_SHORTEST ? FER_FRACTION(-decimals) : decimals;
    }
    if (function->shape == SQL_UNIT_WRITE)
        write_unit(host, number, decimals);
    else
        change_unit(host, number);
}

/* What stopped a call as the value of one that nothing stops: a status or a message. */
static void settle(const sql_function *function, sql_answer *answer)
{
    if (answer->failed != 1 || answer->stop.stopped ||
        !(sql_gives_status(function) || sql_gives_message(function)))
        return;
    const char *rule = answer->rule ? answer->rule : fer_status_name(FER_ARGUMENT_UNREADABLE);
    answer->failed = 0;
    answer->value = text_value(sql_gives_status(function) ? rule : answer->message);
}

static void call_library(bind_host *host, const sql_value *arguments, size_t count)
{
    const sql_function *function = host->function;
    char *frame = host->answer->frame.bytes;
    memset(frame, 0, function->library->size);
    for (size_t i = 0; i < count; i++)
        if (arguments[i].sort != SQL_LEFT_OUT &&
            take(host, &function->parameters[i], &arguments[i], frame) < 0)
            return;
    run(host, frame);
}

void sql_call(const sql_function *function, const sql_value *arguments, size_t count, sql_answer *answer)
{
    bind_host host = {function, answer};
    host_start(answer, function);
    if (look_at(function, arguments, count, answer) <= 0)
        return;
    if (function->library)
        call_library(&host, arguments, count);
    else
        call_unit(&host, arguments, count);
    settle(function, answer);
}

/* ---- aggregates ------------------------------------------------------------------------------------------- */

/* Then come the frame with all that is no item, and the items. */
struct sql_gathered {
    size_t count, capacity;
    const sql_parameter *null; /* what is for all rows and NULL in all of them */
    int is_begun;
    sql_align frame[];
};

static size_t frame_units(const sql_function *function)
{
    return function->library->size / sizeof(sql_align) + 1;
}

static char *items_of(const sql_function *function, sql_gathered *gathered)
{
    return (char *)(gathered->frame + frame_units(function));
}

static int make_place(const sql_function *function, sql_gathered **gathered, sql_grow grow, void *context)
{
    sql_gathered *old = *gathered;
    const size_t capacity = old ? 2 * old->capacity : 16;
    if (old && old->count < old->capacity)
        return 0;
    sql_gathered *larger = grow(context, old,
                                sizeof *larger + frame_units(function) * sizeof(sql_align) +
                                    capacity * function->items->kind->size);
    if (!larger)
        return -1;
    if (!old) {
        larger->count = 0;
        larger->null = NULL;
        larger->is_begun = 0;
        memset(larger->frame, 0, frame_units(function) * sizeof(sql_align));
    }
    larger->capacity = capacity;
    *gathered = larger;
    return 0;
}

/* The first argument of an item, or of all rows, that is NULL or is not; NULL: there is none. */
static const sql_parameter *find_argument(const sql_function *function, const sql_value *arguments,
                                          size_t count, int of_item, int is_null)
{
    for (size_t i = of_item ? 1 : 0; i < count; i++) {
        const sql_parameter *p = &function->parameters[i];
        const int counts = p->of_item == of_item && (is_null || !p->optional);
        if (counts && (arguments[i].sort == SQL_NULL) == is_null)
            return p;
    }
    return NULL;
}

static int refuse_null(const sql_function *function, const char *null, const char *given, const char *rule,
                       sql_answer *answer)
{
    host_refuse(answer, FER_OK, "%s: %s is NULL where %s is not: %s", function->name, null, given, rule);
    return -1;
}

/* A row does not count where its first figure is NULL, as nothing was measured there; but what is there is not dropped because
 * something beside it is not known. -1: refused. */
static int look_at_null(const sql_function *function, const sql_value *arguments, size_t count,
                        sql_answer *answer)
{
    static const char rule[] = "a row that is to be left out has NULL for both";
    const char *first = function->parameters[0].name;
    const int is_left_out = arguments[0].sort == SQL_NULL;
    const sql_parameter *other = find_argument(function, arguments, count, 1, !is_left_out);
    if (!other)
        return 0;
    return is_left_out ? refuse_null(function, first, other->name, rule, answer)
                       : refuse_null(function, other->name, first, rule, answer);
}

/* What is for all rows is NULL in all of them, and so is the result then, or in none. 1: it is NULL. */
static int look_at_null_of_all(const sql_function *function, sql_gathered *gathered,
                               const sql_value *arguments, size_t count, sql_answer *answer)
{
    const sql_parameter *null = find_argument(function, arguments, count, 0, 1);
    if (!gathered->is_begun)
        gathered->null = null;
    gathered->is_begun = 1;
    if (!null == !gathered->null)
        return null != NULL;
    host_refuse(answer, FER_OK, "%s: %s is for all rows, and NULL in some of them", function->name,
                (null ? null : gathered->null)->name);
    return -1;
}

int sql_gather(const sql_function *function, sql_gathered **gathered, const sql_value *arguments,
               size_t count, sql_grow grow, void *context, sql_answer *answer)
{
    bind_host host = {function, answer};
    const size_t size = function->items->kind->size;
    host_start(answer, function);
    const int there = look_at(function, arguments, count, answer);
    if (there < 0)
        return there;
    if (!there && look_at_null(function, arguments, count, answer) < 0)
        return -1;
    if (arguments[0].sort == SQL_NULL)
        return 0;
    if (make_place(function, gathered, grow, context) < 0) {
        host_out_of_memory(&host);
        return -1;
    }
    const int is_null = look_at_null_of_all(function, *gathered, arguments, count, answer);
    if (is_null)
        return is_null < 0 ? -1 : 0;
    char *item = items_of(function, *gathered) + (*gathered)->count * size;
    memset(item, 0, size);
    for (size_t i = 0; i < count; i++) {
        const sql_parameter *p = &function->parameters[i];
        if (!p->of_item && (*gathered)->count)
            continue;
        if (take(&host, p, &arguments[i], p->of_item ? item : (char *)(*gathered)->frame) < 0)
            return -1;
    }
    (*gathered)->count++;
    return 0;
}

void sql_gathered_call(const sql_function *function, sql_gathered *gathered, sql_answer *answer)
{
    bind_host host = {function, answer};
    host_start(answer, function);
    if (!gathered || !gathered->count)
        return;
    char *frame = answer->frame.bytes;
    const char *items = items_of(function, gathered);
    memcpy(frame, gathered->frame, function->library->size);
    memcpy(frame + function->items->offset, &items, sizeof items);
    memcpy(frame + function->items->count_offset, &gathered->count, sizeof gathered->count);
    run(&host, frame);
}
