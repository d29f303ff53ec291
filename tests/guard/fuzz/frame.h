/* SPDX-License-Identifier: MIT */
/* Calls of any public function with arguments made of bytes, and the promises that hold for all of them. */
#ifndef FER_FUZZ_FRAME_H
#define FER_FUZZ_FRAME_H

#include "kinds.h"

#include <stddef.h>
#include <stdint.h>

/* What a number usually is, and its declared range. */
typedef struct fuzz_limits {
    double usual, lower, upper;
} fuzz_limits;

/* What is done with an argument. */
typedef enum fuzz_role {
    FUZZ_VALUE = 1,       /* by value */
    FUZZ_INPUT,           /* pointer to one */
    FUZZ_LIST,            /* pointer and count */
    FUZZ_ROWS,            /* number of rows of a call in bulk */
    FUZZ_COLUMNS,         /* column of rows, by value */
    FUZZ_COLUMNS_POINTER, /* pointer to columns */
    FUZZ_WORK,            /* working memory and its words */
    FUZZ_RESULT,          /* pointer to one result */
    FUZZ_ROW_RESULT,      /* pointer to a result for each row */
    FUZZ_CAPACITY,        /* memory for results, capacity, number found */
    FUZZ_RETURN           /* returned value */
} fuzz_role;

/* A column within a struct of columns. */
typedef struct fuzz_column {
    size_t offset;
    const bind_kind *kind; /* of a row; NULL: end */
    const char *name;
    fuzz_limits limits;
    int may_be_zero; /* 0 has a meaning */
} fuzz_column;

typedef struct fuzz_parameter {
    fuzz_role role; /* 0: end */
    const char *name;
    const bind_kind *kind;
    const fuzz_column *columns;
    size_t columns_size;
    int place;        /* of its first C parameter */
    int may_be_null;  /* its comment says what NULL means */
    int may_be_empty; /* 0 or an empty struct has a meaning */
    int has_limit;    /* its comment says how long the list may be */
    fuzz_limits limits;
} fuzz_parameter;

typedef struct fuzz_call {
    const char *name;
    unsigned key; /* 16 bits that choose it */
    void (*run)(void *const *at, int *status, size_t *failed, const char **text);
    const fuzz_parameter *parameters;
    const int *statuses; /* those that its comment allows, -1: end; NULL: not said */
    int gives_text, gives_status;
    int is_slow; /* simulates or takes what was simulated */
} fuzz_call;

/* Result of a call that is input of others. */
typedef struct fuzz_maker {
    const fuzz_call *call; /* NULL: none makes it */
    int parameter;
} fuzz_maker;

/* What a number of this name usually is. */
typedef struct fuzz_usual {
    const char *name; /* NULL: end */
    double number;
} fuzz_usual;

enum { FUZZ_PARAMETERS = 16, FUZZ_BLOCKS = 64, FUZZ_BEFORE = 16 };

/* The input, and the numbers that were made of it so far. Where it ends, everything is as usual. */
typedef struct fuzz_stream {
    const uint8_t *data;
    size_t size, at;
    double before[FUZZ_BEFORE];
    unsigned count;
    int depth;
} fuzz_stream;

/* Memory of a call; each block has just the size that is needed. */
typedef struct fuzz_block {
    unsigned char *data, *copy; /* copy: of an input, to see whether it was changed */
    size_t size;
} fuzz_block;

/* A call and its arguments. */
typedef struct fuzz_frame {
    const fuzz_call *call;
    void *at[FUZZ_PARAMETERS + 1]; /* C parameters, and the returned value */
    size_t counts[FUZZ_PARAMETERS], rows;
    int is_null; /* a pointer that must not be null is null */
    fuzz_block inputs[FUZZ_BLOCKS], results[FUZZ_BLOCKS];
    size_t input_count, result_count;
    int status;
    size_t failed;
} fuzz_frame;

extern const fuzz_call fuzz_calls[];
extern const size_t fuzz_call_count;
extern const fuzz_limits *const fuzz_member_limits[BIND_COUNT];
extern const fuzz_maker fuzz_makers[BIND_COUNT];

extern const fuzz_usual fuzz_usuals[];

uint8_t fuzz_byte(fuzz_stream *stream);
double fuzz_number(fuzz_stream *stream, fuzz_limits limits, int may_be_zero);
void fuzz_fill(fuzz_stream *stream, const bind_kind *kind, fuzz_limits limits, int may_be_zero, void *to);
const fuzz_call *fuzz_choose(unsigned key);
const fuzz_call *fuzz_find(const char *name);
size_t fuzz_place(const fuzz_call *call, const char *parameter);
int fuzz_goes_by_blocks(const fuzz_call *call); /* many rows at a time, where they are simple */

/* Makes arguments, calls twice, and ends the program where a promise is broken. */
void fuzz_check_call(fuzz_stream *stream, const fuzz_call *call);

/* Forward and backward: what else holds after a call that succeeded. */
void fuzz_check_pairs(const fuzz_frame *frame);

/* Each row of a call in bulk against the call in the singular; lists in another order. */
void fuzz_check_rows(const fuzz_frame *frame);
int fuzz_is_equal(const bind_kind *kind, const void *one, const void *other); /* all bits but padding */

/* Ends the program. */
_Noreturn void fuzz_broken(const char *file, int line, const char *function, const char *promise);

#define FUZZ_REQUIRE(condition, function)                                                                    \
    do {                                                                                                     \
        if (!(condition)) {                                                                                  \
            fuzz_broken(__FILE__, __LINE__, function, #condition);                                           \
        }                                                                                                    \
    } while (0)

/* Blocks with a guard behind them where no sanitizer looks. */
void *fuzz_take(size_t size);
void fuzz_give_back(void *block, size_t size, const char *function);

#endif
