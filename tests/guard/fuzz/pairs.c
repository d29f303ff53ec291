/* SPDX-License-Identifier: MIT */
/* What holds between functions: there and back, parts and whole, answers that another function can check. */
#include "frame.h"

#include <float.h>
#include <math.h>
#include <string.h>

static const void *argument(const fuzz_frame *frame, const char *name)
{
    return frame->at[fuzz_place(frame->call, name)];
}

static double number(const fuzz_frame *frame, const char *name)
{
    double found;
    memcpy(&found, argument(frame, name), sizeof found);
    return found;
}

static size_t count(const fuzz_frame *frame, const char *list)
{
    return frame->counts[fuzz_place(frame->call, list)];
}

static size_t found(const fuzz_frame *frame, const char *capacity)
{
    size_t answer;
    memcpy(&answer, frame->at[fuzz_place(frame->call, capacity) + 2], sizeof answer);
    return answer;
}

#define QUANTITY(kind, name) (*(const fer_##kind *)argument(frame, name))
#define PROMISE(condition)   FUZZ_REQUIRE(condition, frame->call->name)

static int is_near(double one, double other, double error)
{
    return fabs(one - other) <= error;
}

static int is_share(double x)
{
    return x >= -1e-12 && x <= 1.0 + 1e-12;
}

/* ---- compression and diameter ----------------------------------------------------------------------------- */

/* What the last bits of the inputs do to a compression: no way back can be nearer. */
static double compression_error(const fer_joint *joint, fer_length diameter, fer_model model)
{
    fer_compression_slopes s;
    if (fer_find_compression_slopes(joint, diameter, model, &s) != FER_OK) {
        return INFINITY;
    }
    const double lengths = fabs(s.hose_inside.per_mm * joint->hose.inside.mm) +
                           fabs(s.hose_outside.per_mm * joint->hose.outside.mm) +
                           fabs(s.stem_outside.per_mm * joint->stem.outside.mm) +
                           fabs(s.ferrule_wall.per_mm * joint->ferrule.wall.mm) +
                           fabs(s.ferrule_outside.per_mm * joint->ferrule.outside.mm) +
                           fabs(s.diameter.per_mm * diameter.mm);
    return 100.0 * DBL_EPSILON * (1.0 + lengths);
}

static void after_crimp_diameter(const fuzz_frame *frame)
{
    const fer_joint *const joint = argument(frame, "joint");
    const fer_model model = QUANTITY(model, "model");
    const fer_length diameter = QUANTITY(length, "diameter");
    fer_ratio back;
    PROMISE(diameter.mm > 0.0);
    if (fer_compression(joint, diameter, model, &back) == FER_OK) {
        PROMISE(
            is_near(back.fraction, number(frame, "compression"), compression_error(joint, diameter, model)));
    }
}

static void after_compression(const fuzz_frame *frame)
{
    const fer_joint *const joint = argument(frame, "joint");
    const fer_model model = QUANTITY(model, "model");
    const fer_length diameter = QUANTITY(length, "diameter");
    const fer_ratio compression = QUANTITY(ratio, "compression");
    fer_length back;
    fer_ratio again;
    if (fer_crimp_diameter(joint, compression, model, &back) == FER_OK &&
        fer_compression(joint, back, model, &again) == FER_OK) {
        PROMISE(is_near(again.fraction, compression.fraction, compression_error(joint, diameter, model)));
    }
}

static void after_crimp_window(const fuzz_frame *frame)
{
    const fer_length_range window = QUANTITY(length_range, "window");
    PROMISE(window.lower.mm <= window.upper.mm);
}

static void after_worst_case(const fuzz_frame *frame)
{
    const fer_ratio_range range = QUANTITY(ratio_range, "range");
    fer_ratio nominal;
    PROMISE(range.lower.fraction <= range.upper.fraction);
    PROMISE(fer_compression(argument(frame, "joint"), QUANTITY(length, "diameter"), QUANTITY(model, "model"),
                            &nominal) == FER_OK);
    const double error = 1e-11 * (1.0 + fabs(nominal.fraction));
    PROMISE(nominal.fraction >= range.lower.fraction - error &&
            nominal.fraction <= range.upper.fraction + error);
}

/* ---- yields and probabilities ------------------------------------------------------------------------------ */

static void check_shares(const fuzz_frame *frame, fer_shares shares)
{
    PROMISE(is_share(shares.inside.fraction) && is_share(shares.below.fraction) &&
            is_share(shares.above.fraction));
    PROMISE(is_near(shares.inside.fraction + shares.below.fraction + shares.above.fraction, 1.0, 1e-10));
}

static void after_shares(const fuzz_frame *frame)
{
    check_shares(frame, QUANTITY(shares, "shares"));
}

/* No diameter beside the best one is better. */
static void after_best_target(const fuzz_frame *frame)
{
    const fer_length target = QUANTITY(length, "target");
    const fer_shares best = QUANTITY(shares, "shares");
    check_shares(frame, best);
    for (int i = -2; i <= 2; i++) {
        fer_shares shares;
        if (fer_conforming_share(argument(frame, "joint"), argument(frame, "uncertainties"),
                                 QUANTITY(ratio_range, "range"), fer_mm(target.mm * (1.0 + 1e-4 * i)),
                                 &shares) == FER_OK) {
            PROMISE(shares.inside.fraction <= best.inside.fraction + 1e-9);
        }
    }
}

static void after_rank_measurements(const fuzz_frame *frame)
{
    const fer_improvement *const improvements = argument(frame, "improvements");
    for (size_t i = 0; i < found(frame, "improvements"); i++) {
        PROMISE(improvements[i].share.fraction >= 0.0); /* with correlations it may be above 1 */
        PROMISE(i == 0 || improvements[i].exact.fraction <= improvements[i - 1].exact.fraction);
    }
}

static void after_judge(const fuzz_frame *frame)
{
    const fer_verdict v = QUANTITY(verdict, "verdict");
    PROMISE(is_share(v.conforming.fraction) && is_share(v.below.fraction) && is_share(v.above.fraction));
    PROMISE(is_near(v.conforming.fraction + v.below.fraction + v.above.fraction, 1.0, 1e-12));
    PROMISE(v.guard.mm >= 0.0 && (!v.zone_empty || v.accept.lower.mm > v.accept.upper.mm));
    PROMISE(!v.zone_empty || v.decision != FER_DECISION_ACCEPT);
}

static void after_find_acceptance_zone(const fuzz_frame *frame)
{
    const fer_acceptance_zone z = QUANTITY(acceptance_zone, "zone");
    PROMISE(z.guard.mm >= 0.0);
    PROMISE(z.side != FER_SIDE_BOTH || (z.accept.lower.mm > z.accept.upper.mm) == (z.empty != 0));
}

static void after_inspect_crimp(const fuzz_frame *frame)
{
    const fer_inspection i = QUANTITY(inspection, "inspection");
    const unsigned forbid = 1u << FER_FINDING_GAUGE_CANNOT_ACCEPT | 1u << FER_FINDING_LIMITS_TOO_UNCERTAIN |
                            1u << FER_FINDING_TOO_FEW_READINGS | 1u << FER_FINDING_GAUGE_TAKEN_AS_EXACT |
                            1u << FER_FINDING_PROCESS_NOT_USED;
    PROMISE(i.decision == i.verdict.decision);
    PROMISE(i.decision != FER_DECISION_ACCEPT || !(i.findings.bits & forbid));
    PROMISE(i.worst_index < count(frame, "readings"));
}

static void after_find_risks(const fuzz_frame *frame)
{
    const fer_risks r = QUANTITY(risks, "risks");
    PROMISE(is_share(r.conforming.fraction) && is_share(r.consumer.fraction) &&
            is_share(r.producer.fraction));
    PROMISE(is_near(r.accepted.fraction + r.rejected.fraction + r.undecided.fraction, 1.0, 1e-12));
    const fer_process *const process = argument(frame, "process");
    if (process->standard_deviation.mm >
        1e-290) { /* below, the places between a limit and the mean are no doubles */
        PROMISE(r.consumer.fraction <= r.accepted.fraction + 1e-12 &&
                r.producer.fraction <= r.conforming.fraction + 1e-12);
        PROMISE(is_near(r.conforming.fraction - r.producer.fraction + r.consumer.fraction,
                        r.accepted.fraction, 1e-10));
    }
}

static void after_diagnosis(const fuzz_frame *frame)
{
    const fer_suspect *const suspects = argument(frame, "suspects");
    const fer_diagnosis d = QUANTITY(diagnosis, "diagnosis");
    double sum = 0.0;
    for (size_t i = 0; i < found(frame, "suspects"); i++) {
        sum += suspects[i].probability.fraction;
        PROMISE(is_share(suspects[i].probability.fraction) && is_share(suspects[i].prior.fraction));
        PROMISE(i == 0 || suspects[i].probability.fraction <= suspects[i - 1].probability.fraction);
    }
    PROMISE(sum <= 1.0 + 1e-12);
    PROMISE(d.bits >= 0.0 && d.bits <= 1.0 + 1e-12 && d.bits_all >= 0.0);
}

/* ---- dies and dial ---------------------------------------------------------------------------------------- */

static double reach_of(const fer_die *die)
{
    return die->reach.mm == 0.0 ? FER_DIE_REACH_USUAL_MM : die->reach.mm;
}

static void after_choose_die(const fuzz_frame *frame)
{
    const fer_die_choice c = QUANTITY(die_choice, "choice");
    const fer_die *const dies = argument(frame, "dies");
    const double target = number(frame, "target");
    const size_t dies_count = count(frame, "dies");
    const fer_die_needs needs = QUANTITY(die_needs, "needs");
    PROMISE(c.found ? c.index < dies_count : c.index == dies_count);
    PROMISE(!c.nearest_found || c.nearest_index < dies_count);
    if (c.found) {
        PROMISE(memcmp(&c.die.size, &dies[c.index].size, sizeof c.die.size) == 0);
        PROMISE(c.die.size.mm <= target && target <= c.die.size.mm + reach_of(&c.die));
    }
    for (size_t i = 0; i < dies_count; i++) {
        const int is_long_enough = !(dies[i].length.mm > 0.0 && dies[i].length.mm < needs.ferrule_length.mm);
        if (is_long_enough && dies[i].size.mm <= target && target <= dies[i].size.mm + reach_of(&dies[i])) {
            PROMISE(c.found && c.die.size.mm >= dies[i].size.mm);
        }
    }
}

/* 1: a die reaches the diameter. */
static int is_reached(const fer_die *dies, size_t dies_count, double diameter)
{
    for (size_t i = 0; i < dies_count; i++) {
        if (dies[i].size.mm <= diameter && diameter <= dies[i].size.mm + reach_of(&dies[i])) {
            return 1;
        }
    }
    return 0;
}

static void after_find_coverage_gaps(const fuzz_frame *frame)
{
    const fer_die *const dies = argument(frame, "dies");
    const fer_length_range *const gaps = argument(frame, "gaps"), over = QUANTITY(length_range, "over");
    const size_t gap_count = found(frame, "gaps"), dies_count = count(frame, "dies");
    double last = over.lower.mm;
    for (size_t i = 0; i <= gap_count; i++) {
        const double from = i < gap_count ? gaps[i].lower.mm : over.upper.mm,
                     to = i < gap_count ? gaps[i].upper.mm : from;
        PROMISE(from >= last && to <= over.upper.mm && (i == gap_count || to > from));
        const double covered = last + 0.5 * (from - last), open = from + 0.5 * (to - from);
        PROMISE(!(covered > last && covered < from) || is_reached(dies, dies_count, covered));
        PROMISE(!(open > from && open < to) || !is_reached(dies, dies_count, open));
        last = to;
    }
}

static void after_choose_purchases(const fuzz_frame *frame)
{
    const fer_length *const targets = argument(frame, "targets");
    const fer_die *const dies = argument(frame, "dies"), *const bought = argument(frame, "purchases");
    PROMISE(found(frame, "purchases") <= count(frame, "targets"));
    for (size_t i = 0; i < count(frame, "targets"); i++) {
        PROMISE(is_reached(dies, count(frame, "dies"), targets[i].mm) ||
                is_reached(bought, found(frame, "purchases"), targets[i].mm));
    }
}

static void after_dial_setting(const fuzz_frame *frame)
{
    const fer_press *const press = argument(frame, "press");
    const fer_die *const die = argument(frame, "die");
    const fer_dial dial = QUANTITY(dial, "dial");
    fer_length made;
    const double error = 16.0 * DBL_EPSILON * (fabs(number(frame, "target")) + fabs(press->correction.mm));
    PROMISE(fabs(dial.remainder.mm) <= 0.5 * press->graduation.mm + error);
    if (fer_dialled_diameter(press, die, dial.setting, &made) == FER_OK) {
        PROMISE(is_near(made.mm, dial.expected.mm, error));
    }
}

/* ---- lobe, forming, calibration ---------------------------------------------------------------------------- */

static void after_lobe_height(const fuzz_frame *frame)
{
    const double height = number(frame, "height"), diameter = number(frame, "diameter");
    const fer_length die_size = QUANTITY(length, "die_size");
    const int segments = *(const int *)argument(frame, "segments");
    fer_length offset, again;
    PROMISE(height >= 0.0 && height <= 0.5 * diameter);
    if (fer_lobe_offset(die_size, segments, fer_mm(height), &offset) == FER_OK &&
        fer_lobe_height(fer_mm(die_size.mm + offset.mm), die_size, segments, &again) == FER_OK) {
        PROMISE(is_near(again.mm, height, 1e-12 * height + 4.0 * DBL_EPSILON * (die_size.mm + offset.mm)));
    }
}

static void after_closing_diameter(const fuzz_frame *frame)
{
    const double wanted = number(frame, "crimp_diameter");
    fer_forming forming;
    const fer_status status =
        fer_form_ferrule(argument(frame, "ferrule"), QUANTITY(length, "diameter"),
                         argument(frame, "material"), QUANTITY(forming_load, "load"), &forming);
    PROMISE(status == FER_OK);
    PROMISE(is_near(forming.crimp_diameter.mm, wanted, 1e-7 * wanted));
    PROMISE(number(frame, "diameter") <= wanted);
}

static void after_form_ferrule(const fuzz_frame *frame)
{
    const fer_forming f = QUANTITY(forming, "forming");
    PROMISE(f.wall.mm > 0.0 && f.bore.mm > 0.0 && (f.release_status != FER_OK || f.springback.mm >= 0.0) &&
            f.pressure.mpa >= 0.0);
    PROMISE(
        is_near(f.bore.mm + 2.0 * f.wall.mm, number(frame, "diameter"), 1e-12 * number(frame, "diameter")));
}

static void after_find_set(const fuzz_frame *frame)
{
    const fer_prediction set = QUANTITY(prediction, "prediction");
    const fer_calibration *const line = argument(frame, "calibration");
    PROMISE(set.lower.mm <= set.upper.mm);
    if (fabs(line->slope.fraction) < 1e-100) {
        return; /* what the division gives has few digits */
    }
    const double back = line->measured_mean.mm + line->slope.fraction * (set.value.mm - line->set_mean.mm);
    const double size = fabs(line->measured_mean.mm) +
                        fabs(line->slope.fraction) * (fabs(set.value.mm) + fabs(line->set_mean.mm));
    PROMISE(is_near(back, number(frame, "diameter"), 1e-13 * (size + number(frame, "diameter"))));
}

static void after_predict_diameter(const fuzz_frame *frame)
{
    const fer_prediction p = QUANTITY(prediction, "prediction");
    PROMISE(p.lower.mm <= p.value.mm && p.value.mm <= p.upper.mm);
}

/* ---- readings --------------------------------------------------------------------------------------------- */

static void after_summarise_readings(const fuzz_frame *frame)
{
    const fer_reading_summary s = QUANTITY(reading_summary, "summary");
    const double error = 4.0 * DBL_EPSILON * s.maximum.mm;
    PROMISE(s.count + s.missing + s.over_gaps == count(frame, "readings"));
    PROMISE(s.minimum.mm <= s.mean.mm + error && s.mean.mm <= s.maximum.mm + error);
    PROMISE(s.standard_uncertainty.mm >= 0.0 && s.degrees_of_freedom >= 0.0);
    PROMISE(!s.outlier_found || s.outlier_index < count(frame, "readings"));
}

static void after_summarise_sections(const fuzz_frame *frame)
{
    const fer_section_summary *const s = argument(frame, "sections");
    for (size_t i = 0; i < found(frame, "sections"); i++) {
        PROMISE(s[i].count > 0 && s[i].section >= 0 && s[i].section < FER_SECTIONS_MAXIMUM);
        PROMISE(i == 0 || s[i].section > s[i - 1].section);
    }
}

static void after_find_outliers(const fuzz_frame *frame)
{
    const size_t *const indices = argument(frame, "indices");
    for (size_t i = 0; i < found(frame, "indices"); i++) {
        PROMISE(indices[i] < count(frame, "readings"));
        for (size_t j = 0; j < i; j++) {
            PROMISE(indices[i] != indices[j]);
        }
    }
}

/* ---- simulation ------------------------------------------------------------------------------------------- */

static void after_merge_tallies(const fuzz_frame *frame)
{
    fer_tally other_way;
    PROMISE(fer_merge_tallies(argument(frame, "other"), argument(frame, "one"), &other_way) == FER_OK);
    PROMISE(memcmp(&other_way.count, (const char *)argument(frame, "sum") + offsetof(fer_tally, count),
                   sizeof other_way.count) == 0);
}

static void after_simulate_shares(const fuzz_frame *frame)
{
    const fer_crimp_count c = QUANTITY(crimp_count, "count");
    fer_simulated_shares shares;
    PROMISE(c.trials == c.blocks * FER_TRIALS_A_BLOCK && c.below + c.above + c.impossible <= c.trials);
    PROMISE(fer_find_simulated_shares(&c, &shares) == FER_OK);
}

static void after_find_simulated_shares(const fuzz_frame *frame)
{
    const fer_simulated_shares y = QUANTITY(simulated_shares, "shares");
    PROMISE(is_share(y.shares.inside.fraction) && y.standard_error.fraction >= 0.0);
}

static void after_simulate_compression(const fuzz_frame *frame)
{
    fer_simulation s;
    PROMISE(fer_summarise_tally(argument(frame, "tally"), 2, &s) == FER_OK);
    PROMISE(s.interval.lower.fraction <= s.interval.upper.fraction);
}

/* ---- units ------------------------------------------------------------------------------------------------ */

/* A number in a unit and back, where neither overflows nor is so small that digits are lost. */
static void check_unit(const fuzz_frame *frame, double number_in_unit, double base, double back, double zero)
{
    if (isfinite(base) && isfinite(back) && fabs(base) > 1e-290 && fabs(number_in_unit) > 1e-290 &&
        fabs(base) < 1e290) {
        PROMISE(is_near(back, number_in_unit, 3.0 * DBL_EPSILON * (fabs(number_in_unit) + 2.0 * zero)));
    }
}

#define AFTER_UNIT(kind, field, unit, numerator, denominator, zero, symbols)                                 \
    static void after_unit_##unit(const fuzz_frame *frame)                                                   \
    {                                                                                                        \
        const fer_##kind made = QUANTITY(kind, "return");                                                    \
        check_unit(frame, number(frame, "number"), made.field, fer_to_##unit(made), zero);                   \
    }
FER_UNIT_LIST(AFTER_UNIT)

#define UNIT_ROW(kind, field, unit, numerator, denominator, zero, symbols) {#unit, after_unit_##unit},

void fuzz_check_pairs(const fuzz_frame *frame)
{
    static const struct {
        const char *function;
        void (*check)(const fuzz_frame *frame);
    } rows[] = {FER_UNIT_LIST(UNIT_ROW){"crimp_diameter", after_crimp_diameter},
                {"compression", after_compression},
                {"crimp_window", after_crimp_window},
                {"worst_case", after_worst_case},
                {"conforming_share", after_shares},
                {"best_target", after_best_target},
                {"cheapest_target", after_shares},
                {"best_graduated_target", after_shares},
                {"rank_measurements", after_rank_measurements},
                {"judge", after_judge},
                {"find_acceptance_zone", after_find_acceptance_zone},
                {"inspect_crimp", after_inspect_crimp},
                {"find_risks", after_find_risks},
                {"diagnose_diameter", after_diagnosis},
                {"diagnose_look", after_diagnosis},
                {"choose_die", after_choose_die},
                {"find_coverage_gaps", after_find_coverage_gaps},
                {"choose_purchases", after_choose_purchases},
                {"dial_setting", after_dial_setting},
                {"lobe_height", after_lobe_height},
                {"closing_diameter", after_closing_diameter},
                {"form_ferrule", after_form_ferrule},
                {"find_set", after_find_set},
                {"predict_diameter", after_predict_diameter},
                {"summarise_readings", after_summarise_readings},
                {"summarise_sections", after_summarise_sections},
                {"find_outliers", after_find_outliers},
                {"merge_tallies", after_merge_tallies},
                {"simulate_shares", after_simulate_shares},
                {"find_simulated_shares", after_find_simulated_shares},
                {"simulate_compression", after_simulate_compression}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        if (strcmp(rows[i].function, frame->call->name) == 0) {
            rows[i].check(frame);
            return;
        }
    }
}
