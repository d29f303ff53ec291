/* SPDX-License-Identifier: MIT */
/* What the metal of ferrule and stem does: pressure, springback, force, bore.
 * Method: rigid-plastic flow integrated by a Runge-Kutta rule of sixth order; Lame's elastic tube (crimp/tube.h).
 * Formulas: include/ferrule/forming.h; docs/forming.md. */
#include <ferrule/forming.h>

#include "base/numeric/angle.h"
#include "base/value_private.h"
#include "crimp/forming_private.h"
#include "base/numeric/root.h"
#include "crimp/tube.h"
#include "base/numeric/pi.h"

static const double root_three = 1.73205080756887729353;
static const fer_pair root_three_pair = {1.7320508075688772, 1.0035084221806903e-16};

/* Where the closed forms were compared with finite elements; beyond it there is no number. */
static const double thickest_wall = 0.18;                /* of the outside diameter */
static const double deepest_reduction = 0.3;             /* of the outside diameter */
static const double strongest_hose = FER_STRONGEST_HOSE; /* of the yield strength */
static const double minimum_reduction =
    5.0; /* times the reduction at which the wall first yields throughout */

/* --- checks ------------------------------------------------------------------------------------------------- */

static fer_status check_modulus(double modulus)
{
    FER_REQUIRE(modulus != 0.0, FER_MATERIAL_MODULUS_MISSING);
    return fer_unless(modulus >= 1e3 && modulus <= 1e6, FER_MATERIAL_MODULUS_OUT_OF_RANGE);
}

static fer_status check_yield_strength(double yield_strength)
{
    FER_REQUIRE(yield_strength != 0.0, FER_MATERIAL_YIELD_STRENGTH_MISSING);
    return fer_unless(yield_strength >= 1e-3 && fer_is_finite(yield_strength),
                      FER_MATERIAL_YIELD_STRENGTH_OUT_OF_RANGE);
}

fer_status fer_check_material_rules(const fer_material *material, fer_fault_visitor *faults)
{
    const double modulus = material->elastic_modulus.mpa, yield_strength = material->yield_strength.mpa;
    const double hardening = material->hardening.mpa;
    FER_RULE(faults, fer_material, elastic_modulus, check_modulus(modulus));
    FER_RULE(faults, fer_material, poisson,
             fer_unless(material->poisson.fraction >= 0.0 && material->poisson.fraction < 0.5,
                        FER_MATERIAL_POISSON_OUT_OF_RANGE));
    FER_RULE(faults, fer_material, yield_strength, check_yield_strength(yield_strength));
    FER_RULE_BETWEEN(faults, fer_material, yield_strength, elastic_modulus, elastic_modulus,
                     fer_unless(yield_strength <= 0.005 * modulus, FER_MATERIAL_YIELD_STRENGTH_OUT_OF_RANGE));
    FER_RULE(faults, fer_material, hardening,
             fer_unless(hardening >= 0.0 && fer_is_finite(hardening), FER_MATERIAL_HARDENING_OUT_OF_RANGE));
    FER_RULE_BETWEEN(faults, fer_material, hardening, yield_strength, yield_strength,
                     fer_unless(hardening <= 5.0 * yield_strength, FER_MATERIAL_HARDENING_OUT_OF_RANGE));
    return FER_OK;
}

fer_status fer_check_material(const fer_material *material)
{
    FER_REQUIRE(material, FER_ARGUMENT_MISSING);
    return fer_check_material_rules(material, NULL);
}

static fer_status check_restraint(fer_forming_load load)
{
    FER_REQUIRE(load.restraint.fraction >= 0.0 && load.restraint.fraction <= 1.0, FER_RESTRAINT_OUT_OF_RANGE);
    return FER_OK;
}

static fer_status check_hose_pressure(fer_forming_load load)
{
    FER_REQUIRE(load.hose_pressure.mpa >= 0.0 && fer_is_finite(load.hose_pressure.mpa),
                FER_HOSE_PRESSURE_OUT_OF_RANGE);
    return FER_OK;
}

fer_status fer_check_load(fer_forming_load load, fer_fault_visitor *faults)
{
    FER_RULE(faults, fer_forming_load, restraint, check_restraint(load));
    FER_RULE(faults, fer_forming_load, hose_pressure, check_hose_pressure(load));
    return FER_OK;
}

static fer_status check_thinness(const fer_ferrule *ferrule)
{
    const double outside = ferrule->outside.mm, wall = ferrule->wall.mm;
    FER_REQUIRE(2.0 * wall < outside, FER_FERRULE_WITHOUT_BORE);
    FER_REQUIRE(wall <= thickest_wall * outside, FER_FERRULE_WALL_TOO_THICK);
    return FER_OK;
}

fer_status fer_check_thin_ferrule(const fer_ferrule *ferrule)
{
    FER_REQUIRE(ferrule, FER_ARGUMENT_MISSING);
    FER_TRY(fer_check_length(ferrule->wall, FER_FERRULE_WALL_MISSING, FER_FERRULE_WALL_OUT_OF_RANGE));
    FER_TRY(
        fer_check_length(ferrule->outside, FER_FERRULE_OUTSIDE_MISSING, FER_FERRULE_OUTSIDE_OUT_OF_RANGE));
    return check_thinness(ferrule);
}

fer_status fer_check_hose_limit(const fer_material *material, fer_forming_load load)
{
    FER_REQUIRE(load.hose_pressure.mpa <= strongest_hose * material->yield_strength.mpa,
                FER_HOSE_PRESSURE_ABOVE_LIMIT);
    return FER_OK;
}

fer_status fer_check_formable(const fer_ferrule *ferrule)
{
    FER_REQUIRE(ferrule->outside.mm != 0.0, FER_FERRULE_OUTSIDE_MISSING);
    return check_thinness(ferrule);
}

double fer_reduction_needed(const fer_ferrule *ferrule, const fer_material *material)
{
    const fer_pair factor = fer_pair_multiply(fer_pair_of(0.5 * minimum_reduction), root_three_pair);
    const fer_pair top = fer_pair_product(material->yield_strength.mpa, ferrule->outside.mm);
    return fer_pair_ratio(fer_pair_multiply(factor, top), fer_pair_of(material->elastic_modulus.mpa));
}

/* Everything but the diameter. */
static fer_status check_forming(const fer_ferrule *ferrule, const fer_material *material,
                                fer_forming_load load)
{
    FER_TRY(fer_check_thin_ferrule(ferrule));
    FER_TRY(fer_check_material(material));
    FER_TRY(fer_check_load(load, NULL));
    return fer_check_hose_limit(material, load);
}

fer_status fer_check_deep_closing(const fer_ferrule *ferrule, fer_length diameter)
{
    const double outside = ferrule->outside.mm, reduction = outside - diameter.mm;
    const double section = ferrule->wall.mm * (outside - ferrule->wall.mm); /* (b0^2 - a0^2)/4 on diameters */
    FER_REQUIRE(diameter.mm * diameter.mm > 4.0 * section, FER_DIAMETER_WITHOUT_BORE);
    FER_REQUIRE(reduction <= deepest_reduction * outside, FER_DIAMETER_REDUCED_TOO_FAR);
    return FER_OK;
}

fer_status fer_check_closing(const fer_ferrule *ferrule, fer_length diameter, const fer_material *material)
{
    const double reduction = ferrule->outside.mm - diameter.mm;
    FER_TRY(fer_check_length(diameter, FER_DIAMETER_MISSING, FER_DIAMETER_OUT_OF_RANGE));
    FER_REQUIRE(reduction >= 0.0, FER_DIAMETER_ABOVE_FERRULE);
    FER_TRY(fer_check_deep_closing(ferrule, diameter));
    FER_REQUIRE(reduction >= fer_reduction_needed(ferrule, material), FER_DIAMETER_REDUCED_TOO_LITTLE);
    return FER_OK;
}

/* A tube of these diameters without pressure. */
static fer_tube tube_of(double inside, double outside, const fer_material *material, fer_forming_load load)
{
    const fer_tube tube = {0.5 * inside,
                           0.5 * outside,
                           material->elastic_modulus.mpa,
                           material->poisson.fraction,
                           load.restraint.fraction,
                           0.0,
                           0.0};
    return tube;
}

/* --- flow of a thick tube, rigid and plastic -------------------------------------------------------------------- */

/* Points of Gauss and Legendre's rule, from 0 to 1. */
enum { point_count = 5 };
static const double gauss_place[point_count] = {0.046910077030668004, 0.23076534494715845, 0.5,
                                                0.76923465505284155, 0.953089922969332};
static const double gauss_weight[point_count] = {
    0.11846344252809454, 0.23931433524968323, 0.28444444444444444, 0.23931433524968323, 0.11846344252809454};

/* Points of the metal by the share of the section that lies outside of them, which they keep, and what part each stands for. */
typedef struct {
    double place[point_count], weight[point_count];
} wall_rule;

/* change: square of the point's radius by that of the outside, minus 1. */
static void set_point(wall_rule *rule, int i, double change, double part, double range)
{
    rule->place[i] = -change / part;
    rule->weight[i] = gauss_weight[i] * range * (1.0 + change) / -part;
}

/* Evenly by the logarithm of the radius at the end of the stroke: strain and what it adds to the pressure rise towards a small
 * bore like powers of the radius. Below a thirtieth of the diameter that would put too few near the outside. */
static wall_rule rule_for(double metal_part)
{
    const double part = fmin(metal_part, 0.999), range = log1p(-part);
    wall_rule rule;
    for (int i = 0; i < point_count / 2; i++) {
        const double change = expm1(range * gauss_place[i]);
        set_point(&rule, i, change, part, range);
        set_point(&rule, point_count - 1 - i, -(part + change) / (1.0 + change), part, range);
    }
    set_point(&rule, point_count / 2, -part / (1.0 + sqrt(1.0 - part)), part, range);
    return rule;
}

/* A section of the tube that flows. m is 0 where the ends are fixed and grows with the share of axial strain. */
typedef struct {
    double alpha;                  /* square of inside by outside radius */
    double part;                   /* of the outer circle that is metal: 1 - alpha, with all digits */
    double hose;                   /* pressure of the hose by mean yield strength */
    const wall_rule *rule;         /* no points without hardening */
    double departure[point_count]; /* of the local yield strength from the mean, by the mean */
} flow_section;

static double root_of_sum(double x)
{
    return sqrt(1.0 + x * x);
}

/* Square of the radius of a point by that of the outside. */
static double point_square(const wall_rule *rule, double part, int i)
{
    return 1.0 - rule->place[i] * part;
}

/* What the metal of a section does at an m: pressure that it takes and axial force beyond the mean of radial and hoop stress,
 * both by mean yield strength (the force by outside radius squared too), and how their difference rises with m. */
typedef struct {
    double pressure, force, rise;
    double curve; /* second slope by first of the even part */
} metal_flow;

/* Metal of one yield strength. One logarithm, of what keeps the digits of a thin wall. */
static metal_flow even_flow(double alpha, double part, double m)
{
    const double outer = root_of_sum(m), inner = root_of_sum(alpha * m), sum = outer + inner;
    const double both = part * (1.0 + alpha); /* 1 - alpha^2 */
    const double more = (part + both / (inner + alpha * outer)) / (alpha * (1.0 + outer));
    const double outer_slope = m / outer, inner_slope = alpha * alpha * m / inner;
    const metal_flow flow = {log1p(more) / root_three, m * both / sum,
                             (1.0 + m / root_three) * both / (sum * outer * inner),
                             1.0 / (root_three + m) - (outer_slope + inner_slope) / sum -
                                 outer_slope / outer - inner_slope / inner};
    return flow;
}

static metal_flow flow_at(const flow_section *section, double m)
{
    metal_flow flow = even_flow(section->alpha, section->part, m);
    double pressure = 0.0, force = 0.0, rise = 0.0;
    for (int i = 0; section->rule && i < point_count; i++) {
        const double square = point_square(section->rule, section->part, i),
                     inverse = 1.0 / root_of_sum(m * square);
        const double extra = section->rule->weight[i] * section->departure[i] * inverse;
        pressure += extra / square;
        force += extra * m * square;
        rise += extra * square * inverse * inverse;
    }
    flow.pressure += section->part * pressure / root_three;
    flow.force += section->part * force;
    flow.rise += (1.0 + m / root_three) * section->part * rise;
    return flow;
}

/* Axial force of the section by mean yield strength and outside radius squared; rises with m. Newton's step with this
 * slope is Halley's. */
static double axial_force(double m, const void *context, double *slope)
{
    const flow_section *section = (const flow_section *)context;
    const metal_flow flow = flow_at(section, m);
    const double force = flow.force - section->hose * section->part - flow.pressure;
    *slope = flow.rise - 0.5 * force * flow.curve;
    return force;
}

/* m of a thin tube whose ends are free. */
static double thin_flow(double hose)
{
    const double rest = 1.0 - hose * hose;
    return (1.0 / root_three + hose * sqrt(1.0 / 3.0 + rest)) / rest;
}

/* m of a tube whose ends are free: no axial force. Sought from near; a thick tube has about 1/alpha. */
static double free_flow(const flow_section *section, double near, double tolerance)
{
    const double rest = 1.0 - section->hose * section->hose;
    return fer_rising_root(axial_force, section, 0.0, 100.0 / (rest * section->alpha), near, tolerance);
}

/* m where the restraint keeps the ends from moving: of the lengthening m/(m + root 3) with ends free the rest is left. */
static double restrained_flow(double with_free_ends, double restraint)
{
    return (1.0 - restraint) * with_free_ends / (1.0 + restraint * with_free_ends / root_three);
}

/* --- the stroke ------------------------------------------------------------------------------------------------- */

/* What has changed since the start of the stroke. */
typedef struct {
    double stretch;             /* logarithm of length by length before */
    double strain[point_count]; /* plastic strain at the points */
} progress;

typedef struct {
    double outside, section; /* radius, and b^2 - a^2, before */
    double hose, restraint;  /* pressure at the end of the stroke; 0 free, 1 fixed */
    double yield_strength, hardening;
    double reduction; /* of ln(outside) by plastic flow over the whole stroke */
    double elastic;   /* reduction of ln(outside) before that */
    double drift; /* plastic lengthening that makes up for elastic shortening where the ends are restrained */
    double free_flow; /* m with the ends free, where it was last sought */
    wall_rule rule;
    progress end;
} stroke;

static double mean_strain(const stroke *s, const progress *now)
{
    double mean = 0.0;
    for (int i = 0; i < point_count; i++) {
        mean += s->rule.weight[i] * now->strain[i];
    }
    return mean;
}

static double mean_yield_strength(const stroke *s, const progress *now)
{
    return s->yield_strength + s->hardening * mean_strain(s, now);
}

/* The section as it has become: square of inside by outside radius, pressure of the hose. */
static flow_section section_of(const stroke *s, const progress *now, double part, double hose)
{
    const wall_rule *rule = s->hardening > 0.0 ? &s->rule : NULL;
    const double mean = rule ? mean_strain(s, now) : 0.0;
    const double yield_strength = s->yield_strength + s->hardening * mean;
    flow_section section = {1.0 - part, part, hose / yield_strength, rule, {0.0}};
    for (int i = 0; rule && i < point_count; i++) {
        section.departure[i] = s->hardening * (now->strain[i] - mean) / yield_strength;
    }
    return section;
}

/* m of a section on the way. Halley's step of a ten-thousandth leaves an error of some 1e-12. */
static double flow_of(stroke *s, const flow_section *section)
{
    if (s->restraint == 1.0) {
        return 0.0;
    }
    s->free_flow = free_flow(section, s->free_flow, 1e-4);
    return restrained_flow(s->free_flow, s->restraint);
}

/* Pressure of the hose when the outside has shrunk by plastic flow so much: in proportion to the reduction. */
static double hose_on_the_way(const stroke *s, double plastic)
{
    return s->hose == 0.0 ? 0.0 : s->hose * expm1(-s->elastic - plastic) / expm1(-s->elastic - s->reduction);
}

/* Slopes of the progress against the fraction of the stroke. */
static progress speed(stroke *s, double fraction, const progress *now)
{
    const double plastic = s->reduction * fraction;
    const double part = s->section / (s->outside * s->outside) * exp(2.0 * plastic - now->stretch);
    const flow_section here = section_of(s, now, part, hose_on_the_way(s, plastic));
    /* half the lengthening by the shrinking of the outside, both as rates of logarithms */
    const double flow = flow_of(s, &here);
    const double lengthening = flow / (flow + root_three) + 0.5 * s->drift / s->reduction;
    const double m = root_three * lengthening / (1.0 - lengthening);
    const double share = 2.0 * s->reduction / (m + root_three);
    progress slope = {m * share, {0.0}};
    for (int i = 0; i < point_count; i++) {
        const double inverse = 1.0 / point_square(&s->rule, part, i);
        slope.strain[i] = share * sqrt(m * m + inverse * inverse);
    }
    return slope;
}

static void step_on(progress *now, const progress *slope, double step)
{
    now->stretch += step * slope->stretch;
    for (int i = 0; i < point_count; i++) {
        now->strain[i] += step * slope->strain[i];
    }
}

/* Butcher's rule of sixth order (Butcher, On Runge-Kutta processes of high order, 1964, from memory): where the slopes are
 * taken, and from which slopes before. */
enum { stage_count = 7 };
static const double stage_place[stage_count] = {0.0, 1.0 / 3.0, 2.0 / 3.0, 1.0 / 3.0, 0.5, 0.5, 1.0};
static const double stage_from[stage_count][stage_count - 1] = {
    {0.0, 0.0, 0.0, 0.0, 0.0, 0.0},
    {1.0 / 3.0, 0.0, 0.0, 0.0, 0.0, 0.0},
    {0.0, 2.0 / 3.0, 0.0, 0.0, 0.0, 0.0},
    {1.0 / 12.0, 1.0 / 3.0, -1.0 / 12.0, 0.0, 0.0, 0.0},
    {-1.0 / 16.0, 9.0 / 8.0, -3.0 / 16.0, -3.0 / 8.0, 0.0, 0.0},
    {0.0, 9.0 / 8.0, -3.0 / 8.0, -3.0 / 4.0, 0.5, 0.0},
    {9.0 / 44.0, -9.0 / 11.0, 63.0 / 44.0, 18.0 / 11.0, 0.0, -16.0 / 11.0}};
static const double stage_weight[stage_count] = {11.0 / 120.0, 0.0,         27.0 / 40.0, 27.0 / 40.0,
                                                 -4.0 / 15.0,  -4.0 / 15.0, 11.0 / 120.0};

static void advance(stroke *s, double at, progress *now, double step)
{
    progress slope[stage_count], next = *now;
    for (int i = 0; i < stage_count; i++) {
        progress here = *now;
        for (int j = 0; j < i; j++) {
            if (stage_from[i][j] != 0.0) {
                step_on(&here, &slope[j], step * stage_from[i][j]);
            }
        }
        slope[i] = speed(s, at + stage_place[i] * step, &here);
        step_on(&next, &slope[i], step * stage_weight[i]);
    }
    *now = next;
}

static void integrate(stroke *s, int steps)
{
    const progress start = {0.0, {0.0}};
    s->end = start;
    for (int i = 0; i < steps; i++) {
        advance(s, (double)i / steps, &s->end, 1.0 / steps);
    }
}

/* More for a long stroke, and where the bore ends below some 0.4 of the diameter: the strain at it runs away. */
static int steps_for(const stroke *s)
{
    static const double long_stroke = 0.13, small_bore = 0.15; /* square of the bore by that of the outside */
    const double part = s->section / (s->outside * s->outside) * exp(2.0 * s->reduction);
    return s->reduction <= long_stroke ? 1 : part < 1.0 - small_bore ? 2 : 4;
}

/* The end by the slope half way, for which an end that is about right will do. */
static void estimate_end(stroke *s)
{
    progress half = {0.0, {0.0}};
    step_on(&half, &s->end, 0.5);
    s->end = speed(s, 0.5, &half);
}

/* The end of a stroke that has become a little longer or shorter, by the slope there. */
static void shift_end(stroke *s, double longer, double more_drift)
{
    const progress slope = speed(s, 1.0, &s->end);
    step_on(&s->end, &slope, longer / s->reduction);
    s->end.stretch += more_drift - s->drift * longer / s->reduction;
}

/* --- the closed die --------------------------------------------------------------------------------------------- */

/* Stresses and sizes at the end of the stroke. */
typedef struct {
    fer_tube tube;        /* as it is in the closed dies, with the pressures on it */
    flow_section section; /* its flow */
    double m;
    metal_flow flow;
    double yield_strength; /* mean, with hardening */
    double stretch;        /* length by length before */
    double strain;         /* plastic, mean */
} closed_state;

static double square_ratio(const fer_tube *tube)
{
    const double ratio = tube->inside / tube->outside;
    return ratio * ratio;
}

static double metal_part(const fer_tube *tube)
{
    return fer_tube_section(tube) / (tube->outside * tube->outside);
}

static void set_pressure(closed_state *state, stroke *s)
{
    state->strain = mean_strain(s, &s->end);
    state->yield_strength = mean_yield_strength(s, &s->end);
    state->section = section_of(s, &s->end, metal_part(&state->tube), s->hose);
    state->m = flow_of(s, &state->section);
    state->flow = flow_at(&state->section, state->m);
    state->tube.outer_pressure = s->hose + state->yield_strength * state->flow.pressure;
}

/* Elastic hoop strain at the middle of the wall, carried to the outside as the flow would. */
static double elastic_hoop_strain(const closed_state *state)
{
    const fer_tube *tube = &state->tube;
    const double middle = 0.5 * (tube->outside + tube->inside), part = middle / tube->outside;
    const double m = state->m * part * part, sum = root_of_sum(m);
    const double alpha = tube->inside / middle * (tube->inside / middle);
    const double inner_part = (middle - tube->inside) * (middle + tube->inside) / (middle * middle);
    const double radial =
        -tube->inner_pressure - state->yield_strength * even_flow(alpha, inner_part, m).pressure;
    const double hoop = radial - 2.0 / root_three * state->yield_strength / sum;
    const double axial = 0.5 * (radial + hoop) + state->yield_strength * m / sum;
    const double carried = (root_three + state->m) / (root_three / (part * part) + state->m);
    return carried * (hoop - tube->poisson * (radial + axial)) / tube->modulus;
}

/* Mean axial stress of the section. */
static double axial_stress(const closed_state *state)
{
    const double beyond = state->flow.force / metal_part(&state->tube);
    return fer_tube_mean_stress(&state->tube) + state->yield_strength * beyond;
}

/* Ways to the end of the stroke, from what is known of it. A yield strength that follows the strain needs a second integral. */
typedef enum { ESTIMATE, INTEGRATE, INTEGRATE_HARDENING, SHIFT } way;

static void find_end(stroke *s, way how, double longer, double more_drift)
{
    if (how == ESTIMATE) {
        estimate_end(s);
    } else if (how == INTEGRATE || (how == INTEGRATE_HARDENING && s->hardening > 0.0)) {
        integrate(s, steps_for(s));
    } else {
        shift_end(s, longer, more_drift);
    }
}

/* One pass: sizes from the flow and the elastic strains, then stresses from the sizes. */
static void refine(closed_state *state, stroke *s, way how)
{
    const fer_tube *tube = &state->tube;
    const double plane = 2.0 * fer_tube_mean_stress(tube), axial = axial_stress(state);
    const double volume = 1.0 + (1.0 - 2.0 * tube->poisson) * (plane + axial) / tube->modulus;
    const double elastic_stretch = (1.0 - s->restraint) * fer_tube_free_stretch(tube);
    const double drift = s->drift, reduction = s->reduction;
    s->drift = elastic_stretch - (axial - tube->poisson * plane) / tube->modulus;
    s->elastic = -elastic_hoop_strain(state);
    s->reduction = log(s->outside / tube->outside) - s->elastic;
    find_end(s, how, s->reduction - reduction, s->drift - drift);
    state->stretch = exp(s->end.stretch - s->drift + elastic_stretch);
    const double section = s->section / state->stretch * volume;
    state->tube.inside = sqrt(tube->outside * tube->outside - section);
    set_pressure(state, s);
}

/* Before the first pass: an even wall that has hardened by the strain of a thin one. */
static void begin(closed_state *state, stroke *s, const fer_ferrule *ferrule, double diameter,
                  const fer_material *material, fer_forming_load load)
{
    const double outside = 0.5 * ferrule->outside.mm, closed = 0.5 * diameter;
    const double section = ferrule->wall.mm * (ferrule->outside.mm - ferrule->wall.mm);
    const double strain = log(outside / closed);
    const stroke start = {
        outside,
        section,
        load.hose_pressure.mpa,
        load.restraint.fraction,
        material->yield_strength.mpa,
        material->hardening.mpa,
        0.0,
        0.0,
        0.0,
        thin_flow(load.hose_pressure.mpa / material->yield_strength.mpa),
        rule_for(section / (closed * closed)),
        {0.5 * (1.0 - load.restraint.fraction) * strain, {strain, strain, strain, strain, strain}}};
    *s = start;
    state->tube = tube_of(2.0 * sqrt(closed * closed - section), diameter, material, load);
    state->tube.inner_pressure = s->hose;
    set_pressure(state, s);
}

/* Each pass gains two to three digits, since the elastic strains are about a hundredth of the flow's: the flow is integrated
 * when they are known well enough for that, and what they change after it is small. */
enum { pass_count = 5 };
static const way passes[pass_count] = {ESTIMATE, ESTIMATE, INTEGRATE, INTEGRATE_HARDENING, SHIFT};

/* --- release ---------------------------------------------------------------------------------------------------- */

/* The pressure of the dies taken away: a tube with the opposite pressure. The hose's pressure stays, on a bore that
 * has grown. */
static fer_tube release_of(const closed_state *state)
{
    fer_tube tube = state->tube;
    tube.inner_pressure = 0.0;
    tube.outer_pressure = -state->tube.outer_pressure;
    tube.inner_pressure =
        state->tube.inner_pressure * fer_tube_displacement(&tube, tube.inside) / tube.inside;
    return tube;
}

/* Whether the bore stays elastic while the dies open (von Mises). */
static fer_status status_of_release(const closed_state *state, const fer_tube *release)
{
    const double alpha = square_ratio(&state->tube), inner = root_of_sum(alpha * state->m);
    const double radial = -state->tube.inner_pressure;
    const double hoop = radial - 2.0 / root_three * state->yield_strength / inner;
    const double axial = 0.5 * (radial + hoop) + state->yield_strength * alpha * state->m / inner;
    const double hoop_change = fer_tube_hoop(release, release->inside);
    const double axial_change = state->tube.restraint * state->tube.poisson * hoop_change;
    const double x = hoop + hoop_change - radial, z = axial + axial_change - radial;
    return fer_unless(x * x - x * z + z * z <= state->yield_strength * state->yield_strength,
                      FER_DIAMETER_YIELDS_ON_RELEASE);
}

static void write_closed(const closed_state *state, fer_forming *forming)
{
    const fer_tube *tube = &state->tube;
    forming->wall.mm = tube->outside - tube->inside;
    forming->bore.mm = 2.0 * tube->inside;
    forming->stretch.fraction = state->stretch;
    forming->pressure.mpa = tube->outer_pressure;
    forming->hose_share.fraction = tube->inner_pressure / tube->outer_pressure;
    forming->plastic_strain.fraction = state->strain;
    forming->effective_yield_strength.mpa = state->yield_strength;
}

static void write_released(const closed_state *state, const fer_tube *release, fer_forming *forming)
{
    const double outside = fer_tube_displacement(release, release->outside);
    const double inside = fer_tube_displacement(release, release->inside);
    forming->springback.mm = 2.0 * outside;
    forming->crimp_diameter.mm = 2.0 * (release->outside + outside);
    forming->crimp_bore.mm = 2.0 * (release->inside + inside);
    forming->crimp_wall.mm = release->outside - release->inside + (outside - inside);
    forming->crimp_stretch.fraction =
        state->stretch * (1.0 + (1.0 - release->restraint) * fer_tube_free_stretch(release));
}

/* Estimates alone have the slopes within some 1 %, for a third of the work. */
void fer_close_ferrule(const fer_ferrule *ferrule, fer_length diameter, const fer_material *material,
                       fer_forming_load load, int roughly, fer_forming *forming)
{
    enum { estimates = 2 };
    const int count = roughly ? (int)estimates : (int)pass_count;
    stroke s;
    closed_state state = {0};
    begin(&state, &s, ferrule, diameter.mm, material, load);
    for (int i = 0; i < count; i++) {
        refine(&state, &s, passes[i]);
    }
    const fer_tube release = release_of(&state);
    write_closed(&state, forming);
    write_released(&state, &release, forming);
    forming->release_status = status_of_release(&state, &release);
}

/* Sizes after the dies have opened stand on an elastic release. */
static void leave_out_released(fer_forming *forming)
{
    if (forming->release_status != FER_OK) {
        FER_LEAVE_OUT(forming->springback);
        FER_LEAVE_OUT(forming->crimp_diameter);
        FER_LEAVE_OUT(forming->crimp_bore);
        FER_LEAVE_OUT(forming->crimp_wall);
        FER_LEAVE_OUT(forming->crimp_stretch);
    }
}

static fer_status form_ferrule(const fer_ferrule *ferrule, fer_length diameter, const fer_material *material,
                               fer_forming_load load, fer_forming *forming)
{
    FER_TRY(check_forming(ferrule, material, load));
    FER_TRY(fer_check_closing(ferrule, diameter, material));
    fer_close_ferrule(ferrule, diameter, material, load, 0, forming);
    leave_out_released(forming);
    return FER_OK;
}

fer_status fer_form_ferrule(const fer_ferrule *ferrule, fer_length diameter, const fer_material *material,
                            fer_forming_load load, fer_forming *forming)
{
    FER_REQUIRE(forming, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT_FROM(fer_forming, *forming, wall, effective_yield_strength);
    forming->release_status = FER_OK;
    return form_ferrule(ferrule, diameter, material, load, forming);
}

/* --- from crimp diameter to closing diameter ---------------------------------------------------------------------- */

/* By the elastic springback, whether the bore stays elastic or not. */
static fer_status find_closing(const fer_ferrule *ferrule, fer_length crimp_diameter,
                               const fer_material *material, fer_forming_load load, fer_length *diameter,
                               fer_status *release_status)
{
    stroke s;
    closed_state state = {0};
    fer_tube release;
    FER_TRY(fer_check_length(crimp_diameter, FER_DIAMETER_MISSING, FER_DIAMETER_OUT_OF_RANGE));
    FER_REQUIRE(crimp_diameter.mm <= ferrule->outside.mm, FER_DIAMETER_ABOVE_FERRULE);
    fer_length closing = {
        fmin(crimp_diameter.mm, ferrule->outside.mm - fer_reduction_needed(ferrule, material))};
    FER_TRY(fer_check_closing(ferrule, closing, material));
    begin(&state, &s, ferrule, closing.mm, material, load);
    for (int i = 0; i < pass_count; i++) {
        refine(&state, &s, passes[i]);
        release = release_of(&state);
        closing.mm = crimp_diameter.mm - 2.0 * fer_tube_displacement(&release, release.outside);
        FER_TRY(fer_check_closing(ferrule, closing, material));
        state.tube.outside = 0.5 * closing.mm;
    }
    *release_status = status_of_release(&state, &release);
    *diameter = closing;
    return FER_OK;
}

static fer_status find_closing_diameter(const fer_ferrule *ferrule, fer_length crimp_diameter,
                                        const fer_material *material, fer_forming_load load,
                                        fer_length *diameter)
{
    fer_length closing;
    fer_status release_status;
    FER_TRY(check_forming(ferrule, material, load));
    FER_TRY(find_closing(ferrule, crimp_diameter, material, load, &closing, &release_status));
    FER_TRY(release_status);
    *diameter = closing;
    return FER_OK;
}

fer_status fer_closing_diameter(const fer_ferrule *ferrule, fer_length crimp_diameter,
                                const fer_material *material, fer_forming_load load, fer_length *diameter)
{
    FER_REQUIRE(diameter, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*diameter);
    return find_closing_diameter(ferrule, crimp_diameter, material, load, diameter);
}

fer_status fer_form_crimp_checked(const fer_ferrule *ferrule, fer_length crimp_diameter,
                                  const fer_material *material, fer_forming_load load, fer_length *closing,
                                  fer_forming *forming)
{
    fer_length diameter;
    fer_status release_status;
    FER_TRY(find_closing(ferrule, crimp_diameter, material, load, &diameter, &release_status));
    fer_close_ferrule(ferrule, diameter, material, load, 0, forming);
    *closing = diameter;
    return FER_OK;
}

fer_status fer_minimum_reduction(const fer_ferrule *ferrule, const fer_material *material,
                                 fer_length *reduction)
{
    FER_REQUIRE(reduction, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*reduction);
    FER_TRY(fer_check_thin_ferrule(ferrule));
    FER_TRY(fer_check_material(material));
    reduction->mm = fer_reduction_needed(ferrule, material);
    return FER_OK;
}

/* --- force ------------------------------------------------------------------------------------------------------ */

static fer_status find_die_force(fer_pressure pressure, fer_length diameter, fer_length length, int segments,
                                 fer_die_force *force)
{
    FER_REQUIRE(pressure.mpa > 0.0 && pressure.mpa <= 1e6, FER_DIE_PRESSURE_OUT_OF_RANGE);
    FER_TRY(fer_check_length(diameter, FER_DIAMETER_MISSING, FER_DIAMETER_OUT_OF_RANGE));
    FER_TRY(fer_check_length(length, FER_FERRULE_LENGTH_MISSING, FER_FERRULE_LENGTH_OUT_OF_RANGE));
    FER_REQUIRE(fer_is_segments(segments), FER_SEGMENTS_OUT_OF_RANGE);
    const fer_pair face = fer_pair_product(diameter.mm, length.mm),
                   half_angle = fer_half_angle_pair(segments);
    const fer_pair across = fer_pair_multiply(face, fer_sine_pair(half_angle));
    force->total.newton = fer_pair_times(fer_pair_multiply(face, fer_pi_pair()), pressure.mpa);
    force->segment.newton = fer_pair_times(fer_pair_multiply(face, half_angle), pressure.mpa);
    force->segment_resultant.newton = fer_pair_times(across, pressure.mpa);
    force->resultants.newton = fer_pair_times(fer_pair_multiply(across, fer_pair_of(segments)), pressure.mpa);
    return FER_OK;
}

fer_status fer_find_die_force(fer_pressure pressure, fer_length diameter, fer_length length, int segments,
                              fer_die_force *force)
{
    FER_REQUIRE(force, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*force);
    return find_die_force(pressure, diameter, length, segments, force);
}

/* --- elastic tube ----------------------------------------------------------------------------------------------- */

/* Material of an elastic tube: what it yields at does not matter. */
fer_status fer_check_elastic(const fer_material *material)
{
    FER_REQUIRE(material, FER_ARGUMENT_MISSING);
    fer_material elastic = *material;
    elastic.yield_strength.mpa = 1e-3 * material->elastic_modulus.mpa;
    elastic.hardening.mpa = 0.0;
    return fer_check_material(&elastic);
}

static int is_tube_pressure(fer_pressure pressure)
{
    return pressure.mpa >= 0.0 &&
           pressure.mpa <= 1e6; /* the stiffest metal's modulus: elastic far beyond sense */
}

static fer_status load_tube(fer_length inside, fer_length outside, fer_pressure inner_pressure,
                            fer_pressure outer_pressure, const fer_material *material, fer_forming_load load,
                            fer_tube_change *change)
{
    FER_TRY(fer_check_length(outside, FER_TUBE_OUTSIDE_MISSING, FER_TUBE_OUTSIDE_OUT_OF_RANGE));
    FER_REQUIRE(fer_is_length_or_none(inside) && inside.mm < outside.mm, FER_TUBE_INSIDE_OUT_OF_RANGE);
    FER_REQUIRE(is_tube_pressure(inner_pressure) && is_tube_pressure(outer_pressure),
                FER_TUBE_PRESSURE_OUT_OF_RANGE);
    FER_TRY(fer_check_elastic(material));
    FER_TRY(check_restraint(load));
    fer_tube tube = tube_of(inside.mm, outside.mm, material, load);
    tube.inner_pressure = inner_pressure.mpa;
    tube.outer_pressure = outer_pressure.mpa;
    /* a solid bar has the same stress everywhere: its middle is as good as its outside */
    const double inner = tube.inside > 0.0 ? tube.inside : tube.outside;
    change->inside.mm = tube.inside > 0.0 ? 2.0 * fer_tube_displacement(&tube, inner) : 0.0;
    change->outside.mm = 2.0 * fer_tube_displacement(&tube, tube.outside);
    change->stretch.fraction = (1.0 - tube.restraint) * fer_tube_free_stretch(&tube);
    change->hoop_inside.mpa = fer_tube_hoop(&tube, inner);
    change->hoop_outside.mpa = fer_tube_hoop(&tube, tube.outside);
    return FER_OK;
}

fer_status fer_load_tube(fer_length inside, fer_length outside, fer_pressure inner_pressure,
                         fer_pressure outer_pressure, const fer_material *material, fer_forming_load load,
                         fer_tube_change *change)
{
    FER_REQUIRE(change, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*change);
    return load_tube(inside, outside, inner_pressure, outer_pressure, material, load, change);
}

/* --- stem ------------------------------------------------------------------------------------------------------- */

static fer_status check_bore(const fer_stem *stem)
{
    FER_REQUIRE(stem, FER_ARGUMENT_MISSING);
    return fer_check_length(stem->bore, FER_STEM_BORE_MISSING, FER_STEM_BORE_OUT_OF_RANGE);
}

fer_status fer_check_stem(const fer_stem *stem, const fer_material *material, fer_forming_load load)
{
    FER_TRY(check_bore(stem));
    FER_TRY(fer_check_length(stem->outside, FER_STEM_OUTSIDE_MISSING, FER_STEM_OUTSIDE_OUT_OF_RANGE));
    FER_REQUIRE(stem->bore.mm < stem->outside.mm, FER_STEM_BORE_OUT_OF_RANGE);
    FER_TRY(fer_check_material(material));
    return check_restraint(load);
}

/* Half the stress difference in the plastic zone of a tube with fixed ends. */
static double fixed_shear(const fer_material *material)
{
    const double poisson = material->poisson.fraction;
    return 0.5 * material->yield_strength.mpa / sqrt(1.0 - poisson + poisson * poisson);
}

/* With the ends fixed the elastic constants drop out: m is 0, and (2/root 3) Y ln(b/a). The root is sought to the last
 * place, since a stem may be thicker than any ferrule. */
static double full_yield_pressure(const fer_tube *tube, const fer_material *material)
{
    const flow_section section = {square_ratio(tube), metal_part(tube), 0.0, NULL, {0.0}};
    const double m = restrained_flow(free_flow(&section, thin_flow(0.0), DBL_EPSILON), tube->restraint);
    return material->yield_strength.mpa * flow_at(&section, m).pressure;
}

static fer_stem_strength strength_of(const fer_tube *tube, const fer_material *material)
{
    const double axial = tube->restraint * tube->poisson;
    const double wall = metal_part(tube);
    const fer_stem_strength strength = {
        {0.5 * material->yield_strength.mpa * wall / sqrt(1.0 - axial + axial * axial)},
        {full_yield_pressure(tube, material)}};
    return strength;
}

fer_stem_strength fer_stem_strength_checked(const fer_stem *stem, const fer_material *material,
                                            fer_forming_load load)
{
    const fer_tube tube = tube_of(stem->bore.mm, stem->outside.mm, material, load);
    return strength_of(&tube, material);
}

fer_status fer_find_stem_strength(const fer_stem *stem, const fer_material *material, fer_forming_load load,
                                  fer_stem_strength *strength)
{
    FER_REQUIRE(strength, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*strength);
    FER_TRY(fer_check_stem(stem, material, load));
    *strength = fer_stem_strength_checked(stem, material, load);
    return FER_OK;
}

typedef struct {
    double inside, outside; /* radii */
    double pressure;        /* by shear */
} plastic_stem;

/* Pressure at which the plastic zone reaches a radius, minus the pressure that there is; rises. */
static double excess_pressure(double radius, const void *context, double *slope)
{
    const plastic_stem *stem = (const plastic_stem *)context;
    const double share = radius / stem->outside;
    *slope = 2.0 * (1.0 - share) * (1.0 + share) / radius;
    return 2.0 * log(radius / stem->inside) + (1.0 - share) * (1.0 + share) - stem->pressure;
}

/* How deep into the wall the closed form was compared. It keeps the elastic share of the axial stress, which is exact for
 * Poisson's ratio 1/2; far below the metals' it makes the reduction too small, and its error grows with the square of the
 * distance from there. */
static double plastic_share(double poisson)
{
    const double distance = 0.5 - poisson;
    return poisson >= 0.2 ? 0.8 : 0.01 / (distance * distance);
}

static fer_status load_yielding_stem(const fer_tube *tube, const fer_material *material,
                                     fer_stem_change *change)
{
    const double shear = fixed_shear(material), poisson = tube->poisson;
    const plastic_stem stem = {tube->inside, tube->outside, tube->outer_pressure / shear};
    FER_REQUIRE(tube->restraint == 1.0, FER_STEM_YIELDS_ENDS_NOT_FIXED);
    const double radius =
        fer_rising_root(excess_pressure, &stem, tube->inside, tube->outside, tube->inside, DBL_EPSILON);
    const double reduction =
        4.0 * (1.0 - poisson * poisson) * shear * radius * radius / (tube->modulus * tube->inside);
    FER_REQUIRE(radius - tube->inside <= plastic_share(poisson) * (tube->outside - tube->inside),
                FER_STEM_YIELDS_TOO_DEEP);
    const double hoop = -2.0 * shear - fer_tube_hoop(tube, tube->inside);
    const double elastic = -2.0 * fer_tube_displacement(tube, tube->inside);
    FER_REQUIRE(hoop <= 2.0 * shear, FER_STEM_YIELDS_ON_RELEASE);
    change->bore_reduction.mm = reduction;
    change->residual_reduction.mm = reduction - elastic;
    change->plastic_diameter.mm = 2.0 * radius;
    change->residual_hoop.mpa = hoop;
    return FER_OK;
}

fer_status fer_load_stem_checked(const fer_stem *stem, const fer_material *material, fer_forming_load load,
                                 fer_stem_change *change)
{
    fer_tube tube = tube_of(stem->bore.mm, stem->outside.mm, material, load);
    tube.outer_pressure = load.hose_pressure.mpa;
    const fer_stem_strength strength = strength_of(&tube, material);
    FER_REQUIRE(load.hose_pressure.mpa < strength.full_yield_pressure.mpa, FER_STEM_YIELDS_THROUGH);
    if (load.hose_pressure.mpa > strength.first_yield_pressure.mpa) {
        return load_yielding_stem(&tube, material, change);
    }
    const fer_stem_change elastic = {{-2.0 * fer_tube_displacement(&tube, tube.inside)}, {0.0}, {0.0}, {0.0}};
    *change = elastic;
    return FER_OK;
}

fer_status fer_load_stem(const fer_stem *stem, const fer_material *material, fer_forming_load load,
                         fer_stem_change *change)
{
    FER_REQUIRE(change, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*change);
    FER_TRY(fer_check_stem(stem, material, load));
    FER_TRY(check_hose_pressure(load));
    return fer_load_stem_checked(stem, material, load, change);
}

fer_status fer_bore_margin_checked(const fer_stem *stem, fer_length reduction, fer_length gauge,
                                   fer_length *margin)
{
    FER_REQUIRE(reduction.mm >= 0.0 && reduction.mm < stem->bore.mm, FER_BORE_REDUCTION_OUT_OF_RANGE);
    FER_TRY(fer_check_length(gauge, FER_BORE_LIMIT_MISSING, FER_BORE_LIMIT_OUT_OF_RANGE));
    margin->mm = (stem->bore.mm - gauge.mm) - reduction.mm;
    return FER_OK;
}

fer_status fer_bore_margin(const fer_stem *stem, fer_length reduction, fer_length gauge, fer_length *margin)
{
    FER_REQUIRE(margin, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*margin);
    FER_TRY(check_bore(stem));
    return fer_bore_margin_checked(stem, reduction, gauge, margin);
}
