/* SPDX-License-Identifier: MIT */
/** @file
 * Values of a scripting language and the C structs: what is the same in all of them.
 *
 * A language gives the functions host_... (how it keeps text, numbers, lists and tables); script.c does the rest by
 * the table of kinds: reads arguments, refuses them with a message, makes results, reckons with quantities.
 */
#ifndef FERRULE_BINDINGS_SCRIPT_H
#define FERRULE_BINDINGS_SCRIPT_H

#include "kinds.h"

typedef struct bind_host bind_host; /**< the interpreter: what the language needs to be asked */
typedef void *bind_object;          /**< a value of the language; NULL: none */

/** An argument or a result of a function. */
typedef struct bind_parameter {
    const char *name;
    const bind_kind *kind; /**< NULL: text */
    int is_list, optional;
} bind_parameter;

/** A function of the library. */
typedef struct bind_function {
    const char *name, *text; /**< name without its prefix; the first sentence about it */
    const bind_parameter *arguments, *results;
} bind_function;

extern const bind_function bind_functions[]; /**< up to a name NULL; written by describe.py */

/** Why a call is refused. */
typedef struct bind_failure {
    fer_status status;    /**< FER_OK: an argument is not of the kind that is needed */
    const char *function; /**< name of the function, or what else was called */
    char message[8000];   /**< function, value and rule, in UTF-8 */
} bind_failure;

/** @name What a language gives
 * A value that is looked at belongs to the caller or to what holds it. host_drop() comes after host_item() and
 * host_member(), in the opposite order. A value that is made is handed on once, to host_put... or as a result.
 * @{ */
extern const int host_first_place;     /**< number of the first item of a list in messages */
extern const int host_values_are_text; /**< 1: the language has no objects, a quantity is its text */
extern const int host_has_unsigned; /**< 0: whole numbers of 64 bits are signed, and these go by their bits */
extern const char *const host_maker;      /**< how to make a quantity of a unit (%1$s) and a number (%2$s) */
extern const char *const host_table_name; /**< what the language calls names with values */

int host_is_nothing(bind_host *, bind_object);
const bind_kind *host_kind(bind_host *,
                           bind_object);    /**< of a quantity or struct of ours; NULL: something else */
double host_base(bind_host *, bind_object); /**< of a quantity of ours */
const char *host_text(bind_host *, bind_object, size_t *length); /**< UTF-8; NULL: not text */
int host_number(bind_host *, bind_object, double *);             /**< 0: not a number */
/** 0: not a whole number; 1: in int64_t, its bits; 2: above, in uint64_t; -1: too large. */
int host_integer(bind_host *, bind_object, uint64_t *);
int host_bool(bind_host *, bind_object, int *); /**< 0: neither true nor false */
int host_list(bind_host *, bind_object, int is_struct,
              size_t *count); /**< 0: not a list, or not for a struct */
bind_object host_item(bind_host *, bind_object, size_t place);
int host_table(bind_host *, bind_object,
               const bind_kind *); /**< 0: nothing with names to be read as this kind */
bind_object host_member(bind_host *, bind_object, const char *name); /**< NULL: not there */
/** A name that is no member, as what is shown; 0: none. */
int host_stranger(bind_host *, bind_object, const bind_kind *, char *name, size_t capacity);
void host_drop(bind_host *, bind_object);
const char *host_type(bind_host *, bind_object); /**< name of its type */

bind_object host_new_quantity(bind_host *, const bind_kind *, double base);
bind_object host_new_number(bind_host *, double);
bind_object host_new_integer(bind_host *, int64_t);
bind_object host_new_unsigned(bind_host *, uint64_t); /**< above INT64_MAX */
bind_object host_new_bool(bind_host *, int);
bind_object host_new_text(bind_host *, const char *, size_t length);
bind_object host_new_word(bind_host *, const bind_kind *, const char *name);
bind_object host_new_list(bind_host *);
void host_put_item(bind_host *, bind_object list, bind_object item);
bind_object host_new_table(bind_host *,
                           const bind_kind *); /**< a struct of this kind; NULL: names and values */
void host_put_member(bind_host *, bind_object table, const char *name, bind_object value);

void *host_memory(bind_host *, size_t bytes); /**< NULL: none, and said so */
void host_give_back(bind_host *, void *memory);
void host_fail(bind_host *, const bind_failure *); /**< makes it the error of this call; may not come back */
/** @} */

/** @name What the primitives of types.i call
 * Negative or NULL: failed, and host_fail() was called.
 * @{ */
int bind_take_argument(bind_host *, const bind_kind *, bind_object, void *to, const char *function,
                       const char *argument);
void *bind_take_list(bind_host *, const bind_kind *, bind_object, size_t *count, const char *function,
                     const char *argument);
bind_object bind_give(bind_host *, const bind_kind *, const void *from);
bind_object bind_give_list(bind_host *, const bind_kind *, const void *from, size_t count);
int64_t bind_integer(const bind_kind *, const void *from); /* of whatever size; unsigned ones as their bits */
void bind_raise(bind_host *, const char *function, fer_status, const bind_object *arguments, size_t count);
void bind_refuse_count(bind_host *, const char *function, size_t given);
void bind_refuse_text(bind_host *, const char *function, const char *argument);
const char *bind_status_name(fer_status);
/** First word of a status in CapWords, the class of errors; "Type" where there is no status. */
void bind_error_class(const bind_failure *, char *name, size_t capacity);
int bind_is_member(const bind_kind *, const char *name, size_t length);
/** @} */

/** @name What every language has besides the library's functions
 * @{ */
bind_object bind_make(bind_host *, const char *kind,
                      bind_object from); /**< from anything that is taken for it */
bind_object bind_written(bind_host *, bind_object value,
                         const char *form); /**< form: ".2f in", each part may lack */
bind_object bind_number(bind_host *, bind_object quantity, const char *unit);
bind_object bind_compute(bind_host *, bind_object left, const char *operation,
                         bind_object right); /**< + - * / <=> */
bind_object bind_describe(bind_host *);      /**< kinds, functions and statuses as tables */
/** @} */

#endif
