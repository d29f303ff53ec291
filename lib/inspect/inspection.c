/* SPDX-License-Identifier: MIT */
/* A set-up, the readings of a piece, and what they allow to say about it.
 * Method: the verdict on the mean of the readings, then rules that may only take an acceptance away.
 * Formulas: include/ferrule/inspection.h; zones and guard bands in base/numeric/zone.h. */
#include <ferrule/inspection.h>

#include "base/acceptance_private.h"
#include "base/value_private.h"
#include "base/words.h"
#include "base/numeric/special.h"
#include "base/numeric/zone.h"
#include "crimp/setup_private.h"
#include "judge/conformity_private.h"
#include "judge/reading_private.h"

#include <string.h>

/* Deviate beyond which the readings contradict the process: both tails hold 0.1 %. */
static const double process_deviate = 3.2905267314918945;

/* What was measured and by which rule it is judged. */
typedef struct {
    const fer_setup *setup;
    const fer_reading *readings;
    size_t count;
    const fer_gauge *gauge;
    fer_marks marks;
    fer_guard guard;
    fer_process process;
} piece;

static void find(fer_inspection *inspection, int applies, fer_finding finding)
{
    if (applies) {
        fer_set_add(&inspection->findings.bits, (int)finding);
    }
}

/* ---- limits -------------------------------------------------------------------------------------------- */

static fer_status check_setup(const fer_setup *setup)
{
    FER_REQUIRE(setup, FER_ARGUMENT_MISSING);
    FER_REQUIRE(strcmp(fer_status_name(setup->limits.status), "UNKNOWN") != 0, FER_SETUP_INCOMPLETE);
    FER_TRY(setup->limits.status);
    FER_REQUIRE(fer_is_length(setup->target), FER_SETUP_INCOMPLETE);
    FER_REQUIRE(fer_is_length(setup->limits.value.lower) && fer_is_length(setup->limits.value.upper),
                FER_SETUP_INCOMPLETE);
    FER_REQUIRE((unsigned)setup->applies_to <= FER_APPLIES_TO_MEAN, FER_APPLIES_TO_UNKNOWN);
    return FER_OK;
}

static void find_limits(const piece *p, fer_inspection *inspection)
{
    fer_acceptance_zone narrowed;
    const fer_limits_kind kind = fer_judging_limits(p->setup, p->guard, &inspection->limits, &narrowed);
    find(inspection, kind == FER_LIMITS_TAKEN_AS_EXACT, FER_FINDING_LIMITS_TAKEN_AS_EXACT);
    find(inspection, kind == FER_LIMITS_TOO_UNCERTAIN, FER_FINDING_LIMITS_TOO_UNCERTAIN);
    find(inspection, kind == FER_LIMITS_NARROWED, FER_FINDING_LIMITS_NARROWED);
}

/* ---- the mean ------------------------------------------------------------------------------------------- */

/* Degrees of freedom for the mean of `count` readings with the scatter s that has `degrees`: see inspection.h. */
static double degrees_of_mean(const piece *p, double scatter, double count, double degrees,
                              double standard_uncertainty)
{
    const double step = p->gauge->resolution.mm / sqrt(12.0);
    const double factor = fer_guard_factor(&p->guard);
    const double estimated = fmax(scatter, step) / sqrt(count);
    const double known = sqrt(fmax(0.0, standard_uncertainty * standard_uncertainty - estimated * estimated));
    return p->guard.degrees_of_freedom > 0.0 ? p->guard.degrees_of_freedom
                                             : fer_combined_degrees(factor, known, estimated, degrees);
}

/* The guard of a mean, with the degrees of freedom of its uncertainty; no scatter, no degrees. */
static fer_guard guard_of_mean(const piece *p, double scatter, double count, double degrees, double u)
{
    fer_guard guard = p->guard;
    if (degrees > 0.0) {
        guard.degrees_of_freedom = degrees_of_mean(p, scatter, count, degrees, u);
    }
    return guard;
}

/* The same guard band as one of a normal distribution: with a process nothing else can be combined. */
static double normal_uncertainty(const fer_guard *guard, double u)
{
    const double factor = fer_guard_factor(guard);
    if (guard->degrees_of_freedom == 0.0) {
        return u;
    }
    const double wide =
        u * -fer_student_quantile(fer_normal_cdf(-factor), guard->degrees_of_freedom) / factor;
    return fmin(wide, FER_LENGTH_MAXIMUM_MM);
}

/* With the process, where it is known and does not contradict the readings. The verdict without it stands in
 * `inspection`; what is accepted has to be so by both. */
static fer_status weigh_process(const piece *p, const fer_guard *guard, fer_inspection *inspection)
{
    const fer_length mean = inspection->summary.mean;
    const fer_guard normal = {guard->factor, guard->without, guard->side, 0.0};
    fer_verdict with;
    if (p->process.standard_deviation.mm ==
        0.0) { /* none, or not one: a mean without a standard deviation has its status */
        return fer_judge(mean, inspection->summary.standard_uncertainty, inspection->limits, normal,
                         p->process, &with);
    }
    const double u = normal_uncertainty(guard, inspection->summary.standard_uncertainty.mm);
    FER_TRY(fer_judge(mean, fer_mm(u), inspection->limits, normal, p->process, &with));
    const double away = fabs(mean.mm - p->process.mean.mm);
    if (away > process_deviate * hypot(u, p->process.standard_deviation.mm)) {
        find(inspection, 1, FER_FINDING_PROCESS_NOT_USED);
        return FER_OK;
    }
    const fer_decision alone = inspection->verdict.decision;
    inspection->verdict = with;
    if (alone != FER_DECISION_ACCEPT || with.decision != FER_DECISION_ACCEPT) {
        inspection->verdict.decision =
            alone == FER_DECISION_REJECT ? FER_DECISION_REJECT : FER_DECISION_UNDECIDED;
    }
    return FER_OK;
}

static fer_status judge_mean(const piece *p, fer_inspection *inspection)
{
    const fer_reading_summary *summary = &inspection->summary;
    const double n = (double)summary->count, u = summary->standard_uncertainty.mm;
    const fer_process nothing = {{0.0}, {0.0}};
    const double scatter = n > 1.0 ? summary->scatter.value.mm : 0.0;
    const fer_guard guard = guard_of_mean(p, scatter, n, n - 1.0, u);
    FER_TRY(fer_judge(summary->mean, summary->standard_uncertainty, inspection->limits, guard, nothing,
                      &inspection->verdict));
    FER_TRY(weigh_process(p, &guard, inspection));
    find(inspection, n < 2.0 && !p->guard.without, FER_FINDING_TOO_FEW_READINGS);
    find(inspection, inspection->verdict.decision == FER_DECISION_UNDECIDED, FER_FINDING_NEAR_LIMIT);
    return FER_OK;
}

/* ---- readings and sections -------------------------------------------------------------------------------- */

/* How far a diameter is inside the limits that count; below 0: outside. */
static double margin_of(const fer_inspection *inspection, fer_side side, double diameter)
{
    const double above = diameter - inspection->limits.lower.mm,
                 below = inspection->limits.upper.mm - diameter;
    return side == FER_SIDE_LOWER ? above : side == FER_SIDE_UPPER ? below : fmin(above, below);
}

static void find_worst(const piece *p, fer_inspection *inspection)
{
    double smallest = INFINITY;
    for (size_t i = 0; i < p->count; i++) {
        const double diameter = p->readings[i].diameter.mm + p->gauge->correction.mm;
        const double margin = margin_of(inspection, p->guard.side, diameter);
        if (fer_reading_counts(&p->readings[i], &p->marks) && margin < smallest) {
            smallest = margin;
            inspection->worst_index = i;
            inspection->worst.mm = diameter;
            inspection->worst_section = p->readings[i].section;
        }
    }
}

/* A millionth of a step decides nothing: 23.37 is 2337 steps of 0.01 in decimals, not in doubles. */
static int is_in_zone(const fer_acceptance_zone *zone, double shown, double step)
{
    const double slack = 1e-6 * step;
    return !zone->empty && (zone->side == FER_SIDE_UPPER || shown >= zone->accept.lower.mm - slack) &&
           (zone->side == FER_SIDE_LOWER || shown <= zone->accept.upper.mm + slack);
}

static fer_status find_zone(const piece *p, fer_inspection *inspection)
{
    FER_TRY(fer_gauge_zone(inspection->limits, p->gauge, p->guard, &inspection->zone));
    for (size_t i = 0; i < p->count; i++) {
        const double shown = p->readings[i].diameter.mm;
        find(inspection,
             fer_reading_counts(&p->readings[i], &p->marks) &&
                 !is_in_zone(&inspection->zone, shown, p->gauge->resolution.mm),
             FER_FINDING_READING_OUTSIDE_ZONE);
    }
    return FER_OK;
}

static void take_acceptance(fer_inspection *inspection)
{
    if (inspection->decision == FER_DECISION_ACCEPT) {
        inspection->decision = FER_DECISION_UNDECIDED;
    }
}

/* Of a reading or a section mean, by limits, guard and gauge that the verdict on the mean has checked. */
static fer_decision decision_on(const fer_inspection *inspection, fer_length value, double u, fer_guard guard)
{
    const fer_process nothing = {{0.0}, {0.0}};
    fer_verdict verdict;
    (void)fer_judge(value, fer_mm(u), inspection->limits, guard, nothing, &verdict);
    return verdict.decision; /* undecided after a failure */
}

static void judge_readings(const piece *p, fer_inspection *inspection)
{
    const int every = inspection->applies_to == FER_APPLIES_TO_EVERY_READING;
    const double u = fer_reading_uncertainty(p->gauge->standard_uncertainty.mm, p->gauge->resolution.mm);
    if (every && decision_on(inspection, inspection->worst, u, p->guard) == FER_DECISION_REJECT) {
        inspection->decision = FER_DECISION_REJECT;
    }
    if (fer_set_has(inspection->findings.bits, FER_FINDING_READING_OUTSIDE_ZONE)) {
        find(inspection, !every && inspection->decision == FER_DECISION_ACCEPT,
             FER_FINDING_LIMITS_NOT_STATED);
        take_acceptance(inspection);
    }
}

static void judge_section(const piece *p, const fer_section_summary *section, double scatter, double degrees,
                          fer_inspection *inspection)
{
    const double gauge = p->gauge->standard_uncertainty.mm, step = p->gauge->resolution.mm / sqrt(12.0);
    const double n = (double)section->count;
    const double u = hypot(gauge, fmax(scatter / sqrt(n), step));
    const fer_decision decision =
        decision_on(inspection, section->mean, u, guard_of_mean(p, scatter, n, degrees, u));
    if (decision == FER_DECISION_REJECT) {
        inspection->decision = FER_DECISION_REJECT;
    } else if (decision == FER_DECISION_UNDECIDED) {
        find(inspection, 1, FER_FINDING_NEAR_LIMIT);
        take_acceptance(inspection);
    }
}

static void judge_sections(const piece *p, fer_inspection *inspection)
{
    fer_section_summary sections[FER_SECTIONS_MAXIMUM];
    size_t degrees;
    const double scatter = fer_scatter_within_sections(p->readings, p->count, p->gauge, &p->marks, &degrees);
    const size_t found = fer_summarise_sections_checked(p->readings, p->count, p->gauge, &p->marks, sections);
    find(inspection, degrees == 0 && !p->guard.without, FER_FINDING_TOO_FEW_READINGS);
    for (size_t i = 0; i < found; i++) {
        judge_section(p, &sections[i], degrees > 0 ? scatter : 0.0, (double)degrees, inspection);
    }
}

/* ---- all together ----------------------------------------------------------------------------------------- */

static void apply_limits(const piece *p, fer_inspection *inspection)
{
    const fer_applies_to to = inspection->applies_to;
    inspection->decision = inspection->verdict.decision;
    if (to == FER_APPLIES_TO_NOT_STATED || to == FER_APPLIES_TO_EVERY_READING) {
        judge_readings(p, inspection);
    } else if (to == FER_APPLIES_TO_SECTION_MEANS) {
        judge_sections(p, inspection);
    }
}

/* What forbids acceptance whatever the readings are. */
static void apply_doubts(const piece *p, fer_inspection *inspection)
{
    const fer_finding forbid[] = {FER_FINDING_GAUGE_CANNOT_ACCEPT, FER_FINDING_LIMITS_TOO_UNCERTAIN,
                                  FER_FINDING_TOO_FEW_READINGS,    FER_FINDING_GAUGE_TAKEN_AS_EXACT,
                                  FER_FINDING_PROCESS_NOT_USED,    FER_FINDING_SETUP_STOPPED};
    find(inspection, p->gauge->standard_uncertainty.mm == 0.0 && !p->guard.without,
         FER_FINDING_GAUGE_TAKEN_AS_EXACT);
    find(inspection, fer_is_stopped(p->setup), FER_FINDING_SETUP_STOPPED);
    find(inspection, fer_waits_for_confirming(p->setup), FER_FINDING_SETUP_NOT_CONFIRMED);
    find(inspection, inspection->zone.empty, FER_FINDING_GAUGE_CANNOT_ACCEPT);
    find(inspection, inspection->verdict.zone_empty && !inspection->zone.empty, FER_FINDING_READINGS_SCATTER);
    find(inspection, inspection->summary.outlier_found, FER_FINDING_OUTLIER);
    for (size_t i = 0; i < sizeof forbid / sizeof *forbid; i++) {
        if (fer_set_has(inspection->findings.bits, (int)forbid[i])) {
            take_acceptance(inspection);
        }
    }
    inspection->verdict.decision = inspection->decision;
}

static fer_status find_share(const piece *p, const fer_inspection *inspection, fer_ratio *share)
{
    const fer_setup *setup = p->setup;
    FER_LEAVE_OUT(*share);
    FER_TRY(setup->window.status);
    FER_TRY(setup->window_lower_uncertainty.status);
    FER_TRY(setup->window_upper_uncertainty.status);
    const fer_uncertain_window window = {setup->window.value, setup->window_lower_uncertainty.value,
                                         setup->window_upper_uncertainty.value};
    FER_REQUIRE(window.range.lower.mm < window.range.upper.mm, FER_SETUP_INCOMPLETE);
    return fer_find_compression_share(inspection->summary.mean, inspection->summary.standard_uncertainty,
                                      &window, share);
}

static void find_compression(const piece *p, fer_inspection *inspection)
{
    fer_found_ratio *found = &inspection->compression_conforming;
    found->status = find_share(p, inspection, &found->value);
    find(inspection, found->value.fraction < FER_SHARE_WANTED, FER_FINDING_COMPRESSION_UNCERTAIN);
}

/* What is not accepted waits or is scrap; "cut up" is said of a rejected piece only. */
static fer_cautions cautions_of(fer_decision decision)
{
    fer_cautions cautions = fer_stage_cautions(FER_STAGE_TRIAL);
    if (decision == FER_DECISION_UNDECIDED) {
        cautions.bits |= fer_stage_cautions(FER_STAGE_HOLD).bits;
    } else if (decision == FER_DECISION_REJECT) {
        cautions.bits |= fer_stage_cautions(FER_STAGE_FAILURE).bits;
    }
    return cautions;
}

static fer_status inspect(piece *p, fer_inspection *inspection)
{
    FER_TRY(check_setup(p->setup));
    p->marks.segments = p->marks.segments == 0 ? p->setup->segments : p->marks.segments;
    FER_TRY(fer_summarise_readings(p->readings, p->count, p->gauge, p->marks, &inspection->summary));
    inspection->applies_to = p->setup->applies_to;
    FER_TRY(fer_check_guard_rules(&p->guard, NULL)); /* before limits are narrowed by it */
    find_limits(p, inspection);
    FER_TRY(judge_mean(p, inspection));
    find_worst(p, inspection);
    FER_TRY(find_zone(p, inspection));
    apply_limits(p, inspection);
    apply_doubts(p, inspection);
    find_compression(p, inspection);
    inspection->deviation.mm = inspection->summary.mean.mm - p->setup->target.mm;
    inspection->cautions = cautions_of(inspection->decision);
    return FER_OK;
}

static void leave_out_inspection(fer_status why, fer_inspection *inspection)
{
    FER_EMPTY(*inspection);
    fer_leave_out_summary(why, &inspection->summary);
    fer_leave_out_verdict(&inspection->verdict);
    FER_LEAVE_OUT_FROM(fer_inspection, *inspection, limits, deviation);
    FER_LEAVE_OUT_FROM(fer_acceptance_zone, inspection->zone, accept, guard);
    FER_LEAVE_OUT(inspection->worst);
    FER_NOT_FOUND(inspection->compression_conforming, why);
}

fer_status fer_inspect_crimp(const fer_setup *setup, const fer_reading *readings, size_t count,
                             const fer_gauge *gauge, fer_marks marks, fer_guard guard, fer_process process,
                             fer_inspection *inspection)
{
    piece p = {setup, readings, count, gauge, marks, guard, process};
    FER_REQUIRE(inspection, FER_ARGUMENT_MISSING);
    leave_out_inspection(FER_OK, inspection);
    const fer_status status = inspect(&p, inspection);
    if (status != FER_OK) {
        leave_out_inspection(status, inspection);
    }
    return status;
}

/* ---- words of the findings -------------------------------------------------------------------------------- */

typedef struct {
    FER_FINDING_LIST(FER_WORDS_MEMBERS_OF_FOUR)
} finding_words;

static const finding_words words = {FER_FINDING_LIST(FER_WORDS_TEXT_OF_FOUR)};

#define PLACE(name, number, severity, sentence) FER_WORDS_PLACE(finding_words, name, number)
static const fer_word_place places[] = {FER_FINDING_LIST(PLACE)};
enum { place_count = sizeof places / sizeof *places };

static const fer_severities severities = FER_SEVERITIES_OF(FER_FINDING_LIST);

const char *fer_finding_name(fer_finding finding)
{
    const char *name = fer_name_among((const char *)&words, places, place_count, (int)finding);
    return name ? name : "UNKNOWN";
}

const char *fer_finding_sentence(fer_finding finding)
{
    const char *sentence = fer_sentence_among((const char *)&words, places, place_count, (int)finding);
    return sentence ? sentence : "";
}

fer_severity fer_finding_severity(fer_finding finding)
{
    return fer_severity_among(&severities, (int)finding);
}
