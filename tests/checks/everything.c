/* SPDX-License-Identifier: MIT */
/* Every public function called once with arguments that it takes. The inputs are invented. */
#include "everything.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

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
static const fer_spread spread = {.hose_inside = {{0.08}, FER_DISTRIBUTION_NORMAL, 0.0},
                                  .hose_outside = {{0.10}, FER_DISTRIBUTION_NORMAL, 0.0},
                                  .stem_outside = {{0.02}, FER_DISTRIBUTION_TRIANGULAR, 0.0},
                                  .ferrule_wall = {{0.03}, FER_DISTRIBUTION_RECTANGULAR, 0.0},
                                  .diameter = {{0.05}, FER_DISTRIBUTION_NORMAL, 0.0},
                                  .correlations = {.hose_inside_hose_outside = {0.3}}};
static const fer_spread normal = {.hose_outside = {{0.10}, FER_DISTRIBUTION_NORMAL, 0.0},
                                  .diameter = {{0.05}, FER_DISTRIBUTION_NORMAL, 0.0}};
static const fer_spread limited = {.ferrule_wall = {{0.03}, FER_DISTRIBUTION_RECTANGULAR, 0.0},
                                   .diameter = {{0.05}, FER_DISTRIBUTION_TRIANGULAR, 0.0}};
static const fer_spread crimp_spread = {.diameter = {{0.05}, FER_DISTRIBUTION_NORMAL, 0.0}};

static fer_length column[rows];  /* written before the threads start, then only read */
static fer_ratio shares[rows];   /* the same */
static fer_reading readings[48]; /* the same */

static void put(answers *a, double value)
{
    if (a->count < values_most) {
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

/* ---- rows in bulk ---------------------------------------------------------------------------------------------- */

static void call_rows(answers *a, room_for_rows *r)
{
    const fer_joint_columns joints = {.hose_inside = fer_same_length(&joint.hose.inside),
                                      .hose_outside = fer_same_length(&joint.hose.outside),
                                      .stem_outside = fer_same_length(&joint.stem.outside),
                                      .ferrule_wall = fer_same_length(&joint.ferrule.wall),
                                      .ferrule_outside = fer_same_length(&joint.ferrule.outside)};
    const fer_length_column diameters = fer_length_rows(column);
    for (int flow = FER_FLOW_NONE; flow <= FER_FLOW_FREE; flow++) {
        const fer_model model = {FER_BASIS_WALL, (fer_flow)flow};
        const size_t some = flow == FER_FLOW_HELD ? 2000 : rows;
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

static void call_slow_rows(answers *a, room_for_rows *r)
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
    put(a, (double)fer_crimp_yields(rows / 20, &same, &spread, range, diameters, r->yields, r->statuses));
    put(a, (double)fer_judge_values(rows / 20, diameters, fer_same_length(&u), fer_same_length(&limits.least),
                                    fer_same_length(&limits.most), (fer_guard){0}, (fer_process){0},
                                    r->verdicts, r->statuses));
    put(a, (double)fer_form_ferrules(rows / 200, &same, diameters, &steel, load, r->formings, r->statuses));
    mix(a, r->yields, sizeof r->yields);
    mix(a, r->formings, sizeof r->formings);
    for (size_t i = 0; i < rows / 20; i++) {
        mix(a, &r->choices[i].offset, sizeof r->choices[i].offset);
        mix(a, &r->verdicts[i].conforming, 3 * sizeof(fer_ratio));
    }
}

/* ---- one at a time --------------------------------------------------------------------------------------------- */

static void call_joint(answers *a)
{
    for (int i = 0; i < 12; i++) {
        const fer_model model = {(fer_basis)(i % 4), (fer_flow)(i / 4)};
        const fer_ratio compression = {0.2};
        fer_length length[5];
        fer_ratio ratio;
        fer_compression_slopes slopes;
        fer_diameter_slopes diameter_slopes;
        ok(a, fer_crimp_diameter(&joint, compression, model, &length[0]));
        ok(a, fer_compression(&joint, diameter, model, &ratio));
        ok(a, fer_crimped_wall(&joint, diameter, model, &length[1]));
        ok(a, fer_crimped_length(&joint, diameter, model, &length[2]));
        ok(a, fer_touch_diameter(&joint, model, &length[3]));
        ok(a, fer_find_compression_slopes(&joint, diameter, model, &slopes));
        ok(a, fer_find_diameter_slopes(&joint, compression, model, &diameter_slopes));
        ok(a, fer_fitted_outside(&joint, &length[4]));
        PUT(length);
        PUT(ratio);
        PUT(slopes);
        PUT(diameter_slopes);
    }
    ok(a, fer_check_joint(&joint));
}

static void call_forming(answers *a)
{
    const fer_forming_load gentle = {{1.0}, {60.0}};
    const fer_pressure pressure = {100.0};
    fer_forming forming;
    fer_length length[3];
    fer_die_force force;
    fer_tube_change tube;
    fer_stem_strength strength;
    fer_stem_change stem;
    ok(a, fer_check_material(&steel));
    ok(a, fer_form_ferrule(&joint.ferrule, diameter, &steel, load, &forming));
    ok(a, fer_closing_diameter(&joint.ferrule, diameter, &steel, load, &length[0]));
    ok(a, fer_least_reduction(&joint.ferrule, &steel, &length[1]));
    ok(a, fer_find_die_force(pressure, diameter, joint.ferrule.length, 8, &force));
    ok(a, fer_load_tube(joint.stem.bore, joint.stem.outside, pressure, pressure, &steel, load, &tube));
    ok(a, fer_find_stem_strength(&joint.stem, &steel, load, &strength));
    ok(a, fer_load_stem(&joint.stem, &steel, gentle, &stem));
    ok(a, fer_bore_margin(&joint.stem, fer_mm(0.05), fer_mm(8.5), &length[2]));
    PUT(forming);
    PUT(length);
    PUT(force);
    PUT(tube);
    PUT(strength);
    PUT(stem);
}

static void call_lobe(answers *a)
{
    fer_shape shape;
    fer_length length[5];
    fer_equivalent_crimp equivalent;
    ok(a, fer_lobe_height(diameter, die_size, 8, &length[0]));
    ok(a, fer_crimp_shape(diameter, die_size, 7, &shape));
    ok(a, fer_arc_radius(diameter, die_size, 8, fer_deg(10), &length[1]));
    ok(a, fer_jaws_reading(diameter, die_size, 8, fer_deg(10), &length[2]));
    ok(a, fer_lobe_offset(die_size, 8, fer_mm(0.05), &length[3]));
    ok(a, fer_gap_offset(joint.ferrule.wall, 8, fer_percent(20), &length[4]));
    ok(a, fer_find_equivalent_crimp(&joint, diameter, die_size, 8, (fer_model){0}, &equivalent));
    PUT(shape);
    PUT(length);
    PUT(equivalent);
}

static void call_spread(answers *a)
{
    fer_budget budget;
    fer_second_order second;
    fer_ratio_range worst;
    fer_length_range window;
    fer_yield yield[4];
    fer_length target[3];
    fer_improvement improvements[6];
    size_t found;
    ok(a, fer_uncertainty_budget(&joint, &spread, diameter, fer_percent(95), (fer_model){0}, &budget));
    ok(a, fer_second_order_uncertainty(&joint, &normal, diameter, (fer_model){0}, &second));
    ok(a, fer_worst_case(&joint, &limited, diameter, (fer_model){0}, &worst));
    ok(a, fer_crimp_yield(&joint, &spread, range, diameter, &yield[0]));
    ok(a, fer_crimp_window(&joint, range, (fer_model){0}, &window));
    ok(a, fer_best_target(&joint, &crimp_spread, range, &target[0], &yield[1]));
    ok(a, fer_cheapest_target(&joint, &crimp_spread, range, 2.0, 1.0, &target[1], &yield[2]));
    put(a,
        fer_best_graduated_target(&joint, &spread, range, die_size, press.graduation, &target[2], &yield[3]));
    ok(a, fer_rank_measurements(&joint, &spread, range, diameter, improvements, 6, &found));
    for (size_t i = 0; i < found; i++) {
        put(a, improvements[i].measurement);
        put(a, improvements[i].exact.fraction);
    }
    PUT(budget);
    PUT(second);
    PUT(worst);
    PUT(window);
    PUT(yield);
    PUT(target);
}

static void call_die_and_press(answers *a)
{
    const fer_length targets[] = {{23.5}, {17.5}, {31.0}}, more = {1.5};
    const fer_length_range over = {{15.0}, {40.0}};
    fer_die_choice choice;
    fer_length_range gaps[8];
    fer_die purchases[4];
    fer_dial dial;
    fer_length length[2];
    fer_ratio use;
    size_t found;
    ok(a, fer_choose_die(rack, 4, diameter, (fer_die_needs){0}, &choice));
    put(a, choice.offset.mm);
    ok(a, fer_find_coverage_gaps(rack, 4, over, gaps, 8, &found));
    put_all(a, gaps, found * sizeof *gaps);
    ok(a, fer_choose_purchases(rack, 4, targets, 3, rack, 4, purchases, 4, &found));
    put(a, (double)found);
    ok(a, fer_check_press(&press));
    ok(a, fer_dial_setting(&press, &rack[2], diameter, &dial));
    ok(a, fer_dialled_diameter(&press, &rack[2], more, &length[0]));
    ok(a, fer_opening_clearance(&press, &rack[2], joint.ferrule.outside, &length[1]));
    ok(a, fer_capacity_use(&press, fer_kn(800), &use));
    PUT(dial);
    PUT(length);
    PUT(use);
}

static fer_setup call_setup(answers *a)
{
    fer_order order = {0};
    order.joint = joint;
    order.tolerance = fer_mm(0.15);
    order.spread = spread;
    order.ferrule_metal = order.stem_metal = steel;
    order.load = load;
    fer_setup setup;
    ok(a, fer_plan_setup(&order, &press, rack, 4, &setup));
    put(a, setup.target.mm);
    PUT(setup.yield.value);
    PUT(setup.dial.value);
    PUT(setup.shape.value);
    put(a, setup.closing.value.mm);
    put(a, setup.force.value.newton);
    put(a, setup.remarks.bits);
    return setup;
}

static void call_reading(answers *a, const fer_setup *setup)
{
    const fer_marks marks = {{0}, 0, {0}, 8};
    fer_reading_summary summary;
    fer_section_summary sections[2];
    fer_lobe_fit fit;
    fer_inspection inspection;
    size_t indices[48], found;
    ok(a, fer_summarise_readings(readings, 48, &gauge, marks, &summary));
    ok(a, fer_summarise_sections(readings, 48, &gauge, marks, sections, 2, &found));
    put(a, sections[1].mean.mm);
    ok(a, fer_find_outliers(readings, 48, &gauge, marks, indices, 48, &found));
    put(a, (double)found);
    ok(a, fer_fit_lobes(readings, 48, &gauge, marks, &fit));
    put(a,
        fer_inspect_crimp(setup, readings, 48, &gauge, marks, (fer_guard){0}, (fer_process){0}, &inspection));
    put(a, summary.mean.mm);
    put(a, summary.scatter.value.mm);
    put(a, summary.degrees_of_freedom);
    put(a, fit.lobe.mm);
    put(a, fit.ovality_angle.rad);
    put(a, inspection.verdict.conforming.fraction);
}

static void call_conformity_and_adjust(answers *a)
{
    const fer_process process = {{23.5}, {0.06}};
    const fer_guard guard = {0.0, 0, FER_SIDE_BOTH, 9.0};
    const fer_trial trials[] = {{{1.5}, {23.6}}, {{1.4}, {23.52}}, {{1.4}, {23.55}}};
    const fer_adjusting known = {{0.04}, {0.1}, {0}, {0}, {{0}, {0}, {0}}};
    const fer_calibration_point points[] = {
        {{16.0}, {16.05}, {0}}, {{20.0}, {20.02}, {0}}, {{25.0}, {25.06}, {0}}, {{30.0}, {30.04}, {0}}};
    const fer_drift_point checks[] = {{0, {0.01}}, {100, {0.02}}, {200, {0.025}}, {300, {0.04}}};
    fer_verdict verdict;
    fer_risks risks;
    fer_adjustment adjustment;
    fer_outlook outlook;
    fer_calibration calibration;
    fer_prediction prediction[2];
    fer_drift drift;
    ok(a, fer_judge(diameter, fer_mm(0.02), limits, guard, (fer_process){0}, &verdict));
    ok(a, fer_find_risks(&process, fer_mm(0.02), limits, (fer_guard){0}, &risks));
    ok(a, fer_correct_dial(&press, trials, 3, diameter, limits, known, &adjustment));
    ok(a, fer_expected_deviation(&press, 3, known, &outlook));
    ok(a, fer_fit_calibration(points, 4, gauge, &calibration));
    ok(a, fer_predict_diameter(&calibration, diameter, fer_percent(95), &prediction[0]));
    ok(a, fer_find_set(&calibration, diameter, fer_percent(95), &prediction[1]));
    ok(a, fer_check_drift(checks, 4, 320, fer_mm(0.05), fer_percent(95), gauge, &drift));
    put(a, verdict.conforming.fraction);
    PUT(risks);
    put(a, adjustment.setting.mm);
    put(a, adjustment.probability_best.value.fraction);
    PUT(outlook);
    PUT(prediction);
    put(a, drift.uncertainty.mm);
    put(a, drift.due_day);
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
    static const char inches[] = "4 61/64 in";
    char text[text_most];
    size_t stop, length;
    fer_length read;
    ok(a, fer_parse_length(inches, sizeof inches - 1, &read, &stop));
    put(a, read.mm);
    for (int unit = 0; unit < FER_UNIT_COUNT; unit++) {
        if (fer_format_length(fer_mm(0.1 + 1e-3 * unit), (fer_unit)unit, -1, text, sizeof text, &length) ==
            FER_OK) {
            mix(a, text, length);
        }
        mix(a, fer_unit_symbol((fer_unit)unit), strlen(fer_unit_symbol((fer_unit)unit)));
    }
    for (int i = 0; i < FER_CAUSE_COUNT; i++) {
        mix(a, fer_cause_name((fer_cause)i), strlen(fer_cause_name((fer_cause)i)));
        mix(a, fer_cause_sentence((fer_cause)i), strlen(fer_cause_sentence((fer_cause)i)));
    }
    for (int i = 0; i < FER_CHECK_COUNT; i++) {
        mix(a, fer_check_name((fer_check)i), strlen(fer_check_name((fer_check)i)));
        mix(a, fer_check_sentence((fer_check)i), strlen(fer_check_sentence((fer_check)i)));
    }
    mix(a, fer_status_name(FER_OK), 2);
    mix(a, fer_status_sentence(FER_OK), 2);
    mix(a, fer_caution_text(FER_CAUTION_CLOSING_DIES), 2);
    mix(a, fer_caution_name(FER_CAUTION_CLOSING_DIES), 2);
    mix(a, fer_remark_name((fer_remark)0), 2);
    mix(a, fer_remark_sentence((fer_remark)0), 2);
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
    const fer_model held = {FER_BASIS_WALL, FER_FLOW_HELD};
    fer_crimp_count count[3];
    fer_simulated_yield yield;
    fer_tally tally[3];
    fer_simulation simulation;
    fer_ratio quantile;
    fer_joint drawn;
    fer_length drawn_diameter;
    ok(a, fer_draw_joint(&joint, &spread, diameter, 12345, (fer_trials){0}, &drawn, &drawn_diameter));
    PUT(drawn);
    ok(a, fer_simulate_yield(&joint, &normal, range, diameter, (fer_model){0}, trials, &count[0]));
    ok(a, fer_simulate_yield(&joint, &normal, range, diameter, held, others, &count[1]));
    ok(a, fer_merge_counts(&count[0], &count[1], &count[2]));
    mix(a, count, sizeof count);
    ok(a, fer_find_simulated_yield(&count[2], &yield));
    PUT(yield.yield);
    ok(a, fer_simulate_compression(&joint, &normal, range, diameter, held, others, &tally[0]));
    ok(a, fer_simulate_to_digits(&joint, &normal, range, diameter, 1, held, others, &tally[1], &simulation));
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
    order.spread = normal;
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

void call_everything(answers *a, room_for_rows *r)
{
    memset(a, 0, sizeof *a);
    call_joint(a);
    call_forming(a);
    call_lobe(a);
    call_spread(a);
    call_die_and_press(a);
    const fer_setup setup = call_setup(a);
    call_reading(a, &setup);
    call_conformity_and_adjust(a);
    call_diagnosis(a, &setup);
    call_text(a);
    call_trials(a, FER_SEQUENCE_RANDOM);
    call_trials(a, FER_SEQUENCE_SOBOL);
    call_simulated_setups(a);
    call_rows(a, r);
    call_slow_rows(a, r);
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
