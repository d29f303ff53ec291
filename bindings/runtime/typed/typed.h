/* SPDX-License-Identifier: MIT */
/** @file
 * Values of a language with types that are fixed when a program is compiled (Java, C#): what is the same in them.
 *
 * Classes on the other side keep plain numbers. A value travels as words of 8 bytes: a quantity or number is the bits
 * of its double, an integer, a truth or the number of an enumerator one word, a set its bits, a struct its members one
 * after the other, what may not be there has a word 1 or 0 before it. An argument begins with the number of words (of
 * text: of bytes of UTF-8, behind which a zero byte comes), NULL is null. A result begins with the number of words
 * behind it, or with that number less than zero: then they are a failure. typed.c shows words to the runtime as the
 * values of its language.
 */
#ifndef FERRULE_BINDINGS_TYPED_H
#define FERRULE_BINDINGS_TYPED_H

#include "script.h"

typedef const int64_t *typed_words; /**< an argument, or the result of a call */

bind_host *typed_host(void); /**< this thread's call; a new one where typed_finish() was called last */
int64_t *typed_memory(bind_host *, size_t words);      /**< until the call ends; NULL: none */
typed_words typed_finish(bind_host *, size_t *length); /**< the result, valid until the thread's next call */
void typed_forget(bind_host *);                        /**< gives back a long result before that */

bind_object typed_value(bind_host *, const bind_kind *, typed_words); /**< the call's next argument */
bind_object typed_list(bind_host *, const bind_kind *, typed_words);  /**< the same, a list */
bind_object typed_text(bind_host *, typed_words);                     /**< the same, text */
size_t typed_arguments(bind_host *, bind_object *list, size_t maximum);
bind_object typed_give(bind_host *, const bind_kind *, const void *from);
bind_object typed_give_list(bind_host *, const bind_kind *, const void *from, size_t count);

/** @name What the classes call besides the library's functions
 * @{ */
bind_object typed_read(bind_host *, const char *kind, const char *function, const char *argument,
                       typed_words text); /**< text, or null, as a value of a kind */
/** Text of a quantity whose decimal sign is "," or "." */
bind_object typed_parse(bind_host *, const char *kind, typed_words text, const char *decimal);
bind_object typed_write(bind_host *, const char *kind, typed_words value, const char *form);
bind_object typed_number(bind_host *, const char *kind, typed_words value, const char *unit);
const char *typed_layout(void); /**< what the words of each kind are, so that another library is found out */
/** @} */

extern const char typed_layout_text[]; /**< written by shapes.py */

#endif
