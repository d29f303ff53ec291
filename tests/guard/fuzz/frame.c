/* SPDX-License-Identifier: MIT */
#include "frame.h"

#include <float.h>
#include <limits.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#if defined(__SANITIZE_ADDRESS__)
#define GUARD 0
#elif defined(__has_feature)
#if __has_feature(address_sanitizer)
#define GUARD 0
#endif
#endif
#ifndef GUARD
#define GUARD 64
#endif

static const fuzz_frame *current; /* what is shown where a promise is broken */

static void show(const bind_kind *kind, const void *from)
{
    double number;
    uint64_t whole = 0;
    if (kind->form == BIND_QUANTITY || kind->form == BIND_NUMBER) {
        memcpy(&number, from, sizeof number);
        (void)fprintf(stderr, "%.17g", number);
    } else if (kind->members) {
        (void)fprintf(stderr, "{");
        for (const bind_member *m = kind->members; m->name; m++) {
            for (size_t i = 0; i < (m->count < 4 ? m->count + !m->count : 4); i++) {
                (void)fprintf(stderr, " %s ", m->name);
                show(m->kind, (const char *)from + m->offset + i * m->kind->size);
            }
        }
        (void)fprintf(stderr, "}");
    } else {
        memcpy(&whole, from, kind->size); /* the smaller ones in the order of little-endian machines */
        (void)fprintf(stderr, "%lld",
                      (long long)(kind->size == sizeof(int) ? (int64_t)(int32_t)whole : (int64_t)whole));
    }
}

static void show_frame(const fuzz_frame *frame)
{
    (void)fprintf(stderr, "%s, status %d %s\n", frame->call->name, frame->status,
                  fer_status_name((fer_status)frame->status));
    for (const fuzz_parameter *p = frame->call->parameters; p->role; p++) {
        const char *const at = frame->at[p->place];
        const size_t count = p->role == FUZZ_LIST ? frame->counts[p->place] : 1;
        (void)fprintf(stderr, "  %s: ", p->name);
        for (size_t i = 0; at && p->kind && p->role <= FUZZ_LIST && i < (count < 20 ? count : 20); i++) {
            show(p->kind, at + i * p->kind->size);
        }
        (void)fprintf(stderr, at ? "\n" : "NULL\n");
    }
}

void fuzz_broken(const char *file, int line, const char *function, const char *promise)
{
    (void)fprintf(stderr, "%s:%d: %s broke a promise: %s\n", file, line, function, promise);
    if (current) {
        show_frame(current);
    }
    abort();
}

/* ---- memory ----------------------------------------------------------------------------------------------- */

void *fuzz_take(size_t size)
{
    unsigned char *const block = size < (size_t)1 << 30 ? malloc(size + GUARD + !(size + GUARD)) : NULL;
    FUZZ_REQUIRE(block, "malloc");
    memset(block + size, 0x77, GUARD);
    return block;
}

void fuzz_give_back(void *block, size_t size, const char *function)
{
    for (size_t i = 0; block && i < GUARD; i++) {
        FUZZ_REQUIRE(((unsigned char *)block)[size + i] == 0x77, function);
    }
    free(block);
}

static void *take_input(fuzz_frame *frame, size_t size)
{
    FUZZ_REQUIRE(frame->input_count < FUZZ_BLOCKS, frame->call->name);
    fuzz_block *const block = &frame->inputs[frame->input_count++];
    *block = (fuzz_block){fuzz_take(size), NULL, size};
    memset(block->data, 0, size);
    return block->data;
}

static void *take_result(fuzz_frame *frame, size_t size)
{
    FUZZ_REQUIRE(frame->result_count < FUZZ_BLOCKS, frame->call->name);
    fuzz_block *const block = &frame->results[frame->result_count++];
    *block = (fuzz_block){fuzz_take(size), fuzz_take(size), size};
    return block->data;
}

static void free_frame(fuzz_frame *frame)
{
    for (size_t i = 0; i < frame->input_count; i++) {
        fuzz_give_back(frame->inputs[i].data, frame->inputs[i].size, frame->call->name);
        free(frame->inputs[i].copy);
    }
    for (size_t i = 0; i < frame->result_count; i++) {
        fuzz_give_back(frame->results[i].data, frame->results[i].size, frame->call->name);
        fuzz_give_back(frame->results[i].copy, frame->results[i].size, frame->call->name);
    }
    free(frame);
}

/* ---- numbers out of bytes ----------------------------------------------------------------------------------- */

uint8_t fuzz_byte(fuzz_stream *stream)
{
    return stream->at < stream->size ? stream->data[stream->at++] : 0;
}

static void take_bytes(fuzz_stream *stream, void *to, size_t size)
{
    for (size_t i = 0; i < size; i++) {
        ((uint8_t *)to)[i] = fuzz_byte(stream);
    }
}

static double signed_byte(fuzz_stream *stream)
{
    return (double)fuzz_byte(stream) - 128.0;
}

static double from_two(fuzz_stream *stream)
{
    const unsigned high = fuzz_byte(stream);
    return (double)(high << 8 | fuzz_byte(stream)) / 65535.0;
}

static double special(uint8_t choice)
{
    static const double numbers[] = {NAN,
                                     INFINITY,
                                     -INFINITY,
                                     -0.0,
                                     DBL_MIN,
                                     DBL_MAX,
                                     -DBL_MAX,
                                     5e-324,
                                     -5e-324,
                                     DBL_MIN / 3.,
                                     1e308,
                                     1e300,
                                     1e-300,
                                     1e150,
                                     1e-150,
                                     DBL_EPSILON,
                                     1.0,
                                     -1.0,
                                     0.5,
                                     1e6,
                                     1e15,
                                     9.007199254740992e15,
                                     4503599627370497.5,
                                     1e-3,
                                     -1e6,
                                     2.0,
                                     4294967296.,
                                     1e19,
                                     -1e19,
                                     0.001,
                                     1e4,
                                     -NAN};
    return numbers[choice % (sizeof numbers / sizeof *numbers)];
}

static double earlier(const fuzz_stream *stream, uint8_t back)
{
    return stream->count > 0 ? stream->before[(stream->count - 1 - back % stream->count) % FUZZ_BEFORE] : 1.0;
}

static double beside(double number, uint8_t steps)
{
    for (int i = 0; i < steps % 8; i++) {
        number = nextafter(number, steps & 8 ? -INFINITY : INFINITY);
    }
    return number;
}

static double within(fuzz_stream *stream, fuzz_limits limits)
{
    const double share = from_two(stream);
    if (limits.lower > 0.0 && limits.upper > 100.0 * limits.lower) {
        return limits.lower * pow(limits.upper / limits.lower, share);
    }
    return limits.lower + share * (limits.upper - limits.lower);
}

static double at_an_edge(fuzz_stream *stream, fuzz_limits limits)
{
    const uint8_t choice = fuzz_byte(stream);
    return beside(choice & 16 ? limits.upper : limits.lower, choice);
}

/* A number of earlier ones: limits are often sums and differences of others. */
static double combined(fuzz_stream *stream)
{
    const uint8_t choice = fuzz_byte(stream);
    const double one = earlier(stream, choice & 7), other = earlier(stream, choice >> 3 & 7);
    static const double factors[] = {1.0, -1.0, 2.0, -2.0};
    return one + factors[choice >> 6] * other;
}

static double other_number(fuzz_stream *stream, fuzz_limits limits, uint8_t way)
{
    double number;
    switch (way) {
    case 6:
        take_bytes(stream, &number, sizeof number);
        return number;
    case 7:
        return special(fuzz_byte(stream));
    case 8:
        return earlier(stream, fuzz_byte(stream));
    case 9:
        number = earlier(stream, fuzz_byte(stream));
        return beside(number, fuzz_byte(stream));
    case 10:
        number = earlier(stream, fuzz_byte(stream));
        return number * (1.0 + signed_byte(stream) / 1000.0);
    case 11:
        return combined(stream);
    case 12:
        return signed_byte(stream);
    case 13:
        return floor((from_two(stream) - 0.25) * 65535.0) / 1000.0;
    case 14:
        return 0.0;
    default:
        return -limits.usual;
    }
}

double fuzz_number(fuzz_stream *stream, fuzz_limits limits, int may_be_zero)
{
    const uint8_t way = fuzz_byte(stream) % 16;
    double number = limits.usual;
    if (way == 0) {
        number = may_be_zero ? 0.0 : limits.usual;
    } else if (way == 2) {
        number *= 1.0 + signed_byte(stream) / 256.0;
    } else if (way == 3) {
        number *= 1.0 + (from_two(stream) - 0.5) / 500.0;
    } else if (way == 4) {
        number = within(stream, limits);
    } else if (way == 5) {
        number = at_an_edge(stream, limits);
    } else if (way > 5) {
        number = other_number(stream, limits, way);
    }
    stream->before[stream->count++ % FUZZ_BEFORE] = number;
    return number;
}

static uint64_t whole_number(fuzz_stream *stream, fuzz_limits limits, int may_be_zero)
{
    static const uint64_t specials[] = {UINT64_MAX,
                                        INT64_MAX,
                                        (uint64_t)INT64_MIN,
                                        UINT32_MAX,
                                        INT_MAX,
                                        0x80000000u,
                                        0x100000000u,
                                        (uint64_t)1 << 40,
                                        (uint64_t)1 << 53,
                                        1000001,
                                        (uint64_t)-2,
                                        3,
                                        64,
                                        2,
                                        65,
                                        16};
    const uint8_t way = fuzz_byte(stream) % 8;
    uint64_t number = 0;
    if (way == 0) {
        return may_be_zero ? 0 : (uint64_t)(int64_t)limits.usual;
    }
    if (way == 2 || way == 3) {
        return fuzz_byte(stream) % (way == 2 ? 10u : 256u);
    }
    if (way == 4) {
        return specials[fuzz_byte(stream) % 16];
    }
    if (way == 5) {
        return (uint64_t) - (int64_t)fuzz_byte(stream);
    }
    if (way == 6) {
        take_bytes(stream, &number, 2);
        return number;
    }
    if (way == 7) {
        take_bytes(stream, &number, sizeof number);
        return number;
    }
    return (uint64_t)(int64_t)limits.usual;
}

static int some_word(fuzz_stream *stream, const bind_kind *kind)
{
    const uint8_t way = fuzz_byte(stream);
    int words = 0, number = 0;
    while (kind->words[words].name) {
        words++;
    }
    if (way < 200) {
        return kind->words[way % words].number;
    }
    take_bytes(stream, &number, way < 240 ? 1 : sizeof number);
    return way < 220 ? -number : number;
}

/* Result of another call, as in life; 0 where that fails. */
static int made_by_call(fuzz_stream *stream, const bind_kind *kind, void *to);

static void fill_members(fuzz_stream *stream, const bind_kind *kind, void *to)
{
    const fuzz_limits *const limits = fuzz_member_limits[kind - bind_kinds];
    for (const bind_member *m = kind->members; m->name; m++) {
        for (size_t i = 0; i < (m->count ? m->count : 1); i++) {
            fuzz_fill(stream, m->kind, limits[m - kind->members], m->optional,
                      (char *)to + m->offset + i * m->kind->size);
        }
    }
}

static void fill_struct(fuzz_stream *stream, const bind_kind *kind, int may_be_zero, void *to)
{
    const uint8_t way = fuzz_byte(stream) % 32;
    if (way == 31 || (way == 0 && may_be_zero)) {
        memset(to, 0, kind->size);
    } else if (way == 30) {
        take_bytes(stream, to, kind->size);
    } else if (way >= 16 || !made_by_call(stream, kind, to)) {
        fill_members(stream, kind, to);
    }
}

void fuzz_fill(fuzz_stream *stream, const bind_kind *kind, fuzz_limits limits, int may_be_zero, void *to)
{
    double number;
    int word;
    switch (kind->form) {
    case BIND_QUANTITY:
    case BIND_NUMBER:
        number = fuzz_number(stream, limits, may_be_zero);
        memcpy(to, &number, sizeof number);
        break;
    case BIND_STRUCT:
    case BIND_FOUND:
        fill_struct(stream, kind, may_be_zero, to);
        break;
    case BIND_ENUM:
        word = some_word(stream, kind);
        memcpy(to, &word, sizeof word);
        break;
    case BIND_BOOL:
        word = fuzz_byte(stream);
        word = word < 250 ? word % 2 : word - 253;
        memcpy(to, &word, sizeof word);
        break;
    case BIND_SET:
        take_bytes(stream, to, kind->size);
        break;
    case BIND_INTEGER:
        bind_store_integer(kind, whole_number(stream, limits, may_be_zero), to);
        break;
    default:
        abort();
    }
}

/* Numbers of blocks that would run for hours become small ones. */
static void hurry(const fuzz_frame *frame, const fuzz_parameter *p)
{
    fer_trials *const trials = frame->at[p->place];
    if (p->kind == &bind_kinds[BIND_fer_trials]) {
        trials->blocks = trials->blocks <= (uint64_t)1 << 40 ? trials->blocks % 3 : trials->blocks;
        if (trials->blocks == 0 && strcmp(frame->call->name, "simulate_to_digits") == 0) {
            trials->blocks = 2;
        }
    }
}

/* ---- arguments -------------------------------------------------------------------------------------------- */

static size_t some_count(fuzz_stream *stream)
{
    const uint8_t way = fuzz_byte(stream);
    if (way == 0) {
        return 3;
    }
    if (way < 220) {
        return way % 12;
    }
    return way < 250 ? fuzz_byte(stream) : 996 + (size_t)way - 250;
}

int fuzz_goes_by_blocks(const fuzz_call *call)
{
    return strcmp(call->name, "crimp_diameters") == 0 || strcmp(call->name, "compressions") == 0;
}

/* Rows: few, or about the size of a block and about the number from which on other instructions are taken. What goes row by row
 * in any case gets fewer, to save time. */
static size_t some_rows(fuzz_stream *stream, const fuzz_call *call)
{
    static const size_t edges[] = {128, 256, 512, 1024, 16384, 16384, 32768, 49152};
    const size_t few = some_count(stream);
    if (few < 996) {
        return few % 67;
    }
    const size_t edge = edges[fuzz_byte(stream) % 8], past = fuzz_byte(stream);
    return (edge > 1024 && !fuzz_goes_by_blocks(call) ? 1024 : edge) + (past < 128 ? past % 3 : past % 64) -
           1;
}

/* Of many rows most have been there before, not in any order that could hide that two were mixed up. */
static size_t row_before(size_t row, size_t made)
{
    return (row * 2654435761U >> 7) % made;
}

/* The elements of a list; where the input has ended they are repeated. */
static void fill_list(fuzz_stream *stream, const bind_kind *kind, fuzz_limits limits, size_t count,
                      unsigned char *to)
{
    for (size_t i = 0; i < count; i++) {
        if (i > 1 && stream->at >= stream->size) {
            memcpy(to + i * kind->size, to + i / 2 * kind->size, kind->size);
        } else {
            fuzz_fill(stream, kind, limits, 0, to + i * kind->size);
        }
    }
}

static void make_list(fuzz_stream *stream, fuzz_frame *frame, const fuzz_parameter *p)
{
    size_t count = some_count(stream), capacity;
    const uint8_t way = fuzz_byte(stream);
    void *list;
    if (way == 255) { /* no list: only right where it has no elements */
        count = fuzz_byte(stream) % 2 * count;
        frame->is_null |= count > 0;
        list = NULL;
    } else {
        const int is_huge = way == 254 && p->has_limit;
        capacity = is_huge ? 1 : count;
        list = take_input(frame, capacity * p->kind->size);
        fill_list(stream, p->kind, p->limits, capacity, list);
        count = is_huge ? SIZE_MAX - fuzz_byte(stream) : count;
        frame->is_null |= is_huge; /* has to be refused */
    }
    frame->at[p->place] = list;
    frame->counts[p->place] = count;
    frame->at[p->place + 1] = &frame->counts[p->place];
}

/* Of many rows a few that stand alone: at the ends of blocks, or anywhere. */
static void change_some_rows(fuzz_stream *stream, const fuzz_column *column, size_t rows, size_t width,
                             unsigned char *first)
{
    for (int times = rows > 100 ? fuzz_byte(stream) % 4 : 0; times > 0; times--) {
        const size_t way = fuzz_byte(stream),
                     row = way < 128 ? way / 2 * 128 + (way % 2 ? 127 : 0) : way * way * 31;
        unsigned char number[sizeof(double)];
        fuzz_fill(stream, column->kind, column->limits, 0, number);
        memcpy(first + row % rows * width, number, sizeof number);
    }
}

static void make_column(fuzz_stream *stream, fuzz_frame *frame, const fuzz_column *column, void *to)
{
    static const ptrdiff_t steps[] = {0, 0, 8, 16, 9, 11, 8, 40};
    const uint8_t choice = fuzz_byte(stream), way = choice % 16;
    const int is_same = way == 15, is_absent = way == 14 || (column->may_be_zero && choice >= 96);
    const ptrdiff_t step = steps[way % 8];
    const size_t width = step ? (size_t)step : column->kind->size, rows = is_same ? 1 : frame->rows;
    const size_t size = rows > 0 ? (rows - 1) * width + column->kind->size : 0, shift = way % 8 == 6 ? 3 : 0;
    fer_length_column made = {NULL, step, is_same};
    if (!is_absent) {
        unsigned char *const first = (unsigned char *)take_input(frame, size + shift) + shift;
        unsigned char number[sizeof(double)];
        size_t filled = 0;
        for (size_t i = 0; i < rows; i++) {
            if (i < 2 || (i < 67 && stream->at < stream->size)) {
                fuzz_fill(stream, column->kind, column->limits, 0, number);
                filled++;
            } else {
                memcpy(number, first + row_before(i, filled) * width, sizeof number);
            }
            memcpy(first + i * width, number, sizeof number);
        }
        change_some_rows(stream, column, rows, width, first);
        made.first = (const fer_length *)(const void *)first;
        if (way >= 8 && step && rows > 0) { /* from the last row to the first */
            made.first = (const fer_length *)(const void *)(first + (rows - 1) * width);
            made.step = -step;
        }
    }
    memcpy((char *)to + column->offset, &made, sizeof made);
}

static void make_columns(fuzz_stream *stream, fuzz_frame *frame, const fuzz_parameter *p)
{
    void *const columns = take_input(frame, p->columns_size);
    for (const fuzz_column *column = p->columns; column->kind; column++) {
        fuzz_column with_limits = *column;
        if (column->limits.upper == 0.0) {
            with_limits.limits = p->limits;
        }
        make_column(stream, frame, &with_limits, columns);
    }
    frame->at[p->place] = columns;
}

static void make_memory(fuzz_stream *stream, fuzz_frame *frame, const fuzz_parameter *p)
{
    const uint8_t way = fuzz_byte(stream);
    frame->counts[p->place] = way == 0 ? 64 : way < 128 ? way : (size_t)way * 8;
    frame->at[p->place] = take_result(frame, frame->counts[p->place] * p->kind->size);
    frame->at[p->place + 1] = &frame->counts[p->place];
    frame->at[p->place + 2] = take_result(frame, sizeof(size_t));
}

/* Working memory: too little, about enough for a small case, plenty. */
static void make_work(fuzz_stream *stream, fuzz_frame *frame, const fuzz_parameter *p)
{
    const uint8_t way = fuzz_byte(stream);
    frame->counts[p->place] = way < 64 ? 65536 : way < 128 ? (size_t)way * 4 : (size_t)way * 64;
    frame->at[p->place] = take_result(frame, frame->counts[p->place] * sizeof(fer_work));
    frame->at[p->place + 1] = &frame->counts[p->place];
}

static void make_argument(fuzz_stream *stream, fuzz_frame *frame, const fuzz_parameter *p)
{
    switch (p->role) {
    case FUZZ_VALUE:
    case FUZZ_INPUT:
        frame->at[p->place] = take_input(frame, p->kind->size);
        fuzz_fill(stream, p->kind, p->limits, p->may_be_empty && p->role == FUZZ_VALUE, frame->at[p->place]);
        hurry(frame, p);
        break;
    case FUZZ_LIST:
        make_list(stream, frame, p);
        break;
    case FUZZ_ROWS:
        frame->rows = some_rows(stream, frame->call);
        frame->at[p->place] = &frame->rows;
        break;
    case FUZZ_COLUMNS:
    case FUZZ_COLUMNS_POINTER:
        make_columns(stream, frame, p);
        break;
    case FUZZ_RESULT:
    case FUZZ_RETURN:
        frame->at[p->place] = take_result(frame, p->kind->size);
        break;
    case FUZZ_ROW_RESULT:
        frame->at[p->place] = take_result(frame, frame->rows * p->kind->size);
        break;
    case FUZZ_WORK:
        make_work(stream, frame, p);
        break;
    case FUZZ_CAPACITY:
        make_memory(stream, frame, p);
        break;
    }
}

static int is_pointer(const fuzz_parameter *p)
{
    return p->role != FUZZ_VALUE && p->role != FUZZ_COLUMNS && p->role != FUZZ_ROWS &&
           p->role != FUZZ_RETURN && p->role != FUZZ_LIST;
}

/* Leaves a pointer out. */
static void leave_out(fuzz_stream *stream, fuzz_frame *frame)
{
    int count = 0;
    const fuzz_parameter *p = frame->call->parameters;
    while (p[count].role) {
        count++;
    }
    p += fuzz_byte(stream) % (count > 0 ? count : 1);
    if (count > 0 && is_pointer(p)) {
        frame->at[p->role == FUZZ_CAPACITY && fuzz_byte(stream) % 2 ? p->place + 2 : p->place] = NULL;
        frame->is_null |= !p->may_be_null;
    }
}

static fuzz_frame *make_frame(fuzz_stream *stream, const fuzz_call *call)
{
    fuzz_frame *const frame = calloc(1, sizeof *frame);
    FUZZ_REQUIRE(frame, "calloc");
    frame->call = call;
    const uint8_t way = fuzz_byte(stream);
    for (const fuzz_parameter *p = call->parameters; p->role; p++) {
        make_argument(stream, frame, p);
    }
    if (way >= 0xF8) {
        leave_out(stream, frame);
    }
    for (size_t i = 0; i < frame->input_count; i++) {
        fuzz_block *const block = &frame->inputs[i];
        block->copy = malloc(block->size + 1);
        FUZZ_REQUIRE(block->copy, "malloc");
        memcpy(block->copy, block->data, block->size);
    }
    return frame;
}

static int made_by_call(fuzz_stream *stream, const bind_kind *kind, void *to)
{
    const fuzz_maker *const maker = &fuzz_makers[kind - bind_kinds];
    if (!maker->call || stream->depth > 1) {
        return 0;
    }
    stream->depth++;
    fuzz_frame *const frame = make_frame(stream, maker->call);
    stream->depth--;
    frame->call->run(frame->at, &frame->status, &frame->failed, &(const char *){NULL});
    const void *const made = frame->at[maker->call->parameters[maker->parameter].place];
    const int done = frame->status == FER_OK && made;
    if (done) {
        memcpy(to, made, kind->size);
    }
    free_frame(frame);
    return done;
}

/* ---- promises --------------------------------------------------------------------------------------------- */

static int number_of(const void *from)
{
    int number;
    memcpy(&number, from, sizeof number);
    return number;
}

static int is_word(const bind_kind *kind, int number)
{
    const bind_word *word = kind->words;
    while (word->name && word->number != number) {
        word++;
    }
    return word->name != NULL;
}

static uint64_t bits_of(const bind_kind *element)
{
    uint64_t bits = 0;
    for (const bind_word *word = element->words; word->name; word++) {
        bits |= UINT64_C(1) << word->number;
    }
    return bits;
}

static int is_finite_at(const void *from)
{
    double number;
    memcpy(&number, from, sizeof number);
    return isfinite(number);
}

typedef int rule(const bind_kind *kind, const void *from);

static int for_members(rule *holds, const bind_kind *kind, const void *from)
{
    for (const bind_member *m = kind->members; m->name; m++) {
        const int may_be_nan =
            kind->form == BIND_STRUCT && (strstr(m->text, "NaN") || strstr(m->text, "as given"));
        for (size_t i = 0; i < (m->count ? m->count : 1); i++) {
            if (!holds(m->kind, (const char *)from + m->offset + i * m->kind->size) && !may_be_nan) {
                (void)fprintf(stderr, "%s.%s ", kind->name, m->name);
                show(m->kind, (const char *)from + m->offset + i * m->kind->size);
                (void)fprintf(stderr, "; ");
                return 0;
            }
        }
    }
    return 1;
}

/* Empty: NaN, in a struct also 0, words of no meaning, no index beyond a list. */
static int is_empty_member(const bind_kind *kind, const void *from)
{
    double number;
    switch (kind->form) {
    case BIND_QUANTITY:
    case BIND_NUMBER:
        memcpy(&number, from, sizeof number);
        return isnan(number) || number == 0.0;
    case BIND_STRUCT:
        return for_members(is_empty_member, kind, from);
    case BIND_FOUND: /* its status may say why */
        return is_empty_member(kind->members[0].kind, from) &&
               is_word(&bind_kinds[BIND_fer_status], number_of((const char *)from + kind->members[1].offset));
    case BIND_ENUM:
        return is_word(kind, number_of(from));
    case BIND_BOOL:
    case BIND_SET:
        return number_of(from) == 0;
    default:
        return kind->size != sizeof(int) || number_of(from) == 0 || number_of(from) == -1;
    }
}

static int is_empty(const bind_kind *kind, const void *from)
{
    double number;
    if (kind->form == BIND_QUANTITY || kind->form == BIND_NUMBER) {
        memcpy(&number, from, sizeof number);
        return isnan(number);
    }
    return is_empty_member(kind, from);
}

/* Sound: finite numbers, known words, and a value that is not there is empty. */
static int is_sound(const bind_kind *kind, const void *from)
{
    const bind_member *m = kind->members;
    switch (kind->form) {
    case BIND_QUANTITY:
    case BIND_NUMBER:
        return is_finite_at(from);
    case BIND_ENUM:
        return is_word(kind, number_of(from));
    case BIND_BOOL:
        return number_of(from) == 0 || number_of(from) == 1;
    case BIND_SET:
        return ((uint64_t)number_of(from) & ~bits_of(kind->element)) == 0;
    case BIND_FOUND:
        return number_of((const char *)from + m[1].offset) == FER_OK
                   ? for_members(is_sound, kind, from)
                   : is_empty(m->kind, from) &&
                         is_word(m[1].kind, number_of((const char *)from + m[1].offset));
    case BIND_STRUCT:
        return for_members(is_sound, kind, from);
    default:
        return 1;
    }
}

/* Equal in all bits that are not padding. */
static int is_equal(const bind_kind *kind, const char *one, const char *other)
{
    if (!kind->members) {
        return memcmp(one, other, kind->size) == 0;
    }
    for (const bind_member *m = kind->members; m->name; m++) {
        for (size_t i = 0; i < (m->count ? m->count : 1); i++) {
            const size_t at = m->offset + i * m->kind->size;
            if (!is_equal(m->kind, one + at, other + at)) {
                (void)fprintf(stderr, "%s.%s: ", kind->name, m->name);
                return 0;
            }
        }
    }
    return 1;
}

int fuzz_is_equal(const bind_kind *kind, const void *one, const void *other)
{
    return is_equal(kind, one, other);
}

static const fuzz_block *block_of(const fuzz_frame *frame, const void *data)
{
    for (size_t i = 0; data && i < frame->result_count; i++) {
        if (frame->results[i].data == data) {
            return &frame->results[i];
        }
    }
    return NULL;
}

static size_t found_of(const fuzz_frame *frame, const fuzz_parameter *p)
{
    size_t found = 0;
    if (frame->at[p->place + 2]) {
        memcpy(&found, frame->at[p->place + 2], sizeof found);
    }
    return found;
}

/* Number of elements of a result that are written; -1: none was wanted. */
static ptrdiff_t written_count(const fuzz_frame *frame, const fuzz_parameter *p)
{
    if (p->role < FUZZ_RESULT || !frame->at[p->place]) {
        return -1;
    }
    return p->role == FUZZ_CAPACITY     ? (ptrdiff_t)found_of(frame, p)
           : p->role == FUZZ_ROW_RESULT ? (ptrdiff_t)frame->rows
                                        : 1;
}

static void run_with(fuzz_frame *frame, int pattern, int *status, size_t *failed, const char **text)
{
    for (size_t i = 0; i < frame->result_count; i++) {
        memset(frame->results[i].data, pattern, frame->results[i].size);
    }
    *status = FER_OK;
    *failed = 0;
    frame->call->run(frame->at, status, failed, text);
    for (size_t i = 0; i < frame->input_count; i++) {
        FUZZ_REQUIRE(memcmp(frame->inputs[i].data, frame->inputs[i].copy, frame->inputs[i].size) == 0,
                     frame->call->name);
    }
}

/* The same call with other bytes in the results: what differs then was not written, or depends on something else. */
static void run_twice(fuzz_frame *frame)
{
    const char *text = NULL, *again_text = NULL, *const name = frame->call->name;
    int status;
    size_t failed;
    run_with(frame, 0x5A, &status, &failed, &again_text);
    for (size_t i = 0; i < frame->result_count; i++) {
        memcpy(frame->results[i].copy, frame->results[i].data, frame->results[i].size);
    }
    run_with(frame, 0xA5, &frame->status, &frame->failed, &text);
    FUZZ_REQUIRE(frame->status == status && frame->failed == failed && text == again_text, name);
    if (frame->call->gives_text) {
        FUZZ_REQUIRE(text && strlen(text) < 1000, name);
    }
    for (const fuzz_parameter *p = frame->call->parameters; p->role; p++) {
        const ptrdiff_t count = written_count(frame, p);
        if (p->role == FUZZ_CAPACITY && frame->at[p->place + 2]) {
            FUZZ_REQUIRE(memcmp(frame->at[p->place + 2], block_of(frame, frame->at[p->place + 2])->copy,
                                sizeof(size_t)) == 0,
                         name);
            FUZZ_REQUIRE(found_of(frame, p) <= frame->counts[p->place], name);
        }
        for (ptrdiff_t i = 0; i < count; i++) {
            const size_t at = (size_t)i * p->kind->size;
            FUZZ_REQUIRE(is_equal(p->kind, (const char *)frame->at[p->place] + at,
                                  (const char *)block_of(frame, frame->at[p->place])->copy + at),
                         name);
        }
    }
}

static int is_allowed(const fuzz_call *call, int status)
{
    if (!call->statuses) {
        return is_word(&bind_kinds[BIND_fer_status], status);
    }
    const int *allowed = call->statuses;
    while (*allowed >= 0 && *allowed != status) {
        allowed++;
    }
    return *allowed == status;
}

/* A result that repeats a struct of the caller's is as sound as what it repeats. */
static int repeats_what_is_unsound(const fuzz_frame *frame)
{
    if (strcmp(frame->call->name, "confirm_setup") != 0) {
        return 0;
    }
    const fuzz_parameter *setup = frame->call->parameters; /* the first one */
    return frame->at[setup->place] && !is_sound(setup->kind, frame->at[setup->place]);
}

static void check_status(const fuzz_frame *frame)
{
    if (!is_allowed(frame->call, frame->status)) {
        (void)fprintf(stderr, "status %d %s: ", frame->status, fer_status_name((fer_status)frame->status));
        fuzz_broken(__FILE__, __LINE__, frame->call->name, "only statuses that its comment names");
    }
    FUZZ_REQUIRE(!frame->is_null || frame->status != FER_OK, frame->call->name);
    for (const fuzz_parameter *p = frame->call->parameters; p->role; p++) {
        if (p->role == FUZZ_RESULT && frame->at[p->place] && frame->status == FER_OK) {
            FUZZ_REQUIRE(is_sound(p->kind, frame->at[p->place]) || repeats_what_is_unsound(frame),
                         frame->call->name);
        } else if (p->role == FUZZ_RESULT && frame->at[p->place]) {
            FUZZ_REQUIRE(is_empty(p->kind, frame->at[p->place]), frame->call->name);
        } else if (p->role == FUZZ_CAPACITY) {
            FUZZ_REQUIRE(frame->status == FER_OK || found_of(frame, p) == 0, frame->call->name);
            for (size_t i = 0; frame->at[p->place] && i < found_of(frame, p); i++) {
                FUZZ_REQUIRE(is_sound(p->kind, (const char *)frame->at[p->place] + i * p->kind->size),
                             frame->call->name);
            }
        }
    }
}

/* Rows: the failed ones are counted and empty, the others are sound. */
static void check_rows(const fuzz_frame *frame)
{
    const fuzz_parameter *result = NULL, *statuses = NULL;
    size_t failed = 0;
    for (const fuzz_parameter *p = frame->call->parameters; p->role; p++) {
        result = p->role == FUZZ_ROW_RESULT && !p->may_be_null ? p : result;
        statuses = p->role == FUZZ_ROW_RESULT && p->may_be_null ? p : statuses;
    }
    if (!result || !statuses || !frame->at[statuses->place]) {
        return;
    }
    for (size_t i = 0; frame->at[result->place] && i < frame->rows; i++) {
        const uint16_t status = ((const uint16_t *)frame->at[statuses->place])[i];
        const char *const row = (const char *)frame->at[result->place] + i * result->kind->size;
        failed += status != FER_OK;
        FUZZ_REQUIRE(is_word(&bind_kinds[BIND_fer_status], status), frame->call->name);
        FUZZ_REQUIRE(status != FER_OK || !frame->is_null, frame->call->name);
        FUZZ_REQUIRE(status == FER_OK ? is_sound(result->kind, row) : is_empty(result->kind, row),
                     frame->call->name);
    }
    FUZZ_REQUIRE(!frame->at[result->place] || failed == frame->failed, frame->call->name);
}

/* Where one result fewer fits, the call says so and does not just leave one out. */
static void check_memory(fuzz_frame *frame)
{
    for (const fuzz_parameter *p = frame->call->parameters; p->role; p++) {
        const size_t found = p->role == FUZZ_CAPACITY && frame->status == FER_OK ? found_of(frame, p) : 0;
        if (found > 0) {
            int status;
            size_t failed, size = (found - 1) * p->kind->size;
            const char *text;
            void *const whole = frame->at[p->place];
            frame->at[p->place] = fuzz_take(size);
            frame->counts[p->place] = found - 1;
            run_with(frame, 0xA5, &status, &failed, &text);
            FUZZ_REQUIRE(status != FER_OK && found_of(frame, p) == 0, frame->call->name);
            fuzz_give_back(frame->at[p->place], size, frame->call->name);
            frame->at[p->place] = whole;
        }
    }
}

void fuzz_check_call(fuzz_stream *stream, const fuzz_call *call)
{
    fuzz_frame *const frame = make_frame(stream, call);
    current = frame;
    if (getenv("FUZZ_SHOW")) {
        show_frame(frame);
    }
    run_twice(frame);
    if (call->gives_status) {
        check_status(frame);
    }
    check_rows(frame);
    if (frame->status == FER_OK && !frame->is_null) {
        fuzz_check_pairs(frame);
        fuzz_check_rows(frame);
    }
    check_memory(frame);
    current = NULL;
    free_frame(frame);
}

/* ---- choice ----------------------------------------------------------------------------------------------- */

const fuzz_call *fuzz_choose(unsigned key)
{
    size_t i = 0;
    while (i + 1 < fuzz_call_count && fuzz_calls[i].key < key) {
        i++;
    }
    return &fuzz_calls[i];
}

const fuzz_call *fuzz_find(const char *name)
{
    for (size_t i = 0; i < fuzz_call_count; i++) {
        if (strcmp(fuzz_calls[i].name, name) == 0) {
            return &fuzz_calls[i];
        }
    }
    return NULL;
}

size_t fuzz_place(const fuzz_call *call, const char *parameter)
{
    const fuzz_parameter *p = call->parameters;
    while (p->role && strcmp(p->name, parameter) != 0) {
        p++;
    }
    FUZZ_REQUIRE(p->role, call->name);
    return (size_t)p->place;
}
