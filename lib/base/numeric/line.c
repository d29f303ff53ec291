/* SPDX-License-Identifier: MIT */
/* Straight line by weighted least squares.
 * Method: sums in double-double arithmetic about the means, in three passes.
 * Formulas: base/numeric/line.h; docs/adjust.md. */
#include "base/numeric/line.h"

void fer_line_add(fer_line *line, double x, double y, double weight)
{
    line->weights = fer_pair_add(line->weights, fer_pair_of(weight));
    line->xs = fer_pair_add(line->xs, fer_pair_product(weight, x));
    line->ys = fer_pair_add(line->ys, fer_pair_product(weight, y));
    line->count++;
}

void fer_line_centre(fer_line *line)
{
    line->x_mean = fer_pair_divide(line->xs, line->weights);
    line->y_mean = fer_pair_divide(line->ys, line->weights);
}

void fer_line_add_squares(fer_line *line, double x, double y, double weight)
{
    const fer_pair away = fer_pair_subtract(fer_pair_of(x), line->x_mean);
    const fer_pair weighted = fer_pair_multiply(fer_pair_of(weight), away);
    line->x_squares = fer_pair_add(line->x_squares, fer_pair_multiply(weighted, away));
    line->products = fer_pair_add(
        line->products, fer_pair_multiply(weighted, fer_pair_subtract(fer_pair_of(y), line->y_mean)));
}

void fer_line_fit(fer_line *line)
{
    line->slope = fer_pair_divide(line->products, line->x_squares);
}

void fer_line_add_rest(fer_line *line, double x, double y, double weight)
{
    const fer_pair x_away = fer_pair_subtract(fer_pair_of(x), line->x_mean);
    const fer_pair y_away = fer_pair_subtract(fer_pair_of(y), line->y_mean);
    const fer_pair rest = fer_pair_subtract(y_away, fer_pair_multiply(line->slope, x_away));
    line->rest_squares = fer_pair_add(line->rest_squares,
                                      fer_pair_multiply(fer_pair_of(weight), fer_pair_multiply(rest, rest)));
}

double fer_line_scatter(const fer_line *line)
{
    return sqrt(fer_pair_value(line->rest_squares) / (double)(line->count - 2));
}
