/* SPDX-License-Identifier: MIT */
/* Lists and columns: a call in bulk has in each row the bits of the call in the singular, the same rows in parts give the
 * same, results may take the place of inputs, and the order of a list does not matter where the manual says so. */
#include "frame.h"

#include <float.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#define PROMISE(condition) FUZZ_REQUIRE(condition, frame->call->name)

static const void *argument(const fuzz_frame *frame, const char *name)
{
    return frame->at[fuzz_place(frame->call, name)];
}

/* ---- columns ---------------------------------------------------------------------------------------------- */

/* The number in a row of a column of lengths or ratios, which look alike. */
static double in_row(const fer_length_column *column, size_t row)
{
    const ptrdiff_t step = column->step ? column->step : (ptrdiff_t)sizeof(double);
    double number = 0.0;
    if (column->first) {
        memcpy(&number, (const char *)column->first + (column->same ? 0 : step * (ptrdiff_t)row),
               sizeof number);
    }
    return number;
}

static double row_of(const fuzz_frame *frame, const char *name, size_t row)
{
    fer_length_column column;
    memcpy(&column, argument(frame, name), sizeof column);
    return in_row(&column, row);
}

static fer_joint joint_of(const fuzz_frame *frame, const char *name, size_t row)
{
    const fer_joint_columns *const c = argument(frame, name);
    const fer_joint joint = {{{in_row(&c->hose_inside, row)},
                              {in_row(&c->hose_outside, row)},
                              {in_row(&c->hose_reinforcement, row)}},
                             {{in_row(&c->stem_outside, row)}, {in_row(&c->stem_bore, row)}},
                             {{in_row(&c->ferrule_wall, row)},
                              {in_row(&c->ferrule_outside, row)},
                              {in_row(&c->ferrule_length, row)}}};
    return joint;
}

/* Ends where a row is not what the call in the singular gave. */
static void compare(const fuzz_frame *frame, const char *results, size_t row, fer_status status,
                    const void *single)
{
    const fuzz_parameter *p = frame->call->parameters;
    while (strcmp(p->name, results) != 0) {
        p++;
    }
    const uint16_t *const statuses = argument(frame, "statuses");
    const char *const found = argument(frame, results);
    PROMISE(!statuses || statuses[row] == status);
    PROMISE(fuzz_is_equal(p->kind, found + row * p->kind->size, single));
}

static void crimp_diameters_row(const fuzz_frame *frame, size_t row)
{
    const fer_joint joint = joint_of(frame, "joints", row);
    const fer_ratio compression = {row_of(frame, "compressions", row)};
    fer_length diameter;
    const fer_status status =
        fer_crimp_diameter(&joint, compression, *(const fer_model *)argument(frame, "model"), &diameter);
    compare(frame, "diameters", row, status, &diameter);
}

static void compressions_row(const fuzz_frame *frame, size_t row)
{
    const fer_joint joint = joint_of(frame, "joints", row);
    fer_ratio compression;
    const fer_status status = fer_compression(&joint, fer_mm(row_of(frame, "diameters", row)),
                                              *(const fer_model *)argument(frame, "model"), &compression);
    compare(frame, "compressions", row, status, &compression);
}

static void crimp_windows_row(const fuzz_frame *frame, size_t row)
{
    const fer_joint joint = joint_of(frame, "joints", row);
    const fer_ratio_range range = {{row_of(frame, "lower", row)}, {row_of(frame, "upper", row)}};
    fer_length_range window;
    const fer_status status =
        fer_crimp_window(&joint, range, *(const fer_model *)argument(frame, "model"), &window);
    compare(frame, "windows", row, status, &window);
}

static void lobe_heights_row(const fuzz_frame *frame, size_t row)
{
    fer_length height;
    const fer_status status =
        fer_lobe_height(fer_mm(row_of(frame, "diameters", row)), fer_mm(row_of(frame, "die_sizes", row)),
                        *(const int *)argument(frame, "segments"), &height);
    compare(frame, "heights", row, status, &height);
}

static void choose_dies_row(const fuzz_frame *frame, size_t row)
{
    fer_die_choice choice;
    const fer_status status = fer_choose_die(
        argument(frame, "dies"), frame->counts[fuzz_place(frame->call, "dies")],
        fer_mm(row_of(frame, "targets", row)), *(const fer_die_needs *)argument(frame, "needs"), &choice);
    compare(frame, "choices", row, status, &choice);
}

static void dial_settings_row(const fuzz_frame *frame, size_t row)
{
    const fer_die die = {.size = {row_of(frame, "die_sizes", row)}};
    fer_dial dial;
    const fer_status status =
        fer_dial_setting(argument(frame, "press"), &die, fer_mm(row_of(frame, "targets", row)), &dial);
    compare(frame, "dials", row, status, &dial);
}

static void conforming_shares_row(const fuzz_frame *frame, size_t row)
{
    const fer_joint joint = joint_of(frame, "joints", row);
    fer_shares shares;
    const fer_status status = fer_conforming_share(&joint, argument(frame, "uncertainties"),
                                                   *(const fer_ratio_range *)argument(frame, "range"),
                                                   fer_mm(row_of(frame, "diameters", row)), &shares);
    compare(frame, "shares", row, status, &shares);
}

static void judge_values_row(const fuzz_frame *frame, size_t row)
{
    const fer_length_range limits = {{row_of(frame, "lower", row)}, {row_of(frame, "upper", row)}};
    fer_verdict verdict;
    const fer_status status =
        fer_judge(fer_mm(row_of(frame, "values", row)), fer_mm(row_of(frame, "standard_uncertainties", row)),
                  limits, *(const fer_guard *)argument(frame, "guard"),
                  *(const fer_process *)argument(frame, "process"), &verdict);
    compare(frame, "verdicts", row, status, &verdict);
}

static void form_ferrules_row(const fuzz_frame *frame, size_t row)
{
    const fer_joint joint = joint_of(frame, "ferrules", row);
    fer_forming forming;
    const fer_status status =
        fer_form_ferrule(&joint.ferrule, fer_mm(row_of(frame, "diameters", row)), argument(frame, "material"),
                         *(const fer_forming_load *)argument(frame, "load"), &forming);
    compare(frame, "formings", row, status, &forming);
}

/* ---- the same rows once more ------------------------------------------------------------------------------ */

/* A call in bulk with other rows or places than that of the frame, whose arguments it shares. */
typedef struct {
    void *at[FUZZ_PARAMETERS + 1];
    size_t rows, failed, column_count;
    fer_length_column *columns[FUZZ_PARAMETERS];
} again;

static size_t size_of_row(const fuzz_parameter *p)
{
    return p->role == FUZZ_ROW_RESULT ? p->kind->size : 0;
}

static void begin_again(const fuzz_frame *frame, again *other, size_t rows)
{
    memcpy(other->at, frame->at, sizeof other->at);
    other->rows = rows;
    other->column_count = 0;
    for (const fuzz_parameter *p = frame->call->parameters; p->role; p++) {
        if (p->role == FUZZ_ROWS) {
            other->at[p->place] = &other->rows;
        } else if (size_of_row(p) && frame->at[p->place]) {
            other->at[p->place] = fuzz_take(rows * size_of_row(p));
        } else if (p->role == FUZZ_COLUMNS || p->role == FUZZ_COLUMNS_POINTER) {
            char *const copy = other->at[p->place] = fuzz_take(p->columns_size);
            memcpy(copy, frame->at[p->place], p->columns_size);
            for (const fuzz_column *column = p->columns; column->kind; column++) {
                PROMISE(other->column_count < FUZZ_PARAMETERS);
                other->columns[other->column_count++] = (fer_length_column *)(void *)(copy + column->offset);
            }
        }
    }
}

static ptrdiff_t step_of(const fer_length_column *column)
{
    return column->same ? 0 : column->step ? column->step : (ptrdiff_t)sizeof(double);
}

/* Calls; what comes out are the rows of the frame from start on. */
static void call_again(const fuzz_frame *frame, again *other, size_t start)
{
    int status = FER_OK;
    frame->call->run(other->at, &status, &other->failed, &(const char *){NULL});
    for (const fuzz_parameter *p = frame->call->parameters; p->role; p++) {
        const char *const results = size_of_row(p) ? other->at[p->place] : NULL;
        for (size_t i = 0; results && i < other->rows; i++) {
            PROMISE(fuzz_is_equal(p->kind, results + i * p->kind->size,
                                  (const char *)frame->at[p->place] + (start + i) * p->kind->size));
        }
    }
}

static void end_again(const fuzz_frame *frame, again *other)
{
    for (const fuzz_parameter *p = frame->call->parameters; p->role; p++) {
        if (size_of_row(p)) {
            fuzz_give_back(other->at[p->place], other->rows * size_of_row(p), frame->call->name);
        } else if (p->role == FUZZ_COLUMNS || p->role == FUZZ_COLUMNS_POINTER) {
            fuzz_give_back(other->at[p->place], p->columns_size, frame->call->name);
        }
    }
}

/* In parts, as threads may share them out; few rows take other instructions than many. */
static void check_parts(const fuzz_frame *frame)
{
    const size_t maximum = frame->rows > 1000 ? 999 : frame->rows / 2 + 1;
    size_t failed = 0;
    for (size_t start = 0; start < frame->rows; start += maximum) {
        again part;
        begin_again(frame, &part, frame->rows - start < maximum ? frame->rows - start : maximum);
        for (size_t i = 0; i < part.column_count; i++) {
            fer_length_column *const column = part.columns[i];
            if (column->first && start) {
                const char *const first = (const char *)column->first;
                column->first =
                    (const fer_length *)(const void *)(first + (ptrdiff_t)start * step_of(column));
            }
        }
        call_again(frame, &part, start);
        failed += part.failed;
        end_again(frame, &part);
    }
    PROMISE(failed == frame->failed);
}

/* A column whose rows are as far apart as the results, if there is one. */
static fer_length_column *replaceable(const again *other, size_t size, size_t choice)
{
    for (size_t i = 0; i < other->column_count; i++) {
        fer_length_column *const column = other->columns[(choice + i) % other->column_count];
        if (column->first && step_of(column) == (ptrdiff_t)size) {
            return column;
        }
    }
    return NULL;
}

/* Results in the place of the inputs of their rows. */
static void check_in_place(const fuzz_frame *frame)
{
    const fuzz_parameter *p = frame->call->parameters;
    while (p->role != FUZZ_ROW_RESULT || p->may_be_null) {
        p++;
    }
    again other;
    begin_again(frame, &other, frame->rows);
    fer_length_column *const column = replaceable(&other, size_of_row(p), frame->rows);
    char *const place = other.at[p->place];
    if (column && place) {
        for (size_t i = 0; i < frame->rows; i++) {
            memcpy(place + i * size_of_row(p), (const char *)column->first + i * size_of_row(p),
                   sizeof(double));
        }
        column->first = (const fer_length *)(const void *)place;
        call_again(frame, &other, 0);
        PROMISE(other.failed == frame->failed);
    }
    end_again(frame, &other);
}

/* ---- one row among others ---------------------------------------------------------------------------------- */

/* The results of a call in bulk and of what status its rows are. */
typedef struct {
    const fuzz_parameter *result;
    const uint16_t *statuses;
} outcome;

static outcome outcome_of(const fuzz_frame *frame)
{
    outcome found = {NULL, NULL};
    for (const fuzz_parameter *p = frame->call->parameters; p->role; p++) {
        if (p->role == FUZZ_ROW_RESULT && p->may_be_null) {
            found.statuses = frame->at[p->place];
        } else if (p->role == FUZZ_ROW_RESULT) {
            found.result = p;
        }
    }
    return found;
}

/* A row that is right (or wrong); the number of rows: there is none. */
static size_t find_row(const fuzz_frame *frame, const uint16_t *statuses, int wrong)
{
    size_t row = 0;
    while (row < frame->rows && (statuses[row] != FER_OK) != wrong) {
        row++;
    }
    return row;
}

/* Columns of `rows` rows that are all as one of the frame, but for the one at `place`. */
static void fill_columns(const again *other, size_t usual, size_t lone, size_t place)
{
    for (size_t i = 0; i < other->column_count; i++) {
        fer_length_column *const column = other->columns[i];
        if (column->first && !column->same) {
            double *const numbers = fuzz_take(other->rows * sizeof(double));
            for (size_t row = 0; row < other->rows; row++) {
                numbers[row] = in_row(column, row == place ? lone : usual);
            }
            column->first = (const fer_length *)(const void *)numbers;
            column->step = 0;
        }
    }
}

static void drop_columns(const fuzz_frame *frame, const again *other)
{
    for (size_t i = 0; i < other->column_count; i++) {
        if (other->columns[i]->first && !other->columns[i]->same) {
            fuzz_give_back((void *)(uintptr_t)other->columns[i]->first, other->rows * sizeof(double),
                           frame->call->name);
        }
    }
}

static void check_lone_row_at(const fuzz_frame *frame, size_t rows, size_t usual, size_t lone, size_t place)
{
    const outcome were = outcome_of(frame);
    const size_t size = were.result->kind->size;
    again other;
    begin_again(frame, &other, rows);
    fill_columns(&other, usual, lone, place);
    int status = FER_OK;
    frame->call->run(other.at, &status, &other.failed, &(const char *){NULL});
    const char *const before = frame->at[were.result->place], *const results = other.at[were.result->place];
    for (size_t row = 0; row < rows; row++) {
        PROMISE(fuzz_is_equal(were.result->kind, results + row * size,
                              before + (row == place ? lone : usual) * size));
    }
    PROMISE(other.failed ==
            (were.statuses[usual] != FER_OK ? rows - 1 : 0) + (were.statuses[lone] != FER_OK ? 1 : 0));
    drop_columns(frame, &other);
    end_again(frame, &other);
}

/* One wrong row among right ones, or the other way round, at the ends of blocks and elsewhere; sometimes of so many rows that
 * other instructions are taken. */
static void check_lone_row(const fuzz_frame *frame)
{
    const outcome were = outcome_of(frame);
    const int are_many = frame->rows > 2000 || frame->rows % 4 == 3;
    const size_t rows = (are_many ? 16384 : 128) + 172, places[] = {127, 128, rows - 1, 0, 255, 256};
    const size_t right = were.statuses ? find_row(frame, were.statuses, 0) : frame->rows,
                 wrong = were.statuses ? find_row(frame, were.statuses, 1) : frame->rows;
    if (right < frame->rows && wrong < frame->rows) {
        for (size_t i = 0; i < (are_many ? 2 : sizeof places / sizeof *places); i++) {
            check_lone_row_at(frame, rows, right, wrong, places[i]);
        }
        check_lone_row_at(frame, rows, wrong, right, places[frame->rows % 6]);
    }
}

/* ---- order ------------------------------------------------------------------------------------------------ */

static void *turned(const fuzz_frame *frame, const char *list, size_t size)
{
    const size_t count = frame->counts[fuzz_place(frame->call, list)];
    const char *const from = argument(frame, list);
    char *const to = malloc(count * size + 1);
    PROMISE(to);
    for (size_t i = 0; i < count; i++) {
        memcpy(to + i * size, from + (count - 1 - i) * size, size);
    }
    return to;
}

static void turn_choose_die(const fuzz_frame *frame)
{
    const fer_die_choice *const choice = argument(frame, "choice");
    fer_die *const dies = turned(frame, "dies", sizeof *dies);
    fer_die_choice other;
    PROMISE(fer_choose_die(dies, frame->counts[0], *(const fer_length *)argument(frame, "target"),
                           *(const fer_die_needs *)argument(frame, "needs"), &other) == FER_OK);
    PROMISE(other.found == choice->found && other.die.size.mm == choice->die.size.mm);
    PROMISE(other.adapter_change == choice->adapter_change && other.nearest_found == choice->nearest_found);
    free(dies);
}

static void turn_find_coverage_gaps(const fuzz_frame *frame)
{
    const size_t place = fuzz_place(frame->call, "gaps");
    fer_die *const dies = turned(frame, "dies", sizeof *dies);
    fer_length_range *const gaps = malloc((frame->counts[0] + 1) * sizeof *gaps);
    size_t found, before;
    memcpy(&before, frame->at[place + 2], sizeof before);
    PROMISE(gaps);
    PROMISE(fer_find_coverage_gaps(dies, frame->counts[0], *(const fer_length_range *)argument(frame, "over"),
                                   gaps, frame->counts[0] + 1, &found) == FER_OK);
    PROMISE(found == before && (found == 0 || memcmp(gaps, frame->at[place], found * sizeof *gaps) == 0));
    free(dies);
    free(gaps);
}

static void turn_summarise_readings(const fuzz_frame *frame)
{
    const fer_reading_summary *const s = argument(frame, "summary");
    fer_reading *const readings = turned(frame, "readings", sizeof *readings);
    fer_reading_summary other;
    PROMISE(fer_summarise_readings(readings, frame->counts[0], argument(frame, "gauge"),
                                   *(const fer_marks *)argument(frame, "marks"), &other) == FER_OK);
    PROMISE(other.count == s->count && other.missing == s->missing && other.over_gaps == s->over_gaps);
    PROMISE(other.minimum.mm == s->minimum.mm && other.maximum.mm == s->maximum.mm &&
            other.range.mm == s->range.mm);
    PROMISE(fabs(other.mean.mm - s->mean.mm) <= 8.0 * DBL_EPSILON * s->maximum.mm);
    PROMISE(other.sections == s->sections && other.taper.status == s->taper.status);
    free(readings);
}

/* Of few rows each, of many some. */
static size_t next_row(size_t rows, size_t row)
{
    return rows < 300 || row + 3 > rows ? 1 : 1 + (row * 31 + rows) % (rows / 32);
}

void fuzz_check_rows(const fuzz_frame *frame)
{
    static const struct {
        const char *function;
        void (*row)(const fuzz_frame *frame, size_t row);
        void (*turn)(const fuzz_frame *frame);
    } checks[] = {{"crimp_diameters", crimp_diameters_row, NULL},
                  {"compressions", compressions_row, NULL},
                  {"crimp_windows", crimp_windows_row, NULL},
                  {"lobe_heights", lobe_heights_row, NULL},
                  {"choose_dies", choose_dies_row, NULL},
                  {"dial_settings", dial_settings_row, NULL},
                  {"conforming_shares", conforming_shares_row, NULL},
                  {"judge_values", judge_values_row, NULL},
                  {"form_ferrules", form_ferrules_row, NULL},
                  {"choose_die", NULL, turn_choose_die},
                  {"find_coverage_gaps", NULL, turn_find_coverage_gaps},
                  {"summarise_readings", NULL, turn_summarise_readings}};
    for (size_t i = 0; i < sizeof checks / sizeof *checks; i++) {
        if (strcmp(checks[i].function, frame->call->name) == 0) {
            for (size_t row = 0; checks[i].row && row < frame->rows; row += next_row(frame->rows, row)) {
                checks[i].row(frame, row);
            }
            if (checks[i].row) {
                check_parts(frame);
                check_in_place(frame);
            }
            if (fuzz_goes_by_blocks(frame->call)) {
                check_lone_row(frame);
            }
            if (checks[i].turn) {
                checks[i].turn(frame);
            }
        }
    }
}
