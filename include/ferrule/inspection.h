/* SPDX-License-Identifier: MIT */
/** @file
 * Module `inspection`: a set-up, the readings of a piece, and what they allow to say about it.
 *
 * Every doubt goes against acceptance: what is not known never makes a verdict milder.
 */
#ifndef FERRULE_INSPECTION_H
#define FERRULE_INSPECTION_H

#include <ferrule/conformity.h>
#include <ferrule/reading.h>
#include <ferrule/setup.h>

/** @def FER_FINDING_LIST
 * The one list of findings of an inspection, the gravest first: X(name, number, severity, sentence). */
#define FER_FINDING_LIST(X)                                                                                  \
    X(GAUGE_CANNOT_ACCEPT, 0, STOP,                                                                          \
      "this gauge cannot accept anything: its uncertainty is too large for these limits, use a better one")  \
    X(LIMITS_TOO_UNCERTAIN, 1, STOP,                                                                         \
      "hose, stem and ferrule are known so badly that no diameter surely gives the right compression: "      \
      "measure them better, or get a published diameter with its tolerance")                                 \
    X(SETUP_STOPPED, 2, STOP,                                                                                \
      "the set-up says that this was not to be crimped: whatever the diameter, it is not accepted")          \
    X(READINGS_SCATTER, 10, DO_FIRST,                                                                        \
      "the readings scatter so much that nothing can be accepted: read again, over the middles of the "      \
      "segments, and more often")                                                                            \
    X(TOO_FEW_READINGS, 11, DO_FIRST,                                                                        \
      "nothing shows how the readings scatter: take at least two at a section, at right angles")             \
    X(GAUGE_TAKEN_AS_EXACT, 12, DO_FIRST,                                                                    \
      "nothing is known of the gauge's uncertainty, and no reading is without error: state it")              \
    X(LIMITS_NOT_STATED, 13, DO_FIRST,                                                                       \
      "the mean is acceptable and not every reading is: ask what the limits apply to")                       \
    X(PROCESS_NOT_USED, 14, DO_FIRST,                                                                        \
      "the readings lie far from what the process usually makes: it was not used, find out what changed")    \
    X(NEAR_LIMIT, 15, DO_FIRST,                                                                              \
      "this near a limit the measurement cannot tell: measure again, more often or with a better gauge")     \
    X(OUTLIER, 16, DO_FIRST, "one reading lies far from the others: read again at its place")                \
    X(READING_OUTSIDE_ZONE, 20, KNOW, "a reading lies outside the acceptance zone")                          \
    X(COMPRESSION_UNCERTAIN, 21, KNOW,                                                                       \
      "as well as the joint is known, its compression may be outside its range even where the diameter is "  \
      "right")                                                                                               \
    X(LIMITS_NARROWED, 22, KNOW,                                                                             \
      "the limits come from the measurements of the joint, and were narrowed by their uncertainty")          \
    X(LIMITS_TAKEN_AS_EXACT, 23, KNOW,                                                                       \
      "the limits come from the measurements of the joint, whose uncertainty is not given")                  \
    X(SETUP_NOT_CONFIRMED, 24, KNOW, "the set-up waits for a confirmation: until then this is a trial piece")

/** A finding of #FER_FINDING_LIST. */
typedef enum fer_finding {
#define FER_FINDING_ENUMERATOR(name, number, severity, sentence) FER_FINDING_##name = number,
    FER_FINDING_LIST(FER_FINDING_ENUMERATOR)
#undef FER_FINDING_ENUMERATOR
        FER_FINDING_COUNT /**< above every number of a finding; not a finding */
} fer_finding;

/** A set of findings: bit n stands for finding number n. */
typedef struct fer_findings {
    uint64_t bits; /**< bit n is set where finding n applies */
} fer_findings;

/** A measured crimp, judged. */
typedef struct fer_inspection {
    fer_reading_summary summary; /**< what the readings say */
    fer_verdict verdict;         /**< verdict on their mean; its decision is that of the inspection */
    fer_length_range limits;     /**< limits that were used */
    fer_length deviation;        /**< mean minus target */
    fer_cautions cautions;       /**< which cautions apply */
    fer_decision decision;       /**< verdict on the diameter, all rules applied */
    fer_applies_to applies_to;   /**< what the limits apply to, from the set-up */
    fer_acceptance_zone zone;    /**< readings that are accepted, as the gauge shows them */
    /** place in the list of the reading that is nearest to a limit, or farthest beyond one */
    size_t worst_index;
    fer_length worst;  /**< that reading, corrected */
    int worst_section; /**< its section */
    /** probability that the compression is in its range, as well as the joint is known; status: why it is
     * not there */
    fer_found_ratio compression_conforming;
    fer_findings findings; /**< what stood in the way of acceptance, and what else there is to know */
} fer_inspection;

#ifdef __cplusplus
extern "C" {
#endif

/**
 * Inspection of a crimp: joins a set-up, the readings of a piece and the verdict on its diameter.
 *
 * Readings over gaps are left out, as the marks say. Accepted is a piece where all of this holds:
 * - the mean of the readings is accepted by fer_judge(), with the guard band below;
 * - where the limits apply to every reading, or it is not stated what to, each reading is in the zone that the gauge
 *   allows; where they apply to section means, each of these is accepted like the mean;
 * - the set-up has no remark with the severity STOP;
 * - there are two readings at least (at one section, where the limits apply to section means), the gauge has an
 *   uncertainty, and the process does not contradict the readings. A guard `without` does without these three.
 *
 * Rejected is a piece whose mean is rejected by fer_judge(); where the limits apply to every reading also one with a
 * reading beyond a limit by the gauge's guard band, and where they apply to section means one with such a mean. All else
 * is undecided. A process may take an acceptance away, and never gives one: both verdicts on the mean, with it and
 * without it, have to accept.
 *
 * @formula zone of a reading: fer_find_acceptance_zone() with \f$ u^2 = u_g^2 + q^2/12 \f$, shown by fer_find_shown_zone().
 * Mean of \f$n\f$ readings: \f$ g^2 = (k\,u_B)^2 + (t_{n-1}\,u_A)^2 \f$ with \f$ u_A^2 = \max(s^2, q^2/12)/n \f$, all other
 * parts of the standard uncertainty of fer_summarise_readings() in \f$u_B\f$, and Student's \f$t\f$ at \f$\Phi(k)\f$; the
 * degrees of freedom that give this \f$g\f$ are those of the verdict, unless the guard has its own. By
 * Welch-Satterthwaite's up to 8 % of pieces at a limit would be accepted where 5 % are promised. Section means: the
 * same, scatter pooled within the sections. The process is not used where the mean is so far from it that both tails
 * hold 0.1 %. Limits that are the set-up's computed window are narrowed: they become the acceptance zone of the window
 * with the larger standard uncertainty of its ends.
 *
 * @param[in] setup  @from fer_plan_setup(), with limits
 * @param[in] readings  in any order; each may be missing
 * @param[in] count  number of readings
 * @param[in] gauge  what is known of the gauge @optional nothing, then nothing is accepted
 * @param[in] marks  where the segments stood; segments 0: those of the set-up @optional not known
 * @param[in] guard  how to decide @optional guard band of 1.65 standard uncertainties, both limits
 * @param[in] process  what is known of the pieces @optional nothing
 * @param[out] inspection  undecided, numbers NaN on failure
 * @retval FER_OK  done; readings far outside are a verdict, never an error
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_SETUP_INCOMPLETE  the set-up has no target or no limits
 * @retval FER_APPLIES_TO_UNKNOWN  the set-up's is not in #fer_applies_to
 * @retval FER_TOLERANCE_MISSING  the set-up says so of its limits; also any other status that it gives for them
 * @retval FER_READING_OUT_OF_RANGE  and the other statuses of fer_summarise_readings()
 * @retval FER_GUARD_OUT_OF_RANGE  and the other statuses of fer_judge(); a process and degrees of freedom go together here
 * @accuracy promised share of pieces at a limit: by simulation, tests/agree/simulation/judging.txt; else as fer_judge()
 * @source ISO 14253-1:2017; JCGM 106:2012; ISO 14405-1 (from memory); parts added in quadrature: common practice, no
 *         source, checked by simulation
 */
FER_API fer_status fer_inspect_crimp(const fer_setup *setup, const fer_reading *readings, size_t count,
                                     const fer_gauge *gauge, fer_marks marks, fer_guard guard,
                                     fer_process process, fer_inspection *inspection);

/**
 * Name of a finding, such as "READING_OUTSIDE_ZONE".
 *
 * @param[in] finding  any number
 * @return the name without its prefix; "UNKNOWN" for a number that is not in the list; never NULL
 */
FER_API const char *fer_finding_name(fer_finding finding);

/**
 * Sentence of a finding in English.
 *
 * @param[in] finding  any number
 * @return the sentence without a full stop; "" for a number that is not in the list; never NULL
 */
FER_API const char *fer_finding_sentence(fer_finding finding);

/**
 * Severity of a finding.
 *
 * @param[in] finding  any number
 * @return its severity; FER_SEVERITY_STOP for a number that is not in the list
 */
FER_API fer_severity fer_finding_severity(fer_finding finding);

#ifdef __cplusplus
}
#endif

#endif
