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
