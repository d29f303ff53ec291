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

/* What rounding has taken from both factors of the gap and from the metal goes into the sum as `lost`, and the gap, which may
 * be nearly all of the diameter, comes last: 1.26 units in the last place at most, where the plain sum has 3.05
 * (tests/release/proof/rounding/crimp_diameter_plain.g). The differences give their rounding exactly: hose outside is above
 * inside, and 1 is a whole number of last places of 1 - c wherever the ferrule touches. */
static inline fer_plain_crimp fer_plain_forward(double inside, double outside, double stem, double wall,
                                                double compression)
{
    fer_plain_crimp crimp;
    const fer_pair walls = fer_pair_quick_difference(outside, inside);
    const fer_pair left = fer_pair_quick_difference(1.0, compression);
    const fer_pair metal = fer_pair_sum(stem, 2.0 * wall);
    const double lost = (walls.high * left.low + walls.low * left.high) + metal.low;
    crimp.left = left.high;
    crimp.gap = walls.high * left.high;
    crimp.bore = stem + crimp.gap;
    crimp.diameter = (metal.high + lost) + crimp.gap;
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
 * Unknown is the growth x = w'/w - 1, the root of ln(1 + x) - strain * share = 0. Known is the crimp diameter or the
 * bore; `mean` and `diameter` are those after crimping at x = 0, `less` is what the mean diameter has lost at x = 0,
 * `direction` what the mean diameter does with w': -1 where the diameter is known, +1 where the bore is. The growth, not
 * the wall, is the unknown, so that a small reduction loses no digits.
 *
 * Three steps come to the root; they are functions of their own, since a loop over each is quicker than one over all.
 * Where they do not reach it surely, at walls and reductions far beyond a crimp's, the result is NaN.
 */

/* What of the equation needs no logarithm. */
typedef struct {
    double share;   /* of the strain that goes into the wall */
    double outward; /* change of the mean diameter, by the mean diameter at x = 0 */
    double slope;   /* of the equation against x, minus 1/(1 + x), by the strain: and the rest of it */
    double slope_rest;
} fer_free_terms;

static inline fer_free_terms fer_free_terms_at(double wall, double mean, double diameter, double direction,
                                               double growth)
{
    const double thicker = wall * growth, now = wall + thicker;
    const double outside = diameter + (direction + 1.0) * thicker;
    const double inverse = 1.0 / outside, lambda = now * inverse;
    const double fraction = 1.0 / (2.0 - lambda);
    /* of the bore where that is known, 1 where the diameter is */
    const double open = direction < 0.0 ? 1.0 : 1.0 - 2.0 * lambda;
    fer_free_terms terms;
    terms.share = (1.0 - 2.0 * lambda) * fraction;
    terms.outward = direction * thicker / mean;
    terms.slope = 3.0 * wall * fraction * fraction * open * inverse;
    terms.slope_rest = direction * wall * terms.share / (mean + direction * thicker);
    return terms;
}

/* ln(1 + t) of a small t by the series of the inverse hyperbolic tangent; so many terms that the rest is below 1e-17
 * of it: 12 up to t = 0.5, 10 up to 0.35, 7 up to 0.15 in size. */
static inline double fer_log_series(double t, int terms)
{
    static const double coefficient[12] = {2.0,        2.0 / 3.0,  2.0 / 5.0,  2.0 / 7.0,
                                           2.0 / 9.0,  2.0 / 11.0, 2.0 / 13.0, 2.0 / 15.0,
                                           2.0 / 17.0, 2.0 / 19.0, 2.0 / 21.0, 2.0 / 23.0};
    const double z = t / (2.0 + t), square = z * z;
    double sum = coefficient[terms - 1];
    for (int k = terms - 2; k >= 0; k--) {
        sum = coefficient[k] + square * sum;
    }
    return z * sum;
}

/* ln(1 + t) to some 1e-8, by a quotient of polynomials. */
static inline double fer_log_quotient(double t)
{
    return t * (60.0 + t * (60.0 + 11.0 * t)) / (60.0 + t * (90.0 + t * (36.0 + 3.0 * t)));
}

/* Newton's step, with what the curve of the logarithm adds to it. */
static inline double fer_free_step(double miss, double slope)
{
    const double step = -miss / slope;
    return step + 0.5 * step * step;
}

/* First: the strain of the mean diameter at x = 0. */
static inline double fer_free_strain(double less, double mean)
{
    const double part = less / mean;
    return part >= 0.0 && part <= 0.5 ? fer_log_series(part, 12) : NAN;
}

/* Second: the growth to some 1e-7, from x = 0. */
static inline double fer_free_start(double wall, double mean, double diameter, double direction,
                                    double strain)
{
    const fer_free_terms zero = fer_free_terms_at(wall, mean, diameter, direction, 0.0);
    const double first = fer_free_step(-strain * zero.share, 1.0 + zero.slope_rest + strain * zero.slope);
    const fer_free_terms terms = fer_free_terms_at(wall, mean, diameter, direction, first);
    const double left = strain - fer_log_quotient(terms.outward);
    return first + fer_free_step(fer_log_quotient(first) - left * terms.share,
                                 1.0 / (1.0 + first) + terms.slope_rest + left * terms.slope);
}

/* Third: the growth to the last places, or NaN. */
static inline double fer_free_finish(double wall, double mean, double diameter, double direction,
                                     double strain, double start)
{
    const fer_free_terms terms = fer_free_terms_at(wall, mean, diameter, direction, start);
    const double left = strain - fer_log_series(terms.outward, 7);
    const double step = fer_free_step(fer_log_series(start, 10) - left * terms.share,
                                      1.0 / (1.0 + start) + terms.slope_rest + left * terms.slope);
    /* inside the domain of the series; a strain and a bore are left; the error is now the square of the step */
    const int sure = (start >= 0.0) & (start <= 0.35) & (fabs(terms.outward) <= 0.15) & (left >= 0.0) &
                     (terms.share >= 0.0) & (fabs(step) <= 1e-7 * start);
    return sure ? start + step : NAN;
}

static inline double fer_free_growth(double wall, double less, double mean, double diameter, double direction)
{
    const double strain = fer_free_strain(less, mean);
    const double start = fer_free_start(wall, mean, diameter, direction, strain);
    return fer_free_finish(wall, mean, diameter, direction, strain, start);
}

#endif
