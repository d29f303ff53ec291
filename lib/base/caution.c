/* SPDX-License-Identifier: MIT */
#include <ferrule/caution.h>

#include "base/words.h"

typedef struct {
    FER_CAUTION_LIST(FER_WORDS_MEMBERS)
} caution_words;

static const caution_words words = {FER_CAUTION_LIST(FER_WORDS_TEXT)};

static int is_caution(fer_caution caution)
{
    return (unsigned)caution < FER_CAUTION_COUNT;
}

const char *fer_caution_name(fer_caution caution)
{
    return is_caution(caution) ? fer_word_behind(&words, 2u * caution) : "UNKNOWN";
}

const char *fer_caution_text(fer_caution caution)
{
    return is_caution(caution) ? fer_word_behind(&words, 2u * caution + 1u) : "";
}
