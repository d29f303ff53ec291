/* SPDX-License-Identifier: MIT */
/* Names and sentences out of the one text of a list.
 * Method: counting the ends of the texts, so that no pointer is kept.
 * Formulas: none; the layout is in base/words.h. */
#include "base/words.h"

#include <string.h>

const char *fer_word_behind(const void *first, size_t places)
{
    const char *word = (const char *)first;
    for (; places > 0; places--) {
        word += strlen(word) + 1;
    }
    return word;
}

static size_t place_of(const uint16_t *numbers, size_t count, int number)
{
    size_t place = 0;
    while (place < count && numbers[place] != number) {
        place++;
    }
    return place;
}

const char *fer_name_among(const void *words, const uint16_t *numbers, size_t count, int number)
{
    const size_t place = place_of(numbers, count, number);
    return place < count ? fer_word_behind(words, 2 * place) : NULL;
}

const char *fer_sentence_among(const void *words, const uint16_t *numbers, size_t count, int number)
{
    const size_t place = place_of(numbers, count, number);
    return place < count ? fer_word_behind(words, 2 * place + 1) : NULL;
}
