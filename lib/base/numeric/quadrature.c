/* SPDX-License-Identifier: MIT */
/* Integrals over pieces between given points.
 * Method: Gauss and Legendre's rule with 16 points a piece.
 * Formulas: Abramowitz and Stegun, table 25.4; base/numeric/quadrature.h. */
#include "base/numeric/quadrature.h"

#include "base/numeric/strict.h"

/* Gauss-Legendre, 16 points: Abramowitz and Stegun, table 25.4. */
static const double nodes[8] = {0.095012509837637440185, 0.281603550779258913230, 0.458016777657227386342,
                                0.617876244402643748447, 0.755404408355003033895, 0.865631202387831743880,
                                0.944575023073232576078, 0.989400934991649932596};
static const double weights[8] = {0.189450610455068496285, 0.182603415044923588867, 0.169156519395002538189,
                                  0.149595988816576732081, 0.124628971255533872052, 0.095158511682492784810,
                                  0.062253523938647892863, 0.027152459411754094852};

void fer_gauss_points(double from, double to, double points[FER_GAUSS_POINTS],
                      double point_weights[FER_GAUSS_POINTS])
{
    const double middle = 0.5 * (from + to), half = 0.5 * (to - from);
    for (int i = 0; i < 8; i++) {
        points[7 - i] = middle - half * nodes[i];
        points[8 + i] = middle + half * nodes[i];
        point_weights[7 - i] = point_weights[8 + i] = half * weights[i];
    }
}

static double integrate_piece(fer_integrand integrand, const void *context, double from, double to)
{
    const double middle = 0.5 * (from + to), half = 0.5 * (to - from);
    double sum = 0.0;
    for (int i = 0; i < 8; i++) {
        sum += weights[i] *
               (integrand(middle - half * nodes[i], context) + integrand(middle + half * nodes[i], context));
    }
    return half * sum;
}

/* Insertion sort: a few dozen numbers. */
static void sort(double *numbers, size_t count)
{
    for (size_t i = 1; i < count; i++) {
        const double moving = numbers[i];
        size_t j = i;
        for (; j > 0 && numbers[j - 1] > moving; j--) {
            numbers[j] = numbers[j - 1];
        }
        numbers[j] = moving;
    }
}

double fer_integrate_pieces(fer_integrand integrand, const void *context, double from, double to,
                            double *breaks, size_t count)
{
    double sum = 0.0, last = from;
    sort(breaks, count);
    for (size_t i = 0; i < count && last < to; i++) {
        if (breaks[i] > last) {
            const double next = breaks[i] < to ? breaks[i] : to;
            sum += integrate_piece(integrand, context, last, next);
            last = next;
        }
    }
    return last < to ? sum + integrate_piece(integrand, context, last, to) : sum;
}
