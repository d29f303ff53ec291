/* SPDX-License-Identifier: MIT */
/** @file
 * Module `bulk`: the functions of other modules over many rows at once.
 *
 * A row is one call of the function in the singular, and its result has the same bits. Each input is a column; where
 * its rows are is said by a pointer and a step, so that arrays of numbers, arrays of structs and single values all
 * serve, and nothing is copied first. A row that fails has NaN (for a choice or a verdict: the empty one) and its
 * status; the other rows are right. What is wrong with the call itself, such as a missing pointer, is the status of
 * every row. Rows are independent: threads may share them out.
 *
 * The results of a row may take the place of that row's inputs; they must not overlap other rows' inputs.
 */
#ifndef FERRULE_BULK_H
#define FERRULE_BULK_H

#include <ferrule/conformity.h>
#include <ferrule/forming.h>
#include <ferrule/inspection.h>
#include <ferrule/press.h>
#include <ferrule/setup.h>
#include <ferrule/window.h>

#include <stddef.h>
#include <stdint.h>

/** Status of a row: a #fer_status in two bytes, since its numbers go beyond 255. */
typedef uint16_t fer_row_status;

/** A column of lengths; all zero: every row is 0, which is "not given" where that is allowed. */
typedef struct fer_length_column {
    const fer_length *first; /**< the first row, at any address @null every row is 0 */
    /** bytes from one row to the next, may be negative @optional the usual, rows are side by side */
    ptrdiff_t step;
    int same; /**< the first row counts for every row @flag @optional each row has its own */
} fer_length_column;

/** A column of ratios; all zero: every row is 0. */
typedef struct fer_ratio_column {
    const fer_ratio *first; /**< the first row, at any address @null every row is 0 */
    /** bytes from one row to the next, may be negative @optional the usual, rows are side by side */
    ptrdiff_t step;
    int same; /**< the first row counts for every row @flag @optional each row has its own */
} fer_ratio_column;

/** A column of pressures; all zero: every row is 0. */
typedef struct fer_pressure_column {
    const fer_pressure *first; /**< the first row, at any address @null every row is 0 */
    /** bytes from one row to the next, may be negative @optional the usual, rows are side by side */
    ptrdiff_t step;
    int same; /**< the first row counts for every row @flag @optional each row has its own */
} fer_pressure_column;

/** A column of numbers that have no unit; all zero: every row is 0. */
typedef struct fer_number_column {
    const double *first; /**< the first row, at any address @null every row is 0 */
    /** bytes from one row to the next, may be negative @optional the usual, rows are side by side */
    ptrdiff_t step;
    int same; /**< the first row counts for every row @flag @optional each row has its own */
} fer_number_column;

/** A column of whole numbers, words of a list and flags; all zero: every row is 0. */
typedef struct fer_whole_column {
    const int *first; /**< the first row, at any address @null every row is 0 */
    /** bytes from one row to the next, may be negative @optional the usual, rows are side by side */
    ptrdiff_t step;
    int same; /**< the first row counts for every row @flag @optional each row has its own */
} fer_whole_column;

/** Joints as columns: the members of #fer_joint. Those that may be left out in a joint may be left out here. */
typedef struct fer_joint_columns {
    fer_length_column hose_inside;        /**< fer_hose::inside */
    fer_length_column hose_outside;       /**< fer_hose::outside */
    fer_length_column stem_outside;       /**< fer_stem::outside */
    fer_length_column ferrule_wall;       /**< fer_ferrule::wall */
    fer_length_column ferrule_outside;    /**< fer_ferrule::outside @optional not measured */
    fer_length_column hose_reinforcement; /**< fer_hose::reinforcement @optional not known */
    fer_length_column stem_bore;          /**< fer_stem::bore @optional not measured */
    fer_length_column ferrule_length;     /**< fer_ferrule::length @optional not measured */
} fer_joint_columns;

/** Uncertainties of one measurement as columns: the members of #fer_uncertainty. */
typedef struct fer_uncertainty_columns {
    fer_length_column amount;             /**< fer_uncertainty::amount */
    fer_whole_column distribution;        /**< fer_uncertainty::distribution @optional normal */
    fer_number_column degrees_of_freedom; /**< fer_uncertainty::degrees_of_freedom @optional known exactly */
} fer_uncertainty_columns;

/** Metals as columns: the members of #fer_material. */
typedef struct fer_material_columns {
    fer_pressure_column elastic_modulus; /**< fer_material::elastic_modulus */
    fer_ratio_column poisson;            /**< fer_material::poisson */
    fer_pressure_column yield_strength;  /**< fer_material::yield_strength */
    fer_pressure_column hardening;       /**< fer_material::hardening @optional none */
} fer_material_columns;

/** Gauges as columns: the members of #fer_gauge. */
typedef struct fer_gauge_columns {
    fer_length_column standard_uncertainty; /**< fer_gauge::standard_uncertainty */
    fer_length_column correction;           /**< fer_gauge::correction @optional none */
    fer_length_column resolution;           /**< fer_gauge::resolution @optional stepless */
} fer_gauge_columns;

/** Guards as columns: the members of #fer_guard. */
typedef struct fer_guard_columns {
    fer_number_column factor;             /**< fer_guard::factor @optional the usual 1.65 */
    fer_whole_column without;             /**< fer_guard::without @optional with */
    fer_whole_column side;                /**< fer_guard::side @optional both */
    fer_number_column degrees_of_freedom; /**< fer_guard::degrees_of_freedom @optional known exactly */
} fer_guard_columns;

/** Orders as columns: the members of #fer_order. A column that is left out has in every row what `common` has. */
typedef struct fer_order_columns {
    /** what no column says, such as correlations; it has to live as long as the columns @null all zero */
    const fer_order *common;
    fer_joint_columns joint;      /**< fer_order::joint */
    fer_length_column published;  /**< fer_order::published @optional none */
    fer_length_column tolerance;  /**< fer_order::tolerance @optional none given */
    fer_ratio_column range_lower; /**< lower end of fer_order::range @optional the usual */
    fer_ratio_column range_upper; /**< upper end of fer_order::range @optional the usual */
    fer_ratio_column aim;         /**< fer_order::aim @optional middle of the range */
    fer_whole_column model_basis; /**< fer_model::basis @optional the hose's wall */
    fer_whole_column model_flow;  /**< fer_model::flow @optional none */
    fer_length_column widest;     /**< fer_order::widest @optional the ferrule outside diameter */
    fer_uncertainty_columns hose_inside_uncertainty;  /**< fer_uncertainties::hose_inside @optional exact */
    fer_uncertainty_columns hose_outside_uncertainty; /**< fer_uncertainties::hose_outside @optional exact */
    fer_uncertainty_columns stem_outside_uncertainty; /**< fer_uncertainties::stem_outside @optional exact */
    fer_uncertainty_columns ferrule_wall_uncertainty; /**< fer_uncertainties::ferrule_wall @optional exact */
    fer_uncertainty_columns
        ferrule_outside_uncertainty;              /**< fer_uncertainties::ferrule_outside @optional exact */
    fer_uncertainty_columns diameter_uncertainty; /**< fer_uncertainties::diameter @optional exact */
    fer_whole_column adapter_mounted;             /**< fer_order::adapter_mounted @optional none */
    fer_material_columns ferrule_metal;           /**< fer_order::ferrule_metal @optional not known */
    fer_material_columns stem_metal;              /**< fer_order::stem_metal @optional not known */
    fer_ratio_column restraint;                   /**< fer_forming_load::restraint @optional ends free */
    fer_pressure_column hose_pressure;            /**< fer_forming_load::hose_pressure @optional not known */
    fer_length_column minimum_bore;               /**< fer_order::minimum_bore @optional none given */
    fer_whole_column applies_to;                  /**< fer_order::applies_to @optional not stated */
    fer_gauge_columns gauge;         /**< fer_order::gauge @optional no acceptance zone that allows for it */
    fer_guard_columns guard;         /**< fer_order::guard @optional guard band of 1.65, both limits */
    fer_whole_column approval;       /**< fer_order::approval @optional not stated */
    fer_length_column insertion;     /**< fer_order::insertion @optional not given */
    fer_length_column skive_outside; /**< fer_order::skive_outside @optional none */
    fer_length_column skive_inside;  /**< fer_order::skive_inside @optional none */
    fer_length_column lobe_maximum;  /**< fer_order::lobe_maximum @optional none given */
} fer_order_columns;

/** A press with its rack of dies. */
typedef struct fer_workplace {
    const fer_press *press; /**< the press */
    const fer_die *dies;    /**< its rack, in any order @null there are none */
    size_t count;           /**< number of dies */
} fer_workplace;

/** Rows side by side, as in an array. */
static inline fer_length_column fer_length_rows(const fer_length *first)
{
    const fer_length_column column = {first, 0, 0};
    return column;
}

/** One length for every row; it has to live as long as the column. */
static inline fer_length_column fer_same_length(const fer_length *length)
{
    const fer_length_column column = {length, 0, 1};
    return column;
}

/** Rows side by side, as in an array. */
static inline fer_ratio_column fer_ratio_rows(const fer_ratio *first)
{
    const fer_ratio_column column = {first, 0, 0};
    return column;
}

/** One ratio for every row; it has to live as long as the column. */
static inline fer_ratio_column fer_same_ratio(const fer_ratio *ratio)
{
    const fer_ratio_column column = {ratio, 0, 1};
    return column;
}

#ifdef __cplusplus
extern "C" {
#endif

/** Columns of an array of joints, which has to live as long as they. */
FER_API fer_joint_columns fer_columns_of_joints(const fer_joint *joints);

/**
 * Crimp diameters that give a compression: fer_crimp_diameter() on each row.
 *
 * With the plain formula and without reinforcement, stem bore and ferrule length the rows are computed in vector
 * instructions, all checks included.
 *
 * @param[in] rows  number of rows; may be 0 @range 0 or more
 * @param[in] joints  @as fer_crimp_diameter()
 * @param[in] compressions  @as fer_crimp_diameter()
 * @param[in] model  basis and flow, of every row @optional plain formula
 * @param[out] diameters  one per row; NaN where the row failed
 * @param[out] statuses  one per row @null not wanted
 * @return number of rows that failed
 * @accuracy the bits of fer_crimp_diameter()
 * @source as fer_crimp_diameter()
 */
FER_API size_t fer_crimp_diameters(size_t rows, const fer_joint_columns *joints,
                                   fer_ratio_column compressions, fer_model model, fer_length *diameters,
                                   fer_row_status *statuses);

/**
 * Compressions at crimp diameters: fer_compression() on each row.
 *
 * In vector instructions where fer_crimp_diameters() is.
 *
 * @param[in] rows  number of rows; may be 0 @range 0 or more
 * @param[in] joints  @as fer_compression()
 * @param[in] diameters  @as fer_compression()
 * @param[in] model  basis and flow, of every row @optional plain formula
 * @param[out] compressions  one per row; NaN where the row failed
 * @param[out] statuses  one per row @null not wanted
 * @return number of rows that failed
 * @accuracy the bits of fer_compression()
 * @source as fer_compression()
 */
FER_API size_t fer_compressions(size_t rows, const fer_joint_columns *joints, fer_length_column diameters,
                                fer_model model, fer_ratio *compressions, fer_row_status *statuses);

/**
 * Windows of crimp diameters: fer_crimp_window() on each row.
 *
 * @param[in] rows  number of rows; may be 0 @range 0 or more
 * @param[in] joints  @as fer_crimp_window()
 * @param[in] lower  lower limit of compression @range any finite number
 * @param[in] upper  upper limit of compression @range any finite number
 * @param[in] model  basis and flow, of every row @optional plain formula
 * @param[out] windows  one per row; NaN where the row failed
 * @param[out] statuses  one per row @null not wanted
 * @return number of rows that failed
 * @accuracy the bits of fer_crimp_window()
 * @source as fer_crimp_window()
 */
FER_API size_t fer_crimp_windows(size_t rows, const fer_joint_columns *joints, fer_ratio_column lower,
                                 fer_ratio_column upper, fer_model model, fer_length_range *windows,
                                 fer_row_status *statuses);

/**
 * Lobe heights: fer_lobe_height() on each row.
 *
 * @param[in] rows  number of rows; may be 0 @range 0 or more
 * @param[in] diameters  closing diameters, @as fer_lobe_height()
 * @param[in] die_sizes  @as fer_lobe_height()
 * @param[in] segments  number of segments, of every row @range 3 to 64
 * @param[out] heights  one per row; NaN where the row failed
 * @param[out] statuses  one per row @null not wanted
 * @return number of rows that failed
 * @accuracy the bits of fer_lobe_height()
 * @source as fer_lobe_height()
 */
FER_API size_t fer_lobe_heights(size_t rows, fer_length_column diameters, fer_length_column die_sizes,
                                int segments, fer_length *heights, fer_row_status *statuses);

/**
 * Dies for targets: fer_choose_die() on each row, out of one rack, which is checked once.
 *
 * @param[in] rows  number of rows; may be 0 @range 0 or more
 * @param[in] dies  the rack, in any order; may be empty
 * @param[in] count  number of dies
 * @param[in] targets  crimp diameters, @as fer_choose_die()
 * @param[in] needs  adapter in the press, ferrule length, of every row @optional nothing else counts
 * @param[out] choices  one per row; empty where the row failed
 * @param[out] statuses  one per row @null not wanted
 * @return number of rows that failed; a row without a die near enough has not failed
 * @accuracy the bits of fer_choose_die()
 * @source as fer_choose_die()
 */
FER_API size_t fer_choose_dies(size_t rows, const fer_die *dies, size_t count, fer_length_column targets,
                               fer_die_needs needs, fer_die_choice *choices, fer_row_status *statuses);

/**
 * Dial settings: fer_dial_setting() on each row, on one press.
 *
 * @param[in] rows  number of rows; may be 0 @range 0 or more
 * @param[in] press  @as fer_dial_setting()
 * @param[in] die_sizes  @as fer_dial_setting() die.size
 * @param[in] targets  @as fer_dial_setting()
 * @param[out] dials  one per row; NaN where the row failed
 * @param[out] statuses  one per row @null not wanted
 * @return number of rows that failed
 * @accuracy the bits of fer_dial_setting()
 * @source as fer_dial_setting()
 */
FER_API size_t fer_dial_settings(size_t rows, const fer_press *press, fer_length_column die_sizes,
                                 fer_length_column targets, fer_dial *dials, fer_row_status *statuses);

/**
 * Conforming shares: fer_conforming_share() on each row, with the same uncertainties and range.
 *
 * @param[in] rows  number of rows; may be 0 @range 0 or more
 * @param[in] joints  @as fer_conforming_share()
 * @param[in] uncertainties  @as fer_conforming_share(), of every row
 * @param[in] range  @as fer_conforming_share(), of every row
 * @param[in] diameters  @as fer_conforming_share()
 * @param[out] shares  one per row; NaN where the row failed
 * @param[out] statuses  one per row @null not wanted
 * @return number of rows that failed
 * @accuracy the bits of fer_conforming_share()
 * @source as fer_conforming_share()
 */
FER_API size_t fer_conforming_shares(size_t rows, const fer_joint_columns *joints,
                                     const fer_uncertainties *uncertainties, fer_ratio_range range,
                                     fer_length_column diameters, fer_shares *shares,
                                     fer_row_status *statuses);

/**
 * Verdicts: fer_judge() on each row, by one rule.
 *
 * @param[in] rows  number of rows; may be 0 @range 0 or more
 * @param[in] values  measured, @as fer_judge()
 * @param[in] standard_uncertainties  @as fer_judge() standard_uncertainty
 * @param[in] lower  lower limits @range -1,000,000 mm to 1,000,000 mm
 * @param[in] upper  upper limits @range -1,000,000 mm to 1,000,000 mm
 * @param[in] guard  @as fer_judge(), of every row
 * @param[in] process  @as fer_judge(), of every row
 * @param[out] verdicts  one per row; undecided and NaN where the row failed
 * @param[out] statuses  one per row @null not wanted
 * @return number of rows that failed
 * @accuracy the bits of fer_judge()
 * @source as fer_judge()
 */
FER_API size_t fer_judge_values(size_t rows, fer_length_column values,
                                fer_length_column standard_uncertainties, fer_length_column lower,
                                fer_length_column upper, fer_guard guard, fer_process process,
                                fer_verdict *verdicts, fer_row_status *statuses);

/**
 * Ferrules under the dies: fer_form_ferrule() on each row, of one metal.
 *
 * @param[in] rows  number of rows; may be 0 @range 0 or more
 * @param[in] ferrules  the columns of the ferrule count
 * @param[in] diameters  closing diameters, @as fer_form_ferrule()
 * @param[in] material  @as fer_form_ferrule(), of every row
 * @param[in] load  @as fer_form_ferrule(), of every row
 * @param[out] formings  one per row; NaN where the row failed
 * @param[out] statuses  one per row @null not wanted
 * @return number of rows that failed
 * @accuracy the bits of fer_form_ferrule()
 * @source as fer_form_ferrule()
 */
FER_API size_t fer_form_ferrules(size_t rows, const fer_joint_columns *ferrules, fer_length_column diameters,
                                 const fer_material *material, fer_forming_load load, fer_forming *formings,
                                 fer_row_status *statuses);

/**
 * Set-ups: fer_plan_setup() on each row.
 *
 * Press and rack are checked once for all rows that follow each other at the same workplace.
 *
 * @param[in] rows  number of rows; may be 0 @range 0 or more
 * @param[in] orders  @as fer_plan_setup() order
 * @param[in] workplaces  presses with their racks
 * @param[in] count  number of workplaces
 * @param[in] workplace  place of each row's workplace in their list, from 0 @range 0 to below count @optional the first
 * @param[out] setups  one per row; empty where the row failed
 * @param[out] statuses  one per row @null not wanted
 * @param[out] faults  one per row: the first fault that fer_check_order() finds; of a row that has not failed all zero. A
 *             workplace that is not in the list is no field of an order: FER_FIELD_COUNT @null not wanted
 * @return number of rows that failed
 * @accuracy the bits of fer_plan_setup()
 * @source as fer_plan_setup()
 */
FER_API size_t fer_plan_setups(size_t rows, const fer_order_columns *orders, const fer_workplace *workplaces,
                               size_t count, fer_whole_column workplace, fer_setup *setups,
                               fer_row_status *statuses, fer_fault *faults);

/**
 * Inspections: fer_inspect_crimp() on each row, with as many readings in each; those that were not taken are 0.
 *
 * @param[in] rows  number of rows; may be 0 @range 0 or more
 * @param[in] setups  one per row, @from fer_plan_setups()
 * @param[in] readings  those of the first row, then those of the second, and so on
 * @param[in] count  number of readings in a row
 * @param[in] gauges  @as fer_inspect_crimp() gauge
 * @param[in] marks  @as fer_inspect_crimp(), of every row
 * @param[in] guard  @as fer_inspect_crimp(), of every row
 * @param[in] process  @as fer_inspect_crimp(), of every row
 * @param[out] inspections  one per row; undecided and NaN where the row failed
 * @param[out] statuses  one per row @null not wanted
 * @return number of rows that failed
 * @accuracy the bits of fer_inspect_crimp()
 * @source as fer_inspect_crimp()
 */
FER_API size_t fer_inspect_crimps(size_t rows, const fer_setup *setups, const fer_reading *readings,
                                  size_t count, const fer_gauge_columns *gauges, fer_marks marks,
                                  fer_guard guard, fer_process process, fer_inspection *inspections,
                                  fer_row_status *statuses);

/**
 * Acceptance zones: fer_find_acceptance_zone() on each row, by one rule.
 *
 * @param[in] rows  number of rows; may be 0 @range 0 or more
 * @param[in] lower  lower limits @range -1,000,000 mm to 1,000,000 mm
 * @param[in] upper  upper limits @range -1,000,000 mm to 1,000,000 mm
 * @param[in] standard_uncertainties  @as fer_find_acceptance_zone() standard_uncertainty
 * @param[in] guard  @as fer_find_acceptance_zone(), of every row
 * @param[out] zones  one per row; NaN and 0 where the row failed
 * @param[out] statuses  one per row @null not wanted
 * @return number of rows that failed
 * @accuracy the bits of fer_find_acceptance_zone()
 * @source as fer_find_acceptance_zone()
 */
FER_API size_t fer_find_acceptance_zones(size_t rows, fer_length_column lower, fer_length_column upper,
                                         fer_length_column standard_uncertainties, fer_guard guard,
                                         fer_acceptance_zone *zones, fer_row_status *statuses);

#ifdef __cplusplus
}
#endif

#endif
