/* SPDX-License-Identifier: MIT */
/* The shape that a die leaves, and the round crimp that is equivalent to it.
 * Method: geometry of arcs that have moved out, in double-double arithmetic where it cancels.
 * Formulas: include/ferrule/lobe.h; docs/lobe.md. */
#include <ferrule/lobe.h>

#include "base/numeric/angle.h"
#include "base/value_private.h"
#include "crimp/compression_private.h"
#include "crimp/lobe_private.h"
#include "base/numeric/pair.h"
#include "base/numeric/pi.h"

/* A die at its stop: radius of the arcs, how far their centres moved out, half the angle of a segment. */
typedef struct {
    double arc, moved, half_angle;
    fer_pair offset; /* twice what the centres moved out, with all digits */
} stopped_die;

static fer_status check_segments(int segments)
{
    FER_REQUIRE(fer_is_segments(segments), FER_SEGMENTS_OUT_OF_RANGE);
    return FER_OK;
}

static fer_status check_stop(fer_length diameter, fer_length die_size, int segments)
{
    FER_TRY(fer_check_length(die_size, FER_DIE_SIZE_MISSING, FER_DIE_SIZE_OUT_OF_RANGE));
    FER_TRY(fer_check_length(diameter, FER_DIAMETER_MISSING, FER_DIAMETER_OUT_OF_RANGE));
    FER_REQUIRE(die_size.mm <= diameter.mm, FER_DIE_ABOVE_DIAMETER);
    return check_segments(segments);
}

static stopped_die stop_die(fer_length diameter, fer_length die_size, double half_angle)
{
    stopped_die die;
    die.arc = 0.5 * die_size.mm;
    die.moved = 0.5 * (diameter.mm - die_size.mm);
    die.half_angle = half_angle;
    die.offset = fer_pair_sum(diameter.mm, -die_size.mm);
    return die;
}

static stopped_die stop_die_of(fer_length diameter, fer_length die_size, int segments)
{
    return stop_die(diameter, die_size, fer_half_angle_pair(segments).high);
}

/* Of a quarter of a segment's angle. */
static fer_pair sine_square_of(fer_pair half_angle)
{
    const fer_pair half = fer_sine_pair(fer_pair_scale(half_angle, 0.5));
    return fer_pair_multiply(half, half);
}

fer_segment_angles fer_find_segment_angles(int segments)
{
    fer_segment_angles angles;
    angles.half = fer_half_angle_pair(segments);
    angles.sine = fer_sine_pair(angles.half);
    angles.quarter_sine_square = sine_square_of(angles.half);
    angles.cosine = cos(angles.half.high);
    angles.quarter_cosine = cos(0.5 * angles.half.high);
    angles.segments = segments;
    return angles;
}

/* Radii in the middle and at the edge, difference of their squares. */
typedef struct {
    fer_pair middle, edge, squares;
} segment_radii;

static segment_radii find_radii(const stopped_die *die, fer_pair sine_square)
{
    segment_radii radii;
    radii.squares =
        fer_pair_multiply(fer_pair_multiply(die->offset, fer_pair_of(2.0 * die->arc)), sine_square);
    radii.middle = fer_pair_add(fer_pair_scale(die->offset, 0.5), fer_pair_of(die->arc));
    radii.edge =
        fer_pair_root(fer_pair_subtract(fer_pair_multiply(radii.middle, radii.middle), radii.squares));
    return radii;
}

/* Middle radius minus edge radius, by the difference of their squares, which does not cancel. */
static double lobe_height(const segment_radii *radii)
{
    return fer_pair_ratio(radii->squares, fer_pair_add(radii->middle, radii->edge));
}

fer_length fer_lobe_height_checked(fer_length diameter, fer_length die_size, int segments)
{
    const fer_pair half_angle = fer_half_angle_pair(segments);
    const stopped_die die = stop_die(diameter, die_size, half_angle.high);
    const segment_radii radii = find_radii(&die, sine_square_of(half_angle));
    return (fer_length){lobe_height(&radii)};
}

static fer_status find_lobe_height(fer_length diameter, fer_length die_size, int segments, fer_length *height)
{
    FER_TRY(check_stop(diameter, die_size, segments));
    *height = fer_lobe_height_checked(diameter, die_size, segments);
    return FER_OK;
}

fer_status fer_lobe_height(fer_length diameter, fer_length die_size, int segments, fer_length *height)
{
    FER_REQUIRE(height, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*height);
    return find_lobe_height(diameter, die_size, segments, height);
}

/* Angle between middle and edge as seen from the crimp's centre: by doubles, and what their rounding has changed. */
static fer_pair find_edge_angle(const stopped_die *die, const segment_radii *radii,
                                const fer_segment_angles *angles)
{
    const fer_pair less = fer_pair_multiply(fer_pair_of(2.0 * die->arc), angles->quarter_sine_square);
    const fer_pair along = fer_pair_subtract(radii->middle, less);
    const fer_pair across = fer_pair_multiply(fer_pair_of(die->arc), angles->sine);
    const double turned = along.high * across.low - across.high * along.low;
    return fer_pair_quick_sum(atan2(across.high, along.high), turned / (radii->edge.high * radii->edge.high));
}

/* What moving out adds to the square of the chords diameter: gap (2d + (D - d) cos alpha) / alpha. */
static fer_pair find_moved_square(const stopped_die *die, fer_pair gap, const fer_segment_angles *angles)
{
    const fer_pair less = fer_pair_scale(fer_pair_multiply(die->offset, angles->quarter_sine_square), 2.0);
    const fer_pair along = fer_pair_subtract(fer_pair_add(die->offset, fer_pair_of(4.0 * die->arc)), less);
    return fer_pair_divide(fer_pair_multiply(gap, along), angles->half);
}

static void find_equivalent_diameters(const stopped_die *die, fer_pair gap, fer_pair edge_angle,
                                      const fer_segment_angles *angles, fer_shape *shape)
{
    const double size = 2.0 * die->arc;
    const fer_pair round = fer_pair_multiply(fer_pair_of(size), angles->half);
    const fer_pair under_arcs = fer_pair_multiply(fer_pair_of(size), fer_pair_add(round, gap));
    const fer_pair moved = find_moved_square(die, gap, angles);
    shape->arcs_diameter.mm = sqrt(fer_pair_ratio(under_arcs, edge_angle));
    shape->chords_diameter.mm = sqrt(fer_pair_value(fer_pair_add(fer_pair_product(size, size), moved)));
    shape->tape_diameter.mm = size + fer_pair_value(fer_pair_divide(gap, angles->half));
}

static void find_jaws_range(const stopped_die *die, const fer_segment_angles *angles, fer_shape *shape)
{
    const double size = 2.0 * die->arc, offset = 2.0 * die->moved;
    if (angles->segments % 2 == 0) {
        shape->jaws_minimum.mm = size + offset * angles->cosine;
        shape->jaws_maximum.mm = size + offset;
    } else {
        shape->jaws_minimum.mm = size + offset * 0.5 * (1.0 + angles->cosine);
        shape->jaws_maximum.mm = size + offset * angles->quarter_cosine;
    }
}

void fer_crimp_shape_checked(fer_length diameter, fer_length die_size, const fer_segment_angles *angles,
                             fer_shape *shape)
{
    const stopped_die die = stop_die(diameter, die_size, angles->half.high);
    const segment_radii radii = find_radii(&die, angles->quarter_sine_square);
    const fer_pair gap = fer_pair_multiply(die.offset, angles->sine);
    const fer_pair edge_angle = find_edge_angle(&die, &radii, angles);
    shape->lobe_height.mm = lobe_height(&radii);
    shape->gap.mm = fer_pair_value(gap);
    shape->edge_angle.rad = fer_pair_value(edge_angle);
    shape->edge_radius.mm = fer_pair_value(radii.edge);
    find_equivalent_diameters(&die, gap, edge_angle, angles, shape);
    find_jaws_range(&die, angles, shape);
}

static void find_shape(fer_length diameter, fer_length die_size, int segments, fer_shape *shape)
{
    const fer_segment_angles angles = fer_find_segment_angles(segments);
    fer_crimp_shape_checked(diameter, die_size, &angles, shape);
}

fer_status fer_crimp_shape(fer_length diameter, fer_length die_size, int segments, fer_shape *shape)
{
    FER_REQUIRE(shape, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*shape);
    FER_TRY(check_stop(diameter, die_size, segments));
    find_shape(diameter, die_size, segments, shape);
    return FER_OK;
}

static fer_status find_arc_radius(fer_length diameter, fer_length die_size, int segments, double angle,
                                  fer_length *radius)
{
    FER_TRY(check_stop(diameter, die_size, segments));
    const stopped_die die = stop_die_of(diameter, die_size, segments);
    const double edge = atan2(die.arc * sin(die.half_angle), die.moved + die.arc * cos(die.half_angle));
    FER_REQUIRE(fabs(angle) <= edge, FER_ANGLE_OUT_OF_RANGE);
    const double across = die.moved * sin(angle);
    radius->mm = die.moved * cos(angle) + sqrt((die.arc - across) * (die.arc + across));
    return FER_OK;
}

fer_status fer_arc_radius(fer_length diameter, fer_length die_size, int segments, fer_angle angle,
                          fer_length *radius)
{
    FER_REQUIRE(radius, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*radius);
    return find_arc_radius(diameter, die_size, segments, angle.rad, radius);
}

/* Angle to the nearest middle of a segment. */
static double from_nearest_middle(double angle, double half_angle)
{
    return fabs(remainder(angle, 2.0 * half_angle));
}

static fer_status find_jaws_reading(fer_length diameter, fer_length die_size, int segments, double angle,
                                    fer_length *reading)
{
    FER_TRY(check_stop(diameter, die_size, segments));
    const stopped_die die = stop_die_of(diameter, die_size, segments);
    FER_REQUIRE(fer_is_finite(angle), FER_ANGLE_OUT_OF_RANGE);
    const double first = from_nearest_middle(angle, die.half_angle);
    /* with even N middles face middles; with odd N a middle faces a gap */
    const double second = segments % 2 == 0 ? first : die.half_angle - first;
    reading->mm = 2.0 * die.arc + die.moved * (cos(first) + cos(second));
    return FER_OK;
}

fer_status fer_jaws_reading(fer_length diameter, fer_length die_size, int segments, fer_angle angle,
                            fer_length *reading)
{
    FER_REQUIRE(reading, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*reading);
    return find_jaws_reading(diameter, die_size, segments, angle.rad, reading);
}

static fer_status find_lobe_offset(fer_length die_size, int segments, double height, fer_length *offset)
{
    FER_TRY(fer_check_length(die_size, FER_DIE_SIZE_MISSING, FER_DIE_SIZE_OUT_OF_RANGE));
    FER_TRY(check_segments(segments));
    const double half = sin(0.5 * pi / segments), greatest = die_size.mm * half * half;
    FER_REQUIRE(height >= 0.0 && height < greatest, FER_LOBE_HEIGHT_OUT_OF_RANGE);
    offset->mm = height * (die_size.mm - height) / (greatest - height);
    return FER_OK;
}

fer_status fer_lobe_offset(fer_length die_size, int segments, fer_length height, fer_length *offset)
{
    FER_REQUIRE(offset, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*offset);
    return find_lobe_offset(die_size, segments, height.mm, offset);
}

fer_status fer_gap_offset(fer_length wall, int segments, fer_ratio share, fer_length *offset)
{
    FER_REQUIRE(offset, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*offset);
    FER_TRY(fer_check_length(wall, FER_FERRULE_WALL_MISSING, FER_FERRULE_WALL_OUT_OF_RANGE));
    FER_TRY(check_segments(segments));
    FER_REQUIRE(share.fraction >= 0.0 && share.fraction <= 100.0, FER_GAP_SHARE_OUT_OF_RANGE);
    const fer_pair gap = fer_pair_product(share.fraction, wall.mm);
    offset->mm = fer_pair_value(fer_pair_divide(gap, fer_sine_pair(fer_half_angle_pair(segments))));
    return FER_OK;
}

fer_status fer_equivalent_crimp_checked(const fer_joint *joint, const fer_shape *shape, fer_model model,
                                        fer_status basis, fer_equivalent_crimp *equivalent)
{
    fer_length wall;
    fer_ratio compression;
    FER_TRY(fer_crimped_wall_checked(joint, shape->arcs_diameter, model.flow, &wall));
    FER_TRY(basis);
    FER_TRY(fer_compression_checked(joint, shape->arcs_diameter, model, &compression));
    equivalent->diameter = shape->arcs_diameter;
    equivalent->bore.mm = shape->arcs_diameter.mm - 2.0 * wall.mm;
    equivalent->compression = compression;
    equivalent->pin.mm = 2.0 * (shape->edge_radius.mm - wall.mm);
    return FER_OK;
}

static fer_status find_equivalent(const fer_joint *joint, fer_length diameter, fer_length die_size,
                                  int segments, fer_model model, fer_equivalent_crimp *equivalent)
{
    fer_shape shape;
    FER_REQUIRE(joint, FER_ARGUMENT_MISSING);
    FER_TRY(check_stop(diameter, die_size, segments));
    FER_TRY(fer_check_joint(joint));
    FER_TRY(fer_check_flow(joint, model.flow));
    find_shape(diameter, die_size, segments, &shape);
    return fer_equivalent_crimp_checked(joint, &shape, model, fer_check_basis(joint, model.basis),
                                        equivalent);
}

fer_status fer_find_equivalent_crimp(const fer_joint *joint, fer_length diameter, fer_length die_size,
                                     int segments, fer_model model, fer_equivalent_crimp *equivalent)
{
    FER_REQUIRE(equivalent, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*equivalent);
    return find_equivalent(joint, diameter, die_size, segments, model, equivalent);
}
