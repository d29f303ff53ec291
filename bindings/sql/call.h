/* SPDX-License-Identifier: MIT */
/** @file
 * SQL functions: what is the same in every database.
 *
 * make_sql.py writes the table of functions; call.c does what a row of it says: values of the database into the
 * frame of a library function, the call, its results out again. A database's own file turns its values into sql_value
 * and an sql_answer into its result or error. Nothing here keeps anything between two calls, so threads and parallel
 * workers need no care. Values are read and messages made by the runtime, as in the scripting languages; JSON is
 * JSON-C's, whose names do not meet with those that PostgreSQL's server exports.
 */
#ifndef FERRULE_BINDINGS_SQL_CALL_H
#define FERRULE_BINDINGS_SQL_CALL_H

#include "parts.h"
#include "script.h"

#include <stddef.h>

typedef struct json_object sql_json;

enum {
    SQL_FRAME_BYTES = 24576, /* space for arguments and results of any function; the table asserts it */
    SQL_MAXIMUM_ARGUMENTS = 64,
    SQL_MAXIMUM_LISTS = 16,
    SQL_MAXIMUM_RESULTS = 65536, /* items of a list of results */
    SQL_MAXIMUM_BLOCKS = 1000    /* of trials */
};
#define SQL_ALWAYS ((size_t)-1) /* a result that is always there */

/** What a value of the database is. */
typedef enum sql_sort {
    SQL_NULL,
    SQL_LEFT_OUT, /**< only where an argument may be left out */
    SQL_NUMBER,
    SQL_WHOLE,
    SQL_BOOL,
    SQL_TEXT,
    SQL_ITEMS, /**< an array, as JSON; the side that made it frees it */
    SQL_OTHER  /**< bytes and the like, which no function takes */
} sql_sort;

typedef struct sql_value {
    sql_sort sort;
    double number;
    int64_t whole; /**< of SQL_WHOLE and SQL_BOOL */
    const char *text;
    size_t length;
    sql_json *items;
} sql_value;

/** What an argument has to be. */
typedef enum sql_reads {
    SQL_READS_NUMBER, /**< number in the unit of the argument's name, or without a unit */
    SQL_READS_TEXT,   /**< text with a unit */
    SQL_READS_WORD,   /**< a word of a list */
    SQL_READS_WHOLE,
    SQL_READS_BOOL,
    SQL_READS_JSON, /**< a struct */
    SQL_READS_LIST  /**< a JSON array, or an array of the database */
} sql_reads;

/** What a result is. */
typedef enum sql_gives {
    SQL_GIVES_NUMBER,
    SQL_GIVES_TEXT, /**< text with a unit */
    SQL_GIVES_WORD,
    SQL_GIVES_WHOLE,
    SQL_GIVES_BOOL,
    SQL_GIVES_JSON
} sql_gives;

/** How a function is called. */
typedef enum sql_shape {
    SQL_TEXT_FORM,   /**< text with units in, text or JSON out */
    SQL_NUMBER_FORM, /**< numbers in, one figure out */
    SQL_STATUS_FORM, /**< numbers or text with units in, the name of the status out, whatever came in */
    SQL_ERROR_FORM,  /**< the same in, the message out, NULL where there is no error */
    SQL_STATUS_OF_TEXT_FORM, /**< the same for a database whose functions have types, with text */
    SQL_ERROR_OF_TEXT_FORM,
    SQL_ROWS_FORM, /**< numbers in, rows out */
    SQL_AGGREGATE_FORM,
    SQL_UNIT_READ,   /**< text to number */
    SQL_UNIT_STATUS, /**< text to the status of its reading, or to its message */
    SQL_UNIT_ERROR,
    SQL_UNIT_WRITE,
    SQL_UNIT_FROM_BASE,
    SQL_UNIT_TO_BASE
} sql_shape;

typedef struct sql_parameter {
    const char *name;
    const bind_kind *kind; /**< NULL: text */
    sql_reads reads;
    int of_item, optional;       /**< of_item: belongs to the item that an aggregate gathers */
    size_t offset, count_offset; /**< in the frame or the item; of a list: pointer and count */
} sql_parameter;

typedef struct sql_column {
    const char *name;
    const bind_kind *kind; /**< NULL: text */
    sql_gives gives;
    size_t offset, found_offset; /**< where it is, and the status that says whether it is there */
} sql_column;

/** An argument or a result of a library function in its frame. */
typedef struct sql_place {
    const char *name;
    const bind_kind *kind;
    size_t offset, count_offset; /**< count_offset 0: not a list */
} sql_place;

typedef struct sql_library {
    const char *name; /**< without the prefix */
    fer_status (*call)(void *frame, bind_stop *);
    size_t size;
    const sql_place *arguments, *results; /**< up to a name NULL */
} sql_library;

typedef struct sql_function {
    const char *name;
    const sql_library *library; /**< NULL: a function of a unit */
    sql_shape shape;
    sql_gives gives; /**< of a function that gives no rows */
    const sql_parameter *parameters;
    size_t parameter_count, required; /**< those that have to be given come first */
    const sql_column *columns;
    size_t column_count;
    const sql_place *rows;  /**< the list that gives the rows; NULL: one row */
    const sql_place *items; /**< of an aggregate: the list that it gathers */
    fer_unit unit, base;    /**< of a function of a unit */
} sql_function;

extern const sql_function sql_functions[]; /**< written by make_sql.py */
extern const size_t sql_function_count;

/** 1: every error of what was given is a value. */
static inline int sql_gives_status(const sql_function *f)
{
    return f->shape == SQL_STATUS_FORM || f->shape == SQL_STATUS_OF_TEXT_FORM || f->shape == SQL_UNIT_STATUS;
}
static inline int sql_gives_message(const sql_function *f)
{
    return f->shape == SQL_ERROR_FORM || f->shape == SQL_ERROR_OF_TEXT_FORM || f->shape == SQL_UNIT_ERROR;
}

/** Aligns what any member of a frame needs, and no more than every database's own memory is aligned to. */
typedef union sql_align {
    double number;
    int64_t whole;
    void *place;
} sql_align;

/** What came out. */
typedef struct sql_answer {
    bind_stop stop;    /**< who may stop the call; the database's part sets it before the call */
    int failed;        /**< 1: message, status and hint say why; 2: no memory */
    fer_status status; /**< FER_OK: an argument is not what is needed */
    const char *rule;  /**< name of the status, or NULL */
    char message[2000];
    sql_value value; /**< of a function that gives no rows; its text is valid until sql_done() */
    size_t row_count;
    const sql_function *function;
    const char *rows; /**< the first row: a frame, or an item of a list */
    char text[FER_TEXT_CAPACITY];
    sql_json *document;             /**< JSON that was made for this answer */
    void *lists[SQL_MAXIMUM_LISTS]; /**< lists that belong to this answer */
    size_t list_count;
    union {
        sql_align align;
        char bytes[SQL_FRAME_BYTES];
    } frame;
} sql_answer;

/** What an aggregate has gathered so far; NULL: nothing. */
typedef struct sql_gathered sql_gathered;

/** Memory of an aggregate: from old (NULL: none) to more bytes; NULL: there is none. */
typedef void *(*sql_grow)(void *context, void *old, size_t bytes);

/** One call. The answer is written on every path, and ends with sql_done(). */
void sql_call(const sql_function *function, const sql_value *arguments, size_t count, sql_answer *answer);

/** @name An array of the database as JSON
 * A number that is not finite becomes a word, which no function takes. @{ */
sql_json *sql_new_items(void);
void sql_add_number(sql_json *items, double number);
void sql_add_text(sql_json *items, const char *text, size_t length);
void sql_add_null(sql_json *items);
void sql_drop_items(sql_json *items);
/** @} */

/** A word of a list by the short way; 0: something out of the ordinary. */
static inline int sql_quick_word(const bind_kind *kind, const char *text, size_t length, void *to)
{
    for (const bind_word *word = kind->words; word->name; word++) {
        size_t i = 0;
        while (i < length && word->name[i] == (text[i] == ' ' ? '_' : text[i] & ~0x20) && text[i] != '_')
            i++;
        if (i == length && !word->name[i]) {
            *(int *)to = word->number;
            return 1;
        }
    }
    return 0;
}

/** 1: somebody asked to stop the call. */
int sql_is_stopped(sql_answer *answer);

/** The answer without memory; the texts of its values are gone. */
void sql_done(sql_answer *answer);

/** A figure of a row; SQL_NULL where it could not be computed. JSON and words: valid until the next one or sql_done(). */
sql_value sql_figure(sql_answer *answer, size_t row, size_t column);

/** One row for an aggregate. -1: it failed, and the answer says why. A row whose first figure is NULL changes nothing. */
int sql_gather(const sql_function *function, sql_gathered **gathered, const sql_value *arguments,
               size_t count, sql_grow grow, void *context, sql_answer *answer);

/** The result of an aggregate; of nothing gathered it is NULL. */
void sql_gathered_call(const sql_function *function, sql_gathered *gathered, sql_answer *answer);

/** @name Set-ups of the rows of a query
 * fer_plan_setups_rows(query, workplaces): the database's part runs the query, and gives its columns and rows here; blocks of them go
 * to fer_plan_setups(). The result's first columns are the row's number, its key, status and path; then come the figures. @{ */
enum { SQL_SETUP_ROWS = 256, SQL_SETUP_ARGUMENTS = 2, SQL_SETUP_OWN = 4 };
typedef enum sql_setup_own {
    SQL_SETUP_NUMBER,
    SQL_SETUP_KEY,
    SQL_SETUP_STATUS,
    SQL_SETUP_PATH
} sql_setup_own;

/** A column that the query may have: a number of an order. */
typedef struct sql_order_column {
    const char *name, *path;
    const bind_kind *kind;        /**< of a quantity or a word; NULL: a plain number */
    size_t member, column, bytes; /**< where it is in fer_order and fer_order_columns */
    int is_flag, blank; /**< NULL is 0; 1: an uncertainty, which is NaN where others are given; 2: NaN */
} sql_order_column;

extern const sql_order_column sql_order_columns[]; /**< written by make_sql.py */
extern const size_t sql_order_column_count;
extern const sql_function sql_plan_setups_function;

typedef struct sql_planner sql_planner;

/** A planner in one piece of memory by `grow`; NULL: it failed, and the answer says why. */
sql_planner *sql_begin_setups(const sql_value *workplaces, sql_grow grow, void *context, sql_answer *answer);

/** A column of the query, in their order; -1: there is no such column, or it stands twice. */
int sql_setups_column(sql_planner *planner, const char *name, sql_answer *answer);

/** Which column of the query is the key; -1: none. */
int sql_setups_key(const sql_planner *planner);

/** A value of the row that is being read, and the end of the row. A value that cannot be read is an error of its row. */
void sql_setups_value(sql_planner *planner, size_t column, const sql_value *value);
void sql_setups_row(sql_planner *planner);

/** The rows that were read become set-ups; how many there are. Then rows are read from the first again. */
size_t sql_plan_block(sql_planner *planner);

/** A figure of a row of the block, as sql_figure(); the key is the database's. */
sql_value sql_setups_figure(sql_planner *planner, size_t row, size_t column, sql_answer *answer);
/** @} */

#endif
