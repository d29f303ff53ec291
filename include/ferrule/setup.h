/* SPDX-License-Identifier: MIT */
/** @file
 * Module `setup`: the main job in one call, from an order to everything that the operator sets and expects.
 */
#ifndef FERRULE_SETUP_H
#define FERRULE_SETUP_H

#include <ferrule/caution.h>
#include <ferrule/hose.h>
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

/** Whether the manufacturers of coupling and hose approve the combination of parts. */
typedef enum fer_approval {
    FER_APPROVAL_NOT_STATED,  /**< nobody looked */
    FER_APPROVAL_APPROVED,    /**< both approve it, in writing */
    FER_APPROVAL_NOT_APPROVED /**< one of them does not */
} fer_approval;

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
    /** widest diameter that has to pass the open dies; the ferrule outside diameter counts too @label widest diameter
     * @range 0.001 mm to 1,000,000 mm @optional the ferrule outside diameter */
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
    fer_gauge gauge; /**< gauge in hand @optional no acceptance zone that allows for it */
    fer_guard guard; /**< how its readings will be judged @optional guard band of 1.65, both limits */
    /** whether coupling, ferrule and hose are approved together @label approval @optional not stated */
    fer_approval approval;
    /** depth to which the hose is pushed in, marked on it @label insertion depth @range 0.001 mm to 1,000,000 mm
     * @optional not given */
    fer_length insertion;
    /** length of hose that is skived outside @label outside skive @range 0.001 mm to 1,000,000 mm @optional none */
    fer_length skive_outside;
    /** length of hose that is skived inside @label inside skive @range 0.001 mm to 1,000,000 mm @optional none */
    fer_length skive_inside;
    /** greatest lobe height that is taken without being asked @label greatest lobe height @range 0.001 mm to
     * 1,000,000 mm @optional none given */
    fer_length lobe_maximum;
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
 * The one list of remarks on a set-up, the gravest first, then in the order of work: X(name, number, severity, sentence). */
#define FER_REMARK_LIST(X)                                                                                   \
    X(NO_DIE, 0, STOP,                                                                                       \
      "no die on the rack is near enough below the target: buy or borrow one of the sizes given")            \
    X(TARGET_NOT_TOUCHING, 1, STOP,                                                                          \
      "at the target the ferrule does not touch the hose: check the target, then measure hose, stem and "    \
      "ferrule again")                                                                                       \
    X(TARGET_CLOSES_ON_STEM, 2, STOP,                                                                        \
      "at the target the ferrule closes on the stem: check the target, then measure hose, stem and ferrule " \
      "again")                                                                                               \
    X(COMPRESSION_TOO_LOW, 3, STOP,                                                                          \
      "at the target the plain compression is below 5 %, its uncertainty allowed for: check that the "       \
      "figure is for this coupling and this hose, then measure again")                                       \
    X(COMPRESSION_TOO_HIGH, 4, STOP,                                                                         \
      "at the target the plain compression is above 45 %, its uncertainty allowed for: check that the "      \
      "figure is for this coupling and this hose, then measure again")                                       \
    X(FERRULE_TOO_NARROW, 5, STOP,                                                                           \
      "the ferrule bore is smaller than the hose on the stem: check the ferrule, the hose and the skiving")  \
    X(DOES_NOT_PASS, 6, STOP, "the coupling does not pass the open dies")                                    \
    X(DIAL_OUT_OF_RANGE, 7, STOP, "the dial cannot be set to this diameter with this die")                   \
    X(GRADUATION_TOO_COARSE, 8, STOP,                                                                        \
      "the dial's step is too coarse: it leaves the crimp outside its limits")                               \
    X(FORCE_ABOVE_CAPACITY, 9, STOP, "the crimp needs more force than the press is rated for")               \
    X(CLOSES_BELOW_DIE, 10, STOP,                                                                            \
      "the ferrule springs back, so the dies would have to close below their size: use a smaller die")       \
    X(STEM_YIELDS_THROUGH, 11, STOP,                                                                         \
      "the stem yields through its whole wall under the hose: its bore closes up")                           \
    X(BORE_BELOW_LIMIT, 12, STOP, "the stem's bore is or becomes smaller than its limit")                    \
    X(NOT_APPROVED, 13, STOP,                                                                                \
      "the combination of hose, coupling and ferrule is not approved by their manufacturers: use one that "  \
      "is")                                                                                                  \
    X(GAUGE_CANNOT_ACCEPT, 14, STOP,                                                                         \
      "the gauge in hand cannot accept anything within these limits: use a better one")                      \
    X(LIMITS_TOO_UNCERTAIN, 15, STOP,                                                                        \
      "hose, stem and ferrule are known so badly that no diameter surely gives the right compression: "      \
      "measure them better, or get a published diameter with its tolerance")                                 \
    X(PUBLISHED_ABOVE_WINDOW, 20, CONFIRM,                                                                   \
      "at the published diameter the compression is below its range: check that the figure is for this "     \
      "coupling and this hose, and measure the hose outside, the stem and the ferrule wall again")           \
    X(PUBLISHED_BELOW_WINDOW, 21, CONFIRM,                                                                   \
      "at the published diameter the compression is above its range: check that the figure is for this "     \
      "coupling and this hose, and measure the hose outside, the stem and the ferrule wall again")           \
    X(TARGET_COMPUTED, 22, CONFIRM,                                                                          \
      "no diameter is published, so the target is computed: it is confirmed once a trial piece has passed "  \
      "its proof test and was cut open")                                                                     \
    X(MEASUREMENTS_UNCERTAIN, 23, CONFIRM,                                                                   \
      "nothing is published, and it is too uncertain that the compression is in its range: improve what "    \
      "has the largest part in the uncertainty")                                                             \
    X(WINDOW_NOT_COMPUTED, 24, CONFIRM,                                                                      \
      "whether the published diameter fits the measurements could not be computed: see why the window is "   \
      "not there")                                                                                           \
    X(NO_TOLERANCE, 25, CONFIRM,                                                                             \
      "no tolerance came with the published diameter: ask the coupling's manufacturer; confirming gives no " \
      "limits, and crimps stay on hold until limits are agreed")                                             \
    X(LOBE_ABOVE_MAXIMUM, 26, CONFIRM,                                                                       \
      "the lobe is higher than the order allows: use a die nearer to the target")                            \
    X(APPROVAL_NOT_STATED, 27, CONFIRM,                                                                      \
      "it is not stated that the manufacturers approve this combination of hose, coupling and ferrule: "     \
      "look it up")                                                                                          \
    X(BORE_NEAR_LIMIT, 28, CONFIRM,                                                                          \
      "where the reinforcement presses 2.5 times as hard as the mean, the stem's bore becomes smaller than " \
      "its limit, or is not computed: pass the gauge through a trial piece")                                 \
    X(STEM_YIELDS, 29, CONFIRM, "the stem begins to yield under the hose: its bore does not spring back")    \
    X(FORCE_NEAR_CAPACITY, 30, CONFIRM,                                                                      \
      "the press may be too weak: it allows the hose less than 25 MPa of squeeze, or the ferrule may need "  \
      "more force than it is rated for where its ends are kept from lengthening, or where the squeeze is "   \
      "beyond what is computed: state squeeze and restraint, or read the force of a trial piece")            \
    X(ADAPTER_COMES_OUT, 36, DO_FIRST, "the adapter set has to come out of the press")                       \
    X(ADAPTER_GOES_IN, 37, DO_FIRST, "an adapter set has to go into the press")                              \
    X(TRY_FIT, 38, DO_FIRST,                                                                                 \
      "the ferrule bore is so near to the hose on the stem that measuring cannot tell: try the fit")         \
    X(OPENING_NOT_KNOWN, 39, DO_FIRST,                                                                       \
      "whether the coupling passes the open dies is not known: try it, with the press isolated")             \
    X(INSERTION_NOT_GIVEN, 40, DO_FIRST,                                                                     \
      "the insertion depth is not given: look it up, measure to the stop, and mark the hose")                \
    X(LOBE_ABOVE_TOLERANCE, 44, KNOW,                                                                        \
      "the lobe alone is higher than the tolerance: measure over the middles of the segments, or use a die " \
      "nearer to the target")                                                                                \
    X(WALL_GROWTH_LEAVES_RANGE, 45, KNOW,                                                                    \
      "with the growth of the wall, the compression is above the range: the range belongs to the plain "     \
      "formula")                                                                                             \
    X(COMPRESSION_UNCERTAIN, 46, KNOW,                                                                       \
      "it is uncertain whether the compression is in its range; the published diameter stands")              \
    X(UNCERTAINTIES_NOT_GIVEN, 47, KNOW,                                                                     \
      "how well the joint was measured is not given: no uncertainty is allowed for")                         \
    X(FERRULE_OUTSIDE_NOT_KNOWN, 48, KNOW,                                                                   \
      "the growth of the wall is not computed: the ferrule was not measured outside")                        \
    X(DIE_LENGTH_NOT_KNOWN, 49, KNOW, "whether the die is as long as the ferrule is not known")              \
    X(FERRULE_OUTGROWS_DIE, 50, KNOW, "under the dies the ferrule becomes longer than they are")             \
    X(GAP_WIDE, 51, KNOW,                                                                                    \
      "the gaps between the segments are wider than the ferrule's wall: metal can bulge into them; a die "   \
      "nearer to the target leaves smaller gaps")                                                            \
    X(HOSE_PRESSURE_NOT_KNOWN, 52, KNOW,                                                                     \
      "the squeeze of the hose in the crimp is not known: force and share of the capacity are those of the " \
      "ferrule alone, so the real ones are at least these; press, stem and gauge limit how much the hose "   \
      "may press")                                                                                           \
    X(CORRECTION_NOT_MEASURED, 53, KNOW,                                                                     \
      "no correction of this press was measured, and the ferrule springs back: the dial as computed gives "  \
      "a larger crimp; one with the springback taken off is given beside it")                                \
    X(GAUGE_TAKEN_AS_EXACT, 54, KNOW,                                                                        \
      "nothing is known of the gauge's uncertainty: without it no reading can be accepted")                  \
    X(CONFIRMATION_STALE, 55, KNOW,                                                                          \
      "a confirmation is void: target, tolerance, die or compression are not those that were confirmed")

/** A remark of #FER_REMARK_LIST. */
typedef enum fer_remark {
#define FER_REMARK_ENUMERATOR(name, number, severity, sentence) FER_REMARK_##name = number,
    FER_REMARK_LIST(FER_REMARK_ENUMERATOR)
#undef FER_REMARK_ENUMERATOR
        FER_REMARK_COUNT /**< above every number of a remark; not a remark */
} fer_remark;

/** A set of remarks: bit n stands for remark number n. */
typedef struct fer_remarks {
    uint64_t bits; /**< bit n is set where remark n applies */
} fer_remarks;

/** @def FER_READINESS_LIST
 * The one list of answers to "may this be crimped?": X(name, number, sentence). */
#define FER_READINESS_LIST(X)                                                                                \
    X(NOT_READY, 0, "not to be crimped: something has to be changed first")                                  \
    X(AFTER_CONFIRMING, 1, "not to be crimped before somebody who may decide has confirmed what is marked")  \
    X(READY, 2, "crimp one piece and check it; the rest waits until this first piece is accepted")

/** An answer of #FER_READINESS_LIST. */
typedef enum fer_readiness {
#define FER_READINESS_ENUMERATOR(name, number, sentence) FER_READINESS_##name = number,
    FER_READINESS_LIST(FER_READINESS_ENUMERATOR)
#undef FER_READINESS_ENUMERATOR
        FER_READINESS_COUNT /**< number of answers; not an answer */
} fer_readiness;

/** Who answers for a remark has looked at these figures; where any of them is another one the confirmation is void. */
typedef struct fer_confirmation {
    fer_remark remark;    /**< which remark, of severity CONFIRM */
    fer_length target;    /**< crimp diameter that was looked at @range any finite number */
    fer_length tolerance; /**< its tolerance @label tolerance @range any finite number @optional none */
    fer_length die;       /**< size of the die @label die @range any finite number @optional none */
    fer_ratio
        compression; /**< plain compression at the target @label compression @range any finite number @optional none */
} fer_confirmation;

/** Where a compression came from. */
typedef enum fer_compression_source {
    FER_COMPRESSION_SOURCE_PLAIN, /**< the plain formula */
    FER_COMPRESSION_SOURCE_MODEL, /**< the order's model */
    FER_COMPRESSION_SOURCE_FORMING /**< the ferrule's metal with the restraint of its ends: the bore after crimping */
} fer_compression_source;

/** The one compression to look at first. */
typedef struct fer_best_compression {
    fer_found_ratio value;                /**< compression at the target */
    fer_found_ratio standard_uncertainty; /**< by the order's model */
    fer_compression_source source;        /**< what gave the value */
} fer_best_compression;

/** The measurement with the largest part in an uncertainty. */
typedef struct fer_largest_part {
    fer_measurement measurement; /**< which one */
    fer_ratio share;             /**< its part of the sum of all squares of contributions */
} fer_largest_part;

/** A largest part that may not be there. */
typedef struct fer_found_part {
    fer_largest_part value; /**< the part; share NaN where status is not FER_OK */
    fer_status status;      /**< why it is not there; FER_OK: it is */
} fer_found_part;

/** Everything that the operator sets and expects, and whether it may be crimped. */
typedef struct fer_setup {
    fer_readiness readiness;     /**< may this be crimped */
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
    fer_remarks remarks;          /**< what to stop for, confirm, do first and know, in this order */
    fer_remarks confirmed;        /**< which of them somebody has confirmed */
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
    fer_found_zone zone; /**< readings of the gauge in hand that are accepted, as it shows them */
    fer_best_compression compression; /**< the compression to look at first */
    fer_found_part largest;           /**< what has the largest part in its uncertainty */
    /** dial setting with the springback taken off, where no correction of the press was measured */
    fer_found_dial springback_dial;
    fer_length tolerance;     /**< from the order; 0: none */
    fer_length insertion;     /**< from the order; 0: not given */
    fer_length skive_outside; /**< from the order; 0: none */
    fer_length skive_inside;  /**< from the order; 0: none */
    /** force and share of the capacity are lower bounds, since the squeeze of the hose or the restraint of the ends is not known
     * @flag */
    int force_at_least;
    fer_hose_limits
        hose_limits; /**< how much the hose may press, whether it is known what it presses or not */
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
    X(UNCERTAINTIES_HOSE_INSIDE_AMOUNT, 15, order, uncertainties.hose_inside.amount)                         \
    X(UNCERTAINTIES_HOSE_INSIDE_DISTRIBUTION, 16, order, uncertainties.hose_inside.distribution)             \
    X(UNCERTAINTIES_HOSE_INSIDE_DEGREES_OF_FREEDOM, 17, order, uncertainties.hose_inside.degrees_of_freedom) \
    X(UNCERTAINTIES_HOSE_OUTSIDE_AMOUNT, 18, order, uncertainties.hose_outside.amount)                       \
    X(UNCERTAINTIES_HOSE_OUTSIDE_DISTRIBUTION, 19, order, uncertainties.hose_outside.distribution)           \
    X(UNCERTAINTIES_HOSE_OUTSIDE_DEGREES_OF_FREEDOM, 20, order,                                              \
      uncertainties.hose_outside.degrees_of_freedom)                                                         \
    X(UNCERTAINTIES_STEM_OUTSIDE_AMOUNT, 21, order, uncertainties.stem_outside.amount)                       \
    X(UNCERTAINTIES_STEM_OUTSIDE_DISTRIBUTION, 22, order, uncertainties.stem_outside.distribution)           \
    X(UNCERTAINTIES_STEM_OUTSIDE_DEGREES_OF_FREEDOM, 23, order,                                              \
      uncertainties.stem_outside.degrees_of_freedom)                                                         \
    X(UNCERTAINTIES_FERRULE_WALL_AMOUNT, 24, order, uncertainties.ferrule_wall.amount)                       \
    X(UNCERTAINTIES_FERRULE_WALL_DISTRIBUTION, 25, order, uncertainties.ferrule_wall.distribution)           \
    X(UNCERTAINTIES_FERRULE_WALL_DEGREES_OF_FREEDOM, 26, order,                                              \
      uncertainties.ferrule_wall.degrees_of_freedom)                                                         \
    X(UNCERTAINTIES_FERRULE_OUTSIDE_AMOUNT, 27, order, uncertainties.ferrule_outside.amount)                 \
    X(UNCERTAINTIES_FERRULE_OUTSIDE_DISTRIBUTION, 28, order, uncertainties.ferrule_outside.distribution)     \
    X(UNCERTAINTIES_FERRULE_OUTSIDE_DEGREES_OF_FREEDOM, 29, order,                                           \
      uncertainties.ferrule_outside.degrees_of_freedom)                                                      \
    X(UNCERTAINTIES_DIAMETER_AMOUNT, 30, order, uncertainties.diameter.amount)                               \
    X(UNCERTAINTIES_DIAMETER_DISTRIBUTION, 31, order, uncertainties.diameter.distribution)                   \
    X(UNCERTAINTIES_DIAMETER_DEGREES_OF_FREEDOM, 32, order, uncertainties.diameter.degrees_of_freedom)       \
    X(UNCERTAINTIES_CORRELATIONS, 33, order, uncertainties.correlations)                                     \
    X(ADAPTER_MOUNTED, 34, order, adapter_mounted)                                                           \
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
    X(GAUGE_STANDARD_UNCERTAINTY, 47, order, gauge.standard_uncertainty)                                     \
    X(GAUGE_CORRECTION, 48, order, gauge.correction)                                                         \
    X(GAUGE_RESOLUTION, 49, order, gauge.resolution)                                                         \
    X(GUARD_FACTOR, 50, order, guard.factor)                                                                 \
    X(GUARD_SIDE, 51, order, guard.side)                                                                     \
    X(GUARD_DEGREES_OF_FREEDOM, 52, order, guard.degrees_of_freedom)                                         \
    X(APPROVAL, 53, order, approval)                                                                         \
    X(INSERTION, 54, order, insertion)                                                                       \
    X(SKIVE_OUTSIDE, 55, order, skive_outside)                                                               \
    X(SKIVE_INSIDE, 56, order, skive_inside)                                                                 \
    X(LOBE_MAXIMUM, 57, order, lobe_maximum)                                                                 \
    X(PRESS_GRADUATION, 58, press, graduation)                                                               \
    X(PRESS_CORRECTION, 59, press, correction)                                                               \
    X(PRESS_DIAL_MAXIMUM, 60, press, dial_maximum)                                                           \
    X(PRESS_OPENING, 61, press, opening)                                                                     \
    X(PRESS_CAPACITY, 62, press, capacity)                                                                   \
    X(PRESS_SEGMENTS, 63, press, segments)                                                                   \
    X(DIE_SIZE, 64, die, size)                                                                               \
    X(DIE_REACH, 65, die, reach)                                                                             \
    X(DIE_ADAPTER, 66, die, adapter)                                                                         \
    X(DIE_LENGTH, 67, die, length)

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
 * Whether it may be crimped is decided here, once: a remark with the severity STOP makes the set-up NOT_READY, and nothing
 * but other inputs lifts it; one with CONFIRM makes it AFTER_CONFIRMING until fer_confirm_setup() has a confirmation of
 * it. READY means one piece: see fer_check_first_piece(). Every doubt goes against crimping.
 *
 * @formula Compression below 5 % or above 45 % (our choice, no source) stops where it is so by more than twice its
 * standard uncertainty, of which at most 5 % are allowed for; a ferrule narrower than the hose on the stem where it is so
 * by more than twice its own. The zone is fer_find_shown_zone() of the limits, for \f$ u^2 = u_g^2 + q^2/12 \f$; limits
 * that are the computed window are narrowed first, as in fer_inspect_crimp(). Without a measured correction the dial gives
 * target, remainder and springback.
 *
 * Limits of the squeeze: \f$ P(q)\,\pi D L s \f$ at the capacity, with the ends fixed where no restraint is given, which needs most;
 * those of the stem by fer_load_stem() and fer_find_stem_strength(), divided by #FER_HOSE_PEAK.
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
 * @retval FER_APPROVAL_UNKNOWN  not in #fer_approval
 * @retval FER_INSERTION_OUT_OF_RANGE  given, and not 0.001 mm to 1,000,000 mm
 * @retval FER_SKIVE_OUT_OF_RANGE  given, and not 0.001 mm to 1,000,000 mm
 * @retval FER_LOBE_LIMIT_OUT_OF_RANGE  given, and not 0.001 mm to 1,000,000 mm
 * @retval FER_GAUGE_UNCERTAINTY_OUT_OF_RANGE  and the other statuses of fer_summarise_readings() on a gauge
 * @retval FER_GUARD_OUT_OF_RANGE  and the other statuses of fer_judge() on a guard
 * @retval FER_COMPRESSION_RANGE_MISSING  a model other than the plain formula, and no range
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
 * Confirm a remark of a set-up: the figures that somebody has looked at who may decide, and answers for.
 *
 * It is the owner of the crimp specification who confirms. Front ends take no confirmation without a name.
 *
 * @param[in] setup  @from fer_plan_setup()
 * @param[in] remark  of severity CONFIRM, and among those of the set-up
 * @param[out] confirmation  for fer_confirm_setup(); empty on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_REMARK_NOT_TO_CONFIRM  its severity is not CONFIRM, or it is not in #FER_REMARK_LIST
 * @retval FER_REMARK_NOT_MADE  the set-up does not make it
 * @accuracy no arithmetic
 * @source common practice, no source
 */
FER_API fer_status fer_confirm_remark(const fer_setup *setup, fer_remark remark,
                                      fer_confirmation *confirmation);

/**
 * Set-up with what was confirmed: its readiness, once confirmations are taken into account.
 *
 * A confirmation whose figures are not those of the set-up (by more than 0.0005 mm, or 0.05 % of compression) is void; the
 * remark CONFIRMATION_STALE says so. One of a remark that the set-up does not make changes nothing.
 *
 * @param[in] setup  @from fer_plan_setup()
 * @param[in] confirmations  in any order; may be empty
 * @param[in] count  number of confirmations
 * @param[out] confirmed  the set-up with `confirmed` and readiness as they are now, of these confirmations alone; may be the
 *             set-up itself; empty on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_REMARK_NOT_TO_CONFIRM  a confirmation of a remark whose severity is not CONFIRM
 * @retval FER_CONFIRMATION_NOT_A_NUMBER  a figure of a confirmation is not finite
 * @accuracy no arithmetic
 * @source common practice, no source
 */
FER_API fer_status fer_confirm_setup(const fer_setup *setup, const fer_confirmation *confirmations,
                                     size_t count, fer_setup *confirmed);

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
 * Severity of a remark.
 *
 * @param[in] remark  any number
 * @return its severity; FER_SEVERITY_STOP for a number that is not in the list
 */
FER_API fer_severity fer_remark_severity(fer_remark remark);

/**
 * Name of an answer to "may this be crimped?", such as "READY".
 *
 * @param[in] readiness  any number
 * @return the name without its prefix; "UNKNOWN" for a number that is not in the list; never NULL
 */
FER_API const char *fer_readiness_name(fer_readiness readiness);

/**
 * Sentence of an answer to "may this be crimped?" in English.
 *
 * @param[in] readiness  any number
 * @return the sentence without a full stop; that of NOT_READY for a number that is not in the list; never NULL
 */
FER_API const char *fer_readiness_sentence(fer_readiness readiness);

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
