/* SPDX-License-Identifier: MIT */
/* The trade's plain formula on bare numbers in mm: what one row and a block of rows share, so that their bits are the
 * same. Nothing here branches, so that a loop over it becomes vector instructions. */
#ifndef FER_PLAIN_H
#define FER_PLAIN_H

#include "base/numeric/pair.h"

/* ---- from compression to diameter: a sum of positive terms, in which doubles lose nothing ---------------- */

typedef struct {
    double left, gap, bore, diameter; /* 1 - c; two gaps for the hose; bore and outside of the ferrule */
} fer_plain_crimp;

static inline fer_plain_crimp fer_plain_forward(double inside, double outside, double stem, double wall,
                                                double compression)
{
    fer_plain_crimp crimp;
    crimp.left = 1.0 - compression;
    crimp.gap = (outside - inside) * crimp.left;
    crimp.bore = stem + crimp.gap;
    crimp.diameter = crimp.bore + 2.0 * wall;
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

#endif
