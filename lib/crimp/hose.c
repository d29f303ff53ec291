/* SPDX-License-Identifier: MIT */
/* What the hose presses: from force and length of a closing, and from the bore of the stem.
 * Method: the dies' forward model in three unknowns by Broyden's method; uncertainty by its slopes.
 * Formulas: include/ferrule/hose.h; docs/hose.md. */
#include <ferrule/hose.h>

#include "base/value_private.h"
#include "crimp/forming_private.h"
#include "crimp/hose_private.h"
#include "base/numeric/pi.h"

static const double lowest_restraint = -0.3; /* the hose drags the ferrule longer than ends free would */
static const double closeness = 1e-9;        /* of an end of a range that was reached but for rounding */

/* --- what the dies do, forwards ----------------------------------------------------------------------------------- */

/* What a closing depends on, and what is seen of it. Where the length after is not known, the restraint is taken to be seen
 * itself; where the pressure of the hose is known, it stands for the force. */
typedef enum { HOSE, YIELD_STRENGTH, RESTRAINT, DIAMETER, WALL, OUTSIDE, INPUTS } input;
enum { FORCE, STRETCH, CRIMP_DIAMETER, SEEN };

typedef struct {
    double of[SEEN];
} seen;

typedef struct {
    double in[INPUTS];
    double modulus, poisson, hardening;
    int force_known, length_known;
} closing_model;

static fer_ferrule ferrule_of(const closing_model *model)
{
    const fer_ferrule ferrule = {{model->in[WALL]}, {model->in[OUTSIDE]}, {0.0}};
    return ferrule;
}

static fer_material metal_of(const closing_model *model)
{
    const fer_material metal = {
        {model->modulus}, {model->poisson}, {model->in[YIELD_STRENGTH]}, {model->hardening}};
    return metal;
}

/* Force by length before. */
static seen look(const closing_model *model, int roughly)
{
    const fer_ferrule ferrule = ferrule_of(model);
    const fer_material metal = metal_of(model);
    const fer_forming_load load = {{model->in[RESTRAINT]}, {model->in[HOSE]}};
    const fer_length diameter = {model->in[DIAMETER]};
    fer_forming forming;
    fer_close_ferrule(&ferrule, diameter, &metal, load, roughly, &forming);
    const double force = forming.pressure.mpa * pi * diameter.mm * forming.stretch.fraction;
    const seen found = {{model->force_known ? force : model->in[HOSE],
                         model->length_known ? forming.crimp_stretch.fraction : model->in[RESTRAINT],
                         forming.crimp_diameter.mm}};
    return found;
}

/* A step of an input for a slope, to the side where the closed forms hold better. */
static double step_of(const closing_model *model, input which)
{
    const double *in = model->in;
    const double steps[INPUTS] = {
        1e-3 * in[YIELD_STRENGTH],           -1e-3 * in[YIELD_STRENGTH], -1e-3,
        1e-3 * (in[OUTSIDE] - in[DIAMETER]), -1e-3 * in[WALL],           1e-3 * (in[OUTSIDE] - in[DIAMETER])};
    return steps[which];
}

static seen slope(const closing_model *model, const seen *here, input which)
{
    closing_model moved = *model;
    const double step = step_of(model, which);
    moved.in[which] += step;
    seen found = look(&moved, 1);
    for (int i = 0; i < SEEN; i++) {
        found.of[i] = (found.of[i] - here->of[i]) / step;
    }
    return found;
}

/* --- three equations ---------------------------------------------------------------------------------------------- */

/* Slopes by the unknown, a column each: what pushes (pressure of the hose or yield strength), restraint, closing diameter. */
typedef struct {
    seen column[SEEN];
} slopes;

static seen cross(const seen *a, const seen *b)
{
    const seen product = {{a->of[1] * b->of[2] - a->of[2] * b->of[1],
                           a->of[2] * b->of[0] - a->of[0] * b->of[2],
                           a->of[0] * b->of[1] - a->of[1] * b->of[0]}};
    return product;
}

static double dot(const seen *a, const seen *b)
{
    return a->of[0] * b->of[0] + a->of[1] * b->of[1] + a->of[2] * b->of[2];
}

/* Row of the inverse: how an unknown follows what is seen. */
static seen inverse_row(const slopes *s, int unknown)
{
    const seen *a = &s->column[unknown], *b = &s->column[(unknown + 1) % SEEN],
               *c = &s->column[(unknown + 2) % SEEN];
    seen row = cross(b, c);
    const double determinant = dot(a, &row);
    for (int i = 0; i < SEEN; i++) {
        row.of[i] /= determinant;
    }
    return row;
}

typedef struct {
    closing_model model; /* the unknown of it are found */
    input push;          /* which one pushes */
    seen target;
    seen here;  /* what the model shows */
    seen rough; /* the same as slopes are taken from */
    slopes slope;
} task;

static input unknown_of(const task *t, int i)
{
    return i == 0 ? t->push : i == 1 ? RESTRAINT : DIAMETER;
}

static void find_slopes(task *t)
{
    t->rough = look(&t->model, 1);
    for (int i = 0; i < SEEN; i++) {
        t->slope.column[i] = slope(&t->model, &t->rough, unknown_of(t, i));
    }
}

/* A little beyond what is allowed, so that a solution there is found and refused. */
static void keep_in_reach(closing_model *model)
{
    double *in = model->in;
    in[YIELD_STRENGTH] = fmin(fmax(in[YIELD_STRENGTH], 0.9e-3), 0.0051 * model->modulus);
    in[HOSE] = fmin(fmax(in[HOSE], -0.05 * in[YIELD_STRENGTH]), 0.55 * in[YIELD_STRENGTH]);
    in[RESTRAINT] = fmin(fmax(in[RESTRAINT], lowest_restraint - 0.1), 1.1);
    const double section = in[WALL] * (in[OUTSIDE] - in[WALL]);
    const fer_ferrule ferrule = ferrule_of(model);
    const fer_material metal = metal_of(model);
    in[DIAMETER] = fmax(in[DIAMETER], fmax(0.69 * in[OUTSIDE], 2.0001 * sqrt(section)));
    in[DIAMETER] = fmin(in[DIAMETER], in[OUTSIDE] - 0.9 * fer_reduction_needed(&ferrule, &metal));
}

/* One step by the slopes, by the size of each unknown. */
static seen take_step(task *t, const seen *size)
{
    const closing_model before = t->model;
    seen miss, step;
    for (int i = 0; i < SEEN; i++) {
        miss.of[i] = t->target.of[i] - t->here.of[i];
    }
    for (int i = 0; i < SEEN; i++) {
        const seen row = inverse_row(&t->slope, i);
        t->model.in[unknown_of(t, i)] += dot(&row, &miss);
    }
    keep_in_reach(&t->model);
    for (int i = 0; i < SEEN; i++) {
        step.of[i] = (t->model.in[unknown_of(t, i)] - before.in[unknown_of(t, i)]) / size->of[i];
    }
    return step;
}

/* Slopes corrected so that they say what the step has shown (Broyden, from memory). */
static void correct_slopes(task *t, const seen *step, const seen *size, const seen *now)
{
    const double length = dot(step, step);
    for (int i = 0; i < SEEN; i++) {
        double rest = now->of[i] - t->here.of[i];
        for (int j = 0; j < SEEN; j++) {
            rest -= t->slope.column[j].of[i] * step->of[j] * size->of[j];
        }
        for (int j = 0; j < SEEN; j++) {
            t->slope.column[j].of[i] += rest * step->of[j] / (size->of[j] * length);
        }
    }
}

/* Starts from what the slopes are taken from, which is near enough for the first step; the next one corrects what it has shown. Ends
 * when a step changes nothing that counts: the next one would be a thousand times smaller. */
static void solve(task *t)
{
    enum { turns_maximum = 30 };
    const seen size = {{t->model.in[YIELD_STRENGTH], 1.0, t->model.in[DIAMETER]}};
    seen step = {{1.0, 1.0, 1.0}};
    find_slopes(t);
    t->here = t->rough;
    /* GCOVR_EXCL_BR_START: no closing is known that takes thirty turns; what was not found is refused by is_found() */
    for (int turn = 0; turn < turns_maximum && dot(&step, &step) > closeness * closeness; turn++) {
        /* GCOVR_EXCL_BR_STOP */
        step = take_step(t, &size);
        const seen now = look(&t->model, 0);
        if (turn > 0 && dot(&step, &step) > 0.0) {
            correct_slopes(t, &step, &size, &now);
        }
        t->here = now;
    }
}

/* An end of a range that was reached but for rounding. */
static double at_end(double value, double end, double size)
{
    return fabs(value - end) <= closeness * size ? end : value;
}

/* Nothing was found only where the bore is about to close. */
static int is_found(const task *t)
{
    double miss = 0.0;
    for (int i = 0; i < SEEN; i++) {
        miss = fmax(miss, fabs(t->here.of[i] - t->target.of[i]) / (fabs(t->target.of[i]) + closeness));
    }
    return miss <= 1e-6;
}

/* An unknown at the end of its reach takes others with it: restraint and diameter come after what takes them. */
static fer_status judge(task *t)
{
    double *in = t->model.in;
    const fer_ferrule ferrule = ferrule_of(&t->model);
    const fer_material metal = metal_of(&t->model);
    const fer_length diameter = {in[DIAMETER]};
    in[RESTRAINT] = at_end(at_end(in[RESTRAINT], lowest_restraint, 1.0), 1.0, 1.0);
    in[HOSE] = at_end(in[HOSE], 0.0, in[YIELD_STRENGTH]);
    in[HOSE] = at_end(in[HOSE], FER_STRONGEST_HOSE * in[YIELD_STRENGTH], in[YIELD_STRENGTH]);
    FER_REQUIRE(in[OUTSIDE] - in[DIAMETER] >= fer_reduction_needed(&ferrule, &metal),
                FER_DIAMETER_REDUCED_TOO_LITTLE);
    FER_REQUIRE(in[HOSE] <= FER_STRONGEST_HOSE * in[YIELD_STRENGTH], FER_HOSE_PRESSURE_ABOVE_LIMIT);
    FER_REQUIRE(in[RESTRAINT] >= lowest_restraint && in[RESTRAINT] <= 1.0, FER_CLOSING_STRETCH_OUT_OF_RANGE);
    FER_REQUIRE(in[YIELD_STRENGTH] >= 1e-3 && in[YIELD_STRENGTH] <= 0.005 * t->model.modulus,
                FER_CLOSING_FORCE_OUT_OF_RANGE);
    FER_REQUIRE(in[HOSE] >= 0.0, FER_FORCE_BELOW_METAL);
    /* GCOVR_EXCL_BR_START: no closing is known that breaks this rule and none of those above */
    FER_TRY(fer_check_closing(&ferrule, diameter, &metal));
    /* GCOVR_EXCL_BR_STOP */
    return fer_unless(is_found(t), FER_DIAMETER_WITHOUT_BORE);
}

/* --- a closing ---------------------------------------------------------------------------------------------------- */

/* Everything but the force. */
static fer_status check_closing(const fer_ferrule *ferrule, const fer_closing *closing)
{
    FER_TRY(fer_check_length(closing->diameter, FER_DIAMETER_MISSING, FER_DIAMETER_OUT_OF_RANGE));
    FER_REQUIRE(closing->diameter.mm <= ferrule->outside.mm, FER_DIAMETER_ABOVE_FERRULE);
    FER_TRY(fer_check_deep_closing(ferrule, closing->diameter));
    FER_TRY(fer_check_length(closing->before, FER_CLOSING_LENGTH_MISSING, FER_CLOSING_LENGTH_OUT_OF_RANGE));
    return fer_unless(fer_is_length_or_none(closing->after), FER_CLOSING_LENGTH_OUT_OF_RANGE);
}

static fer_status check_measured(const fer_ferrule *ferrule, const fer_closing *closing)
{
    const double force = closing->force.newton;
    FER_TRY(check_closing(ferrule, closing));
    FER_REQUIRE(force != 0.0, FER_CLOSING_FORCE_MISSING);
    return fer_unless(force > 0.0 && fer_is_finite(force), FER_CLOSING_FORCE_OUT_OF_RANGE);
}

/* What is seen of a closing, and a start: the ferrule as it came out, a third restrained if its length is known. */
static task begin(const fer_ferrule *ferrule, const fer_closing *closing, const fer_material *metal)
{
    const double before = closing->before.mm, after = closing->after.mm;
    task t;
    memset(&t, 0, sizeof t);
    t.push = HOSE;
    t.model.in[YIELD_STRENGTH] = metal->yield_strength.mpa;
    t.model.in[RESTRAINT] = after > 0.0 ? 0.3 : 0.0;
    t.model.in[DIAMETER] = closing->diameter.mm;
    t.model.in[WALL] = ferrule->wall.mm;
    t.model.in[OUTSIDE] = ferrule->outside.mm;
    t.model.modulus = metal->elastic_modulus.mpa;
    t.model.poisson = metal->poisson.fraction;
    t.model.hardening = metal->hardening.mpa;
    t.model.force_known = 1;
    t.model.length_known = after > 0.0;
    t.target.of[FORCE] = closing->force.newton / before;
    t.target.of[STRETCH] = after / before; /* 0 where it is not known, and so is the restraint */
    t.target.of[CRIMP_DIAMETER] = closing->diameter.mm;
    return t;
}

static fer_status find(task *t)
{
    keep_in_reach(&t->model);
    solve(t);
    return judge(t);
}

/* --- yield strength of a bare ferrule --------------------------------------------------------------------------------- */

/* Too small by what the ends let go: Hill's pressure of fixed ends with the wall as thick as it can get. */
static double lowest_yield_strength(const task *t)
{
    const double *in = t->model.in, closed = 0.5 * in[DIAMETER];
    const double section = in[WALL] * (in[OUTSIDE] - in[WALL]);
    const double pressure = t->target.of[FORCE] / (pi * in[DIAMETER]);
    return pressure * 1.7320508075688772 / -log1p(-section / (closed * closed));
}

static fer_status find_yield_strength(const fer_ferrule *ferrule, const fer_closing *bare,
                                      const fer_material *material, task *t)
{
    fer_material metal = *material;
    metal.hardening.mpa = 0.0;
    *t = begin(ferrule, bare, &metal);
    t->push = YIELD_STRENGTH;
    t->model.in[YIELD_STRENGTH] = 1e-3 * metal.elastic_modulus.mpa;
    keep_in_reach(&t->model);
    t->model.in[YIELD_STRENGTH] = lowest_yield_strength(t);
    return find(t);
}

static fer_status find_effective_yield_strength(const fer_ferrule *ferrule, const fer_closing *bare,
                                                const fer_material *material, fer_pressure *yield_strength)
{
    task t;
    FER_REQUIRE(bare, FER_ARGUMENT_MISSING);
    FER_TRY(fer_check_thin_ferrule(ferrule));
    FER_TRY(fer_check_elastic(material));
    FER_TRY(check_measured(ferrule, bare));
    FER_TRY(find_yield_strength(ferrule, bare, material, &t));
    yield_strength->mpa = t.model.in[YIELD_STRENGTH];
    return FER_OK;
}

fer_status fer_find_effective_yield_strength(const fer_ferrule *ferrule, const fer_closing *bare,
                                             const fer_material *material, fer_pressure *yield_strength)
{
    FER_REQUIRE(yield_strength, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*yield_strength);
    return find_effective_yield_strength(ferrule, bare, material, yield_strength);
}

/* --- uncertainty, first order ------------------------------------------------------------------------------------------- */

static fer_status check_uncertainties(const fer_closing_uncertainties *u)
{
    const double ratios[] = {u->force.fraction, u->scale.fraction, u->yield_strength.fraction};
    const double lengths[] = {u->diameter.mm, u->wall.mm, u->length.mm};
    for (int i = 0; i < 3; i++) {
        FER_REQUIRE(ratios[i] >= 0.0 && ratios[i] <= 1.0, FER_CLOSING_UNCERTAINTY_OUT_OF_RANGE);
        FER_REQUIRE(lengths[i] >= 0.0 && lengths[i] <= FER_LENGTH_MAXIMUM_MM,
                    FER_CLOSING_UNCERTAINTY_OUT_OF_RANGE);
    }
    return FER_OK;
}

/* How what pushes follows an input at what is seen as it is. */
static double follows(const task *t, const seen *row, input which)
{
    const seen change = slope(&t->model, &t->rough, which);
    return -dot(row, &change);
}

/* What one closing does to what pushes. */
typedef struct {
    double variance;       /* of everything that is measured anew for each closing */
    double scale;          /* slope by the scale of the force */
    double restraint;      /* slope by a restraint that was not measured */
    double yield_strength; /* slope by the yield strength */
} share;

static share share_of(task *t, const fer_closing *closing, const fer_closing_uncertainties *u)
{
    find_slopes(t);
    const seen row = inverse_row(&t->slope, 0);
    const double before = closing->before.mm, known = t->model.length_known ? 1.0 : 0.0;
    const double force = row.of[FORCE] * t->target.of[FORCE];
    const double parts[] = {force * u->force.fraction,
                            row.of[CRIMP_DIAMETER] * u->diameter.mm,
                            follows(t, &row, OUTSIDE) * u->diameter.mm,
                            follows(t, &row, WALL) * u->wall.mm,
                            known * row.of[STRETCH] / before * u->length.mm,
                            (force + known * row.of[STRETCH] * t->target.of[STRETCH]) / before *
                                u->length.mm};
    share found = {0.0, force, (1.0 - known) * row.of[STRETCH], 0.0};
    for (size_t i = 0; i < sizeof parts / sizeof *parts; i++) {
        found.variance += parts[i] * parts[i];
    }
    if (t->push == HOSE) {
        found.yield_strength = follows(t, &row, YIELD_STRENGTH);
    }
    return found;
}

static double square(double x)
{
    return x * x;
}

/* A restraint that was not measured is taken as 0 and may be anything up to 1: root mean square 1/root 3. */
static double uncertainty_of(task *joint, const fer_closing *closing, task *twin, const fer_closing *bare,
                             const fer_closing_uncertainties *u)
{
    const share own = share_of(joint, closing, u);
    double variance = own.variance + square(own.restraint) / 3.0, scale = own.scale;
    if (bare) {
        const share other = share_of(twin, bare, u);
        variance += square(own.yield_strength) * other.variance;
        scale += own.yield_strength * other.scale;
    } else {
        variance += square(own.yield_strength * joint->model.in[YIELD_STRENGTH] * u->yield_strength.fraction);
    }
    return sqrt(variance + square(scale * u->scale.fraction));
}

/* --- pressure of the hose ----------------------------------------------------------------------------------------------- */

/* A bare ferrule is given as soon as any of its figures is. */
static int is_given(const fer_closing *bare)
{
    return !(bare->force.newton == 0.0 && bare->diameter.mm == 0.0 && bare->before.mm == 0.0 &&
             bare->after.mm == 0.0);
}

/* Metal of the ferrule; of a twin crimp what the bare one says. */
static fer_status find_metal(const fer_ferrule *ferrule, const fer_closing *bare,
                             const fer_material *material, task *twin, fer_material *metal)
{
    *metal = *material;
    if (!is_given(bare)) {
        return FER_OK;
    }
    FER_TRY(check_measured(ferrule, bare));
    FER_TRY(find_yield_strength(ferrule, bare, material, twin));
    metal->yield_strength.mpa = twin->model.in[YIELD_STRENGTH];
    metal->hardening.mpa = 0.0;
    return FER_OK;
}

static fer_status find_hose_pressure(const fer_ferrule *ferrule, const fer_closing *closing,
                                     const fer_material *material, const fer_closing *bare,
                                     const fer_closing_uncertainties *uncertainties,
                                     fer_hose_squeeze *squeeze)
{
    task twin;
    fer_material metal;
    FER_REQUIRE(closing, FER_ARGUMENT_MISSING);
    FER_TRY(fer_check_thin_ferrule(ferrule));
    FER_TRY(is_given(bare) ? fer_check_elastic(material) : fer_check_material(material));
    FER_TRY(check_measured(ferrule, closing));
    FER_TRY(check_uncertainties(uncertainties));
    FER_TRY(find_metal(ferrule, bare, material, &twin, &metal));
    task joint = begin(ferrule, closing, &metal);
    FER_TRY(find(&joint));
    squeeze->pressure.mpa = joint.model.in[HOSE];
    squeeze->standard_uncertainty.mpa =
        uncertainty_of(&joint, closing, &twin, is_given(bare) ? bare : NULL, uncertainties);
    squeeze->restraint.fraction = joint.model.in[RESTRAINT];
    squeeze->stem_maximum.mpa = FER_HOSE_PEAK * squeeze->pressure.mpa;
    squeeze->yield_strength = metal.yield_strength;
    return FER_OK;
}

fer_status fer_find_hose_pressure(const fer_ferrule *ferrule, const fer_closing *closing,
                                  const fer_material *material, fer_closing bare,
                                  fer_closing_uncertainties uncertainties, fer_hose_squeeze *squeeze)
{
    FER_REQUIRE(squeeze, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*squeeze);
    return find_hose_pressure(ferrule, closing, material, &bare, &uncertainties, squeeze);
}

fer_status fer_hose_pressure_at_force(const fer_ferrule *ferrule, fer_force force, fer_length crimp_diameter,
                                      const fer_material *material, fer_ratio restraint,
                                      fer_pressure *pressure)
{
    const fer_closing closing = {force, crimp_diameter, ferrule->length, {0.0}};
    FER_REQUIRE(crimp_diameter.mm <= ferrule->outside.mm, FER_DIAMETER_ABOVE_FERRULE);
    task t = begin(ferrule, &closing, material);
    t.target.of[STRETCH] = t.model.in[RESTRAINT] = restraint.fraction;
    FER_TRY(find(&t));
    pressure->mpa = t.model.in[HOSE];
    return FER_OK;
}

/* --- restraint ------------------------------------------------------------------------------------------------------------- */

static fer_status find_restraint(const fer_ferrule *ferrule, const fer_closing *closing,
                                 const fer_material *material, fer_pressure hose_pressure,
                                 fer_ratio *restraint)
{
    const fer_forming_load load = {{0.0}, hose_pressure};
    FER_REQUIRE(closing, FER_ARGUMENT_MISSING);
    FER_TRY(fer_check_thin_ferrule(ferrule));
    FER_TRY(fer_check_material(material));
    FER_TRY(fer_check_load(load, NULL));
    FER_TRY(fer_check_hose_limit(material, load));
    FER_TRY(check_closing(ferrule, closing));
    FER_REQUIRE(closing->after.mm > 0.0, FER_CLOSING_LENGTH_MISSING);
    task t = begin(ferrule, closing, material);
    t.model.force_known = 0;
    t.target.of[FORCE] = t.model.in[HOSE] = hose_pressure.mpa;
    FER_TRY(find(&t));
    restraint->fraction = t.model.in[RESTRAINT];
    return FER_OK;
}

fer_status fer_find_restraint(const fer_ferrule *ferrule, const fer_closing *closing,
                              const fer_material *material, fer_pressure hose_pressure, fer_ratio *restraint)
{
    FER_REQUIRE(restraint, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*restraint);
    return find_restraint(ferrule, closing, material, hose_pressure, restraint);
}

/* --- bore of the stem ------------------------------------------------------------------------------------------------------- */

fer_status fer_hose_pressure_from_bore_checked(const fer_stem *stem, fer_length reduction,
                                               const fer_material *material, fer_forming_load load,
                                               fer_pressure *pressure)
{
    const fer_stem_strength strength = fer_stem_strength_checked(stem, material, load);
    const double first = strength.first_yield_pressure.mpa;
    fer_stem_change half, change;
    load.hose_pressure.mpa = 0.5 * first;
    /* GCOVR_EXCL_BR_START: half of what the stem first yields at is elastic */
    FER_TRY(fer_load_stem_checked(stem, material, load, &half));
    /* GCOVR_EXCL_BR_STOP */
    const double by_first =
        0.5 * reduction.mm / half.bore_reduction.mm; /* reduction by that of first yielding */
    double found = first * by_first;
    if (by_first > 1.0) {
        /* the plastic zone reaches c; c^2 by that of the bore grows with the reduction */
        const double outside = stem->outside.mm / stem->bore.mm, section = (outside - 1.0) * (outside + 1.0);
        FER_REQUIRE(load.restraint.fraction == 1.0, FER_STEM_YIELDS_ENDS_NOT_FIXED);
        FER_REQUIRE(by_first < outside * outside, FER_BORE_REDUCTION_ABOVE_FULL_YIELD);
        found = first * (outside * outside * (log(by_first) + 1.0) - by_first) / section;
    }
    load.hose_pressure.mpa = found;
    FER_TRY(fer_load_stem_checked(stem, material, load, &change));
    pressure->mpa = found;
    return FER_OK;
}

static fer_status hose_pressure_from_bore(const fer_stem *stem, fer_length reduction,
                                          const fer_material *material, fer_forming_load load,
                                          fer_pressure *pressure)
{
    FER_TRY(fer_check_stem(stem, material, load));
    FER_REQUIRE(reduction.mm >= 0.0 && reduction.mm < stem->bore.mm, FER_BORE_REDUCTION_OUT_OF_RANGE);
    return fer_hose_pressure_from_bore_checked(stem, reduction, material, load, pressure);
}

fer_status fer_hose_pressure_from_bore(const fer_stem *stem, fer_length reduction,
                                       const fer_material *material, fer_forming_load load,
                                       fer_pressure *pressure)
{
    FER_REQUIRE(pressure, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*pressure);
    return hose_pressure_from_bore(stem, reduction, material, load, pressure);
}
