/* SPDX-License-Identifier: MIT */
/* Straight line through points by weighted least squares, sums in double-double.
 *
 * First fer_line_add() for every point, then fer_line_centre(); then fer_line_add_squares() for every point, then
 * fer_line_fit(); then fer_line_add_rest() for every point, then fer_line_scatter(). Weights have a mean of 1.
 */
#ifndef FER_NUMERIC_LINE_H
#define FER_NUMERIC_LINE_H

#include <stddef.h>

#include "base/numeric/pair.h"

typedef struct {
    fer_pair weights, xs, ys;     /* sums */
    fer_pair x_mean, y_mean;      /* weighted means */
    fer_pair x_squares, products; /* about the means */
    fer_pair slope, rest_squares;
    size_t count;
} fer_line;

void fer_line_add(fer_line *line, double x, double y, double weight);
void fer_line_centre(fer_line *line);
void fer_line_add_squares(fer_line *line, double x, double y, double weight);
/* Needs x_squares above 0. */
void fer_line_fit(fer_line *line);
void fer_line_add_rest(fer_line *line, double x, double y, double weight);
/* Standard deviation of a point of weight 1 about the line; needs three points. */
double fer_line_scatter(const fer_line *line);

#endif
