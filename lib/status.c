/* SPDX-License-Identifier: MIT */
#include <ferrule/status.h>

#include <string.h>

/* Names and sentences in one text and a table of places in it: no pointers, so nothing to relocate at load. */
typedef struct {
#define FER_STATUS_TEXT(name, number, about, sentence)                                                       \
    char name_of_##name[sizeof #name], sentence_of_##name[sizeof sentence];
    FER_STATUS_LIST(FER_STATUS_TEXT)
#undef FER_STATUS_TEXT
} status_texts;

static const status_texts texts = {
#define FER_STATUS_TEXT(name, number, about, sentence) #name, sentence,
    FER_STATUS_LIST(FER_STATUS_TEXT)
#undef FER_STATUS_TEXT
};

/* The sentence stands right behind the name's end. */
typedef struct {
    uint16_t number, name;
} status_place;

static const status_place places[] = {
#define FER_STATUS_PLACE(name, number, about, sentence) {number, offsetof(status_texts, name_of_##name)},
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
    return place ? (const char *)&texts + place->name : "UNKNOWN";
}

const char *fer_status_sentence(fer_status status)
{
    const status_place *place = find_place(status);
    if (!place) {
        return "this number is not a status of this library";
    }
    const char *name = (const char *)&texts + place->name;
    return name + strlen(name) + 1;
}
