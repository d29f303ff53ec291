/* SPDX-License-Identifier: MIT */
/* The words of a list X(name, number, sentence): its names and sentences as one text, each behind the other's end. There are
 * no pointers in it, so nothing to relocate at load. FER_WITHOUT_TEXTS leaves the sentences out, for machines with little
 * memory: they are then empty, and the names stay. */
#ifndef FER_WORDS_H
#define FER_WORDS_H

#include <stddef.h>
#include <stdint.h>

#ifdef FER_WITHOUT_TEXTS
#define FER_SENTENCE(sentence) ""
#else
#define FER_SENTENCE(sentence) sentence
#endif

/* For a struct that has the text, for its initialiser, and for the numbers in the order of the text. */
#define FER_WORDS_MEMBERS(name, number, sentence)                                                            \
    char name_of_##name[sizeof #name], sentence_of_##name[sizeof(FER_SENTENCE(sentence))];
#define FER_WORDS_TEXT(name, number, sentence)   #name, FER_SENTENCE(sentence),
#define FER_WORDS_NUMBER(name, number, sentence) number,

/* The text that stands so many places behind the first. */
const char *fer_word_behind(const void *first, size_t places);

/* Name of a number, or its sentence; NULL for one that is not in the list. */
const char *fer_name_among(const void *words, const uint16_t *numbers, size_t count, int number);
const char *fer_sentence_among(const void *words, const uint16_t *numbers, size_t count, int number);

#endif
