/* SPDX-License-Identifier: MIT */
#include "check.h"

static const double pi = 3.14159265358979323846;
static const fer_hose_end near_end = {{27.5}, {0.0}}, far_end = {{31.0}, {0.0}};

static fer_angle deg(double degrees)
{
    return fer_deg(degrees);
}

/* ---- length ------------------------------------------------------------------------------------------------- */

static void the_cut_length_is_what_the_ends_leave(void **state)
{
    (void)state;
    fer_length length, overall;
    CHECK_OK(fer_cut_length(fer_mm(1250), &near_end, &far_end, &length));
    CHECK_NEAR(length.mm, 1191.5, 0.0); /* 1250 - 27.5 - 31 by hand */
    fer_hose_end first = near_end, second = far_end;
    first.growth = second.growth = fer_mm(1.2);
    CHECK_OK(fer_cut_length(fer_mm(1250), &first, &second, &length));
    CHECK_NEAR(length.mm, 1189.1, 2e-13);
    CHECK_OK(fer_overall_length(length, &first, &second, &overall));
    CHECK_NEAR(overall.mm, 1250.0, 3e-13);
    first.growth = fer_mm(-100);
    CHECK_OK(fer_cut_length(fer_mm(1250), &first, &far_end, &length));
    CHECK_NEAR(length.mm, 1291.5, 0.0);
}

static void ends_that_are_wrong_give_no_length(void **state)
{
    (void)state;
    const struct {
        double cut_off, growth;
        fer_status status;
    } cases[] = {{0.0, 0.0, FER_CUT_OFF_MISSING},           {-1.0, 0.0, FER_CUT_OFF_OUT_OF_RANGE},
                 {NAN, 0.0, FER_CUT_OFF_OUT_OF_RANGE},      {2e6, 0.0, FER_CUT_OFF_OUT_OF_RANGE},
                 {27.5, 101, FER_HOSE_GROWTH_OUT_OF_RANGE}, {27.5, NAN, FER_HOSE_GROWTH_OUT_OF_RANGE}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        const fer_hose_end end = {{cases[i].cut_off}, {cases[i].growth}};
        fer_length length = {1.0};
        CHECK_STATUS(fer_cut_length(fer_mm(1250), &end, &far_end, &length), cases[i].status);
        CHECK_NAN(length.mm);
        length.mm = 1.0;
        CHECK_STATUS(fer_overall_length(fer_mm(1250), &near_end, &end, &length), cases[i].status);
        CHECK_NAN(length.mm);
    }
}

static void lengths_that_are_wrong_are_refused(void **state)
{
    (void)state;
    fer_length length;
    CHECK_STATUS(fer_cut_length(fer_mm(0), &near_end, &far_end, &length), FER_OVERALL_LENGTH_MISSING);
    CHECK_STATUS(fer_cut_length(fer_mm(NAN), &near_end, &far_end, &length), FER_OVERALL_LENGTH_OUT_OF_RANGE);
    CHECK_STATUS(fer_cut_length(fer_mm(58.5), &near_end, &far_end, &length), FER_CUT_LENGTH_NOT_POSITIVE);
    CHECK_NAN(length.mm);
    CHECK_OK(fer_cut_length(fer_mm(58.75), &near_end, &far_end, &length));
    CHECK_NEAR(length.mm, 0.25, 0.0);
    CHECK_STATUS(fer_overall_length(fer_mm(0), &near_end, &far_end, &length), FER_CUT_LENGTH_MISSING);
    CHECK_STATUS(fer_overall_length(fer_mm(-1), &near_end, &far_end, &length), FER_CUT_LENGTH_OUT_OF_RANGE);
    CHECK_STATUS(fer_overall_length(fer_mm(1e6), &near_end, &far_end, &length),
                 FER_OVERALL_LENGTH_OUT_OF_RANGE);
    CHECK_NAN(length.mm);
    CHECK_STATUS(fer_cut_length(fer_mm(1250), &near_end, &far_end, NULL), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_cut_length(fer_mm(1250), NULL, &far_end, &length), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_cut_length(fer_mm(1250), &near_end, NULL, &length), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_overall_length(fer_mm(1250), &near_end, &far_end, NULL), FER_ARGUMENT_MISSING);
}

static void pressure_makes_a_hose_shorter_or_longer(void **state)
{
    (void)state;
    const fer_ratio_range braided = {{-0.04}, {0.02}}, growing = {{0.01}, {0.02}};
    fer_length_range lengths;
    fer_length free_length;
    CHECK_OK(fer_length_under_pressure(fer_mm(1250), braided, &lengths));
    CHECK_NEAR(lengths.lower.mm, 1200.0, 3e-13);
    CHECK_NEAR(lengths.upper.mm, 1275.0, 3e-13);
    CHECK_OK(fer_length_before_pressure(fer_mm(601.7720727951249), braided, &free_length));
    CHECK_NEAR(free_length.mm, 626.8459091616, 1e-10); /* 601.7720727951/0.96 with mpmath */
    CHECK_OK(fer_length_before_pressure(fer_mm(600), growing, &free_length));
    CHECK_NEAR(free_length.mm, 600.0, 0.0); /* the pressure may be off */
}

static void a_change_of_length_that_is_wrong_is_refused(void **state)
{
    (void)state;
    const fer_ratio_range wide[] = {{{-0.51}, {0.0}}, {{0.0}, {0.51}}, {{NAN}, {0.0}}, {{0.0}, {NAN}}};
    const fer_ratio_range crossed = {{0.02}, {-0.04}}, plain = {{-0.04}, {0.02}};
    fer_length_range lengths;
    fer_length length;
    for (size_t i = 0; i < 4; i++) {
        CHECK_STATUS(fer_length_under_pressure(fer_mm(1250), wide[i], &lengths),
                     FER_LENGTH_CHANGE_OUT_OF_RANGE);
        CHECK_NAN(lengths.lower.mm);
        CHECK_NAN(lengths.upper.mm);
    }
    CHECK_STATUS(fer_length_before_pressure(fer_mm(1250), crossed, &length), FER_LENGTH_CHANGE_WRONG_ORDER);
    CHECK_NAN(length.mm);
    CHECK_STATUS(fer_length_under_pressure(fer_mm(0), plain, &lengths), FER_CUT_LENGTH_MISSING);
    CHECK_STATUS(fer_length_under_pressure(fer_mm(1), plain, NULL), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_length_before_pressure(fer_mm(1), plain, NULL), FER_ARGUMENT_MISSING);
}

/* ---- tolerance ---------------------------------------------------------------------------------------------- */

/* DIN 20066 (from memory), up to DN 25 and from DN 32 to 50. */
static const fer_length_row table[] = {
    {{25}, {630}, {7}, {3}, {0}, {0}},     {{25}, {1250}, {12}, {4}, {0}, {0}},
    {{25}, {2500}, {20}, {6}, {0}, {0}},   {{25}, {8000}, {0}, {0}, {0.015}, {0.005}},
    {{25}, {0}, {0}, {0}, {0.03}, {0.01}}, {{50}, {630}, {12}, {4}, {0}, {0}},
    {{50}, {1250}, {20}, {6}, {0}, {0}}};

static void limits_of(double bore, double length, double lower, double upper)
{
    fer_length_range limits;
    CHECK_OK(fer_find_length_limits(table, 7, fer_mm(bore), fer_mm(length), &limits));
    CHECK_NEAR(limits.lower.mm, lower, 1e-12 * length);
    CHECK_NEAR(limits.upper.mm, upper, 1e-12 * length);
}

static void the_first_row_for_bore_and_length_counts(void **state)
{
    (void)state;
    limits_of(12, PUBLISHED(630, "DIN 20066; tolerances of length, up to DN 25; from memory"), 627, 637);
    limits_of(12, 630.5, 626.5, 642.5);
    limits_of(25, 1250, 1246, 1262);
    limits_of(25, 8000, 7960, 8120);
    limits_of(25, 10000, 9900, 10300);
    limits_of(32, 1250, 1244, 1270);
    limits_of(25.4, 500, 496, 512);
    const fer_length_row any = {{0}, {0}, {5}, {5}, {0}, {0}};
    fer_length_range limits;
    CHECK_OK(fer_find_length_limits(&any, 1, fer_mm(300), fer_mm(1e6), &limits));
    CHECK_NEAR(limits.upper.mm, 1000005.0, 0.0);
}

static void rows_and_figures_that_are_wrong_give_no_limits(void **state)
{
    (void)state;
    fer_length_range limits;
    const fer_length_row good = table[0];
    CHECK_STATUS(fer_find_length_limits(table, 7, fer_mm(32), fer_mm(1251), &limits), FER_LENGTH_ROW_MISSING);
    CHECK_STATUS(fer_find_length_limits(table, 7, fer_mm(51), fer_mm(100), &limits), FER_LENGTH_ROW_MISSING);
    CHECK_NAN(limits.lower.mm);
    CHECK_STATUS(fer_find_length_limits(table, 7, fer_mm(12), fer_mm(3), &limits),
                 FER_LENGTH_LIMITS_NOT_POSITIVE);
    CHECK_NAN(limits.upper.mm);
    CHECK_STATUS(fer_find_length_limits(table, 7, fer_mm(0), fer_mm(300), &limits), FER_HOSE_BORE_MISSING);
    CHECK_STATUS(fer_find_length_limits(table, 7, fer_mm(-1), fer_mm(300), &limits),
                 FER_HOSE_BORE_OUT_OF_RANGE);
    CHECK_STATUS(fer_find_length_limits(table, 7, fer_mm(12), fer_mm(0), &limits),
                 FER_OVERALL_LENGTH_MISSING);
    CHECK_STATUS(fer_find_length_limits(table, 7, fer_mm(12), fer_mm(2e6), &limits),
                 FER_OVERALL_LENGTH_OUT_OF_RANGE);
    CHECK_STATUS(fer_find_length_limits(table, 0, fer_mm(12), fer_mm(300), &limits), FER_ARGUMENT_COUNT_ZERO);
    CHECK_STATUS(fer_find_length_limits(NULL, 1, fer_mm(12), fer_mm(300), &limits), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_find_length_limits(table, 7, fer_mm(12), fer_mm(300), NULL), FER_ARGUMENT_MISSING);
    for (int i = 0; i < 10; i++) {
        fer_length_row rows[2] = {good, good};
        fer_length_row *row = &rows[1]; /* not needed, and still wrong */
        *(i == 0   ? &row->bore_maximum.mm
          : i == 1 ? &row->length_maximum.mm
          : i == 2 ? &row->plus.mm
          : i == 3 ? &row->minus.mm
          : i < 6  ? &row->plus_share.fraction
                   : &row->minus_share.fraction) = i == 5 || i == 7 ? 1.01
                                                  : i == 8         ? 1.5
                                                  : i == 9         ? NAN
                                                                   : -1.0;
        CHECK_STATUS(fer_find_length_limits(rows, 2, fer_mm(12), fer_mm(300), &limits),
                     FER_LENGTH_ROW_OUT_OF_RANGE);
    }
    const fer_length_row both[] = {{{25}, {0}, {7}, {3}, {0.01}, {0}}, {{25}, {0}, {7}, {3}, {0}, {0.01}}};
    for (int i = 0; i < 2; i++) {
        CHECK_STATUS(fer_find_length_limits(&both[i], 1, fer_mm(12), fer_mm(300), &limits),
                     FER_LENGTH_ROW_TWO_TOLERANCES);
    }
}

/* ---- bends -------------------------------------------------------------------------------------------------- */

static const fer_length radius = {180.0}, outside = {23.1};

static void a_bend_is_as_long_as_its_centre_line(void **state)
{
    (void)state;
    fer_length length;
    CHECK_OK(fer_bend_length(radius, outside, deg(180), &length));
    CHECK_NEAR(length.mm, 601.7720727951, 1e-10); /* pi (180 + 23.1/2) with mpmath */
    /* two straights of 25.4 mm at its ends */
    CHECK_NEAR(length.mm + 50.8, PUBLISHED(652.57, "SAE J343; length of a test piece; from memory"), 0.005);
    CHECK_OK(fer_bend_length(radius, outside, deg(360), &length));
    CHECK_NEAR(length.mm, 1203.5441455902, 1e-9);
    CHECK_OK(fer_bend_length(radius, outside, deg(0), &length));
    CHECK_NEAR(length.mm, 0.0, 0.0);
}

static void an_offset_takes_two_bends(void **state)
{
    (void)state;
    fer_offset_bend bend;
    CHECK_OK(fer_find_offset_bend(radius, outside, fer_mm(200), &bend));
    CHECK_NEAR(bend.run.mm, 336.5115154047, 1e-10); /* mpmath, and a shortest route between the same ends */
    CHECK_NEAR(bend.length.mm, 410.8689205398, 1e-10);
    CHECK_NEAR(cos(bend.angle.rad), 1.0 - 200.0 / 383.1, 1e-15);
    CHECK_OK(fer_find_offset_bend(radius, outside, fer_mm(766.2), &bend)); /* two half circles */
    CHECK_NEAR(bend.angle.rad, pi, 1e-15);
    CHECK_NEAR(bend.run.mm, 0.0, 0.0);
}

static void a_moving_end_takes_half_its_stroke(void **state)
{
    (void)state;
    fer_length length;
    CHECK_OK(fer_moving_bend_length(radius, outside, fer_mm(800), fer_mm(50), &length));
    CHECK_NEAR(length.mm, 1101.772072795, 1e-9); /* pi 191.55 + 100 + 400 with mpmath */
}

static void bends_that_are_wrong_are_refused(void **state)
{
    (void)state;
    fer_length length;
    fer_offset_bend bend;
    CHECK_STATUS(fer_bend_length(fer_mm(0), outside, deg(90), &length), FER_BEND_RADIUS_MISSING);
    CHECK_STATUS(fer_bend_length(fer_mm(-1), outside, deg(90), &length), FER_BEND_RADIUS_OUT_OF_RANGE);
    CHECK_STATUS(fer_bend_length(radius, fer_mm(0), deg(90), &length), FER_HOSE_OUTSIDE_MISSING);
    CHECK_STATUS(fer_bend_length(radius, fer_mm(NAN), deg(90), &length), FER_HOSE_OUTSIDE_OUT_OF_RANGE);
    CHECK_STATUS(fer_bend_length(radius, outside, deg(-1), &length), FER_BEND_ANGLE_OUT_OF_RANGE);
    CHECK_STATUS(fer_bend_length(radius, outside, deg(361), &length), FER_BEND_ANGLE_OUT_OF_RANGE);
    CHECK_NAN(length.mm);
    CHECK_STATUS(fer_bend_length(radius, outside, deg(90), NULL), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_find_offset_bend(radius, fer_mm(0), fer_mm(200), &bend), FER_HOSE_OUTSIDE_MISSING);
    CHECK_STATUS(fer_find_offset_bend(radius, outside, fer_mm(0), &bend), FER_BEND_OFFSET_MISSING);
    CHECK_STATUS(fer_find_offset_bend(radius, outside, fer_mm(766.21), &bend), FER_BEND_OFFSET_OUT_OF_RANGE);
    CHECK_NAN(bend.run.mm);
    CHECK_STATUS(fer_find_offset_bend(radius, outside, fer_mm(-1), &bend), FER_BEND_OFFSET_OUT_OF_RANGE);
    CHECK_STATUS(fer_find_offset_bend(radius, outside, fer_mm(200), NULL), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_moving_bend_length(fer_mm(0), outside, fer_mm(1), fer_mm(1), &length),
                 FER_BEND_RADIUS_MISSING);
    CHECK_STATUS(fer_moving_bend_length(radius, outside, fer_mm(-1), fer_mm(1), &length),
                 FER_STROKE_OUT_OF_RANGE);
    CHECK_STATUS(fer_moving_bend_length(radius, outside, fer_mm(1), fer_mm(NAN), &length),
                 FER_STRAIGHT_OUT_OF_RANGE);
    CHECK_NAN(length.mm);
    CHECK_STATUS(fer_moving_bend_length(radius, outside, fer_mm(1), fer_mm(1), NULL), FER_ARGUMENT_MISSING);
}

/* ---- orientation -------------------------------------------------------------------------------------------- */

static fer_point at(double x, double y, double z)
{
    const fer_point point = {{x}, {y}, {z}};
    return point;
}

static fer_status orient(const fer_point *points, size_t count, double bend, fer_point first_tip,
                         fer_point last_tip, fer_orientation *orientation)
{
    return fer_find_orientation(points, count, fer_mm(bend - 10.0), fer_mm(20.0), &first_tip, &last_tip,
                                orientation);
}

static void the_angle_is_the_same_from_both_ends(void **state)
{
    (void)state;
    const fer_point points[] = {at(0, 0, 0), at(400, 0, 0), at(400, 300, 0), at(400, 300, 250)},
                    back[] = {points[3], points[2], points[1], points[0]};
    fer_orientation there, and_back;
    CHECK_OK(orient(points, 4, 60, at(0, 0, 50), at(440, 300, 250), &there));
    /* 950 minus two corners of 2 60 tan 45 - 60 pi/2, with mpmath. The first elbow, up, arrives as -y; seen along +z the way
     * from -y to x is a quarter turn, clockwise */
    CHECK_NEAR(there.length.mm, 898.4955592154, 1e-9);
    CHECK_NEAR(there.angle.rad, pi / 2.0, 1e-15);
    CHECK_NEAR(there.straight_minimum.mm, 180.0, 1e-12); /* 300 - 2 60 */
    CHECK_OK(orient(back, 4, 60, at(440, 300, 250), at(0, 0, 50), &and_back));
    CHECK_NEAR(and_back.angle.rad, there.angle.rad, 1e-15);
    CHECK_NEAR(and_back.length.mm, there.length.mm, 1e-12);
}

/* A straight hose along x: seen along it with y up, z is to the right, a quarter turn clockwise. */
static void clockwise_is_seen_along_the_hose(void **state)
{
    (void)state;
    const fer_point points[] = {at(0, 0, 0), at(500, 0, 0)};
    fer_orientation found;
    for (int degrees = 0; degrees < 360; degrees += 15) {
        const double turn = degrees / 180.0 * pi;
        CHECK_OK(orient(points, 2, 60, at(0, 40, 0), at(500, 30 * cos(turn), 30 * sin(turn)), &found));
        CHECK_NEAR(found.angle.rad, turn, 1e-14);
        CHECK_NEAR(found.length.mm, 500.0, 0.0);
        CHECK_NEAR(found.straight_minimum.mm, 500.0, 0.0);
    }
    /* a whole turn but for rounding is none; an elbow that is not square to the hose counts by its square part */
    CHECK_OK(orient(points, 2, 60, at(0, 40, 0), at(500, 30, -1e-300), &found));
    CHECK_NEAR(found.angle.rad, 0.0, 0.0);
    CHECK_OK(orient(points, 2, 60, at(-40, 40, 0), at(530, 0, 30), &found));
    CHECK_NEAR(found.angle.rad, pi / 2.0, 1e-15);
}

static void bends_may_just_meet(void **state)
{
    (void)state;
    const double half = 60.0 * tan(pi / 8.0); /* of corners of 45 degrees */
    const fer_point points[] = {at(0, 0, 0), at(half, 0, 0),
                                at(half + 2 * half * sqrt(0.5), 2 * half * sqrt(0.5), 0),
                                at(half + 2 * half * sqrt(0.5), 3 * half * sqrt(0.5) + half, 0)};
    fer_orientation found;
    CHECK_OK(orient(points, 4, 60, at(0, 0, 9), at(half, 100, 9), &found));
    CHECK_NEAR(found.straight_minimum.mm, 0.0, 1e-12);
    /* by hand: of y + z two corners from x to y leave -x + z, an eighth of a turn before z */
    CHECK_OK(orient(points, 4, 60, at(0, 9, 9), at(half, 100, 9), &found));
    CHECK_NEAR(found.angle.rad, 2.0 * pi + pi / 4.0 - atan(2 * half * sqrt(0.5) / 9.0), 1e-14);
    CHECK_STATUS(orient(points, 4, 60.001, at(0, 0, 9), at(half, 100, 9), &found),
                 FER_ROUTE_STRAIGHT_TOO_SHORT);
    CHECK_NAN(found.length.mm);
    CHECK_NAN(found.angle.rad);
    CHECK_NAN(found.straight_minimum.mm);
    /* the first straight fits, the last does not */
    const fer_point hook[] = {at(0, 0, 0), at(500, 0, 0), at(500, 30, 0)};
    CHECK_STATUS(orient(hook, 3, 60, at(0, 0, 9), at(500, 30, 9), &found), FER_ROUTE_STRAIGHT_TOO_SHORT);
}

static void routes_that_are_wrong_are_refused(void **state)
{
    (void)state;
    const fer_point straight[] = {at(0, 0, 0), at(500, 0, 0)}, same[] = {at(0, 0, 0), at(0, 0, 0.0005)},
                    back[] = {at(0, 0, 0), at(500, 0, 0), at(0, 1, 0)}, up = at(0, 0, 50),
                    along = at(550, 0, 0);
    fer_orientation found;
    CHECK_STATUS(orient(straight, 2, 60, at(0, 0, 0), along, &found), FER_ELBOW_ALONG_HOSE);
    CHECK_STATUS(orient(straight, 2, 60, up, at(550, 0.08, 0), &found), FER_ELBOW_ALONG_HOSE);
    CHECK_OK(orient(straight, 2, 60, up, at(550, 0.09, 0), &found)); /* 0.1 degrees of 50 mm: 0.0873 mm */
    CHECK_STATUS(orient(straight, 1, 60, up, up, &found), FER_ROUTE_POINTS_TOO_FEW);
    CHECK_STATUS(orient(straight, 1001, 60, up, up, &found), FER_ARGUMENT_COUNT_TOO_LARGE);
    CHECK_STATUS(orient(NULL, 2, 60, up, up, &found), FER_ARGUMENT_MISSING);
    CHECK_STATUS(orient(same, 2, 60, up, up, &found), FER_ROUTE_POINTS_TOO_CLOSE);
    CHECK_STATUS(orient(back, 3, 60, up, up, &found), FER_ROUTE_TURNS_BACK);
    for (int i = 0; i < 9; i++) {
        fer_point points[3] = {straight[0], straight[1], up};
        fer_point *wrong = &points[i < 3 ? 1 : 2];
        *(i % 3 == 0 ? &wrong->x.mm : i % 3 == 1 ? &wrong->y.mm : &wrong->z.mm) = i < 6 ? 1.1e6 : NAN;
        CHECK_STATUS(fer_find_orientation(points, 2, fer_mm(50), fer_mm(20), &points[2], &up, &found),
                     FER_ROUTE_POINT_OUT_OF_RANGE);
        if (i > 2) {
            CHECK_STATUS(fer_find_orientation(points, 2, fer_mm(50), fer_mm(20), &up, &points[2], &found),
                         FER_ROUTE_POINT_OUT_OF_RANGE);
        }
    }
    CHECK_NAN(found.angle.rad);
    CHECK_STATUS(orient(straight, 2, 10, up, up, &found), FER_BEND_RADIUS_MISSING);
    CHECK_STATUS(fer_find_orientation(straight, 2, fer_mm(50), fer_mm(0), &up, &up, &found),
                 FER_HOSE_OUTSIDE_MISSING);
    CHECK_STATUS(fer_find_orientation(straight, 2, fer_mm(50), fer_mm(20), NULL, &up, &found),
                 FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_find_orientation(straight, 2, fer_mm(50), fer_mm(20), &up, NULL, &found),
                 FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_find_orientation(straight, 2, fer_mm(50), fer_mm(20), &up, &up, NULL),
                 FER_ARGUMENT_MISSING);
}

static void twist_is_the_smaller_way_round(void **state)
{
    (void)state;
    const double cases[][3] = {{100, 90, 10}, {350, 10, -20}, {10, 350, 20},
                               {180, 0, 180}, {0, 180, 180},  {90, 90, 0}};
    fer_twist twist;
    for (size_t i = 0; i < 6; i++) {
        CHECK_OK(fer_find_twist(deg(cases[i][0]), deg(cases[i][1]), fer_mm(500), &twist));
        CHECK_NEAR(fer_to_deg(twist.angle), cases[i][2], 1e-12);
        CHECK_NEAR(fer_to_deg(twist.per_metre), 2.0 * cases[i][2], 1e-12);
    }
    CHECK_STATUS(fer_find_twist(deg(600), deg(0), fer_mm(500), &twist), FER_ELBOW_ANGLE_OUT_OF_RANGE);
    CHECK_STATUS(fer_find_twist(deg(0), deg(NAN), fer_mm(500), &twist), FER_ELBOW_ANGLE_OUT_OF_RANGE);
    CHECK_STATUS(fer_find_twist(deg(0), deg(0), fer_mm(0), &twist), FER_CUT_LENGTH_MISSING);
    CHECK_NAN(twist.angle.rad);
    CHECK_NAN(twist.per_metre.rad);
    CHECK_STATUS(fer_find_twist(deg(0), deg(0), fer_mm(500), NULL), FER_ARGUMENT_MISSING);
}

/* ---- pressures ---------------------------------------------------------------------------------------------- */

static const fer_proof_factors usual = {0.0, 0.0};

static void the_weakest_part_decides_the_proof_pressure(void **state)
{
    (void)state;
    fer_proof_pressures found;
    for (int weakest = 0; weakest < 3; weakest++) {
        fer_ratings ratings = {{35}, {40}, {42}, {0}, {0}};
        *(weakest == 0 ? &ratings.hose : weakest == 1 ? &ratings.first : &ratings.second) = fer_mpa(27.5);
        CHECK_OK(fer_find_proof_pressure(&ratings, usual, &found));
        CHECK_NEAR(found.working.mpa, 27.5, 0.0);
        CHECK_NEAR(found.proof_pressure.mpa,
                   PUBLISHED(55.0, "EN 853; 2SN of DN 12: proof pressure of 27.5 MPa; from memory"), 0.0);
        CHECK_NEAR(found.burst.mpa,
                   PUBLISHED(110.0, "EN 853; 2SN of DN 12: burst pressure of 27.5 MPa; from memory"), 0.0);
    }
    assert_true(found.cautions.bits >> FER_CAUTION_PROOF_TEST & 1);
    assert_true(found.cautions.bits >> FER_CAUTION_HOSE_WHIPS & 1);
    assert_true(found.cautions.bits >> FER_CAUTION_APPROVED_PARTS_ONLY & 1);
    assert_true(found.cautions.bits >> FER_CAUTION_LAW_AND_LICENCE & 1);
    assert_true(found.cautions.bits >> FER_CAUTION_SCRAP_NOT_REPAIR & 1);
    assert_true(found.cautions.bits >> FER_CAUTION_OIL_UNDER_PRESSURE & 1);
}

static void less_may_be_asked_for_and_more_may_not(void **state)
{
    (void)state;
    fer_ratings ratings = {{27.5}, {40}, {35}, {20}, {0}};
    const fer_proof_factors own = {1.5, 3.0};
    fer_proof_pressures found;
    CHECK_OK(fer_find_proof_pressure(&ratings, own, &found));
    CHECK_NEAR(found.working.mpa, 20.0, 0.0);
    CHECK_NEAR(found.proof_pressure.mpa, 30.0, 0.0);
    CHECK_NEAR(found.burst.mpa, 60.0, 0.0);
    ratings.asked = fer_mpa(27.5);
    CHECK_OK(fer_find_proof_pressure(&ratings, usual, &found));
    ratings.asked = fer_mpa(27.6);
    CHECK_STATUS(fer_find_proof_pressure(&ratings, usual, &found), FER_RATING_BELOW_ASKED);
    CHECK_NAN(found.working.mpa);
    CHECK_NAN(found.proof_pressure.mpa);
    CHECK_NAN(found.burst.mpa);
    assert_true(found.cautions.bits == 0);
    ratings.asked = fer_mpa(0);
    ratings.allowed = fer_mpa(55);
    CHECK_OK(fer_find_proof_pressure(&ratings, usual, &found));
    ratings.allowed = fer_mpa(54.9);
    CHECK_STATUS(fer_find_proof_pressure(&ratings, usual, &found), FER_PROOF_ABOVE_ALLOWED);
    CHECK_NAN(found.proof_pressure.mpa);
}

static void a_rating_that_is_not_known_is_no_rating(void **state)
{
    (void)state;
    fer_proof_pressures found;
    for (int i = 0; i < 5; i++) {
        const double wrong[] = {0.0, 0.0005, -1.0, NAN, 4001.0};
        for (int w = 0; w < 5; w++) {
            fer_ratings ratings = {{27.5}, {40}, {35}, {20}, {100}};
            *(i == 0   ? &ratings.hose
              : i == 1 ? &ratings.first
              : i == 2 ? &ratings.second
              : i == 3 ? &ratings.asked
                       : &ratings.allowed) = fer_mpa(wrong[w]);
            CHECK_STATUS(fer_find_proof_pressure(&ratings, usual, &found), w > 0   ? FER_RATING_OUT_OF_RANGE
                                                                           : i < 3 ? FER_RATING_MISSING
                                                                                   : FER_OK);
        }
    }
    const fer_ratings ratings = {{27.5}, {40}, {35}, {0}, {0}};
    const fer_proof_factors wrong[] = {{0.9, 0}, {11, 0}, {NAN, 0}, {0, 0.9}, {0, 101}, {0, NAN}};
    for (int i = 0; i < 6; i++) {
        CHECK_STATUS(fer_find_proof_pressure(&ratings, wrong[i], &found), FER_PROOF_FACTOR_OUT_OF_RANGE);
    }
    CHECK_STATUS(fer_find_proof_pressure(NULL, usual, &found), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_find_proof_pressure(&ratings, usual, NULL), FER_ARGUMENT_MISSING);
}

/* ---- thrust and grip ---------------------------------------------------------------------------------------- */

static void thrust_is_pressure_on_the_circle_that_seals(void **state)
{
    (void)state;
    fer_force thrust;
    const double cases[][2] = {
        {27.5, 3622.113976}, {55, 7244.227952}, {110, 14488.45590}, {0, 0}}; /* mpmath */
    for (size_t i = 0; i < 4; i++) {
        CHECK_OK(fer_end_thrust(fer_mpa(cases[i][0]), fer_mm(12.95), &thrust));
        CHECK_NEAR(thrust.newton, cases[i][1], 5e-6);
    }
    CHECK_STATUS(fer_end_thrust(fer_mpa(-1), fer_mm(12.95), &thrust), FER_LINE_PRESSURE_OUT_OF_RANGE);
    CHECK_STATUS(fer_end_thrust(fer_mpa(4001), fer_mm(12.95), &thrust), FER_LINE_PRESSURE_OUT_OF_RANGE);
    CHECK_STATUS(fer_end_thrust(fer_mpa(55), fer_mm(0), &thrust), FER_SEAL_DIAMETER_MISSING);
    CHECK_STATUS(fer_end_thrust(fer_mpa(55), fer_mm(NAN), &thrust), FER_SEAL_DIAMETER_OUT_OF_RANGE);
    CHECK_NAN(thrust.newton);
    CHECK_STATUS(fer_end_thrust(fer_mpa(55), fer_mm(12.95), NULL), FER_ARGUMENT_MISSING);
}

/* The worked joint, crimped to 23.51 mm over 34 mm, at its proof pressure. */
static fer_holding worked_holding(void)
{
    fer_holding h = {0};
    h.pressure = fer_mpa(55);
    h.stem_outside = fer_mm(12.95);
    h.length = fer_mm(34);
    h.squeeze = fer_mpa(12);
    return h;
}

static void friction_that_is_needed_needs_no_assumption(void **state)
{
    (void)state;
    fer_holding h = worked_holding();
    fer_grip grip;
    CHECK_OK(fer_find_grip(&h, &grip));
    CHECK_NEAR(grip.thrust.newton, 7244.227952, 1e-6); /* this and what follows with mpmath */
    CHECK_NEAR(grip.area.mm2, 1383.243245, 1e-6);
    CHECK_NEAR(grip.friction_needed.fraction, 0.4364276961, 1e-10);
    assert_int_equal(grip.unsealed.status, FER_FERRULE_BORE_MISSING);
    assert_int_equal(grip.friction_grip.status, FER_FRICTION_MISSING);
    assert_int_equal(grip.margin.status, FER_FRICTION_MISSING);
    assert_int_equal(grip.squeeze_maximum.status, FER_FERRULE_BORE_MISSING);
    assert_int_equal(grip.grip_maximum.status, FER_FERRULE_BORE_MISSING);
    CHECK_NAN(grip.unsealed.value.newton);
    CHECK_NAN(grip.friction_grip.value.newton);
    CHECK_NAN(grip.margin.value.fraction);
    CHECK_NAN(grip.squeeze_maximum.value.mpa);
    CHECK_NAN(grip.grip_maximum.value.newton);
    assert_int_equal(grip.below_thrust, 0);
    assert_int_equal(grip.cannot_hold, 0);
    h.hose_inside = fer_mm(13.0); /* a hose wider than the stem */
    CHECK_OK(fer_find_grip(&h, &grip));
    CHECK_NEAR(grip.thrust.newton, 55.0 * pi / 4.0 * 169.0, 1e-9);
}

static void both_faces_hold_where_the_ferrule_is_fixed(void **state)
{
    (void)state;
    fer_holding h = worked_holding();
    fer_grip grip;
    h.ferrule_bore = fer_mm(18.71);
    CHECK_OK(fer_find_grip(&h, &grip));
    CHECK_NEAR(grip.area.mm2, 1383.243245, 1e-6);
    assert_int_equal(grip.squeeze_maximum.status, FER_FERRULE_OUTSIDE_MISSING);
    h.ferrule_fixed = 1;
    h.friction = fer_percent(25);
    h.ferrule_outside = fer_mm(23.51);
    h.ferrule_outside = fer_mm(18.71);
    CHECK_STATUS(fer_find_grip(&h, &grip), FER_FERRULE_OUTSIDE_NOT_ABOVE_BORE);
    h.ferrule_outside = fer_mm(23.51);
    CHECK_OK(fer_find_grip(&h, &grip));
    assert_int_equal(grip.squeeze_maximum.status, FER_MATERIAL_YIELD_STRENGTH_MISSING);
    h.yield_strength = fer_mpa(280);
    CHECK_OK(fer_find_grip(&h, &grip));
    CHECK_NEAR(grip.area.mm2, 1383.243245 + 1998.492751, 2e-6);
    CHECK_NEAR(grip.friction_needed.fraction, 0.1785135396, 1e-10);
    CHECK_NEAR(grip.unsealed.value.newton, 7244.227952 * (18.71 / 12.95) * (18.71 / 12.95), 1e-5);
    CHECK_NEAR(grip.friction_grip.value.newton, 10145.20799, 1e-5);
    CHECK_NEAR(grip.margin.value.fraction, 1.400453997, 1e-9);
    CHECK_NEAR(grip.squeeze_maximum.value.mpa, 73.83497292, 1e-8);
    CHECK_NEAR(grip.grip_maximum.value.newton, 10145.20799 * 73.83497292 / 12.0, 1e-4);
    assert_int_equal(grip.below_thrust, 0);
    assert_int_equal(grip.cannot_hold, 0);
    assert_true(grip.cautions.bits >> FER_CAUTION_HOSE_WHIPS & 1);
}

static void a_grip_below_the_thrust_is_said(void **state)
{
    (void)state;
    fer_holding h = worked_holding();
    fer_grip grip;
    h.ferrule_bore = fer_mm(18.71);
    h.ferrule_fixed = 1;
    h.ferrule_outside = fer_mm(23.51);
    h.yield_strength = fer_mpa(280);
    CHECK_OK(fer_find_grip(&h, &grip));
    assert_int_equal(grip.grip_maximum.status, FER_FRICTION_MISSING);
    h.friction = fer_fraction(0.999 * grip.friction_needed.fraction);
    CHECK_OK(fer_find_grip(&h, &grip));
    assert_int_equal(grip.below_thrust, 1);
    assert_int_equal(grip.cannot_hold, 0);
    h.yield_strength = fer_mpa(1); /* keeps up 0.26 MPa: a squeeze of 12 MPa is none it can have */
    h.friction = fer_percent(50);
    CHECK_OK(fer_find_grip(&h, &grip));
    CHECK_NEAR(grip.squeeze_maximum.value.mpa, 73.83497292 / 280.0, 1e-9);
    CHECK_NEAR(grip.friction_grip.value.newton, grip.grip_maximum.value.newton, 0.0);
    CHECK_NEAR(grip.friction_needed.fraction, 0.1785135396 * 12.0 / (73.83497292 / 280.0), 1e-7);
    assert_int_equal(grip.below_thrust, 1);
    assert_int_equal(grip.cannot_hold, 1);
}

static void grips_of_wrong_figures_are_not_computed(void **state)
{
    (void)state;
    const struct {
        size_t member;
        double value;
        fer_status status;
    } cases[] = {{offsetof(fer_holding, pressure), 0, FER_LINE_PRESSURE_MISSING},
                 {offsetof(fer_holding, pressure), 0.0005, FER_LINE_PRESSURE_OUT_OF_RANGE},
                 {offsetof(fer_holding, pressure), 4001, FER_LINE_PRESSURE_OUT_OF_RANGE},
                 {offsetof(fer_holding, stem_outside), 0, FER_STEM_OUTSIDE_MISSING},
                 {offsetof(fer_holding, stem_outside), -1, FER_STEM_OUTSIDE_OUT_OF_RANGE},
                 {offsetof(fer_holding, hose_inside), -1, FER_HOSE_INSIDE_OUT_OF_RANGE},
                 {offsetof(fer_holding, length), 0, FER_SQUEEZE_LENGTH_MISSING},
                 {offsetof(fer_holding, length), -1, FER_SQUEEZE_LENGTH_OUT_OF_RANGE},
                 {offsetof(fer_holding, squeeze), 0, FER_SQUEEZE_MISSING},
                 {offsetof(fer_holding, squeeze), 1001, FER_SQUEEZE_OUT_OF_RANGE},
                 {offsetof(fer_holding, ferrule_bore), 12.95, FER_FERRULE_BORE_NOT_ABOVE_STEM},
                 {offsetof(fer_holding, ferrule_bore), 2e6, FER_FERRULE_BORE_OUT_OF_RANGE},
                 {offsetof(fer_holding, friction), 2.1, FER_FRICTION_OUT_OF_RANGE},
                 {offsetof(fer_holding, friction), 0.0005, FER_FRICTION_OUT_OF_RANGE},
                 {offsetof(fer_holding, ferrule_outside), NAN, FER_FERRULE_OUTSIDE_OUT_OF_RANGE},
                 {offsetof(fer_holding, yield_strength), 10001, FER_MATERIAL_YIELD_STRENGTH_OUT_OF_RANGE}};
    fer_grip grip;
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        fer_holding h = worked_holding();
        memcpy((char *)&h + cases[i].member, &cases[i].value, sizeof(double));
        CHECK_STATUS(fer_find_grip(&h, &grip), cases[i].status);
        CHECK_NAN(grip.thrust.newton);
        CHECK_NAN(grip.area.mm2);
        CHECK_NAN(grip.friction_needed.fraction);
        CHECK_NAN(grip.unsealed.value.newton);
        CHECK_NAN(grip.friction_grip.value.newton);
        CHECK_NAN(grip.margin.value.fraction);
        CHECK_NAN(grip.squeeze_maximum.value.mpa);
        CHECK_NAN(grip.grip_maximum.value.newton);
        assert_int_equal(grip.unsealed.status, cases[i].status);
        assert_int_equal(grip.friction_grip.status, cases[i].status);
        assert_true(grip.cautions.bits == 0);
    }
    CHECK_STATUS(fer_find_grip(NULL, &grip), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_find_grip(NULL, NULL), FER_ARGUMENT_MISSING);
}

/* ---- verdicts ------------------------------------------------------------------------------------------------ */

static const fer_guard guard = {0}, without = {.without = 1};

/* Limits 1246 to 1262, a tape good for 1 mm: 1.65 mm are kept inside and outside of each. */
static void a_length_passes_inside_its_guard_bands(void **state)
{
    (void)state;
    const fer_length_range limits = {{1246}, {1262}};
    const struct {
        double measured, uncertainty;
        fer_guard guard;
        fer_outcome outcome;
    } cases[] = {{1254, 1, guard, FER_OUTCOME_PASSED},      {1247.7, 1, guard, FER_OUTCOME_PASSED},
                 {1247.6, 1, guard, FER_OUTCOME_UNDECIDED}, {1244.4, 1, guard, FER_OUTCOME_UNDECIDED},
                 {1244.3, 1, guard, FER_OUTCOME_FAILED},    {1263.7, 1, guard, FER_OUTCOME_FAILED},
                 {1254, 0, guard, FER_OUTCOME_UNDECIDED},   {1254, 0, without, FER_OUTCOME_PASSED},
                 {1262.1, 0, without, FER_OUTCOME_FAILED},  {1300, 0, guard, FER_OUTCOME_UNDECIDED}};
    fer_outcome outcome;
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        CHECK_OK(fer_check_assembly_length(fer_mm(cases[i].measured), fer_mm(cases[i].uncertainty), limits,
                                           cases[i].guard, &outcome));
        assert_int_equal(outcome, cases[i].outcome);
    }
    const fer_length_range crossed = {{1262}, {1246}};
    CHECK_STATUS(fer_check_assembly_length(fer_mm(0), fer_mm(1), limits, guard, &outcome),
                 FER_OVERALL_LENGTH_MISSING);
    assert_int_equal(outcome, FER_OUTCOME_NOT_DONE);
    CHECK_STATUS(fer_check_assembly_length(fer_mm(1254), fer_mm(1), crossed, guard, &outcome),
                 FER_LIMIT_WRONG_ORDER);
    assert_int_equal(outcome, FER_OUTCOME_NOT_DONE);
    CHECK_STATUS(fer_check_assembly_length(fer_mm(1254), fer_mm(1), limits, guard, NULL),
                 FER_ARGUMENT_MISSING);
}

static void an_orientation_passes_either_way_round(void **state)
{
    (void)state;
    const struct {
        double measured, needed;
        fer_outcome outcome;
    } cases[] = {{92, 90, FER_OUTCOME_PASSED},      {359, 1, FER_OUTCOME_PASSED},
                 {1, 359, FER_OUTCOME_PASSED},      {94.9, 90, FER_OUTCOME_UNDECIDED},
                 {85.1, 90, FER_OUTCOME_UNDECIDED}, {97, 90, FER_OUTCOME_FAILED},
                 {270, 90, FER_OUTCOME_FAILED}};
    fer_outcome outcome;
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        CHECK_OK(fer_check_orientation(deg(cases[i].measured), deg(0.5), deg(cases[i].needed), deg(5), guard,
                                       &outcome));
        assert_int_equal(outcome, cases[i].outcome);
    }
    CHECK_OK(fer_check_orientation(deg(92), deg(0), deg(90), deg(5), guard, &outcome));
    assert_int_equal(outcome, FER_OUTCOME_UNDECIDED);
    CHECK_STATUS(fer_check_orientation(deg(600), deg(1), deg(90), deg(5), guard, &outcome),
                 FER_ELBOW_ANGLE_OUT_OF_RANGE);
    assert_int_equal(outcome, FER_OUTCOME_NOT_DONE);
    CHECK_STATUS(fer_check_orientation(deg(90), deg(-1), deg(90), deg(5), guard, &outcome),
                 FER_ELBOW_TOLERANCE_OUT_OF_RANGE);
    CHECK_STATUS(fer_check_orientation(deg(90), deg(175), deg(90), deg(5), guard, &outcome),
                 FER_ELBOW_TOLERANCE_OUT_OF_RANGE);
    CHECK_STATUS(fer_check_orientation(deg(90), deg(1), deg(90), deg(0), guard, &outcome),
                 FER_ELBOW_TOLERANCE_MISSING);
    CHECK_STATUS(fer_check_orientation(deg(90), deg(1), deg(90), deg(0.001), guard, &outcome),
                 FER_ELBOW_TOLERANCE_OUT_OF_RANGE);
    CHECK_STATUS(fer_check_orientation(deg(90), deg(1), deg(90), deg(175), guard, &outcome),
                 FER_ELBOW_TOLERANCE_OUT_OF_RANGE);
    CHECK_STATUS(fer_check_orientation(deg(90), deg(1), deg(90), deg(5), guard, NULL), FER_ARGUMENT_MISSING);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_cut_length_is_what_the_ends_leave),
        cmocka_unit_test(ends_that_are_wrong_give_no_length),
        cmocka_unit_test(lengths_that_are_wrong_are_refused),
        cmocka_unit_test(pressure_makes_a_hose_shorter_or_longer),
        cmocka_unit_test(a_change_of_length_that_is_wrong_is_refused),
        cmocka_unit_test(the_first_row_for_bore_and_length_counts),
        cmocka_unit_test(rows_and_figures_that_are_wrong_give_no_limits),
        cmocka_unit_test(a_bend_is_as_long_as_its_centre_line),
        cmocka_unit_test(an_offset_takes_two_bends),
        cmocka_unit_test(a_moving_end_takes_half_its_stroke),
        cmocka_unit_test(bends_that_are_wrong_are_refused),
        cmocka_unit_test(the_angle_is_the_same_from_both_ends),
        cmocka_unit_test(clockwise_is_seen_along_the_hose),
        cmocka_unit_test(bends_may_just_meet),
        cmocka_unit_test(routes_that_are_wrong_are_refused),
        cmocka_unit_test(twist_is_the_smaller_way_round),
        cmocka_unit_test(the_weakest_part_decides_the_proof_pressure),
        cmocka_unit_test(less_may_be_asked_for_and_more_may_not),
        cmocka_unit_test(a_rating_that_is_not_known_is_no_rating),
        cmocka_unit_test(thrust_is_pressure_on_the_circle_that_seals),
        cmocka_unit_test(friction_that_is_needed_needs_no_assumption),
        cmocka_unit_test(both_faces_hold_where_the_ferrule_is_fixed),
        cmocka_unit_test(a_grip_below_the_thrust_is_said),
        cmocka_unit_test(grips_of_wrong_figures_are_not_computed),
        cmocka_unit_test(a_length_passes_inside_its_guard_bands),
        cmocka_unit_test(an_orientation_passes_either_way_round),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
