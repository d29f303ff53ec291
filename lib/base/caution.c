/* SPDX-License-Identifier: MIT */
/* Name and text of each caution.
 * Method: a lookup of the number in the list's own table (base/words.h).
 * Formulas: none; the list is in include/ferrule/caution.h. */
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
