/* SPDX-License-Identifier: MIT */
/* Gauge studies: analysis of variance of parts, people and readings, with limits; the same by ranges.
 * Method: sums in double-double over the readings in order of part and person; modified large-sample limits.
 * Formulas: include/ferrule/gauge.h; docs/gauge.md; Burdick, Borror and Montgomery, 2005 (from memory). */
#include <ferrule/gauge.h>

#include "base/numeric/moments.h"
#include "base/value_private.h"
#include "base/words.h"
#include "base/acceptance_private.h"
#include "batch/numeric/beta.h"
#include "batch/numeric/gamma.h"
#include "batch/numeric/ranges.h"
#include "batch/sample_private.h"

/* ---- readings -------------------------------------------------------------------------------------------- */

/* A study whose cells, a part and a person each, have the same number of readings. In order, readings of a part stand together, and
 * among them those of a person. */
typedef struct {
    const fer_study_reading *readings;
    size_t count, repeats;
    int parts, people;
    uint16_t order[FER_STUDY_MAXIMUM];
} layout;

static const fer_study_reading *reading_at(const layout *l, size_t place)
{
    return &l->readings[l->order[place]];
}

static int is_before(const fer_study_reading *a, const fer_study_reading *b)
{
    return a->part != b->part ? a->part < b->part : a->person < b->person;
}

/* Shell's sort: no turn moves anything where they come in order, as they mostly do. */
static void put_in_order(layout *l)
{
    static const size_t gaps[7] = {301, 132, 57, 23, 10, 4, 1};
    for (size_t i = 0; i < l->count; i++) {
        l->order[i] = (uint16_t)i;
    }
    for (int k = 0; k < 7; k++) {
        const size_t gap = gaps[k];
        for (size_t i = gap; i < l->count; i++) {
            const uint16_t moved = l->order[i];
            size_t place = i;
            for (; place >= gap && is_before(&l->readings[moved], reading_at(l, place - gap)); place -= gap) {
                l->order[place] = l->order[place - gap];
            }
            l->order[place] = moved;
        }
    }
}

/* Number of readings from a place on of the same part; of the same person, too. */
static size_t run_of_part(const layout *l, size_t place)
{
    size_t end = place;
    while (end < l->count && reading_at(l, end)->part == reading_at(l, place)->part) {
        end++;
    }
    return end - place;
}

static size_t run_of_cell(const layout *l, size_t place)
{
    size_t end = place;
    while (end < l->count && !is_before(reading_at(l, place), reading_at(l, end))) {
        end++;
    }
    return end - place;
}

static int count_parts(const layout *l)
{
    int parts = 0;
    for (size_t i = 0; i < l->count; i += run_of_part(l, i)) {
        parts++;
    }
    return parts;
}

static int count_people(const layout *l)
{
    uint64_t seen = 0;
    int people = 0;
    for (size_t i = 0; i < l->count; i++) {
        const uint64_t bit = UINT64_C(1) << l->readings[i].person;
        people += (seen & bit) == 0;
        seen |= bit;
    }
    return people;
}

/* Whether each person has read each part equally often. */
static int is_balanced(const layout *l, size_t cells)
{
    for (size_t i = 0; i < l->count; i += l->repeats) {
        if (run_of_cell(l, i) != l->repeats) {
            return 0;
        }
    }
    return l->count == cells * l->repeats;
}

static fer_status check_reading(const fer_study_reading *reading)
{
    FER_TRY(fer_check_length(reading->diameter, FER_STUDY_READING_MISSING, FER_STUDY_READING_OUT_OF_RANGE));
    FER_REQUIRE(reading->part >= 0 && reading->part <= 999 && reading->person >= 0 && reading->person <= 63,
                FER_STUDY_NUMBER_OUT_OF_RANGE);
    return FER_OK;
}

static fer_status take_readings(const fer_study_reading *readings, size_t count, fer_length tolerance,
                                layout *l)
{
    FER_REQUIRE(readings, FER_ARGUMENT_MISSING);
    FER_REQUIRE(count > 0, FER_ARGUMENT_COUNT_ZERO);
    FER_REQUIRE(count <= FER_STUDY_MAXIMUM, FER_ARGUMENT_COUNT_TOO_LARGE);
    FER_REQUIRE(tolerance.mm == 0.0 || fer_is_study_tolerance(tolerance.mm),
                FER_STUDY_TOLERANCE_OUT_OF_RANGE);
    for (size_t i = 0; i < count; i++) {
        FER_TRY(check_reading(&readings[i]));
    }
    l->readings = readings;
    l->count = count;
    put_in_order(l);
    l->parts = count_parts(l);
    l->people = count_people(l);
    const size_t cells = (size_t)l->parts * (size_t)l->people;
    FER_REQUIRE(l->parts >= 2 && l->people >= 2 && count >= 2 * cells, FER_STUDY_TOO_SMALL);
    l->repeats = count / cells;
    FER_REQUIRE(is_balanced(l, cells), FER_STUDY_NOT_BALANCED);
    return FER_OK;
}

/* Of so many readings from a place on. */
static fer_pair mean_of_run(const layout *l, size_t place, size_t count)
{
    fer_sum sum = {0};
    for (size_t i = place; i < place + count; i++) {
        fer_sum_add(&sum, reading_at(l, i)->diameter.mm);
    }
    return fer_sum_mean(&sum);
}

enum { people_maximum = 64 };

/* The means of each person; of one who has read nothing, no number. */
static void find_people(const layout *l, fer_sum *people)
{
    for (int k = 0; k < people_maximum; k++) {
        FER_EMPTY(people[k]);
    }
    for (size_t i = 0; i < l->count; i++) {
        fer_sum_add(&people[l->readings[i].person], l->readings[i].diameter.mm);
    }
}

/* ---- mean squares ---------------------------------------------------------------------------------------- */

typedef struct {
    double square, degrees; /* mean square and its degrees of freedom */
    double below,
        above; /* how far it may be off with the confidence: its share below, and its excess above */
} source;

typedef struct {
    source parts, people, both, repeats; /* both: the interaction */
} table;

static void add_square(fer_pair *sum, fer_pair x)
{
    *sum = fer_pair_add(*sum, fer_pair_multiply(x, x));
}

static source source_of(fer_pair squares, double times, double degrees)
{
    const source s = {fer_pair_value(squares) * times / degrees, degrees, 0.0, 0.0};
    return s;
}

/* Squares of a person's readings of a part about their mean, and of what the interaction moves that. */
static void add_cell(const layout *l, size_t place, fer_pair expected, fer_pair *both, fer_pair *repeats)
{
    const fer_pair cell = mean_of_run(l, place, l->repeats);
    add_square(both, fer_pair_subtract(cell, expected));
    for (size_t i = place; i < place + l->repeats; i++) {
        add_square(repeats, fer_pair_subtract(fer_pair_of(reading_at(l, i)->diameter.mm), cell));
    }
}

static void fill_table(const layout *l, table *t)
{
    fer_pair parts = {0}, people = {0}, both = {0}, repeats = {0}, part = {0};
    fer_sum sums[people_maximum];
    const double n = (double)l->repeats, part_count = l->parts, people_count = l->people;
    const fer_pair all = mean_of_run(l, 0, l->count);
    const size_t of_part = (size_t)l->people * l->repeats;
    find_people(l, sums);
    for (size_t i = 0; i < l->count; i += l->repeats) {
        part = i % of_part == 0 ? mean_of_run(l, i, of_part) : part;
        const fer_pair person = fer_sum_mean(&sums[reading_at(l, i)->person]);
        add_cell(l, i, fer_pair_subtract(fer_pair_add(part, person), all), &both, &repeats);
        if (i % of_part == 0) {
            add_square(&parts, fer_pair_subtract(part, all));
        }
        if (i < of_part) {
            add_square(&people, fer_pair_subtract(person, all));
        }
    }
    t->parts = source_of(parts, people_count * n, part_count - 1.0);
    t->people = source_of(people, part_count * n, people_count - 1.0);
    t->both = source_of(both, n, (part_count - 1.0) * (people_count - 1.0));
    t->repeats = source_of(repeats, 1.0, part_count * people_count * (n - 1.0));
}

/* ---- limits ---------------------------------------------------------------------------------------------- */

static double squared(double x)
{
    return x * x;
}

static void limit_source(source *s, double confidence)
{
    s->below = 1.0 - s->degrees / fer_chi_square_quantile(confidence, s->degrees);
    s->above = s->degrees / fer_chi_square_quantile(1.0 - confidence, s->degrees) - 1.0;
}

static fer_deviation_limits limits_of(double variance, double below, double above)
{
    fer_deviation_limits limits = {{0.0}, {0.0}, {0.0}, 0.0, {0.0}, {0.0}};
    limits.value.mm = sqrt(fmax(variance, 0.0));
    limits.lower.mm = sqrt(fmax(variance - sqrt(fmax(below, 0.0)), 0.0));
    limits.upper.mm = sqrt(fmax(variance + sqrt(fmax(above, 0.0)), 0.0));
    return limits;
}

/* A sum of mean squares with factors above 0: modified large-sample; of one alone it is chi-square's, exact. */
static fer_deviation_limits limits_of_sum(const source *sources, const double *factors, int count)
{
    double variance = 0.0, below = 0.0, above = 0.0, rest = 0.0;
    for (int i = 0; i < count; i++) {
        const double part = factors[i] * sources[i].square;
        variance += part;
        below += squared(sources[i].below * part);
        above += squared(sources[i].above * part);
        rest += part * part / sources[i].degrees;
    }
    fer_deviation_limits limits = limits_of(variance, below, above);
    limits.degrees_of_freedom = variance * variance / rest;
    return limits;
}

/* A difference (a - b)/times: Ting's form. */
static fer_deviation_limits limits_of_difference(const source *a, const source *b, double times,
                                                 double confidence)
{
    const double x = a->square / times, y = b->square / times;
    const double high = fer_f_quantile(confidence, a->degrees, b->degrees),
                 low = fer_f_quantile(1.0 - confidence, a->degrees, b->degrees);
    const double g1 = a->below, h1 = a->above, g2 = b->below, h2 = b->above;
    const double g12 = (squared(high - 1.0) - squared(g1 * high) - squared(h2)) / high;
    const double h12 = (squared(1.0 - low) - squared(h1 * low) - squared(g2)) / low;
    const double below = squared(g1 * x) + squared(h2 * y) + g12 * x * y;
    const double above = squared(h1 * x) + squared(g2 * y) + h12 * x * y;
    fer_deviation_limits limits = limits_of(x - y, below, above);
    limits.degrees_of_freedom = squared(x - y) / (x * x / a->degrees + y * y / b->degrees);
    return limits;
}

/* ---- study ----------------------------------------------------------------------------------------------- */

static void find(fer_gauge_study *study, int applies, fer_study_finding finding)
{
    study->findings.bits |= applies ? UINT64_C(1) << finding : 0;
}

/* Parts, people and interaction; pooled, the interaction is part of the repeats. */
static void describe_differences(const layout *l, const table *t, double confidence, fer_gauge_study *study)
{
    const source *under = study->pooled ? &t->repeats : &t->both;
    study->people = limits_of_difference(&t->people, under, l->parts * (double)l->repeats, confidence);
    study->parts = limits_of_difference(&t->parts, under, l->people * (double)l->repeats, confidence);
    int below = t->people.square < under->square || t->parts.square < under->square;
    if (!study->pooled) {
        study->interaction = limits_of_difference(&t->both, &t->repeats, (double)l->repeats, confidence);
        below |= t->both.square < t->repeats.square;
    }
    find(study, below, FER_STUDY_FINDING_ESTIMATE_BELOW_ZERO);
}

static void describe_sums(const layout *l, const table *t, fer_gauge_study *study)
{
    const double n = (double)l->repeats, each = 1.0 / (l->parts * n), part = 1.0 / (l->people * n);
    const double both = study->pooled ? 0.0 : (l->parts - 1.0) * each;
    const double repeats = 1.0 - each - both, one = 1.0;
    const source sources[4] = {t->people, t->repeats, t->both, t->parts};
    const source with_parts[4] = {t->people, t->repeats, t->parts, t->both};
    const double factors[3] = {each, repeats, both};
    /* the interaction, or the repeats where it is pooled, count for the parts with a minus */
    const double all[4] = {each, study->pooled ? repeats - part : repeats, part, both - part};
    study->repeatability = limits_of_sum(&t->repeats, &one, 1);
    study->gauge = limits_of_sum(sources, factors, study->pooled ? 2 : 3);
    study->total = limits_of_sum(with_parts, all, study->pooled ? 3 : 4);
}

static void describe_shares(double tolerance, fer_gauge_study *study)
{
    fer_deviation_limits *const all[6] = {&study->repeatability, &study->people, &study->interaction,
                                          &study->gauge,         &study->parts,  &study->total};
    for (int i = 0; i < 6; i++) {
        all[i]->of_total.fraction = all[i]->value.mm / study->total.value.mm;
        all[i]->of_tolerance.fraction = tolerance > 0.0 ? 6.0 * all[i]->value.mm / tolerance : NAN;
    }
    study->categories = 1.41 * study->parts.value.mm / study->gauge.value.mm;
}

/* What differs between people is common to all that one of them measures. */
static void describe_measuring(const fer_study_settings *settings, fer_gauge_study *study)
{
    const double common = sqrt(squared(settings->calibration.mm) + squared(study->people.value.mm) +
                               squared(study->interaction.value.mm));
    study->measuring.repeatability = study->repeatability.value;
    study->measuring.repeatability_degrees = study->repeatability.degrees_of_freedom;
    study->measuring.common.mm = common;
    study->measuring.resolution = settings->resolution;
    study->one_piece.standard_uncertainty.mm = common;
    study->one_piece.resolution = settings->resolution;
}

static void describe_findings(const layout *l, fer_gauge_study *study)
{
    const double share = study->gauge.of_tolerance.fraction;
    find(study, share > 0.3, FER_STUDY_FINDING_GAUGE_TOO_WIDE);
    find(study, share > 0.1 && share <= 0.3, FER_STUDY_FINDING_GAUGE_WIDE);
    find(study, study->categories < 5.0, FER_STUDY_FINDING_CATEGORIES_TOO_FEW);
    find(study, study->people_p.fraction < 0.05, FER_STUDY_FINDING_PEOPLE_DIFFER);
    find(study, study->interaction_p.fraction < 0.05, FER_STUDY_FINDING_PARTS_DIVIDE_PEOPLE);
    find(study, l->people < 4, FER_STUDY_FINDING_PEOPLE_TOO_FEW);
}

static fer_status check_settings(const fer_study_settings *settings)
{
    FER_REQUIRE(settings->pool_above.fraction >= 0.0 && settings->pool_above.fraction <= 1.0,
                FER_STUDY_SETTINGS_OUT_OF_RANGE);
    FER_REQUIRE(fer_is_deviation(settings->calibration.mm), FER_STUDY_SETTINGS_OUT_OF_RANGE);
    FER_REQUIRE(settings->resolution.mm >= 0.0 && settings->resolution.mm <= 10.0,
                FER_STUDY_SETTINGS_OUT_OF_RANGE);
    return FER_OK;
}

/* A repeated reading scatters by the gauge's step at least. */
static fer_status take_table(const layout *l, const fer_study_settings *settings, table *t,
                             fer_gauge_study *study)
{
    fill_table(l, t);
    const double step = squared(settings->resolution.mm) / 12.0,
                 rounding = squared(1e-14 * l->readings[0].diameter.mm);
    find(study, t->repeats.square < step, FER_STUDY_FINDING_SCATTER_BELOW_STEP);
    t->repeats.square = fmax(t->repeats.square, step);
    FER_REQUIRE(t->repeats.square > rounding, FER_SAMPLE_WITHOUT_SCATTER);
    study->interaction_p.fraction =
        fer_f_above(t->both.square / t->repeats.square, t->both.degrees, t->repeats.degrees);
    const double above = settings->pool_above.fraction == 0.0 ? 0.05 : settings->pool_above.fraction;
    study->pooled = !settings->never_pool && study->interaction_p.fraction > above;
    if (study->pooled) {
        const double degrees = t->repeats.degrees + t->both.degrees;
        t->repeats.square =
            (t->repeats.square * t->repeats.degrees + t->both.square * t->both.degrees) / degrees;
        t->repeats.degrees = degrees;
    }
    const source *under = study->pooled ? &t->repeats : &t->both;
    const double ratio = t->people.square / fmax(under->square, rounding); /* an interaction can be 0 */
    study->people_p.fraction = fer_f_above(ratio, t->people.degrees, under->degrees);
    return FER_OK;
}

static fer_status study_gauge(const fer_study_reading *readings, size_t count, fer_length tolerance,
                              fer_ratio confidence, const fer_study_settings *settings,
                              fer_gauge_study *study)
{
    layout l;
    table t;
    FER_TRY(take_readings(readings, count, tolerance, &l));
    FER_TRY(fer_take_confidence(&confidence));
    FER_TRY(check_settings(settings));
    FER_TRY(take_table(&l, settings, &t, study));
    limit_source(&t.parts, confidence.fraction);
    limit_source(&t.people, confidence.fraction);
    limit_source(&t.both, confidence.fraction);
    limit_source(&t.repeats, confidence.fraction);
    describe_differences(&l, &t, confidence.fraction, study);
    describe_sums(&l, &t, study);
    describe_shares(tolerance.mm, study);
    describe_measuring(settings, study);
    describe_findings(&l, study);
    return FER_OK;
}

fer_status fer_study_gauge(const fer_study_reading *readings, size_t count, fer_length tolerance,
                           fer_ratio confidence, fer_study_settings settings, fer_gauge_study *study)
{
    FER_REQUIRE(study, FER_ARGUMENT_MISSING);
    FER_EMPTY(*study);
    const fer_status status = study_gauge(readings, count, tolerance, confidence, &settings, study);
    if (status != FER_OK) {
        FER_EMPTY(*study);
        FER_LEAVE_OUT_FROM(fer_gauge_study, *study, repeatability, people_p);
        FER_LEAVE_OUT(study->measuring);
        FER_LEAVE_OUT(study->one_piece);
    }
    return status;
}

/* ---- by ranges ------------------------------------------------------------------------------------------- */

static double range_mean(int n, double groups)
{
    return sqrt(squared(fer_range_mean(n)) + squared(fer_range_deviation(n)) / groups);
}

typedef struct {
    double low, high;
} extremes;

static void widen(extremes *e, double x)
{
    e->low = fmin(e->low, x);
    e->high = fmax(e->high, x);
}

static const extremes nothing = {INFINITY, -INFINITY};

static double range_of_parts(const layout *l)
{
    const size_t of_part = l->count / (size_t)l->parts;
    extremes all = nothing;
    for (size_t i = 0; i < l->count; i += of_part) {
        widen(&all, fer_pair_value(mean_of_run(l, i, of_part)));
    }
    return all.high - all.low;
}

static double range_of_people(const layout *l)
{
    fer_sum sums[people_maximum];
    extremes all = nothing;
    find_people(l, sums);
    for (size_t i = 0; i < l->count; i++) {
        widen(&all, fer_pair_value(fer_sum_mean(&sums[l->readings[i].person])));
    }
    return all.high - all.low;
}

/* Of the readings of a cell. */
static double mean_range(const layout *l)
{
    double sum = 0.0;
    for (size_t i = 0; i < l->count; i += l->repeats) {
        extremes cell = nothing;
        for (size_t j = i; j < i + l->repeats; j++) {
            widen(&cell, reading_at(l, j)->diameter.mm);
        }
        sum += cell.high - cell.low;
    }
    return sum * (double)l->repeats / (double)l->count;
}

static fer_status study_ranges(const fer_study_reading *readings, size_t count, fer_length tolerance,
                               fer_range_study *study)
{
    layout l;
    FER_TRY(take_readings(readings, count, tolerance, &l));
    FER_REQUIRE(l.parts <= 100 && l.repeats <= 100, FER_ARGUMENT_COUNT_TOO_LARGE);
    const double repeat = mean_range(&l) / range_mean((int)l.repeats, (double)(l.parts * l.people));
    FER_REQUIRE(repeat > 0.0, FER_SAMPLE_WITHOUT_SCATTER);
    const double people = squared(range_of_people(&l) / range_mean(l.people, 1.0)) -
                          repeat * repeat / (l.parts * (double)l.repeats);
    study->repeatability.mm = repeat;
    study->people.mm = sqrt(fmax(people, 0.0));
    study->gauge.mm = sqrt(squared(repeat) + fmax(people, 0.0));
    study->parts.mm = range_of_parts(&l) / range_mean(l.parts, 1.0);
    study->total.mm = sqrt(squared(study->gauge.mm) + squared(study->parts.mm));
    study->categories = 1.41 * study->parts.mm / study->gauge.mm;
    if (tolerance.mm > 0.0) {
        study->of_tolerance.fraction = 6.0 * study->gauge.mm / tolerance.mm;
    }
    return FER_OK;
}

fer_status fer_study_gauge_by_ranges(const fer_study_reading *readings, size_t count, fer_length tolerance,
                                     fer_range_study *study)
{
    FER_REQUIRE(study, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*study);
    return study_ranges(readings, count, tolerance, study);
}

/* ---- words of the findings ------------------------------------------------------------------------------- */

typedef struct {
    FER_STUDY_FINDING_LIST(FER_WORDS_MEMBERS_OF_FOUR)
} finding_words;

static const finding_words words = {FER_STUDY_FINDING_LIST(FER_WORDS_TEXT_OF_FOUR)};

#define PLACE(name, number, severity, sentence) FER_WORDS_PLACE(finding_words, name, number)
static const fer_word_place places[] = {FER_STUDY_FINDING_LIST(PLACE)};
enum { place_count = sizeof places / sizeof *places };

static const fer_severities severities = FER_SEVERITIES_OF(FER_STUDY_FINDING_LIST);

const char *fer_study_finding_name(fer_study_finding finding)
{
    const char *name = fer_name_among((const char *)&words, places, place_count, (int)finding);
    return name ? name : "UNKNOWN";
}

const char *fer_study_finding_sentence(fer_study_finding finding)
{
    const char *sentence = fer_sentence_among((const char *)&words, places, place_count, (int)finding);
    return sentence ? sentence : "";
}

fer_severity fer_study_finding_severity(fer_study_finding finding)
{
    return fer_severity_among(&severities, (int)finding);
}
