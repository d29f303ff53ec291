/* SPDX-License-Identifier: MIT */
/** @file
 * Module `caution`: what every front end says to the person at the press, and how grave a remark is.
 */
#ifndef FERRULE_CAUTION_H
#define FERRULE_CAUTION_H

#include <ferrule/status.h>

/** @def FER_CAUTION_LIST
 * The one list of cautions: X(name, number, text). */
#define FER_CAUTION_LIST(X)                                                                                  \
    X(MANUFACTURERS_DATA_FIRST, 0,                                                                           \
      "The crimp data that the manufacturers of coupling and hose publish come first. A computed diameter "  \
      "is a starting point: a trial crimp and a proof test must confirm it.")                                \
    X(APPROVED_PARTS_ONLY, 1,                                                                                \
      "Combine hose, coupling and ferrule of different manufacturers only where the manufacturers approve "  \
      "the combination.")                                                                                    \
    X(CLOSING_DIES, 2,                                                                                       \
      "Keep hands out of the closing dies, hold nothing in them, and wear eye protection. Switch off and "   \
      "isolate the press before you reach in, before dies are changed by hand and before it is cleaned.")    \
    X(OIL_UNDER_PRESSURE, 3,                                                                                 \
      "Fluid under pressure penetrates skin and gloves: never feel for a leak. Release the pressure "        \
      "before you touch hose or coupling.")                                                                  \
    X(SCRAP_NOT_REPAIR, 4,                                                                                   \
      "Cut up an assembly that failed, and one whose doubt no check can settle, so that nobody can use it. " \
      "Do not repair it.")                                                                                   \
    X(LAW_AND_LICENCE, 5,                                                                                    \
      "Local codes on pressure and work equipment, and licensed practice, take precedence. This "            \
      "calculation does not certify anything.")                                                              \
    X(NEVER_CRIMP_TWICE, 6,                                                                                  \
      "Never crimp a coupling a second time, also where its diameter came out too large. Never use a used "  \
      "coupling again, nor used hose.")                                                                      \
    X(NEW_PIECE_EACH_TRIAL, 7, "Take an unused coupling and unused hose for each trial crimp.")              \
    X(INSERTION_FIRST, 8,                                                                                    \
      "Before crimping, mark the insertion depth on the hose and push the hose in as far as the mark: a "    \
      "hose that is not fully in comes off under pressure.")                                                 \
    X(APPROVED_TOOLS, 9,                                                                                     \
      "Use only the press, dies and tools that the manufacturer of the coupling approves for it, and as "    \
      "their manuals say.")                                                                                  \
    X(LONG_PARTS_TURN, 10,                                                                                   \
      "Long and bent parts can turn and swing with the closing dies: keep clear of them, and support a "     \
      "long hose well away from the dies.")                                                                  \
    X(OTHERS_AWAY, 11, "One person works the press. Keep all others away from it and from its pedal.")       \
    X(HOSE_WHIPS, 12,                                                                                        \
      "A hose under pressure whips when it bursts or comes off: restrain it, and stay away from it.")        \
    X(INJECTED_FLUID, 13,                                                                                    \
      "Fluid injected under the skin is an emergency: go to a hospital at once, however small the wound "    \
      "and however little it hurts, and say what the fluid is.")                                             \
    X(PROOF_TEST, 14,                                                                                        \
      "Do proof tests with liquid, the air bled out, behind a guard that stops jet, splinters and whipping " \
      "hose, at the pressure and for the time of the hose's standard. Nobody is near while there is "        \
      "pressure.")                                                                                           \
    X(KEEP_APART, 15,                                                                                        \
      "Mark an assembly that is not released, and keep it apart from those that are. In doubt it is not "    \
      "used.")

/** @def FER_STAGE_LIST
 * The one list of stages of the work, each with the cautions that matter after it: X(name, number, sentence). */
#define FER_STAGE_LIST(X)                                                                                    \
    X(PLANNING, 0, "a set-up is planned, and crimping follows")                                              \
    X(TRIAL, 1, "a crimp is judged, or a dial corrected, and another crimp may follow")                      \
    X(PRESSURE, 2, "an assembly is checked or released, and pressure follows")                               \
    X(HOLD, 3, "something is undecided or not done, and the assembly has to wait")                           \
    X(FAILURE, 4, "a crimp or an assembly failed for good")

/** A stage of #FER_STAGE_LIST. */
typedef enum fer_stage {
#define FER_STAGE_ENUMERATOR(name, number, sentence) FER_STAGE_##name = number,
    FER_STAGE_LIST(FER_STAGE_ENUMERATOR)
#undef FER_STAGE_ENUMERATOR
        FER_STAGE_COUNT /**< number of stages; not a stage */
} fer_stage;

/** A caution of #FER_CAUTION_LIST. */
typedef enum fer_caution {
#define FER_CAUTION_ENUMERATOR(name, number, text) FER_CAUTION_##name = number,
    FER_CAUTION_LIST(FER_CAUTION_ENUMERATOR)
#undef FER_CAUTION_ENUMERATOR
        FER_CAUTION_COUNT /**< number of cautions; not a caution */
} fer_caution;

/** A set of cautions: bit n stands for caution number n. */
typedef struct fer_cautions {
    uint64_t bits; /**< bit n is set where caution n applies */
} fer_cautions;

#ifdef __cplusplus
extern "C" {
#endif

/**
 * Name of a caution, such as "CLOSING_DIES".
 *
 * @param[in] caution  any number
 * @return the name without its prefix; "UNKNOWN" for a number that is not in the list; never NULL
 */
FER_API const char *fer_caution_name(fer_caution caution);

/**
 * Text of a caution in English, one or two sentences.
 *
 * @param[in] caution  any number
 * @return the text; "" for a number that is not in the list; never NULL
 */
FER_API const char *fer_caution_text(fer_caution caution);

/**
 * Cautions that matter at a stage of the work: what the calls of that stage give, and what a front end shows that
 * goes through the stage without one.
 *
 * @param[in] stage  any number
 * @return the cautions; all of them for a number that is not in the list
 */
FER_API fer_cautions fer_stage_cautions(fer_stage stage);

/**
 * Name of a stage, such as "PLANNING".
 *
 * @param[in] stage  any number
 * @return the name without its prefix; "UNKNOWN" for a number that is not in the list; never NULL
 */
FER_API const char *fer_stage_name(fer_stage stage);

/**
 * Sentence of a stage in English.
 *
 * @param[in] stage  any number
 * @return the sentence without a full stop; "" for a number that is not in the list; never NULL
 */
FER_API const char *fer_stage_sentence(fer_stage stage);

#ifdef __cplusplus
}
#endif

#endif
