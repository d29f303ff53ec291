/* SPDX-License-Identifier: MIT */
/* One order, one press and a rack of dies from the words of a command line. */
#ifndef SET_UP_SHEET_ARGUMENTS_H
#define SET_UP_SHEET_ARGUMENTS_H

#include <ferrule/ferrule.h>

enum { DIES_MAXIMUM = 100, GIVEN_MAXIMUM = 500, CONFIRMATIONS_MAXIMUM = 20 };

/** One value as it was written, and what it stands for. */
typedef struct argument {
    const char *name; /**< such as "hose outside" */
    const char *text; /**< such as "19.9mm" */
} argument;

/** Everything that a command line can say. */
typedef struct arguments {
    fer_order order;
    fer_press press;
    fer_die dies[DIES_MAXIMUM];
    size_t die_count;
    fer_confirmation confirmations[CONFIRMATIONS_MAXIMUM];
    const char *names[CONFIRMATIONS_MAXIMUM]; /**< who answers for each of them */
    size_t confirmation_count;
    argument givens[GIVEN_MAXIMUM];
    size_t given_count;
} arguments;

/** Read all words; 0 where one is wrong, and then standard error says which, its value and the rule. */
int read_arguments(int count, char **words, arguments *result);

/** Say on standard error which argument broke the rule of a status. */
void report_status(const arguments *from, fer_status status);

#endif
