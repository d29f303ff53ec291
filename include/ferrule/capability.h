/* SPDX-License-Identifier: MIT */
/** @file
 * Module `capability`: what a sample of pieces shows of the process that made it.
 *
 * Every figure comes with the limit that it keeps with the confidence asked, since a sample of 5 to 50 pieces shows little.
 * Confidence is always one-sided: for two-sided 95 % ask for 97.5 % and take both ends. ISO 22514-1 calls an index
 * *capability* only where the process was shown to be under control, otherwise *performance* (from memory): say so by
 * `stable`, and write the word that follows from it.
 */
#ifndef FERRULE_CAPABILITY_H
#define FERRULE_CAPABILITY_H

#include <ferrule/conformity.h>
#include <ferrule/reading.h>

/** What a sample says. Of a sample that is known by its figures only, count, mean and scatter are enough. */
typedef struct fer_sample_summary {
    size_t count;             /**< number of pieces @range 2 to 5000 */
    fer_length mean;          /**< mean diameter @range 0.001 mm to 1,000,000 mm */
    fer_found_length scatter; /**< overall standard deviation, one degree of freedom fewer than pieces */
    fer_length minimum;       /**< the smallest diameter @optional not known */
    fer_length maximum;       /**< the greatest diameter @optional not known */
    size_t groups;            /**< number of groups @optional not known */
    /** standard deviation within groups; where no group has two pieces or there is one group: from the differences of
     * neighbours @optional not known */
    fer_found_length within;
    double within_degrees; /**< degrees of freedom of it @optional not known */
    /** probability of groups as different as these where all are alike (F test) @optional not known */
    fer_found_ratio groups_p;
    double lag; /**< correlation of a piece with the one before it @optional not known */
    /** that correlation is beyond 2 by the root of the number of pieces @flag @optional it may be chance */
    int lag_found;
    double log_mean;      /**< mean of the natural logarithms of the diameters in mm @optional not known */
    double log_deviation; /**< their standard deviation @optional not known */
    /** the piece that is farthest from the mean is an outlier; it counts all the same @flag @optional none is */
    int outlier_found;
    /** place of that piece in the list; of two equally far, of the first @optional the first */
    size_t outlier_index;
} fer_sample_summary;

/** Whether values look normal. */
typedef struct fer_normality {
    double shapiro;      /**< Shapiro and Wilk's W */
    fer_ratio shapiro_p; /**< probability of a smaller one where the values are normal */
    double anderson;     /**< Anderson and Darling's A², mean and standard deviation from the values */
    fer_found_ratio anderson_p; /**< probability of a greater one where they are normal; needs eight pieces */
    int laid_out; /**< equal readings were laid out over their step @flag @optional none are equal */
} fer_normality;

/** Which standard deviation counts. */
typedef enum fer_scatter {
    FER_SCATTER_OVERALL, /**< that of all pieces */
    FER_SCATTER_WITHIN   /**< that within groups */
} fer_scatter;

/** Which distribution the values have. */
typedef enum fer_values_shape {
    FER_VALUES_SHAPE_NORMAL, /**< normal */
    FER_VALUES_SHAPE_LOGNORMAL, /**< their logarithms are normal: what cannot be below 0, such as ovality and taper */
    FER_VALUES_SHAPE_ANY /**< not known: there is no index, see fer_find_free_tolerance() */
} fer_values_shape;

/** How capability is found; all zero: overall, normal, gauge without error. */
typedef struct fer_capability_settings {
    fer_scatter scatter;     /**< which standard deviation counts @optional overall */
    fer_values_shape shape;  /**< which distribution the values have @optional normal */
    fer_measuring measuring; /**< how the values were measured @optional without error */
    int stable; /**< groups and chart gave no signal: it is a capability @flag @optional a performance */
} fer_capability_settings;

/** An index with the limits that it keeps with the confidence asked, each one-sided. */
typedef struct fer_capability_index {
    double value;      /**< as estimated; NaN: it is not there, the status says why */
    double lower;      /**< lower limit; NaN: there is none */
    double upper;      /**< upper limit; NaN: there is none */
    fer_status status; /**< why the index is not there; FER_OK: it is */
} fer_capability_index;

/** Capability or performance of a process. */
typedef struct fer_capability {
    fer_capability_index potential;    /**< tolerance by six standard deviations: Cp, Pp */
    fer_capability_index to_lower;     /**< distance of the lower limit by three: CpL, PpL */
    fer_capability_index to_upper;     /**< distance of the upper limit by three: CpU, PpU */
    fer_capability_index nearer;       /**< the smaller of both: Cpk, Ppk */
    fer_capability_index about_target; /**< tolerance by six root mean squares about the target: Cpm, Ppm */
    fer_capability_index observed;     /**< the smaller of both with the gauge left in */
    double text_lower;                 /**< lower limit of `observed` as texts have it, approximate */
    double text_upper;                 /**< upper limit of `observed` as texts have it, approximate */
    double quantile_index; /**< smaller index by quantiles; NaN: normal, where it is the same as `observed` */
    /** standard deviation of the pieces, in mm, without the gauge's; of the logarithms where the shape is lognormal; NaN: the gauge
     * covers it */
    double deviation_used;
    double degrees_of_freedom; /**< of the standard deviation as observed */
    fer_ratio gauge_share;     /**< variance of the gauge by that of the values */
    int stable; /**< it is a capability, repeated from the settings @flag @optional a performance */
} fer_capability;

/** Share of the pieces outside the limits. */
typedef struct fer_share_outside {
    fer_ratio below;         /**< below the lower limit, unbiased estimate */
    fer_ratio above;         /**< above the upper limit, unbiased estimate */
    fer_ratio outside;       /**< sum of both */
    fer_ratio below_upper;   /**< upper limit of the share below the lower limit */
    fer_ratio above_upper;   /**< upper limit of the share above the upper limit */
    fer_ratio outside_upper; /**< upper limit of the share outside */
    fer_ratio next_below;    /**< probability that the next piece is below the lower limit */
    fer_ratio next_above;    /**< probability that the next piece is above the upper limit */
} fer_share_outside;

/** Between what a share of all pieces lies. */
typedef struct fer_tolerance_limits {
    fer_length lower; /**< lower end; NaN: not asked for */
    fer_length upper; /**< upper end; NaN: not asked for */
} fer_tolerance_limits;

/** What a sample shows where nothing is known of the distribution. */
typedef struct fer_free_tolerance {
    size_t
        rank; /**< the share lies between the values of this rank from each end; 0: so many pieces show nothing */
    size_t needed; /**< pieces with which the smallest and the greatest value would do */
    fer_ratio
        reached; /**< confidence that is reached at this rank, or with the smallest and the greatest value */
} fer_free_tolerance;

/** How many pieces it takes. */
typedef struct fer_showing {
    size_t pieces;   /**< number of pieces */
    double required; /**< index that they must show at least */
    fer_ratio power; /**< probability that they do, where the process is as expected */
} fer_showing;

#ifdef __cplusplus
extern "C" {
#endif

/**
 * Summary of a sample: mean, standard deviation overall and within groups, difference of groups, correlation, outlier.
 *
 * @formula \f$ s^2 = \sum(x - \bar x)^2/(n - 1) \f$; within groups \f$ s_w^2 = \sum(n_i - 1)s_i^2/\sum(n_i - 1) \f$, of one
 * group \f$ \sum(x_{i+1} - x_i)^2/(2(n - 1)) \f$ with \f$ 2(n - 1)^2/(3n - 4) \f$ degrees of freedom; groups: F test;
 * lag \f$ \sum(x_i - \bar x)(x_{i+1} - \bar x)/\sum(x_i - \bar x)^2 \f$. Outlier: Grubbs' test, two-sided, 5 %.
 *
 * @param[in] pieces  in the order they were made
 * @param[in] count  number of pieces, 2 to 5000
 * @param[out] summary  NaN and 0 on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_ARGUMENT_COUNT_ZERO  no pieces
 * @retval FER_ARGUMENT_COUNT_TOO_LARGE  more than 5000
 * @retval FER_SAMPLE_TOO_FEW  one piece
 * @retval FER_SAMPLE_PIECE_MISSING  a diameter is not given
 * @retval FER_SAMPLE_PIECE_OUT_OF_RANGE  a diameter is not 0.001 mm to 1,000,000 mm
 * @retval FER_SAMPLE_GROUP_OUT_OF_RANGE  not 0 to 1,000,000
 * @retval FER_SAMPLE_KIND_OUT_OF_RANGE  not 0 to 63
 * @accuracy 1e-12 relative
 * @source von Neumann, Ann. Math. Statist. 12 (1941) 367-395 (neighbours); Grubbs, Technometrics 11 (1969) 1-21 (both from
 *         memory)
 */
FER_API fer_status fer_summarise_sample(const fer_sample_piece *pieces, size_t count,
                                        fer_sample_summary *summary);

/**
 * Whether the values look normal: Shapiro and Wilk's test, and Anderson and Darling's.
 *
 * Readings with a step lie: of normal samples of 50 with a step of half a standard deviation the tests refuse a third to two thirds
 * where 5 % are meant. Equal readings are laid out evenly over their step first, as \f$ x + q((i - 1/2)/k - 1/2) \f$ for
 * the \f$i\f$th of \f$k\f$; then never more are refused than meant, and skew values are still found.
 *
 * @param[in] pieces  in any order
 * @param[in] count  number of pieces, 3 to 5000
 * @param[in] measuring  its resolution counts @unused repeatability repeatability_degrees common @optional stepless
 * @param[out] normality  NaN and 0 on failure
 * @param[out] sorted  the values in rising order, laid out, for a normal plot
 * @param[in] capacity  number of elements in sorted; count is needed, for the working
 * @param[out] found  number of values; 0 on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_ARGUMENT_CAPACITY_TOO_SMALL  capacity below count
 * @retval FER_SAMPLE_TOO_FEW  fewer than three pieces
 * @retval FER_SAMPLE_WITHOUT_SCATTER  all values are equal
 * @retval FER_MEASURING_RESOLUTION_OUT_OF_RANGE  negative, above 10 mm or not a number
 * @retval FER_SAMPLE_PIECE_OUT_OF_RANGE  and the other statuses of fer_summarise_sample()
 * @accuracy W and A² 1e-9 relative; probabilities as good as their approximations, about two figures
 * @source Royston, remark on algorithm AS 181, Appl. Statist. 44 (1995) 547-551; D'Agostino and Stephens, Goodness-of-fit techniques, 1986,
 *         table 4.9 (both from memory); laying out: no source, by simulation
 */
FER_API fer_status fer_test_normality(const fer_sample_piece *pieces, size_t count, fer_measuring measuring,
                                      fer_normality *normality, fer_length *sorted, size_t capacity,
                                      size_t *found);

/**
 * Capability indices with their limits, gauge taken off where it is given.
 *
 * @formula \f$ \hat C = (U - \bar x)/(3 s_o) \f$ and its like, \f$ s_o^2 = s^2 - \sigma_g^2 \f$,
 * \f$ \sigma_g^2 = \max(r^2, q^2/12) \f$ with repeatability \f$r\f$ and resolution \f$q\f$. Limits at confidence \f$\gamma\f$, without
 * gauge: of Cp \f$ \hat C\sqrt{\chi^2/\nu} \f$; to one limit \f$ \delta/(3\sqrt N) \f$ with the noncentral t
 * \f$ F(3\sqrt N\hat C; \nu, \delta) = \gamma \f$; of the smaller one the same below, and above what Pearn and Lin's
 * distribution gives for a mean in the middle, the worst case; about the target \f$ \hat C\sqrt{\chi^2_{1-\gamma,n}/n} \f$.
 * With gauge: \f$ E_Z[Q(\nu s^2/\sigma^*(Z)^2; \nu)] = \gamma \f$, \f$\sigma^*\f$ the root of
 * \f$ U - \bar x + z\sqrt{\sigma^2/N + u^2} = 3c\sqrt{\sigma^2 - \sigma_g^2} \f$ with the common uncertainty \f$u\f$, averaged over
 * the chi-square distribution of the repeatability where that has degrees of freedom. As texts have it:
 * \f$ \hat C(1 \pm z\sqrt{1/(9N\hat C^2) + 1/(2\nu)}) \f$.
 *
 * Exact without gauge; with it, by simulation, 0.89 or more where 0.90 are asked. A limit that is NaN is none: an upper one may lie
 * anywhere above; a lower one, with the gauge taken off, not above 0.
 *
 * @param[in] summary  @from fer_summarise_sample()
 * @param[in] wanted  limits, target
 * @param[in] confidence  of each limit, one-sided @range above 50 % to 99.9999 % @optional the usual 90 %
 * @param[in] settings  which standard deviation, distribution and gauge @optional overall, normal, without error
 * @param[out] capability  NaN and 0 on failure
 * @retval FER_OK  done; each index has a status of its own
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_SAMPLE_INCOMPLETE  figures of the summary that are needed are not there, or not possible
 * @retval FER_SAMPLE_WITHOUT_SCATTER  all values are equal
 * @retval FER_CONFIDENCE_OUT_OF_RANGE  not above 50 % and at most 99.9999 %
 * @retval FER_LIMIT_OUT_OF_RANGE  a limit that counts is not -1,000,000 mm to 1,000,000 mm
 * @retval FER_LIMIT_WRONG_ORDER  lower limit not below the upper
 * @retval FER_GUARD_SIDE_UNKNOWN  not in #fer_side
 * @retval FER_TARGET_OUTSIDE_LIMITS  given, and not between the limits and above 0
 * @retval FER_SCATTER_UNKNOWN  not in #fer_scatter
 * @retval FER_VALUES_SHAPE_UNKNOWN  not in #fer_values_shape
 * @retval FER_VALUES_SHAPE_WITHOUT_INDEX  the shape is any
 * @retval FER_VALUES_SHAPE_OVERALL_ONLY  lognormal within groups, or with a gauge
 * @retval FER_VALUES_LIMIT_NOT_POSITIVE  lognormal, and a limit that counts is not above 0
 * @retval FER_MEASURING_REPEATABILITY_OUT_OF_RANGE  negative, above 1,000,000 mm or not a number
 * @retval FER_MEASURING_DEGREES_OUT_OF_RANGE  neither 0 nor 1 to 1,000,000
 * @retval FER_MEASURING_COMMON_OUT_OF_RANGE  negative, above 1,000,000 mm or not a number
 * @retval FER_MEASURING_RESOLUTION_OUT_OF_RANGE  negative, above 10 mm or not a number
 * @accuracy limits 1e-11 relative without gauge, 1e-9 with it (1e-6 where most of what scatters is the gauge)
 * @source Chou, Owen and Borrego, J. Qual. Technol. 22 (1990) 223-229; Pearn and Lin, Qual. Reliab. Eng. Int. 20 (2004);
 *         Weerahandi, J. Amer. Statist. Assoc. 88 (1993) 899-905; Bissell, Appl. Statist. 39 (1990) 331-340 (all from memory)
 */
FER_API fer_status fer_find_capability(const fer_sample_summary *summary, const fer_wanted *wanted,
                                       fer_ratio confidence, fer_capability_settings settings,
                                       fer_capability *capability);

/**
 * Share of the pieces outside the limits: estimate, upper limit, and the next piece.
 *
 * @formula unbiased estimate \f$ I_x(n/2 - 1, n/2 - 1) \f$, \f$ x = \max(0, 1/2 - Q\sqrt n/(2(n - 1))) \f$,
 * \f$ Q = (U - \bar x)/s_o \f$; next piece: Student's \f$ P(T_{n-1} > (U - \bar x)/\sqrt{s_o^2 + s^2/n + u^2}) \f$; upper limit to
 * one limit \f$ \Phi(-3C) \f$ with the lower limit \f$C\f$ of fer_find_capability(), exact without gauge; of both together the \f$p\f$
 * with \f$ E_Z[Q(\nu s^2/\sigma^*(Z)^2; \nu)] = \gamma \f$, \f$\sigma^*\f$ where the share outside is \f$p\f$ with the mean
 * \f$ \bar x + z\sqrt{\sigma^2/n + u^2} \f$. It holds, and is somewhat wide (by simulation 0.90 to 0.96 for 0.90). With the mean outside a
 * limit that side counts alone. Where nothing can be shown the upper limit is 100 %.
 *
 * @param[in] summary  @from fer_summarise_sample(); of three pieces or more
 * @param[in] wanted  limits @unused target
 * @param[in] confidence  of the upper limits @range above 50 % to 99.9999 % @optional the usual 90 %
 * @param[in] measuring  how the values were measured @optional without error
 * @param[out] share  NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_SAMPLE_TOO_FEW  fewer than three pieces
 * @retval FER_MEASURING_COVERS_SCATTER  the pieces scatter no more than the gauge does
 * @retval FER_SAMPLE_INCOMPLETE  and the other statuses of fer_find_capability()
 * @accuracy estimate and next piece 1e-12 absolute; upper limits to one limit 1e-9 relative, of both together 1e-7
 * @source Lieberman and Resnikoff, J. Amer. Statist. Assoc. 50 (1955) 457-516 (from memory); upper limit of both: fiducial, no source
 */
FER_API fer_status fer_find_share_outside(const fer_sample_summary *summary, const fer_wanted *wanted,
                                          fer_ratio confidence, fer_measuring measuring,
                                          fer_share_outside *share);

/**
 * Probability that all of so many further pieces are inside the limits.
 *
 * @formula \f$ E[(1 - p(\mu, \sigma))^m] \f$ over \f$ \mu = \bar x + Z\sqrt{\sigma^2/n + u^2} \f$,
 * \f$ \sigma^2 = \nu s^2/\chi^2_\nu \f$; for \f$ m = 1 \f$ without gauge it is Student's distribution
 *
 * @param[in] summary  @from fer_summarise_sample()
 * @param[in] wanted  limits @unused target
 * @param[in] further  number of pieces @range 0 to 1,000,000
 * @param[in] measuring  how the values were measured @optional without error
 * @param[out] probability  NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_SAMPLE_FURTHER_OUT_OF_RANGE  not 0 to 1,000,000
 * @retval FER_MEASURING_COVERS_SCATTER  the pieces scatter no more than the gauge does
 * @retval FER_SAMPLE_INCOMPLETE  and the other statuses of fer_find_capability()
 * @accuracy 1e-9 absolute; less, where a gauge covers most of what two or three pieces scatter
 * @source Guttman, Statistical tolerance regions, 1970 (from memory)
 */
FER_API fer_status fer_find_rest_inside(const fer_sample_summary *summary, const fer_wanted *wanted,
                                        int further, fer_measuring measuring, fer_ratio *probability);

/**
 * Tolerance factor: mean and so many standard deviations hold a share of all pieces, with a confidence.
 *
 * @formula one side \f$ F^{-1}(\gamma; \nu, \sqrt N\Phi^{-1}(\beta))/\sqrt N \f$, noncentral t; both: \f$k\f$ with
 * \f$ E_Z[Q(\nu r(Z/\sqrt N)^2/k^2; \nu)] = \gamma \f$, \f$ \Phi(x + r) - \Phi(x - r) = \beta \f$
 *
 * @param[in] pieces  behind the mean @range 2 to 10,000
 * @param[in] degrees_of_freedom  of the standard deviation @range 1 to 100 * pieces @optional one fewer than pieces
 * @param[in] content  share of the pieces @range 1 % to 99.9999 % @optional the usual 95 %
 * @param[in] confidence  that it holds @range above 50 % to 99.9999 % @optional the usual 90 %
 * @param[in] side  both ends, or one
 * @param[out] factor  number of standard deviations; NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  the pointer is null
 * @retval FER_TOLERANCE_PIECES_OUT_OF_RANGE  not 2 to 10,000
 * @retval FER_TOLERANCE_DEGREES_OUT_OF_RANGE  given, and not 1 to 100 for each piece
 * @retval FER_CONTENT_OUT_OF_RANGE  not 1 % to 99.9999 %
 * @retval FER_CONFIDENCE_OUT_OF_RANGE  not above 50 % and at most 99.9999 %
 * @retval FER_GUARD_SIDE_UNKNOWN  not in #fer_side
 * @accuracy 1e-11 relative
 * @source ISO 16269-6 (from memory)
 */
FER_API fer_status fer_find_tolerance_factor(double pieces, double degrees_of_freedom, fer_ratio content,
                                             fer_ratio confidence, fer_side side, double *factor);

/**
 * Tolerance limits: between them lies a share of all pieces, with a confidence, where the values are normal.
 *
 * @formula \f$ \bar x \pm k s \f$ with the factor of fer_find_tolerance_factor()
 *
 * @param[in] summary  @from fer_summarise_sample()
 * @param[in] content  share of the pieces @range 1 % to 99.9999 % @optional the usual 95 %
 * @param[in] confidence  that it holds @range above 50 % to 99.9999 % @optional the usual 90 %
 * @param[in] side  both ends, or one
 * @param[out] limits  an end that is not asked for, and everything on failure, is NaN
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_SAMPLE_INCOMPLETE  figures of the summary that are needed are not there, or not possible
 * @retval FER_CONTENT_OUT_OF_RANGE  and the other statuses of fer_find_tolerance_factor()
 * @accuracy as fer_find_tolerance_factor()
 * @source as fer_find_tolerance_factor()
 */
FER_API fer_status fer_find_tolerance_limits(const fer_sample_summary *summary, fer_ratio content,
                                             fer_ratio confidence, fer_side side,
                                             fer_tolerance_limits *limits);

/**
 * What a sample shows without any shape of the distribution: between which of its values a share of all pieces lies.
 *
 * @formula one side: above the \f$r\f$th smallest value lies the share \f$\beta\f$ with confidence
 * \f$ 1 - I_\beta(n - r + 1, r) \f$; both: between the \f$r\f$th from each end with \f$ 1 - I_\beta(n - 2r + 1, 2r) \f$. Needed: the
 * smallest \f$n\f$ with \f$ \beta^n \le 1 - \gamma \f$, or \f$ n\beta^{n-1} - (n - 1)\beta^n \le 1 - \gamma \f$
 *
 * @param[in] count  number of pieces @range 2 to 10,000
 * @param[in] content  share of the pieces @range 1 % to 99.9999 % @optional the usual 95 %
 * @param[in] confidence  that it holds @range above 50 % to 99.9999 % @optional the usual 90 %
 * @param[in] side  both ends, or one
 * @param[out] tolerance  NaN and 0 on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  the pointer is null
 * @retval FER_TOLERANCE_PIECES_OUT_OF_RANGE  not 2 to 10,000
 * @retval FER_CONTENT_OUT_OF_RANGE  not 1 % to 99.9999 %
 * @retval FER_CONFIDENCE_OUT_OF_RANGE  not above 50 % and at most 99.9999 %
 * @retval FER_GUARD_SIDE_UNKNOWN  not in #fer_side
 * @accuracy whole numbers exact; confidence 1e-11 absolute
 * @source Wilks, Ann. Math. Statist. 12 (1941) 91-96; ISO 16269-6 (both from memory)
 */
FER_API fer_status fer_find_free_tolerance(size_t count, fer_ratio content, fer_ratio confidence,
                                           fer_side side, fer_free_tolerance *tolerance);

/**
 * Smallest index that so many pieces must show, so that the process has the index asked with the confidence asked.
 *
 * @formula \f$ F^{-1}(\gamma; n - 1, 3\sqrt n c)/(3\sqrt n) \f$, noncentral t
 *
 * @param[in] count  number of pieces @range 2 to 10,000
 * @param[in] index  to be shown @range 0.01 to 10
 * @param[in] confidence  of the showing @range above 50 % to 99.9999 % @optional the usual 90 %
 * @param[out] required  index that the sample must have; NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  the pointer is null
 * @retval FER_TOLERANCE_PIECES_OUT_OF_RANGE  not 2 to 10,000
 * @retval FER_INDEX_OUT_OF_RANGE  not 0.01 to 10
 * @retval FER_CONFIDENCE_OUT_OF_RANGE  not above 50 % and at most 99.9999 %
 * @accuracy 1e-11 relative
 * @source as fer_find_capability()
 */
FER_API fer_status fer_find_index_to_show(size_t count, double index, fer_ratio confidence, double *required);

/**
 * Smallest number of pieces that shows an index, where the process has a better one.
 *
 * @formula smallest \f$n\f$ with \f$ 1 - F(3\sqrt n C(n); n - 1, 3\sqrt n c_1) \ge P \f$, \f$ C(n) \f$ of
 * fer_find_index_to_show(), \f$c_1\f$ the index expected
 *
 * @param[in] index  to be shown @range 0.01 to 10
 * @param[in] confidence  of the showing @range above 50 % to 99.9999 % @optional the usual 90 %
 * @param[in] expected  index that the process has @range 0.01 to 10 @above index
 * @param[in] power  probability that it is shown @range 1 % to 99.9999 % @optional the usual 90 %
 * @param[out] showing  NaN and 0 on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  the pointer is null
 * @retval FER_INDEX_OUT_OF_RANGE  an index is not 0.01 to 10
 * @retval FER_CONFIDENCE_OUT_OF_RANGE  not above 50 % and at most 99.9999 %
 * @retval FER_POWER_OUT_OF_RANGE  not 1 % to 99.9999 %
 * @retval FER_INDEX_NOT_REACHABLE  no number of pieces up to 10,000 does
 * @accuracy whole numbers exact; power 1e-11 absolute
 * @source as fer_find_capability()
 */
FER_API fer_status fer_find_pieces_to_show(double index, fer_ratio confidence, double expected,
                                           fer_ratio power, fer_showing *showing);

#ifdef __cplusplus
}
#endif

#endif
