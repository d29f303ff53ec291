/* SPDX-License-Identifier: MIT */
/** @file
 * Module `setup`: the main job in one call, from an order to everything that the operator sets and expects.
 */
#ifndef FERRULE_SETUP_H
#define FERRULE_SETUP_H

#include <ferrule/caution.h>
#include <ferrule/forming.h>
#include <ferrule/lobe.h>
#include <ferrule/press.h>
#include <ferrule/window.h>

/** What limits of a diameter apply to: the drawing, the standard or the publisher of the figure says so. */
typedef enum fer_applies_to {
    FER_APPLIES_TO_NOT_STATED,    /**< not known: accepted only where every rule below accepts */
    FER_APPLIES_TO_EVERY_READING, /**< each two-point size (ISO 14405-1, from memory) */
    FER_APPLIES_TO_SECTION_MEANS, /**< the mean of each section */
    FER_APPLIES_TO_MEAN           /**< the mean of the piece */
} fer_applies_to;

/** One kind of joint to be crimped. */
typedef struct fer_order {
    fer_joint joint; /**< hose, stem and ferrule as measured @label joint */
    /** crimp diameter that the coupling's manufacturer publishes @label published crimp diameter @range 0.001 mm to
     * 1,000,000 mm @optional none */
    fer_length published;
    /** allowed deviation of the crimp diameter either way @label tolerance of the crimp diameter @range 0 mm
     * to 1,000,000 mm @optional none given */
    fer_length tolerance;
    /** compression allowed, in order @label compression allowed @range any finite number @optional the usual
     * 15 to 25 % */
    fer_ratio_range range;
    /** compression to aim at where nothing is published @label compression to aim at @range range.lower to
     * range.upper @optional middle of the range */
    fer_ratio aim;
    /** model that range and aim belong to @label model of compression @optional plain formula */
    fer_model model;
    /** widest diameter that has to pass the open dies @label widest diameter @range 0.001 mm to 1,000,000 mm
     * @optional the ferrule outside diameter */
    fer_length widest;
    /** how well the joint is known @optional no conforming share and no uncertainty are computed */
    fer_uncertainties uncertainties;
    /** number of the adapter set that is in the press @label adapter set in the press @range 1 or more
     * @optional none */
    int adapter_mounted;
    /** metal of the ferrule @optional not known, springback and force left out */
    fer_material ferrule_metal;
    fer_material stem_metal; /**< metal of the stem @optional not known, change of its bore left out */
    fer_forming_load load; /**< restraint and pressure of the hose @optional ends free, pressure not known */
    /** go/no-go limit of the stem's bore @label smallest bore @range 0.001 mm to 1,000,000 mm @optional none
     * given */
    fer_length minimum_bore;
    /** what the limits of the diameter apply to @label what the limits apply to @optional not stated */
    fer_applies_to applies_to;
} fer_order;

/** Where a target came from. */
typedef enum fer_target_source {
    FER_TARGET_NONE,      /**< there is no target */
    FER_TARGET_PUBLISHED, /**< published by the coupling's manufacturer */
    FER_TARGET_COMPUTED   /**< computed from the measurements */
} fer_target_source;

/** A conforming share that may not be there. */
typedef struct fer_found_shares {
    fer_shares value;  /**< the shares; NaN where status is not FER_OK */
    fer_status status; /**< why it is not there; FER_OK: it is */
} fer_found_shares;

/** A dial setting that may not be there. */
typedef struct fer_found_dial {
    fer_dial value;    /**< the setting; NaN where status is not FER_OK */
    fer_status status; /**< why it is not there; FER_OK: it is */
} fer_found_dial;

/** A shape that may not be there. */
typedef struct fer_found_shape {
    fer_shape value;   /**< the shape; NaN where status is not FER_OK */
    fer_status status; /**< why it is not there; FER_OK: it is */
} fer_found_shape;

/** @def FER_REMARK_LIST
 * The one list of remarks on a set-up, in the order in which to look at them: X(name, number, sentence). */
#define FER_REMARK_LIST(X)                                                                                   \
    X(NO_DIE, 0, "no die on the rack is near enough below the target: buy or borrow one of the sizes given") \
    X(PUBLISHED_OUTSIDE_WINDOW, 1,                                                                           \
      "the published diameter is outside the window of the measurements: measure hose, stem and ferrule "    \
      "again, then check that the figure is for this coupling and this hose")                                \
    X(FERRULE_TOO_NARROW, 2,                                                                                 \
      "the ferrule bore is smaller than the hose on the stem: check the ferrule, the hose and the skiving")  \
    X(DOES_NOT_PASS, 3, "the coupling does not pass the open dies")                                          \
    X(DIAL_OUT_OF_RANGE, 4, "the dial cannot be set to this diameter with this die")                         \
    X(TARGET_NOT_TOUCHING, 5, "at the target the ferrule does not touch the hose, or closes on the stem")    \
    X(ADAPTER_GOES_IN, 6, "an adapter set has to go into the press first")                                   \
    X(ADAPTER_COMES_OUT, 7, "the adapter set has to come out of the press first")                            \
    X(REMAINDER_ABOVE_TOLERANCE, 8, "the dial's step leaves the crimp outside its tolerance")                \
    X(LOBE_ABOVE_TOLERANCE, 9,                                                                               \
      "the lobe alone is higher than the tolerance: measure over the middles of the segments, or use a die " \
      "nearer to the target")                                                                                \
    X(WALL_GROWTH_LEAVES_RANGE, 10,                                                                          \
      "with the growth of the wall, the compression is above the range: the range belongs to the plain "     \
      "formula")                                                                                             \
    X(UNCERTAIN, 11,                                                                                         \
      "the measurements are not good enough to say that the compression is in the range: measure again, "    \
      "more "                                                                                                \
      "precisely")                                                                                           \
    X(OPENING_NOT_KNOWN, 12,                                                                                 \
      "whether the coupling passes the open dies is not known: the press's opening or the widest diameter "  \
      "is not given")                                                                                        \
    X(DIE_LENGTH_NOT_KNOWN, 13, "whether the die is as long as the ferrule is not known")                    \
    X(FERRULE_OUTSIDE_NOT_KNOWN, 14,                                                                         \
      "the growth of the wall is not computed: the ferrule was not measured outside")                        \
    X(NO_TOLERANCE, 15,                                                                                      \
      "no tolerance came with the published diameter: ask the coupling's manufacturer before judging a "     \
      "crimp")                                                                                               \
    X(FORCE_ABOVE_CAPACITY, 16, "the crimp needs more force than the press is rated for")                    \
    X(CLOSES_BELOW_DIE, 17,                                                                                  \
      "the ferrule springs back, so the dies would have to close below their size: use a smaller die")       \
    X(BORE_BELOW_LIMIT, 18, "under the hose the stem's bore becomes smaller than its limit")                 \
    X(STEM_YIELDS, 19, "the stem yields under the hose: its bore does not spring back")                      \
    X(HOSE_PRESSURE_NOT_KNOWN, 20,                                                                           \
      "force and springback are those of the ferrule alone: the pressure of the hose is not known")

/** A remark of #FER_REMARK_LIST. */
typedef enum fer_remark {
#define FER_REMARK_ENUMERATOR(name, number, sentence) FER_REMARK_##name = number,
    FER_REMARK_LIST(FER_REMARK_ENUMERATOR)
#undef FER_REMARK_ENUMERATOR
        FER_REMARK_COUNT /**< number of remarks; not a remark */
} fer_remark;

/** A set of remarks: bit n stands for remark number n. */
typedef struct fer_remarks {
    uint32_t bits; /**< bit n is set where remark n applies */
} fer_remarks;

/** Everything that the operator sets and expects. */
typedef struct fer_setup {
    fer_length target;           /**< crimp diameter to make */
    fer_target_source source;    /**< where the target came from */
    fer_ratio_range range;       /**< compression allowed, as used */
    fer_found_range window;      /**< crimp diameters that the range allows */
    fer_found_range limits;      /**< crimp diameters to accept: target and tolerance, otherwise the window */
    fer_found_ratio plain;       /**< compression at the target by the plain formula */
    fer_found_ratio ends_free;   /**< compression at the target, ferrule lengthens freely */
    fer_found_ratio ends_fixed;  /**< compression at the target, ferrule cannot lengthen */
    fer_found_ratio uncertainty; /**< standard uncertainty of the compression by the order's model */
    fer_found_shares shares;     /**< share of joints inside the range, plain formula */
    fer_found_length best_target; /**< diameter with the greatest conforming share, plain formula */
    fer_die_choice die;           /**< die or what to buy */
    fer_found_dial dial;          /**< dial setting */
    fer_found_shape shape;        /**< lobe, gap, what gauges read: at `closing` if found, else at target */
    fer_found_length clearance;   /**< clearance of the coupling in the open dies */
    int segments;                 /**< number of segments, as used */
    fer_remarks remarks;          /**< what to check, first things first */
    fer_cautions cautions;        /**< which cautions apply */
    fer_found_ratio equivalent;   /**< compression at the equivalent diameter, by the order's model */
    fer_found_length closing;     /**< what the dies have to form: target minus springback */
    fer_found_length springback;  /**< growth when the dies open; a correction from finished crimps has it */
    fer_found_force force;        /**< sum over the segments of their radial forces */
    fer_found_ratio capacity_use; /**< that force by the press's capacity */
    fer_found_length bore_reduction; /**< of the stem's bore under the hose */
    fer_found_length bore_margin;    /**< bore under the hose minus its limit; below 0: no-go */
    fer_applies_to applies_to;       /**< what the limits apply to, from the order */
    /** standard uncertainty of the window's lower end, from the joint's measurements alone */
    fer_found_length window_lower_uncertainty;
    fer_found_length window_upper_uncertainty; /**< the same of its upper end */
} fer_setup;

/** @def FER_FIELD_LIST
 * The one list of what fer_check_order() looks at: X(name, number, argument, member). Numbers stay, and a new one goes to
 * the end. */
#define FER_FIELD_LIST(X)                                                                                    \
    X(JOINT_HOSE_INSIDE, 0, order, joint.hose.inside)                                                        \
    X(JOINT_HOSE_OUTSIDE, 1, order, joint.hose.outside)                                                      \
    X(JOINT_HOSE_REINFORCEMENT, 2, order, joint.hose.reinforcement)                                          \
    X(JOINT_STEM_OUTSIDE, 3, order, joint.stem.outside)                                                      \
    X(JOINT_STEM_BORE, 4, order, joint.stem.bore)                                                            \
    X(JOINT_FERRULE_WALL, 5, order, joint.ferrule.wall)                                                      \
    X(JOINT_FERRULE_OUTSIDE, 6, order, joint.ferrule.outside)                                                \
    X(JOINT_FERRULE_LENGTH, 7, order, joint.ferrule.length)                                                  \
    X(PUBLISHED, 8, order, published)                                                                        \
    X(TOLERANCE, 9, order, tolerance)                                                                        \
    X(RANGE, 10, order, range)                                                                               \
    X(AIM, 11, order, aim)                                                                                   \
    X(MODEL_BASIS, 12, order, model.basis)                                                                   \
    X(MODEL_FLOW, 13, order, model.flow)                                                                     \
    X(WIDEST, 14, order, widest)                                                                             \
    X(ADAPTER_MOUNTED, 15, order, adapter_mounted)                                                           \
    X(UNCERTAINTIES_HOSE_INSIDE_AMOUNT, 16, order, uncertainties.hose_inside.amount)                         \
    X(UNCERTAINTIES_HOSE_INSIDE_DISTRIBUTION, 17, order, uncertainties.hose_inside.distribution)             \
    X(UNCERTAINTIES_HOSE_INSIDE_DEGREES_OF_FREEDOM, 18, order, uncertainties.hose_inside.degrees_of_freedom) \
    X(UNCERTAINTIES_HOSE_OUTSIDE_AMOUNT, 19, order, uncertainties.hose_outside.amount)                       \
    X(UNCERTAINTIES_HOSE_OUTSIDE_DISTRIBUTION, 20, order, uncertainties.hose_outside.distribution)           \
    X(UNCERTAINTIES_HOSE_OUTSIDE_DEGREES_OF_FREEDOM, 21, order,                                              \
      uncertainties.hose_outside.degrees_of_freedom)                                                         \
    X(UNCERTAINTIES_STEM_OUTSIDE_AMOUNT, 22, order, uncertainties.stem_outside.amount)                       \
    X(UNCERTAINTIES_STEM_OUTSIDE_DISTRIBUTION, 23, order, uncertainties.stem_outside.distribution)           \
    X(UNCERTAINTIES_STEM_OUTSIDE_DEGREES_OF_FREEDOM, 24, order,                                              \
      uncertainties.stem_outside.degrees_of_freedom)                                                         \
    X(UNCERTAINTIES_FERRULE_WALL_AMOUNT, 25, order, uncertainties.ferrule_wall.amount)                       \
    X(UNCERTAINTIES_FERRULE_WALL_DISTRIBUTION, 26, order, uncertainties.ferrule_wall.distribution)           \
    X(UNCERTAINTIES_FERRULE_WALL_DEGREES_OF_FREEDOM, 27, order,                                              \
      uncertainties.ferrule_wall.degrees_of_freedom)                                                         \
    X(UNCERTAINTIES_FERRULE_OUTSIDE_AMOUNT, 28, order, uncertainties.ferrule_outside.amount)                 \
    X(UNCERTAINTIES_FERRULE_OUTSIDE_DISTRIBUTION, 29, order, uncertainties.ferrule_outside.distribution)     \
    X(UNCERTAINTIES_FERRULE_OUTSIDE_DEGREES_OF_FREEDOM, 30, order,                                           \
      uncertainties.ferrule_outside.degrees_of_freedom)                                                      \
    X(UNCERTAINTIES_DIAMETER_AMOUNT, 31, order, uncertainties.diameter.amount)                               \
    X(UNCERTAINTIES_DIAMETER_DISTRIBUTION, 32, order, uncertainties.diameter.distribution)                   \
    X(UNCERTAINTIES_DIAMETER_DEGREES_OF_FREEDOM, 33, order, uncertainties.diameter.degrees_of_freedom)       \
    X(UNCERTAINTIES_CORRELATIONS, 34, order, uncertainties.correlations)                                     \
    X(FERRULE_METAL_ELASTIC_MODULUS, 35, order, ferrule_metal.elastic_modulus)                               \
    X(FERRULE_METAL_POISSON, 36, order, ferrule_metal.poisson)                                               \
    X(FERRULE_METAL_YIELD_STRENGTH, 37, order, ferrule_metal.yield_strength)                                 \
    X(FERRULE_METAL_HARDENING, 38, order, ferrule_metal.hardening)                                           \
    X(STEM_METAL_ELASTIC_MODULUS, 39, order, stem_metal.elastic_modulus)                                     \
    X(STEM_METAL_POISSON, 40, order, stem_metal.poisson)                                                     \
    X(STEM_METAL_YIELD_STRENGTH, 41, order, stem_metal.yield_strength)                                       \
    X(STEM_METAL_HARDENING, 42, order, stem_metal.hardening)                                                 \
    X(LOAD_RESTRAINT, 43, order, load.restraint)                                                             \
    X(LOAD_HOSE_PRESSURE, 44, order, load.hose_pressure)                                                     \
    X(MINIMUM_BORE, 45, order, minimum_bore)                                                                 \
    X(APPLIES_TO, 46, order, applies_to)                                                                     \
    X(PRESS_GRADUATION, 47, press, graduation)                                                               \
    X(PRESS_CORRECTION, 48, press, correction)                                                               \
    X(PRESS_DIAL_MAXIMUM, 49, press, dial_maximum)                                                           \
    X(PRESS_OPENING, 50, press, opening)                                                                     \
    X(PRESS_CAPACITY, 51, press, capacity)                                                                   \
    X(PRESS_SEGMENTS, 52, press, segments)                                                                   \
    X(DIE_SIZE, 53, die, size)                                                                               \
    X(DIE_REACH, 54, die, reach)                                                                             \
    X(DIE_ADAPTER, 55, die, adapter)                                                                         \
    X(DIE_LENGTH, 56, die, length)

/** A field of #FER_FIELD_LIST: a member of an order, of a press or of a die. */
typedef enum fer_field {
#define FER_FIELD_ENUMERATOR(name, number, argument, member) FER_FIELD_##name = number,
    FER_FIELD_LIST(FER_FIELD_ENUMERATOR)
#undef FER_FIELD_ENUMERATOR
        FER_FIELD_COUNT /**< number of fields; not a field */
} fer_field;

/** One thing that is missing or wrong. */
typedef struct fer_fault {
    fer_status status; /**< which rule was broken */
    fer_field field;   /**< where; fer_field_path() says it in words */
    size_t die;        /**< which die of the rack, from 0; 0 for a field of order or press */
} fer_fault;

#ifdef __cplusplus
extern "C" {
#endif

/**
 * Plan a set-up: from an order, a press and a rack of dies to everything that the operator sets and expects.
 *
 * The target is the published diameter where there is one, otherwise fer_crimp_diameter() at the aim. Figures that
 * cannot be computed carry the status that says why; the call fails only where there is no target.
 *
 * @param[in] order  joint, published diameter, range of compression, tolerance
 * @param[in] press  see fer_check_press()
 * @param[in] dies  the rack, in any order; may be empty
 * @param[in] count  number of dies
 * @param[out] setup  empty on failure
 * @retval FER_OK  done; see the remarks
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_PUBLISHED_DIAMETER_OUT_OF_RANGE  given, and not 0.001 mm to 1,000,000 mm
 * @retval FER_TOLERANCE_OUT_OF_RANGE  negative, above 1,000,000 mm or not a number
 * @retval FER_WIDEST_DIAMETER_OUT_OF_RANGE  given, and not 0.001 mm to 1,000,000 mm
 * @retval FER_DIE_ADAPTER_OUT_OF_RANGE  a negative number of an adapter
 * @retval FER_COMPRESSION_RANGE_WRONG_ORDER  lower limit not below upper
 * @retval FER_COMPRESSION_AIM_OUTSIDE_RANGE  the aim is below the lower limit or above the upper
 * @retval FER_UNCERTAINTY_AMOUNT_OUT_OF_RANGE  and the statuses of fer_uncertainty_budget() that concern the uncertainties
 * @retval FER_MATERIAL_MODULUS_OUT_OF_RANGE  and the other statuses of fer_check_material(), of a metal that is given
 * @retval FER_RESTRAINT_OUT_OF_RANGE  not a number from 0 to 1
 * @retval FER_HOSE_PRESSURE_OUT_OF_RANGE  negative, or not a number
 * @retval FER_BORE_LIMIT_OUT_OF_RANGE  given, and not 0.001 mm to 1,000,000 mm
 * @retval FER_APPLIES_TO_UNKNOWN  not in #fer_applies_to
 * @retval FER_HOSE_OUTSIDE_NOT_ABOVE_INSIDE  and the other statuses of fer_check_joint()
 * @retval FER_COMPRESSION_WITHOUT_TOUCH  and the other statuses of fer_crimp_diameter(), where nothing is published
 * @retval FER_PRESS_GRADUATION_OUT_OF_RANGE  and the other statuses of fer_check_press()
 * @retval FER_DIE_SIZE_OUT_OF_RANGE  and the other statuses of fer_choose_die()
 * @accuracy as the functions that it calls
 * @source as the functions that it calls
 */
FER_API fer_status fer_plan_setup(const fer_order *order, const fer_press *press, const fer_die *dies,
                                  size_t count, fer_setup *setup);

/**
 * Name of a remark, such as "NO_DIE".
 *
 * @param[in] remark  any number
 * @return the name without its prefix; "UNKNOWN" for a number that is not in the list; never NULL
 */
FER_API const char *fer_remark_name(fer_remark remark);

/**
 * Sentence of a remark in English.
 *
 * @param[in] remark  any number
 * @return the sentence without a full stop; "" for a number that is not in the list; never NULL
 */
FER_API const char *fer_remark_sentence(fer_remark remark);

/**
 * All faults of an order, a press and a rack at once: what fer_plan_setup() would refuse, one after the other.
 *
 * A field has at most one fault, and one that follows from another is left out: a hose whose inside diameter is not
 * given is not called thicker inside than outside, too. No fault is found exactly where fer_plan_setup() succeeds, and
 * its status is that of the first fault: those of the order come first, then those of press, target and dies.
 *
 * @param[in] order  any values
 * @param[in] press  any values
 * @param[in] dies  the rack, any values; may be empty
 * @param[in] count  number of dies
 * @param[out] faults  what was found
 * @param[in] capacity  so many fit; FER_FIELD_COUNT, and four more for each die, are enough
 * @param[out] found  number of faults; 0 on failure
 * @retval FER_OK  done, whether there are any or none
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_ARGUMENT_CAPACITY_TOO_SMALL  more faults than capacity
 * @source the rules of fer_plan_setup()
 */
FER_API fer_status fer_check_order(const fer_order *order, const fer_press *press, const fer_die *dies,
                                   size_t count, fer_fault *faults, size_t capacity, size_t *found);

/**
 * Path of a field, such as "joint.hose.outside", "press.graduation" or "dies[].size"; fer_fault.die says which die.
 *
 * @param[in] field  any number
 * @return the path; "" for a number that is not in the list; never NULL
 */
FER_API const char *fer_field_path(fer_field field);

#ifdef __cplusplus
}
#endif

#endif
