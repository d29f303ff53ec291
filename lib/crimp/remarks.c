/* SPDX-License-Identifier: MIT */
/* What a set-up asks for: remarks, whether it may be crimped, and what confirmations do to that.
 * Method: one comparison for each remark; sets of bits by severity.
 * Formulas: include/ferrule/setup.h; docs/setup.md has the remarks and what each stands on. */
#include <ferrule/setup.h>

#include "base/value_private.h"
#include "base/words.h"
#include "crimp/setup_private.h"

/* Plain compression below and above which nothing is crimped, and how much of its uncertainty is allowed for (our choice,
 * no source). */
static const double compression_minimum = 0.05, compression_maximum = 0.45, allowance_maximum = 0.05;

/* What a hose with a reinforcement is expected to press at least, in MPa: the lower 95 % limit of a separate computation of the
 * worked joint with a layer of wire, see docs/hose.md (our choice). */
static const double squeeze_expected = 25.0;

static const fer_severities severities = FER_SEVERITIES_OF(FER_REMARK_LIST);

/* ---- remarks: a figure that could not be found is NaN, and no comparison with it makes a remark ------------- */

static void remark_if(fer_setup *setup, int applies, fer_remark remark)
{
    if (applies) {
        fer_set_add(&setup->remarks.bits, (int)remark);
    }
}

static void remark_on_target(const fer_plan_facts *facts, fer_setup *setup)
{
    const double plain = setup->plain.value.fraction,
                 allowance = fmin(2.0 * facts->plain_uncertainty, allowance_maximum);
    const int closes = setup->plain.status == FER_DIAMETER_CLOSES_ON_STEM ||
                       setup->plain.status == FER_DIAMETER_WITHOUT_BORE;
    remark_if(setup, closes || facts->formed_closes, FER_REMARK_TARGET_CLOSES_ON_STEM);
    remark_if(setup, setup->plain.status != FER_OK && !closes, FER_REMARK_TARGET_NOT_TOUCHING);
    remark_if(setup, plain + allowance < compression_minimum, FER_REMARK_COMPRESSION_TOO_LOW);
    remark_if(setup, plain - allowance > compression_maximum, FER_REMARK_COMPRESSION_TOO_HIGH);
}

/* By the window where it is there, otherwise by the compression alone. */
static void remark_on_window(const fer_plan_facts *facts, fer_setup *setup)
{
    const fer_found_range *window = &setup->window;
    const double c = facts->by_model.value.fraction;
    const int found = window->status == FER_OK;
    remark_if(setup, found ? setup->target.mm > window->value.upper.mm : c < setup->range.lower.fraction,
              FER_REMARK_PUBLISHED_ABOVE_WINDOW);
    remark_if(setup, found ? setup->target.mm < window->value.lower.mm : c > setup->range.upper.fraction,
              FER_REMARK_PUBLISHED_BELOW_WINDOW);
    remark_if(setup, !found && facts->by_model.status != FER_OK, FER_REMARK_WINDOW_NOT_COMPUTED);
    remark_if(setup, facts->order->tolerance.mm == 0.0, FER_REMARK_NO_TOLERANCE);
}

static void remark_on_joint(const fer_plan_facts *facts, fer_setup *setup)
{
    const int published = setup->source == FER_TARGET_PUBLISHED;
    const int is_known = facts->is_uncertainty_given;
    const int uncertain = is_known && !(facts->share_inside >= FER_SHARE_WANTED);
    const double narrow = facts->too_narrow, allowance = 2.0 * facts->narrow_uncertainty;
    if (published) {
        remark_on_window(facts, setup);
    }
    remark_if(setup, narrow > allowance, FER_REMARK_FERRULE_TOO_NARROW);
    remark_if(setup, narrow <= allowance && narrow >= -allowance, FER_REMARK_TRY_FIT);
    remark_if(setup, !published, FER_REMARK_TARGET_COMPUTED);
    remark_if(setup, uncertain && !published, FER_REMARK_MEASUREMENTS_UNCERTAIN);
    remark_if(setup, uncertain && published, FER_REMARK_COMPRESSION_UNCERTAIN);
    remark_if(setup, !is_known, FER_REMARK_UNCERTAINTIES_NOT_GIVEN);
    remark_if(setup, facts->order->joint.ferrule.outside.mm == 0.0, FER_REMARK_FERRULE_OUTSIDE_NOT_KNOWN);
}

/* Where the plain compression is outside as well, that it grows would reassure falsely. */
static void remark_on_growth(const fer_plan_facts *facts, fer_setup *setup)
{
    const double plain = setup->plain.value.fraction, upper = setup->range.upper.fraction;
    remark_if(setup,
              facts->order->model.flow == FER_FLOW_NONE && plain >= setup->range.lower.fraction &&
                  plain <= upper && setup->ends_free.value.fraction > upper,
              FER_REMARK_WALL_GROWTH_LEAVES_RANGE);
}

static void remark_on_parts(const fer_order *order, fer_setup *setup)
{
    remark_if(setup, order->approval == FER_APPROVAL_NOT_APPROVED, FER_REMARK_NOT_APPROVED);
    remark_if(setup, order->approval == FER_APPROVAL_NOT_STATED, FER_REMARK_APPROVAL_NOT_STATED);
    remark_if(setup, order->insertion.mm == 0.0, FER_REMARK_INSERTION_NOT_GIVEN);
}

static void remark_on_gauge(const fer_plan_facts *facts, fer_setup *setup)
{
    const fer_order *order = facts->order;
    const int uncertain = facts->limits_kind == FER_LIMITS_TOO_UNCERTAIN;
    remark_if(setup, uncertain, FER_REMARK_LIMITS_TOO_UNCERTAIN);
    remark_if(setup, setup->zone.value.empty && !uncertain, FER_REMARK_GAUGE_CANNOT_ACCEPT);
    remark_if(setup, order->gauge.standard_uncertainty.mm == 0.0 && !order->guard.without,
              FER_REMARK_GAUGE_TAKEN_AS_EXACT);
}

static int is_outside(double value, const fer_found_range *range)
{
    return value < range->value.lower.mm || value > range->value.upper.mm;
}

/* Where both limits come from the window, its half-width is what a lobe is compared with. */
static void remark_on_shape(const fer_plan_facts *facts, fer_setup *setup)
{
    const fer_order *order = facts->order;
    const double tolerance = 0.5 * (setup->limits.value.upper.mm - setup->limits.value.lower.mm),
                 lobe = setup->shape.value.lobe_height.mm;
    remark_if(setup, order->lobe_maximum.mm > 0.0 && lobe > order->lobe_maximum.mm,
              FER_REMARK_LOBE_ABOVE_MAXIMUM);
    remark_if(setup, 2.0 * lobe > tolerance, FER_REMARK_LOBE_ABOVE_TOLERANCE);
    remark_if(setup, setup->shape.value.gap.mm > order->joint.ferrule.wall.mm, FER_REMARK_GAP_WIDE);
}

static void remark_on_die(const fer_plan_facts *facts, fer_setup *setup)
{
    const fer_die_choice *choice = &setup->die;
    remark_if(setup, !choice->found, FER_REMARK_NO_DIE);
    if (!choice->found) {
        return;
    }
    remark_if(setup, choice->adapter_change && choice->die.adapter > 0, FER_REMARK_ADAPTER_GOES_IN);
    remark_if(setup, choice->adapter_change && choice->die.adapter == 0, FER_REMARK_ADAPTER_COMES_OUT);
    remark_if(setup, setup->dial.status != FER_OK, FER_REMARK_DIAL_OUT_OF_RANGE);
    remark_if(setup, is_outside(setup->target.mm + setup->dial.value.remainder.mm, &setup->limits),
              FER_REMARK_GRADUATION_TOO_COARSE);
    remark_if(setup, setup->clearance.value.mm < 0.0, FER_REMARK_DOES_NOT_PASS);
    remark_if(setup, setup->clearance.status != FER_OK, FER_REMARK_OPENING_NOT_KNOWN);
    remark_if(setup, facts->order->joint.ferrule.length.mm > 0.0 && choice->die.length.mm == 0.0,
              FER_REMARK_DIE_LENGTH_NOT_KNOWN);
    remark_if(setup, choice->die.length.mm > 0.0 && facts->formed_length > choice->die.length.mm,
              FER_REMARK_FERRULE_OUTGROWS_DIE);
    remark_on_shape(facts, setup);
}

static void remark_on_stem(const fer_plan_facts *facts, fer_setup *setup)
{
    const fer_order *order = facts->order;
    const double pressure = order->load.hose_pressure.mpa, bore = order->joint.stem.bore.mm;
    const int yields = pressure > facts->strength.first_yield_pressure.mpa,
              through = yields && !(pressure < facts->strength.full_yield_pressure.mpa);
    const int too_small = setup->bore_margin.value.mm < 0.0 || (bore > 0.0 && bore < order->minimum_bore.mm);
    remark_if(setup, through, FER_REMARK_STEM_YIELDS_THROUGH);
    remark_if(setup, yields && !through, FER_REMARK_STEM_YIELDS);
    remark_if(setup, too_small, FER_REMARK_BORE_BELOW_LIMIT);
    remark_if(setup, facts->peak_bore_fails && !too_small && !through, FER_REMARK_BORE_NEAR_LIMIT);
}

/* The limit is that of fixed ends where the restraint is not given, and beyond what is computed nobody knows. Where no squeeze
 * is given the force is the ferrule's alone, which says nothing about a press that is strong enough for hardly more. */
static void remark_on_force(const fer_order *order, fer_setup *setup)
{
    const fer_found_pressure *capacity = &setup->hose_limits.capacity;
    const double pressure = order->load.hose_pressure.mpa;
    const int over = capacity->status == FER_FORCE_BELOW_METAL || pressure > capacity->value.mpa;
    const int beyond =
        capacity->status == FER_HOSE_PRESSURE_ABOVE_LIMIT && pressure > setup->hose_limits.formula.value.mpa;
    const int restrained = order->load.restraint.fraction > 0.0;
    const int decided = restrained && setup->capacity_use.status == FER_OK;
    const int above = setup->capacity_use.value.fraction > 1.0 || (restrained && !decided && over);
    remark_if(setup, above, FER_REMARK_FORCE_ABOVE_CAPACITY);
    const int little = pressure == 0.0 && capacity->value.mpa < squeeze_expected;
    remark_if(setup, (((over || beyond) && !decided) || little) && !above, FER_REMARK_FORCE_NEAR_CAPACITY);
}

static void remark_on_metal(const fer_plan_facts *facts, fer_setup *setup)
{
    const int formed = facts->formed == FER_OK;
    remark_on_force(facts->order, setup);
    remark_if(setup, setup->die.found && facts->closing.mm < setup->die.die.size.mm,
              FER_REMARK_CLOSES_BELOW_DIE);
    remark_if(setup, formed && facts->order->load.hose_pressure.mpa == 0.0,
              FER_REMARK_HOSE_PRESSURE_NOT_KNOWN);
    remark_if(setup,
              setup->die.found && formed && setup->springback_dial.status != FER_CORRECTION_HAS_SPRINGBACK,
              FER_REMARK_CORRECTION_NOT_MEASURED);
}

/* ---- may it be crimped ------------------------------------------------------------------------------------- */

int fer_is_stopped(const fer_setup *setup)
{
    return (setup->remarks.bits & severities.of[FER_SEVERITY_STOP]) != 0;
}

int fer_waits_for_confirming(const fer_setup *setup)
{
    return (setup->remarks.bits & ~setup->confirmed.bits & severities.of[FER_SEVERITY_CONFIRM]) != 0;
}

static void find_readiness(fer_setup *setup)
{
    setup->readiness = fer_is_stopped(setup)             ? FER_READINESS_NOT_READY
                       : fer_waits_for_confirming(setup) ? FER_READINESS_AFTER_CONFIRMING
                                                         : FER_READINESS_READY;
}

void fer_make_remarks(const fer_plan_facts *facts, fer_setup *setup)
{
    remark_on_target(facts, setup);
    remark_on_joint(facts, setup);
    remark_on_growth(facts, setup);
    remark_on_parts(facts->order, setup);
    remark_on_gauge(facts, setup);
    remark_on_die(facts, setup);
    remark_on_stem(facts, setup);
    remark_on_metal(facts, setup);
    find_readiness(setup);
}

/* ---- confirmations ------------------------------------------------------------------------------------------- */

static int is_to_confirm(fer_remark remark)
{
    return remark >= 0 && remark < FER_REMARK_COUNT &&
           fer_set_has(severities.of[FER_SEVERITY_CONFIRM], (int)remark);
}

static fer_length die_of(const fer_setup *setup)
{
    const fer_length none = {0.0};
    return setup->die.found ? setup->die.die.size : none;
}

static fer_status confirm_remark(const fer_setup *setup, fer_remark remark, fer_confirmation *confirmation)
{
    FER_REQUIRE(setup, FER_ARGUMENT_MISSING);
    FER_REQUIRE(is_to_confirm(remark), FER_REMARK_NOT_TO_CONFIRM);
    FER_REQUIRE(fer_set_has(setup->remarks.bits, (int)remark), FER_REMARK_NOT_MADE);
    confirmation->remark = remark;
    confirmation->target = setup->target;
    confirmation->tolerance = setup->tolerance;
    confirmation->die = die_of(setup);
    if (setup->plain.status == FER_OK) {
        confirmation->compression = setup->plain.value;
    }
    return FER_OK;
}

fer_status fer_confirm_remark(const fer_setup *setup, fer_remark remark, fer_confirmation *confirmation)
{
    FER_REQUIRE(confirmation, FER_ARGUMENT_MISSING);
    FER_EMPTY(*confirmation);
    return confirm_remark(setup, remark, confirmation);
}

/* Figures as people write them down: to a thousandth of a millimetre and a tenth of a per cent. */
static int is_same(double a, double b)
{
    return fabs(a - b) <= 0.0005;
}

/* Without a plain compression there is nothing that could have been looked at, and the set-up stops anyway. */
static int still_holds(const fer_confirmation *confirmation, const fer_setup *setup)
{
    return is_same(confirmation->target.mm, setup->target.mm) &&
           is_same(confirmation->tolerance.mm, setup->tolerance.mm) &&
           is_same(confirmation->die.mm, die_of(setup).mm) &&
           is_same(confirmation->compression.fraction, setup->plain.value.fraction);
}

static int is_written_down(const fer_confirmation *c)
{
    return fer_is_finite(c->target.mm) && fer_is_finite(c->tolerance.mm) && fer_is_finite(c->die.mm) &&
           fer_is_finite(c->compression.fraction);
}

static fer_status confirm_setup(const fer_confirmation *confirmations, size_t count, fer_setup *setup)
{
    setup->confirmed.bits = 0;
    setup->remarks.bits &= ~(UINT64_C(1) << FER_REMARK_CONFIRMATION_STALE);
    for (size_t i = 0; i < count; i++) {
        const fer_remark remark = confirmations[i].remark;
        FER_REQUIRE(is_to_confirm(remark), FER_REMARK_NOT_TO_CONFIRM);
        FER_REQUIRE(is_written_down(&confirmations[i]), FER_CONFIRMATION_NOT_A_NUMBER);
        if (fer_set_has(setup->remarks.bits, (int)remark) && still_holds(&confirmations[i], setup)) {
            fer_set_add(&setup->confirmed.bits, (int)remark);
        } else {
            remark_if(setup, fer_set_has(setup->remarks.bits, (int)remark), FER_REMARK_CONFIRMATION_STALE);
        }
    }
    find_readiness(setup);
    return FER_OK;
}

fer_status fer_confirm_setup(const fer_setup *setup, const fer_confirmation *confirmations, size_t count,
                             fer_setup *confirmed)
{
    FER_REQUIRE(confirmed, FER_ARGUMENT_MISSING);
    fer_status status = FER_ARGUMENT_MISSING;
    if (setup && (confirmations || count == 0)) {
        *confirmed = *setup;
        status = confirm_setup(confirmations, count, confirmed);
    }
    if (status != FER_OK) {
        FER_EMPTY(*confirmed);
    }
    return status;
}

/* ---- words --------------------------------------------------------------------------------------------------- */

typedef struct {
    FER_REMARK_LIST(FER_WORDS_MEMBERS_OF_FOUR)
} remark_words;

static const remark_words words = {FER_REMARK_LIST(FER_WORDS_TEXT_OF_FOUR)};

#define PLACE(name, number, severity, sentence) FER_WORDS_PLACE(remark_words, name, number)
static const fer_word_place places[] = {FER_REMARK_LIST(PLACE)};
enum { place_count = sizeof places / sizeof *places };

const char *fer_remark_name(fer_remark remark)
{
    const char *name = fer_name_among((const char *)&words, places, place_count, (int)remark);
    return name ? name : "UNKNOWN";
}

const char *fer_remark_sentence(fer_remark remark)
{
    const char *sentence = fer_sentence_among((const char *)&words, places, place_count, (int)remark);
    return sentence ? sentence : "";
}

fer_severity fer_remark_severity(fer_remark remark)
{
    return fer_severity_among(&severities, (int)remark);
}

typedef struct {
    FER_READINESS_LIST(FER_WORDS_MEMBERS)
} readiness_words;

static const readiness_words words_of_readiness = {FER_READINESS_LIST(FER_WORDS_TEXT)};

#define READINESS_PLACE(name, number, sentence) FER_WORDS_PLACE(readiness_words, name, number)
static const fer_word_place readinesses[] = {FER_READINESS_LIST(READINESS_PLACE)};
enum { readiness_count = sizeof readinesses / sizeof *readinesses };

const char *fer_readiness_name(fer_readiness readiness)
{
    const char *name =
        fer_name_among((const char *)&words_of_readiness, readinesses, readiness_count, (int)readiness);
    return name ? name : "UNKNOWN";
}

const char *fer_readiness_sentence(fer_readiness readiness)
{
    const char *sentence =
        fer_sentence_among((const char *)&words_of_readiness, readinesses, readiness_count, (int)readiness);
    return sentence ? sentence : fer_readiness_sentence(FER_READINESS_NOT_READY);
}
