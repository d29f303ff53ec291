/* SPDX-License-Identifier: MIT */
/* Length of a route in space, and how the elbows at its ends have to stand to each other.
 * Method: straights and arcs; the first elbow's direction is turned along by the smallest rotation at each corner.
 * Formulas: include/ferrule/hoseline.h; docs/hoseline.md. */
#include <ferrule/hoseline.h>

#include "base/acceptance_private.h"
#include "base/value_private.h"
#include "shop/hoseline_private.h"
#include "base/numeric/pi.h"

typedef struct {
    double x, y, z;
} vector;

static vector add_times(vector a, double times, vector b)
{
    const vector sum = {a.x + times * b.x, a.y + times * b.y, a.z + times * b.z};
    return sum;
}

static double dot(vector a, vector b)
{
    return a.x * b.x + a.y * b.y + a.z * b.z;
}

static vector cross(vector a, vector b)
{
    const vector product = {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
    return product;
}

static double norm(vector a)
{
    return sqrt(dot(a, a));
}

static vector between(const fer_point *from, const fer_point *to)
{
    const vector v = {to->x.mm - from->x.mm, to->y.mm - from->y.mm, to->z.mm - from->z.mm};
    return v;
}

/* Direction from a point to the next, and how far that is. */
static vector direction(const fer_point *points, double *length)
{
    const vector v = between(points, points + 1);
    const vector zero = {0.0, 0.0, 0.0};
    *length = norm(v);
    return add_times(zero, 1.0 / *length, v);
}

/* The smallest rotation that takes direction a to direction b, of any vector. */
static vector turned(vector v, vector a, vector b)
{
    const vector axis = cross(a, b), zero = {0.0, 0.0, 0.0};
    const double cosine = dot(a, b);
    const vector along = add_times(add_times(zero, cosine, v), 1.0, cross(axis, v));
    return add_times(along, dot(axis, v) / (1.0 + cosine), axis);
}

static int is_point(const fer_point *point)
{
    return fer_is_place(point->x.mm) && fer_is_place(point->y.mm) && fer_is_place(point->z.mm);
}

static fer_status check_points(const fer_point *points, size_t count, const fer_point *first_tip,
                               const fer_point *last_tip)
{
    FER_REQUIRE(first_tip && last_tip, FER_ARGUMENT_MISSING);
    FER_REQUIRE(count >= 2, FER_ROUTE_POINTS_TOO_FEW);
    FER_REQUIRE(count <= FER_ROUTE_POINTS_MAXIMUM, FER_ARGUMENT_COUNT_TOO_LARGE);
    FER_REQUIRE(points, FER_ARGUMENT_MISSING);
    FER_REQUIRE(is_point(first_tip) && is_point(last_tip), FER_ROUTE_POINT_OUT_OF_RANGE);
    for (size_t i = 0; i < count; i++) {
        FER_REQUIRE(is_point(&points[i]), FER_ROUTE_POINT_OUT_OF_RANGE);
    }
    for (size_t i = 1; i < count; i++) {
        FER_REQUIRE(norm(between(&points[i - 1], &points[i])) >= FER_LENGTH_MINIMUM_MM,
                    FER_ROUTE_POINTS_TOO_CLOSE);
    }
    return FER_OK;
}

/* What an elbow's direction is square to the hose. */
static fer_status find_elbow(const fer_point *end, const fer_point *tip, vector along, vector *elbow)
{
    const vector to_tip = between(end, tip);
    const double smallest_sine = 0.1 / 180.0 * pi;
    *elbow = add_times(to_tip, -dot(to_tip, along), along);
    FER_REQUIRE(norm(*elbow) > smallest_sine * norm(to_tip), FER_ELBOW_ALONG_HOSE);
    return FER_OK;
}

/* A straight that is left between two bends. Bends that just meet must not be lost to rounding. */
static fer_status take_straight(double length, double taken, double *shortest)
{
    const double left = length - taken;
    FER_REQUIRE(left >= -1e-12 * (length + taken), FER_ROUTE_STRAIGHT_TOO_SHORT);
    *shortest = fmin(*shortest, fmax(left, 0.0));
    return FER_OK;
}

/* Goes along the route; the vector is turned along with it, and the last direction is left. */
static fer_status follow(const fer_point *points, size_t count, double radius, vector *carried, vector *last,
                         fer_orientation *orientation)
{
    double length, sum = 0.0, taken = 0.0, shortest = INFINITY;
    vector before = direction(points, &length);
    for (size_t i = 1; i + 1 < count; i++) {
        double next_length;
        const vector next = direction(points + i, &next_length);
        const double angle = atan2(norm(cross(before, next)), dot(before, next));
        FER_REQUIRE(angle <= 179.0 / 180.0 * pi, FER_ROUTE_TURNS_BACK);
        const double tangent = radius * sin(angle / 2.0) / cos(angle / 2.0);
        FER_TRY(take_straight(length, taken + tangent, &shortest));
        sum += length - taken - tangent + radius * angle;
        *carried = turned(*carried, before, next);
        taken = tangent;
        before = next;
        length = next_length;
    }
    FER_TRY(take_straight(length, taken, &shortest));
    *last = before;
    orientation->length.mm = sum + (length - taken);
    orientation->straight_minimum.mm = shortest;
    return FER_OK;
}

/* From one direction to another, clockwise for one who looks along the hose; 0 to below a whole turn. */
static double clockwise(vector from, vector to, vector along)
{
    const double angle = atan2(dot(along, cross(from, to)), dot(from, to));
    const double turn = angle < 0.0 ? angle + 2.0 * pi : angle;
    return turn < 2.0 * pi ? turn : 0.0;
}

static fer_status find_orientation(const fer_point *points, size_t count, double radius,
                                   const fer_point *first_tip, const fer_point *last_tip,
                                   fer_orientation *orientation)
{
    vector carried, elbow, last;
    double length;
    fer_orientation found;
    FER_TRY(find_elbow(points, first_tip, direction(points, &length), &carried));
    FER_TRY(follow(points, count, radius, &carried, &last, &found));
    FER_TRY(find_elbow(&points[count - 1], last_tip, last, &elbow));
    found.angle.rad = clockwise(carried, elbow, last);
    *orientation = found;
    return FER_OK;
}

fer_status fer_find_orientation(const fer_point *points, size_t count, fer_length bend_radius,
                                fer_length hose_outside, const fer_point *first_tip,
                                const fer_point *last_tip, fer_orientation *orientation)
{
    FER_REQUIRE(orientation, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*orientation);
    FER_TRY(check_points(points, count, first_tip, last_tip));
    FER_TRY(fer_check_bend(bend_radius, hose_outside));
    return find_orientation(points, count, fer_centre_radius(bend_radius, hose_outside), first_tip, last_tip,
                            orientation);
}
