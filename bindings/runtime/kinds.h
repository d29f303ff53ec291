/* SPDX-License-Identifier: MIT */
/** @file
 * What the bindings know of the public types: one table, the same for every language.
 *
 * describe.py writes the table of structs and enums out of the headers; units, text and statuses come from the
 * lists in the headers themselves (kinds.c).
 */
#ifndef FERRULE_BINDINGS_KINDS_H
#define FERRULE_BINDINGS_KINDS_H

#include <ferrule/ferrule.h>

/** How a value is kept and passed. */
typedef enum bind_form {
    BIND_QUANTITY, /**< one double with a unit */
    BIND_STRUCT,   /**< members */
    BIND_FOUND,    /**< members value and status: the value may not be there */
    BIND_SET,      /**< uint64_t bits, one per word of an enum */
    BIND_ENUM,     /**< words */
    BIND_BOOL,     /**< int, 0 or 1 */
    BIND_INTEGER,  /**< any other integer */
    BIND_NUMBER    /**< double without a unit */
} bind_form;

typedef struct bind_kind bind_kind;

/** A member of a struct. */
typedef struct bind_member {
    const char *name, *text; /**< name, comment */
    const bind_kind *kind;   /**< its kind */
    size_t offset;           /**< bytes from the beginning of the struct */
    size_t count;            /**< elements of an array; 0: not an array */
    int optional;            /**< 1: may be left out, 0 has a meaning */
} bind_member;

/** A word of an enum. */
typedef struct bind_word {
    const char *name, *text; /**< name without its prefix, comment */
    int number;              /**< its number */
} bind_word;

/** A function that says something about each word of an enum. */
typedef struct bind_reader {
    const char *name, *function; /**< what it says, such as "sentence"; its name without the prefix */
} bind_reader;

struct bind_kind {
    const char *name, *text;    /**< name in CapWords, comment */
    bind_form form;             /**< how it is kept */
    size_t size;                /**< bytes */
    int is_signed;              /**< of an integer */
    const bind_member *members; /**< of a struct, up to a name NULL */
    const bind_word *words;     /**< of an enum, up to a name NULL */
    const bind_reader *readers; /**< of an enum, up to a name NULL */
    const bind_kind *element;   /**< of a set: the enum */
};

/** Unit of a quantity. */
typedef struct bind_unit {
    const char *name, *symbols; /**< name in the functions; symbols in text, a space or a zero byte between */
    size_t symbols_size;        /**< bytes of the symbols with the closing zero */
    const bind_kind *kind;      /**< kind of quantity */
    double (*make)(double);     /**< number in the unit to base number */
    double (*read)(double);     /**< base number to number in the unit */
    int has_zero;               /**< 1: a scale with a zero of its own: no sums, no multiples */
} bind_unit;

/** Text of a quantity. */
typedef struct bind_text {
    fer_status (*parse)(const char *text, size_t length, double *base, size_t *stop);
    fer_status (*parse_comma)(const char *text, size_t length, double *base, size_t *stop);
    fer_status (*format)(double base, fer_unit unit, int decimals, char *text, size_t capacity,
                         size_t *length);
    fer_unit base; /**< unit of the base number */
} bind_text;

/** A status. */
typedef struct bind_status {
    const char *name, *sentence;
    fer_status status;
} bind_status;

#include "kinds_list.h" /* BIND_fer_length, ..., BIND_COUNT: numbers of the kinds, written by describe.py */

extern const bind_kind bind_kinds[BIND_COUNT];
extern const bind_text bind_texts[BIND_COUNT];
extern const bind_unit bind_units[FER_UNIT_COUNT];
extern const bind_status bind_statuses[];
extern const size_t bind_status_count;

fer_unit bind_shown_unit(const bind_kind *kind); /**< unit in which a quantity of this kind is written */
int bind_find_unit(const bind_kind *kind, const char *text); /**< by name or symbol; -1: none */
const bind_word *bind_find_word(const bind_kind *kind, const char *text, size_t length); /**< NULL: none */
void bind_store_integer(const bind_kind *kind, uint64_t number, void *to);
int bind_is_there(const bind_kind *found, const void *from); /**< 1: what was looked for was found */
void bind_clear(const bind_kind *kind, void *to); /**< what the library writes where there is no value */

/** 1: the first member stands for the whole, since the others may be left out and it cannot be mistaken for one. */
int bind_is_shorthand(const bind_kind *kind);

#endif
