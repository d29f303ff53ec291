/* SPDX-License-Identifier: MIT */
/* What other modules need of compression: functions that take a joint that fer_check_joint() accepts and a model that
 * fer_check_model() or fer_check_flow() accepts with it, and write no result where they fail; then the formulas.
 *
 * First the trade's plain formula on bare numbers in mm: what one row and a block of rows share, so that their bits are the
 * same. Nothing here branches, so that a loop over it becomes vector instructions. */
#ifndef FER_COMPRESSION_PRIVATE_H
#define FER_COMPRESSION_PRIVATE_H

#include <ferrule/compression.h>

#include "base/numeric/pair.h"

#include <math.h>

fer_status fer_check_basis(const fer_joint *joint, fer_basis basis);
fer_status fer_check_flow(const fer_joint *joint, fer_flow flow);
/* Both, the basis first. */
fer_status fer_check_model(const fer_joint *joint, fer_model model);

/* The plain formula: of the wall, without a flow. */
static inline int fer_is_plain(fer_model model)
{
    return model.basis == FER_BASIS_WALL && model.flow == FER_FLOW_NONE;
}

fer_status fer_crimp_diameter_checked(const fer_joint *joint, fer_ratio at, fer_model model,
                                      fer_length *diameter);
fer_status fer_compression_checked(const fer_joint *joint, fer_length diameter, fer_model model,
                                   fer_ratio *compression);
fer_status fer_crimped_wall_checked(const fer_joint *joint, fer_length crimp, fer_flow flow,
                                    fer_length *wall);
/* fer_find_compression_slopes(), and the compression as well. */
fer_status fer_compression_slopes_checked(const fer_joint *joint, fer_length diameter, fer_model model,
                                          fer_compression_slopes *slopes);
fer_status fer_compression_and_slopes(const fer_joint *joint, fer_length diameter, fer_model model,
                                      fer_ratio *compression, fer_compression_slopes *slopes);

/* ---- from compression to diameter: a sum of positive terms ------------------------------------------------- */

typedef struct {
    double left, gap, bore, diameter; /* 1 - c; two gaps for the hose; bore and outside of the ferrule */
} fer_plain_crimp;

/* What rounding has taken from both factors of the gap goes into the sum as `lost`, with the smaller part of the metal, and the
 * gap, which may be nearly all of the diameter, comes last: 1.51 units in the last place at most, where the plain sum has 3.05
 * (tests/release/proof/rounding/crimp_diameter_plain.g). The differences give their rounding exactly: hose outside is above
 * inside, and 1 is a whole number of last places of 1 - c wherever the ferrule touches. */
static inline fer_plain_crimp fer_plain_forward(double inside, double outside, double stem, double wall,
                                                double compression)
{
    fer_plain_crimp crimp;
    const fer_pair walls = fer_pair_quick_difference(outside, inside);
    const fer_pair left = fer_pair_quick_difference(1.0, compression);
    const double lost = walls.high * left.low + walls.low * left.high, metal = 2.0 * wall;
    const double smaller = stem < metal ? stem : metal, larger = stem < metal ? metal : stem;
    crimp.left = left.high;
    crimp.gap = walls.high * left.high;
    crimp.bore = stem + crimp.gap;
    crimp.diameter = (larger + (smaller + lost)) + crimp.gap;
    return crimp;
}

/* Whether the ferrule touches the hose; on a stem that widens the hose, by the squares. */
static inline int fer_plain_touches(fer_plain_crimp crimp, double inside, double outside, double stem)
{
    const int widened = stem > inside;
    const double reach = widened ? crimp.left * (crimp.gap + 2.0 * stem) : crimp.bore;
    return reach < (widened ? outside + inside : outside);
}

/* ---- from diameter to compression: nearly equal differences, taken with all digits ------------------------ */

static inline fer_pair fer_plain_bore(double diameter, double wall)
{
    return fer_pair_sum(diameter, -2.0 * wall);
}

/* Compression of a wall: what the two walls have lost, by what they were. */
static inline double fer_plain_share(fer_pair walls, fer_pair gap)
{
    return fer_pair_ratio(fer_pair_subtract(walls, gap), walls);
}

/* On a stem that widens the hose: the squares of which the bore's has to be below the hose's, by doubles; they tell
 * where the difference is above the rounding. */
typedef struct {
    double left, area;
} fer_squares;

static inline fer_squares fer_widened_squares(double bore, double inside, double outside, double stem)
{
    fer_squares squares;
    squares.left = (bore - stem) * (bore + stem);
    squares.area = (outside - inside) * (outside + inside);
    return squares;
}

static inline int fer_squares_tell(fer_squares squares)
{
    return fabs(squares.left - squares.area) > 1e-13 * squares.area;
}

/* ---- a ferrule that lengthens freely ------------------------------------------------------------------------ */

/* The wall of a ferrule that lengthens freely, on bare numbers in mm, without a branch: what one row and a block of rows
 * share, so that their bits are the same.
 *
 * Known is the crimp diameter or the bore; `mean` and `diameter` are those after crimping if the wall had not grown, `less` is
 * what the mean diameter then has lost, `direction` what the mean diameter does with the wall: -1 where the diameter is
 * known, +1 where the bore is. Unknown is the growth x = w'/w - 1; the growth, not the wall, so that a small reduction loses no
 * digits. The share of the strain that goes into the wall, (1 - 2 w'/D')/(2 - w'/D'), is (part - drop x)/(1 + rise x) in both
 * directions, so that the wall equation is
 *
 *     (1 + rise x) ln(1 + x) - (part - drop x) ln(mean diameter before / after) = 0.
 *
 * Its series at x = 0 gives x to some 1e-5, and one step of third order the last places. These are functions of their own, since
 * a loop over each is quicker than one over all. Where they are not surely right, at walls and reductions far beyond a
 * crimp's, the result is NaN. Divisions take longest, and share one reciprocal where they can.
 */
typedef struct {
    double part, drop, rise; /* of the share of the strain that goes into the wall */
    double lean;             /* what the mean diameter gains by x, by itself */
    double start;            /* x to some 1e-5 */
} fer_free_flow;

/* ln((1 + z)/(1 - z)) = 2z(1 + z^2/3 + z^4/5 + ...) up to z = 0.18 in size, the logarithm of 1.43. All eight terms: to 1e-17 of
 * it; the coefficients are those of the polynomial through the nodes of Chebyshev (tests/unit/test_free_flow.c compares).
 * The first four: to 1e-6. Even and odd terms apart, so that they need not wait for each other. */
static inline double fer_log_series(double z, int terms)
{
    static const double coefficient[8] = {2.0,
                                          0.6666666666666673,
                                          0.3999999999981964,
                                          0.28571428660360426,
                                          0.22222205803102535,
                                          0.18183258393797846,
                                          0.15320044808038014,
                                          0.1475385652066615};
    const double square = z * z, fourth = square * square;
    double even = coefficient[terms - 2], odd = coefficient[terms - 1];
    for (int k = terms - 4; k >= 0; k -= 2) {
        even = coefficient[k] + fourth * even;
        odd = coefficient[k + 1] + fourth * odd;
    }
    return z * (even + square * odd);
}

/* First: the equation, and its series turned round. */
static inline fer_free_flow fer_free_begin(double wall, double less, double mean, double diameter,
                                           double direction)
{
    const double rest = 2.0 * diameter - wall, span = 2.0 * mean + less, both = mean * span;
    const double inverse = 1.0 / (rest * both), by_rest = both * inverse, by_both = rest * inverse;
    const double part = (diameter - 2.0 * wall) * by_rest, thirds = 1.0 / 3.0;
    const double drop = direction < 0.0 ? 2.0 * wall * by_rest : 0.0;
    const double rise = (direction < 0.0 ? -wall : 3.0 * wall) * by_rest;
    const double lean = direction * wall * (span * by_both);
    const double strain = fer_log_series(less * (mean * by_both), 4);
    const double push = part * lean, square = push * lean;
    double first = 1.0 + push, second = (rise - 0.5) - 0.5 * square;
    double third = (thirds - 0.5 * rise) + thirds * (square * lean), fourth = thirds * rise - 0.25;
    if (direction < 0.0) {
        first += drop * strain;
        second -= drop * lean;
        third += 0.5 * (drop * lean * lean);
    }
    const double by_first = 1.0 / first, t = part * strain * by_first;
    second *= by_first;
    third *= by_first;
    fourth *= by_first;
    const double twice = 2.0 * (second * second) - third;
    const double thrice = 5.0 * second * (third - second * second) - fourth;
    const fer_free_flow flow = {part, drop, rise, lean, t * (1.0 - t * (second - t * (twice + t * thrice)))};
    return flow;
}

/* Second: what the equation at the start needs of divisions. */
typedef struct {
    double grown, lost; /* arguments of the series of ln(w'/w) and of the strain */
    double e, g;        /* slopes of ln(1 + x) and of ln(1 + lean x) */
} fer_free_point;

static inline fer_free_point fer_free_at(fer_free_flow flow, double wall, double less, double mean,
                                         double direction)
{
    const double x = flow.start, pull = direction * wall, thicker = pull * x, one = 1.0 + x;
    const double now = mean + thicker, lost = less - thicker, span = (now + now) + lost;
    const double halves = (1.0 + one) * span, wholes = one * now, inverse = 1.0 / (halves * wholes);
    const double by_halves = wholes * inverse, by_wholes = halves * inverse;
    const fer_free_point point = {x * (span * by_halves), lost * ((1.0 + one) * by_halves), now * by_wholes,
                                  pull * (one * by_wholes)};
    return point;
}

/* Third: the growth to the last places, or NaN. What the step leaves is of its third power. */
static inline double fer_free_finish(fer_free_flow flow, fer_free_point point, double direction)
{
    const double x = flow.start, grown = fer_log_series(point.grown, 8), left = fer_log_series(point.lost, 8);
    const double up = 1.0 + flow.rise * x, part = direction < 0.0 ? flow.part - flow.drop * x : flow.part;
    const double up_e = up * point.e, part_g = part * point.g;
    double slope = flow.rise * grown + (up_e + part_g);
    double curve = point.e * (2.0 * flow.rise - up_e) - point.g * part_g;
    if (direction < 0.0) {
        slope += flow.drop * left;
        curve -= 2.0 * (flow.drop * point.g);
    }
    const double by_slope = 1.0 / slope, first = (part * left - up * grown) * by_slope;
    const double bend = 0.5 * curve * by_slope, step = first - bend * (first * first);
    /* inside the domain of both series; where x is the root there are a strain and a bore */
    const int sure = (fabs(step * step * step) <= 1e-16 * x) & (point.grown <= 0.18) & (point.lost <= 0.18);
    return sure ? x + step : NAN;
}

static inline double fer_free_growth(double wall, double less, double mean, double diameter, double direction)
{
    const fer_free_flow flow = fer_free_begin(wall, less, mean, diameter, direction);
    return fer_free_finish(flow, fer_free_at(flow, wall, less, mean, direction), direction);
}

#endif
