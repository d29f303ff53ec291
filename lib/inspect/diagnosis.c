/* SPDX-License-Identifier: MIT */
/* Which causes explain a crimp that came out wrong, and what to check next.
 * Method: Bayes' rule over what each cause predicts; the next check by the information to expect.
 * Formulas: include/ferrule/diagnosis.h; docs/diagnosis.md. */
#include <ferrule/diagnosis.h>

#include "crimp/die_private.h"
#include "base/value_private.h"
#include "base/words.h"
#include "base/numeric/quadrature.h"
#include "base/numeric/special.h"
#include "base/numeric/pi.h"

static const double misread = 0.02; /* share of checks that tell the wrong thing (from memory) */

/* standard deviation of a compression by none of these (from memory) */
static const double none_deviation_of_look = 0.25;
static const double other_coupling = 0.15; /* by a figure that is for another coupling (from memory) */

/* Usual weights (common practice, from memory). In the order of the list. */
static const double usual_weights[FER_CAUSE_COUNT] = {
    80.0, 1.0, 3.0, 2.0, 1.0, 1.0, 1.0, 1.5, 1.0, 1.0, 1.0, 0.5, 1.0, 2.0, 2.0, 1.0, /* a diameter */
    4.0,  2.0, 4.0, 3.0, 1.5, 2.0, 3.0, 4.0,                                         /* a look */
};

/* What a check shows: each cause that it would find shows as an outcome of its own, all others as outcome 0. */
static const unsigned char findings[][2] = {
    {FER_CHECK_READ_DIE, FER_CAUSE_OTHER_DIE},
    {FER_CHECK_READ_DIAL, FER_CAUSE_DIAL_ONE_STEP},
    {FER_CHECK_READ_DIAL, FER_CAUSE_DIAL_ONE_TURN},
    {FER_CHECK_READ_DIAL, FER_CAUSE_DIAL_DECIMAL},
    {FER_CHECK_READ_DIAL, FER_CAUSE_DIAL_TARGET},
    {FER_CHECK_READ_DIAL, FER_CAUSE_INCH_FOR_MM},
    {FER_CHECK_WORK_OUT_AGAIN, FER_CAUSE_DIAL_TARGET},
    {FER_CHECK_WORK_OUT_AGAIN, FER_CAUSE_INCH_FOR_MM},
    {FER_CHECK_WORK_OUT_AGAIN, FER_CAUSE_CORRECTION_LEFT_OUT},
    {FER_CHECK_WORK_OUT_AGAIN, FER_CAUSE_CORRECTION_WRONG_WAY},
    {FER_CHECK_WORK_OUT_AGAIN, FER_CAUSE_SPRINGBACK_LEFT_OUT},
    {FER_CHECK_LOOK_FOR_ADAPTER, FER_CAUSE_ADAPTER_MISSING},
    {FER_CHECK_LOOK_FOR_ADAPTER, FER_CAUSE_ADAPTER_LEFT_IN},
    {FER_CHECK_GAUGE_ON_RING, FER_CAUSE_GAUGE_ZERO},
    {FER_CHECK_MEASURE_OVER_MIDDLES, FER_CAUSE_OVER_GAPS},
    {FER_CHECK_PRESS_ON_BAR, FER_CAUSE_PRESS_DRIFT},
    {FER_CHECK_MEASURE_HOSE, FER_CAUSE_HOSE_OVER_COVER},
    {FER_CHECK_MEASURE_HOSE, FER_CAUSE_HOSE_SKIVED},
    {FER_CHECK_MEASURE_HOSE, FER_CAUSE_HOSE_INSIDE_NOMINAL},
    {FER_CHECK_MEASURE_HOSE, FER_CAUSE_OTHER_HOSE},
    {FER_CHECK_MEASURE_STEM, FER_CAUSE_STEM_BETWEEN_RIDGES},
    {FER_CHECK_MEASURE_FERRULE, FER_CAUSE_WALL_TWICE},
    {FER_CHECK_MEASURE_FERRULE, FER_CAUSE_WALL_ON_RIDGE},
    {FER_CHECK_READ_MARKS, FER_CAUSE_OTHER_HOSE},
    {FER_CHECK_READ_MARKS, FER_CAUSE_OTHER_COUPLING},
};
enum { finding_count = sizeof findings / sizeof *findings };

/* What one cause predicts and how well that fits. */
typedef struct {
    double share, fit; /* shares of its variants, and share times likelihood, summed */
    double best, predicted, standard_deviation; /* of the variant that fits best */
    size_t die;
    double prior, probability;
} hypothesis;

/* All causes, with what was seen. */
typedef struct {
    hypothesis of[FER_CAUSE_COUNT];
    double seen, variance; /* mean deviation from what is expected, and its variance */
    double crimp_variance; /* of another piece; 0: a look */
    double asked;
} weighing;

/* One variant of what a cause predicts. */
static void weigh(weighing *w, fer_cause cause, double share, double predicted, double standard_deviation,
                  double likelihood)
{
    hypothesis *h = &w->of[cause];
    h->share += share;
    h->fit += share * likelihood;
    if (h->best == 0.0 || share * likelihood > h->best) {
        h->best = share * likelihood;
        h->predicted = predicted;
        h->standard_deviation = standard_deviation;
    }
}

static double normal_likelihood(double x, double mean, double variance)
{
    return fer_normal_density((x - mean) / sqrt(variance)) / sqrt(variance);
}

/* Cauchy's distribution: no deviation is impossible. */
static double none_likelihood(double x, double half_width)
{
    return half_width / (pi * (half_width * half_width + x * x));
}

static fer_status take_priors(const fer_prior *priors, size_t count, weighing *w)
{
    FER_REQUIRE(priors || count == 0, FER_ARGUMENT_MISSING);
    for (int cause = 0; cause < FER_CAUSE_COUNT; cause++) {
        w->of[cause].prior = usual_weights[cause];
    }
    for (size_t i = 0; i < count; i++) {
        const double weight = priors[i].weight.fraction;
        FER_REQUIRE((unsigned)priors[i].cause < FER_CAUSE_COUNT, FER_PRIOR_CAUSE_UNKNOWN);
        FER_REQUIRE(weight >= 0.0 && weight <= 1e6, FER_PRIOR_WEIGHT_OUT_OF_RANGE);
        w->of[priors[i].cause].prior = weight;
    }
    return FER_OK;
}

/* Bayes' rule over the causes that are possible here. */
static fer_status find_probabilities(weighing *w)
{
    double weights = 0.0, total = 0.0;
    for (int cause = 0; cause < FER_CAUSE_COUNT; cause++) {
        hypothesis *h = &w->of[cause];
        h->prior = h->share > 0.0 ? h->prior : 0.0;
        weights += h->prior;
        h->probability = h->prior > 0.0 ? h->prior * h->fit / h->share : 0.0;
        total += h->probability;
    }
    FER_REQUIRE(weights > 0.0, FER_PRIOR_ALL_ZERO);
    FER_REQUIRE(total > 0.0, FER_DIAGNOSIS_NOTHING_FITS);
    for (int cause = 0; cause < FER_CAUSE_COUNT; cause++) {
        w->of[cause].prior /= weights;
        w->of[cause].probability /= total;
    }
    return FER_OK;
}

/* The causes that have a prior, the likeliest first. */
static size_t rank(const weighing *w, fer_cause ranked[FER_CAUSE_COUNT])
{
    size_t count = 0;
    for (int cause = 0; cause < FER_CAUSE_COUNT; cause++) {
        if (!(w->of[cause].prior > 0.0)) {
            continue;
        }
        size_t place = count++;
        for (; place > 0 && w->of[ranked[place - 1]].probability < w->of[cause].probability; place--) {
            ranked[place] = ranked[place - 1];
        }
        ranked[place] = (fer_cause)cause;
    }
    return count;
}

/* For p above 0: a check may always tell the wrong thing, so that no outcome is impossible. */
static double plogp(double p)
{
    return -p * log2(p);
}

/* Outcome of a check if this is the cause: 0 where the check finds nothing. */
static int outcome_of(fer_check check, int cause)
{
    int outcome = 0;
    for (int i = 0; i < finding_count; i++) {
        if (findings[i][0] == check) {
            outcome++;
            if (findings[i][1] == cause) {
                return outcome;
            }
        }
    }
    return 0;
}

static int count_outcomes(fer_check check)
{
    int outcomes = 1;
    for (int i = 0; i < finding_count; i++) {
        outcomes += findings[i][0] == check;
    }
    return outcomes;
}

/* Information in bits that a look-up check gives on the causes with these probabilities. A misreading shows one of the
 * other outcomes. */
static double look_up_bits(fer_check check, const double probabilities[FER_CAUSE_COUNT])
{
    double shown[FER_CAUSE_COUNT] = {0}, bits = 0.0;
    const int outcomes = count_outcomes(check);
    const double other = misread / (outcomes - 1);
    for (int cause = 0; cause < FER_CAUSE_COUNT; cause++) {
        const int own = outcome_of(check, cause);
        for (int outcome = 0; outcome < outcomes; outcome++) {
            shown[outcome] += probabilities[cause] * (outcome == own ? 1.0 - misread : other);
        }
    }
    for (int outcome = 0; outcome < outcomes; outcome++) {
        bits += plogp(shown[outcome]);
    }
    return fmax(0.0, bits - plogp(1.0 - misread) - (outcomes - 1) * plogp(other));
}

/* What another piece would measure under each cause: normal distributions. */
typedef struct {
    double probability[FER_CAUSE_COUNT], mean[FER_CAUSE_COUNT], deviation[FER_CAUSE_COUNT];
} forecast;

/* Sum of p f log2(f / mixture): its integral is the information that a measurement gives on the causes. */
static double information_density(double x, const void *context)
{
    const forecast *f = (const forecast *)context;
    double density[FER_CAUSE_COUNT], mixture = 0.0, sum = 0.0;
    for (int cause = 0; cause < FER_CAUSE_COUNT; cause++) {
        density[cause] =
            f->probability[cause] > 0.0
                ? fer_normal_density((x - f->mean[cause]) / f->deviation[cause]) / f->deviation[cause]
                : 0.0;
        mixture += f->probability[cause] * density[cause];
    }
    for (int cause = 0; cause < FER_CAUSE_COUNT; cause++) {
        if (density[cause] > 0.0) {
            sum += f->probability[cause] * density[cause] * log2(density[cause] / mixture);
        }
    }
    return sum;
}

static double integrate_information(const forecast *f)
{
    double breaks[5 * FER_CAUSE_COUNT], from = INFINITY, to = -INFINITY;
    size_t count = 0;
    for (int cause = 0; cause < FER_CAUSE_COUNT; cause++) {
        for (int i = -2; f->probability[cause] > 0.0 && i <= 2; i++) {
            breaks[count++] = f->mean[cause] + 3.5 * i * f->deviation[cause];
            from = fmin(from, breaks[count - 1]);
            to = fmax(to, breaks[count - 1]);
        }
    }
    return fmax(0.0, fer_integrate_pieces(information_density, f, from, to, breaks, count));
}

/* Information from another piece. A cause that was seen to deviate by so much goes on to do so: its systematic part is
 * drawn from what it predicts towards what was seen. */
static double another_piece_bits(const weighing *w, const double probabilities[FER_CAUSE_COUNT])
{
    forecast f;
    for (int cause = 0; cause < FER_CAUSE_COUNT; cause++) {
        const hypothesis *h = &w->of[cause];
        const double own = h->standard_deviation * h->standard_deviation, both = own + w->variance;
        f.probability[cause] = probabilities[cause];
        f.mean[cause] = (h->predicted * w->variance + w->seen * own) / both;
        f.deviation[cause] = sqrt(own * w->variance / both + w->crimp_variance);
    }
    return w->crimp_variance > 0.0 ? integrate_information(&f) : 0.0;
}

static double check_bits(const weighing *w, fer_check check, const double probabilities[FER_CAUSE_COUNT])
{
    return check == FER_CHECK_MEASURE_ANOTHER ? another_piece_bits(w, probabilities)
                                              : look_up_bits(check, probabilities);
}

/* The check that tells most about first against second; of equal ones the one that tells most about all. A single cause
 * is first and second: no check tells anything of it. */
static void choose_check(const weighing *w, fer_cause first, fer_cause second, fer_diagnosis *diagnosis)
{
    double all[FER_CAUSE_COUNT], pair[FER_CAUSE_COUNT] = {0};
    const double both = w->of[first].probability + (second == first ? 0.0 : w->of[second].probability);
    for (int cause = 0; cause < FER_CAUSE_COUNT; cause++) {
        all[cause] = w->of[cause].probability;
    }
    pair[first] = w->of[first].probability / both;
    pair[second] = w->of[second].probability / both;
    diagnosis->bits = diagnosis->bits_all = -1.0;
    /* another piece comes last: it costs a piece, and takes longest to compute */
    for (int i = 1; i <= FER_CHECK_COUNT; i++) {
        const fer_check check = (fer_check)(i % FER_CHECK_COUNT);
        const double bits = check_bits(w, check, pair);
        if (bits < diagnosis->bits - 1e-12) {
            continue;
        }
        const double bits_all = check_bits(w, check, all);
        if (bits > diagnosis->bits + 1e-12 || bits_all > diagnosis->bits_all) {
            diagnosis->next_check = check;
            diagnosis->bits = bits;
            diagnosis->bits_all = bits_all;
        }
    }
}

/* Whether two causes predict the same but for what they scatter. None of these predicts nothing. */
static int predict_the_same(const weighing *w, fer_cause first, fer_cause second)
{
    const hypothesis *a = &w->of[first], *b = &w->of[second];
    const double standard_deviation = fmax(a->standard_deviation, b->standard_deviation);
    return first != FER_CAUSE_NONE_OF_THESE && second != FER_CAUSE_NONE_OF_THESE &&
           fabs(a->predicted - b->predicted) < sqrt(w->variance + standard_deviation * standard_deviation);
}

/* Fills suspects and diagnosis; `shift` makes predicted deviations ones from the target. */
static fer_status report(weighing *w, double shift, size_t die_count, fer_suspect *suspects, size_t capacity,
                         size_t *found, fer_diagnosis *diagnosis)
{
    fer_cause ranked[FER_CAUSE_COUNT];
    FER_TRY(find_probabilities(w));
    const size_t count = rank(w, ranked);
    FER_REQUIRE(count <= capacity, FER_ARGUMENT_CAPACITY_TOO_SMALL);
    for (size_t i = 0; i < count; i++) {
        const hypothesis *h = &w->of[ranked[i]];
        const int is_look = w->crimp_variance == 0.0;
        suspects[i].cause = ranked[i];
        suspects[i].probability.fraction = h->probability;
        suspects[i].prior.fraction = h->prior;
        suspects[i].predicted.mm = is_look ? NAN : h->predicted + shift;
        suspects[i].compression.fraction = is_look ? h->predicted : NAN;
        suspects[i].die_index = ranked[i] == FER_CAUSE_OTHER_DIE ? h->die : die_count;
    }
    diagnosis->first = ranked[0];
    diagnosis->second = count > 1 ? ranked[1] : FER_CAUSE_NONE_OF_THESE;
    diagnosis->decided = w->of[ranked[0]].probability >= w->asked;
    diagnosis->undecidable = !diagnosis->decided && predict_the_same(w, diagnosis->first, diagnosis->second);
    choose_check(w, ranked[0], ranked[count > 1], diagnosis);
    diagnosis->cautions = fer_stage_cautions(FER_STAGE_TRIAL);
    *found = count;
    return FER_OK;
}

/* The results before anything is known, each that is wanted. */
static fer_status begin(size_t *found, fer_diagnosis *diagnosis)
{
    if (found) {
        *found = 0;
    }
    if (diagnosis) {
        FER_EMPTY(*diagnosis);
        FER_LEAVE_OUT_FROM(fer_diagnosis, *diagnosis, deviation, standard_uncertainty);
        diagnosis->first = diagnosis->second = FER_CAUSE_NONE_OF_THESE;
        FER_LEAVE_OUT_FROM(fer_diagnosis, *diagnosis, bits, bits_all);
    }
    return found && diagnosis ? FER_OK : FER_ARGUMENT_MISSING;
}

/* The set-up whose pieces were measured. */
typedef struct {
    const fer_setup *setup;
    const fer_press *press;
    const fer_die *dies;
    size_t die_count;
    fer_diagnosing known; /* defaults filled in */
    weighing w;
} set_up;

static double usual_if_zero(double given, double usual)
{
    return given == 0.0 ? usual : given;
}

static fer_status take_diagnosing(const fer_diagnosing *given, set_up *s)
{
    const double lengths[] = {given->crimp_deviation.mm,
                              given->setting_deviation.mm,
                              given->gauge_uncertainty.mm,
                              given->drift_deviation.mm,
                              given->gauge_zero_deviation.mm,
                              given->none_half_width.mm,
                              given->dial_turn.mm,
                              given->adapter.mm,
                              given->springback.mm,
                              given->uncrimped.mm};
    for (size_t i = 0; i < sizeof lengths / sizeof *lengths; i++) {
        FER_REQUIRE(lengths[i] == 0.0 || (lengths[i] >= 1e-6 && lengths[i] <= FER_LENGTH_MAXIMUM_MM),
                    FER_DIAGNOSING_LENGTH_OUT_OF_RANGE);
    }
    FER_REQUIRE(given->asked.fraction >= 0.0 && given->asked.fraction < 1.0,
                FER_DIAGNOSING_PROBABILITY_OUT_OF_RANGE);
    s->known = *given;
    s->known.crimp_deviation.mm = usual_if_zero(given->crimp_deviation.mm, 0.03);
    s->known.setting_deviation.mm = usual_if_zero(given->setting_deviation.mm, 0.02);
    s->known.drift_deviation.mm = usual_if_zero(given->drift_deviation.mm, 0.15);
    s->known.gauge_zero_deviation.mm = usual_if_zero(given->gauge_zero_deviation.mm, 0.10);
    s->known.none_half_width.mm = usual_if_zero(given->none_half_width.mm, 1.0);
    s->known.uncrimped.mm = usual_if_zero(given->uncrimped.mm, FER_LENGTH_MAXIMUM_MM);
    s->w.asked = usual_if_zero(given->asked.fraction, 0.95);
    return FER_OK;
}

/* Sum of squares that so many degrees of freedom exceed in a thousandth of all cases if nothing but chance is at work:
 * chi-squared by Wilson and Hilferty (1931), at most 3 % high. */
static double squares_by_chance(double degrees)
{
    const double third = 2.0 / (9.0 * degrees), root = 1.0 - third + 3.0902323061678132 * sqrt(third);
    return degrees * root * root * root;
}

/* Whether the pieces come from one setting: what they scatter about their mean, in their own uncertainties. */
static fer_status check_agreement(const fer_piece *pieces, size_t count, const set_up *s)
{
    const double crimp = s->known.crimp_deviation.mm;
    const double mean = s->setup->dial.value.expected.mm + s->w.seen;
    double squares = 0.0;
    for (size_t i = 0; i < count; i++) {
        const double u = pieces[i].standard_uncertainty.mm, away = pieces[i].diameter.mm - mean;
        squares += away * away / (crimp * crimp + u * u);
    }
    FER_REQUIRE(count < 2 || squares <= squares_by_chance((double)count - 1.0),
                FER_DIAGNOSIS_MORE_THAN_ONE_CAUSE);
    return FER_OK;
}

static fer_status take_pieces(const fer_piece *pieces, size_t count, set_up *s)
{
    const double crimp = s->known.crimp_deviation.mm, setting = s->known.setting_deviation.mm;
    const double gauge = s->known.gauge_uncertainty.mm, expected = s->setup->dial.value.expected.mm;
    double weights = 0.0, sum = 0.0;
    for (size_t i = 0; i < count; i++) {
        const double u = pieces[i].standard_uncertainty.mm;
        FER_TRY(fer_check_length(pieces[i].diameter, FER_PIECE_DIAMETER_MISSING,
                                 FER_PIECE_DIAMETER_OUT_OF_RANGE));
        FER_REQUIRE(u >= 0.0 && u <= 1000.0, FER_PIECE_UNCERTAINTY_OUT_OF_RANGE);
        const double weight = 1.0 / (crimp * crimp + u * u);
        weights += weight;
        sum += weight * (pieces[i].diameter.mm - expected);
    }
    s->w.seen = sum / weights;
    s->w.variance = 1.0 / weights + setting * setting + gauge * gauge;
    s->w.crimp_variance = crimp * crimp;
    return check_agreement(pieces, count, s);
}

/* A variant that predicts a deviation from what the dial setting should give. */
static void weigh_deviation(set_up *s, fer_cause cause, double share, double deviation,
                            double standard_deviation)
{
    const double clearance = s->known.uncrimped.mm - s->setup->dial.value.expected.mm;
    const double predicted = fmin(deviation, clearance);
    weigh(&s->w, cause, share, predicted, standard_deviation,
          normal_likelihood(s->w.seen, predicted, standard_deviation * standard_deviation + s->w.variance));
}

/* A variant in which the dial was set elsewhere; left out where the dial cannot. */
static void weigh_setting(set_up *s, fer_cause cause, double setting)
{
    const double upper = s->press->dial_maximum.mm, moved = setting - s->setup->dial.value.setting.mm;
    if (setting >= 0.0 && (upper == 0.0 || setting <= upper) && fabs(moved) > 1e-9) {
        weigh_deviation(s, cause, 1.0, moved, 0.0);
    }
}

static void weigh_dies(set_up *s)
{
    hypothesis *h = &s->w.of[FER_CAUSE_OTHER_DIE];
    for (size_t i = 0; i < s->die_count; i++) {
        const double difference = s->dies[i].size.mm - s->setup->die.die.size.mm;
        if (fabs(difference) > 1e-9) {
            const double before = h->best;
            weigh_deviation(s, FER_CAUSE_OTHER_DIE, 1.0 / (1.0 + fabs(difference)), difference, 0.0);
            h->die = h->best > before || before == 0.0 ? i : h->die;
        }
    }
}

static void weigh_dial(set_up *s)
{
    const double setting = s->setup->dial.value.setting.mm, target = s->setup->target.mm;
    const double step = s->press->graduation.mm, turn = s->known.dial_turn.mm;
    const double die = s->setup->die.die.size.mm, correction = s->press->correction.mm;
    weigh_setting(s, FER_CAUSE_DIAL_ONE_STEP, setting + step);
    weigh_setting(s, FER_CAUSE_DIAL_ONE_STEP, setting - step);
    weigh_setting(s, FER_CAUSE_DIAL_ONE_TURN, setting + turn);
    weigh_setting(s, FER_CAUSE_DIAL_ONE_TURN, setting - turn);
    weigh_setting(s, FER_CAUSE_DIAL_DECIMAL, 10.0 * setting);
    weigh_setting(s, FER_CAUSE_DIAL_DECIMAL, setting / 10.0);
    weigh_setting(s, FER_CAUSE_DIAL_TARGET, target);
    weigh_setting(s, FER_CAUSE_INCH_FOR_MM, setting / 25.4);
    weigh_setting(s, FER_CAUSE_INCH_FOR_MM, setting * 25.4);
    weigh_setting(s, FER_CAUSE_INCH_FOR_MM, target - die / 25.4 + correction);
    weigh_setting(s, FER_CAUSE_CORRECTION_LEFT_OUT, setting - correction);
    weigh_setting(s, FER_CAUSE_CORRECTION_WRONG_WAY, setting - 2.0 * correction);
}

static void weigh_press_and_gauge(set_up *s)
{
    const double adapter = s->known.adapter.mm, springback = s->known.springback.mm;
    const fer_found_shape *shape = &s->setup->shape;
    weigh_deviation(s, FER_CAUSE_HEALTHY, 1.0, 0.0, 0.0);
    weigh(&s->w, FER_CAUSE_NONE_OF_THESE, 1.0, s->w.seen, s->known.none_half_width.mm,
          none_likelihood(s->w.seen, s->known.none_half_width.mm));
    if (adapter > 0.0 && s->setup->die.die.adapter > 0) {
        weigh_deviation(s, FER_CAUSE_ADAPTER_MISSING, 1.0, adapter, 0.0);
    } else if (adapter > 0.0) {
        weigh_deviation(s, FER_CAUSE_ADAPTER_LEFT_IN, 1.0, -adapter, 0.0);
    }
    if (springback > 0.0) {
        weigh_deviation(s, FER_CAUSE_SPRINGBACK_LEFT_OUT, 1.0, springback, 0.0);
    }
    if (shape->status == FER_OK && shape->value.jaws_maximum.mm > shape->value.jaws_minimum.mm) {
        /* the real range is 60 to 85 % of what the arcs say (finite elements, module `lobe`) */
        const double range = shape->value.jaws_maximum.mm - shape->value.jaws_minimum.mm;
        weigh_deviation(s, FER_CAUSE_OVER_GAPS, 1.0, -0.725 * range, 0.072 * range);
    }
    weigh_deviation(s, FER_CAUSE_PRESS_DRIFT, 1.0, 0.0, s->known.drift_deviation.mm);
    weigh_deviation(s, FER_CAUSE_GAUGE_ZERO, 1.0, 0.0, s->known.gauge_zero_deviation.mm);
}

static fer_status check_set_up(const set_up *s)
{
    FER_REQUIRE(s->setup && s->press, FER_ARGUMENT_MISSING);
    FER_REQUIRE(s->dies || s->die_count == 0, FER_ARGUMENT_MISSING);
    FER_TRY(fer_check_press(s->press));
    FER_REQUIRE(s->setup->die.found && s->setup->dial.status == FER_OK, FER_SETUP_INCOMPLETE);
    FER_REQUIRE(fer_is_length(s->setup->target) && fer_is_length(s->setup->dial.value.expected) &&
                    s->setup->dial.value.setting.mm >= 0.0 && fer_is_length(s->setup->die.die.size),
                FER_SETUP_INCOMPLETE);
    for (size_t i = 0; i < s->die_count; i++) {
        FER_TRY(fer_check_die(&s->dies[i]));
    }
    return FER_OK;
}

static fer_status diagnose_diameter(set_up *s, const fer_piece *pieces, size_t piece_count,
                                    const fer_prior *priors, size_t prior_count,
                                    const fer_diagnosing *diagnosing, fer_suspect *suspects, size_t capacity,
                                    size_t *found, fer_diagnosis *diagnosis)
{
    FER_TRY(check_set_up(s));
    FER_REQUIRE(pieces && suspects, FER_ARGUMENT_MISSING);
    FER_REQUIRE(piece_count > 0, FER_ARGUMENT_COUNT_ZERO);
    FER_TRY(take_diagnosing(diagnosing, s));
    FER_TRY(take_pieces(pieces, piece_count, s));
    FER_TRY(take_priors(priors, prior_count, &s->w));
    weigh_dies(s);
    weigh_dial(s);
    weigh_press_and_gauge(s);
    const double shift = s->setup->dial.value.expected.mm - s->setup->target.mm;
    FER_TRY(report(&s->w, shift, s->die_count, suspects, capacity, found, diagnosis));
    diagnosis->deviation.mm = s->w.seen + shift;
    diagnosis->standard_uncertainty.mm = sqrt(s->w.variance);
    return FER_OK;
}

fer_status fer_diagnose_diameter(const fer_setup *setup, const fer_press *press, const fer_die *dies,
                                 size_t die_count, const fer_piece *pieces, size_t piece_count,
                                 const fer_prior *priors, size_t prior_count, fer_diagnosing diagnosing,
                                 fer_suspect *suspects, size_t capacity, size_t *found,
                                 fer_diagnosis *diagnosis)
{
    set_up s = {0};
    FER_TRY(begin(found, diagnosis));
    s.setup = setup;
    s.press = press;
    s.dies = dies;
    s.die_count = die_count;
    return diagnose_diameter(&s, pieces, piece_count, priors, prior_count, &diagnosing, suspects, capacity,
                             found, diagnosis);
}

/* A crimp that looks wrong. */
typedef struct {
    fer_joint joint;
    double diameter, lower, upper; /* crimp diameter, range of compression */
    int published;
    double cover, ridge, other_hose, uncertainty;
    const fer_look *looks;
    size_t look_count;
    double mean, standard_deviation; /* of the compression under the cause that is weighed */
    weighing w;
} crimp;

static double look_uncertainty(const fer_look *look)
{
    return usual_if_zero(look->standard_uncertainty.fraction, 0.02);
}

/* Likelihood of one look if the compression is x. */
static double look_likelihood(const crimp *c, const fer_look *look, double x)
{
    const double u = look_uncertainty(look);
    const double tight = fer_normal_cdf((x - c->upper) / u), loose = fer_normal_cdf((c->lower - x) / u);
    if (look->kind == FER_LOOK_TOO_TIGHT) {
        return tight;
    }
    if (look->kind == FER_LOOK_TOO_LOOSE) {
        return loose;
    }
    if (look->kind == FER_LOOK_GOOD) {
        return (1.0 - tight) * (1.0 - loose);
    }
    /* measured: relative to its greatest, the rest is common to all causes */
    return exp(-0.5 * (look->compression.fraction - x) * (look->compression.fraction - x) / (u * u));
}

/* ln P(Z <= t); far out by its leading term, where the probability itself is 0 in doubles. */
static double log_normal_cdf(double t)
{
    return t > -30.0 ? log(fer_normal_cdf(t)) : -0.5 * t * t - log(-t * sqrt(2.0 * pi));
}

/* ln of the likelihood of all looks if one compression x is behind them: concave in x. */
static double looks_log_likelihood(const crimp *c, double x)
{
    double sum = 0.0;
    for (size_t i = 0; i < c->look_count; i++) {
        const double u = look_uncertainty(&c->looks[i]), away = (c->looks[i].compression.fraction - x) / u;
        switch (c->looks[i].kind) {
        case FER_LOOK_TOO_TIGHT:
            sum += log_normal_cdf((x - c->upper) / u);
            break;
        case FER_LOOK_TOO_LOOSE:
            sum += log_normal_cdf((c->lower - x) / u);
            break;
        case FER_LOOK_GOOD:
            sum += log_normal_cdf((c->upper - x) / u) + log_normal_cdf((x - c->lower) / u);
            break;
        case FER_LOOK_MEASURED:
        default: /* the kinds have been checked */
            sum -= 0.5 * away * away;
            break;
        }
    }
    return sum;
}

/* The same where each look may have the compression that suits it best. */
static double best_log_likelihood(const crimp *c)
{
    double sum = 0.0;
    for (size_t i = 0; i < c->look_count; i++) {
        if (c->looks[i].kind == FER_LOOK_GOOD) {
            sum += 2.0 * log_normal_cdf(0.5 * (c->upper - c->lower) / look_uncertainty(&c->looks[i]));
        }
    }
    return sum;
}

/* Whether one compression can be behind all looks: likelihood ratio against one for each (Wilks 1938). */
static fer_status check_looks_agree(const crimp *c)
{
    double low = c->lower - 1.0, high = c->upper + 1.0;
    for (size_t i = 0; i < c->look_count; i++) {
        if (c->looks[i].kind == FER_LOOK_MEASURED) {
            low = fmin(low, c->looks[i].compression.fraction);
            high = fmax(high, c->looks[i].compression.fraction);
        }
    }
    for (int i = 0; i < 100; i++) {
        const double one = low + (high - low) / 3.0, other = high - (high - low) / 3.0;
        if (looks_log_likelihood(c, one) < looks_log_likelihood(c, other)) {
            low = one;
        } else {
            high = other;
        }
    }
    const double lost = best_log_likelihood(c) - looks_log_likelihood(c, 0.5 * (low + high));
    FER_REQUIRE(c->look_count < 2 || 2.0 * lost <= squares_by_chance((double)c->look_count - 1.0),
                FER_DIAGNOSIS_MORE_THAN_ONE_CAUSE);
    return FER_OK;
}

static double looks_density(double x, const void *context)
{
    const crimp *c = (const crimp *)context;
    double density = fer_normal_density((x - c->mean) / c->standard_deviation) / c->standard_deviation;
    for (size_t i = 0; i < c->look_count; i++) {
        density *= look_likelihood(c, &c->looks[i], x);
    }
    return density;
}

/* Many sharp looks make a sharp likelihood: so many steps that each is at most twice its width. */
static double looks_likelihood(const crimp *c)
{
    enum { steps_minimum = 16, steps_maximum = 512 };
    double breaks[steps_maximum + 1], sharpest = 1.0;
    const double reach = 8.0 * c->standard_deviation;
    for (size_t i = 0; i < c->look_count; i++) {
        sharpest = fmin(sharpest, look_uncertainty(&c->looks[i]));
    }
    const double wanted = reach * sqrt((double)c->look_count) / sharpest;
    const int steps = (int)fmin(steps_maximum, fmax(steps_minimum, ceil(wanted)));
    for (int i = 0; i <= steps; i++) {
        breaks[i] = c->mean + reach * (2.0 * i / steps - 1.0);
    }
    return fer_integrate_pieces(looks_density, c, c->mean - reach, c->mean + reach, breaks,
                                (size_t)steps + 1);
}

/* A variant that predicts a compression; `likelihood` is of what is known besides the looks. */
static void weigh_compression(crimp *c, fer_cause cause, double compression, double standard_deviation,
                              double likelihood)
{
    c->mean = compression;
    c->standard_deviation = standard_deviation;
    weigh(&c->w, cause, 1.0, compression, standard_deviation, likelihood * looks_likelihood(c));
}

/* Two sources tell the compression: a published figure, about `middle`, and the measurements of the joint. */
static void weigh_agreement(crimp *c, fer_cause cause, double middle, double published, double measured,
                            double standard_deviation)
{
    const double a = published * published, b = standard_deviation * standard_deviation;
    weigh_compression(c, cause, (middle * b + measured * a) / (a + b), sqrt(a * b / (a + b)),
                      normal_likelihood(measured, middle, a + b));
}

/* Compression by the plain formula if the joint truly is so; NaN where it cannot be. */
static double compression_of(const crimp *c, double inside, double outside, double stem, double wall)
{
    const double hose_wall = outside - inside;
    if (!(hose_wall > 0.1 * (c->joint.hose.outside.mm - c->joint.hose.inside.mm) && wall > 0.0)) {
        return NAN;
    }
    return (hose_wall - c->diameter + 2.0 * wall + stem) / hose_wall;
}

/* A joint that was mis-measured. A published figure is right all the same; then the joint has to agree with it. */
static void weigh_joint(crimp *c, fer_cause cause, double inside, double outside, double stem, double wall,
                        double standard_deviation)
{
    const double compression = compression_of(c, inside, outside, stem, wall);
    const double both = hypot(c->uncertainty, standard_deviation / (outside - inside));
    if (!fer_is_finite(compression)) {
        return;
    }
    if (c->published) {
        weigh_agreement(c, cause, 0.5 * (c->lower + c->upper), 0.25 * (c->upper - c->lower), compression,
                        both);
    } else {
        weigh_compression(c, cause, compression, both, 1.0);
    }
}

/* Causes that are not a measurement of the joint. */
static void weigh_others(crimp *c)
{
    const double hose_wall = c->joint.hose.outside.mm - c->joint.hose.inside.mm,
                 middle = 0.5 * (c->lower + c->upper);
    const double u = c->uncertainty, right = 0.25 * (c->upper - c->lower);
    const double measured = compression_of(c, c->joint.hose.inside.mm, c->joint.hose.outside.mm,
                                           c->joint.stem.outside.mm, c->joint.ferrule.wall.mm);
    const double hose =
        hypot(u, c->other_hose * (1.0 - middle) / hose_wall); /* slope by outside: (1 - c)/wall */
    weigh_compression(c, FER_CAUSE_OTHER_HOSE, measured, hose,
                      c->published ? normal_likelihood(measured, middle, right * right + u * u) : 1.0);
    weigh_compression(
        c, FER_CAUSE_NONE_OF_THESE, middle, none_deviation_of_look,
        c->published ? normal_likelihood(measured, middle, none_deviation_of_look * none_deviation_of_look)
                     : 1.0);
    if (c->published) {
        weigh_agreement(c, FER_CAUSE_OTHER_COUPLING, middle, other_coupling, measured, u);
    }
}

static void weigh_measurements(crimp *c)
{
    const double inside = c->joint.hose.inside.mm, outside = c->joint.hose.outside.mm;
    const double stem = c->joint.stem.outside.mm, wall = c->joint.ferrule.wall.mm;
    const double middle = 0.5 * (c->lower + c->upper);
    weigh_joint(c, FER_CAUSE_HEALTHY, inside, outside, stem, wall, 0.0);
    weigh_joint(c, FER_CAUSE_HOSE_OVER_COVER, inside, outside - 2.0 * c->cover, stem, wall, 0.0);
    weigh_joint(c, FER_CAUSE_HOSE_SKIVED, inside, outside + 2.0 * c->cover, stem, wall, 0.0);
    /* bores lie about 0.35 mm above the nominal size, 0.6 mm either way (common practice, no source); slope by inside: (1 - c) */
    weigh_joint(c, FER_CAUSE_HOSE_INSIDE_NOMINAL, inside + 0.35, outside, stem, wall, 0.35 * (1.0 - middle));
    weigh_joint(c, FER_CAUSE_STEM_BETWEEN_RIDGES, inside, outside, stem + 2.0 * c->ridge, wall, 0.0);
    weigh_joint(c, FER_CAUSE_WALL_TWICE, inside, outside, stem, 0.5 * wall, 0.0);
    weigh_joint(c, FER_CAUSE_WALL_ON_RIDGE, inside, outside, stem, wall - c->ridge, 0.0);
    weigh_others(c);
}

static fer_status take_looking(const fer_looking *given, crimp *c)
{
    const double lengths[] = {given->cover.mm, given->ridge.mm, given->other_hose.mm};
    for (size_t i = 0; i < sizeof lengths / sizeof *lengths; i++) {
        FER_REQUIRE(lengths[i] == 0.0 || (lengths[i] >= 1e-6 && lengths[i] <= FER_LENGTH_MAXIMUM_MM),
                    FER_DIAGNOSING_LENGTH_OUT_OF_RANGE);
    }
    FER_REQUIRE(given->asked.fraction >= 0.0 && given->asked.fraction < 1.0,
                FER_DIAGNOSING_PROBABILITY_OUT_OF_RANGE);
    FER_REQUIRE(given->uncertainty.fraction == 0.0 ||
                    (given->uncertainty.fraction >= 1e-4 && given->uncertainty.fraction < 1.0),
                FER_DIAGNOSING_PROBABILITY_OUT_OF_RANGE);
    c->cover = usual_if_zero(given->cover.mm, 1.0);
    c->ridge = usual_if_zero(given->ridge.mm, 0.5);
    c->other_hose = usual_if_zero(given->other_hose.mm, 1.2);
    c->uncertainty = usual_if_zero(given->uncertainty.fraction, 0.018);
    c->w.asked = usual_if_zero(given->asked.fraction, 0.95);
    return FER_OK;
}

static fer_status check_looks(const fer_look *looks, size_t count)
{
    FER_REQUIRE(looks, FER_ARGUMENT_MISSING);
    FER_REQUIRE(count > 0, FER_ARGUMENT_COUNT_ZERO);
    FER_REQUIRE(count <= 100, FER_ARGUMENT_COUNT_TOO_LARGE);
    for (size_t i = 0; i < count; i++) {
        const double u = looks[i].standard_uncertainty.fraction, compression = looks[i].compression.fraction;
        FER_REQUIRE((unsigned)looks[i].kind <= FER_LOOK_MEASURED, FER_LOOK_UNKNOWN);
        FER_REQUIRE(fer_is_finite(compression), FER_LOOK_COMPRESSION_NOT_A_NUMBER);
        FER_REQUIRE(u == 0.0 || (u >= 1e-4 && u <= 1.0), FER_LOOK_UNCERTAINTY_OUT_OF_RANGE);
    }
    return FER_OK;
}

/* Limits that a set-up by hand leaves out are 0. */
static int is_outside_limits(const fer_found_range *limits, double diameter)
{
    return limits->status == FER_OK && limits->value.lower.mm < limits->value.upper.mm &&
           (diameter < limits->value.lower.mm || diameter > limits->value.upper.mm);
}

static fer_status take_crimp(const fer_joint *joint, const fer_setup *setup, fer_length diameter, crimp *c)
{
    FER_REQUIRE(joint && setup, FER_ARGUMENT_MISSING);
    FER_TRY(fer_check_joint(joint));
    FER_REQUIRE(setup->source == FER_TARGET_PUBLISHED || setup->source == FER_TARGET_COMPUTED,
                FER_SETUP_INCOMPLETE);
    FER_REQUIRE(setup->range.lower.fraction < setup->range.upper.fraction &&
                    fer_is_finite(setup->range.lower.fraction) && fer_is_finite(setup->range.upper.fraction),
                FER_SETUP_INCOMPLETE);
    FER_TRY(fer_check_length(diameter, FER_DIAMETER_MISSING, FER_DIAMETER_OUT_OF_RANGE));
    /* a diameter that is wrong explains a wrong look, and has causes of its own */
    FER_REQUIRE(!is_outside_limits(&setup->limits, diameter.mm), FER_DIAGNOSIS_DIAMETER_WRONG);
    c->joint = *joint;
    c->diameter = diameter.mm;
    c->lower = setup->range.lower.fraction;
    c->upper = setup->range.upper.fraction;
    c->published = setup->source == FER_TARGET_PUBLISHED;
    return FER_OK;
}

static fer_status diagnose_look(const fer_joint *joint, const fer_setup *setup, fer_length diameter,
                                const fer_look *looks, size_t look_count, const fer_prior *priors,
                                size_t prior_count, const fer_looking *looking, fer_suspect *suspects,
                                size_t capacity, size_t *found, fer_diagnosis *diagnosis)
{
    crimp c = {0};
    FER_TRY(take_crimp(joint, setup, diameter, &c));
    FER_TRY(check_looks(looks, look_count));
    FER_REQUIRE(suspects, FER_ARGUMENT_MISSING);
    FER_TRY(take_looking(looking, &c));
    FER_TRY(take_priors(priors, prior_count, &c.w));
    c.looks = looks;
    c.look_count = look_count;
    FER_TRY(check_looks_agree(&c));
    weigh_measurements(&c);
    return report(&c.w, 0.0, 0, suspects, capacity, found, diagnosis);
}

fer_status fer_diagnose_look(const fer_joint *joint, const fer_setup *setup, fer_length diameter,
                             const fer_look *looks, size_t look_count, const fer_prior *priors,
                             size_t prior_count, fer_looking looking, fer_suspect *suspects, size_t capacity,
                             size_t *found, fer_diagnosis *diagnosis)
{
    FER_TRY(begin(found, diagnosis));
    return diagnose_look(joint, setup, diameter, looks, look_count, priors, prior_count, &looking, suspects,
                         capacity, found, diagnosis);
}

fer_ratio fer_usual_weight(fer_cause cause)
{
    const fer_ratio weight = {(unsigned)cause < FER_CAUSE_COUNT ? usual_weights[cause] : 0.0};
    return weight;
}

/* Weights that a shop's counts are added to. The pieces are whole numbers, whose sum is exact. */
static fer_status count_causes(const fer_recorded_cause *records, size_t count, double trust,
                               double weights[FER_CAUSE_COUNT])
{
    double pieces[FER_CAUSE_COUNT] = {0.0};
    for (size_t i = 0; i < count; i++) {
        FER_REQUIRE((unsigned)records[i].cause < FER_CAUSE_COUNT, FER_PRIOR_CAUSE_UNKNOWN);
        FER_REQUIRE(records[i].pieces >= 0, FER_RECORD_PIECES_OUT_OF_RANGE);
        pieces[records[i].cause] += records[i].pieces;
    }
    for (int cause = 0; cause < FER_CAUSE_COUNT; cause++) {
        weights[cause] = trust * usual_weights[cause] + pieces[cause];
        FER_REQUIRE(weights[cause] <= 1e6, FER_PRIOR_WEIGHT_OUT_OF_RANGE);
    }
    return FER_OK;
}

static fer_status learn_priors(const fer_recorded_cause *records, size_t count, double trust,
                               fer_prior *priors, size_t capacity, size_t *found)
{
    double weights[FER_CAUSE_COUNT];
    FER_REQUIRE(records || count == 0, FER_ARGUMENT_MISSING);
    FER_REQUIRE(trust == 0.0 || (trust >= 0.001 && trust <= 1000.0), FER_RECORD_TRUST_OUT_OF_RANGE);
    FER_REQUIRE(capacity >= FER_CAUSE_COUNT, FER_ARGUMENT_CAPACITY_TOO_SMALL);
    FER_REQUIRE(priors, FER_ARGUMENT_MISSING);
    FER_TRY(count_causes(records, count, usual_if_zero(trust, 1.0), weights));
    for (int cause = 0; cause < FER_CAUSE_COUNT; cause++) {
        priors[cause].cause = (fer_cause)cause;
        priors[cause].weight.fraction = weights[cause];
    }
    *found = FER_CAUSE_COUNT;
    return FER_OK;
}

fer_status fer_learn_priors(const fer_recorded_cause *records, size_t count, fer_ratio trust,
                            fer_prior *priors, size_t capacity, size_t *found)
{
    FER_REQUIRE(found, FER_ARGUMENT_MISSING);
    *found = 0;
    return learn_priors(records, count, trust.fraction, priors, capacity, found);
}

/* ---- words of the causes and checks ---------------------------------------------------------------------- */

typedef struct {
    FER_CAUSE_LIST(FER_WORDS_MEMBERS)
} cause_words;
typedef struct {
    FER_CHECK_LIST(FER_WORDS_MEMBERS)
} check_words;

static const cause_words words_of_causes = {FER_CAUSE_LIST(FER_WORDS_TEXT)};
static const check_words words_of_checks = {FER_CHECK_LIST(FER_WORDS_TEXT)};
#define CAUSE_PLACE(name, number, sentence) FER_WORDS_PLACE(cause_words, name, number)
#define CHECK_PLACE(name, number, sentence) FER_WORDS_PLACE(check_words, name, number)
static const fer_word_place causes[] = {FER_CAUSE_LIST(CAUSE_PLACE)};
static const fer_word_place checks[] = {FER_CHECK_LIST(CHECK_PLACE)};

const char *fer_cause_name(fer_cause cause)
{
    const char *name = fer_name_among((const char *)&words_of_causes, causes, FER_CAUSE_COUNT, (int)cause);
    return name ? name : "UNKNOWN";
}

const char *fer_cause_sentence(fer_cause cause)
{
    const char *sentence =
        fer_sentence_among((const char *)&words_of_causes, causes, FER_CAUSE_COUNT, (int)cause);
    return sentence ? sentence : "";
}

const char *fer_check_name(fer_check check)
{
    const char *name = fer_name_among((const char *)&words_of_checks, checks, FER_CHECK_COUNT, (int)check);
    return name ? name : "UNKNOWN";
}

const char *fer_check_sentence(fer_check check)
{
    const char *sentence =
        fer_sentence_among((const char *)&words_of_checks, checks, FER_CHECK_COUNT, (int)check);
    return sentence ? sentence : "";
}
