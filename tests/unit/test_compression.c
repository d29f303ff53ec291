/* SPDX-License-Identifier: MIT */
/* Values: tests/agree/vectors. Here: both directions, slopes, order of the models, bad input. */
#include "check.h"

static const fer_model plain = {FER_BASIS_WALL, FER_FLOW_NONE};

/* Calls the body for each of the twelve models. */
#define FOR_EACH_MODEL(model)                                                                                \
    for (fer_model model = {0}; (int)model.basis <= FER_BASIS_SOFT_WALL;                                     \
         model.basis = (fer_basis)(model.basis + 1))                                                         \
        for (model.flow = FER_FLOW_NONE; (int)model.flow <= FER_FLOW_ENDS_FREE;                              \
             model.flow = (fer_flow)(model.flow + 1))

static fer_joint reinforced_joint(void)
{
    fer_joint joint = worked_joint();
    joint.hose.reinforcement = fer_mm(0.7);
    joint.ferrule.length = fer_mm(30.0);
    return joint;
}

static double compression_of(const fer_joint *joint, double diameter, fer_model model)
{
    fer_ratio compression;
    CHECK_OK(fer_compression(joint, fer_mm(diameter), model, &compression));
    return compression.fraction;
}

static void backward_undoes_forward(void **state)
{
    (void)state;
    const fer_joint joint = reinforced_joint();
    FOR_EACH_MODEL(model)
    {
        for (double c = 0.1; c < 0.45; c += 0.013) {
            fer_length diameter;
            if (fer_crimp_diameter(&joint, fer_fraction(c), model, &diameter) == FER_OK) {
                CHECK_NEAR(compression_of(&joint, diameter.mm, model), c, 2e-15);
            }
        }
    }
}

static void compression_falls_with_the_diameter(void **state)
{
    (void)state;
    const fer_joint joint = reinforced_joint();
    FOR_EACH_MODEL(model)
    {
        double before = 2.0;
        for (double d = 22.0; d < 24.4; d += 0.01) {
            const double c = compression_of(&joint, d, model);
            assert_true(c < before);
            before = c;
        }
    }
}

static void a_growing_wall_compresses_more(void **state)
{
    (void)state;
    const fer_joint joint = worked_joint();
    const fer_model ends_free = {FER_BASIS_WALL, FER_FLOW_ENDS_FREE},
                    ends_fixed = {FER_BASIS_WALL, FER_FLOW_ENDS_FIXED};
    const double without = compression_of(&joint, 23.51, plain);
    assert_true(compression_of(&joint, 23.51, ends_free) > without + 0.02);
    assert_true(compression_of(&joint, 23.51, ends_fixed) > compression_of(&joint, 23.51, ends_free) + 0.02);
}

static void at_its_own_diameter_the_ferrule_is_as_it_was(void **state)
{
    (void)state;
    fer_joint joint = reinforced_joint();
    for (int flow = 0; flow <= FER_FLOW_ENDS_FREE; flow++) {
        const fer_model model = {FER_BASIS_WALL, (fer_flow)flow};
        fer_length wall, length;
        CHECK_OK(fer_crimped_wall(&joint, joint.ferrule.outside, model, &wall));
        CHECK_OK(fer_crimped_length(&joint, joint.ferrule.outside, model, &length));
        CHECK_NEAR(wall.mm, 2.4, 1e-15);
        CHECK_NEAR(length.mm, 30.0, 1e-13);
    }
}

/* The compression knows no unit: a joint of a thirty-second of the size has the same. A power of two keeps the digits. */
static void a_small_joint_is_like_a_large_one(void **state)
{
    (void)state;
    const fer_model free_flow = {FER_BASIS_WALL, FER_FLOW_ENDS_FREE};
    const fer_joint large = worked_joint();
    fer_joint small = large;
    fer_ratio of_large, of_small;
    const double part = 1.0 / 32.0;
    small.hose.inside.mm *= part;
    small.hose.outside.mm *= part;
    small.stem.outside.mm *= part;
    small.ferrule.wall.mm *= part;
    small.ferrule.outside.mm *= part;
    assert_true(small.ferrule.outside.mm < 1.0);
    CHECK_OK(fer_compression(&large, fer_mm(23.51), free_flow, &of_large));
    CHECK_OK(fer_compression(&small, fer_mm(23.51 * part), free_flow, &of_small));
    CHECK_NEAR(of_small.fraction, of_large.fraction, 1e-15);
}

static void fixed_ends_keep_the_cross_section_and_free_ends_about_keep_the_volume(void **state)
{
    (void)state;
    const fer_joint joint = reinforced_joint();
    const fer_model ends_fixed = {FER_BASIS_WALL, FER_FLOW_ENDS_FIXED},
                    ends_free = {FER_BASIS_WALL, FER_FLOW_ENDS_FREE};
    fer_length wall, length;
    CHECK_OK(fer_crimped_wall(&joint, fer_mm(23.51), ends_fixed, &wall));
    CHECK_NEAR(wall.mm * (23.51 - wall.mm), 2.4 * (25.6 - 2.4), 1e-13);
    CHECK_OK(fer_crimped_wall(&joint, fer_mm(23.51), ends_free, &wall));
    CHECK_OK(fer_crimped_length(&joint, fer_mm(23.51), ends_free, &length));
    CHECK_NEAR(wall.mm * (23.51 - wall.mm) * length.mm / (2.4 * (25.6 - 2.4) * 30.0), 1.0, 2e-3);
}

/* The ferrule touches where its bore is the hose's outside diameter on the stem. */
/* However far a ferrule whose ends are free is closed, its wall is where the formula of fer_crimp_diameter() holds, also where
 * less than two walls of bore are left: ln(w'/w) = ln((Fo - w)/(D - w')) (1 - 2 l)/(2 - l) with l = w'/D. */
static void a_free_ferrule_may_be_closed_far(void **state)
{
    (void)state;
    const fer_model ends_free = {FER_BASIS_WALL, FER_FLOW_ENDS_FREE};
    fer_joint joint = worked_joint(); /* nearly closed, over a hose as thin */
    joint.hose.inside = fer_mm(0.05);
    joint.hose.outside = fer_mm(0.2);
    joint.stem.outside = fer_mm(0.06);
    for (double wall = 0.5; wall < 12.0; wall += 0.5) {
        joint.ferrule.wall = fer_mm(wall);
        for (double diameter = 2.05 * wall; diameter < 25.6; diameter += 0.25) {
            fer_length found;
            CHECK_OK(fer_crimped_wall(&joint, fer_mm(diameter), ends_free, &found));
            const double mean = diameter - found.mm, thin = found.mm / diameter;
            assert_true(found.mm >= wall && found.mm < 0.5 * diameter);
            CHECK_NEAR(log(found.mm / wall), log((25.6 - wall) / mean) * (1.0 - 2.0 * thin) / (2.0 - thin),
                       1e-13);
        }
    }
}

static void touch_is_where_the_bore_meets_the_hose(void **state)
{
    (void)state;
    fer_joint joint = worked_joint();
    fer_length fitted, touch, wall;
    CHECK_OK(fer_fitted_outside(&joint, &fitted));
    for (int flow = 0; flow <= FER_FLOW_ENDS_FREE; flow++) {
        const fer_model model = {FER_BASIS_WALL, (fer_flow)flow};
        fer_ratio compression;
        CHECK_OK(fer_touch_diameter(&joint, model, &touch));
        CHECK_OK(fer_crimped_wall(&joint, touch, model, &wall));
        CHECK_NEAR(touch.mm - 2.0 * wall.mm, fitted.mm, 1e-13);
        CHECK_OK(fer_compression(&joint, fer_mm(touch.mm - 1e-9), model, &compression));
        CHECK_NEAR(compression.fraction, 0.0124, 5e-5); /* worked joint at touch, wall basis */
        CHECK_STATUS(fer_compression(&joint, fer_mm(touch.mm + 1e-9), model, &compression),
                     FER_DIAMETER_WITHOUT_TOUCH);
        CHECK_NAN(compression.fraction);
    }
    joint.ferrule.outside = fer_mm(24.5); /* bore below the hose on the stem: it touches as it is */
    CHECK_OK(fer_touch_diameter(&joint, plain, &touch));
    CHECK_NEAR(touch.mm, 24.5, 0.0);
}

static void a_thin_stem_leaves_the_hose_as_it_is(void **state)
{
    (void)state;
    fer_joint joint = worked_joint();
    joint.stem.outside = fer_mm(12.5);
    const fer_model fitted = {FER_BASIS_FITTED_WALL, FER_FLOW_NONE};
    CHECK_NEAR(compression_of(&joint, 23.0, fitted), compression_of(&joint, 23.0, plain), 0.0);
}

/* Central differences with a step at which their own error is below 1e-8. */
#define CHECK_SLOPE(path, slope)                                                                             \
    do {                                                                                                     \
        fer_joint more = joint, less = joint;                                                                \
        more.path.mm += step;                                                                                \
        less.path.mm -= step;                                                                                \
        const double difference = compression_of(&more, 23.2, model) - compression_of(&less, 23.2, model);   \
        CHECK_NEAR(slopes.slope.per_mm, difference / (2.0 * step), 1e-8);                                    \
    } while (0)

static void slopes_are_those_of_finite_differences(void **state)
{
    (void)state;
    const double step = 1e-5;
    const double stems[] = {12.5, 12.95}; /* below and above the hose inside diameter */
    for (int i = 0; i < 2; i++) {
        fer_joint joint = reinforced_joint();
        joint.stem.outside = fer_mm(stems[i]);
        FOR_EACH_MODEL(model)
        {
            fer_compression_slopes slopes;
            CHECK_OK(fer_find_compression_slopes(&joint, fer_mm(23.2), model, &slopes));
            CHECK_SLOPE(hose.inside, hose_inside);
            CHECK_SLOPE(hose.outside, hose_outside);
            CHECK_SLOPE(hose.reinforcement, hose_reinforcement);
            CHECK_SLOPE(stem.outside, stem_outside);
            CHECK_SLOPE(ferrule.wall, ferrule_wall);
            CHECK_SLOPE(ferrule.outside, ferrule_outside);
            const double more = compression_of(&joint, 23.2 + step, model);
            const double less = compression_of(&joint, 23.2 - step, model);
            CHECK_NEAR(slopes.diameter.per_mm, (more - less) / (2.0 * step), 1e-8);
        }
    }
}

static double diameter_of(const fer_joint *joint, double compression, fer_model model)
{
    fer_length diameter;
    CHECK_OK(fer_crimp_diameter(joint, fer_fraction(compression), model, &diameter));
    return diameter.mm;
}

#define CHECK_DIAMETER_SLOPE(path, slope)                                                                    \
    do {                                                                                                     \
        fer_joint more = joint, less = joint;                                                                \
        more.path.mm += step;                                                                                \
        less.path.mm -= step;                                                                                \
        const double difference = diameter_of(&more, 0.2, model) - diameter_of(&less, 0.2, model);           \
        CHECK_NEAR(slopes.slope.fraction, difference / (2.0 * step), 1e-8);                                  \
    } while (0)

static void slopes_of_the_diameter_are_those_of_finite_differences(void **state)
{
    (void)state;
    const double step = 1e-5;
    const fer_joint joint = reinforced_joint();
    FOR_EACH_MODEL(model)
    {
        fer_diameter_slopes slopes;
        CHECK_OK(fer_find_diameter_slopes(&joint, fer_fraction(0.2), model, &slopes));
        CHECK_DIAMETER_SLOPE(hose.inside, hose_inside);
        CHECK_DIAMETER_SLOPE(hose.outside, hose_outside);
        CHECK_DIAMETER_SLOPE(hose.reinforcement, hose_reinforcement);
        CHECK_DIAMETER_SLOPE(stem.outside, stem_outside);
        CHECK_DIAMETER_SLOPE(ferrule.wall, ferrule_wall);
        CHECK_DIAMETER_SLOPE(ferrule.outside, ferrule_outside);
        const double more = diameter_of(&joint, 0.2 + step, model),
                     less = diameter_of(&joint, 0.2 - step, model);
        CHECK_NEAR(slopes.compression.mm, (more - less) / (2.0 * step), 1e-7);
    }
}

/* Next to touch the difference of nearly equal numbers must keep its digits: computed in whole micrometres. */
static void nothing_is_lost_where_the_compression_is_small(void **state)
{
    (void)state;
    fer_joint joint = worked_joint();
    joint.hose.inside = fer_mm(13.0);
    joint.stem.outside = fer_mm(12.0);
    joint.hose.outside = fer_mm(20.0);
    joint.ferrule.wall = fer_mm(2.5);
    joint.ferrule.outside = fer_mm(26.0);
    /* W 7, s 12, 2w 5: the ferrule touches at D 25, where (W - D + 2w + s)/W = -1/7; 2^-30 mm below it: */
    const double tiny = 1.0 / (1 << 30);
    CHECK_NEAR(compression_of(&joint, 25.0 - tiny, plain), (-1.0 + tiny) / 7.0, 3e-17);
    joint.stem.outside = fer_mm(13.0);
    /* now W - D + 2w + s = 25 - D: only the tiny part is left */
    CHECK_NEAR(compression_of(&joint, 25.0 - tiny, plain), tiny / 7.0, tiny * 1e-16);
}

/* Joints at which the plain sum, rounded at every step, is 2.19 and 2.7 last places off. Expected is the double nearest to
 * the exact sum by rational arithmetic (Python's fractions), which is half a last place off at most. */
static void both_differences_keep_their_digits(void **state)
{
    (void)state;
    const struct {
        double inside, outside, stem, wall, compression, exact;
    } rows[] = {
        {5.13, 13.74, 5.63, 0.94, 0.057, 15.62923},
        {399.4900906980378, 915.5045292817042, 1.8790148058212943, 0.9155045292817042, 0.03764489750476092,
         500.29915179659224},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        fer_joint joint = {{{rows[i].inside}, {rows[i].outside}, {0.0}},
                           {{rows[i].stem}, {0.0}},
                           {{rows[i].wall}, {0.0}, {0.0}}};
        fer_length diameter;
        CHECK_OK(fer_crimp_diameter(&joint, fer_fraction(rows[i].compression), plain, &diameter));
        const double last_place = nextafter(rows[i].exact, INFINITY) - rows[i].exact;
        assert_true(fabs(diameter.mm - rows[i].exact) <= last_place);
    }
}

static void bad_numbers_have_their_status(void **state)
{
    (void)state;
    const fer_joint joint = worked_joint();
    const double not_numbers[] = {NAN, INFINITY, -INFINITY};
    fer_length diameter = {1.0};
    fer_ratio compression = {1.0};
    for (int i = 0; i < 3; i++) {
        CHECK_STATUS(fer_crimp_diameter(&joint, fer_fraction(not_numbers[i]), plain, &diameter),
                     FER_COMPRESSION_NOT_A_NUMBER);
        CHECK_NAN(diameter.mm);
        CHECK_STATUS(fer_compression(&joint, fer_mm(not_numbers[i]), plain, &compression),
                     FER_DIAMETER_OUT_OF_RANGE);
        CHECK_NAN(compression.fraction);
    }
    CHECK_STATUS(fer_compression(&joint, fer_mm(0.0), plain, &compression), FER_DIAMETER_MISSING);
    CHECK_STATUS(fer_compression(&joint, fer_mm(-23.0), plain, &compression), FER_DIAMETER_OUT_OF_RANGE);
}

static void unknown_models_have_their_status(void **state)
{
    (void)state;
    const fer_joint joint = worked_joint();
    const fer_model models[] = {{(fer_basis)4, FER_FLOW_NONE},
                                {(fer_basis)-1, FER_FLOW_NONE},
                                {FER_BASIS_WALL, (fer_flow)3},
                                {FER_BASIS_WALL, (fer_flow)-1}};
    fer_length length;
    fer_ratio compression;
    for (int i = 0; i < 4; i++) {
        const fer_status expected = i < 2 ? FER_MODEL_BASIS_UNKNOWN : FER_MODEL_FLOW_UNKNOWN;
        CHECK_STATUS(fer_crimp_diameter(&joint, fer_percent(20), models[i], &length), expected);
        CHECK_STATUS(fer_compression(&joint, fer_mm(23.51), models[i], &compression), expected);
    }
    CHECK_STATUS(fer_touch_diameter(&joint, models[2], &length), FER_MODEL_FLOW_UNKNOWN);
    CHECK_STATUS(fer_crimped_wall(&joint, fer_mm(23.51), models[3], &length), FER_MODEL_FLOW_UNKNOWN);
}

static void missing_measurements_have_their_status(void **state)
{
    (void)state;
    const fer_model ends_fixed = {FER_BASIS_WALL, FER_FLOW_ENDS_FIXED},
                    soft = {FER_BASIS_SOFT_WALL, FER_FLOW_NONE};
    fer_joint joint = worked_joint();
    fer_length length = {1.0};
    fer_compression_slopes slopes;
    CHECK_STATUS(fer_crimped_length(&joint, fer_mm(23.51), plain, &length), FER_FERRULE_LENGTH_MISSING);
    CHECK_NAN(length.mm);
    CHECK_STATUS(fer_find_compression_slopes(&joint, fer_mm(23.51), soft, &slopes),
                 FER_HOSE_REINFORCEMENT_MISSING);
    CHECK_NAN(slopes.hose_inside.per_mm);
    CHECK_NAN(slopes.diameter.per_mm);
    joint.ferrule.outside = fer_mm(0.0);
    CHECK_OK(fer_crimp_diameter(&joint, fer_percent(20), plain, &length));
    CHECK_STATUS(fer_crimp_diameter(&joint, fer_percent(20), ends_fixed, &length),
                 FER_FERRULE_OUTSIDE_MISSING);
    CHECK_STATUS(fer_touch_diameter(&joint, ends_fixed, &length), FER_FERRULE_OUTSIDE_MISSING);
    CHECK_STATUS(fer_crimped_wall(&joint, fer_mm(23.51), ends_fixed, &length), FER_FERRULE_OUTSIDE_MISSING);
}

static void a_wall_with_fixed_ends_that_fills_the_ferrule_leaves_no_bore(void **state)
{
    (void)state;
    fer_joint joint = worked_joint();
    const fer_model ends_fixed = {FER_BASIS_WALL, FER_FLOW_ENDS_FIXED};
    fer_length wall = {1.0};
    /* 4w(Fo - w) = 222.72: no bore at a diameter of 14.92 or less */
    CHECK_STATUS(fer_crimped_wall(&joint, fer_mm(14.92), ends_fixed, &wall), FER_DIAMETER_WITHOUT_BORE);
    CHECK_NAN(wall.mm);
    CHECK_OK(fer_crimped_wall(&joint, fer_mm(14.93), ends_fixed, &wall));
}

static void null_pointers_have_their_status(void **state)
{
    (void)state;
    const fer_joint joint = worked_joint();
    fer_length length = {1.0};
    fer_ratio ratio = {1.0};
    fer_diameter_slopes slopes;
    CHECK_STATUS(fer_crimp_diameter(NULL, fer_percent(20), plain, &length), FER_ARGUMENT_MISSING);
    CHECK_NAN(length.mm);
    CHECK_STATUS(fer_crimp_diameter(&joint, fer_percent(20), plain, NULL), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_compression(NULL, fer_mm(23.51), plain, &ratio), FER_ARGUMENT_MISSING);
    CHECK_NAN(ratio.fraction);
    CHECK_STATUS(fer_compression(&joint, fer_mm(23.51), plain, NULL), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_crimped_wall(&joint, fer_mm(23.51), plain, NULL), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_crimped_length(&joint, fer_mm(23.51), plain, NULL), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_touch_diameter(NULL, plain, &length), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_touch_diameter(&joint, plain, NULL), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_find_compression_slopes(&joint, fer_mm(23.51), plain, NULL), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_find_diameter_slopes(&joint, fer_percent(20), plain, NULL), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_find_diameter_slopes(&joint, fer_percent(-90), plain, &slopes),
                 FER_COMPRESSION_WITHOUT_TOUCH);
    CHECK_STATUS(fer_find_diameter_slopes(NULL, fer_percent(20), plain, &slopes), FER_ARGUMENT_MISSING);
    CHECK_NAN(slopes.compression.mm);
}

/* A compression of 1e-15 leaves a bore that doubles cannot tell from the hose's diameter; 0 is that diameter. */
static void touch_is_decided_on_all_digits(void **state)
{
    (void)state;
    const fer_joint joint = worked_joint();
    const fer_model area = {FER_BASIS_AREA, FER_FLOW_NONE};
    fer_length diameter;
    CHECK_OK(fer_crimp_diameter(&joint, fer_fraction(1e-15), area, &diameter));
    /* the hose on the stem: sqrt(19.9^2 - 12.7^2 + 12.95^2), and two walls */
    CHECK_NEAR(diameter.mm, sqrt(19.9 * 19.9 - 12.7 * 12.7 + 12.95 * 12.95) + 4.8, 1e-13);
    CHECK_STATUS(fer_crimp_diameter(&joint, fer_fraction(0.0), area, &diameter),
                 FER_COMPRESSION_WITHOUT_TOUCH);
    CHECK_STATUS(fer_crimp_diameter(&joint, fer_fraction(-1e-15), area, &diameter),
                 FER_COMPRESSION_WITHOUT_TOUCH);
}

static void every_basis_ends_on_the_stem_and_in_the_ferrule(void **state)
{
    (void)state;
    fer_joint joint = worked_joint();
    const fer_basis bases[] = {FER_BASIS_FITTED_WALL, FER_BASIS_AREA};
    fer_length diameter = {1.0};
    for (int i = 0; i < 2; i++) {
        const fer_model model = {bases[i], FER_FLOW_NONE};
        CHECK_STATUS(fer_crimp_diameter(&joint, fer_percent(100), model, &diameter),
                     FER_COMPRESSION_CLOSES_ON_STEM);
        CHECK_NAN(diameter.mm);
        CHECK_OK(fer_crimp_diameter(&joint, fer_percent(99.99), model, &diameter));
        joint.ferrule.outside = fer_mm(24.8); /* a bore of 20.0; the hose on the stem has 20.06 */
        CHECK_STATUS(fer_crimp_diameter(&joint, fer_percent(0.1), model, &diameter),
                     FER_COMPRESSION_ABOVE_FERRULE);
        joint.ferrule.outside = fer_mm(0.0); /* not measured: nothing to compare with */
        CHECK_OK(fer_crimp_diameter(&joint, fer_percent(0.1), model, &diameter));
        joint = worked_joint();
    }
}

static void the_ferrule_by_itself_is_checked_as_the_joint_is(void **state)
{
    (void)state;
    fer_joint joint = worked_joint();
    const fer_model ends_fixed = {FER_BASIS_WALL, FER_FLOW_ENDS_FIXED};
    fer_length length = {1.0};
    fer_ratio compression;
    CHECK_STATUS(fer_crimped_wall(NULL, fer_mm(23.51), plain, &length), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_crimped_wall(&joint, fer_mm(25.7), plain, &length), FER_DIAMETER_ABOVE_FERRULE);
    CHECK_STATUS(fer_crimped_length(&joint, fer_mm(25.7), plain, &length), FER_DIAMETER_ABOVE_FERRULE);
    CHECK_NAN(length.mm);
    CHECK_STATUS(fer_compression(&joint, fer_mm(14.92), ends_fixed, &compression), FER_DIAMETER_WITHOUT_BORE);
    joint.ferrule.outside = fer_mm(0.0);
    CHECK_OK(fer_touch_diameter(&joint, plain, &length));
    CHECK_NEAR(length.mm, sqrt(19.9 * 19.9 - 12.7 * 12.7 + 12.95 * 12.95) + 4.8, 1e-13);
}

/* Two walls of 2000 mm lift the diameter above the largest length. */
static void slopes_end_where_lengths_end(void **state)
{
    (void)state;
    fer_joint joint = {0};
    fer_diameter_slopes slopes;
    joint.hose.inside = fer_mm(999000.0);
    joint.hose.outside = fer_mm(999900.0);
    joint.stem.outside = fer_mm(999500.0);
    joint.ferrule.wall = fer_mm(2000.0);
    CHECK_STATUS(fer_find_diameter_slopes(&joint, fer_percent(50), plain, &slopes),
                 FER_DIAMETER_OUT_OF_RANGE);
    CHECK_NAN(slopes.compression.mm);
}

/* The last compression before none: the diameter that doubles have for it does not touch. */
static void slopes_without_touch_blame_the_compression(void **state)
{
    (void)state;
    const fer_joint joint = {{{0.872}, {22.0}, {1.5}}, {{13.497824467841612}, {0.0}}, {{1.5}, {39.0}, {0.0}}};
    const fer_model fitted = {FER_BASIS_FITTED_WALL, FER_FLOW_NONE};
    fer_diameter_slopes slopes;
    CHECK_STATUS(fer_find_diameter_slopes(&joint, fer_fraction(1e-320), fitted, &slopes),
                 FER_COMPRESSION_WITHOUT_TOUCH);
    CHECK_NAN(slopes.compression.mm);
}

/* The last number below 1 and one beside 0: the diameter that they give rounds to stem or touch. */
static void at_the_very_end_the_compression_is_at_fault(void **state)
{
    (void)state;
    const fer_joint joint = {{{12.5}, {20.0}, {0}}, {{13.0}, {0}}, {{2.5}, {0}, {0}}};
    const fer_model soft = {FER_BASIS_SOFT_WALL, FER_FLOW_NONE};
    fer_joint reinforced = joint;
    fer_diameter_slopes slopes;
    reinforced.hose.reinforcement = fer_mm(0.5);
    CHECK_STATUS(fer_find_diameter_slopes(&joint, fer_fraction(1.0 - 0x1p-53), plain, &slopes),
                 FER_COMPRESSION_CLOSES_ON_STEM);
    CHECK_NAN(slopes.compression.mm);
    reinforced.stem.outside = fer_mm(12.5); /* the hose stays as it is */
    CHECK_STATUS(fer_find_diameter_slopes(&reinforced, fer_fraction(1e-18), soft, &slopes),
                 FER_COMPRESSION_WITHOUT_TOUCH);
    CHECK_NAN(slopes.compression.mm);
}

static void length_and_touch_need_a_joint(void **state)
{
    (void)state;
    const fer_model none = {0};
    fer_joint bad = worked_joint();
    fer_length found;
    bad.hose.inside.mm = 0.0;
    CHECK_STATUS(fer_crimped_length(&bad, fer_mm(23.51), none, &found), FER_HOSE_INSIDE_MISSING);
    CHECK_NAN(found.mm);
    CHECK_STATUS(fer_crimped_wall(&bad, fer_mm(23.51), none, &found), FER_HOSE_INSIDE_MISSING);
    CHECK_STATUS(fer_touch_diameter(&bad, none, &found), FER_HOSE_INSIDE_MISSING);
    CHECK_NAN(found.mm);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(backward_undoes_forward),
        cmocka_unit_test(compression_falls_with_the_diameter),
        cmocka_unit_test(a_growing_wall_compresses_more),
        cmocka_unit_test(at_its_own_diameter_the_ferrule_is_as_it_was),
        cmocka_unit_test(fixed_ends_keep_the_cross_section_and_free_ends_about_keep_the_volume),
        cmocka_unit_test(a_small_joint_is_like_a_large_one),
        cmocka_unit_test(a_free_ferrule_may_be_closed_far),
        cmocka_unit_test(touch_is_where_the_bore_meets_the_hose),
        cmocka_unit_test(a_thin_stem_leaves_the_hose_as_it_is),
        cmocka_unit_test(slopes_are_those_of_finite_differences),
        cmocka_unit_test(slopes_of_the_diameter_are_those_of_finite_differences),
        cmocka_unit_test(nothing_is_lost_where_the_compression_is_small),
        cmocka_unit_test(both_differences_keep_their_digits),
        cmocka_unit_test(bad_numbers_have_their_status),
        cmocka_unit_test(unknown_models_have_their_status),
        cmocka_unit_test(missing_measurements_have_their_status),
        cmocka_unit_test(a_wall_with_fixed_ends_that_fills_the_ferrule_leaves_no_bore),
        cmocka_unit_test(null_pointers_have_their_status),
        cmocka_unit_test(touch_is_decided_on_all_digits),
        cmocka_unit_test(every_basis_ends_on_the_stem_and_in_the_ferrule),
        cmocka_unit_test(the_ferrule_by_itself_is_checked_as_the_joint_is),
        cmocka_unit_test(slopes_end_where_lengths_end),
        cmocka_unit_test(slopes_without_touch_blame_the_compression),
        cmocka_unit_test(at_the_very_end_the_compression_is_at_fault),
        cmocka_unit_test(length_and_touch_need_a_joint),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
