/* SPDX-License-Identifier: MIT */
#include <ferrule/caution.h>

const char *fer_caution_name(fer_caution caution)
{
    switch (caution) {
#define FER_CAUTION_NAME(name, number, text)                                                                 \
    case FER_CAUTION_##name:                                                                                 \
        return #name;
        FER_CAUTION_LIST(FER_CAUTION_NAME)
#undef FER_CAUTION_NAME
    case FER_CAUTION_COUNT:
        break;
    }
    return "UNKNOWN";
}

const char *fer_caution_text(fer_caution caution)
{
    switch (caution) {
#define FER_CAUTION_TEXT(name, number, text)                                                                 \
    case FER_CAUTION_##name:                                                                                 \
        return text;
        FER_CAUTION_LIST(FER_CAUTION_TEXT)
#undef FER_CAUTION_TEXT
    case FER_CAUTION_COUNT:
        break;
    }
    return "";
}

/* ---- stages ------------------------------------------------------------------------------------------- */

const char *fer_stage_name(fer_stage stage)
{
    switch (stage) {
#define FER_STAGE_NAME(name, number, sentence)                                                               \
    case FER_STAGE_##name:                                                                                   \
        return #name;
        FER_STAGE_LIST(FER_STAGE_NAME)
#undef FER_STAGE_NAME
    case FER_STAGE_COUNT:
        break;
    }
    return "UNKNOWN";
}

const char *fer_stage_sentence(fer_stage stage)
{
    switch (stage) {
#define FER_STAGE_SENTENCE(name, number, sentence)                                                           \
    case FER_STAGE_##name:                                                                                   \
        return sentence;
        FER_STAGE_LIST(FER_STAGE_SENTENCE)
#undef FER_STAGE_SENTENCE
    case FER_STAGE_COUNT:
        break;
    }
    return "";
}

#define BIT(caution) (UINT32_C(1) << FER_CAUTION_##caution)

fer_cautions fer_stage_cautions(fer_stage stage)
{
    fer_cautions cautions = {(UINT32_C(1) << FER_CAUTION_COUNT) - 1};
    switch (stage) {
    case FER_STAGE_PLANNING:
        cautions.bits = BIT(MAKERS_DATA_FIRST) | BIT(APPROVED_PARTS_ONLY) | BIT(CLOSING_DIES) |
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
