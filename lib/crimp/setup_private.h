/* SPDX-License-Identifier: MIT */
/* What planning knows of an order beyond what the set-up shows, and what it makes of it: remarks and readiness. For the
 * modules that take an order or a set-up besides: its rules, its target, and the limits by which its pieces are judged. */
#ifndef FER_SETUP_PRIVATE_H
#define FER_SETUP_PRIVATE_H

#include <ferrule/setup.h>

#include "base/faults.h"
#include "crimp/lobe_private.h"
#include "crimp/uncertainties_private.h"

/* A press and its rack, with what planning finds of them once for all orders. */
typedef struct {
    const fer_press *press;
    const fer_die *dies;
    size_t count;
    fer_status of_press, of_dies; /* what their checks say */
    fer_segment_angles angles;    /* where the press is sound */
    fer_setup nothing;            /* no figure of it is found yet */
} fer_checked_workplace;

fer_checked_workplace fer_check_workplace(const fer_press *press, const fer_die *dies, size_t count);

/* Uncertainties, found once for all orders that have the same. */
typedef struct {
    fer_standard_uncertainties standard;
    int is_any;        /* one of them is above 0 */
    fer_status status; /* what their check says */
} fer_checked_uncertainties;

fer_checked_uncertainties fer_check_orders_uncertainties(const fer_uncertainties *uncertainties);

/* fer_plan_setup() at such a press, of an order and a set-up that are there. */
fer_status fer_plan_setup_at(const fer_order *order, const fer_checked_uncertainties *uncertainties,
                             const fer_checked_workplace *at, fer_setup *setup);

/* The first of the faults that fer_check_order() finds; not written where it finds none. */
void fer_find_first_fault(const fer_order *order, const fer_press *press, const fer_die *dies, size_t count,
                          fer_fault *fault);

/* Every rule of an order alone; members are those of fer_order. A visitor is there, and takes what is broken. */
void fer_visit_order_rules(const fer_order *order, fer_fault_visitor *faults);

/* Share of the joints in the range below which a compression is called uncertain, before and after it was measured. */
#define FER_SHARE_WANTED 0.95

/* Published, or computed from the order's joint. */
fer_status fer_order_target(const fer_order *order, fer_length *target);

/* What the limits by which pieces are judged come from. */
typedef enum {
    FER_LIMITS_GIVEN,          /* target and tolerance, or a guard that takes limits as they are */
    FER_LIMITS_TAKEN_AS_EXACT, /* the computed window, of unknown uncertainty */
    FER_LIMITS_NARROWED,       /* the computed window, narrowed by its uncertainty */
    FER_LIMITS_TOO_UNCERTAIN   /* of the computed window nothing is left */
} fer_limits_kind;

/* Limits of a set-up, which are there, as readings are judged by them; `narrowed` is their acceptance zone where they are
 * uncertain themselves. */
fer_limits_kind fer_judging_limits(const fer_setup *setup, fer_guard guard, fer_length_range *limits,
                                   fer_acceptance_zone *narrowed);

/* Whether a set-up has a remark that stops it, or one that nobody has confirmed. */
int fer_is_stopped(const fer_setup *setup);
int fer_waits_for_confirming(const fer_setup *setup);

/* What remarks need besides the order, the press and the figures of the set-up; NaN: not known. */
typedef struct {
    const fer_order *order;
    const fer_press *press;
    fer_found_ratio by_model; /* compression at the target by the order's model */
    double plain_uncertainty; /* standard uncertainty of the plain compression; 0: none given */
    int is_uncertainty_given; /* of a measurement that counts, or of any where the compression cannot be computed */
    double share_inside;       /* probability that the compression is in its range */
    double too_narrow;         /* hose on the stem minus ferrule bore */
    double narrow_uncertainty; /* its standard uncertainty */
    fer_status formed;         /* of what the dies make of the ferrule, whether or not it yields on release */
    fer_length closing;        /* to what the dies close, at most */
    int formed_closes;         /* with the growth of its wall the ferrule closes on the stem */
    double formed_length;      /* of the ferrule in the closed dies */
    fer_stem_strength strength; /* of the stem */
    int peak_bore_fails;        /* the bore is too small, or not computed, where the hose presses most */
    fer_limits_kind limits_kind;
} fer_plan_facts;

/* Remarks and readiness of a set-up whose figures are found. */
void fer_make_remarks(const fer_plan_facts *facts, fer_setup *setup);

#endif
