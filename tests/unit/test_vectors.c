/* SPDX-License-Identifier: MIT */
/* Runs the tables of tests/agree/vectors/ given on the command line through the C functions. */
#include "check.h"
#include "vector_rows.h"

#include <stdio.h>
#include <stdlib.h>

_Noreturn void vector_refuse(const char *what, const char *word)
{
    fail_msg("%s: %s", what, word);
    abort();
}

/* After a failure the result is written: NaN, or 0 where it is a count. */
static void check_failure(const vector_row *row)
{
    const int whole = row->kind == an_int || row->kind == a_size;
    assert_string_equal(fer_status_name(row->status), row->expected + strlen("status "));
    assert_true(isnan(row->actual) || (whole && row->actual == 0.0));
}

static void check_line(char *line)
{
    vector_row row;
    vector_run(line, &row);
    if (strncmp(row.expected, "status ", strlen("status ")) == 0) {
        check_failure(&row);
        return;
    }
    CHECK_OK(row.status);
    const double expected = vector_number(row.expected, row.kind);
    const double tolerance = vector_number(row.tolerance, row.kind);
    if (!(fabs(row.actual - expected) <= tolerance)) {
        fail_msg("%s %s is %.17g, not %.17g", row.function, row.result, row.actual, expected);
    }
}

static const char *file_name;

static void every_line_holds(void **state)
{
    (void)state;
    char line[VECTOR_LINE_CAPACITY];
    int lines = 0;
    FILE *file = fopen(file_name, "r");
    assert_non_null(file);
    assert_non_null(fgets(line, sizeof line, file)); /* header */
    while (fgets(line, sizeof line, file)) {
        lines++;
        check_line(line);
    }
    fclose(file);
    assert_true(lines > 50);
    printf("%s: %d lines\n", file_name, lines);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(every_line_holds)};
    int failures = argc < 2;
    for (int i = 1; i < argc; i++) {
        file_name = argv[i];
        failures += cmocka_run_group_tests_name(argv[i], tests, NULL, NULL);
    }
    return failures;
}
