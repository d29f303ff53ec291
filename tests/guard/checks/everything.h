/* SPDX-License-Identifier: MIT */
/* Every public function called once, and all figures that they give: what the checks of threads and modes compare. */
#ifndef FER_CHECKS_EVERYTHING_H
#define FER_CHECKS_EVERYTHING_H

#include <ferrule/ferrule.h>

/* 20,000 rows: above the number from which the rows in bulk use what the processor has. */
enum { rows = 20000, orders_in_a_table = 48, values_maximum = 20000, text_maximum = 64 };

/* Every figure of every result, in the order of the calls. */
typedef struct {
    double values[values_maximum];
    size_t count;
    uint64_t bits; /* of what comes in millions: rows, tallies */
} answers;

typedef struct {
    fer_length lengths[rows];
    fer_ratio ratios[rows];
    fer_length_range ranges[rows];
    fer_die_choice choices[rows / 20];
    fer_dial dials[rows];
    fer_shares shares[rows / 20];
    fer_verdict verdicts[rows / 20];
    fer_forming formings[rows / 200];
    fer_row_status statuses[rows];
    fer_setup setups[orders_in_a_table];
    fer_fault faults[orders_in_a_table];
    fer_inspection inspections[orders_in_a_table];
    fer_acceptance_zone zones[orders_in_a_table];
} memory_for_rows;

/* Writes the inputs in bulk; to be called once, before any thread starts. */
void fill_inputs(void);
void call_everything(answers *a, memory_for_rows *r);

#endif
