/* SPDX-License-Identifier: MIT */
/* The words of a list X(name, number, sentence): its names and sentences as one text, each behind the other's end. There are
 * no pointers in it, so nothing to relocate at load. FER_WITHOUT_TEXTS leaves the sentences out, for machines with little
 * memory: they are then empty, and the names stay. */
#ifndef FER_WORDS_H
#define FER_WORDS_H

#ifdef FER_WITHOUT_TEXTS
#define FER_SENTENCE(sentence) ""
#else
#define FER_SENTENCE(sentence) sentence
#endif

/* For a struct that has the text, and for its initialiser. */
#define FER_WORDS_MEMBERS(name, number, sentence)                                                            \
    char name_of_##name[sizeof #name], sentence_of_##name[sizeof(FER_SENTENCE(sentence))];
#define FER_WORDS_TEXT(name, number, sentence) #name, FER_SENTENCE(sentence),

/* The text that stands so many places behind the first. In a list whose numbers rise from 0 in steps of 1 the name of
 * number n is at 2n, its sentence at 2n + 1. */
const char *fer_word_behind(const void *first, unsigned places);

#endif
