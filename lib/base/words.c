/* SPDX-License-Identifier: MIT */
/* Names and sentences out of the one text of a list.
 * Method: a table of numbers and places, looked through from its beginning.
 * Formulas: none; the layout is in base/words.h. */
#include "base/words.h"

#include <string.h>

const char *fer_name_among(const char *words, const fer_word_place *places, size_t count, int number)
{
    for (size_t i = 0; i < count; i++) {
        if (number == places[i].number) {
            return words + places[i].name;
        }
    }
    return NULL;
}

const char *fer_sentence_among(const char *words, const fer_word_place *places, size_t count, int number)
{
    const char *name = fer_name_among(words, places, count, number);
    return name ? name + strlen(name) + 1 : NULL;
}
