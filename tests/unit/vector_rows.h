/* SPDX-License-Identifier: MIT */
/* Rows of the tables in tests/agree/vectors/: read, and run through the C functions. */
#ifndef FER_TEST_VECTOR_ROWS_H
#define FER_TEST_VECTOR_ROWS_H

#include <ferrule/ferrule.h>

enum { VECTOR_LINE_CAPACITY = 16384 };

typedef enum {
    a_length,
    an_angle,
    a_ratio,
    a_force,
    a_pressure,
    a_number,
    a_basis,
    a_flow,
    a_distribution,
    a_side,
    a_strength,
    a_flag,
    a_chart,
    a_limit_basis,
    a_chart_method,
    an_int,
    a_size
} vector_kind;

/* The texts lie in the line that was read. */
typedef struct {
    const char *function, *result, *expected, *tolerance;
    vector_kind kind;
    fer_status status;
    double actual; /* the result named, also where the function failed */
} vector_row;

/* Takes a line of a table to pieces, in place, and calls the function. */
void vector_run(char *line, vector_row *row);

/* The number that a cell means, in the unit that the library keeps. */
double vector_number(const char *text, vector_kind kind);

/* What happens where a table is not understood; the program that uses this file says it. */
_Noreturn void vector_refuse(const char *what, const char *word);

#endif
