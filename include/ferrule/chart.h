/* SPDX-License-Identifier: MIT */
/** @file
 * Module `chart`: is the press drifting? Control charts for few pieces and many dies, their run lengths, and what a level does.
 *
 * Limits come from few pieces, so they can keep the rate of false alarms on the average, or with an assurance. Short runs of several
 * dies and sizes stand on one sheet: each piece gets a score that is standard normal while nothing changes. How long a chart runs
 * before it signals is computed, not simulated.
 */
#ifndef FERRULE_CHART_H
#define FERRULE_CHART_H

#include <ferrule/adjust.h>
#include <ferrule/conformity.h>
#include <ferrule/reading.h>

/** Factors of control charts for groups of so many pieces, named by what they do; tables have them as d2, d3, c4, A2 and so on. */
typedef struct fer_chart_constants {
    double range_mean;         /**< d2: mean range of a group by the standard deviation */
    double range_deviation;    /**< d3: standard deviation of that range by the standard deviation */
    double deviation_mean;     /**< c4: mean of a group's standard deviation by the true one */
    double means_by_range;     /**< A2: from mean range to the limits of means, 3/(d2 √n) */
    double means_by_deviation; /**< A3: from mean standard deviation to the limits of means, 3/(c4 √n) */
    double range_lower;        /**< D3: lower limit of ranges by the mean range, 1 - 3 d3/d2, not below 0 */
    double range_upper;        /**< D4: upper limit of ranges by the mean range, 1 + 3 d3/d2 */
    /** B3: lower limit of standard deviations by their mean, 1 - 3 √(1 - c4²)/c4, not below 0 */
    double deviation_lower;
    double deviation_upper; /**< B4: upper limit of standard deviations by their mean, 1 + 3 √(1 - c4²)/c4 */
    double singles_by_range; /**< E2: from mean moving range to the limits of single pieces, 3/d2 of two */
    /** d2*: root mean square of the mean range of so many groups, by the standard deviation: √(d2² + d3²/g) */
    double range_root_mean_square;
    double range_degrees; /**< degrees of freedom of the mean range of so many groups */
} fer_chart_constants;

/** What a chart shows, and where its standard deviation comes from. */
typedef enum fer_chart_kind {
    FER_CHART_KIND_MEANS_BY_RANGE,     /**< means of groups, and their ranges */
    FER_CHART_KIND_MEANS_BY_DEVIATION, /**< means of groups, and their standard deviations, pooled */
    FER_CHART_KIND_SINGLES_BY_RANGE,   /**< single pieces, and ranges of neighbours (moving ranges) */
    FER_CHART_KIND_SINGLES_BY_DEVIATION, /**< single pieces by the standard deviation of all, and moving ranges */
    FER_CHART_KIND_COUNT                 /**< number of kinds; not a kind */
} fer_chart_kind;

/** What the limits keep. */
typedef enum fer_limit_basis {
    /** so many standard deviations, as texts have it: as if mean and standard deviation were known */
    FER_LIMIT_BASIS_PLAIN,
    FER_LIMIT_BASIS_EXPECTED, /**< the rate of false alarms on the average of all studies like this one */
    FER_LIMIT_BASIS_ASSURED,  /**< that rate or less in this very study, with an assurance */
    FER_LIMIT_BASIS_COUNT     /**< number of ways; not one */
} fer_limit_basis;

/** How limits are found; all zero: three standard deviations, plain. */
typedef struct fer_limit_rule {
    fer_limit_basis basis; /**< what the limits keep @optional plain */
    /** share of points outside the limits while nothing changes @label rate of false alarms @range 0.001 % to 50 % @decimals 3
     * @optional that of three standard deviations, 0.26998 % */
    fer_ratio false_alarms;
    /** of an assured rate, one-sided @label assurance @range above 50 % to 99.9999 % @optional the usual 90 % */
    fer_ratio assurance;
} fer_limit_rule;

/** What is known of groups, or of single pieces, that were charted already. */
typedef struct fer_chart_figures {
    fer_length mean; /**< mean of all pieces @label mean diameter @range 0.001 mm to 1,000,000 mm */
    /** by the kind: mean range, pooled standard deviation, mean moving range, standard deviation @label scatter @range
     * 0.000001 mm to 1,000,000 mm @decimals 4 */
    fer_length scatter;
    int groups; /**< number of groups; of single pieces: of these @label groups @range 2 to 5000 */
    /** in each group; of single pieces it is not looked at @label pieces in a group @range 2 to 100 @optional single pieces */
    int pieces;
} fer_chart_figures;

/** Limits of a control chart. */
typedef struct fer_chart_limits {
    fer_length_range level;    /**< of means, or of single pieces */
    fer_length_range scatter;  /**< of ranges, standard deviations or moving ranges, by probability */
    fer_length level_centre;   /**< mean of all pieces */
    fer_length scatter_centre; /**< mean of ranges, standard deviations or moving ranges to expect */
    fer_length deviation;      /**< standard deviation of a piece that the limits are made of */
    double factor;             /**< of the level: standard deviations of a point from the centre to a limit */
    double degrees_of_freedom; /**< of the standard deviation */
} fer_chart_limits;

/** @def FER_CHART_SIGNAL_LIST
 * The one list of signals of a chart: X(name, number, sentence). */
#define FER_CHART_SIGNAL_LIST(X)                                                                             \
    X(BEYOND, 0, "this piece is beyond the limit: look at it, and at what was touched before it")            \
    X(TWO_OF_THREE, 1, "two of three pieces are beyond two standard deviations on one side")                 \
    X(FOUR_OF_FIVE, 2, "four of five pieces are beyond one standard deviation on one side")                  \
    X(SAME_SIDE, 3, "so many pieces in a row are on one side of the centre: the level has moved")            \
    X(RISING, 4, "so many pieces in a row rise, or fall: something wears or warms up")                       \
    X(ALTERNATING, 5, "so many pieces in a row go up and down in turn: two streams are mixed")               \
    X(INSIDE, 6,                                                                                             \
      "so many pieces in a row are within one standard deviation: the standard deviation is too large, or "  \
      "streams are mixed in each group")                                                                     \
    X(OUTSIDE, 7, "so many pieces in a row are outside one standard deviation, either side: two levels")     \
    X(EWMA, 8, "the weighted mean of the pieces so far is beyond its limit: the level has moved")            \
    X(CUSUM_UP, 9, "the sum of what was above is beyond its limit: the level has risen")                     \
    X(CUSUM_DOWN, 10, "the sum of what was below is beyond its limit: the level has fallen")

/** A signal of #FER_CHART_SIGNAL_LIST. */
typedef enum fer_chart_signal {
#define FER_CHART_SIGNAL_ENUMERATOR(name, number, sentence) FER_CHART_SIGNAL_##name = number,
    FER_CHART_SIGNAL_LIST(FER_CHART_SIGNAL_ENUMERATOR)
#undef FER_CHART_SIGNAL_ENUMERATOR
        FER_CHART_SIGNAL_COUNT /**< number of signals; not a signal */
} fer_chart_signal;

/** A set of signals: bit n stands for signal number n. */
typedef struct fer_chart_signals {
    uint64_t bits; /**< bit n is set where signal n is given */
} fer_chart_signals;

/** Which signals a chart gives, and what is known; all zero: scores only. */
typedef struct fer_charting {
    /** weight of the newest piece in the weighted mean (EWMA) @label weight @range 0.05 to 1 @decimals 2 @optional no weighted
     * mean */
    double weight;
    /** of the weighted mean, in its standard deviations @label limit @range 0.5 to 6 @decimals 3 @optional the usual 3 */
    double limit;
    /** what a piece may be off without being summed (CUSUM), in standard deviations; half the shift to be found @label
     * allowance @range 0.1 to 3 @decimals 2 @optional no sums */
    double allowance;
    /** of the sums, in standard deviations @label decision limit @range 0.5 to 20 @decimals 3 @optional the usual 5 */
    double decision;
    /** one piece beyond so many standard deviations @label beyond @range 1 to 6 @decimals 3 @optional off */
    double beyond;
    int two_of_three; /**< two of three beyond two standard deviations on one side @label two of three beyond two @flag @optional off */
    int four_of_five; /**< four of five beyond one standard deviation on one side @label four of five beyond one @flag @optional off */
    /** so many in a row on one side of the centre @label on one side @range 2 to 20 @optional off */
    int same_side;
    /** so many in a row rising, or falling @label rising or falling @range 3 to 20 @optional off */
    int rising;
    /** so many in a row up and down in turn @label alternating @range 3 to 30 @optional off */
    int alternating;
    /** so many in a row within one standard deviation @label within one @range 3 to 30 @optional off */
    int inside;
    /** so many in a row outside one standard deviation, either side @label outside one @range 2 to 30 @optional off */
    int outside;
    /** of pieces, from the record of the shop @label known standard deviation @range 0.000001 mm to 1,000,000 mm @decimals 4
     * @optional from the pieces */
    fer_length deviation;
    /** level that the pieces have, of one kind; needs a known standard deviation @label known level @range 0.001 mm to 1,000,000
     * mm @optional from the pieces */
    fer_length centre;
    /** smallest step of a diameter: a standard deviation from the pieces is not below the step's own, step/√12 @label resolution
     * @range 0 mm to 10 mm @decimals 4 @optional stepless */
    fer_length resolution;
} fer_charting;

/** One piece on the chart, with what the next needs; all zero: none yet. */
typedef struct fer_chart_point {
    /** distance from the level so far, standard normal while nothing changes; NaN: too few pieces of this kind, or they are all
     * equal so far @optional none */
    double score;
    double ewma; /**< weighted mean of the scores so far; 0 where it is not charted @optional none so far */
    /** limit of it at this piece, either way; 0 where it is not charted @optional none so far */
    double ewma_limit;
    double up; /**< sum of what was above, CUSUM; 0 where it is not charted @optional none so far */
    /** sum of what was below, CUSUM, not negative; 0 where it is not charted @optional none so far */
    double down;
    fer_chart_signals signals; /**< which signals this piece gives @optional none */
    int kind;                  /**< kind of the piece @optional all one */
    int count;                 /**< pieces of this kind so far @optional none yet */
    fer_length mean;           /**< their mean @optional none yet */
    fer_length scatter;        /**< their standard deviation @optional one piece */
    int scored;                /**< pieces with a score so far, of all kinds @optional none so far */
    /** this score; where there is none the one before @optional none so far */
    double last_score;
    /** zones of the last four scores: three bits each, the newest the lowest; for the next call @optional none so far */
    int history;
    /** scores in a row on one side, negative below; for the next call @optional none so far */
    int side_run;
    /** scores in a row rising, negative falling, the first one counted; for the next call @optional none so far */
    int trend_run;
    /** scores in a row up and down in turn; for the next call @optional none so far */
    int alternating_run;
    /** scores in a row within one standard deviation; for the next call @optional none so far */
    int inside_run;
    /** scores in a row outside one standard deviation; for the next call @optional none so far */
    int outside_run;
} fer_chart_point;

/** How long a chart runs before it signals. */
typedef struct fer_run_length {
    double mean;            /**< mean number of pieces up to the first signal after the level has shifted */
    double mean_unshifted;  /**< mean number of pieces up to a false alarm */
    fer_ratio false_alarms; /**< false alarms a piece: one by the mean number of pieces between them */
} fer_run_length;

/** Which chart is to be chosen. */
typedef enum fer_chart_method {
    FER_CHART_METHOD_EWMA,  /**< exponentially weighted moving average */
    FER_CHART_METHOD_CUSUM, /**< cumulative sums, both sides */
    FER_CHART_METHOD_COUNT  /**< number of methods; not a method */
} fer_chart_method;

/** Whether and where a level changed. */
typedef struct fer_level_change {
    int found; /**< the change is significant: its probability by chance is at most 5 % @flag @optional it may be chance */
    size_t last_before;     /**< place of the last piece before the likeliest change */
    fer_ratio probability;  /**< that the change is there, if there is one */
    fer_length before;      /**< mean up to it */
    fer_length after;       /**< mean of the pieces behind it */
    fer_length uncertainty; /**< standard uncertainty of the difference, if the place were known */
    double t_statistic;     /**< difference by that uncertainty, positive */
    /** upper bound of the probability of a change as large where there is none */
    fer_ratio p_upper;
    size_t earliest; /**< first place of the shortest range that holds the change with 90 % */
    size_t latest;   /**< last place of it */
} fer_level_change;

/** Level of a press that wanders, and what other modules take of it. */
typedef struct fer_press_level {
    fer_length level; /**< deviation of the press from its target today: take it off the first setting */
    /** standard uncertainty of it: what fer_correct_dial() takes as setting_deviation, and a diagnosis as drift_deviation */
    fer_length uncertainty;
    fer_length lower; /**< lower end of the range that holds the level with the coverage asked */
    fer_length upper; /**< upper end of it */
    /** standard deviation of a check about the level, not below the gauge's: what fer_correct_dial() and a diagnosis take as
     * crimp_deviation */
    fer_length crimp_deviation;
    fer_length
        walk_per_root_day; /**< standard deviation of the level's change in one day; by the root of the days in more */
    double
        weight; /**< of the newest check in the weighted mean that follows the level; 0: it does not wander */
    int due;    /**< that the press is within the limit today is not assured: adjust it @flag */
    int due_found; /**< within ten years it becomes due, see due_day @flag */
    int due_day;   /**< first day from today on which it is due; not before today */
} fer_press_level;

#ifdef __cplusplus
extern "C" {
#endif

/**
 * Factors of control charts, for groups of any size from 2 to 100 pieces; of any number of groups.
 *
 * @formula \f$ d_2 = \int 1 - \Phi^n - (1 - \Phi)^n\,dx \f$, \f$ d_3^2 = E[W^2] - d_2^2 \f$ with the range \f$W\f$ of \f$n\f$
 * standard normal numbers, \f$ c_4 = \sqrt{2\pi/(n - 1)}/B(1/2, (n - 1)/2) \f$; of \f$g\f$ groups
 * \f$ d_2^* = \sqrt{d_2^2 + d_3^2/g} \f$, \f$ \nu = 1/(2(\sqrt{1 + 2d_3^2/(g d_2^2)} - 1)) \f$
 *
 * @param[in] pieces  in a group @range 2 to 100
 * @param[in] groups  that a mean range comes from @range 1 to 5000 @optional one
 * @param[out] constants  NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  the pointer is null
 * @retval FER_CHART_PIECES_OUT_OF_RANGE  not 2 to 100
 * @retval FER_CHART_GROUPS_OUT_OF_RANGE  given, and not 1 to 5000
 * @accuracy 1e-11 relative
 * @source Tippett, Biometrika 17 (1925) 364-387; Patnaik, Biometrika 37 (1950) 78-87 (degrees of freedom; both from memory)
 */
FER_API fer_status fer_find_chart_constants(int pieces, int groups, fer_chart_constants *constants);

/**
 * Limits of a control chart from pieces.
 *
 * @formula level \f$ \bar{\bar x} \pm k\sigma/\sqrt n \f$ with \f$g\f$ groups, or single pieces, and \f$\nu\f$ degrees of freedom. Plain:
 * \f$ k = \Phi^{-1}(1 - \alpha/2) \f$, 3 by default; expected: \f$ k = t_{1-\alpha/2,\nu}\sqrt{1 + 1/g} \f$; assured: the tolerance factor
 * of fer_find_tolerance_factor() for the content \f$ 1 - \alpha \f$, \f$g\f$ pieces and \f$\nu\f$ degrees of freedom, which is what keeps the rate
 * with that assurance. Scatter: quantiles of the range or of chi-square, \f$\alpha/2\f$ beyond each; expected: averaged over \f$\sigma\f$;
 * assured: each side by itself, with the limits of \f$\sigma\f$ at the assurance. Standard deviation: \f$ \bar R/d_2 \f$ (plain) or
 * \f$ \bar R/d_2^* \f$, pooled or overall. Moving ranges overlap; their degrees of freedom allow for it. Exact where the standard deviation
 * is pooled or overall; by ranges as good as Patnaik's chi-square, by simulation within a tenth of the rate.
 *
 * @param[in] pieces  of one kind; single pieces in the order they were made, groups of equal size by their numbers
 * @param[in] count  number of pieces
 * @param[in] chart  what is charted
 * @param[in] rule  what the limits keep @optional three standard deviations
 * @param[out] limits  NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_ARGUMENT_COUNT_ZERO  no pieces
 * @retval FER_ARGUMENT_COUNT_TOO_LARGE  more than 5000
 * @retval FER_SAMPLE_PIECE_MISSING  and the other statuses of fer_summarise_sample() on a piece
 * @retval FER_SAMPLE_PIECE_OUT_OF_RANGE  a diameter is not 0.001 mm to 1,000,000 mm
 * @retval FER_SAMPLE_GROUP_OUT_OF_RANGE  not 0 to 1,000,000
 * @retval FER_SAMPLE_KIND_OUT_OF_RANGE  not 0 to 63
 * @retval FER_SAMPLE_TOO_FEW  one piece
 * @retval FER_SAMPLE_WITHOUT_SCATTER  the pieces of each group, or all single pieces, are equal
 * @retval FER_CHART_KINDS_SEVERAL  the pieces are not all of one kind
 * @retval FER_CHART_KIND_UNKNOWN  not in #fer_chart_kind
 * @retval FER_CHART_BASIS_UNKNOWN  not in #fer_limit_basis
 * @retval FER_CHART_FALSE_ALARMS_OUT_OF_RANGE  given, and not 0.001 % to 50 %
 * @retval FER_CHART_ASSURANCE_OUT_OF_RANGE  given, and not above 50 % and at most 99.9999 %
 * @retval FER_CHART_GROUPS_DIFFER  groups do not have equally many pieces
 * @retval FER_CHART_GROUPS_OUT_OF_RANGE  one group only
 * @retval FER_CHART_PIECES_OUT_OF_RANGE  groups of one piece, or of more than 100
 * @retval FER_CHART_FIGURES_OUT_OF_RANGE  the scatter is below 0.000001 mm
 * @accuracy 1e-11 relative to the distance of the limits
 * @source Quesenberry, J. Qual. Technol. 25 (1993) 237-247 (what plain limits from few pieces do; from memory); expected: Student's
 *         prediction limits; assured: follows from the definition of a tolerance interval, no source
 */
FER_API fer_status fer_find_chart_limits(const fer_sample_piece *pieces, size_t count, fer_chart_kind chart,
                                         fer_limit_rule rule, fer_chart_limits *limits);

/**
 * Limits of a control chart from figures that are there already.
 *
 * @formula as fer_find_chart_limits()
 *
 * @param[in] figures  of the groups, or of the single pieces
 * @param[in] chart  what is charted
 * @param[in] rule  what the limits keep @optional three standard deviations
 * @param[out] limits  NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_CHART_KIND_UNKNOWN  not in #fer_chart_kind
 * @retval FER_CHART_FIGURES_MISSING  mean or scatter is not given
 * @retval FER_CHART_FIGURES_OUT_OF_RANGE  mean not 0.001 mm to 1,000,000 mm, or scatter not 0.000001 mm to 1,000,000 mm
 * @retval FER_CHART_PIECES_OUT_OF_RANGE  groups are charted, and they do not have 2 to 100 pieces
 * @retval FER_CHART_GROUPS_OUT_OF_RANGE  not 2 to 5000
 * @retval FER_CHART_BASIS_UNKNOWN  not in #fer_limit_basis
 * @retval FER_CHART_FALSE_ALARMS_OUT_OF_RANGE  given, and not 0.001 % to 50 %
 * @retval FER_CHART_ASSURANCE_OUT_OF_RANGE  given, and not above 50 % and at most 99.9999 %
 * @accuracy 1e-11 relative to the distance of the limits
 * @source as fer_find_chart_limits()
 */
FER_API fer_status fer_find_limits_from_figures(const fer_chart_figures *figures, fer_chart_kind chart,
                                                fer_limit_rule rule, fer_chart_limits *limits);

/**
 * Chart of short runs: each piece's score, weighted mean, sums and signals, several dies and sizes on one sheet.
 *
 * @formula from the third piece of a kind on
 * \f$ Q_r = \Phi^{-1}(P_{r-2}(\sqrt{(r - 1)/r}\,(x_r - \bar x_{r-1})/s_{r-1})) \f$, \f$P\f$ Student's distribution; with a known standard
 * deviation from the second on \f$ (x_r - \bar x_{r-1})/(\sigma\sqrt{r/(r - 1)}) \f$, with a known level, too, from the first
 * \f$ (x - \mu)/\sigma \f$. Weighted mean \f$ z_i = \lambda Q_i + (1 - \lambda)z_{i-1} \f$, limits
 * \f$ \pm L\sqrt{\lambda/(2 - \lambda)\,(1 - (1 - \lambda)^{2i})} \f$; sums \f$ \max(0, C + Q - k) \f$ and \f$ \max(0, C - Q - k) \f$, limit
 * \f$h\f$. The scores are independent and standard normal while nothing changes, so limits, rules and run lengths hold for all kinds
 * together. A jump shows in the first scores behind it and is forgotten then: chart the weighted mean or the sums besides.
 * A score beyond 37 counts as 37.
 *
 * @param[in] pieces  in the order they were made @unused group
 * @param[in] count  number of pieces
 * @param[in] charting  which signals, and what is known @optional scores only
 * @param[out] points  one for each piece
 * @param[in] capacity  number of elements in points; count is needed
 * @param[out] found  number of points; 0 on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_ARGUMENT_COUNT_ZERO  no pieces
 * @retval FER_ARGUMENT_COUNT_TOO_LARGE  more than 5000
 * @retval FER_ARGUMENT_CAPACITY_TOO_SMALL  capacity below count
 * @retval FER_SAMPLE_PIECE_MISSING  and the other statuses of fer_summarise_sample() on a piece
 * @retval FER_SAMPLE_PIECE_OUT_OF_RANGE  a diameter is not 0.001 mm to 1,000,000 mm
 * @retval FER_SAMPLE_GROUP_OUT_OF_RANGE  not 0 to 1,000,000
 * @retval FER_SAMPLE_KIND_OUT_OF_RANGE  not 0 to 63
 * @retval FER_CHART_KINDS_SEVERAL  a level is known, and the pieces are not all of one kind
 * @retval FER_CHART_WEIGHT_OUT_OF_RANGE  given, and not 0.05 to 1
 * @retval FER_CHART_LIMIT_OUT_OF_RANGE  given, and not 0.5 to 6
 * @retval FER_CHART_ALLOWANCE_OUT_OF_RANGE  given, and not 0.1 to 3
 * @retval FER_CHART_DECISION_OUT_OF_RANGE  given, and not 0.5 to 20
 * @retval FER_CHART_BEYOND_OUT_OF_RANGE  given, and not 1 to 6
 * @retval FER_CHART_RULE_OUT_OF_RANGE  the length of a rule is given, and not in its range
 * @retval FER_CHART_DEVIATION_OUT_OF_RANGE  given, and not 0.000001 mm to 1,000,000 mm
 * @retval FER_CHART_CENTRE_OUT_OF_RANGE  given, and not 0.001 mm to 1,000,000 mm, or without a standard deviation
 * @retval FER_CHART_RESOLUTION_OUT_OF_RANGE  not 0 to 10 mm
 * @accuracy scores 1e-9 absolute
 * @source Quesenberry, J. Qual. Technol. 23 (1991) 184-224; rules: Western Electric, Statistical quality control handbook, 1956;
 *         Nelson, J. Qual. Technol. 16 (1984) 237-239 (all from memory)
 */
FER_API fer_status fer_chart_points(const fer_sample_piece *pieces, size_t count, fer_charting charting,
                                    fer_chart_point *points, size_t capacity, size_t *found);

/**
 * The next point of a chart of short runs: what fer_chart_points() does, one piece at a time.
 *
 * After a signal and its cause begin the sheet anew, without a last point; what is known of the kinds may stay.
 *
 * @formula as fer_chart_points()
 *
 * @param[in] piece  the piece @unused group
 * @param[in] last  last point on the sheet, @from fer_next_point() @optional the sheet begins
 * @param[in] last_of_kind  last point of this piece's kind, @from fer_next_point() @optional the first of its kind
 * @param[in] charting  which signals, and what is known @optional scores only
 * @param[out] point  NaN and 0 on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_SAMPLE_PIECE_MISSING  the diameter is not given
 * @retval FER_SAMPLE_PIECE_OUT_OF_RANGE  the diameter is not 0.001 mm to 1,000,000 mm
 * @retval FER_SAMPLE_GROUP_OUT_OF_RANGE  not 0 to 1,000,000
 * @retval FER_SAMPLE_KIND_OUT_OF_RANGE  not 0 to 63
 * @retval FER_CHART_KINDS_SEVERAL  the last point of its kind is of another kind, or a level is known and the last point is of another kind
 * @retval FER_CHART_POINT_INCOMPLETE  a last point is none that this function gave
 * @retval FER_CHART_WEIGHT_OUT_OF_RANGE  and the other statuses of fer_chart_points() on the charting
 * @retval FER_CHART_LIMIT_OUT_OF_RANGE  given, and not 0.5 to 6
 * @retval FER_CHART_ALLOWANCE_OUT_OF_RANGE  given, and not 0.1 to 3
 * @retval FER_CHART_DECISION_OUT_OF_RANGE  given, and not 0.5 to 20
 * @retval FER_CHART_BEYOND_OUT_OF_RANGE  given, and not 1 to 6
 * @retval FER_CHART_RULE_OUT_OF_RANGE  the length of a rule is given, and not in its range
 * @retval FER_CHART_DEVIATION_OUT_OF_RANGE  given, and not 0.000001 mm to 1,000,000 mm
 * @retval FER_CHART_CENTRE_OUT_OF_RANGE  given, and not 0.001 mm to 1,000,000 mm, or without a standard deviation
 * @retval FER_CHART_RESOLUTION_OUT_OF_RANGE  not 0 to 10 mm
 * @accuracy the bits of fer_chart_points()
 * @source as fer_chart_points()
 */
FER_API fer_status fer_next_point(const fer_sample_piece *piece, fer_chart_point last,
                                  fer_chart_point last_of_kind, fer_charting charting,
                                  fer_chart_point *point);

/**
 * Mean number of pieces up to a signal: of the weighted mean, of the sums, or of a set of run rules.
 *
 * @formula weighted mean with fixed limits: \f$ A(z) = 1 + \frac{1}{\lambda}\int A(y)\,\varphi((y - (1 - \lambda)z)/\lambda - \delta)\,dy \f$; sums, one side:
 * \f$ A(z) = 1 + A(0)\,\Phi(k - \delta - z) + \int_0^h A(y)\,\varphi(y + k - \delta - z)\,dy \f$, both \f$ 1/A = 1/A^+ + 1/A^- \f$; both by Nyström's method
 * with 32 or 48 unknowns, begun at 0. Rules: a Markov chain over histories that are cut to what can still complete a rule.
 * Known level and standard deviation: with these from few pieces the first scores follow other rules only after a shift.
 *
 * @param[in] charting  one of weighted mean, sums, rules (beyond, two_of_three, four_of_five, same_side) @unused deviation centre resolution
 * @param[in] shift  of the level, either way, in standard deviations @range 0 to 6
 * @param[out] length  NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_CHART_WEIGHT_OUT_OF_RANGE  and the other statuses of fer_chart_points() on the charting
 * @retval FER_CHART_LIMIT_OUT_OF_RANGE  given, and not 0.5 to 6
 * @retval FER_CHART_ALLOWANCE_OUT_OF_RANGE  given, and not 0.1 to 3
 * @retval FER_CHART_DECISION_OUT_OF_RANGE  given, and not 0.5 to 20
 * @retval FER_CHART_BEYOND_OUT_OF_RANGE  given, and not 1 to 6
 * @retval FER_CHART_RULE_OUT_OF_RANGE  the length of a rule is given, and not in its range
 * @retval FER_CHART_RULE_WITHOUT_RUN_LENGTH  rising, alternating, inside or outside
 * @retval FER_CHART_METHOD_NOT_ONE  none of weighted mean, sums, rules, or more than one
 * @retval FER_CHART_STATES_TOO_MANY  the rules together have more than 512 histories
 * @retval FER_CHART_SHIFT_OUT_OF_RANGE  not 0 to 6
 * @retval FER_CHART_RUN_LENGTH_OUT_OF_RANGE  above 100,000 without a shift, or a limit above \f$ 12.2\sqrt{\lambda(2 - \lambda)} \f$
 * @accuracy 1e-8 relative
 * @source Crowder, Technometrics 29 (1987) 401-407; Kemp, J. Roy. Statist. Soc. B 23 (1961) 149-153; Champ and Woodall, Technometrics 29
 *         (1987) 393-399 (all from memory)
 */
FER_API fer_status fer_find_run_length(const fer_charting *charting, double shift, fer_run_length *length);

/**
 * Limit with which a chart has a wanted mean number of pieces between false alarms.
 *
 * Found is the limit of the weighted mean, the decision limit of the sums, or what a single piece must be beyond among rules; the other
 * members stay as they are.
 *
 * @formula root of \f$ \ln A(x) = \ln A_0 \f$ by the secant method
 *
 * @param[in] run_length  pieces between false alarms, in the mean @range 10 to 100,000
 * @param[in] charting  one of weighted mean, sums, rules with a value of `beyond` @unused limit decision deviation centre resolution
 * @param[out] complete  the same with its limit; NaN and 0 on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_CHART_WEIGHT_OUT_OF_RANGE  and the other statuses of fer_find_run_length() on the charting
 * @retval FER_CHART_ALLOWANCE_OUT_OF_RANGE  given, and not 0.1 to 3
 * @retval FER_CHART_BEYOND_OUT_OF_RANGE  not 1 to 6, or not given where there are rules
 * @retval FER_CHART_RULE_OUT_OF_RANGE  the length of a rule is given, and not in its range
 * @retval FER_CHART_RULE_WITHOUT_RUN_LENGTH  rising, alternating, inside or outside
 * @retval FER_CHART_METHOD_NOT_ONE  none of weighted mean, sums, rules, or more than one
 * @retval FER_CHART_STATES_TOO_MANY  the rules together have more than 512 histories
 * @retval FER_CHART_RUN_LENGTH_OUT_OF_RANGE  not 10 to 100,000
 * @retval FER_CHART_RUN_LENGTH_NOT_REACHABLE  no limit in its range does
 * @accuracy 1e-8 relative
 * @source as fer_find_run_length()
 */
FER_API fer_status fer_find_charting_limit(double run_length, const fer_charting *charting,
                                           fer_charting *complete);

/**
 * The chart that finds a shift soonest, of all with a wanted mean number of pieces between false alarms.
 *
 * Weight or allowance is found to the hundredth, in steps of which it is tried; the limit belongs to it.
 *
 * @formula smallest \f$ A(\delta) \f$ where \f$ A(0) = A_0 \f$
 *
 * @param[in] run_length  pieces between false alarms, in the mean @range 10 to 100,000
 * @param[in] shift  to be found, either way, in standard deviations @range 0.2 to 6
 * @param[in] method  weighted mean or sums
 * @param[out] charting  NaN and 0 on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  the pointer is null
 * @retval FER_CHART_RUN_LENGTH_OUT_OF_RANGE  not 10 to 100,000
 * @retval FER_CHART_SHIFT_OUT_OF_RANGE  not 0.2 to 6
 * @retval FER_CHART_METHOD_UNKNOWN  not in #fer_chart_method
 * @accuracy limit 1e-8 relative
 * @source as fer_find_run_length()
 */
FER_API fer_status fer_choose_charting(double run_length, double shift, fer_chart_method method,
                                       fer_charting *charting);

/**
 * Whether the level changed once among the pieces, and where.
 *
 * @formula \f$ B_j = \frac{j(n - j)}{n}(\bar x_1 - \bar x_2)^2 \f$, \f$ t_j^2 = (n - 2)B_j/(S - B_j) \f$;
 * \f$ p \le \sum P(|t| > t_{max}) - \sum P(\text{both } j \text{ and } j + 1) \f$; place: probability proportional to
 * \f$ [j(n - j)]^{-1/2}(S - B_j)^{-(n - 2)/2} \f$. By simulation the bound is 0.050 to 0.066 where 0.05 is true (6 to 50 pieces).
 *
 * @param[in] pieces  of one kind, in the order they were made @unused group
 * @param[in] count  number of pieces, 4 to 5000
 * @param[out] change  NaN and 0 on failure
 * @param[out] places  probability that the change is behind this piece; of the last piece none is given
 * @param[in] capacity  number of elements in places; one fewer than count is needed
 * @param[out] found  number of places; 0 on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_ARGUMENT_COUNT_ZERO  no pieces
 * @retval FER_ARGUMENT_COUNT_TOO_LARGE  more than 5000
 * @retval FER_ARGUMENT_CAPACITY_TOO_SMALL  more places than capacity
 * @retval FER_SAMPLE_TOO_FEW  fewer than four pieces
 * @retval FER_SAMPLE_PIECE_MISSING  and the other statuses of fer_summarise_sample() on a piece
 * @retval FER_SAMPLE_PIECE_OUT_OF_RANGE  a diameter is not 0.001 mm to 1,000,000 mm
 * @retval FER_SAMPLE_GROUP_OUT_OF_RANGE  not 0 to 1,000,000
 * @retval FER_SAMPLE_KIND_OUT_OF_RANGE  not 0 to 63
 * @retval FER_SAMPLE_WITHOUT_SCATTER  all values are equal
 * @retval FER_CHART_KINDS_SEVERAL  the pieces are not all of one kind
 * @accuracy 1e-9 relative; probabilities 1e-9 absolute
 * @source Worsley, Biometrika 69 (1982) 297-302; Smith, Biometrika 62 (1975) 407-416 (both from memory)
 */
FER_API fer_status fer_find_change(const fer_sample_piece *pieces, size_t count, fer_level_change *change,
                                   fer_ratio *places, size_t capacity, size_t *found);

/**
 * Level of a press over its checks, where it wanders instead of drifting along a line (for that: fer_check_drift()).
 *
 * @formula \f$ y_i = m_i + e_i \f$, \f$m\f$ a random walk; variances \f$q\f$ a day and \f$r\f$. Filter in units of \f$r\f$, \f$ \eta = q/r \f$:
 * \f$ P \leftarrow P + \eta\Delta,\ F = P + 1,\ v = y - a,\ a \leftarrow a + vP/F,\ P \leftarrow P/F \f$ from the first check on. \f$\eta\f$ is not
 * estimated but averaged out: 0 and 24 places from 0.001 to 100 for each median gap, with the weight
 * \f$ \prod F^{-1/2}(\sum v^2/F)^{-(n - 1)/2} \f$; the level is a mixture of Student's distributions. By simulation 90 to 99 % of the levels are in the
 * limits where 95 % are asked, from six checks on. Due: \f$ P(|m| > l) > 1 - \f$ coverage. crimp_deviation,
 * walk_per_root_day and weight are those of the likeliest \f$\eta\f$, weight \f$ (\sqrt{\eta^2 + 4\eta} - \eta)/2 \f$ a median gap.
 *
 * @param[in] checks  in the order of their days, at least four, on two different days at least
 * @param[in] count  number of checks
 * @param[in] today  day to judge, not before the last check @range -1,000,000 to 1,000,000
 * @param[in] limit  greatest deviation allowed either way @range above 0 mm to 1000 mm
 * @param[in] coverage  probability of the limits, and of being within `limit` @range above 0 to below 1
 * @param[in] gauge  with which the checks were measured @optional not known, a step of 0.01 mm
 * @param[out] level  NaN and 0 on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_ARGUMENT_COUNT_TOO_LARGE  more than 5000
 * @retval FER_PRESS_CHECKS_TOO_FEW  fewer than four, or all on one day
 * @retval FER_PRESS_CHECKS_NOT_IN_ORDER  a day is before that of the check before it, or today is before the last
 * @retval FER_DRIFT_DAY_OUT_OF_RANGE  a day is not -1,000,000 to 1,000,000
 * @retval FER_DRIFT_DEVIATION_OUT_OF_RANGE  not -1000 mm to 1000 mm
 * @retval FER_DRIFT_LIMIT_OUT_OF_RANGE  not above 0 and up to 1000 mm
 * @retval FER_COVERAGE_OUT_OF_RANGE  not between 0 and 1
 * @retval FER_GAUGE_UNCERTAINTY_OUT_OF_RANGE  and the other statuses of fer_summarise_readings() on the gauge
 * @accuracy 1e-9 relative to the scatter; walk and weight 1e-6
 * @source Durbin and Koopman, Time series analysis by state space methods, 2001, ch. 2 (from memory); averaging: no source, by simulation
 */
FER_API fer_status fer_track_press(const fer_drift_point *checks, size_t count, int today, fer_length limit,
                                   fer_ratio coverage, fer_gauge gauge, fer_press_level *level);

/**
 * Name of a signal, such as "SAME_SIDE".
 *
 * @param[in] signal  any number
 * @return the name without the prefix; "UNKNOWN" for a number that is not in the list; never NULL
 */
FER_API const char *fer_chart_signal_name(fer_chart_signal signal);

/**
 * Sentence of a signal in English.
 *
 * @param[in] signal  any number
 * @return what it means; for a number that is not in the list a sentence that says so; never NULL
 */
FER_API const char *fer_chart_signal_sentence(fer_chart_signal signal);

#ifdef __cplusplus
}
#endif

#endif
