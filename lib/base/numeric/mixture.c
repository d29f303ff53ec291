/* SPDX-License-Identifier: MIT */
/* Distribution of a sum of a normal and of rectangular and triangular numbers.
 * Method: one of the three ways below, by how wide the parts are.
 * Formulas: below, and base/numeric/mixture.h; docs/spread.md. */
/* Three ways, by the parts' half-widths against the deviation of the normal number:
 *
 * - No normal number: the distribution is piecewise polynomial. A(j, y) = E[max(y - R, 0)^j]/j! of the sum R of parts
 *   l, l+1, ... is a difference of A(j + 1, y -+ h) of the parts after l, divided by 2 h (rectangular), or the second
 *   difference of A(j + 2, ...) divided by h^2 (triangular). Parts are taken from the widest to the narrowest, and
 *   beyond the support A is a polynomial of the moments: so nothing small is ever the difference of large numbers.
 * - No part wider than the deviation: the density is smooth, and its Fourier series over the support (the normal number
 *   cut at 9 deviations) converges like exp(-k^2).
 * - Otherwise the integral of the first kind of distribution, of the wide parts, times the density of the second kind,
 *   of the rest, by Gauss-Legendre between the points where two polynomials meet. */
#include "base/numeric/mixture.h"

#include "base/numeric/strict.h"
#include "base/numeric/quadrature.h"
#include "base/numeric/special.h"
#include "base/numeric/pi.h"

#include <math.h>

/* ---- piecewise polynomial ----------------------------------------------------------------------------- */

enum { moments = 7 };

/* Parts from the widest down; for each l the half-width of the support of parts l, l+1, ..., and of their sum the even
 * moments E[R^2i]/(2i)!. */
typedef struct {
    fer_mixture_part parts[FER_MIXTURE_PARTS];
    double support[FER_MIXTURE_PARTS + 1], moment[FER_MIXTURE_PARTS + 1][moments];
    int count;
} pieces;

/* A rectangular number has the moments h^2i/(2i + 1)!. */
static void widen(const double from[moments], double half_width, double to[moments])
{
    for (int i = 0; i < moments; i++) {
        double factor = 1.0;
        to[i] = 0.0;
        for (int j = 0; j <= i; j++) {
            to[i] += factor * from[i - j];
            factor *= half_width * half_width / ((2.0 * j + 2.0) * (2.0 * j + 3.0));
        }
    }
}

static void add_part(pieces *p, fer_mixture_part part)
{
    int i = p->count++;
    for (; i > 0 && p->parts[i - 1].half_width < part.half_width; i--) {
        p->parts[i] = p->parts[i - 1];
    }
    p->parts[i] = part;
}

static void find_moments(pieces *p)
{
    double between[moments];
    p->support[p->count] = 0.0;
    for (int i = 0; i < moments; i++) {
        p->moment[p->count][i] = i == 0;
    }
    for (int l = p->count - 1; l >= 0; l--) {
        const fer_mixture_part part = p->parts[l];
        p->support[l] = p->support[l + 1] + part.half_width;
        if (part.order == 1) {
            widen(p->moment[l + 1], part.half_width, p->moment[l]);
        } else { /* the sum of two rectangular numbers of half the width */
            widen(p->moment[l + 1], 0.5 * part.half_width, between);
            widen(between, 0.5 * part.half_width, p->moment[l]);
        }
    }
}

/* E[(y - R)^j]/j! of the parts from l on. */
static double polynomial(const pieces *p, int l, int j, double y)
{
    double power = 1.0, sum = 0.0;
    for (int n = 0; n <= j; n++) {
        if ((j - n) % 2 == 0) {
            sum += p->moment[l][(j - n) / 2] * power;
        }
        power *= y / (n + 1.0);
    }
    return sum;
}

/* The recursion is as deep as there are parts. */
static double above(const pieces *p, int l, int j, double y) /* NOLINT(misc-no-recursion) */
{
    if (y <= -p->support[l]) {
        return 0.0;
    }
    if (!(y < p->support[l])) { /* NaN ends here, too, and not behind the last part */
        return polynomial(p, l, j, y);
    }
    const double h = p->parts[l].half_width;
    if (p->parts[l].order == 1) {
        return (above(p, l + 1, j + 1, y + h) - above(p, l + 1, j + 1, y - h)) / (2.0 * h);
    }
    return (above(p, l + 1, j + 2, y + h) - 2.0 * above(p, l + 1, j + 2, y) + above(p, l + 1, j + 2, y - h)) /
           (h * h);
}

/* ---- smooth ------------------------------------------------------------------------------------------- */

enum { waves_most = 64 };

/* Fourier series over -period/2 to period/2. */
typedef struct {
    double deviation, half_period, wave[waves_most];
    int count;
} series;

static double sinc_power(double x, int order)
{
    const double value = x == 0.0 ? 1.0 : sin(x) / x;
    return order == 1 ? value : value * value;
}

/* Characteristic function at pi k / half_period, as long as it counts. */
static void find_waves(const fer_mixture *mixture, series *s)
{
    s->deviation = mixture->deviation;
    s->half_period = 9.0 * mixture->deviation;
    for (int i = 0; i < mixture->count; i++) {
        s->half_period += mixture->parts[i].half_width;
    }
    /* GCOVR_EXCL_BR_START: the half period is at most 15 deviations: 45 waves; the bound keeps the array safe */
    for (s->count = 0; s->count < waves_most; s->count++) {
        /* GCOVR_EXCL_BR_STOP */
        const double t = pi * (s->count + 1) / s->half_period, phase = t * mixture->deviation;
        double wave = exp(-0.5 * phase * phase);
        if (wave < 1e-18) {
            break;
        }
        for (int i = 0; i < mixture->count; i++) {
            wave *= sinc_power(t * mixture->parts[i].half_width / mixture->parts[i].order,
                               mixture->parts[i].order);
        }
        s->wave[s->count] = wave;
    }
}

static double smooth_cdf(const series *s, double x)
{
    if (fabs(x) >= s->half_period) {
        return x > 0.0;
    }
    double sum = 0.5 + 0.5 * x / s->half_period;
    for (int k = 0; k < s->count; k++) {
        sum += s->wave[k] * sin(pi * (k + 1) * x / s->half_period) / (pi * (k + 1));
    }
    return sum;
}

static double smooth_density(const series *s, double x)
{
    double sum = 0.5;
    for (int k = 0; k < s->count; k++) {
        sum += s->wave[k] * cos(pi * (k + 1) * x / s->half_period);
    }
    return sum / s->half_period;
}

/* ---- both --------------------------------------------------------------------------------------------- */

enum { breaks_most = 128, pieces_of_rest = 24 };

typedef struct {
    const pieces *wide;
    const series *rest;
    double x;
    int rest_is_normal;
} convolution;

static double convolved(double y, const void *context)
{
    const convolution *c = (const convolution *)context;
    const double share = above(c->wide, 0, 0, c->x - y), deviation = c->rest->deviation;
    if (share == 0.0) {
        return 0.0;
    }
    return share *
           (c->rest_is_normal ? fer_normal_density(y / deviation) / deviation : smooth_density(c->rest, y));
}

/* The points where two polynomials meet, at most breaks_most - 32, those within reach of the rest; with many parts the polynomials meet so
 * smoothly that those that do not fit count for nothing. */
static int list_breaks(const pieces *p, int l, double x, double reach, double *breaks, int count) /* NOLINT */
{
    if (fabs(x) > reach + p->support[l] || count >= breaks_most - 32) {
        return count;
    }
    if (l == p->count) {
        breaks[count] = x;
        return count + 1;
    }
    const double h = p->parts[l].half_width;
    count = list_breaks(p, l + 1, x - h, reach, breaks, count);
    if (p->parts[l].order == 2) {
        count = list_breaks(p, l + 1, x, reach, breaks, count);
    }
    return list_breaks(p, l + 1, x + h, reach, breaks, count);
}

static double convolve(const pieces *wide, const series *rest, int rest_is_normal, double x)
{
    const convolution c = {wide, rest, x, rest_is_normal};
    double breaks[breaks_most];
    int count = list_breaks(wide, 0, x, rest->half_period, breaks, 0);
    for (int i = 1; i < pieces_of_rest; i++) {
        breaks[count++] = rest->half_period * (2.0 * i / pieces_of_rest - 1.0);
    }
    return fer_integrate_pieces(convolved, &c, -rest->half_period, rest->half_period, breaks, (size_t)count);
}

double fer_mixture_cdf(const fer_mixture *mixture, double x)
{
    fer_mixture narrow = {mixture->deviation, {{0.0, 0}}, 0};
    pieces wide = {.count = 0};
    series rest;
    if (mixture->count == 0 && mixture->deviation > 0.0) {
        return fer_normal_cdf(x / mixture->deviation);
    }
    for (int i = 0; i < mixture->count; i++) {
        if (mixture->parts[i].half_width > mixture->deviation) {
            add_part(&wide, mixture->parts[i]);
        } else {
            narrow.parts[narrow.count++] = mixture->parts[i];
        }
    }
    find_moments(&wide);
    if (mixture->deviation == 0.0) {
        return above(&wide, 0, 0, x);
    }
    find_waves(&narrow, &rest);
    if (wide.count == 0) {
        return smooth_cdf(&rest, x);
    }
    return convolve(&wide, &rest, narrow.count == 0, x);
}
