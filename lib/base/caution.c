/* SPDX-License-Identifier: MIT */
/* Name and text of each caution, and which of them belong to a stage of the work.
 * Method: a lookup of the number in the list's own table (base/words.h); a set of cautions for each stage.
 * Formulas: none; the lists are in include/ferrule/caution.h. */
#include <ferrule/caution.h>

#include "base/words.h"

typedef struct {
    FER_CAUTION_LIST(FER_WORDS_MEMBERS)
} caution_words;

static const caution_words words = {FER_CAUTION_LIST(FER_WORDS_TEXT)};

#define PLACE(name, number, text) FER_WORDS_PLACE(caution_words, name, number)
static const fer_word_place places[] = {FER_CAUTION_LIST(PLACE)};
enum { count = sizeof places / sizeof *places };

const char *fer_caution_name(fer_caution caution)
{
    const char *name = fer_name_among((const char *)&words, places, count, (int)caution);
    return name ? name : "UNKNOWN";
}

const char *fer_caution_text(fer_caution caution)
{
    const char *text = fer_sentence_among((const char *)&words, places, count, (int)caution);
    return text ? text : "";
}

/* ---- stages ------------------------------------------------------------------------------------------- */

typedef struct {
    FER_STAGE_LIST(FER_WORDS_MEMBERS)
} stage_words;

static const stage_words words_of_stages = {FER_STAGE_LIST(FER_WORDS_TEXT)};

#define STAGE_PLACE(name, number, sentence) FER_WORDS_PLACE(stage_words, name, number)
static const fer_word_place stages[] = {FER_STAGE_LIST(STAGE_PLACE)};

const char *fer_stage_name(fer_stage stage)
{
    const char *name = fer_name_among((const char *)&words_of_stages, stages, FER_STAGE_COUNT, (int)stage);
    return name ? name : "UNKNOWN";
}

const char *fer_stage_sentence(fer_stage stage)
{
    const char *sentence =
        fer_sentence_among((const char *)&words_of_stages, stages, FER_STAGE_COUNT, (int)stage);
    return sentence ? sentence : "";
}

#define BIT(caution) (UINT64_C(1) << FER_CAUTION_##caution)

fer_cautions fer_stage_cautions(fer_stage stage)
{
    fer_cautions cautions = {(UINT64_C(1) << FER_CAUTION_COUNT) - 1};
    switch (stage) {
    case FER_STAGE_PLANNING:
        cautions.bits = BIT(MANUFACTURERS_DATA_FIRST) | BIT(APPROVED_PARTS_ONLY) | BIT(CLOSING_DIES) |
                        BIT(LAW_AND_LICENCE) | BIT(NEVER_CRIMP_TWICE) | BIT(INSERTION_FIRST) |
                        BIT(APPROVED_TOOLS) | BIT(LONG_PARTS_TURN) | BIT(OTHERS_AWAY);
        break;
    case FER_STAGE_TRIAL:
        cautions.bits = BIT(CLOSING_DIES) | BIT(LAW_AND_LICENCE) | BIT(NEVER_CRIMP_TWICE) |
                        BIT(NEW_PIECE_EACH_TRIAL) | BIT(OTHERS_AWAY);
        break;
    case FER_STAGE_PRESSURE:
        cautions.bits = BIT(OIL_UNDER_PRESSURE) | BIT(LAW_AND_LICENCE) | BIT(HOSE_WHIPS) |
                        BIT(INJECTED_FLUID) | BIT(PROOF_TEST);
        break;
    case FER_STAGE_HOLD:
        cautions.bits = BIT(NEVER_CRIMP_TWICE) | BIT(KEEP_APART);
        break;
    case FER_STAGE_FAILURE:
        cautions.bits = BIT(SCRAP_NOT_REPAIR) | BIT(NEVER_CRIMP_TWICE);
        break;
    case FER_STAGE_COUNT:
        break;
    }
    return cautions;
}
