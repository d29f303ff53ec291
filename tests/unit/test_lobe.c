/* SPDX-License-Identifier: MIT */
/* Values: tests/agree/vectors. Here: the outline traced point by point, limits, bad input. */
#include "check.h"

static const double pi = 3.14159265358979323846;

/* Distance of the outline from the centre in a direction, by intersecting the ray with the circle of the arc. */
static double traced_radius(double diameter, double size, double angle)
{
    const double moved = (diameter - size) / 2.0, arc = size / 2.0;
    double low = 0.0, high = diameter;
    for (int i = 0; i < 200; i++) {
        const double r = (low + high) / 2.0;
        const double x = r * cos(angle) - moved, y = r * sin(angle);
        if (x * x + y * y < arc * arc) {
            low = r;
        } else {
            high = r;
        }
    }
    return low;
}

static void the_arc_is_the_circle_of_the_die_moved_out(void **state)
{
    (void)state;
    fer_shape shape;
    CHECK_OK(fer_crimp_shape(fer_mm(23.51), fer_mm(22.0), 8, &shape));
    for (int i = -20; i <= 20; i++) {
        const double angle = shape.edge_angle.rad * i / 20.0;
        fer_length radius;
        CHECK_OK(fer_arc_radius(fer_mm(23.51), fer_mm(22.0), 8, fer_rad(angle), &radius));
        CHECK_NEAR(radius.mm, traced_radius(23.51, 22.0, angle), 1e-13);
    }
    CHECK_NEAR(shape.edge_radius.mm, traced_radius(23.51, 22.0, shape.edge_angle.rad), 1e-13);
    CHECK_NEAR(shape.lobe_height.mm, 23.51 / 2.0 - shape.edge_radius.mm, 1e-13);
}

/* Width of the convex outline between parallel jaws, by scanning points of all arcs. */
static double scanned_width(double diameter, double size, int segments, double angle)
{
    const double moved = (diameter - size) / 2.0, arc = size / 2.0;
    double upper = -1e9, lower = 1e9;
    for (int k = 0; k < segments; k++) {
        const double middle = 2.0 * pi * k / segments;
        for (int i = 0; i <= 4000; i++) {
            const double t = middle + pi / segments * (i - 2000) / 2000.0;
            const double x = moved * cos(middle) + arc * cos(t), y = moved * sin(middle) + arc * sin(t);
            const double along = x * cos(angle) + y * sin(angle);
            upper = fmax(upper, along);
            lower = fmin(lower, along);
        }
    }
    return upper - lower;
}

static void jaws_read_the_width_of_the_outline(void **state)
{
    (void)state;
    const int numbers[] = {3, 5, 6, 8, 9, 12};
    for (int n = 0; n < 6; n++) {
        fer_shape shape;
        double lower = 1e9, upper = 0.0;
        CHECK_OK(fer_crimp_shape(fer_mm(30.0), fer_mm(25.0), numbers[n], &shape));
        for (int i = 0; i < 48; i++) {
            const double angle = -3.0 + 6.0 * i / 47.0;
            fer_length reading;
            CHECK_OK(fer_jaws_reading(fer_mm(30.0), fer_mm(25.0), numbers[n], fer_rad(angle), &reading));
            CHECK_NEAR(reading.mm, scanned_width(30.0, 25.0, numbers[n], angle), 2e-5);
            lower = fmin(lower, reading.mm);
            upper = fmax(upper, reading.mm);
        }
        assert_true(lower >= shape.jaws_minimum.mm - 1e-12 && upper <= shape.jaws_maximum.mm + 1e-12);
        assert_true(lower < shape.jaws_minimum.mm + 0.05 && upper > shape.jaws_maximum.mm - 0.05);
    }
}

static void a_die_at_its_own_size_is_round(void **state)
{
    (void)state;
    fer_shape shape;
    CHECK_OK(fer_crimp_shape(fer_mm(22.0), fer_mm(22.0), 8, &shape));
    CHECK_NEAR(shape.lobe_height.mm, 0.0, 0.0);
    CHECK_NEAR(shape.gap.mm, 0.0, 0.0);
    CHECK_NEAR(shape.edge_angle.rad, pi / 8.0, 1e-15);
    CHECK_NEAR(shape.arcs_diameter.mm, 22.0, 1e-14);
    CHECK_NEAR(shape.chords_diameter.mm, 22.0, 1e-14);
    CHECK_NEAR(shape.tape_diameter.mm, 22.0, 1e-14);
    CHECK_NEAR(shape.jaws_minimum.mm, 22.0, 1e-14);
    CHECK_NEAR(shape.jaws_maximum.mm, 22.0, 1e-14);
}

static void every_gauge_reads_between_edges_and_middles(void **state)
{
    (void)state;
    for (int segments = 3; segments <= 64; segments++) {
        fer_shape shape;
        CHECK_OK(fer_crimp_shape(fer_mm(46.0), fer_mm(39.0), segments, &shape));
        const double edges = 2.0 * shape.edge_radius.mm;
        assert_true(shape.arcs_diameter.mm > edges && shape.arcs_diameter.mm < 46.0);
        assert_true(shape.chords_diameter.mm < shape.arcs_diameter.mm);
        assert_true(shape.tape_diameter.mm > edges && shape.tape_diameter.mm < 46.0);
    }
}

/* 1e-12 mm above the die size the lobe is 1e-13 mm high: a difference of radii would show nothing of it. */
static void a_tiny_offset_keeps_its_digits(void **state)
{
    (void)state;
    const double size = 22.0, offset = 1.0 / (1 << 30);
    fer_length height;
    CHECK_OK(fer_lobe_height(fer_mm(size + offset), fer_mm(size), 8, &height));
    CHECK_NEAR(height.mm / (offset / 2.0 * (1.0 - cos(pi / 8.0))), 1.0, 1e-9);
}

static void an_offset_is_the_inverse_of_lobe_and_gap(void **state)
{
    (void)state;
    const int numbers[] = {3, 6, 8, 12};
    for (int n = 0; n < 4; n++) {
        for (int i = 1; i <= 20; i++) {
            fer_length offset, height;
            fer_shape shape;
            CHECK_OK(fer_lobe_height(fer_mm(39.0 + i), fer_mm(39.0), numbers[n], &height));
            CHECK_OK(fer_lobe_offset(fer_mm(39.0), numbers[n], height, &offset));
            CHECK_NEAR(offset.mm, i, 1e-12 * i);
            CHECK_OK(fer_crimp_shape(fer_mm(39.0 + i), fer_mm(39.0), numbers[n], &shape));
            CHECK_OK(fer_gap_offset(fer_mm(3.0), numbers[n], fer_fraction(shape.gap.mm / 3.0), &offset));
            CHECK_NEAR(offset.mm, i, 1e-13 * i);
        }
    }
    /* at any offset the lobe stays below d sin^2(alpha/2) */
    fer_length offset;
    const double half = sin(pi / 16.0), greatest = 39.0 * half * half;
    CHECK_OK(fer_lobe_offset(fer_mm(39.0), 8, fer_mm(0.999 * greatest), &offset));
    assert_true(offset.mm > 10000.0);
    CHECK_STATUS(fer_lobe_offset(fer_mm(39.0), 8, fer_mm(1.0001 * greatest), &offset),
                 FER_LOBE_HEIGHT_OUT_OF_RANGE);
    CHECK_NAN(offset.mm);
    CHECK_OK(fer_lobe_offset(fer_mm(39.0), 8, fer_mm(0.0), &offset));
    CHECK_NEAR(offset.mm, 0.0, 0.0);
}

/* Plain formula by hand at the arcs diameter 23.47389 mm of 23.51/22: (7.2 - 23.47389 + 4.8 + 12.95)/7.2. */
static void the_equivalent_crimp_is_tighter_than_its_middles(void **state)
{
    (void)state;
    const fer_joint joint = worked_joint();
    const fer_model plain = {FER_BASIS_WALL, FER_FLOW_NONE},
                    ends_fixed = {FER_BASIS_WALL, FER_FLOW_ENDS_FIXED};
    fer_equivalent_crimp equivalent;
    fer_ratio middles;
    CHECK_OK(fer_find_equivalent_crimp(&joint, fer_mm(23.51), fer_mm(22.0), 8, plain, &equivalent));
    CHECK_NEAR(equivalent.diameter.mm, 23.47389, 5e-6);
    CHECK_NEAR(equivalent.bore.mm, 23.47389 - 4.8, 5e-6);
    CHECK_NEAR(equivalent.compression.fraction, 1.47611 / 7.2, 1e-6);
    CHECK_NEAR(equivalent.pin.mm, 23.51 - 2.0 * 0.05390 - 4.8, 1.1e-5);
    /* eight dies in contact, finite elements, ends fixed, yield strength 300 MPa (tests/agree/finite_element): bore 18.1225 mm against
     * 18.1738 mm at the middles' diameter, which is 0.7 points of compression; pin 18.10 mm */
    CHECK_OK(fer_find_equivalent_crimp(&joint, fer_mm(23.51), fer_mm(22.0), 8, ends_fixed, &equivalent));
    CHECK_OK(fer_compression(&joint, fer_mm(23.51), ends_fixed, &middles));
    CHECK_NEAR(equivalent.compression.fraction - middles.fraction, 0.0071, 1e-3);
    CHECK_NEAR(equivalent.bore.mm, 18.1225, 0.002 * 18.1225);
    CHECK_NEAR(equivalent.pin.mm, 18.1024, 0.005 * 18.1024);
}

/* What stands for a crimp that is not round is a round crimp: with ends fixed its ferrule has the cross-section that it had
 * before crimping, and with any flow the wall that a round crimp of that diameter has. */
static void the_equivalent_crimp_is_a_round_crimp(void **state)
{
    (void)state;
    const fer_joint joint = worked_joint();
    const double before = joint.ferrule.outside.mm, bore_before = before - 2.0 * joint.ferrule.wall.mm;
    for (int flow = FER_FLOW_NONE; flow <= FER_FLOW_ENDS_FREE; flow++) {
        const fer_model model = {FER_BASIS_WALL, (fer_flow)flow};
        fer_equivalent_crimp e;
        fer_length wall;
        fer_ratio compression;
        CHECK_OK(fer_find_equivalent_crimp(&joint, fer_mm(23.51), fer_mm(16.5), 8, model, &e));
        assert_true(e.diameter.mm < 23.51 - 0.1); /* lobes that are to be seen */
        CHECK_OK(fer_crimped_wall(&joint, e.diameter, model, &wall));
        CHECK_OK(fer_compression(&joint, e.diameter, model, &compression));
        CHECK_NEAR(e.bore.mm, e.diameter.mm - 2.0 * wall.mm, 1e-13);
        CHECK_NEAR(e.compression.fraction, compression.fraction, 0.0);
        if (flow == FER_FLOW_ENDS_FIXED) {
            CHECK_NEAR(e.diameter.mm * e.diameter.mm - e.bore.mm * e.bore.mm,
                       before * before - bore_before * bore_before, 1e-11);
        }
    }
}

static void bad_input_has_its_status(void **state)
{
    (void)state;
    const double bad[] = {0.0, -1.0, 2e6, NAN, INFINITY};
    fer_length result = {1.0};
    fer_shape shape;
    for (int i = 0; i < 5; i++) {
        CHECK_STATUS(fer_lobe_height(fer_mm(23.51), fer_mm(bad[i]), 8, &result),
                     i == 0 ? FER_DIE_SIZE_MISSING : FER_DIE_SIZE_OUT_OF_RANGE);
        CHECK_NAN(result.mm);
        CHECK_STATUS(fer_crimp_shape(fer_mm(bad[i]), fer_mm(22.0), 8, &shape),
                     i == 0 ? FER_DIAMETER_MISSING : FER_DIAMETER_OUT_OF_RANGE);
        CHECK_NAN(shape.lobe_height.mm);
        CHECK_NAN(shape.jaws_maximum.mm);
    }
    CHECK_STATUS(fer_crimp_shape(fer_mm(21.99), fer_mm(22.0), 8, &shape), FER_DIE_ABOVE_DIAMETER);
    CHECK_STATUS(fer_lobe_height(fer_mm(23.51), fer_mm(22.0), 2, &result), FER_SEGMENTS_OUT_OF_RANGE);
    CHECK_STATUS(fer_lobe_height(fer_mm(23.51), fer_mm(22.0), 65, &result), FER_SEGMENTS_OUT_OF_RANGE);
    CHECK_STATUS(fer_arc_radius(fer_mm(23.51), fer_mm(22.0), 8, fer_deg(21.6), &result),
                 FER_ANGLE_OUT_OF_RANGE);
    CHECK_STATUS(fer_arc_radius(fer_mm(23.51), fer_mm(22.0), 8, fer_rad(NAN), &result),
                 FER_ANGLE_OUT_OF_RANGE);
    CHECK_NAN(result.mm);
    CHECK_STATUS(fer_jaws_reading(fer_mm(23.51), fer_mm(22.0), 8, fer_rad(INFINITY), &result),
                 FER_ANGLE_OUT_OF_RANGE);
    CHECK_NAN(result.mm);
    CHECK_STATUS(fer_lobe_height(fer_mm(23.51), fer_mm(22.0), 8, NULL), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_lobe_offset(fer_mm(NAN), 8, fer_mm(0.1), &result), FER_DIE_SIZE_OUT_OF_RANGE);
    CHECK_STATUS(fer_lobe_offset(fer_mm(22.0), 2, fer_mm(0.1), &result), FER_SEGMENTS_OUT_OF_RANGE);
    CHECK_STATUS(fer_lobe_offset(fer_mm(22.0), 8, fer_mm(-0.1), &result), FER_LOBE_HEIGHT_OUT_OF_RANGE);
    CHECK_STATUS(fer_lobe_offset(fer_mm(22.0), 8, fer_mm(NAN), &result), FER_LOBE_HEIGHT_OUT_OF_RANGE);
    CHECK_STATUS(fer_lobe_offset(fer_mm(22.0), 8, fer_mm(0.1), NULL), FER_ARGUMENT_MISSING);
    result.mm = 1.0;
    CHECK_STATUS(fer_gap_offset(fer_mm(0.0), 8, fer_fraction(0.5), &result), FER_FERRULE_WALL_MISSING);
    CHECK_STATUS(fer_gap_offset(fer_mm(-1.0), 8, fer_fraction(0.5), &result), FER_FERRULE_WALL_OUT_OF_RANGE);
    CHECK_NAN(result.mm);
    CHECK_STATUS(fer_gap_offset(fer_mm(3.0), 65, fer_fraction(0.5), &result), FER_SEGMENTS_OUT_OF_RANGE);
    CHECK_STATUS(fer_gap_offset(fer_mm(3.0), 8, fer_fraction(NAN), &result), FER_GAP_SHARE_OUT_OF_RANGE);
    CHECK_STATUS(fer_gap_offset(fer_mm(3.0), 8, fer_fraction(0.5), NULL), FER_ARGUMENT_MISSING);
    const fer_joint joint = worked_joint();
    const fer_model plain = {FER_BASIS_WALL, FER_FLOW_NONE};
    fer_equivalent_crimp equivalent = {{0.0}, {0.0}, {0.0}, {0.0}};
    CHECK_STATUS(fer_find_equivalent_crimp(&joint, fer_mm(21.0), fer_mm(22.0), 8, plain, &equivalent),
                 FER_DIE_ABOVE_DIAMETER);
    CHECK_NAN(equivalent.diameter.mm);
    CHECK_NAN(equivalent.pin.mm);
    CHECK_STATUS(fer_find_equivalent_crimp(&joint, fer_mm(25.0), fer_mm(24.0), 8, plain, &equivalent),
                 FER_DIAMETER_WITHOUT_TOUCH);
    CHECK_NAN(equivalent.bore.mm);
    CHECK_NAN(equivalent.compression.fraction);
    CHECK_STATUS(fer_find_equivalent_crimp(NULL, fer_mm(25.0), fer_mm(24.0), 8, plain, &equivalent),
                 FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_find_equivalent_crimp(&joint, fer_mm(25.0), fer_mm(24.0), 8, plain, NULL),
                 FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_crimp_shape(fer_mm(23.51), fer_mm(22.0), 8, NULL), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_arc_radius(fer_mm(23.51), fer_mm(22.0), 8, fer_deg(0), NULL), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_jaws_reading(fer_mm(23.51), fer_mm(22.0), 8, fer_deg(0), NULL), FER_ARGUMENT_MISSING);
}

static void every_function_checks_the_die(void **state)
{
    (void)state;
    const fer_joint joint = worked_joint();
    const fer_model plain = {FER_BASIS_WALL, FER_FLOW_NONE};
    fer_equivalent_crimp equivalent;
    fer_length result = {1.0};
    CHECK_STATUS(fer_arc_radius(fer_mm(21.99), fer_mm(22.0), 8, fer_deg(0), &result), FER_DIE_ABOVE_DIAMETER);
    CHECK_NAN(result.mm);
    CHECK_STATUS(fer_jaws_reading(fer_mm(21.99), fer_mm(22.0), 8, fer_deg(0), &result),
                 FER_DIE_ABOVE_DIAMETER);
    CHECK_STATUS(fer_gap_offset(fer_mm(3.0), 8, fer_fraction(100.1), &result), FER_GAP_SHARE_OUT_OF_RANGE);
    CHECK_STATUS(fer_gap_offset(fer_mm(3.0), 8, fer_fraction(-0.1), &result), FER_GAP_SHARE_OUT_OF_RANGE);
    /* two walls are 4.8 mm: no bore; on the stem */
    CHECK_STATUS(fer_find_equivalent_crimp(&joint, fer_mm(4.5), fer_mm(4.5), 8, plain, &equivalent),
                 FER_DIAMETER_WITHOUT_BORE);
    CHECK_STATUS(fer_find_equivalent_crimp(&joint, fer_mm(17.5), fer_mm(17.5), 8, plain, &equivalent),
                 FER_DIAMETER_CLOSES_ON_STEM);
    CHECK_NAN(equivalent.pin.mm);
}

static void an_equivalent_crimp_needs_a_joint_and_a_model(void **state)
{
    (void)state;
    const fer_joint joint = worked_joint();
    const fer_model basis = {(fer_basis)9, FER_FLOW_NONE}, flow = {FER_BASIS_WALL, (fer_flow)9}, plain = {0};
    fer_joint bad = joint;
    fer_equivalent_crimp equivalent;
    bad.hose.outside.mm = 0.0;
    CHECK_STATUS(fer_find_equivalent_crimp(&joint, fer_mm(23.51), fer_mm(22.0), 8, basis, &equivalent),
                 FER_MODEL_BASIS_UNKNOWN);
    CHECK_STATUS(fer_find_equivalent_crimp(&joint, fer_mm(23.51), fer_mm(22.0), 8, flow, &equivalent),
                 FER_MODEL_FLOW_UNKNOWN);
    CHECK_STATUS(fer_find_equivalent_crimp(&bad, fer_mm(23.51), fer_mm(22.0), 8, plain, &equivalent),
                 FER_HOSE_OUTSIDE_MISSING);
    CHECK_NAN(equivalent.pin.mm);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_arc_is_the_circle_of_the_die_moved_out),
        cmocka_unit_test(jaws_read_the_width_of_the_outline),
        cmocka_unit_test(a_die_at_its_own_size_is_round),
        cmocka_unit_test(every_gauge_reads_between_edges_and_middles),
        cmocka_unit_test(a_tiny_offset_keeps_its_digits),
        cmocka_unit_test(an_offset_is_the_inverse_of_lobe_and_gap),
        cmocka_unit_test(the_equivalent_crimp_is_tighter_than_its_middles),
        cmocka_unit_test(the_equivalent_crimp_is_a_round_crimp),
        cmocka_unit_test(bad_input_has_its_status),
        cmocka_unit_test(every_function_checks_the_die),
        cmocka_unit_test(an_equivalent_crimp_needs_a_joint_and_a_model),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
