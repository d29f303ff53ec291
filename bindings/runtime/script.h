/* SPDX-License-Identifier: MIT */
/** @file
 * Values of a language and the C structs: what is the same in all of them.
 *
 * A language gives the functions host_... (how it keeps text, numbers, lists and tables); the rest goes by the table of
 * kinds: take.c reads arguments and refuses them, say.c writes values and messages, fail.c makes errors of statuses,
 * quantity.c computes with quantities, give.c makes results out of lists and tables. Python, whose types hold the C values
 * themselves, makes its own results.
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

/** Text that is written piece by piece; what does not fit is counted in `used` and left out. */
typedef struct bind_writer {
    char *text;
    size_t capacity, used;
} bind_writer;

/** What is wrong with an argument, where no status says it. */
typedef enum bind_fault {
    BIND_WRONG_TYPE,  /**< a value of another kind */
    BIND_WRONG_RANGE, /**< a whole number that the argument cannot hold */
    BIND_WRONG_VALUE  /**< right in kind, wrong in length or content */
} bind_fault;

/** Why a call is refused, and which field is at fault. */
typedef struct bind_failure {
    fer_status status;       /**< FER_OK: an argument is not of the kind that is needed */
    bind_fault fault;        /**< where the status is FER_OK */
    const char *function;    /**< name of the function, or what else was called */
    char path[256];          /**< the field at fault, such as "joint.hose.outside"; "": none alone */
    bind_object object;      /**< its value, as it was given; NULL: `value` */
    const bind_kind *kind;   /**< of `value`; NULL: none */
    const void *value;       /**< its value, where a status is about a member of what was given */
    const fer_fault *faults; /**< all faults of the order, joint, press and dies that were given */
    size_t fault_count;
    int is_one_die;     /**< 1: there is no rack, and faults of a die are those of the argument `die` */
    bind_writer out;    /**< writes into `message` */
    char message[8000]; /**< function, path, value and rule, in UTF-8 */
} bind_failure;

/** How a value is written in messages. */
typedef struct bind_style {
    const char *open, *sign, *close;       /**< of a struct, whose name is %s: "%s(", "=", ")" */
    const char *list[2], *one;             /**< round a list; its end where it has one item */
    const char *set[2];                    /**< round a set */
    const char *quote;                     /**< round quantities and words */
    const char *words[2];                  /**< false, true */
    void (*number)(bind_writer *, double); /**< a number without a unit */
    void (*none)(bind_writer *, const bind_kind *, double); /**< a quantity whose number is not finite */
} bind_style;

extern const bind_style bind_plain_style; /**< {inside: 12.7 mm, outside: 19.9 mm} */

/** What a language is like. */
typedef struct bind_language {
    int first_place;     /**< number of the first item of a list in messages */
    int values_are_text; /**< 1: the language has no objects, a quantity is its text */
    int has_unsigned;    /**< 0: whole numbers of 64 bits are signed, and these go by their bits */
    int missing_has_status; /**< 1: a member that is not there is an error of a status, not of the kind of the argument */
    int lists_faults;  /**< 1: errors have all faults, not the one of the status alone */
    int names_needed;  /**< 1: messages name the members that a struct needs, 0: all */
    const char *maker; /**< how to make a quantity of a unit (%1$s) and a number (%2$s); NULL: by text only */
    const char *wanted[2]; /**< what a struct (%s) is made of, before and after the names of its members */
    const bind_style *style;
    /** Writes a value that is at fault; 0: its type says enough. NULL: by host_text() and host_number(). */
    int (*show)(bind_host *, bind_object, bind_writer *);
    /** A quantity of somebody else's into its base number; 0: it is none. NULL: there are none. */
    int (*convert)(bind_host *, const bind_kind *, bind_object, double *base);
    /** 1: a value that says of a quantity that it is not there, such as None. NULL: there are none. */
    int (*is_absent)(bind_host *, bind_object);
    /** 1: an error of the language itself is under way, which stays as it is. NULL: there are none. */
    int (*is_raised)(bind_host *);
} bind_language;

/** @name What a language gives
 * A value that is looked at belongs to the caller or to what holds it. host_drop() comes after host_item() and
 * host_member(), in the opposite order, and ends what was taken since as well; where something fails it does not come: what
 * is left then ends when host_fail() was called. A value that is made is handed on once, to host_put... or as a result.
 * @{ */
extern const bind_language host_language;

int host_is_nothing(bind_host *, bind_object);
const bind_kind *host_kind(bind_host *,
                           bind_object); /**< of a quantity or struct of ours; NULL: something else */
/** Copies a value of ours; 0: it is of another kind, or a struct that is read by its members. */
int host_value(bind_host *, const bind_kind *, bind_object, void *to);
const char *host_text(bind_host *, bind_object, size_t *length); /**< UTF-8; NULL: not text */
int host_number(bind_host *, bind_object, double *); /**< 0: not a number; a value of ours is none */
/** 0: not a whole number; 1: in int64_t, its bits; 2: above, in uint64_t; -1: too large. */
int host_integer(bind_host *, bind_object, uint64_t *);
int host_bool(bind_host *, bind_object, int *); /**< 0: neither true nor false */
/** 0: not a list, or not for a struct. May put into its place the list that host_item() is to look at. */
int host_list(bind_host *, bind_object *, int is_struct, size_t *count);
bind_object host_item(bind_host *, bind_object, size_t place);
int host_table(bind_host *, bind_object,
               const bind_kind *); /**< 0: nothing with names to be read as this kind */
bind_object host_member(bind_host *, bind_object, const bind_kind *, size_t place); /**< NULL: not there */
/** A name that is no member, as what is shown; 0: none; -1: none, though there is more than the `found` members. */
int host_stranger(bind_host *, bind_object, const bind_kind *, size_t found, char *name, size_t capacity);
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
/** A quantity from text whose decimal sign is "," or ".": only the caller can know that. */
int bind_take_text(bind_host *, const bind_kind *, bind_object text, const char *decimal, double *to);
/** A struct of members by place and by name, each may be NULL. With `changes` what is not given stays as it is. */
int bind_take_members(bind_host *, const bind_kind *, bind_object list, bind_object table, int changes,
                      void *to);
bind_object bind_give(bind_host *, const bind_kind *, const void *from);
bind_object bind_give_list(bind_host *, const bind_kind *, const void *from, size_t count);
void bind_raise(bind_host *, const char *function, fer_status, const bind_object *arguments, size_t count);
void bind_refuse_count(bind_host *, const char *function, size_t given);
void bind_refuse_text(bind_host *, const char *function, const char *argument, bind_object);
/** @} */

/** @name Of kinds, statuses and text
 * @{ */
int64_t bind_integer(const bind_kind *,
                     const void *from); /**< of whatever size; unsigned ones as their bits */
const char *bind_word_of(const bind_kind *, int number);
int bind_is_member(const bind_kind *, const char *name, size_t length);
const bind_status *bind_find_status(fer_status);
/** "joint.hose.outside", "dies[3].size", or "die.size" where there is one. */
void bind_write_fault_path(bind_writer *, const fer_fault *, int is_one_die);
const char *bind_status_name(fer_status);
/** First word of a status in CapWords, the class of errors; "Type" where there is no status. */
void bind_error_class(const bind_failure *, char *name, size_t capacity);
void bind_put(bind_writer *, const char *text);
void bind_write(bind_writer *, const char *form, ...);
void bind_write_value(bind_writer *, const bind_style *, const bind_kind *, const void *from);
/** A quantity in text; its result is that of the library, where a number that is not finite is written as nan or inf. */
fer_status bind_write_quantity(bind_writer *, const bind_kind *, double base, int unit, int decimals);
/** ".2f in", ".1/64 in": decimals or a fraction, and unit, each may be left out. 0: something else, which `out` says. */
int bind_read_form(bind_writer *out, const bind_kind *, const char *form, int *decimals, int *unit);
void bind_refuse_unit(bind_writer *out, const bind_kind *, const char *unit);
int bind_is_amount(
    const bind_kind *); /**< 0: a point on a scale, such as a temperature: no sums and multiples */
/** a + b and so on; a kind NULL is a number without a unit. 0: there is no such sum, product, ... */
int bind_combine(const bind_kind *a, double left, char operation, const bind_kind *b, double right,
                 const bind_kind **kind, double *base);
/** @} */

/** @name What every language has besides the library's functions
 * @{ */
bind_object bind_make(bind_host *, const char *kind,
                      bind_object from); /**< from anything that is taken for it */
bind_object bind_parsed(bind_host *, const char *kind, bind_object text,
                        const char *decimal); /**< text of a quantity whose decimal sign is "," or "." */
bind_object bind_written(bind_host *, bind_object value,
                         const char *form); /**< form: ".2f in", each part may lack */
bind_object bind_number(bind_host *, bind_object quantity, const char *unit);
bind_object bind_compute(bind_host *, bind_object left, const char *operation,
                         bind_object right); /**< + - * / <=> */
bind_object bind_describe(bind_host *);      /**< kinds, functions and statuses as tables */
/** @} */

#endif
