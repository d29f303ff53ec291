/* SPDX-License-Identifier: MIT */
/* What a set of readings says: mean, uncertainty, ovality, outliers, lobes.
 * Method: sums in two passes; Grubbs' and Rosner's tests; least squares by Cholesky's factor, refined once.
 * Formulas: include/ferrule/reading.h; docs/reading.md. */
#include <ferrule/reading.h>

#include "base/value_private.h"
#include "base/acceptance_private.h"
#include "judge/reading_private.h"
#include "base/numeric/moments.h"
#include "base/numeric/special.h"
#include "base/numeric/pi.h"

static const double outlier_level = 0.05;

/* Readings with what belongs to them, so that every loop asks the same question. */
typedef struct {
    const fer_reading *readings;
    size_t count;
    fer_gauge gauge;
    double gap, pitch, half_width; /* angles in rad */
    double lobes;                  /* where a diameter is greatest by the lobes */
    int gap_known, segments;
} view;

static fer_status check_reading(const fer_reading *reading, const fer_gauge *gauge)
{
    const fer_length diameter = {reading->diameter.mm + gauge->correction.mm};
    FER_REQUIRE(reading->section >= 0 && reading->section < FER_SECTIONS_MAXIMUM,
                FER_READING_SECTION_OUT_OF_RANGE);
    FER_REQUIRE(fer_is_finite(reading->angle.rad), FER_READING_ANGLE_NOT_A_NUMBER);
    FER_REQUIRE(reading->angle_known || reading->angle.rad == 0.0, FER_READING_ANGLE_NOT_MARKED);
    FER_REQUIRE(fer_is_length_or_none(reading->diameter), FER_READING_OUT_OF_RANGE);
    FER_REQUIRE(reading->diameter.mm == 0.0 || fer_is_length(diameter), FER_READING_OUT_OF_RANGE);
    return FER_OK;
}

static fer_status take_marks(const fer_marks *marks, view *v)
{
    v->segments = marks->segments == 0 ? FER_SEGMENTS_USUAL : marks->segments;
    FER_REQUIRE(fer_is_segments(v->segments), FER_SEGMENTS_OUT_OF_RANGE);
    FER_REQUIRE(fer_is_finite(marks->gap.rad), FER_MARKS_GAP_NOT_A_NUMBER);
    FER_REQUIRE(marks->gap_known || marks->gap.rad == 0.0, FER_MARKS_GAP_NOT_MARKED);
    v->gap_known = marks->gap_known;
    v->gap = marks->gap.rad;
    v->pitch = 2.0 * pi / v->segments;
    /* With an odd number, a middle faces a gap: the greatest diameter is half way between the two. */
    v->lobes = v->gap + (v->segments % 2 == 0 ? v->pitch / 2.0 : v->pitch / 4.0);
    v->half_width = marks->gap_half_width.rad == 0.0 ? v->pitch / 8.0 : marks->gap_half_width.rad;
    FER_REQUIRE(v->half_width > 0.0 && v->half_width <= v->pitch / 2.0, FER_MARKS_GAP_WIDTH_OUT_OF_RANGE);
    return FER_OK;
}

/* Whether the jaw at this angle stands over a gap. */
static int is_jaw_over_gap(const view *v, double angle)
{
    return fabs(remainder(angle - v->gap, v->pitch)) < v->half_width;
}

/* With an odd number of segments the other jaw stands elsewhere in its segment. */
static int is_over_gap(const view *v, const fer_reading *reading)
{
    return v->gap_known && reading->angle_known &&
           (is_jaw_over_gap(v, reading->angle.rad) || is_jaw_over_gap(v, reading->angle.rad + pi));
}

static int counts(const view *v, size_t i)
{
    return v->readings[i].diameter.mm != 0.0 && !is_over_gap(v, &v->readings[i]);
}

static double corrected(const view *v, size_t i)
{
    return v->readings[i].diameter.mm + v->gauge.correction.mm;
}

static size_t count_used(const view *v)
{
    size_t used = 0;
    for (size_t i = 0; i < v->count; i++) {
        used += (size_t)counts(v, i);
    }
    return used;
}

static fer_status take_readings(const fer_reading *readings, size_t count, const fer_gauge *gauge,
                                const fer_marks *marks, view *v)
{
    FER_REQUIRE(readings && gauge, FER_ARGUMENT_MISSING);
    FER_REQUIRE(count > 0, FER_ARGUMENT_COUNT_ZERO);
    FER_TRY(fer_check_gauge(gauge));
    FER_TRY(take_marks(marks, v));
    for (size_t i = 0; i < count; i++) {
        FER_TRY(check_reading(&readings[i], gauge));
    }
    v->readings = readings;
    v->count = count;
    v->gauge = *gauge;
    FER_REQUIRE(count_used(v) > 0, FER_READING_NONE_LEFT);
    return FER_OK;
}

/* A section, or all of them where section is -1. */
typedef struct {
    size_t count;
    fer_pair mean;
    double minimum, maximum, deviation; /* deviation: NaN below two readings */
} figures;

static int belongs(const view *v, size_t i, int section)
{
    return counts(v, i) && (section < 0 || v->readings[i].section == section);
}

static double deviation_of(const view *v, int section, fer_pair mean)
{
    fer_sum squares = {0};
    for (size_t i = 0; i < v->count; i++) {
        if (belongs(v, i, section)) {
            fer_square_add(&squares, corrected(v, i), mean);
        }
    }
    return fer_square_deviation(&squares);
}

static figures figures_of(const view *v, int section)
{
    figures f = {0, {NAN, 0.0}, INFINITY, -INFINITY, NAN};
    fer_sum sum = {0};
    for (size_t i = 0; i < v->count; i++) {
        if (belongs(v, i, section)) {
            fer_sum_add(&sum, corrected(v, i));
            f.minimum = fmin(f.minimum, corrected(v, i));
            f.maximum = fmax(f.maximum, corrected(v, i));
        }
    }
    f.count = sum.count;
    if (f.count > 0) {
        f.mean = fer_sum_mean(&sum);
    }
    if (f.count > 1) {
        f.deviation = deviation_of(v, section, f.mean);
    }
    return f;
}

static fer_found_length found_if(int there, double mm, fer_status why_not)
{
    fer_found_length length = {{mm}, FER_OK};
    if (!there) {
        FER_NOT_FOUND(length, why_not);
    }
    return length;
}

double fer_critical_deviate(double m)
{
    const double t = fer_student_quantile(1.0 - outlier_level / (2.0 * m), m - 2.0);
    return (m - 1.0) * t / sqrt(m * (m - 2.0 + t * t));
}

/* A reading's deviation counts as an outlier's where it is more than the gauge's step and than the critical value. */
static int is_outlying(const view *v, double away, double deviation, size_t m)
{
    /* the critical value of two readings or fewer is NaN */
    return away > v->gauge.resolution.mm && away > fer_critical_deviate((double)m) * deviation;
}

static size_t farthest_from(const view *v, fer_pair mean)
{
    size_t farthest = 0;
    double greatest = -1.0;
    for (size_t i = 0; i < v->count; i++) {
        const double away = fabs(fer_pair_value(fer_pair_subtract(fer_pair_of(corrected(v, i)), mean)));
        if (counts(v, i) && away > greatest) {
            greatest = away;
            farthest = i;
        }
    }
    return farthest;
}

static void describe_uncertainty(const view *v, const figures *f, fer_reading_summary *summary)
{
    const double n = (double)f->count, gauge = v->gauge.standard_uncertainty.mm,
                 step = v->gauge.resolution.mm;
    const double from_scatter = f->count > 1 ? f->deviation * f->deviation / n : 0.0;
    const double from_step = step * step / 12.0;
    const double variance = gauge * gauge + fmax(from_scatter, from_step);
    summary->standard_uncertainty.mm = sqrt(variance);
    if (from_scatter > from_step) {
        const double share = variance / from_scatter;
        summary->degrees_of_freedom = (n - 1.0) * share * share;
    }
}

static void describe_sections(const view *v, fer_reading_summary *summary)
{
    double ovality = -1.0, lower = INFINITY, upper = -INFINITY, first = NAN, last = NAN;
    summary->ovality_section = -1;
    for (int section = 0; section < FER_SECTIONS_MAXIMUM; section++) {
        const figures f = figures_of(v, section);
        if (f.count == 0) {
            continue;
        }
        last = fer_pair_value(f.mean);
        first = summary->sections++ == 0 ? last : first;
        lower = fmin(lower, last);
        upper = fmax(upper, last);
        if (f.count > 1 && f.maximum - f.minimum > ovality) {
            ovality = f.maximum - f.minimum;
            summary->ovality_section = section;
        }
    }
    const int taper_there = summary->sections > 1;
    summary->ovality = found_if(summary->ovality_section >= 0, ovality, FER_READING_TOO_FEW);
    summary->taper = found_if(taper_there, last - first, FER_READING_SECTIONS_TOO_FEW);
    summary->section_range = found_if(taper_there, upper - lower, FER_READING_SECTIONS_TOO_FEW);
}

static void describe_all(const view *v, fer_reading_summary *summary)
{
    const figures f = figures_of(v, -1);
    for (size_t i = 0; i < v->count; i++) {
        summary->missing += v->readings[i].diameter.mm == 0.0;
    }
    summary->count = f.count;
    summary->over_gaps = v->count - f.count - summary->missing;
    summary->mean.mm = fer_pair_value(f.mean);
    summary->minimum.mm = f.minimum;
    summary->maximum.mm = f.maximum;
    summary->range.mm = f.maximum - f.minimum;
    summary->scatter = found_if(f.count > 1, f.deviation, FER_READING_TOO_FEW);
    summary->outlier_index = farthest_from(v, f.mean);
    const double away = fabs(corrected(v, summary->outlier_index) - summary->mean.mm);
    summary->outlier_found = is_outlying(v, away, f.deviation, f.count);
    describe_uncertainty(v, &f, summary);
}

static fer_status summarise(const view *v, fer_reading_summary *summary)
{
    describe_all(v, summary);
    describe_sections(v, summary);
    return FER_OK;
}

void fer_leave_out_summary(fer_status why, fer_reading_summary *summary)
{
    FER_EMPTY(*summary);
    FER_LEAVE_OUT_FROM(fer_reading_summary, *summary, mean, range);
    FER_NOT_FOUND(summary->scatter, why);
    FER_LEAVE_OUT(summary->standard_uncertainty);
    FER_NOT_FOUND(summary->ovality, why);
    FER_NOT_FOUND(summary->taper, why);
    FER_NOT_FOUND(summary->section_range, why);
    summary->ovality_section = -1;
}

fer_status fer_summarise_readings(const fer_reading *readings, size_t count, const fer_gauge *gauge,
                                  fer_marks marks, fer_reading_summary *summary)
{
    view v = {0};
    FER_REQUIRE(summary, FER_ARGUMENT_MISSING);
    const fer_status status = take_readings(readings, count, gauge, &marks, &v);
    fer_leave_out_summary(status, summary);
    FER_TRY(status);
    return summarise(&v, summary);
}

int fer_reading_counts(const fer_reading *reading, const fer_marks *marks)
{
    view v = {0};
    (void)take_marks(marks, &v); /* they have been checked */
    v.readings = reading;
    return counts(&v, 0);
}

double fer_scatter_within_sections(const fer_reading *readings, size_t count, const fer_gauge *gauge,
                                   const fer_marks *marks, size_t *degrees)
{
    view v = {0};
    double squares = 0.0;
    (void)take_readings(readings, count, gauge, marks, &v); /* they have been checked */
    *degrees = 0;
    for (int section = 0; section < FER_SECTIONS_MAXIMUM; section++) {
        const figures f = figures_of(&v, section);
        if (f.count > 1) {
            squares += f.deviation * f.deviation * (double)(f.count - 1);
            *degrees += f.count - 1;
        }
    }
    return *degrees > 0 ? sqrt(squares / (double)*degrees) : NAN;
}

static fer_section_summary section_summary(int section, const figures *f)
{
    fer_section_summary summary = {0};
    summary.section = section;
    summary.count = f->count;
    summary.mean.mm = fer_pair_value(f->mean);
    summary.minimum.mm = f->minimum;
    summary.maximum.mm = f->maximum;
    summary.ovality = found_if(f->count > 1, f->maximum - f->minimum, FER_READING_TOO_FEW);
    return summary;
}

static fer_status list_sections(const view *v, fer_section_summary *sections, size_t capacity, size_t *found)
{
    size_t there = 0;
    for (int section = 0; section < FER_SECTIONS_MAXIMUM; section++) {
        const figures f = figures_of(v, section);
        if (f.count > 0) {
            FER_REQUIRE(there < capacity, FER_ARGUMENT_CAPACITY_TOO_SMALL);
            sections[there++] = section_summary(section, &f);
        }
    }
    *found = there;
    return FER_OK;
}

size_t fer_summarise_sections_checked(const fer_reading *readings, size_t count, const fer_gauge *gauge,
                                      const fer_marks *marks,
                                      fer_section_summary sections[FER_SECTIONS_MAXIMUM])
{
    view v = {0};
    size_t found = 0;
    (void)take_readings(readings, count, gauge, marks, &v);          /* they have been checked */
    (void)list_sections(&v, sections, FER_SECTIONS_MAXIMUM, &found); /* there are no more */
    return found;
}

fer_status fer_summarise_sections(const fer_reading *readings, size_t count, const fer_gauge *gauge,
                                  fer_marks marks, fer_section_summary *sections, size_t capacity,
                                  size_t *found)
{
    view v = {0};
    FER_REQUIRE(found, FER_ARGUMENT_MISSING);
    *found = 0;
    FER_REQUIRE(sections, FER_ARGUMENT_MISSING);
    FER_TRY(take_readings(readings, count, gauge, &marks, &v));
    return list_sections(&v, sections, capacity, found);
}

static int is_named(const size_t *indices, size_t named, size_t index)
{
    for (size_t i = 0; i < named; i++) {
        if (indices[i] == index) {
            return 1;
        }
    }
    return 0;
}

/* What is left after the readings that are already named. */
static figures figures_without(const view *v, const size_t *indices, size_t named)
{
    figures f = {0, {NAN, 0.0}, NAN, NAN, NAN};
    fer_sum sum = {0}, squares = {0};
    for (size_t i = 0; i < v->count; i++) {
        if (counts(v, i) && !is_named(indices, named, i)) {
            fer_sum_add(&sum, corrected(v, i));
        }
    }
    f.count = sum.count;
    f.mean = fer_sum_mean(&sum);
    for (size_t i = 0; i < v->count; i++) {
        if (counts(v, i) && !is_named(indices, named, i)) {
            fer_square_add(&squares, corrected(v, i), f.mean);
        }
    }
    f.deviation = fer_square_deviation(&squares);
    return f;
}

/* Names the farthest of what is left; whether it is an outlier by its own step of the test. */
static int name_farthest(const view *v, size_t *indices, size_t named)
{
    const figures f = figures_without(v, indices, named);
    double greatest = -1.0;
    for (size_t i = 0; i < v->count; i++) {
        const double away = fabs(fer_pair_value(fer_pair_subtract(fer_pair_of(corrected(v, i)), f.mean)));
        if (counts(v, i) && !is_named(indices, named, i) && away > greatest) {
            greatest = away;
            indices[named] = i;
        }
    }
    return is_outlying(v, greatest, f.deviation, f.count);
}

static fer_status find_outliers(const view *v, size_t *indices, size_t capacity, size_t *found)
{
    const size_t used = count_used(v);
    const size_t maximum = used / 5 > 1 ? used / 5 : 1;
    FER_REQUIRE(used > 2, FER_READING_TOO_FEW_FOR_OUTLIERS);
    FER_REQUIRE(capacity >= maximum, FER_ARGUMENT_CAPACITY_TOO_SMALL);
    size_t outliers = 0;
    for (size_t named = 0; named < maximum; named++) {
        if (name_farthest(v, indices, named)) {
            outliers = named + 1; /* an outlier may hide behind those found later */
        }
    }
    *found = outliers;
    return FER_OK;
}

fer_status fer_find_outliers(const fer_reading *readings, size_t count, const fer_gauge *gauge,
                             fer_marks marks, size_t *indices, size_t capacity, size_t *found)
{
    view v = {0};
    FER_REQUIRE(found, FER_ARGUMENT_MISSING);
    *found = 0;
    FER_REQUIRE(indices, FER_ARGUMENT_MISSING);
    FER_REQUIRE(count <= FER_READINGS_MAXIMUM, FER_ARGUMENT_COUNT_TOO_LARGE);
    FER_TRY(take_readings(readings, count, gauge, &marks, &v));
    return find_outliers(&v, indices, capacity, found);
}

enum { unknowns_maximum = FER_SECTIONS_MAXIMUM + 4 };

/* Normal equations of the fit. */
typedef struct {
    double matrix[unknowns_maximum][unknowns_maximum], right[unknowns_maximum];
    double reference;                 /* subtracted from the diameters, so that no digits are lost */
    int column[FER_SECTIONS_MAXIMUM]; /* a section's unknown, -1: no reading */
    int sections, unknowns, harmonic, phase_known;
    size_t count;
} equations;

static int is_fitted(const view *v, size_t i)
{
    return counts(v, i) && v->readings[i].angle_known;
}

/* One reading's row. */
static void fill_row(const view *v, const equations *e, size_t i, double row[unknowns_maximum])
{
    const double angle = v->readings[i].angle.rad;
    for (int k = 0; k < e->unknowns; k++) {
        row[k] = 0.0;
    }
    row[e->column[v->readings[i].section]] = 1.0;
    row[e->sections] = cos(2.0 * angle);
    row[e->sections + 1] = sin(2.0 * angle);
    if (e->phase_known) {
        row[e->sections + 2] = cos(e->harmonic * (angle - v->lobes));
    } else {
        row[e->sections + 2] = cos(e->harmonic * angle);
        row[e->sections + 3] = sin(e->harmonic * angle);
    }
}

static void count_unknowns(const view *v, equations *e)
{
    for (int section = 0; section < FER_SECTIONS_MAXIMUM; section++) {
        e->column[section] = -1;
    }
    for (size_t i = 0; i < v->count; i++) {
        int *column = &e->column[v->readings[i].section];
        if (is_fitted(v, i)) {
            e->count++;
            e->reference = corrected(v, i);
            *column = *column < 0 ? e->sections++ : *column;
        }
    }
    e->harmonic = v->segments % 2 == 0 ? v->segments : 2 * v->segments;
    e->phase_known = v->gap_known;
    e->unknowns = e->sections + (e->phase_known ? 3 : 4);
}

static void sum_equations(const view *v, equations *e)
{
    double row[unknowns_maximum];
    for (size_t i = 0; i < v->count; i++) {
        if (!is_fitted(v, i)) {
            continue;
        }
        fill_row(v, e, i, row);
        for (int j = 0; j < e->unknowns; j++) {
            for (int k = 0; k < e->unknowns; k++) {
                e->matrix[j][k] += row[j] * row[k];
            }
            e->right[j] += row[j] * (corrected(v, i) - e->reference);
        }
    }
}

/* Cholesky's factor in the lower half. A pivot that is almost gone means that two unknowns cannot be distinguished. */
static fer_status factorise(equations *e)
{
    for (int j = 0; j < e->unknowns; j++) {
        double pivot = e->matrix[j][j];
        const double floor = 1e-8 * pivot;
        for (int k = 0; k < j; k++) {
            pivot -= e->matrix[j][k] * e->matrix[j][k];
        }
        FER_REQUIRE(pivot > floor, FER_READING_ANGLES_TOO_FEW);
        e->matrix[j][j] = sqrt(pivot);
        for (int i = j + 1; i < e->unknowns; i++) {
            double sum = e->matrix[i][j];
            for (int k = 0; k < j; k++) {
                sum -= e->matrix[i][k] * e->matrix[j][k];
            }
            e->matrix[i][j] = sum / e->matrix[j][j];
        }
    }
    return FER_OK;
}

static void solve(const equations *e, double x[unknowns_maximum])
{
    for (int i = 0; i < e->unknowns; i++) {
        for (int k = 0; k < i; k++) {
            x[i] -= e->matrix[i][k] * x[k];
        }
        x[i] /= e->matrix[i][i];
    }
    for (int i = e->unknowns - 1; i >= 0; i--) {
        for (int k = i + 1; k < e->unknowns; k++) {
            x[i] -= e->matrix[k][i] * x[k];
        }
        x[i] /= e->matrix[i][i];
    }
}

/* What the fit leaves of a reading; writes its row. */
static double rest_of(const view *v, const equations *e, size_t i, const double x[unknowns_maximum],
                      double row[unknowns_maximum])
{
    double rest = corrected(v, i) - e->reference;
    fill_row(v, e, i, row);
    for (int k = 0; k < e->unknowns; k++) {
        rest -= row[k] * x[k];
    }
    return rest;
}

/* Fits what the fit left once more: the squares of the normal equations had cost twice the digits. */
static void refine(const view *v, const equations *e, double x[unknowns_maximum])
{
    double row[unknowns_maximum], change[unknowns_maximum] = {0};
    for (size_t i = 0; i < v->count; i++) {
        if (is_fitted(v, i)) {
            const double rest = rest_of(v, e, i, x, row);
            for (int k = 0; k < e->unknowns; k++) {
                change[k] += row[k] * rest;
            }
        }
    }
    solve(e, change);
    for (int k = 0; k < e->unknowns; k++) {
        x[k] += change[k];
    }
}

static double residual_squares(const view *v, const equations *e, const double x[unknowns_maximum])
{
    double row[unknowns_maximum], squares = 0.0;
    for (size_t i = 0; i < v->count; i++) {
        if (is_fitted(v, i)) {
            const double rest = rest_of(v, e, i, x, row);
            squares += rest * rest;
        }
    }
    return squares;
}

/* An angle as 0 to below one repetition. */
static fer_angle wrapped(double angle, double repetition)
{
    const double rest = fmod(angle, repetition);
    const double positive = rest < 0.0 ? rest + repetition : rest;
    const fer_angle a = {positive < repetition ? positive : 0.0};
    return a;
}

/* Variance factor of the mean over the sections: w' (A'A)^-1 w with w = 1/sections on their unknowns. */
static double mean_variance_factor(const equations *e)
{
    double w[unknowns_maximum] = {0}, factor = 0.0;
    for (int k = 0; k < e->sections; k++) {
        w[k] = 1.0 / e->sections;
    }
    double solution[unknowns_maximum];
    for (int k = 0; k < unknowns_maximum; k++) {
        solution[k] = w[k];
    }
    solve(e, solution);
    for (int k = 0; k < e->sections; k++) {
        factor += w[k] * solution[k];
    }
    return factor;
}

static void describe_lobes(const view *v, const equations *e, const double *harmonic, fer_lobe_fit *fit)
{
    const double repetition = 2.0 * pi / e->harmonic;
    fit->harmonic = e->harmonic;
    if (e->phase_known) {
        fit->lobe.mm = 2.0 * harmonic[0];
        fit->lobes_angle = wrapped(v->lobes, repetition);
        return;
    }
    fit->lobe.mm = 2.0 * hypot(harmonic[0], harmonic[1]);
    fit->lobes_angle = wrapped(atan2(harmonic[1], harmonic[0]) / e->harmonic, repetition);
}

static void describe_fit(const view *v, const equations *e, const double x[unknowns_maximum],
                         fer_lobe_fit *fit)
{
    const double *oval = x + e->sections;
    const double gauge = v->gauge.standard_uncertainty.mm, step = v->gauge.resolution.mm;
    const double squares = residual_squares(v, e, x);
    double mean = 0.0;
    for (int k = 0; k < e->sections; k++) {
        mean += x[k] / e->sections;
    }
    fit->degrees_of_freedom = e->count - (size_t)e->unknowns;
    const int scatter_there = fit->degrees_of_freedom > 0;
    const double variance = scatter_there ? squares / (double)fit->degrees_of_freedom : 0.0;
    fit->mean.mm = e->reference + mean;
    fit->ovality.mm = 2.0 * hypot(oval[0], oval[1]);
    fit->ovality_angle = wrapped(atan2(oval[1], oval[0]) / 2.0, pi);
    describe_lobes(v, e, oval + 2, fit);
    fit->over_lobes.mm = fit->mean.mm + fit->lobe.mm / 2.0;
    fit->scatter = found_if(scatter_there, sqrt(variance), FER_READING_TOO_FEW);
    fit->mean_uncertainty.mm =
        sqrt(gauge * gauge + fmax(variance * mean_variance_factor(e), step * step / 12.0));
}

static fer_status fit_lobes(const view *v, fer_lobe_fit *fit)
{
    equations e = {0};
    double x[unknowns_maximum];
    count_unknowns(v, &e);
    FER_REQUIRE(e.count >= (size_t)e.unknowns, FER_READING_ANGLES_TOO_FEW);
    sum_equations(v, &e);
    FER_TRY(factorise(&e));
    for (int k = 0; k < unknowns_maximum; k++) {
        x[k] = e.right[k];
    }
    solve(&e, x);
    refine(v, &e, x);
    describe_fit(v, &e, x, fit);
    return FER_OK;
}

static void leave_out_fit(fer_status why, fer_lobe_fit *fit)
{
    FER_EMPTY(*fit);
    FER_LEAVE_OUT_FROM(fer_lobe_fit, *fit, mean, lobes_angle);
    FER_NOT_FOUND(fit->scatter, why);
}

fer_status fer_fit_lobes(const fer_reading *readings, size_t count, const fer_gauge *gauge, fer_marks marks,
                         fer_lobe_fit *fit)
{
    view v = {0};
    FER_REQUIRE(fit, FER_ARGUMENT_MISSING);
    leave_out_fit(FER_OK, fit);
    fer_status status = take_readings(readings, count, gauge, &marks, &v);
    if (status == FER_OK) {
        status = fit_lobes(&v, fit);
    }
    if (status != FER_OK) {
        leave_out_fit(status, fit);
    }
    return status;
}
