/* SPDX-License-Identifier: MIT */
/** @file
 * Module `release`: may the rest be crimped, and may the assembly be handed over?
 *
 * Nothing is concluded from silence: a check that nobody did is not done, and an empty struct of checks is on hold.
 * What was checked counts, whether it was needed or not. Points with the severity STOP make scrap; CONFIRM and DO_FIRST
 * hold the assembly; KNOW changes nothing. The verdict on a diameter is one check among others: a good diameter
 * outweighs no bad look.
 */
#ifndef FERRULE_RELEASE_H
#define FERRULE_RELEASE_H

#include <ferrule/inspection.h>

/** Greatest age of hose, or limit of it, in months. */
#define FER_HOSE_AGE_MAXIMUM 1200

/** Usual greatest age of the hose when it is made up, in months: 4 years (DIN 20066, DGUV Regel 113-020; from memory). */
#define FER_HOSE_AGE_USUAL 48

/** What came of a check. */
typedef enum fer_outcome {
    FER_OUTCOME_NOT_DONE, /**< nobody checked; also what is left after a failure */
    FER_OUTCOME_PASSED,   /**< as it has to be */
    FER_OUTCOME_FAILED,   /**< not as it has to be */
    FER_OUTCOME_UNDECIDED /**< checked, and it cannot be decided */
} fer_outcome;

/** Which limit a diameter missed. */
typedef enum fer_missed_limit {
    FER_MISSED_LIMIT_NOT_STATED, /**< none, or not stated */
    FER_MISSED_LIMIT_LOWER,      /**< it is below the lower limit */
    FER_MISSED_LIMIT_UPPER       /**< it is above the upper limit */
} fer_missed_limit;

/** How a crimped end looks. */
typedef enum fer_end_look {
    FER_END_LOOK_NOT_DONE,  /**< nobody looked */
    FER_END_LOOK_GOOD,      /**< as it should */
    FER_END_LOOK_TOO_TIGHT, /**< too much compression: hose cut or pushed out */
    FER_END_LOOK_TOO_LOOSE, /**< too little compression: hose turns or slides in the ferrule, gap to be seen */
    FER_END_LOOK_DAMAGED,   /**< cracks, a bent or tilted ferrule, a damaged hose or coupling */
    FER_END_LOOK_UNDECIDED  /**< somebody looked, and cannot decide */
} fer_end_look;

/** Verdict on the crimp diameter of an end; all zero: not done. */
typedef struct fer_diameter_check {
    fer_outcome outcome; /**< what came of it @optional not done */
    /** which limit it missed, only where it failed @label limit missed @optional not stated */
    fer_missed_limit limit;
    /** a sample of its batch was measured, not this end @label by sample @flag @optional this end */
    int by_sample;
    /** after it failed, the gauge was put on its setting ring and the end read again @label read again @flag
     * @optional not */
    int read_again;
} fer_diameter_check;

/** What was checked on one end; all zero: nothing. */
typedef struct fer_end_checks {
    fer_diameter_check diameter; /**< verdict on the crimp diameter @optional not done */
    fer_end_look looks;          /**< how it looks @optional not done */
    /** insertion mark at the edge of the ferrule; failed: hose not fully in @label insertion @optional not
     * done */
    fer_outcome insertion;
    /** bore under the crimp, by go gauge or measured against its limit @label bore @optional not done */
    fer_outcome bore;
} fer_end_checks;

/** What a proof test showed; all zero: it was not done. */
typedef struct fer_proof_test {
    /** proof pressure reached and kept for its time @label proof pressure @optional not done */
    fer_outcome pressure;
    /** passed: no leak of the assembly; failed: it leaks, however little @label leak @optional not looked
     * for */
    fer_outcome leak;
    /** passed: the hose's mark at each ferrule did not move; failed: it did @label movement @optional not
     * looked for */
    fer_outcome movement;
    /** a connection of the rig leaked, not the assembly: no result @label leak of the rig @flag @optional
     * none */
    int rig_leak;
} fer_proof_test;

/** What was checked on an assembly; all zero: nothing. */
typedef struct fer_assembly_checks {
    fer_end_checks first;  /**< one end @optional nothing checked */
    fer_end_checks second; /**< the other end @optional nothing checked */
    /** hose, couplings, ferrules are those of the crimp specification, approved together, unused @label parts
     * @optional not done */
    fer_outcome parts;
    /** months since the hose was made, by the date on it, the begun one counted @label age of the hose
     * @range 1 to 1200 @optional the date was not read */
    int hose_age;
    fer_outcome length; /**< length of the assembly in its limits @label length @optional not done */
    /** angle between two elbows in its limits @label orientation @optional not done */
    fer_outcome orientation;
    fer_outcome cleanliness; /**< inside clean, and closed by caps @label cleanliness @optional not done */
    fer_outcome marking;  /**< marked as its standard and the order say @label marking @optional not done */
    fer_proof_test proof; /**< proof test @optional not done */
    /** a coupling at one end at least is straight, so no angle has to be right @label straight @flag
     * @optional two elbows */
    int straight;
} fer_assembly_checks;

/** A check that an assembly needs. */
typedef enum fer_need {
    FER_NEED_PARTS,       /**< parts as specified */
    FER_NEED_HOSE_DATE,   /**< date of the hose */
    FER_NEED_DIAMETER,    /**< verdict on the diameter, both ends */
    FER_NEED_INSERTION,   /**< insertion at its mark, both ends */
    FER_NEED_LOOKS,       /**< looks, both ends */
    FER_NEED_BORE,        /**< bore, both ends */
    FER_NEED_LENGTH,      /**< length */
    FER_NEED_ORIENTATION, /**< orientation of two elbows */
    FER_NEED_CLEANLINESS, /**< cleanliness */
    FER_NEED_MARKING,     /**< marking */
    FER_NEED_PROOF,       /**< proof test */
    FER_NEED_COUNT        /**< number of checks; not a check */
} fer_need;

/** A set of checks: bit n stands for check number n. */
typedef struct fer_needs {
    uint64_t bits; /**< bit n is set where check n is in the set */
} fer_needs;

/** What has to be checked before an assembly is released; all zero: the usual. */
typedef struct fer_release_needs {
    /** checks that are needed @label needed @optional the usual: all of #fer_need, the orientation only with
     * two elbows */
    fer_needs needed;
    /** greatest age of the hose in months @label greatest age of the hose @range 1 to 1200 @optional the
     * usual 48, see #FER_HOSE_AGE_USUAL */
    int hose_age_limit;
} fer_release_needs;

/** @def FER_END_POINT_LIST
 * The one list of open points of an end, in the order in which to look at them: X(name, number, severity, sentence). */
#define FER_END_POINT_LIST(X)                                                                                \
    X(INSERTION_SHORT, 0, STOP,                                                                              \
      "insertion: the mark is not at the ferrule: the hose is not fully in, and comes off under pressure")   \
    X(DIAMETER_BELOW, 1, STOP,                                                                               \
      "diameter: below the lower limit, also when read again: nothing takes compression back")               \
    X(DIAMETER_ABOVE, 2, STOP,                                                                               \
      "diameter: above the upper limit, also when read again: never crimp it again, a coupling is crimped "  \
      "once")                                                                                                \
    X(DIAMETER_OUTSIDE, 3, STOP,                                                                             \
      "diameter: outside its limits, also when read again: never crimp it again, a coupling is crimped "     \
      "once")                                                                                                \
    X(LOOKS_TOO_TIGHT, 4, STOP,                                                                              \
      "looks: too tight, whatever the diameter is: crimp no other piece with this set-up until the cause "   \
      "is found")                                                                                            \
    X(LOOKS_TOO_LOOSE, 5, STOP,                                                                              \
      "looks: too loose, whatever the diameter is: crimp no other piece with this set-up until the cause "   \
      "is found, and never crimp this one again")                                                            \
    X(LOOKS_DAMAGED, 6, STOP, "looks: damaged, whatever the diameter is: look for the cause first")          \
    X(BORE_TOO_SMALL, 7, STOP, "bore: the go gauge does not pass, or the bore is below its limit")           \
    X(INSERTION_NOT_DONE, 12, DO_FIRST, "insertion: not checked: look whether the mark is at the ferrule")   \
    X(INSERTION_UNDECIDED, 13, DO_FIRST,                                                                     \
      "insertion: undecided: measure from a mark that can be read, without one it is not released")          \
    X(DIAMETER_NOT_DONE, 14, DO_FIRST, "diameter: not judged: measure this end")                             \
    X(DIAMETER_UNDECIDED, 15, DO_FIRST,                                                                      \
      "diameter: undecided: measure again, more readings or a better gauge; do not crimp it again")          \
    X(DIAMETER_READ_AGAIN, 16, DO_FIRST,                                                                     \
      "diameter: outside its limits: put the gauge on its setting ring, then read this end again; do not "   \
      "crimp it again")                                                                                      \
    X(DIAMETER_SAMPLE_FAILED, 17, DO_FIRST,                                                                  \
      "diameter: the sample of its batch failed: measure this end itself")                                   \
    X(LOOKS_NOT_DONE, 18, DO_FIRST, "looks: not looked at: look at hose, ferrule and coupling all round")    \
    X(LOOKS_UNDECIDED, 19, DO_FIRST,                                                                         \
      "looks: undecided: let a second person compare it with an accepted piece")                             \
    X(BORE_NOT_DONE, 20, DO_FIRST, "bore: not checked: pass the go gauge, or measure it")                    \
    X(BORE_UNDECIDED, 21, DO_FIRST, "bore: undecided: check it again with a better gauge")                   \
    X(DIAMETER_BY_SAMPLE, 28, KNOW, "diameter: passed by sample of its batch, this end was not measured")

/** An open point of #FER_END_POINT_LIST. */
typedef enum fer_end_point {
#define FER_END_POINT_ENUMERATOR(name, number, severity, sentence) FER_END_POINT_##name = number,
    FER_END_POINT_LIST(FER_END_POINT_ENUMERATOR)
#undef FER_END_POINT_ENUMERATOR
        FER_END_POINT_COUNT /**< above every number; not a point */
} fer_end_point;

/** A set of open points of an end: bit n stands for point number n. */
typedef struct fer_end_points {
    uint64_t bits; /**< bit n is set where point n applies */
} fer_end_points;

/** @def FER_ASSEMBLY_POINT_LIST
 * The one list of open points of an assembly apart from its ends, in the order in which to look at them:
 * X(name, number, severity, sentence). */
#define FER_ASSEMBLY_POINT_LIST(X)                                                                           \
    X(PARTS_WRONG, 0, STOP,                                                                                  \
      "parts: not those of the crimp specification, not approved together, or used before")                  \
    X(PROOF_LEAK, 1, STOP, "proof test: the assembly leaks")                                                 \
    X(PROOF_MOVEMENT, 2, STOP, "proof test: the hose moved in a coupling")                                   \
    X(HOSE_TOO_OLD, 8, CONFIRM,                                                                              \
      "hose: older than the limit: ask its manufacturer and the person responsible")                         \
    X(LENGTH_WRONG, 9, CONFIRM,                                                                              \
      "length: outside its limits: not for this order, ask the person responsible")                          \
    X(ORIENTATION_WRONG, 10, CONFIRM,                                                                        \
      "orientation: outside its limits: not for this order, ask the person responsible; never twist the "    \
      "hose to fit")                                                                                         \
    X(PARTS_NOT_DONE, 12, DO_FIRST,                                                                          \
      "parts: not checked: compare hose, couplings and ferrules with the order")                             \
    X(PARTS_UNDECIDED, 13, DO_FIRST,                                                                         \
      "parts: undecided: find out what they are, otherwise it is not released")                              \
    X(HOSE_DATE_NOT_READ, 14, DO_FIRST, "hose: its date was not read: read it on the hose")                  \
    X(LENGTH_NOT_DONE, 15, DO_FIRST, "length: not checked: measure it")                                      \
    X(LENGTH_UNDECIDED, 16, DO_FIRST, "length: undecided: measure it again, better")                         \
    X(ORIENTATION_NOT_DONE, 17, DO_FIRST, "orientation: not checked: measure the angle between the elbows")  \
    X(ORIENTATION_UNDECIDED, 18, DO_FIRST, "orientation: undecided: measure the angle again, better")        \
    X(CLEANLINESS_NOT_DONE, 19, DO_FIRST,                                                                    \
      "cleanliness: not checked: clean it inside, look through it, cap it")                                  \
    X(CLEANLINESS_UNDECIDED, 20, DO_FIRST, "cleanliness: undecided: clean it again, and check again")        \
    X(CLEANLINESS_FAILED, 21, DO_FIRST, "cleanliness: dirty: clean it again, and check again")               \
    X(MARKING_NOT_DONE, 22, DO_FIRST, "marking: not checked: compare it with the standard and the order")    \
    X(MARKING_UNDECIDED, 23, DO_FIRST, "marking: undecided: mark it so that it can be read")                 \
    X(MARKING_WRONG, 24, DO_FIRST, "marking: missing or wrong: mark it as the standard and the order say")   \
    X(PROOF_NOT_DONE, 25, DO_FIRST, "proof test: not done: do it")                                           \
    X(PROOF_NO_RESULT, 26, DO_FIRST,                                                                         \
      "proof test: no result, since the rig leaked, the pressure was not kept or not all was looked at: "    \
      "find the reason, and do it again")                                                                    \
    X(LESS_THAN_USUAL, 30, KNOW, "fewer checks were done than is usual: see what was left out")

/** An open point of #FER_ASSEMBLY_POINT_LIST. */
typedef enum fer_assembly_point {
#define FER_ASSEMBLY_POINT_ENUMERATOR(name, number, severity, sentence) FER_ASSEMBLY_POINT_##name = number,
    FER_ASSEMBLY_POINT_LIST(FER_ASSEMBLY_POINT_ENUMERATOR)
#undef FER_ASSEMBLY_POINT_ENUMERATOR
        FER_ASSEMBLY_POINT_COUNT /**< above every number; not a point */
} fer_assembly_point;

/** A set of open points of an assembly: bit n stands for point number n. */
typedef struct fer_assembly_points {
    uint64_t bits; /**< bit n is set where point n applies */
} fer_assembly_points;

/** @def FER_DISPOSITION_LIST
 * The one list of what becomes of an assembly: X(name, number, sentence). */
#define FER_DISPOSITION_LIST(X)                                                                              \
    X(HOLD, 0, "on hold: not to be handed over until the open points are settled")                           \
    X(RELEASED, 1, "released: everything that is needed was checked and passed")                             \
    X(SCRAP, 2, "scrap: cut it up, nothing on it is used again")

/** What becomes of an assembly, of #FER_DISPOSITION_LIST. */
typedef enum fer_disposition {
#define FER_DISPOSITION_ENUMERATOR(name, number, sentence) FER_DISPOSITION_##name = number,
    FER_DISPOSITION_LIST(FER_DISPOSITION_ENUMERATOR)
#undef FER_DISPOSITION_ENUMERATOR
        FER_DISPOSITION_COUNT /**< number of dispositions; not a disposition */
} fer_disposition;

/** Whether an assembly may be handed over. */
typedef struct fer_release {
    fer_disposition decision;     /**< released, on hold or scrap; on hold also after a failure */
    fer_end_points first;         /**< open points of the first end; of scrap only STOP and KNOW */
    fer_end_points second;        /**< open points of the second end; of scrap only STOP and KNOW */
    fer_assembly_points assembly; /**< open points of the rest; of scrap only STOP and KNOW */
    fer_needs left_out;           /**< usual checks that were neither needed nor done */
    fer_cautions cautions;        /**< which cautions apply */
} fer_release;

/** @def FER_CHANGE_LIST
 * The one list of changes after which a first piece is due again: X(name, number, sentence). */
#define FER_CHANGE_LIST(X)                                                                                   \
    X(DIE, 0, "the die was changed, or taken out and put back")                                              \
    X(DIAL, 1, "the dial was set anew")                                                                      \
    X(ADAPTER, 2, "an adapter set went in or came out")                                                      \
    X(HOSE_BATCH, 3, "the hose is of another batch, or skived anew")                                         \
    X(COUPLING_BATCH, 4, "the couplings or ferrules are of another batch")                                   \
    X(GAUGE, 5, "another gauge is used, or this one was set or dropped")                                     \
    X(PRESS, 6, "another press is used, or this one was repaired or set")

/** A change of #FER_CHANGE_LIST. */
typedef enum fer_change {
#define FER_CHANGE_ENUMERATOR(name, number, sentence) FER_CHANGE_##name = number,
    FER_CHANGE_LIST(FER_CHANGE_ENUMERATOR)
#undef FER_CHANGE_ENUMERATOR
        FER_CHANGE_COUNT /**< number of changes; not a change */
} fer_change;

/** A set of changes: bit n stands for change number n. */
typedef struct fer_changes {
    uint64_t bits; /**< bit n is set where change n is in the set */
} fer_changes;

/** What was checked on a first piece; all zero: nothing. */
typedef struct fer_first_piece_checks {
    fer_end_checks piece; /**< its crimped end @optional nothing checked */
    fer_changes changed;  /**< what was changed since it was crimped @optional nothing */
} fer_first_piece_checks;

/** Whether the rest may be crimped. */
typedef struct fer_first_piece {
    int rest_allowed;      /**< the rest may be crimped @flag @optional not, also after a failure */
    fer_end_points points; /**< open points of the piece */
    fer_changes changed;   /**< what was changed since it was crimped: another first piece is due */
    fer_changes due_after; /**< after which changes it is due again */
    fer_cautions cautions; /**< which cautions apply */
} fer_first_piece;

#ifdef __cplusplus
extern "C" {
#endif

/**
 * Enter an inspection into the checks of an end: its decision, and the limit that a rejected diameter missed.
 *
 * Accepted passes, rejected fails, undecided stays so. Of a rejected piece the limit counts that its worst reading is
 * beyond; where that is beyond none, the one that its mean more likely misses.
 *
 * @param[in] inspection  @from fer_inspect_crimp()
 * @param[out] check  of this end, not read again; not done on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_DECISION_UNKNOWN  not in #fer_decision
 * @accuracy no arithmetic
 * @source common practice, no source
 */
FER_API fer_status fer_enter_inspection(const fer_inspection *inspection, fer_diameter_check *check);

/**
 * May the rest be crimped? Checks of a first piece: diameter, looks and bore have to pass on this very piece.
 *
 * An insertion that was checked counts, too. A diameter passed by sample is none of this piece, and has to be measured.
 * Any change since the piece was crimped makes another first piece due.
 *
 * @param[in] checks  what was checked on it, and what was changed since
 * @param[out] first_piece  rest not allowed, empty on failure
 * @retval FER_OK  done; see rest_allowed
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_CHANGE_UNKNOWN  a change that is not in #FER_CHANGE_LIST
 * @retval FER_OUTCOME_UNKNOWN  not in #fer_outcome
 * @retval FER_LOOK_UNKNOWN  not in #fer_end_look
 * @retval FER_LIMIT_SIDE_UNKNOWN  not in #fer_missed_limit
 * @retval FER_LIMIT_WITHOUT_FAILURE  a missed limit, and the diameter did not fail
 * @accuracy no arithmetic
 * @source common practice, no source
 */
FER_API fer_status fer_check_first_piece(const fer_first_piece_checks *checks, fer_first_piece *first_piece);

/**
 * May the assembly be handed over: released, on hold or scrap, and what is open.
 *
 * Scrap: short insertion, a diameter outside its limits that was read again, bad looks, a failed bore, wrong parts, a
 * leak or a movement in the proof test. A diameter that failed by sample, or was not read again, holds. A proof test
 * passes with the pressure kept, no leak and no movement; a leak of the rig is no result. What is needed and was not
 * done holds, what was done and is not passed counts even where it is not needed.
 *
 * @param[in] checks  what was checked on the assembly
 * @param[in] needs  what has to be checked @optional the usual
 * @param[out] release  on hold, empty on failure
 * @retval FER_OK  done; see the decision
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_NEED_UNKNOWN  a check that is not in #fer_need
 * @retval FER_HOSE_AGE_OUT_OF_RANGE  given, and not 1 to 1200 months
 * @retval FER_HOSE_AGE_LIMIT_OUT_OF_RANGE  given, and not 1 to 1200 months
 * @retval FER_OUTCOME_UNKNOWN  not in #fer_outcome
 * @retval FER_LOOK_UNKNOWN  not in #fer_end_look
 * @retval FER_LIMIT_SIDE_UNKNOWN  not in #fer_missed_limit
 * @retval FER_LIMIT_WITHOUT_FAILURE  a missed limit, and the diameter did not fail
 * @accuracy no arithmetic
 * @source common practice, no source; age, marking, cleanliness, proof test: ISO/TS 17165-2, ISO 4413, SAE J1273, DGUV
 *         Regel 113-020 (from memory)
 */
FER_API fer_status fer_release_assembly(const fer_assembly_checks *checks, fer_release_needs needs,
                                        fer_release *release);

/**
 * Name of an open point of an end, such as "BORE_TOO_SMALL".
 *
 * @param[in] point  any number
 * @return the name without its prefix; "UNKNOWN" for a number that is not in the list; never NULL
 */
FER_API const char *fer_end_point_name(fer_end_point point);

/**
 * Sentence of an open point of an end in English.
 *
 * @param[in] point  any number
 * @return the sentence without a full stop; "" for a number that is not in the list; never NULL
 */
FER_API const char *fer_end_point_sentence(fer_end_point point);

/**
 * Severity of an open point of an end.
 *
 * @param[in] point  any number
 * @return the severity; STOP for a number that is not in the list
 */
FER_API fer_severity fer_end_point_severity(fer_end_point point);

/**
 * Name of an open point of an assembly, such as "PROOF_LEAK".
 *
 * @param[in] point  any number
 * @return the name without its prefix; "UNKNOWN" for a number that is not in the list; never NULL
 */
FER_API const char *fer_assembly_point_name(fer_assembly_point point);

/**
 * Sentence of an open point of an assembly in English.
 *
 * @param[in] point  any number
 * @return the sentence without a full stop; "" for a number that is not in the list; never NULL
 */
FER_API const char *fer_assembly_point_sentence(fer_assembly_point point);

/**
 * Severity of an open point of an assembly.
 *
 * @param[in] point  any number
 * @return the severity; STOP for a number that is not in the list
 */
FER_API fer_severity fer_assembly_point_severity(fer_assembly_point point);

/**
 * Name of what becomes of an assembly, such as "HOLD".
 *
 * @param[in] disposition  any number
 * @return the name without its prefix; "UNKNOWN" for a number that is not in the list; never NULL
 */
FER_API const char *fer_disposition_name(fer_disposition disposition);

/**
 * Sentence of what becomes of an assembly, in English.
 *
 * @param[in] disposition  any number
 * @return the sentence without a full stop; that of HOLD for a number that is not in the list; never NULL
 */
FER_API const char *fer_disposition_sentence(fer_disposition disposition);

/**
 * Name of a change, such as "HOSE_BATCH".
 *
 * @param[in] change  any number
 * @return the name without its prefix; "UNKNOWN" for a number that is not in the list; never NULL
 */
FER_API const char *fer_change_name(fer_change change);

/**
 * Sentence of a change in English.
 *
 * @param[in] change  any number
 * @return the sentence without a full stop; "" for a number that is not in the list; never NULL
 */
FER_API const char *fer_change_sentence(fer_change change);

#ifdef __cplusplus
}
#endif

#endif
