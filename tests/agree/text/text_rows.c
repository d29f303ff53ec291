/* SPDX-License-Identifier: MIT */
/* Reads and writes quantities line by line, for references outside C (tests/agree/text/test_text_exact.py).
 *
 * In:  `p KIND TEXT`, with the text up to the end of the line, `c KIND TEXT` with a decimal comma; `f UNIT DECIMALS NUMBER`, with a hex float.
 * Out: `STATUS STOP NUMBER`, with a hex float; `STATUS TEXT`.
 * With the argument `units`: one line `KIND UNIT SYMBOL` for each unit.
 */
#include <ferrule/ferrule.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void parse_row(int is_comma, const char *kind, const char *text)
{
    fer_status status = FER_ARGUMENT_MISSING;
    double number = 0.0;
    size_t stop = 0;
#define PARSE_KIND(name, field, words)                                                                       \
    if (strcmp(kind, #name) == 0) {                                                                          \
        fer_##name quantity;                                                                                 \
        status =                                                                                             \
            (is_comma ? fer_parse_comma_##name : fer_parse_##name)(text, strlen(text), &quantity, &stop);    \
        number = quantity.field;                                                                             \
    }
    FER_KIND_LIST(PARSE_KIND)
    printf("%s %zu %a\n", fer_status_name(status), stop, number);
}

static void format_row(const char *unit, int decimals, double number)
{
    fer_status status = FER_ARGUMENT_MISSING;
    char text[FER_TEXT_CAPACITY] = "";
    size_t length;
#define FORMAT_UNIT(kind, field, name, numerator, denominator, zero, symbols)                                \
    if (strcmp(unit, #name) == 0) {                                                                          \
        const fer_##kind quantity = {number};                                                                \
        status = fer_format_##kind(quantity, FER_UNIT_##name, decimals, text, sizeof text, &length);         \
    }
    FER_UNIT_LIST(FORMAT_UNIT)
    printf("%s %s\n", fer_status_name(status), text);
}

static void row(char *line)
{
    char *const verb = strtok(line, " "), *const what = strtok(NULL, " ");
    if (verb && what && strcspn(verb, "pc") == 0) {
        char *const text = strtok(NULL, "\n");
        parse_row(*verb == 'c', what, text ? text : "");
    } else if (verb && what && strcmp(verb, "f") == 0) {
        const char *const decimals = strtok(NULL, " "), *const number = strtok(NULL, "\n");
        format_row(what, decimals ? (int)strtol(decimals, NULL, 10) : 0, number ? strtod(number, NULL) : 0.0);
    }
}

int main(int count, char **arguments)
{
    if (count > 1 && strcmp(arguments[1], "units") == 0) {
#define PRINT_UNIT(kind, field, name, numerator, denominator, zero, symbols)                                 \
    printf("%s %s %s\n", #kind, #name, fer_unit_symbol(FER_UNIT_##name));
        FER_UNIT_LIST(PRINT_UNIT)
        return 0;
    }
    char line[2048];
    while (fgets(line, sizeof line, stdin)) {
        row(line);
    }
    return 0;
}
