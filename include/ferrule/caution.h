/* SPDX-License-Identifier: MIT */
/** @file
 * Module `caution`: what every front end tells the person at the press.
 */
#ifndef FERRULE_CAUTION_H
#define FERRULE_CAUTION_H

#include <ferrule/status.h>

/** @def FER_CAUTION_LIST
 * The one list of cautions: X(name, number, text). */
#define FER_CAUTION_LIST(X)                                                                                  \
    X(MANUFACTURERS_DATA_FIRST, 0,                                                                           \
      "The crimp data that the manufacturers of the coupling and the hose publish come first. A computed "   \
      "diameter "                                                                                            \
      "is a "                                                                                                \
      "starting point: a trial crimp and a proof test must confirm it.")                                     \
    X(APPROVED_PARTS_ONLY, 1,                                                                                \
      "Combine parts of different manufacturers only where these approve it. Never crimp a coupling twice, " \
      "and "                                                                                                 \
      "never use a used coupling again.")                                                                    \
    X(CLOSING_DIES, 2,                                                                                       \
      "Keep hands out of the closing dies and wear eye protection. Switch off and isolate the press before " \
      "dies are "                                                                                            \
      "changed by hand and before it is cleaned.")                                                           \
    X(OIL_UNDER_PRESSURE, 3,                                                                                 \
      "Oil under pressure penetrates skin: never feel for a leak. Do proof tests with liquid, the air "      \
      "bled out, behind a guard.")                                                                           \
    X(SCRAP_NOT_REPAIR, 4, "Cut up an assembly that failed or that is in doubt. Do not repair it.")          \
    X(LAW_AND_LICENCE, 5,                                                                                    \
      "Local codes on pressure and work equipment, and licensed practice, take precedence. This "            \
      "calculation does not certify anything.")

/** A caution of #FER_CAUTION_LIST. */
typedef enum fer_caution {
#define FER_CAUTION_ENUMERATOR(name, number, text) FER_CAUTION_##name = number,
    FER_CAUTION_LIST(FER_CAUTION_ENUMERATOR)
#undef FER_CAUTION_ENUMERATOR
        FER_CAUTION_COUNT /**< number of cautions; not a caution */
} fer_caution;

/** A set of cautions: bit n stands for caution number n. */
typedef struct fer_cautions {
    uint32_t bits; /**< bit n is set where caution n applies */
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

#ifdef __cplusplus
}
#endif

#endif
