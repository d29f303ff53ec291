/* SPDX-License-Identifier: MIT */
/* Name and sentence of each status.
 * Method: a lookup of the number in a table of places in one text (base/words.h).
 * Formulas: none; the list is in include/ferrule/status.h. */
#include <ferrule/status.h>

#include "base/words.h"

#include <stddef.h>

/* What a status is about stands in the description of the API alone: it takes no place in the library. */
#define FER_STATUS_MEMBERS(name, number, about, sentence) FER_WORDS_MEMBERS(name, number, sentence)
#define FER_STATUS_TEXT(name, number, about, sentence)    FER_WORDS_TEXT(name, number, sentence)

typedef struct {
    FER_STATUS_LIST(FER_STATUS_MEMBERS)
} status_words;

static const status_words words = {FER_STATUS_LIST(FER_STATUS_TEXT)};

/* Where the name of a number stands: the numbers have gaps. */
typedef struct {
    uint16_t number, name;
} status_place;

static const status_place places[] = {
#define FER_STATUS_PLACE(name, number, about, sentence) {number, offsetof(status_words, name_of_##name)},
    FER_STATUS_LIST(FER_STATUS_PLACE)
#undef FER_STATUS_PLACE
};

static const status_place *find_place(fer_status status)
{
    for (size_t i = 0; i < sizeof places / sizeof *places; i++) {
        if ((int)status == places[i].number) {
            return &places[i];
        }
    }
    return NULL;
}

const char *fer_status_name(fer_status status)
{
    const status_place *place = find_place(status);
    return place ? (const char *)&words + place->name : "UNKNOWN";
}

const char *fer_status_sentence(fer_status status)
{
    const status_place *place = find_place(status);
    return place ? fer_word_behind((const char *)&words + place->name, 1)
                 : FER_SENTENCE("this number is not a status of this library");
}
