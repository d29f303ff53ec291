/* SPDX-License-Identifier: MIT */
#include "base/words.h"

#include <string.h>

const char *fer_word_behind(const void *first, unsigned places)
{
    const char *word = (const char *)first;
    for (; places > 0; places--) {
        word += strlen(word) + 1;
    }
    return word;
}
