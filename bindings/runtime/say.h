/* SPDX-License-Identifier: MIT */
/** @file
 * Messages: what take.c, fail.c and quantity.c need of say.c. */
#ifndef FERRULE_BINDINGS_SAY_H
#define FERRULE_BINDINGS_SAY_H

#include "script.h"

enum { SHOWN_BYTES = 80, SHOWN_STRUCT = 200 };

/** The way to the value that is being taken: function, argument, member or place in a list. */
typedef struct bind_way {
    bind_host *host;
    bind_failure *failure;
    const struct bind_way *outer;
    const char *name; /**< NULL: a place in a list */
    size_t place;
} bind_way;

/** Of a call that nearly always succeeds only what bind_blame() begins with, which does the rest. */
static inline void bind_expect(bind_failure *failure, const char *function)
{
    failure->function = function;
    failure->out.used = 0;
}

void bind_begin(bind_failure *, fer_status, const char *function);
void bind_say_text(bind_writer *, const char *text,
                   size_t length); /**< not long, without control characters */
void bind_say_object(const bind_way *, bind_object);
void bind_say_units(bind_writer *, const bind_kind *);
void bind_note(const bind_way *, bind_object);  /**< path and value of what is at fault */
void bind_blame(const bind_way *, bind_object); /**< the same, and the message begins with the way */

/** 1: the language's own error is under way. */
static inline int bind_is_raised(const bind_way *at)
{
    return host_language.is_raised && host_language.is_raised(at->host);
}

/** @name take.c
 * @{ */
fer_status bind_parse(const bind_kind *, const char *text, size_t length, double *to, size_t *stop);
/** A struct of an argument, read once more for a message; 0: the argument is none. */
int bind_take_again(const bind_way *call, const bind_parameter *, bind_object, bind_any *);
/** @} */

/** @name Refusals
 * Negative, always. An error of the language's own that is under way stays what it is.
 * @{ */
int bind_refuse(const bind_kind *, bind_object, const bind_way *);
int bind_complain(const bind_way *, bind_object, bind_fault, const char *trouble);
int bind_complain_about(const bind_way *, bind_object, const char *trouble); /**< with what was given */
int bind_refuse_quantity(const bind_kind *, bind_object, const char *text, size_t length, fer_status,
                         size_t stop, const bind_way *);
int bind_refuse_absent(bind_object, const bind_way *); /**< None and the like for a quantity */
int bind_refuse_missing(const bind_kind *, const char *given, const bind_way *);
int bind_refuse_stranger(const bind_kind *, const char *name, const bind_way *);
/** @} */

#endif
