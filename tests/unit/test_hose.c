/* SPDX-License-Identifier: MIT */
#include "check.h"

static const double pi = 3.14159265358979323846;

/* The worked joint's ferrule, closed to 23.51 mm; length and metal invented. */
static const fer_ferrule ferrule = {{2.4}, {25.6}, {0.0}};
static const fer_material steel = {{206000.0}, {0.3}, {300.0}, {0.0}};
static const fer_material hardening = {{206000.0}, {0.3}, {300.0}, {700.0}};
static const fer_closing no_bare = {{0.0}, {0.0}, {0.0}, {0.0}};
static const fer_closing_uncertainties exact = {{0.0}, {0.0}, {0.0}, {0.0}, {0.0}, {0.0}};
static const double length = 24.0;

static const double bad_numbers[] = {NAN, INFINITY, -INFINITY, -1.0};
enum { bad_count = sizeof bad_numbers / sizeof *bad_numbers };

/* What is read and measured of a ferrule that the dies close to a diameter. Sizes after opening by Lamé, also where the bore yields on
 * release: the pressure of the dies taken away, that of the hose on a bore that has grown. */
static fer_closing closed(fer_ferrule f, double diameter, fer_material metal, double restraint, double hose)
{
    const fer_forming_load load = {{restraint}, {hose}}, ends = {{restraint}, {0.0}};
    fer_forming forming;
    fer_tube_change alone, release;
    CHECK_OK(fer_form_ferrule(&f, fer_mm(diameter), &metal, load, &forming));
    CHECK_OK(
        fer_load_tube(forming.bore, fer_mm(diameter), fer_mpa(0.0), forming.pressure, &metal, ends, &alone));
    const fer_pressure grown = {hose * -alone.inside.mm / forming.bore.mm};
    /* two tubes: Lamé is linear, and a pressure is never below 0 there */
    CHECK_OK(fer_load_tube(forming.bore, fer_mm(diameter), grown, fer_mpa(0.0), &metal, ends, &release));
    const fer_closing closing = {
        {forming.pressure.mpa * pi * diameter * length * forming.stretch.fraction},
        {diameter - alone.outside.mm + release.outside.mm},
        {length},
        {length * forming.stretch.fraction * (1.0 - alone.stretch.fraction + release.stretch.fraction)}};
    return closing;
}

static fer_hose_squeeze squeeze_of(fer_ferrule f, fer_closing closing, fer_material metal, fer_closing bare,
                                   fer_closing_uncertainties uncertainties)
{
    fer_hose_squeeze squeeze;
    CHECK_OK(fer_find_hose_pressure(&f, &closing, &metal, bare, uncertainties, &squeeze));
    return squeeze;
}

/* --- there and back ------------------------------------------------------------------------------------------------ */

static void pressure_and_restraint_are_the_way_back(void **state)
{
    (void)state;
    const fer_ferrule ferrules[] = {{{2.4}, {25.6}, {0.0}}, {{1.0}, {50.0}, {0.0}}, {{5.3}, {30.0}, {0.0}}};
    const double reductions[] = {0.03, 0.09, 0.18}, restraints[] = {0.0, 0.3, 1.0},
                 hoses[] = {0.0, 3.0, 30.0, 100.0, 150.0};
    for (int i = 0; i < 3 * 3 * 3 * 5 * 2; i++) {
        const fer_ferrule f = ferrules[i % 3];
        const double diameter = f.outside.mm * (1.0 - reductions[i / 3 % 3]), r = restraints[i / 9 % 3],
                     q = hoses[i / 27 % 5];
        const fer_material metal = i / 135 ? hardening : steel;
        const fer_closing closing = closed(f, diameter, metal, r, q);
        const fer_hose_squeeze squeeze = squeeze_of(f, closing, metal, no_bare, exact);
        CHECK_NEAR(squeeze.pressure.mpa, q, 1e-9 * fmax(q, 50.0));
        CHECK_NEAR(squeeze.restraint.fraction, r, 1e-9);
        CHECK_NEAR(squeeze.stem_maximum.mpa, 2.5 * squeeze.pressure.mpa, 1e-12);
        CHECK_NEAR(squeeze.standard_uncertainty.mpa, 0.0, 0.0);
        CHECK_NEAR(squeeze.yield_strength.mpa, 300.0, 0.0);
        fer_ratio restraint;
        CHECK_OK(fer_find_restraint(&f, &closing, &metal, fer_mpa(q), &restraint));
        CHECK_NEAR(restraint.fraction, r, 1e-9);
    }
}

static void yield_strength_is_the_way_back(void **state)
{
    (void)state;
    const double strengths[] = {0.01, 30.0, 300.0, 1000.0}, restraints[] = {0.0, 0.4, 1.0};
    for (int i = 0; i < 12; i++) {
        fer_material metal = steel;
        metal.yield_strength.mpa = strengths[i % 4];
        const fer_closing bare = closed(ferrule, 23.51, metal, restraints[i / 4], 0.0);
        const fer_material unknown = {{206000.0}, {0.3}, {NAN}, {-7.0}}; /* not looked at */
        fer_pressure found;
        CHECK_OK(fer_find_effective_yield_strength(&ferrule, &bare, &unknown, &found));
        CHECK_NEAR(found.mpa, strengths[i % 4], 1e-9 * strengths[i % 4]);
    }
}

/* Ends fixed: P = q + 2/sqrt(3) Y ln(b/a) (Hill, The Mathematical Theory of Plasticity, ch. V, from memory), so what the dies press beyond the
 * bare ferrule passes through to the hose, whatever the metal. And all stresses may be scaled: a press that reads 10 % too much makes both results 10 %
 * too large, all but the elastic strains. */
static void what_the_dies_press_beyond_the_metal_passes_through_to_the_hose(void **state)
{
    (void)state;
    const fer_closing bare = closed(ferrule, 23.51, hardening, 1.0, 0.0);
    fer_closing joint = closed(ferrule, 23.51, hardening, 1.0, 40.0);
    fer_hose_squeeze squeeze = squeeze_of(ferrule, joint, steel, bare, exact);
    const double beyond = (joint.force.newton - bare.force.newton) / (pi * 23.51 * length);
    CHECK_NEAR(beyond, 40.0, 0.1); /* the hose makes the section a little larger */
    CHECK_NEAR(squeeze.pressure.mpa, 40.0, 0.05);
    assert_true(squeeze.yield_strength.mpa > 360.0 && squeeze.yield_strength.mpa < 420.0);
    fer_closing more = bare;
    joint.force.newton *= 1.1;
    more.force.newton *= 1.1;
    squeeze = squeeze_of(ferrule, joint, steel, more, exact);
    CHECK_NEAR(squeeze.pressure.mpa, 44.0, 0.1);
}

/* --- finite elements ------------------------------------------------------------------------------------------------ */

/* CalculiX 2.20 on ferrules of finite length whose ends nothing holds (tests/agree/finite_element/twin.py, its table): pressure of the dies and
 * length in the closed dies. Springback and length after opening by Lamé. */
static fer_closing by_finite_elements(double pressure, double stretch)
{
    fer_tube_change release;
    const fer_forming_load free_ends = {{0.0}, {0.0}};
    fer_forming forming;
    CHECK_OK(fer_form_ferrule(&ferrule, fer_mm(23.51), &steel, free_ends, &forming));
    CHECK_OK(fer_load_tube(forming.bore, fer_mm(23.51), fer_mpa(0.0), fer_mpa(pressure), &steel, free_ends,
                           &release));
    const fer_closing closing = {{pressure * pi * 23.51 * length * stretch},
                                 {23.51 - release.outside.mm},
                                 {length},
                                 {length * stretch * (1.0 - release.stretch.fraction)}};
    return closing;
}

static void the_squeeze_comes_back_from_finite_elements(void **state)
{
    (void)state;
    const struct {
        double pressure, stretch, hose, tolerance;
        int dragged;
    } cases[] = {{92.801, 1.06238, 30.0, 0.005, 0},  /* even */
                 {92.704, 1.06240, 29.98, 0.005, 0}, /* a hill in the middle */
                 {91.352, 1.06343, 29.98, 0.06, 1}}; /* that drags the ferrule longer by a friction of 0.2 */
    const fer_closing bare = by_finite_elements(67.202, 1.05876);
    for (size_t i = 0; i < 3; i++) {
        const fer_closing joint = by_finite_elements(cases[i].pressure, cases[i].stretch);
        const fer_hose_squeeze squeeze = squeeze_of(ferrule, joint, steel, bare, exact);
        CHECK_NEAR(squeeze.pressure.mpa, cases[i].hose, cases[i].tolerance * cases[i].hose);
        CHECK_NEAR(squeeze.yield_strength.mpa, 300.0, 0.3);
        assert_true(cases[i].dragged ? squeeze.restraint.fraction < -0.01
                                     : fabs(squeeze.restraint.fraction) < 0.01);
    }
}

/* --- ends whose length was not measured ------------------------------------------------------------------------------ */

static void a_length_that_was_not_measured_makes_the_squeeze_too_large(void **state)
{
    (void)state;
    fer_closing joint = closed(ferrule, 23.51, steel, 0.3, 30.0);
    joint.after.mm = 0.0;
    const fer_hose_squeeze squeeze = squeeze_of(ferrule, joint, steel, no_bare, exact);
    CHECK_NEAR(squeeze.restraint.fraction, 0.0, 0.0);
    assert_true(squeeze.pressure.mpa > 35.0);
    /* of a restraint from 0 to 1 the mean square about 0 is 1/3; what it is worth, by the same force with ends a little restrained */
    const fer_closing little = closed(ferrule, 23.51, steel, 1e-3, squeeze.pressure.mpa),
                      none = closed(ferrule, 23.51, steel, 0.0, squeeze.pressure.mpa),
                      more = closed(ferrule, 23.51, steel, 0.0, squeeze.pressure.mpa + 0.1);
    const double by_restraint = (little.force.newton - none.force.newton) / 1e-3,
                 by_pressure = (more.force.newton - none.force.newton) / 0.1;
    CHECK_NEAR(squeeze.standard_uncertainty.mpa, by_restraint / by_pressure / sqrt(3.0), 0.3);
    assert_true(fabs(squeeze.pressure.mpa - 30.0) < squeeze.standard_uncertainty.mpa);
    /* a bare ferrule stands on a rod that keeps nothing from moving: free is what it is */
    fer_closing bare = closed(ferrule, 23.51, steel, 0.0, 0.0);
    joint = closed(ferrule, 23.51, steel, 0.3, 30.0);
    bare.after.mm = 0.0;
    const fer_hose_squeeze twin = squeeze_of(ferrule, joint, steel, bare, exact);
    CHECK_NEAR(twin.pressure.mpa, 30.0, 1e-6);
    CHECK_NEAR(twin.standard_uncertainty.mpa, 0.0, 0.0);
}

/* --- uncertainty -------------------------------------------------------------------------------------------------------- */

/* One thing that is measured, of the joint or of the bare ferrule, moved a little. */
typedef struct {
    fer_ferrule of_joint, of_bare;
    fer_closing joint, bare;
    fer_material metal;
} measured;

static double pressure_of(const measured *m, int with_bare)
{
    fer_material metal = m->metal;
    if (with_bare) {
        CHECK_OK(fer_find_effective_yield_strength(&m->of_bare, &m->bare, &m->metal, &metal.yield_strength));
        metal.hardening.mpa = 0.0;
    }
    return squeeze_of(m->of_joint, m->joint, metal, no_bare, exact).pressure.mpa;
}

/* What the pressure changes by where a number changes by its uncertainty, by central differences of a hundredth. */
static double change(measured *m, double *number, double uncertainty, int with_bare)
{
    const double kept = *number, step = 0.01 * uncertainty;
    *number = kept + step;
    const double above = pressure_of(m, with_bare);
    *number = kept - step;
    const double below = pressure_of(m, with_bare);
    *number = kept;
    return (above - below) / 0.02;
}

static double by_differences(measured m, fer_closing_uncertainties u, int with_bare)
{
    double sum = 0.0, scale = 0.0;
    for (int bare = 0; bare <= with_bare; bare++) {
        fer_closing *closing = bare ? &m.bare : &m.joint;
        fer_ferrule *f = bare ? &m.of_bare : &m.of_joint;
        const double by_force = change(&m, &closing->force.newton, closing->force.newton, with_bare);
        const double parts[] = {
            by_force * u.force.fraction,
            change(&m, &closing->diameter.mm, u.diameter.mm, with_bare),
            change(&m, &f->outside.mm, u.diameter.mm, with_bare),
            change(&m, &f->wall.mm, u.wall.mm, with_bare),
            change(&m, &closing->before.mm, u.length.mm, with_bare),
            closing->after.mm > 0.0 ? change(&m, &closing->after.mm, u.length.mm, with_bare) : 0.0};
        for (size_t i = 0; i < sizeof parts / sizeof *parts; i++) {
            sum += parts[i] * parts[i];
        }
        scale += by_force;
    }
    const double strength = change(&m, &m.metal.yield_strength.mpa,
                                   m.metal.yield_strength.mpa * u.yield_strength.fraction, with_bare);
    sum += with_bare ? 0.0 : strength * strength;
    return sqrt(sum + scale * scale * u.scale.fraction * u.scale.fraction);
}

/* JCGM 100:2008, 5.1.2 (from memory): each part alone, and all of them. */
static void each_part_of_the_uncertainty_is_that_of_differences(void **state)
{
    (void)state;
    const fer_closing_uncertainties kinds[] = {
        {{0.01}, {0.0}, {0.0}, {0.0}, {0.0}, {0.0}},     {{0.0}, {0.08}, {0.0}, {0.0}, {0.0}, {0.0}},
        {{0.0}, {0.0}, {0.07}, {0.0}, {0.0}, {0.0}},     {{0.0}, {0.0}, {0.0}, {0.03}, {0.0}, {0.0}},
        {{0.0}, {0.0}, {0.0}, {0.0}, {0.02}, {0.0}},     {{0.0}, {0.0}, {0.0}, {0.0}, {0.0}, {0.05}},
        {{0.01}, {0.08}, {0.07}, {0.03}, {0.02}, {0.05}}};
    const double hoses[] = {10.0, 60.0}, restraints[] = {0.1, 0.8};
    for (int i = 0; i < 8; i++) {
        const int with_bare = i / 4;
        const measured m = {ferrule, ferrule,
                            closed(ferrule, 23.51, hardening, restraints[i % 2], hoses[i / 2 % 2]),
                            closed(ferrule, 23.51, hardening, 0.0, 0.0), hardening};
        for (size_t k = 0; k < sizeof kinds / sizeof *kinds; k++) {
            const fer_hose_squeeze squeeze =
                squeeze_of(ferrule, m.joint, m.metal, with_bare ? m.bare : no_bare, kinds[k]);
            const double expected = by_differences(m, kinds[k], with_bare);
            CHECK_NEAR(squeeze.standard_uncertainty.mpa, expected, 0.01 * expected + 1e-6);
        }
    }
}

/* Ends that were not measured leave out the lengths but for that on which the force acts. */
static void without_lengths_only_the_force_by_length_counts(void **state)
{
    (void)state;
    const fer_closing_uncertainties u = {{0.01}, {0.0}, {0.0}, {0.03}, {0.02}, {0.05}};
    measured m = {ferrule, ferrule, closed(ferrule, 23.51, steel, 0.2, 40.0),
                  closed(ferrule, 23.51, steel, 0.0, 0.0), steel};
    m.bare.after.mm = 0.0;
    const double expected = by_differences(m, u, 1);
    CHECK_NEAR(squeeze_of(ferrule, m.joint, steel, m.bare, u).standard_uncertainty.mpa, expected,
               0.01 * expected);
}

/* --- bore of the stem --------------------------------------------------------------------------------------------------- */

static void the_bore_tells_what_pressed_on_the_stem(void **state)
{
    (void)state;
    const fer_stem stems[] = {{{12.95}, {9.0}}, {{25.0}, {19.0}}, {{20.0}, {10.0}}};
    for (int i = 0; i < 3 * 2 * 20; i++) {
        const fer_stem stem = stems[i % 3];
        const double restraint = i / 3 % 2;
        fer_stem_strength strength;
        fer_stem_change loaded;
        fer_forming_load load = {{restraint}, {0.0}};
        CHECK_OK(fer_find_stem_strength(&stem, &steel, load, &strength));
        const double highest =
            restraint == 1.0 ? 0.95 * strength.full_yield_pressure.mpa : strength.first_yield_pressure.mpa;
        load.hose_pressure.mpa = highest * (i / 6) / 19.0;
        if (fer_load_stem(&stem, &steel, load, &loaded) != FER_OK) {
            assert_true(restraint == 1.0 &&
                        load.hose_pressure.mpa > 0.9 * highest); /* too deep to be computed */
            continue;
        }
        const fer_forming_load ends = {{restraint}, {NAN}}; /* its pressure is not looked at */
        fer_pressure found;
        CHECK_OK(fer_hose_pressure_from_bore(&stem, loaded.bore_reduction, &steel, ends, &found));
        CHECK_NEAR(found.mpa, load.hose_pressure.mpa, 1e-12 * highest);
    }
}

/* Lamé, by hand: 4 x 60 x 10^2 x 5/(206,000 x (10^2 - 5^2)) = 0.0077670 mm on a bore of 10 mm in 20 mm. */
static void elastic_stems_shrink_by_lame(void **state)
{
    (void)state;
    const fer_stem stem = {{20.0}, {10.0}};
    const fer_forming_load free_ends = {{0.0}, {0.0}};
    fer_pressure found;
    CHECK_OK(fer_hose_pressure_from_bore(&stem, fer_mm(4.0 * 60.0 * 100.0 * 5.0 / (206000.0 * 75.0)), &steel,
                                         free_ends, &found));
    CHECK_NEAR(found.mpa, 60.0, 1e-11);
    CHECK_OK(fer_hose_pressure_from_bore(&stem, fer_mm(0.0), &steel, free_ends, &found));
    CHECK_NEAR(found.mpa, 0.0, 0.0);
}

static void refused_bore(fer_stem stem, double reduction, fer_material metal, double restraint,
                         fer_status expected)
{
    const fer_forming_load load = {{restraint}, {0.0}};
    fer_pressure pressure = {1.0};
    CHECK_STATUS(fer_hose_pressure_from_bore(&stem, fer_mm(reduction), &metal, load, &pressure), expected);
    CHECK_NAN(pressure.mpa);
}

static void bores_that_say_nothing_are_refused(void **state)
{
    (void)state;
    const fer_stem stem = {{12.95}, {9.0}}, none = {{12.95}, {0.0}};
    fer_stem_strength strength;
    fer_stem_change at_first;
    const fer_forming_load ends_fixed = {{1.0}, {0.0}};
    CHECK_OK(fer_find_stem_strength(&stem, &steel, ends_fixed, &strength));
    const fer_forming_load first = {{1.0}, {strength.first_yield_pressure.mpa}};
    CHECK_OK(fer_load_stem(&stem, &steel, first, &at_first));
    /* the plastic zone reaches c where the reduction is c^2 by that of the bore */
    const double reduction = at_first.bore_reduction.mm, through = 12.95 * 12.95 / 81.0 * reduction;
    for (int i = 0; i < bad_count; i++) {
        refused_bore(stem, bad_numbers[i], steel, 1.0, FER_BORE_REDUCTION_OUT_OF_RANGE);
    }
    refused_bore(stem, 9.0, steel, 1.0, FER_BORE_REDUCTION_OUT_OF_RANGE);
    refused_bore(stem, 8.999, steel, 1.0, FER_BORE_REDUCTION_ABOVE_FULL_YIELD);
    refused_bore(stem, through * (1.0 + 1e-9), steel, 1.0, FER_BORE_REDUCTION_ABOVE_FULL_YIELD);
    refused_bore(stem, through * (1.0 - 1e-9), steel, 1.0, FER_STEM_YIELDS_TOO_DEEP);
    refused_bore(stem, reduction * 1.2, steel, 0.0, FER_STEM_YIELDS_ENDS_NOT_FIXED);
    refused_bore(none, 0.001, steel, 1.0, FER_STEM_BORE_MISSING);
    refused_bore(stem, 0.001, steel, 1.1, FER_RESTRAINT_OUT_OF_RANGE);
    fer_material soft = steel;
    soft.yield_strength.mpa = 0.0;
    refused_bore(stem, 0.001, soft, 1.0, FER_MATERIAL_YIELD_STRENGTH_MISSING);
    CHECK_STATUS(fer_hose_pressure_from_bore(&stem, fer_mm(0.001), &steel, ends_fixed, NULL),
                 FER_ARGUMENT_MISSING);
}

/* --- bad input ---------------------------------------------------------------------------------------------------------- */

static void check_nothing(const fer_hose_squeeze *squeeze)
{
    CHECK_NAN(squeeze->pressure.mpa);
    CHECK_NAN(squeeze->standard_uncertainty.mpa);
    CHECK_NAN(squeeze->restraint.fraction);
    CHECK_NAN(squeeze->stem_maximum.mpa);
    CHECK_NAN(squeeze->yield_strength.mpa);
}

/* The same closing as that of the joint, as that of the bare ferrule, and for the yield strength alone. */
static void refused(fer_ferrule f, fer_closing closing, fer_material metal, fer_status expected)
{
    const fer_closing sound = closed(ferrule, 23.51, steel, 0.2, 0.0);
    fer_hose_squeeze squeeze = {{0.0}, {0.0}, {0.0}, {0.0}, {0.0}};
    fer_pressure yield_strength = {0.0};
    CHECK_STATUS(fer_find_hose_pressure(&f, &closing, &metal, no_bare, exact, &squeeze), expected);
    check_nothing(&squeeze);
    CHECK_STATUS(fer_find_hose_pressure(&f, &sound, &metal, closing, exact, &squeeze), expected);
    check_nothing(&squeeze);
    CHECK_STATUS(fer_find_effective_yield_strength(&f, &closing, &metal, &yield_strength), expected);
    CHECK_NAN(yield_strength.mpa);
}

static void each_bad_closing_has_its_status(void **state)
{
    (void)state;
    const fer_closing sound = closed(ferrule, 23.51, steel, 0.2, 0.0);
    fer_closing closing;
    for (int i = 0; i < bad_count; i++) {
        closing = sound;
        closing.force.newton = bad_numbers[i];
        refused(ferrule, closing, steel, FER_CLOSING_FORCE_OUT_OF_RANGE);
        closing = sound;
        closing.diameter.mm = bad_numbers[i];
        refused(ferrule, closing, steel, FER_DIAMETER_OUT_OF_RANGE);
        closing = sound;
        closing.before.mm = bad_numbers[i];
        refused(ferrule, closing, steel, FER_CLOSING_LENGTH_OUT_OF_RANGE);
        closing = sound;
        closing.after.mm = bad_numbers[i];
        refused(ferrule, closing, steel, FER_CLOSING_LENGTH_OUT_OF_RANGE);
    }
    closing = sound;
    closing.force.newton = 0.0;
    refused(ferrule, closing, steel, FER_CLOSING_FORCE_MISSING);
    closing = sound;
    closing.diameter.mm = 0.0;
    refused(ferrule, closing, steel, FER_DIAMETER_MISSING);
    closing.diameter.mm = 25.61;
    refused(ferrule, closing, steel, FER_DIAMETER_ABOVE_FERRULE);
    closing.diameter.mm = 25.6;
    refused(ferrule, closing, steel, FER_DIAMETER_REDUCED_TOO_LITTLE);
    closing.diameter.mm = 17.8;
    refused(ferrule, closing, steel, FER_DIAMETER_REDUCED_TOO_FAR);
    closing = sound;
    closing.before.mm = 0.0;
    refused(ferrule, closing, steel, FER_CLOSING_LENGTH_MISSING);
    fer_ferrule f = ferrule;
    f.wall.mm = 0.0;
    refused(f, sound, steel, FER_FERRULE_WALL_MISSING);
    f.wall.mm = 4.7;
    refused(f, sound, steel, FER_FERRULE_WALL_TOO_THICK);
    fer_material metal = steel;
    metal.poisson.fraction = 0.5;
    refused(ferrule, sound, metal, FER_MATERIAL_POISSON_OUT_OF_RANGE);
}

/* A wall that fills the circle: 4 w (Fo - w) is 22.36 mm squared. */
static void a_bore_that_closes_has_no_squeeze(void **state)
{
    (void)state;
    const fer_ferrule thick = {{5.0}, {30.0}, {0.0}};
    const double diameters[] = {22.0, 22.3, 22.36068};
    for (size_t i = 0; i < 3; i++) {
        const fer_closing closing = {{1e6}, {diameters[i]}, {length}, {0.0}};
        fer_hose_squeeze squeeze;
        fer_pressure yield_strength;
        fer_material soft = steel;
        soft.yield_strength.mpa = 250.0;
        CHECK_STATUS(fer_find_effective_yield_strength(&thick, &closing, &steel, &yield_strength),
                     FER_DIAMETER_WITHOUT_BORE);
        assert_int_not_equal(fer_find_hose_pressure(&thick, &closing, &soft, no_bare, exact, &squeeze),
                             FER_OK);
        check_nothing(&squeeze);
    }
}

static void what_no_squeeze_explains_is_refused(void **state)
{
    (void)state;
    const fer_closing bare = closed(ferrule, 23.51, steel, 0.2, 0.0),
                      most = closed(ferrule, 23.51, steel, 0.2, 150.0);
    fer_hose_squeeze squeeze;
    fer_closing closing = bare;
    /* a bare ferrule of which a single figure is given is one that lacks the others */
    const fer_closing parts[] = {
        {{0.0}, {23.6}, {0.0}, {0.0}}, {{0.0}, {0.0}, {24.0}, {0.0}}, {{0.0}, {0.0}, {0.0}, {25.0}}};
    for (size_t i = 0; i < 3; i++) {
        assert_int_not_equal(fer_find_hose_pressure(&ferrule, &most, &steel, parts[i], exact, &squeeze),
                             FER_OK);
        check_nothing(&squeeze);
    }
    closing.force.newton *= 0.999;
    CHECK_STATUS(fer_find_hose_pressure(&ferrule, &closing, &steel, no_bare, exact, &squeeze),
                 FER_FORCE_BELOW_METAL);
    check_nothing(&squeeze);
    closing.force.newton *= 0.1;
    CHECK_STATUS(fer_find_hose_pressure(&ferrule, &closing, &steel, no_bare, exact, &squeeze),
                 FER_FORCE_BELOW_METAL);
    CHECK_NEAR(squeeze_of(ferrule, most, steel, no_bare, exact).pressure.mpa, 150.0, 1e-6);
    closing = most;
    closing.force.newton *= 1.001;
    CHECK_STATUS(fer_find_hose_pressure(&ferrule, &closing, &steel, no_bare, exact, &squeeze),
                 FER_HOSE_PRESSURE_ABOVE_LIMIT);
    closing.force.newton *= 100.0;
    CHECK_STATUS(fer_find_hose_pressure(&ferrule, &closing, &steel, no_bare, exact, &squeeze),
                 FER_HOSE_PRESSURE_ABOVE_LIMIT);
    /* no metal of this modulus: yield strength beyond 1/200 of it, or next to none */
    fer_pressure yield_strength;
    closing = bare;
    closing.force.newton *= 3.5;
    CHECK_STATUS(fer_find_effective_yield_strength(&ferrule, &closing, &steel, &yield_strength),
                 FER_CLOSING_FORCE_OUT_OF_RANGE);
    closing.force.newton = 0.3;
    CHECK_STATUS(fer_find_effective_yield_strength(&ferrule, &closing, &steel, &yield_strength),
                 FER_CLOSING_FORCE_OUT_OF_RANGE);
    CHECK_NAN(yield_strength.mpa);
}

/* Ends free give 1.0588 times the length; with a restraint of -0.3 e^(1.3 ln 1.0588) = 1.077, and 1 where they are fixed. */
static void lengths_that_no_restraint_explains_are_refused(void **state)
{
    (void)state;
    fer_closing closing = closed(ferrule, 23.51, steel, 0.0, 0.0);
    const double ends_free = log(closing.after.mm / closing.before.mm);
    const double shares[] = {-0.02, 0.0, 1.0, 1.28, 1.32};
    for (int i = 0; i < 5; i++) {
        fer_ratio restraint;
        closing.after.mm = length * exp(shares[i] * ends_free);
        const fer_status status = fer_find_restraint(&ferrule, &closing, &steel, fer_mpa(0.0), &restraint);
        if (i == 0 || i == 4) {
            assert_int_equal(status, FER_CLOSING_STRETCH_OUT_OF_RANGE);
            CHECK_NAN(restraint.fraction);
            fer_pressure yield_strength;
            CHECK_STATUS(fer_find_effective_yield_strength(&ferrule, &closing, &steel, &yield_strength),
                         FER_CLOSING_STRETCH_OUT_OF_RANGE);
        } else {
            assert_int_equal(status, FER_OK);
            CHECK_NEAR(restraint.fraction, 1.0 - shares[i], 0.01);
        }
    }
    closing.after.mm = 3.0 * length;
    fer_ratio restraint;
    CHECK_STATUS(fer_find_restraint(&ferrule, &closing, &steel, fer_mpa(0.0), &restraint),
                 FER_CLOSING_STRETCH_OUT_OF_RANGE);
    closing.after.mm = 0.1 * length;
    CHECK_STATUS(fer_find_restraint(&ferrule, &closing, &steel, fer_mpa(0.0), &restraint),
                 FER_CLOSING_STRETCH_OUT_OF_RANGE);
}

static void refused_restraint(fer_ferrule f, fer_closing closing, fer_material metal, double hose,
                              fer_status expected)
{
    fer_ratio restraint = {0.0};
    CHECK_STATUS(fer_find_restraint(&f, &closing, &metal, fer_mpa(hose), &restraint), expected);
    CHECK_NAN(restraint.fraction);
}

static void a_restraint_needs_both_lengths_and_a_possible_hose(void **state)
{
    (void)state;
    const fer_closing sound = closed(ferrule, 23.51, steel, 0.2, 0.0);
    fer_closing closing = sound;
    closing.force.newton = NAN; /* not looked at */
    fer_ratio restraint;
    CHECK_OK(fer_find_restraint(&ferrule, &closing, &steel, fer_mpa(0.0), &restraint));
    closing.after.mm = 0.0;
    refused_restraint(ferrule, closing, steel, 0.0, FER_CLOSING_LENGTH_MISSING);
    closing = sound;
    closing.before.mm = 0.0;
    refused_restraint(ferrule, closing, steel, 0.0, FER_CLOSING_LENGTH_MISSING);
    for (int i = 0; i < bad_count; i++) {
        refused_restraint(ferrule, sound, steel, bad_numbers[i], FER_HOSE_PRESSURE_OUT_OF_RANGE);
    }
    refused_restraint(ferrule, sound, steel, 150.1, FER_HOSE_PRESSURE_ABOVE_LIMIT);
    fer_ferrule f = ferrule;
    f.outside.mm = 0.0;
    refused_restraint(f, sound, steel, 0.0, FER_FERRULE_OUTSIDE_MISSING);
    fer_material metal = steel;
    metal.elastic_modulus.mpa = 0.0;
    refused_restraint(ferrule, sound, metal, 0.0, FER_MATERIAL_MODULUS_MISSING);
}

static void each_bad_uncertainty_has_its_status(void **state)
{
    (void)state;
    const fer_closing joint = closed(ferrule, 23.51, steel, 0.2, 30.0);
    fer_hose_squeeze squeeze;
    for (int i = 0; i < 6; i++) {
        double numbers[] = {NAN, INFINITY, -1e-9, i < 3 ? 1.001 : 1000000.1};
        for (int k = 0; k < 4; k++) {
            double members[6] = {0.0};
            fer_closing_uncertainties u;
            members[i] = numbers[k];
            memcpy(&u, members, sizeof u);
            CHECK_STATUS(fer_find_hose_pressure(&ferrule, &joint, &steel, no_bare, u, &squeeze),
                         FER_CLOSING_UNCERTAINTY_OUT_OF_RANGE);
            check_nothing(&squeeze);
        }
    }
    const fer_closing_uncertainties largest = {{1.0}, {1.0}, {1.0}, {1e6}, {1e6}, {1e6}};
    CHECK_OK(fer_find_hose_pressure(&ferrule, &joint, &steel, no_bare, largest, &squeeze));
    assert_true(squeeze.standard_uncertainty.mpa > 1000.0);
}

static void missing_pointers_are_refused(void **state)
{
    (void)state;
    const fer_closing joint = closed(ferrule, 23.51, steel, 0.2, 30.0);
    fer_hose_squeeze squeeze;
    fer_pressure yield_strength;
    fer_ratio restraint;
    CHECK_STATUS(fer_find_hose_pressure(NULL, &joint, &steel, no_bare, exact, &squeeze),
                 FER_ARGUMENT_MISSING);
    check_nothing(&squeeze);
    CHECK_STATUS(fer_find_hose_pressure(&ferrule, NULL, &steel, no_bare, exact, &squeeze),
                 FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_find_hose_pressure(&ferrule, &joint, NULL, no_bare, exact, &squeeze),
                 FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_find_hose_pressure(&ferrule, &joint, NULL, joint, exact, &squeeze),
                 FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_find_hose_pressure(&ferrule, &joint, &steel, no_bare, exact, NULL),
                 FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_find_effective_yield_strength(NULL, &joint, &steel, &yield_strength),
                 FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_find_effective_yield_strength(&ferrule, NULL, &steel, &yield_strength),
                 FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_find_effective_yield_strength(&ferrule, &joint, NULL, &yield_strength),
                 FER_ARGUMENT_MISSING);
    CHECK_NAN(yield_strength.mpa);
    CHECK_STATUS(fer_find_effective_yield_strength(&ferrule, &joint, &steel, NULL), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_find_restraint(NULL, &joint, &steel, fer_mpa(0.0), &restraint), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_find_restraint(&ferrule, NULL, &steel, fer_mpa(0.0), &restraint), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_find_restraint(&ferrule, &joint, NULL, fer_mpa(0.0), &restraint), FER_ARGUMENT_MISSING);
    CHECK_NAN(restraint.fraction);
    CHECK_STATUS(fer_find_restraint(&ferrule, &joint, &steel, fer_mpa(0.0), NULL), FER_ARGUMENT_MISSING);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(pressure_and_restraint_are_the_way_back),
        cmocka_unit_test(yield_strength_is_the_way_back),
        cmocka_unit_test(what_the_dies_press_beyond_the_metal_passes_through_to_the_hose),
        cmocka_unit_test(the_squeeze_comes_back_from_finite_elements),
        cmocka_unit_test(a_length_that_was_not_measured_makes_the_squeeze_too_large),
        cmocka_unit_test(each_part_of_the_uncertainty_is_that_of_differences),
        cmocka_unit_test(without_lengths_only_the_force_by_length_counts),
        cmocka_unit_test(the_bore_tells_what_pressed_on_the_stem),
        cmocka_unit_test(elastic_stems_shrink_by_lame),
        cmocka_unit_test(bores_that_say_nothing_are_refused),
        cmocka_unit_test(each_bad_closing_has_its_status),
        cmocka_unit_test(a_bore_that_closes_has_no_squeeze),
        cmocka_unit_test(what_no_squeeze_explains_is_refused),
        cmocka_unit_test(lengths_that_no_restraint_explains_are_refused),
        cmocka_unit_test(a_restraint_needs_both_lengths_and_a_possible_hose),
        cmocka_unit_test(each_bad_uncertainty_has_its_status),
        cmocka_unit_test(missing_pointers_are_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
