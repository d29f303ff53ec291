/* SPDX-License-Identifier: MIT */
/* Name and sentence of each status.
 * Method: a lookup of the number in a table of places in one text (base/words.h).
 * Formulas: none; the list is in include/ferrule/status.h. */
#include <ferrule/status.h>

#include "base/words.h"

typedef struct {
    FER_STATUS_LIST(FER_WORDS_MEMBERS_OF_FOUR)
} status_words;

static const status_words words = {FER_STATUS_LIST(FER_WORDS_TEXT_OF_FOUR)};

#define PLACE(name, number, about, sentence) FER_WORDS_PLACE(status_words, name, number)
static const fer_word_place places[] = {FER_STATUS_LIST(PLACE)};
enum { count = sizeof places / sizeof *places };

const char *fer_status_name(fer_status status)
{
    const char *name = fer_name_among((const char *)&words, places, count, (int)status);
    return name ? name : "UNKNOWN";
}

const char *fer_status_sentence(fer_status status)
{
    const char *sentence = fer_sentence_among((const char *)&words, places, count, (int)status);
    return sentence ? sentence : FER_SENTENCE("this number is not a status of this library");
}
