/* SPDX-License-Identifier: MIT */
/* Prints the bits of what the library says: every row of the tables of tests/agree/vectors/ that are named on the command line,
 * then calls of every public function with inputs that are the same on every machine: here those that go from one call's result
 * to the next, then those of the catalogue's rows. What two builds print must be the same, but for what their mathematical
 * functions do to the last digits.
 *
 * Use: evaluate [--layout] TABLE...   --layout: how the structs lie in memory, and nothing else */
#include "../../unit/vector_rows.h"
#include "draw.h"
#include "say.h"
#include "structs.h"
#include "layouts.h"

#include <stdlib.h>

#ifdef _WIN32
#include <fcntl.h>
#include <io.h>
#endif

enum { ROUNDS = 60, DIES = 8, READINGS = 24, WIDE_ROWS = 16384 + 77, LISTED = 32 };

/* A call with one struct or quantity as its result, filled beforehand so that what is not written shows. */
#define SAY(function, type, arguments)                                                                       \
    do {                                                                                                     \
        type result;                                                                                         \
        memset(&result, 0x55, sizeof result);                                                                \
        say_call(#function, fer_##function arguments);                                                       \
        show_##type(&result);                                                                                \
        say("\n");                                                                                           \
    } while (0)

/* A call that gives a list. */
#define SAY_LIST(function, type, arguments)                                                                  \
    do {                                                                                                     \
        type list[LISTED];                                                                                   \
        size_t found = 0;                                                                                    \
        say_call(#function, fer_##function arguments);                                                       \
        show_size(found);                                                                                    \
        for (size_t at = 0; at < found && at < LISTED; at++) {                                               \
            show_##type(&list[at]);                                                                          \
        }                                                                                                    \
        say("\n");                                                                                           \
    } while (0)

static inline void show_size_t(const size_t *number)
{
    show_size(*number);
}

_Noreturn void vector_refuse(const char *what, const char *word)
{
    say(what);
    say(": ");
    say(word);
    say("\n");
    exit(1);
}

/* Texts are the same everywhere, too. */
static void say_text_of(const char *function, const char *text)
{
    uint64_t sum = 0;
    for (const char *at = text; *at; at++) {
        sum = mixed(sum, (double)(unsigned char)*at);
    }
    say(function);
    show_word(sum);
    say("\n");
}

/* ---- the tables ----------------------------------------------------------------------------------------- */

static void say_table(const char *path)
{
    char line[VECTOR_LINE_CAPACITY];
    vector_row row;
    FILE *file = fopen(path, "rb");
    if (!file || !fgets(line, sizeof line, file)) {
        vector_refuse("cannot be read", path);
    }
    while (fgets(line, sizeof line, file)) {
        vector_run(line, &row);
        say_call(row.function, row.status);
        show_double(row.actual);
        say("\n");
    }
    fclose(file);
}

/* ---- inputs --------------------------------------------------------------------------------------------- */

static fer_joint draw_joint(void)
{
    fer_joint joint = {0};
    joint.hose.inside.mm = between(6.0, 40.0);
    joint.hose.outside.mm = joint.hose.inside.mm + between(4.0, 12.0);
    joint.hose.reinforcement.mm = between(0.2, 1.5);
    joint.stem.outside.mm = joint.hose.inside.mm + between(-0.25, 0.75);
    joint.stem.bore.mm = joint.stem.outside.mm - between(1.0, 4.0);
    joint.ferrule.wall.mm = between(1.0, 3.0);
    joint.ferrule.outside.mm = joint.hose.outside.mm + 2.0 * joint.ferrule.wall.mm + between(0.5, 1.5);
    joint.ferrule.length.mm = between(20.0, 60.0);
    return joint;
}

/* Not every function takes all uncertainties. */
typedef enum { CORRELATED, WITH_DEGREES, WITH_CORNERS, WITHIN_LIMITS, UNCERTAINTY_KINDS } uncertainty_kind;

static fer_uncertainty draw_uncertainty(uncertainty_kind kind, int place)
{
    fer_uncertainty uncertainty = {{between(0.01, 0.125)}, FER_DISTRIBUTION_NORMAL, 0.0};
    if (kind == WITH_DEGREES) {
        uncertainty.degrees_of_freedom = draw_int(3, 40);
    } else if (kind == WITHIN_LIMITS || (kind == WITH_CORNERS && place % 2 == 0)) {
        uncertainty.distribution = place % 4 ? FER_DISTRIBUTION_TRIANGULAR : FER_DISTRIBUTION_RECTANGULAR;
    }
    return uncertainty;
}

static fer_uncertainties draw_uncertainties(uncertainty_kind kind)
{
    fer_uncertainties uncertainties = {0};
    uncertainties.hose_inside = draw_uncertainty(kind, 0);
    uncertainties.hose_outside = draw_uncertainty(kind, 1);
    uncertainties.stem_outside = draw_uncertainty(kind, 2);
    uncertainties.ferrule_wall = draw_uncertainty(kind, 3);
    uncertainties.diameter = draw_uncertainty(kind, 4);
    if (kind == CORRELATED) {
        uncertainties.correlations.hose_inside_hose_outside.fraction = between(-0.5, 0.5);
        uncertainties.correlations.ferrule_wall_diameter.fraction = between(-0.25, 0.25);
    }
    return uncertainties;
}

static fer_press draw_press(void)
{
    fer_press press = {0};
    press.graduation.mm = draw_int(0, 3) ? 0.05 : 0.0;
    press.correction.mm = between(-0.3, 0.3);
    press.opening.mm = between(20.0, 40.0);
    press.capacity.newton = between(500.0, 3000.0) * 1024.0;
    press.segments = draw_int(0, 12) / 3 * 3;
    press.segments = press.segments < 6 ? 0 : press.segments;
    return press;
}

static void draw_dies(fer_die dies[DIES], double about)
{
    for (int i = 0; i < DIES; i++) {
        dies[i].size.mm = cut(about) + (i - 5) * 2.0 + between(0.0, 0.5);
        dies[i].reach.mm = draw_int(0, 1) ? 0.0 : between(1.0, 4.0);
        dies[i].adapter = draw_int(0, 2);
        dies[i].length.mm = draw_int(0, 3) ? 100.0 : 0.0;
    }
}

static fer_material draw_material(void)
{
    const fer_material material = {
        {between(190e3, 215e3)}, {between(0.25, 0.33)}, {between(200.0, 500.0)}, {between(0.0, 900.0)}};
    return material;
}

static fer_order draw_order(void)
{
    fer_order order = {0};
    order.joint = draw_joint();
    order.uncertainties = draw_uncertainties(CORRELATED);
    order.adapter_mounted = draw_int(0, 2);
    order.widest.mm = order.joint.ferrule.outside.mm + between(0.0, 20.0);
    order.ferrule_metal = draw_material();
    order.stem_metal = draw_material();
    order.load.restraint.fraction = draw_int(0, 1) ? between(0.0, 1.0) : 1.0;
    order.load.hose_pressure.mpa = between(0.0, 40.0);
    order.minimum_bore.mm = order.joint.stem.bore.mm - 0.5;
    order.tolerance.mm = draw_int(0, 1) ? between(0.05, 0.4) : 0.0;
    if (draw_int(0, 1)) {
        order.published.mm = order.joint.ferrule.outside.mm - between(1.5, 3.0);
    }
    return order;
}

/* ---- modules of one row ----------------------------------------------------------------------------------- */

static void say_compression(const fer_joint *joint, fer_ratio wanted, fer_model model)
{
    fer_length d;
    SAY(crimp_diameter, fer_length, (joint, wanted, model, &result));
    (void)fer_crimp_diameter(joint, wanted, model, &d);
    d.mm = cut(d.mm);
    SAY(compression, fer_ratio, (joint, d, model, &result));
    SAY(crimped_wall, fer_length, (joint, d, model, &result));
    SAY(crimped_length, fer_length, (joint, d, model, &result));
    SAY(touch_diameter, fer_length, (joint, model, &result));
    SAY(find_compression_slopes, fer_compression_slopes, (joint, d, model, &result));
    SAY(find_diameter_slopes, fer_diameter_slopes, (joint, wanted, model, &result));
    const fer_ratio_range range = {{wanted.fraction}, {wanted.fraction + 0.125}};
    SAY(crimp_window, fer_length_range, (joint, range, model, &result));
}

static void say_joints(void)
{
    for (int round = 0; round < ROUNDS; round++) {
        const fer_joint joint = draw_joint();
        const fer_ratio wanted = {between(0.02, 0.4)};
        say_call("check_joint", fer_check_joint(&joint));
        say("\n");
        SAY(fitted_outside, fer_length, (&joint, &result));
        for (int basis = 0; basis < 4; basis++) {
            for (int flow = 0; flow < 3; flow++) {
                const fer_model model = {(fer_basis)basis, (fer_flow)flow};
                say_compression(&joint, wanted, model);
            }
        }
    }
}

static void say_lobes(void)
{
    for (int round = 0; round < 3 * ROUNDS; round++) {
        const fer_joint joint = draw_joint();
        const fer_length die = {joint.ferrule.outside.mm - between(3.0, 5.0)};
        const fer_length d = {die.mm + between(0.0, 2.0)}, height = {between(0.01, 0.1)};
        const fer_angle angle = {between(-7.0, 7.0)}, near_middle = {between(-0.25, 0.25)};
        const fer_model model = {FER_BASIS_WALL, (fer_flow)draw_int(0, 2)};
        const fer_ratio share = {between(0.05, 0.95)};
        const int n = draw_int(3, 16);
        SAY(lobe_height, fer_length, (d, die, n, &result));
        SAY(crimp_shape, fer_shape, (d, die, n, &result));
        SAY(arc_radius, fer_length, (d, die, n, near_middle, &result));
        SAY(jaws_reading, fer_length, (d, die, n, angle, &result));
        SAY(lobe_offset, fer_length, (die, n, height, &result));
        SAY(gap_offset, fer_length, (joint.ferrule.wall, n, share, &result));
        SAY(find_equivalent_crimp, fer_equivalent_crimp, (&joint, d, die, n, model, &result));
    }
}

static void say_forming(void)
{
    for (int round = 0; round < ROUNDS; round++) {
        const fer_joint joint = draw_joint();
        const fer_material metal = draw_material();
        const fer_forming_load load = {{round % 3 ? between(0.0, 1.0) : 1.0}, {between(0.0, 60.0)}};
        const fer_length d = {cut(joint.ferrule.outside.mm * between(0.8, 0.98))};
        const fer_length reduction = {between(0.0, 0.5)}, gauge = {joint.stem.bore.mm - 0.25};
        const fer_pressure inner = {between(0.0, 50.0)};
        const fer_length length = joint.ferrule.length;
        say_call("check_material", fer_check_material(&metal));
        say("\n");
        SAY(form_ferrule, fer_forming, (&joint.ferrule, d, &metal, load, &result));
        SAY(closing_diameter, fer_length, (&joint.ferrule, d, &metal, load, &result));
        SAY(minimum_reduction, fer_length, (&joint.ferrule, &metal, &result));
        SAY(find_die_force, fer_die_force, (inner, d, length, draw_int(3, 12), &result));
        SAY(load_tube, fer_tube_change,
            (joint.stem.bore, joint.stem.outside, inner, load.hose_pressure, &metal, load, &result));
        SAY(find_stem_strength, fer_stem_strength, (&joint.stem, &metal, load, &result));
        SAY(load_stem, fer_stem_change, (&joint.stem, &metal, load, &result));
        SAY(bore_margin, fer_length, (&joint.stem, reduction, gauge, &result));
    }
}

static void say_uncertainties(void)
{
    const fer_ratio_range range = {{0.15}, {0.25}};
    const fer_ratio coverage = {0.95};
    for (int round = 0; round < ROUNDS; round++) {
        const fer_joint joint = draw_joint();
        const fer_uncertainties uncertainties =
            draw_uncertainties((uncertainty_kind)(round % UNCERTAINTY_KINDS));
        const fer_model model = {(fer_basis)draw_int(0, 3), (fer_flow)draw_int(0, 2)};
        const fer_length anchor = {between(10.0, 20.0)}, step = {0.1};
        fer_length d, target;
        (void)fer_crimp_diameter(&joint, fer_percent(20.0), model, &d);
        d.mm = cut(d.mm);
        SAY(uncertainty_budget, fer_budget, (&joint, &uncertainties, d, coverage, model, &result));
        SAY(second_order_uncertainty, fer_second_order, (&joint, &uncertainties, d, model, &result));
        SAY(worst_case, fer_ratio_range, (&joint, &uncertainties, d, model, &result));
        SAY(conforming_share, fer_shares, (&joint, &uncertainties, range, d, &result));
        SAY_LIST(rank_measurements, fer_improvement,
                 (&joint, &uncertainties, range, d, list, LISTED, &found));
        SAY(best_target, fer_shares, (&joint, &uncertainties, range, &target, &result));
        SAY(cheapest_target, fer_shares, (&joint, &uncertainties, range, 3.0, 7.0, &target, &result));
        SAY(best_graduated_target, fer_shares,
            (&joint, &uncertainties, range, anchor, step, &target, &result));
    }
}

/* ---- press, dies, set-ups ------------------------------------------------------------------------------- */

static void say_press(void)
{
    for (int round = 0; round < 3 * ROUNDS; round++) {
        const fer_press press = draw_press();
        const fer_length target = {between(15.0, 60.0)}, setting = {between(0.0, 8.0)};
        const fer_length_range over = {{target.mm - 10.0}, {target.mm + 10.0}};
        const fer_die_needs needs = {draw_int(0, 2), {draw_int(0, 1) ? 30.0 : 0.0}};
        const fer_force force = {between(100.0, 3000.0) * 1000.0};
        fer_length targets[5];
        fer_die dies[DIES], offers[DIES];
        draw_dies(dies, target.mm);
        draw_dies(offers, target.mm);
        for (int i = 0; i < 5; i++) {
            targets[i].mm = target.mm + between(-2.0, 9.0);
        }
        say_call("check_press", fer_check_press(&press));
        say("\n");
        SAY(dial_setting, fer_dial, (&press, &dies[3], target, &result));
        SAY(dialled_diameter, fer_length, (&press, &dies[3], setting, &result));
        SAY(opening_clearance, fer_length, (&press, &dies[3], target, &result));
        SAY(capacity_use, fer_ratio, (&press, force, &result));
        SAY(choose_die, fer_die_choice, (dies, DIES, target, needs, &result));
        SAY_LIST(find_coverage_gaps, fer_length_range, (dies, DIES, over, list, LISTED, &found));
        SAY_LIST(choose_purchases, fer_die, (dies, 1, targets, 5, offers, DIES, list, LISTED, &found));
    }
}

static void draw_readings(fer_reading readings[READINGS], double about)
{
    for (int i = 0; i < READINGS; i++) {
        readings[i].diameter.mm = i == 5 ? 0.0 : cut(about) + between(-0.08, 0.08);
        readings[i].section = i / 8;
        readings[i].angle.rad = between(0.0, 3.25);
        readings[i].angle_known = 1;
    }
}

static void say_readings(const fer_setup *setup, fer_length target)
{
    const fer_gauge gauge = {{0.01}, {-0.02}, {0.01}};
    const fer_guard guard = {0.0, 0, FER_SIDE_BOTH, draw_int(0, 1) ? 9.0 : 0.0};
    const fer_process process = {{0.0}, {guard.degrees_of_freedom > 0.0 ? 0.0 : 0.05}};
    fer_marks marks = {{between(0.0, 0.7)}, 1, {0.0}, 8};
    fer_reading readings[READINGS];
    draw_readings(readings, target.mm);
    SAY(summarise_readings, fer_reading_summary, (readings, READINGS, &gauge, marks, &result));
    SAY_LIST(summarise_sections, fer_section_summary,
             (readings, READINGS, &gauge, marks, list, LISTED, &found));
    SAY_LIST(find_outliers, size_t, (readings, READINGS, &gauge, marks, list, LISTED, &found));
    SAY(fit_lobes, fer_lobe_fit, (readings, READINGS, &gauge, marks, &result));
    marks.gap_known = 0;
    marks.gap.rad = 0.0;
    SAY(fit_lobes, fer_lobe_fit, (readings, READINGS, &gauge, marks, &result));
    SAY(inspect_crimp, fer_inspection, (setup, readings, READINGS, &gauge, marks, guard, process, &result));
}

static void say_verdicts(void)
{
    const fer_length_range limits = {{23.0}, {23.5}};
    const fer_process process = {{23.25}, {0.0625}};
    for (int round = 0; round < 3 * ROUNDS; round++) {
        const fer_length value = {between(22.75, 23.75)}, u = {between(0.005, 0.1)};
        const fer_guard guard = {between(0.0, 3.0), 0, (fer_side)draw_int(0, 2),
                                 round % 2 ? 0.0 : draw_int(1, 30)};
        const fer_guard known_exactly = {guard.factor, 0, guard.side, 0.0};
        const fer_process known = round % 4 == 1 ? process : (fer_process){{0.0}, {0.0}};
        SAY(judge, fer_verdict, (value, u, limits, guard, known, &result));
        SAY(find_risks, fer_risks, (&process, u, limits, known_exactly, &result));
    }
}

static void say_diagnoses(const fer_order *order, const fer_setup *setup, const fer_press *press,
                          const fer_die *dies)
{
    const fer_prior priors[] = {{FER_CAUSE_PRESS_DRIFT, {0.5}}, {FER_CAUSE_OTHER_DIE, {2.0}}};
    fer_diagnosing known = {0};
    const fer_looking usual = {0};
    fer_suspect suspects[FER_CAUSE_COUNT];
    fer_piece pieces[4];
    size_t suspected;
    const double off = between(-1.5, 1.5);
    known.dial_turn.mm = 1.0;
    known.springback.mm = 0.125;
    known.adapter.mm = 2.0;
    for (int i = 0; i < 4; i++) {
        pieces[i].diameter.mm = cut(setup->target.mm) + off + between(-0.05, 0.05);
        pieces[i].standard_uncertainty.mm = 0.01;
    }
    SAY(diagnose_diameter, fer_diagnosis,
        (setup, press, dies, DIES, pieces, (size_t)draw_int(1, 4), priors, 2, known, suspects,
         FER_CAUSE_COUNT, &suspected, &result));
    SAY_LIST(
        diagnose_diameter, fer_suspect,
        (setup, press, dies, DIES, pieces, 2, NULL, 0, known, list, LISTED, &found, &(fer_diagnosis){0}));
    const fer_look look = {(fer_look_kind)draw_int(0, 2), {0.0}, {0.0}};
    SAY(diagnose_look, fer_diagnosis,
        (&order->joint, setup, pieces[0].diameter, &look, 1, NULL, 0, usual, suspects, FER_CAUSE_COUNT,
         &suspected, &result));
}

/* Every remark in turn, so that what can be confirmed is, and what cannot says so. */
static void say_confirmations(const fer_setup *setup)
{
    for (int remark = 0; remark < FER_REMARK_COUNT; remark += 3) {
        fer_confirmation confirmation;
        SAY(confirm_remark, fer_confirmation, (setup, (fer_remark)remark, &result));
        if (fer_confirm_remark(setup, (fer_remark)remark, &confirmation) == FER_OK) {
            SAY(confirm_setup, fer_setup, (setup, &confirmation, 1, &result));
        }
    }
}

static void say_faults(const fer_order *order, const fer_press *press, const fer_die *dies)
{
    fer_order wrong = *order;
    wrong.joint.hose.outside.mm = 0.0;
    wrong.gauge.resolution.mm = 11.0;
    SAY_LIST(check_order, fer_fault, (order, press, dies, DIES, list, LISTED, &found));
    SAY_LIST(check_order, fer_fault, (&wrong, press, dies, DIES, list, LISTED, &found));
}

static void say_setups(void)
{
    for (int round = 0; round < ROUNDS; round++) {
        const fer_order order = draw_order();
        const fer_press press = draw_press();
        fer_die dies[DIES];
        fer_setup setup;
        draw_dies(dies, order.joint.ferrule.outside.mm - 1.0);
        SAY(plan_setup, fer_setup, (&order, &press, dies, DIES, &result));
        (void)fer_plan_setup(&order, &press, dies, DIES, &setup);
        const fer_length target = {cut(setup.target.mm)};
        say_readings(&setup, target);
        say_confirmations(&setup);
        say_faults(&order, &press, dies);
        if (round % 4 == 0) {
            say_diagnoses(&order, &setup, &press, dies);
        }
    }
}

static void say_adjustments(void)
{
    for (int round = 0; round < ROUNDS; round++) {
        const fer_press press = draw_press();
        const fer_length target = {between(20.0, 30.0)}, limit = {0.2};
        const fer_length_range limits = {{target.mm - 0.125}, {target.mm + 0.125}};
        const fer_gauge no_gauge = {0};
        const fer_adjusting known = {
            {round % 2 ? 0.05 : 0.0}, {round % 2 ? 0.25 : 0.0}, {0.0}, {0.0}, {{0}, {0}, {0}}};
        const fer_ratio coverage = {0.95};
        fer_trial trials[4];
        fer_calibration_point points[7];
        fer_drift_point checks[9];
        fer_calibration line;
        for (int i = 0; i < 4; i++) {
            trials[i].setting.mm = between(1.0, 1.5);
            trials[i].diameter.mm = target.mm + between(-0.25, 0.25);
        }
        for (int i = 0; i < 7; i++) {
            points[i].set.mm = 10.0 + 5.0 * i;
            points[i].measured.mm = 10.0 + 5.0 * i + between(-0.05, 0.1);
            points[i].standard_uncertainty.mm = round % 3 ? between(0.01, 0.05) : 0.0;
        }
        for (int i = 0; i < 9; i++) {
            checks[i].day = 30 * i + draw_int(0, 9);
            checks[i].deviation.mm = 0.01 * i + between(-0.02, 0.02);
        }
        const fer_dial_scale scale = {press.graduation, press.dial_maximum};
        SAY(correct_dial, fer_adjustment, (&scale, trials, 4, target, limits, known, &result));
        SAY(expected_deviation, fer_outlook, (&scale, 1 + round % 9, known, &result));
        SAY(fit_calibration, fer_calibration, (points, 7, no_gauge, &result));
        (void)fer_fit_calibration(points, 7, no_gauge, &line);
        SAY(predict_diameter, fer_prediction, (&line, target, coverage, &result));
        SAY(find_set, fer_prediction, (&line, target, coverage, &result));
        SAY(check_drift, fer_drift, (checks, 9, 300, limit, coverage, no_gauge, &result));
    }
}

/* ---- chance --------------------------------------------------------------------------------------------- */

static void say_tally(const fer_tally *tally)
{
    for (int i = 1; i < 8; i++) {
        const fer_ratio probability = {0.125 * i};
        SAY(find_tally_quantile, fer_ratio, (tally, probability, &result));
    }
    SAY(summarise_tally, fer_simulation, (tally, 2, &result));
}

static void say_simulations(const fer_joint *joint, const fer_uncertainties *uncertainties, fer_length d,
                            fer_trials trials)
{
    static fer_tally tallies[2], sum;
    const fer_ratio_range range = {{0.15}, {0.25}};
    const fer_model plain = {FER_BASIS_WALL, FER_FLOW_NONE};
    fer_trials next = trials;
    fer_crimp_count one, other;
    fer_length drawn;
    next.first_block += trials.blocks;
    for (uint64_t number = 0; number < 20; number++) {
        SAY(draw_joint, fer_joint, (joint, uncertainties, d, number * 977, trials, &result, &drawn));
    }
    SAY(simulate_shares, fer_crimp_count, (joint, uncertainties, range, d, plain, trials, &result));
    (void)fer_simulate_shares(joint, uncertainties, range, d, plain, trials, &one);
    (void)fer_simulate_shares(joint, uncertainties, range, d, plain, next, &other);
    SAY(merge_counts, fer_crimp_count, (&one, &other, &result));
    SAY(find_simulated_shares, fer_simulated_shares, (&one, &result));
    SAY(simulate_compression, fer_tally, (joint, uncertainties, range, d, plain, trials, &result));
    (void)fer_simulate_compression(joint, uncertainties, range, d, plain, trials, &tallies[0]);
    (void)fer_simulate_compression(joint, uncertainties, range, d, plain, next, &tallies[1]);
    SAY(merge_tallies, fer_tally, (&tallies[0], &tallies[1], &result));
    (void)fer_merge_tallies(&tallies[0], &tallies[1], &sum);
    say_tally(&sum);
    SAY(simulate_to_digits, fer_simulation,
        (joint, uncertainties, range, d, 1, plain, trials, &tallies[0], &result));
}

static void say_chance(void)
{
    for (uint32_t i = 0; i < ROUNDS; i++) {
        const fer_random_words counter = {{(uint32_t)draw_word(), i, 0, 7}};
        SAY(find_random_words, fer_random_words, (&counter, draw_word(), &result));
    }
    for (int round = 0; round < 2; round++) {
        const fer_joint joint = draw_joint();
        const fer_uncertainties uncertainties = draw_uncertainties(round ? CORRELATED : WITH_CORNERS);
        const fer_trials trials = {42, 3, 1, round ? FER_SEQUENCE_SOBOL : FER_SEQUENCE_RANDOM, {0.0}};
        fer_length d;
        (void)fer_crimp_diameter(&joint, fer_percent(20.0), (fer_model){FER_BASIS_WALL, FER_FLOW_NONE}, &d);
        d.mm = cut(d.mm);
        say_simulations(&joint, &uncertainties, d, trials);
    }
    fer_die dies[DIES];
    const fer_order order = draw_order();
    const fer_press press = draw_press();
    const fer_trials few = {7, 0, 1, FER_SEQUENCE_RANDOM, {0.0}};
    static uint64_t uses[DIES + 1];
    size_t used;
    draw_dies(dies, order.joint.ferrule.outside.mm - 1.0);
    SAY(simulate_setups, fer_tally, (&order, &press, dies, DIES, few, &result, uses, DIES + 1, &used));
    say("simulate_setups uses");
    for (size_t i = 0; i <= DIES; i++) {
        show_word(uses[i]);
    }
    say("\n");
}

/* ---- rows in bulk --------------------------------------------------------------------------------------- */

/* So many rows that wide vectors are used where the processor has them: one row in a thousand, and one number for all. */
static void say_rows(const char *function, size_t failed, const double *values, size_t count)
{
    uint64_t sum = 0;
    say(function);
    show_size(failed);
    for (size_t i = 0; i < count; i++) {
        sum = mixed(sum, values[i]);
        if (i % 1000 == 0) {
            show_double(values[i]);
        }
    }
    say(" sum");
    show_word(sum);
    say("\n");
}

static void say_many_rows(void)
{
    static fer_joint joints[WIDE_ROWS];
    static fer_ratio ratios[WIDE_ROWS];
    static fer_length lengths[WIDE_ROWS];
    static fer_row_status statuses[WIDE_ROWS];
    static double values[WIDE_ROWS];
    for (size_t i = 0; i < WIDE_ROWS; i++) {
        joints[i] = draw_joint();
        ratios[i].fraction = between(0.05, 0.4);
        lengths[i].mm = joints[i].ferrule.outside.mm - between(1.0, 3.0);
    }
    const fer_joint_columns columns = fer_columns_of_joints(joints);
    for (int flow = 0; flow < 3; flow += 2) {
        const fer_model model = {FER_BASIS_WALL, (fer_flow)flow};
        const size_t failed = fer_crimp_diameters(WIDE_ROWS, &columns, fer_ratio_rows(ratios), model,
                                                  (fer_length *)values, statuses);
        say_rows("crimp_diameters", failed, values, WIDE_ROWS);
    }
    const fer_model plain = {FER_BASIS_WALL, FER_FLOW_NONE};
    const size_t failed =
        fer_compressions(WIDE_ROWS, &columns, fer_length_rows(lengths), plain, (fer_ratio *)values, statuses);
    say_rows("compressions", failed, values, WIDE_ROWS);
}

#define SAY_EACH(function, type, arguments)                                                                  \
    do {                                                                                                     \
        type list[ROUNDS];                                                                                   \
        say(#function);                                                                                      \
        show_size(fer_##function arguments);                                                                 \
        for (size_t at = 0; at < ROUNDS; at++) {                                                             \
            show_int(statuses[at]);                                                                          \
            show_##type(&list[at]);                                                                          \
        }                                                                                                    \
        say("\n");                                                                                           \
    } while (0)

static void say_few_rows(void)
{
    fer_joint joints[ROUNDS];
    fer_length d[ROUNDS], die[ROUNDS], u[ROUNDS];
    fer_die dies[DIES];
    fer_row_status statuses[ROUNDS];
    for (size_t i = 0; i < ROUNDS; i++) {
        joints[i] = draw_joint();
        d[i].mm = joints[i].ferrule.outside.mm - between(1.0, 3.0);
        die[i].mm = d[i].mm - between(0.0, 2.0);
        u[i].mm = between(0.01, 0.05);
    }
    draw_dies(dies, 30.0);
    const fer_joint_columns columns = fer_columns_of_joints(joints);
    const fer_length_column diameters = fer_length_rows(d), sizes = fer_length_rows(die);
    const fer_ratio lower = {0.15}, upper = {0.25};
    const fer_length low = {20.0}, high = {30.0};
    const fer_model model = {FER_BASIS_AREA, FER_FLOW_ENDS_FREE};
    const fer_die_needs needs = {0, {0.0}};
    const fer_press press = draw_press();
    const fer_uncertainties uncertainties = draw_uncertainties(CORRELATED);
    const fer_ratio_range range = {lower, upper};
    const fer_guard guard = {0.0, 0, FER_SIDE_BOTH, 0.0};
    const fer_process process = {{0.0}, {0.0}};
    const fer_material metal = draw_material();
    const fer_forming_load load = {{0.5}, {10.0}};
    SAY_EACH(crimp_diameters, fer_length, (ROUNDS, &columns, fer_same_ratio(&lower), model, list, statuses));
    SAY_EACH(compressions, fer_ratio, (ROUNDS, &columns, diameters, model, list, statuses));
    SAY_EACH(crimp_windows, fer_length_range,
             (ROUNDS, &columns, fer_same_ratio(&lower), fer_same_ratio(&upper), model, list, statuses));
    SAY_EACH(lobe_heights, fer_length, (ROUNDS, diameters, sizes, 8, list, statuses));
    SAY_EACH(choose_dies, fer_die_choice, (ROUNDS, dies, DIES, diameters, needs, list, statuses));
    SAY_EACH(dial_settings, fer_dial, (ROUNDS, &press, sizes, diameters, list, statuses));
    SAY_EACH(conforming_shares, fer_shares,
             (ROUNDS, &columns, &uncertainties, range, diameters, list, statuses));
    SAY_EACH(judge_values, fer_verdict,
             (ROUNDS, diameters, fer_length_rows(u), fer_same_length(&low), fer_same_length(&high), guard,
              process, list, statuses));
    SAY_EACH(form_ferrules, fer_forming, (ROUNDS, &columns, diameters, &metal, load, list, statuses));
    SAY_EACH(
        find_acceptance_zones, fer_acceptance_zone,
        (ROUNDS, fer_same_length(&low), fer_same_length(&high), fer_length_rows(u), guard, list, statuses));
}

/* Orders as columns, and a piece of each that reads what was published. */
static void say_tables(void)
{
    fer_joint joints[ROUNDS];
    fer_length published[ROUNDS];
    fer_die dies[DIES];
    fer_setup setups[ROUNDS];
    fer_reading readings[2 * ROUNDS];
    fer_row_status statuses[ROUNDS];
    fer_fault faults[ROUNDS];
    for (size_t i = 0; i < ROUNDS; i++) {
        const fer_reading empty = {{0.0}, 0, {0.0}, 0};
        joints[i] = draw_joint();
        published[i].mm = joints[i].ferrule.outside.mm - between(1.0, 3.0);
        readings[2 * i] = readings[2 * i + 1] = empty;
        readings[2 * i].diameter.mm = published[i].mm;
        readings[2 * i + 1].diameter.mm = published[i].mm + 0.02;
    }
    draw_dies(dies, 30.0);
    const fer_press press = draw_press();
    const fer_workplace workplace = {&press, dies, DIES};
    const fer_whole_column first = {NULL, 0, 0};
    const fer_length tolerance = {0.3}, gauge = {0.01};
    const fer_marks marks = {{0.0}, 0, {0.0}, 0};
    const fer_guard guard = {0.0, 0, FER_SIDE_BOTH, 0.0};
    const fer_process process = {{0.0}, {0.0}};
    static fer_order_columns orders;
    fer_gauge_columns gauges = {{NULL, 0, 0}, {NULL, 0, 0}, {NULL, 0, 0}};
    orders.joint = fer_columns_of_joints(joints);
    orders.published = fer_length_rows(published);
    orders.tolerance = fer_same_length(&tolerance);
    gauges.standard_uncertainty = gauges.resolution = fer_same_length(&gauge);
    SAY_EACH(plan_setups, fer_setup, (ROUNDS, &orders, &workplace, 1, first, list, statuses, faults));
    (void)fer_plan_setups(ROUNDS, &orders, &workplace, 1, first, setups, statuses, faults);
    SAY_EACH(inspect_crimps, fer_inspection,
             (ROUNDS, setups, readings, 2, &gauges, marks, guard, process, list, statuses));
}

/* ---- text ----------------------------------------------------------------------------------------------- */

#define SAY_TEXT(kind, field, unit, numerator, denominator, zero, symbols)                                   \
    for (int round = 0; round < ROUNDS; round++) {                                                           \
        fer_##kind quantity = {between(-2000.0, 2000.0)}, back;                                              \
        char text[FER_TEXT_CAPACITY];                                                                        \
        size_t length, stop;                                                                                 \
        const int decimals = round % 9 < 8 ? round % 9 - 1 : FER_FRACTION(64);                               \
        say_call("format_" #kind,                                                                            \
                 fer_format_##kind(quantity, FER_UNIT_##unit, decimals, text, sizeof text, &length));        \
        say(" '");                                                                                           \
        say(text);                                                                                           \
        say("'\n");                                                                                          \
        say_call("parse_" #kind, fer_parse_##kind(text, length, &back, &stop));                              \
        show_fer_##kind(&back);                                                                              \
        show_double(fer_to_##unit(back));                                                                    \
        show_size(stop);                                                                                     \
        say("\n");                                                                                           \
        say_call("parse_comma_" #kind, fer_parse_comma_##kind(text, length, &back, &stop));                  \
        show_fer_##kind(&back);                                                                              \
        show_size(stop);                                                                                     \
        say("\n");                                                                                           \
    }

static void say_texts(void)
{
    static const char *const odd[] = {
        "1/3 in", "5 1/2\"",      "1e-320 mm", "123456789012345678901234567890 mm", "0.1e-5 ft",
        "1,5 mm", "1\xC2\xBD IN", "5 Mm",      "4.9406564584124654e-324 mm",        "12.7",
        "3 psi"};
    FER_UNIT_LIST(SAY_TEXT)
    for (size_t i = 0; i < sizeof odd / sizeof *odd; i++) {
        fer_length back;
        size_t stop;
        say_call("parse_length", fer_parse_length(odd[i], strlen(odd[i]), &back, &stop));
        show_fer_length(&back);
        show_size(stop);
        say("\n");
        say_call("parse_comma_length", fer_parse_comma_length(odd[i], strlen(odd[i]), &back, &stop));
        show_fer_length(&back);
        show_size(stop);
        say("\n");
    }
}

static void say_words(void)
{
    for (int i = 0; i < 900; i += 10) {
        say_text_of("status_name", fer_status_name((fer_status)i));
        say_text_of("status_sentence", fer_status_sentence((fer_status)i));
    }
    for (int i = 0; i < FER_CAUSE_COUNT; i++) {
        const fer_ratio weight = fer_usual_weight((fer_cause)i);
        say("usual_weight");
        show_fer_ratio(&weight);
        say("\n");
        say_text_of("cause_name", fer_cause_name((fer_cause)i));
        say_text_of("cause_sentence", fer_cause_sentence((fer_cause)i));
        say_text_of("remark_name", fer_remark_name((fer_remark)i));
        say_text_of("remark_sentence", fer_remark_sentence((fer_remark)i));
        say_text_of("check_name", fer_check_name((fer_check)i));
        say_text_of("check_sentence", fer_check_sentence((fer_check)i));
        say_text_of("caution_name", fer_caution_name((fer_caution)i));
        say_text_of("caution_text", fer_caution_text((fer_caution)i));
        say_text_of("unit_symbol", fer_unit_symbol((fer_unit)i));
    }
}

#include "calls.h"

int main(int count, char **words)
{
    static char buffer[1 << 16];
    setvbuf(stdout, buffer, _IOFBF, sizeof buffer);
#ifdef _WIN32
    _setmode(_fileno(stdout), _O_BINARY);
#endif
    if (count > 1 && strcmp(words[1], "--layout") == 0) {
        show_layouts();
        return 0;
    }
    for (int i = 1; i < count; i++) {
        say_table(words[i]);
    }
    say_joints();
    say_lobes();
    say_forming();
    say_uncertainties();
    say_press();
    say_setups();
    say_verdicts();
    say_adjustments();
    say_chance();
    say_many_rows();
    say_few_rows();
    say_tables();
    say_texts();
    say_words();
    call_catalogue(ROUNDS);
    say("end\n");
    return ferror(stdout) != 0;
}
