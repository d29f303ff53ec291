/* SPDX-License-Identifier: MIT */
/* Compression from crimp diameter and back, the wall that grows, and all slopes.
 * Method: closed formulas with differences in double-double arithmetic; Newton's method for flow with ends free.
 * Formulas: include/ferrule/compression.h; docs/compression.md. */
#include <ferrule/compression.h>

#include "crimp/compression_private.h"
#include "base/value_private.h"
#include "crimp/joint_private.h"
#include "base/numeric/root.h"

/* ---- what both directions check --------------------------------------------------------------------- */

fer_status fer_check_flow(const fer_joint *joint, fer_flow flow)
{
    FER_REQUIRE((unsigned)flow <= FER_FLOW_ENDS_FREE, FER_MODEL_FLOW_UNKNOWN);
    FER_REQUIRE(flow == FER_FLOW_NONE || joint->ferrule.outside.mm > 0.0, FER_FERRULE_OUTSIDE_MISSING);
    return FER_OK;
}

fer_status fer_check_basis(const fer_joint *joint, fer_basis basis)
{
    FER_REQUIRE((unsigned)basis <= FER_BASIS_SOFT_WALL, FER_MODEL_BASIS_UNKNOWN);
    FER_REQUIRE(basis != FER_BASIS_SOFT_WALL || joint->hose.reinforcement.mm > 0.0,
                FER_HOSE_REINFORCEMENT_MISSING);
    return FER_OK;
}

fer_status fer_check_model(const fer_joint *joint, fer_model model)
{
    FER_TRY(fer_check_basis(joint, model.basis));
    return fer_check_flow(joint, model.flow);
}

static fer_status check_joint_and_model(const fer_joint *joint, fer_model model)
{
    FER_TRY(fer_check_joint(joint));
    return fer_check_model(joint, model);
}

static fer_status check_joint_and_flow(const fer_joint *joint, fer_flow flow)
{
    FER_TRY(fer_check_joint(joint));
    return fer_check_flow(joint, flow);
}

static fer_status check_diameter(const fer_ferrule *ferrule, double diameter)
{
    const fer_length crimped = {diameter};
    FER_TRY(fer_check_length(crimped, FER_DIAMETER_MISSING, FER_DIAMETER_OUT_OF_RANGE));
    FER_REQUIRE(ferrule->outside.mm == 0.0 || diameter <= ferrule->outside.mm, FER_DIAMETER_ABOVE_FERRULE);
    FER_REQUIRE(2.0 * ferrule->wall.mm < diameter, FER_DIAMETER_WITHOUT_BORE);
    return FER_OK;
}

/* Less than, decided on all digits. */
static int is_less(fer_pair a, fer_pair b)
{
    return fer_pair_subtract(a, b).high < 0.0;
}

/* Whether the bore is below the outside diameter of the hose on the stem. Compared as squares, so that no root is
 * taken; only where doubles cannot tell are all digits used. */
static int touches(const fer_joint *joint, fer_pair bore)
{
    const double stem = joint->stem.outside.mm, inside = joint->hose.inside.mm,
                 outside = joint->hose.outside.mm;
    if (!(stem > inside)) {
        return is_less(bore, fer_pair_of(outside));
    }
    const fer_squares squares = fer_widened_squares(bore.high, inside, outside, stem);
    if (fer_squares_tell(squares)) {
        return squares.left < squares.area;
    }
    const fer_pair exact =
        fer_pair_multiply(fer_pair_add(bore, fer_pair_of(-stem)), fer_pair_add(bore, fer_pair_of(stem)));
    return is_less(exact, fer_hose_area_pair(&joint->hose));
}

/* ---- the trade's plain formula -------------------------------------------------------------------------- */

static fer_status plain_crimp(const fer_joint *joint, double compression, fer_plain_crimp *found)
{
    const double stem = joint->stem.outside.mm, inside = joint->hose.inside.mm,
                 outside = joint->hose.outside.mm;
    const fer_plain_crimp crimp =
        fer_plain_forward(inside, outside, stem, joint->ferrule.wall.mm, compression);
    FER_REQUIRE(crimp.left > 0.0, FER_COMPRESSION_CLOSES_ON_STEM);
    FER_REQUIRE(fer_plain_touches(crimp, inside, outside, stem), FER_COMPRESSION_WITHOUT_TOUCH);
    FER_REQUIRE(joint->ferrule.outside.mm == 0.0 || crimp.diameter <= joint->ferrule.outside.mm,
                FER_COMPRESSION_ABOVE_FERRULE);
    *found = crimp;
    return FER_OK;
}

/* ---- what the ferrule metal does: bore from diameter, diameter from bore ------------------------------- */

/* Four times the wall's cross-section by pi: 4w(Fo - w). */
static fer_pair wall_area(const fer_ferrule *ferrule)
{
    const double wall = ferrule->wall.mm;
    return fer_pair_scale(fer_pair_multiply(fer_pair_of(wall), fer_pair_sum(ferrule->outside.mm, -wall)),
                          4.0);
}

/* Flow with ends free in terms of the growth x = w'/w - 1: the root of ln(1 + x) = strain * share. What is known is the
 * diameter or the bore; `known` holds it minus two (unchanged) walls or as it is. The growth, not the wall, is the
 * unknown, so that a small reduction loses no digits. */
typedef struct {
    double wall;      /* before crimping */
    double mean_less; /* mean diameter before, minus mean diameter after at x = 0 */
    double mean;      /* mean diameter after at x = 0 */
    double diameter;  /* crimp diameter at x = 0 */
    double
        direction; /* what the mean diameter does with w': -1 where the diameter is given, +1 where the bore is */
} free_flow;

typedef struct {
    double miss;     /* ln(1 + x) - strain * share */
    double slope;    /* of the miss against x */
    double strain;   /* hoop strain of the mean diameter */
    double thinness; /* w' / D */
} free_point;

static free_point free_flow_at(const free_flow *flow, double growth)
{
    const double thicker = flow->wall * growth, wall = flow->wall + thicker;
    const double mean = flow->mean + flow->direction * thicker;
    const double diameter = flow->direction < 0.0 ? flow->diameter : flow->diameter + 2.0 * thicker;
    const double bore_known = flow->direction < 0.0 ? 1.0 : (diameter - 2.0 * wall) / diameter;
    const double lambda = wall / diameter, rest = 2.0 - lambda;
    const double share = (1.0 - 2.0 * lambda) / rest;
    const double strain = log1p((flow->mean_less - flow->direction * thicker) / mean);
    const free_point point = {log1p(growth) - strain * share,
                              1.0 / (1.0 + growth) +
                                  flow->wall * (flow->direction * share / mean +
                                                3.0 / (rest * rest) * strain * bore_known / diameter),
                              strain, lambda};
    return point;
}

static double free_flow_miss(double growth, const void *context, double *slope)
{
    const free_point point = free_flow_at((const free_flow *)context, growth);
    *slope = point.slope;
    return point.miss;
}

/* The quick way nearly always, the sure one where it gives up. The miss is not above 0 where nothing has grown, and
 * above 0 at most. */
static double free_growth(const free_flow *flow, double upper)
{
    const double quick =
        fer_free_growth(flow->wall, flow->mean_less, flow->mean, flow->diameter, flow->direction);
    return quick == quick ? quick : fer_rising_root(free_flow_miss, flow, 0.0, upper, 0.0, DBL_EPSILON);
}

static free_flow flow_from_diameter(const fer_ferrule *ferrule, double diameter)
{
    const double wall = ferrule->wall.mm;
    const free_flow flow = {wall, ferrule->outside.mm - diameter, diameter - wall, diameter, -1.0};
    return flow;
}

static double growth_from_diameter(const fer_ferrule *ferrule, double diameter)
{
    const free_flow flow = flow_from_diameter(ferrule, diameter);
    return free_growth(&flow, 0.5 * diameter / ferrule->wall.mm - 1.0);
}

static double growth_from_bore(const fer_ferrule *ferrule, fer_pair bore)
{
    const double wall = ferrule->wall.mm;
    const fer_pair diameter = fer_pair_add(bore, fer_pair_of(2.0 * wall));
    const double less = fer_pair_value(fer_pair_subtract(fer_pair_of(ferrule->outside.mm), diameter));
    const free_flow flow = {wall, less, fer_pair_value(fer_pair_add(bore, fer_pair_of(wall))),
                            fer_pair_value(diameter), 1.0};
    return free_growth(&flow, less / wall);
}

/* The same from a bore that is a sum of positive terms, whose digits are all in a double. */
static double growth_from_plain(const fer_ferrule *ferrule, fer_plain_crimp crimp)
{
    const double wall = ferrule->wall.mm, less = ferrule->outside.mm - crimp.diameter;
    const free_flow flow = {wall, less, crimp.diameter - wall, crimp.diameter, 1.0};
    return free_growth(&flow, less / wall);
}

static fer_status bore_from_diameter(const fer_ferrule *ferrule, double diameter, fer_flow flow,
                                     fer_pair *bore)
{
    const fer_pair plain = fer_plain_bore(diameter, ferrule->wall.mm);
    if (flow == FER_FLOW_NONE) {
        *bore = plain;
    } else if (flow == FER_FLOW_ENDS_FIXED) {
        const fer_pair square = fer_pair_subtract(fer_pair_product(diameter, diameter), wall_area(ferrule));
        FER_REQUIRE(square.high > 0.0, FER_DIAMETER_WITHOUT_BORE);
        *bore = fer_pair_root(square);
    } else {
        const double thicker = ferrule->wall.mm * growth_from_diameter(ferrule, diameter);
        *bore = fer_pair_add(plain, fer_pair_of(-2.0 * thicker));
    }
    return FER_OK;
}

/* The bore must leave the diameter at most the ferrule outside diameter. */
static fer_pair diameter_from_bore(const fer_ferrule *ferrule, fer_pair bore, fer_flow flow)
{
    const fer_pair plain = fer_pair_add(bore, fer_pair_of(2.0 * ferrule->wall.mm));
    if (flow == FER_FLOW_NONE) {
        return plain;
    }
    if (flow == FER_FLOW_ENDS_FIXED) {
        return fer_pair_root(fer_pair_add(fer_pair_multiply(bore, bore), wall_area(ferrule)));
    }
    return fer_pair_add(plain, fer_pair_of(2.0 * ferrule->wall.mm * growth_from_bore(ferrule, bore)));
}

/* ---- what compression is a share of: compression from bore, bore from compression ----------------------- */

static fer_pair hose_wall(const fer_hose *hose)
{
    return fer_pair_sum(hose->outside.mm, -hose->inside.mm);
}

/* Two walls of the hose that the basis starts from: free, or as fitted over the stem. */
static fer_pair two_walls(const fer_joint *joint, fer_basis basis)
{
    if (basis == FER_BASIS_FITTED_WALL && joint->stem.outside.mm > joint->hose.inside.mm) {
        return fer_pair_subtract(fer_fitted_outside_pair(joint), fer_pair_of(joint->stem.outside.mm));
    }
    return hose_wall(&joint->hose);
}

/* Two walls minus what cannot be squeezed. */
static fer_pair two_soft_walls(const fer_joint *joint, fer_basis basis)
{
    const fer_pair walls = two_walls(joint, basis);
    if (basis != FER_BASIS_SOFT_WALL) {
        return walls;
    }
    return fer_pair_subtract(walls, fer_pair_of(2.0 * joint->hose.reinforcement.mm));
}

/* The differences are taken with all digits, and rounded once with their quotient. */
static double compression_from_bore(const fer_joint *joint, fer_pair bore, fer_basis basis)
{
    const fer_pair stem = fer_pair_of(joint->stem.outside.mm);
    const fer_pair gap = fer_pair_subtract(bore, stem);
    if (basis == FER_BASIS_AREA) {
        const fer_pair area = fer_hose_area_pair(&joint->hose);
        const fer_pair left = fer_pair_multiply(gap, fer_pair_add(bore, stem));
        return fer_pair_ratio(fer_pair_subtract(area, left), area);
    }
    if (basis == FER_BASIS_WALL) {
        return fer_plain_share(hose_wall(&joint->hose), gap);
    }
    return fer_pair_ratio(fer_pair_subtract(two_walls(joint, basis), gap), two_soft_walls(joint, basis));
}

static fer_status bore_from_compression(const fer_joint *joint, double compression, fer_basis basis,
                                        fer_pair *bore)
{
    const fer_pair stem = fer_pair_of(joint->stem.outside.mm);
    if (basis == FER_BASIS_AREA) {
        const fer_pair left =
            fer_pair_multiply(fer_hose_area_pair(&joint->hose), fer_pair_sum(1.0, -compression));
        FER_REQUIRE(left.high > 0.0, FER_COMPRESSION_CLOSES_ON_STEM);
        *bore = fer_pair_root(fer_pair_add(left, fer_pair_multiply(stem, stem)));
        return FER_OK;
    }
    const fer_pair taken = fer_pair_multiply(two_soft_walls(joint, basis), fer_pair_of(compression));
    const fer_pair gap = fer_pair_subtract(two_walls(joint, basis), taken);
    FER_REQUIRE(gap.high > 0.0, FER_COMPRESSION_CLOSES_ON_STEM);
    *bore = fer_pair_add(stem, gap);
    return FER_OK;
}

/* ---- forward ------------------------------------------------------------------------------------------ */

/* Basis wall without flow, or with ends free. */
static fer_status wall_diameter(const fer_joint *joint, double compression, fer_flow flow, double *diameter)
{
    fer_plain_crimp crimp;
    FER_TRY(plain_crimp(joint, compression, &crimp));
    *diameter = crimp.diameter;
    if (flow == FER_FLOW_ENDS_FREE) {
        *diameter += 2.0 * (joint->ferrule.wall.mm * growth_from_plain(&joint->ferrule, crimp));
    }
    return FER_OK;
}

fer_status fer_crimp_diameter_checked(const fer_joint *joint, fer_ratio at, fer_model model,
                                      fer_length *diameter)
{
    fer_pair bore;
    const double compression = at.fraction;
    const fer_ferrule *ferrule = &joint->ferrule;
    FER_REQUIRE(fer_is_finite(compression), FER_COMPRESSION_NOT_A_NUMBER);
    if (model.basis == FER_BASIS_WALL && model.flow != FER_FLOW_ENDS_FIXED) {
        return wall_diameter(joint, compression, model.flow, &diameter->mm);
    }
    FER_TRY(bore_from_compression(joint, compression, model.basis, &bore));
    FER_REQUIRE(touches(joint, bore), FER_COMPRESSION_WITHOUT_TOUCH);
    FER_REQUIRE(ferrule->outside.mm == 0.0 ||
                    !is_less(fer_pair_sum(ferrule->outside.mm, -2.0 * ferrule->wall.mm), bore),
                FER_COMPRESSION_ABOVE_FERRULE);
    diameter->mm = fer_pair_value(diameter_from_bore(ferrule, bore, model.flow));
    return FER_OK;
}

fer_status fer_crimp_diameter(const fer_joint *joint, fer_ratio compression, fer_model model,
                              fer_length *diameter)
{
    FER_REQUIRE(diameter, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*diameter);
    FER_TRY(check_joint_and_model(joint, model));
    return fer_crimp_diameter_checked(joint, compression, model, diameter);
}

/* ---- backward ----------------------------------------------------------------------------------------- */

/* Bore at a crimp diameter, wherever there is one. */
static fer_status find_bore(const fer_joint *joint, double diameter, fer_flow flow, fer_pair *bore)
{
    FER_TRY(check_diameter(&joint->ferrule, diameter));
    return bore_from_diameter(&joint->ferrule, diameter, flow, bore);
}

/* Bore at a crimp diameter that crimps: between stem and hose. */
static fer_status find_crimped_bore(const fer_joint *joint, double diameter, fer_model model, fer_pair *bore)
{
    FER_TRY(check_diameter(&joint->ferrule, diameter));
    FER_TRY(bore_from_diameter(&joint->ferrule, diameter, model.flow, bore));
    FER_REQUIRE(is_less(fer_pair_of(joint->stem.outside.mm), *bore), FER_DIAMETER_CLOSES_ON_STEM);
    FER_REQUIRE(touches(joint, *bore), FER_DIAMETER_WITHOUT_TOUCH);
    return FER_OK;
}

fer_status fer_compression_checked(const fer_joint *joint, fer_length diameter, fer_model model,
                                   fer_ratio *compression)
{
    fer_pair bore;
    FER_TRY(find_crimped_bore(joint, diameter.mm, model, &bore));
    compression->fraction = compression_from_bore(joint, bore, model.basis);
    return FER_OK;
}

fer_status fer_compression(const fer_joint *joint, fer_length diameter, fer_model model,
                           fer_ratio *compression)
{
    FER_REQUIRE(compression, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*compression);
    FER_TRY(check_joint_and_model(joint, model));
    return fer_compression_checked(joint, diameter, model, compression);
}

/* ---- the ferrule by itself ------------------------------------------------------------------------------ */

fer_status fer_crimped_wall_checked(const fer_joint *joint, fer_length crimp, fer_flow flow, fer_length *wall)
{
    fer_pair bore;
    const double diameter = crimp.mm;
    FER_TRY(find_bore(joint, diameter, flow, &bore));
    const fer_pair before = fer_pair_of(joint->ferrule.wall.mm);
    if (flow == FER_FLOW_NONE) {
        wall->mm = joint->ferrule.wall.mm;
    } else if (flow == FER_FLOW_ENDS_FIXED) {
        const fer_pair sum = fer_pair_add(fer_pair_of(diameter), bore);
        wall->mm = fer_pair_value(fer_pair_divide(fer_pair_scale(wall_area(&joint->ferrule), 0.5), sum));
    } else {
        const double thicker = joint->ferrule.wall.mm * growth_from_diameter(&joint->ferrule, diameter);
        wall->mm = fer_pair_value(fer_pair_add(before, fer_pair_of(thicker)));
    }
    return FER_OK;
}

fer_status fer_crimped_wall(const fer_joint *joint, fer_length diameter, fer_model model, fer_length *wall)
{
    FER_REQUIRE(wall, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*wall);
    FER_TRY(check_joint_and_flow(joint, model.flow));
    return fer_crimped_wall_checked(joint, diameter, model.flow, wall);
}

static fer_status find_length(const fer_joint *joint, double diameter, fer_flow flow, fer_length *length)
{
    fer_pair bore;
    FER_TRY(find_bore(joint, diameter, flow, &bore));
    FER_REQUIRE(joint->ferrule.length.mm > 0.0, FER_FERRULE_LENGTH_MISSING);
    length->mm = joint->ferrule.length.mm;
    if (flow == FER_FLOW_ENDS_FREE) {
        const free_flow equation = flow_from_diameter(&joint->ferrule, diameter);
        const free_point point = free_flow_at(&equation, growth_from_diameter(&joint->ferrule, diameter));
        length->mm *= exp(point.strain * (1.0 + point.thinness) / (2.0 - point.thinness));
    }
    return FER_OK;
}

fer_status fer_crimped_length(const fer_joint *joint, fer_length diameter, fer_model model,
                              fer_length *length)
{
    FER_REQUIRE(length, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*length);
    FER_TRY(check_joint_and_flow(joint, model.flow));
    return find_length(joint, diameter.mm, model.flow, length);
}

static fer_status find_touch(const fer_joint *joint, fer_flow flow, fer_length *diameter)
{
    const fer_ferrule *ferrule = &joint->ferrule;
    const fer_pair fitted = fer_fitted_outside_pair(joint);
    if (ferrule->outside.mm > 0.0 &&
        !is_less(fitted, fer_pair_sum(ferrule->outside.mm, -2.0 * ferrule->wall.mm))) {
        diameter->mm = ferrule->outside.mm;
    } else {
        diameter->mm = fer_pair_value(diameter_from_bore(ferrule, fitted, flow));
    }
    return FER_OK;
}

fer_status fer_touch_diameter(const fer_joint *joint, fer_model model, fer_length *diameter)
{
    FER_REQUIRE(diameter, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*diameter);
    FER_TRY(check_joint_and_flow(joint, model.flow));
    return find_touch(joint, model.flow, diameter);
}

/* ---- slopes ------------------------------------------------------------------------------------------- */

typedef struct {
    double diameter, wall, outside;
} bore_slopes;

/* Implicit differentiation of F = ln(w'/w) - strain * share, with the miss's slope against x = w'/w - 1. */
static bore_slopes free_bore_slopes(const fer_ferrule *ferrule, double diameter)
{
    const free_flow flow = flow_from_diameter(ferrule, diameter);
    const double growth = growth_from_diameter(ferrule, diameter), wall = ferrule->wall.mm;
    const free_point point = free_flow_at(&flow, growth);
    const double lambda = point.thinness, rest = 2.0 - lambda, share = (1.0 - 2.0 * lambda) / rest;
    const double mean = diameter - wall * (1.0 + growth), mean_before = ferrule->outside.mm - wall;
    const double by_wall_after = point.slope / wall;
    const double by_diameter = share / mean - 3.0 / (rest * rest) * point.strain * lambda / diameter;
    const double by_wall = -1.0 / wall + share / mean_before, by_outside = -share / mean_before;
    const bore_slopes slopes = {1.0 + 2.0 * by_diameter / by_wall_after, 2.0 * by_wall / by_wall_after,
                                2.0 * by_outside / by_wall_after};
    return slopes;
}

static bore_slopes find_bore_slopes(const fer_ferrule *ferrule, double diameter, double bore, fer_flow flow)
{
    const double wall = ferrule->wall.mm, outside = ferrule->outside.mm;
    if (flow == FER_FLOW_ENDS_FIXED) {
        const bore_slopes ends_fixed = {diameter / bore, -2.0 * (outside - 2.0 * wall) / bore,
                                        -2.0 * wall / bore};
        return ends_fixed;
    }
    if (flow == FER_FLOW_ENDS_FREE) {
        return free_bore_slopes(ferrule, diameter);
    }
    const bore_slopes none = {1.0, -2.0, 0.0};
    return none;
}

typedef struct {
    double bore, stem, hose_inside, hose_outside, reinforcement;
} share_slopes;

static share_slopes area_slopes(const fer_joint *joint, double bore, double gap)
{
    const double stem = joint->stem.outside.mm, inside = joint->hose.inside.mm,
                 outside = joint->hose.outside.mm;
    const double area = fer_pair_value(fer_hose_area_pair(&joint->hose));
    const double left = gap * (bore + stem) / (area * area);
    const share_slopes slopes = {-2.0 * bore / area, 2.0 * stem / area, -2.0 * inside * left,
                                 2.0 * outside * left, 0.0};
    return slopes;
}

static share_slopes fitted_wall_slopes(const fer_joint *joint, double gap)
{
    const double fitted = fer_pair_value(fer_fitted_outside_pair(joint));
    const double walls = fer_pair_value(two_walls(joint, FER_BASIS_FITTED_WALL)),
                 left = gap / (walls * walls);
    /* the walls change with the stem by stem/fitted - 1 = -walls/fitted */
    const share_slopes slopes = {-1.0 / walls, 1.0 / walls - left * walls / fitted,
                                 -left * joint->hose.inside.mm / fitted,
                                 left * joint->hose.outside.mm / fitted, 0.0};
    return slopes;
}

static share_slopes wall_slopes(const fer_joint *joint, double gap, fer_basis basis)
{
    const double walls = fer_pair_value(hose_wall(&joint->hose));
    const double soft = fer_pair_value(two_soft_walls(joint, basis));
    const double compression = (walls - gap) / soft, left = (1.0 - compression) / soft;
    const share_slopes slopes = {-1.0 / soft, 1.0 / soft, -left, left,
                                 basis == FER_BASIS_SOFT_WALL ? 2.0 * compression / soft : 0.0};
    return slopes;
}

static share_slopes find_share_slopes(const fer_joint *joint, fer_pair bore, fer_basis basis)
{
    const double gap = fer_pair_value(fer_pair_subtract(bore, fer_pair_of(joint->stem.outside.mm)));
    if (basis == FER_BASIS_AREA) {
        return area_slopes(joint, fer_pair_value(bore), gap);
    }
    if (basis == FER_BASIS_FITTED_WALL && joint->stem.outside.mm > joint->hose.inside.mm) {
        return fitted_wall_slopes(joint, gap);
    }
    return wall_slopes(joint, gap, basis);
}

/* Slopes of the compression from bore and diameter. */
static fer_compression_slopes slopes_from_bore(const fer_joint *joint, double diameter, fer_model model,
                                               fer_pair bore)
{
    const share_slopes share = find_share_slopes(joint, bore, model.basis);
    const bore_slopes metal = find_bore_slopes(&joint->ferrule, diameter, fer_pair_value(bore), model.flow);
    const fer_compression_slopes slopes = {
        {share.hose_inside},       {share.hose_outside},         {share.reinforcement},        {share.stem},
        {share.bore * metal.wall}, {share.bore * metal.outside}, {share.bore * metal.diameter}};
    return slopes;
}

fer_status fer_compression_and_slopes(const fer_joint *joint, fer_length diameter, fer_model model,
                                      fer_ratio *compression, fer_compression_slopes *slopes)
{
    fer_pair bore;
    FER_TRY(find_crimped_bore(joint, diameter.mm, model, &bore));
    compression->fraction = compression_from_bore(joint, bore, model.basis);
    *slopes = slopes_from_bore(joint, diameter.mm, model, bore);
    return FER_OK;
}

fer_status fer_compression_slopes_checked(const fer_joint *joint, fer_length diameter, fer_model model,
                                          fer_compression_slopes *slopes)
{
    fer_pair bore;
    FER_TRY(find_crimped_bore(joint, diameter.mm, model, &bore));
    *slopes = slopes_from_bore(joint, diameter.mm, model, bore);
    return FER_OK;
}

fer_status fer_find_compression_slopes(const fer_joint *joint, fer_length diameter, fer_model model,
                                       fer_compression_slopes *slopes)
{
    FER_REQUIRE(slopes, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*slopes);
    FER_TRY(check_joint_and_model(joint, model));
    return fer_compression_slopes_checked(joint, diameter, model, slopes);
}

/* At the very end of what is possible a diameter may round to beyond it: then it is the compression that is at fault. It
 * does not round to above the ferrule, which is a double itself. */
static fer_status of_compression(fer_status status)
{
    switch (status) {
    case FER_DIAMETER_WITHOUT_TOUCH:
        return FER_COMPRESSION_WITHOUT_TOUCH;
    case FER_DIAMETER_CLOSES_ON_STEM:
        return FER_COMPRESSION_CLOSES_ON_STEM;
    default:
        return status;
    }
}

static fer_status find_diameter_slopes(const fer_joint *joint, fer_ratio compression, fer_model model,
                                       fer_diameter_slopes *slopes)
{
    fer_length diameter;
    fer_compression_slopes c;
    FER_TRY(fer_crimp_diameter_checked(joint, compression, model, &diameter));
    FER_TRY(of_compression(fer_compression_slopes_checked(joint, diameter, model, &c)));
    const double by_compression = 1.0 / c.diameter.per_mm;
    slopes->hose_inside.fraction = -c.hose_inside.per_mm * by_compression;
    slopes->hose_outside.fraction = -c.hose_outside.per_mm * by_compression;
    slopes->hose_reinforcement.fraction = -c.hose_reinforcement.per_mm * by_compression;
    slopes->stem_outside.fraction = -c.stem_outside.per_mm * by_compression;
    slopes->ferrule_wall.fraction = -c.ferrule_wall.per_mm * by_compression;
    slopes->ferrule_outside.fraction = -c.ferrule_outside.per_mm * by_compression;
    slopes->compression.mm = by_compression;
    return FER_OK;
}

fer_status fer_find_diameter_slopes(const fer_joint *joint, fer_ratio compression, fer_model model,
                                    fer_diameter_slopes *slopes)
{
    FER_REQUIRE(slopes, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*slopes);
    FER_TRY(check_joint_and_model(joint, model));
    return find_diameter_slopes(joint, compression, model, slopes);
}
