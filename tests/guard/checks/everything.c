/* SPDX-License-Identifier: MIT */
/* Every public function called once with arguments that it takes: those that go from one call's result to the next and the rows
 * in bulk here, all others as the catalogue's rows say (calls.h, see write_calls.py). The inputs are invented. */
#include "everything.h"
#include "../platforms/draw.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void put(answers *a, double value)
{
    if (a->count < values_maximum) {
        a->values[a->count++] = value;
    }
}

/* Every call is one that works: a refusal would leave its function untried. */
static void ok(answers *a, fer_status status)
{
    if (status != FER_OK) {
        fprintf(stderr, "call behind figure %zu: %s\n", a->count, fer_status_name(status));
        exit(2);
    }
    put(a, status);
}

static void put_all(answers *a, const void *doubles, size_t bytes)
{
    double value;
    for (size_t i = 0; i + sizeof value <= bytes; i += sizeof value) {
        memcpy(&value, (const char *)doubles + i, sizeof value);
        put(a, value);
    }
}

/* A struct of doubles alone. */
#define PUT(result) put_all(a, &(result), sizeof(result))

static void mix(answers *a, const void *data, size_t bytes)
{
    const unsigned char *byte = data;
    for (size_t i = 0; i < bytes; i++) {
        a->bits = (a->bits ^ byte[i]) * UINT64_C(1099511628211);
    }
}

/* ---- the catalogue's rows: what they show becomes figures -------------------------------------------------------- */

static _Thread_local answers *shown;
static _Thread_local const char *called; /* the function that is called in rounds */
static _Thread_local int worked;         /* one of its rounds has */

static void say(const char *text)
{
    (void)text;
}

static void show_double(double number)
{
    put(shown, number);
}

static void show_signed(int64_t number)
{
    put(shown, (double)number);
}

static void show_word(uint64_t number)
{
    mix(shown, &number, sizeof number);
}

static void show_int(int number)
{
    show_signed(number);
}

static void show_size(size_t number)
{
    show_signed((int64_t)number);
}

static void say_text_of(const char *function, const char *text)
{
    (void)function;
    mix(shown, text, strlen(text));
}

/* Of the rounds of one function some have to work. */
static void see_worked(const char *function)
{
    if (called && !worked) {
        fprintf(stderr, "%s refuses all that the catalogue gives it\n", called);
        exit(2);
    }
    called = function;
    worked = 0;
}

static void say_call(const char *function, fer_status status)
{
    if (!called || strcmp(called, function) != 0) {
        see_worked(function);
    }
    worked |= status == FER_OK;
    put(shown, status);
}

#include "structs.h"

#include "calls.h"

/* ---- inputs of what is called here ------------------------------------------------------------------------------- */

static const fer_die rack[] = {
    {{16.0}, {0}, 1, {0}}, {{19.0}, {0}, 0, {30}}, {{22.0}, {0}, 0, {30}}, {{25.0}, {0}, 0, {30}}};
static const fer_press press = {{0.05}, {0.02}, {40.0}, {20.0}, {2.0e6}, 8};
static const fer_material steel = {{206000.0}, {0.3}, {300.0}, {500.0}};
static const fer_joint joint = {{{12.7}, {19.9}, {0.8}}, {{12.95}, {9.0}}, {{2.4}, {25.6}, {28.0}}};
static const fer_ratio_range range = {{0.15}, {0.25}};
static const fer_length diameter = {23.51}, die_size = {22.0};
static const fer_forming_load load = {{0.5}, {20.0}};
static const fer_length_range limits = {{23.36}, {23.66}};
static const fer_gauge gauge = {{0.005}, {0.001}, {0.001}};
static const fer_uncertainties uncertainties = {.hose_inside = {{0.08}, FER_DISTRIBUTION_NORMAL, 0.0},
                                                .hose_outside = {{0.10}, FER_DISTRIBUTION_NORMAL, 0.0},
                                                .stem_outside = {{0.02}, FER_DISTRIBUTION_TRIANGULAR, 0.0},
                                                .ferrule_wall = {{0.03}, FER_DISTRIBUTION_RECTANGULAR, 0.0},
                                                .diameter = {{0.05}, FER_DISTRIBUTION_NORMAL, 0.0},
                                                .correlations = {.hose_inside_hose_outside = {0.3}}};
static const fer_uncertainties normal = {.hose_outside = {{0.10}, FER_DISTRIBUTION_NORMAL, 0.0},
                                         .diameter = {{0.05}, FER_DISTRIBUTION_NORMAL, 0.0}};

static fer_length column[rows];  /* written before the threads start, then only read */
static fer_ratio shares[rows];   /* the same */
static fer_reading readings[48]; /* the same */

/* ---- rows in bulk ---------------------------------------------------------------------------------------------- */

static void call_rows(answers *a, memory_for_rows *r)
{
    const fer_joint_columns joints = {.hose_inside = fer_same_length(&joint.hose.inside),
                                      .hose_outside = fer_same_length(&joint.hose.outside),
                                      .stem_outside = fer_same_length(&joint.stem.outside),
                                      .ferrule_wall = fer_same_length(&joint.ferrule.wall),
                                      .ferrule_outside = fer_same_length(&joint.ferrule.outside)};
    const fer_length_column diameters = fer_length_rows(column);
    for (int flow = FER_FLOW_NONE; flow <= FER_FLOW_ENDS_FREE; flow++) {
        const fer_model model = {FER_BASIS_WALL, (fer_flow)flow};
        const size_t some = flow == FER_FLOW_ENDS_FIXED ? 2000 : rows;
        put(a, (double)fer_crimp_diameters(some, &joints, fer_ratio_rows(shares), model, r->lengths,
                                           r->statuses));
        mix(a, r->lengths, some * sizeof *r->lengths);
        mix(a, r->statuses, some * sizeof *r->statuses);
        put(a, (double)fer_compressions(some, &joints, diameters, model, r->ratios, r->statuses));
        mix(a, r->ratios, some * sizeof *r->ratios);
    }
    const fer_ratio more = {0.3};
    put(a, (double)fer_crimp_windows(2000, &joints, fer_ratio_rows(shares), fer_same_ratio(&more),
                                     (fer_model){0}, r->ranges, r->statuses));
    mix(a, r->ranges, 2000 * sizeof *r->ranges);
    put(a, (double)fer_lobe_heights(rows, diameters, fer_same_length(&die_size), 8, r->lengths, r->statuses));
    mix(a, r->lengths, sizeof r->lengths);
    put(a, (double)fer_dial_settings(rows, &press, fer_same_length(&die_size), diameters, r->dials,
                                     r->statuses));
    mix(a, r->dials, sizeof r->dials);
}

static void call_slow_rows(answers *a, memory_for_rows *r)
{
    const fer_joint_columns joints = fer_columns_of_joints(&joint),
                            same = {.hose_inside = fer_same_length(&joint.hose.inside),
                                    .hose_outside = fer_same_length(&joint.hose.outside),
                                    .stem_outside = fer_same_length(&joint.stem.outside),
                                    .ferrule_wall = fer_same_length(&joint.ferrule.wall),
                                    .ferrule_outside = fer_same_length(&joint.ferrule.outside)};
    const fer_length_column diameters = fer_length_rows(column);
    const fer_length u = {0.03};
    put(a, joints.hose_inside.first == &joint.hose.inside);
    put(a,
        (double)fer_choose_dies(rows / 20, rack, 4, diameters, (fer_die_needs){0}, r->choices, r->statuses));
    put(a, (double)fer_conforming_shares(rows / 20, &same, &uncertainties, range, diameters, r->shares,
                                         r->statuses));
    put(a, (double)fer_judge_values(rows / 20, diameters, fer_same_length(&u), fer_same_length(&limits.lower),
                                    fer_same_length(&limits.upper), (fer_guard){0}, (fer_process){0},
                                    r->verdicts, r->statuses));
    put(a, (double)fer_form_ferrules(rows / 200, &same, diameters, &steel, load, r->formings, r->statuses));
    mix(a, r->shares, sizeof r->shares);
    mix(a, r->formings, sizeof r->formings);
    for (size_t i = 0; i < rows / 20; i++) {
        mix(a, &r->choices[i].offset, sizeof r->choices[i].offset);
        mix(a, &r->verdicts[i].conforming, 3 * sizeof(fer_ratio));
    }
}

/* Orders that differ in what is published; a piece of each is read where it should be. */
static void call_tables(answers *a, memory_for_rows *r)
{
    const fer_workplace workplace = {&press, rack, 4};
    const fer_length tolerance = {0.2};
    const fer_order_columns orders = {.joint = {.hose_inside = fer_same_length(&joint.hose.inside),
                                                .hose_outside = fer_same_length(&joint.hose.outside),
                                                .stem_outside = fer_same_length(&joint.stem.outside),
                                                .ferrule_wall = fer_same_length(&joint.ferrule.wall)},
                                      .published = fer_length_rows(column),
                                      .tolerance = fer_same_length(&tolerance)};
    const fer_gauge_columns gauges = {.standard_uncertainty = fer_same_length(&gauge.standard_uncertainty)};
    put(a, (double)fer_plan_setups(orders_in_a_table, &orders, &workplace, 1, (fer_whole_column){0},
                                   r->setups, r->statuses, r->faults));
    mix(a, r->statuses, orders_in_a_table * sizeof *r->statuses);
    put(a, (double)fer_inspect_crimps(orders_in_a_table, r->setups, readings, 1, &gauges, (fer_marks){0},
                                      (fer_guard){0}, (fer_process){0}, r->inspections, r->statuses));
    put(a, (double)fer_find_acceptance_zones(orders_in_a_table, fer_same_length(&limits.lower),
                                             fer_same_length(&limits.upper), fer_same_length(&tolerance),
                                             (fer_guard){0}, r->zones, r->statuses));
    for (size_t i = 0; i < orders_in_a_table; i++) {
        mix(a, &r->setups[i].plain.value, sizeof r->setups[i].plain.value);
        put(a, r->setups[i].readiness);
        put(a, r->faults[i].field);
        mix(a, &r->inspections[i].deviation, sizeof r->inspections[i].deviation);
        mix(a, &r->zones[i].accept, sizeof r->zones[i].accept);
    }
}

/* ---- one at a time --------------------------------------------------------------------------------------------- */

static fer_setup call_setup(answers *a)
{
    fer_order order = {0};
    order.joint = joint;
    order.tolerance = fer_mm(0.15);
    order.uncertainties = uncertainties;
    order.ferrule_metal = order.stem_metal = steel;
    order.load = load;
    fer_setup setup;
    ok(a, fer_plan_setup(&order, &press, rack, 4, &setup));
    put(a, setup.target.mm);
    PUT(setup.shares.value);
    PUT(setup.dial.value);
    PUT(setup.shape.value);
    put(a, setup.closing.value.mm);
    put(a, setup.force.value.newton);
    put(a, (double)setup.remarks.bits);
    fer_confirmation confirmation;
    fer_setup confirmed;
    ok(a, fer_confirm_remark(&setup, FER_REMARK_TARGET_COMPUTED, &confirmation));
    ok(a, fer_confirm_setup(&setup, &confirmation, 1, &confirmed));
    put(a, (double)confirmed.confirmed.bits);
    return setup;
}

static void call_faults(answers *a)
{
    const fer_order nothing = {0};
    fer_fault faults[8];
    size_t found;
    ok(a, fer_check_order(&nothing, &press, rack, 4, faults, 8, &found));
    put(a, (double)found);
    for (size_t i = 0; i < found; i++) {
        put(a, faults[i].status);
        put(a, faults[i].field);
    }
}

static void call_inspection(answers *a, const fer_setup *setup)
{
    const fer_marks marks = {{0}, 0, {0}, 8};
    fer_inspection inspection;
    ok(a,
       fer_inspect_crimp(setup, readings, 48, &gauge, marks, (fer_guard){0}, (fer_process){0}, &inspection));
    put(a, inspection.verdict.conforming.fraction);
    put(a, inspection.summary.mean.mm);
    put(a, inspection.summary.scatter.value.mm);
}

static void call_calibration(answers *a)
{
    const fer_calibration_point points[] = {
        {{16.0}, {16.05}, {0}}, {{20.0}, {20.02}, {0}}, {{25.0}, {25.06}, {0}}, {{30.0}, {30.04}, {0}}};
    fer_calibration calibration;
    fer_prediction prediction[2];
    ok(a, fer_fit_calibration(points, 4, gauge, &calibration));
    ok(a, fer_predict_diameter(&calibration, diameter, fer_percent(95), &prediction[0]));
    ok(a, fer_find_set(&calibration, diameter, fer_percent(95), &prediction[1]));
    PUT(prediction);
}

static void call_diagnosis(answers *a, const fer_setup *setup)
{
    const fer_piece pieces[] = {{{23.8}, {0.01}}, {{23.83}, {0.01}}};
    const fer_look look = {FER_LOOK_MEASURED, {0.12}, {0.0}};
    fer_suspect suspects[FER_CAUSE_COUNT];
    fer_diagnosis diagnosis;
    size_t found;
    ok(a, fer_diagnose_diameter(setup, &press, rack, 4, pieces, 2, NULL, 0, (fer_diagnosing){0}, suspects,
                                FER_CAUSE_COUNT, &found, &diagnosis));
    for (size_t i = 0; i < found; i++) {
        put(a, suspects[i].probability.fraction);
    }
    put(a, diagnosis.bits_all);
    ok(a, fer_diagnose_look(&joint, setup, diameter, &look, 1, NULL, 0, (fer_looking){0}, suspects,
                            FER_CAUSE_COUNT, &found, &diagnosis));
    for (size_t i = 0; i < found; i++) {
        put(a, suspects[i].probability.fraction);
    }
    put(a, fer_usual_weight(suspects[0].cause).fraction);
}

static void call_text(answers *a)
{
    static const char inches[] = "4 61/64 in", comma[] = "12,7 MM";
    char text[text_maximum];
    size_t stop, length;
    fer_length read;
    ok(a, fer_parse_length(inches, sizeof inches - 1, &read, &stop));
    put(a, read.mm);
    ok(a, fer_parse_comma_length(comma, sizeof comma - 1, &read, &stop));
    put(a, read.mm);
    ok(a, fer_format_length(read, FER_UNIT_inch, FER_FRACTION(64), text, sizeof text, &length));
    mix(a, text, length);
    for (int unit = 0; unit < FER_UNIT_COUNT; unit++) {
        if (fer_format_length(fer_mm(0.1 + 1e-3 * unit), (fer_unit)unit, -1, text, sizeof text, &length) ==
            FER_OK) {
            mix(a, text, length);
        }
    }
}

/* ---- Monte Carlo ------------------------------------------------------------------------------------------------ */

static void put_tally(answers *a, const fer_tally *tally)
{
    mix(a, tally->classes, sizeof tally->classes);
    mix(a, &tally->mean, sizeof tally->mean);
    mix(a, &tally->high, sizeof tally->high);
}

static void call_trials(answers *a, fer_sequence sequence)
{
    const fer_trials trials = {42, 3, 2, sequence, {0}}, others = {42, 5, 1, sequence, {0}};
    const fer_model ends_fixed = {FER_BASIS_WALL, FER_FLOW_ENDS_FIXED};
    fer_crimp_count count[3];
    fer_simulated_shares shares;
    fer_tally tally[3];
    fer_simulation simulation;
    fer_ratio quantile;
    fer_joint drawn;
    fer_length drawn_diameter;
    ok(a, fer_draw_joint(&joint, &uncertainties, diameter, 12345, (fer_trials){0}, &drawn, &drawn_diameter));
    PUT(drawn);
    ok(a, fer_simulate_shares(&joint, &normal, range, diameter, (fer_model){0}, trials, &count[0]));
    ok(a, fer_simulate_shares(&joint, &normal, range, diameter, ends_fixed, others, &count[1]));
    ok(a, fer_merge_counts(&count[0], &count[1], &count[2]));
    mix(a, count, sizeof count);
    ok(a, fer_find_simulated_shares(&count[2], &shares));
    PUT(shares.shares);
    ok(a, fer_simulate_compression(&joint, &normal, range, diameter, ends_fixed, others, &tally[0]));
    ok(a, fer_simulate_to_digits(&joint, &normal, range, diameter, 1, ends_fixed, others, &tally[1],
                                 &simulation));
    ok(a, fer_merge_tallies(&tally[0], &tally[1], &tally[2]));
    put_tally(a, &tally[2]);
    ok(a, fer_summarise_tally(&tally[2], 2, &simulation));
    put(a, simulation.standard_uncertainty.fraction);
    ok(a, fer_find_tally_quantile(&tally[2], fer_percent(99), &quantile));
    PUT(quantile);
}

static void call_simulated_setups(answers *a)
{
    const fer_random_words counter = {{1, 2, 3, 4}};
    fer_order order = {0};
    order.joint = joint;
    order.uncertainties = normal;
    fer_tally tally;
    fer_random_words words;
    uint64_t uses[5];
    size_t found;
    ok(a, fer_simulate_setups(&order, &press, rack, 4, (fer_trials){0}, &tally, uses, 5, &found));
    put_tally(a, &tally);
    mix(a, uses, sizeof uses);
    ok(a, fer_find_random_words(&counter, 7, &words));
    mix(a, &words, sizeof words);
}

/* ---- all of it ---------------------------------------------------------------------------------------------------- */

void call_everything(answers *a, memory_for_rows *r)
{
    memset(a, 0, sizeof *a);
    shown = a;
    call_catalogue(12);
    see_worked(NULL);
    const fer_setup setup = call_setup(a);
    call_faults(a);
    call_inspection(a, &setup);
    call_calibration(a);
    call_diagnosis(a, &setup);
    call_text(a);
    call_trials(a, FER_SEQUENCE_RANDOM);
    call_trials(a, FER_SEQUENCE_SOBOL);
    call_simulated_setups(a);
    call_rows(a, r);
    call_slow_rows(a, r);
    call_tables(a, r);
}

void fill_inputs(void)
{
    for (size_t i = 0; i < rows; i++) {
        column[i].mm = 22.2 + 2.0 * (double)i / rows;
        shares[i].fraction = 0.05 + 0.2 * (double)i / rows;
    }
    for (size_t i = 0; i < 48; i++) {
        const double angle = 0.2 + 0.37 * (double)i;
        readings[i] = (fer_reading){{23.5 + 0.01 * (double)(i * i % 7)}, (int)(i % 2), {angle}, 1};
    }
}
