/* SPDX-License-Identifier: MIT */
/* The functions of other modules over columns of rows.
 * Method: row by row, or in blocks where the plain formula allows it (bulk/plain_rows.c).
 * Formulas: those of the modules; include/ferrule/bulk.h; docs/bulk.md. */
#include <ferrule/bulk.h>

#include <ferrule/lobe.h>

#include "crimp/die_private.h"
#include "crimp/uncertainties_private.h"
#include "base/value_private.h"
#include "bulk/plain_rows.h"

#include <assert.h>
#include <stdalign.h>
#include <string.h>

/* Columns and results are arrays of doubles here, whatever their quantity. */
static_assert(sizeof(fer_length) == sizeof(double) && sizeof(fer_ratio) == sizeof(double),
              "one double inside");
static_assert(sizeof(fer_joint) == 8 * sizeof(double), "a joint is eight doubles");

/* ---- columns -------------------------------------------------------------------------------------------- */

typedef struct {
    const char *first; /* NULL: every row is 0 */
    ptrdiff_t step;    /* 0: every row is the first */
} column;

static column column_of(const void *first, ptrdiff_t step, int same)
{
    const column c = {(const char *)first, same ? 0 : step == 0 ? (ptrdiff_t)sizeof(double) : step};
    return c;
}

static column lengths(fer_length_column given)
{
    return column_of(given.first, given.step, given.same);
}

static column ratios(fer_ratio_column given)
{
    return column_of(given.first, given.step, given.same);
}

/* A row of a column, at any address. */
static inline double row_of(column c, size_t row)
{
    double number = 0.0;
    if (c.first) {
        memcpy(&number, c.first + (ptrdiff_t)row * c.step, sizeof number);
    }
    return number;
}

static int is_zero(column c)
{
    return !c.first || (c.step == 0 && row_of(c, 0) == 0.0);
}

fer_joint_columns fer_columns_of_joints(const fer_joint *joints)
{
    const ptrdiff_t step = (ptrdiff_t)sizeof(fer_joint);
    const fer_joint_columns columns = {
        {joints ? &joints->hose.inside : NULL, step, 0},
        {joints ? &joints->hose.outside : NULL, step, 0},
        {joints ? &joints->stem.outside : NULL, step, 0},
        {joints ? &joints->ferrule.wall : NULL, step, 0},
        {joints ? &joints->ferrule.outside : NULL, step, 0},
        {joints ? &joints->hose.reinforcement : NULL, step, 0},
        {joints ? &joints->stem.bore : NULL, step, 0},
        {joints ? &joints->ferrule.length : NULL, step, 0},
    };
    return columns;
}

/* The columns of a joint in the order of fer_joint_columns. */
enum {
    hose_inside,
    hose_outside,
    stem_outside,
    ferrule_wall,
    ferrule_outside,
    layer,
    stem_bore,
    length,
    joint_count
};

static void list_columns(const fer_joint_columns *joints, column list[joint_count])
{
    list[hose_inside] = lengths(joints->hose_inside);
    list[hose_outside] = lengths(joints->hose_outside);
    list[stem_outside] = lengths(joints->stem_outside);
    list[ferrule_wall] = lengths(joints->ferrule_wall);
    list[ferrule_outside] = lengths(joints->ferrule_outside);
    list[layer] = lengths(joints->hose_reinforcement);
    list[stem_bore] = lengths(joints->stem_bore);
    list[length] = lengths(joints->ferrule_length);
}

static fer_joint joint_of(const column list[joint_count], size_t row)
{
    fer_joint joint;
    joint.hose.inside.mm = row_of(list[hose_inside], row);
    joint.hose.outside.mm = row_of(list[hose_outside], row);
    joint.hose.reinforcement.mm = row_of(list[layer], row);
    joint.stem.outside.mm = row_of(list[stem_outside], row);
    joint.stem.bore.mm = row_of(list[stem_bore], row);
    joint.ferrule.wall.mm = row_of(list[ferrule_wall], row);
    joint.ferrule.outside.mm = row_of(list[ferrule_outside], row);
    joint.ferrule.length.mm = row_of(list[length], row);
    return joint;
}

/* ---- any function, row by row --------------------------------------------------------------------------- */

/* What the rows of a call have in common; a function looks at the members that it knows. */
typedef struct {
    int has_joints;
    column joint[joint_count], input[4];
    const void *first, *second; /* structs that count for every row */
    size_t count;
    fer_model model;
    fer_ratio_range range;
    void *results;
} work;

typedef fer_status row_function(const work *all, size_t row);

static size_t note(fer_row_status *statuses, size_t row, fer_status status)
{
    if (statuses) {
        statuses[row] = (fer_row_status)status;
    }
    return status != FER_OK;
}

static size_t run_rows(size_t rows, row_function *function, const work *all, fer_row_status *statuses)
{
    size_t failed = 0;
    for (size_t row = 0; row < rows; row++) {
        failed += note(statuses, row, function(all, row));
    }
    return failed;
}

static work work_on(const fer_joint_columns *joints, void *results)
{
    work all = {0};
    if (joints) {
        all.has_joints = 1;
        list_columns(joints, all.joint);
    }
    all.results = results;
    return all;
}

static fer_length length_at(const work *all, size_t input, size_t row)
{
    const fer_length here = {row_of(all->input[input], row)};
    return here;
}

static fer_ratio ratio_at(const work *all, size_t input, size_t row)
{
    const fer_ratio here = {row_of(all->input[input], row)};
    return here;
}

/* The place of a row's result of a type; NULL where the call gave no place for results. */
/* What a function needs besides the columns. */
#define FIRST(type, all)       ((const type *)(all)->first)
#define SECOND(type, all)      ((const type *)(all)->second)
#define RESULT(type, all, row) ((all)->results ? (type *)(all)->results + (row) : (type *)NULL)

/* ---- the plain formula, a block of rows at a time ----------------------------------------------------------- */

/* Rows side by side in memory are read where they are, others are copied first. The whole block is computed in any case, so
 * that its loop has a fixed length. */
typedef double block[FER_BLOCK_ROWS];

/* What a block reads of a column: rows in their place, one block for all, or copies. */
typedef struct {
    column from;
    const double *first; /* NULL: each block is a copy */
    size_t step;         /* 0: every block is the first */
    double *buffer;
} stream;

/* A block that is not whole goes on with its last row, which raises no doubt that it has not raised before. */
static const double *copy_block(const stream *s, size_t start, size_t count)
{
    double last = 0.0;
    for (size_t i = 0; i < count; i++) {
        s->buffer[i] = last = row_of(s->from, start + i);
    }
    for (size_t i = count; i < FER_BLOCK_ROWS; i++) {
        s->buffer[i] = last;
    }
    return s->buffer;
}

static stream stream_of(column c, double *buffer)
{
    stream s = {c, NULL, 0, buffer};
    if (!c.first || c.step == 0) {
        const double same = row_of(c, 0);
        for (size_t i = 0; i < FER_BLOCK_ROWS; i++) {
            buffer[i] = same;
        }
        s.first = buffer;
    } else if (c.step == (ptrdiff_t)sizeof(double) && (uintptr_t)c.first % alignof(double) == 0) {
        s.first = (const double *)(const void *)c.first;
        s.step = 1;
    }
    return s;
}

static inline const double *block_at(const stream *s, size_t start, size_t count)
{
    if (s->first && (count == FER_BLOCK_ROWS || s->step == 0)) {
        return s->first + start * s->step;
    }
    return copy_block(s, start, count);
}

/* Whether the results have memory of their own, so that a block of them can be written while its inputs are read. */
static int is_apart(column c, const void *results, size_t rows)
{
    const uintptr_t one = (uintptr_t)c.first, other = one + (uintptr_t)((ptrdiff_t)(rows - 1) * c.step);
    const uintptr_t low = one < other ? one : other, high = (one < other ? other : one) + sizeof(double);
    const uintptr_t first = (uintptr_t)results;
    return high <= first || first + rows * sizeof(double) <= low;
}

static int all_apart(const work *all, size_t rows)
{
    int apart = is_apart(all->input[0], all->results, rows);
    for (size_t i = 0; i <= ferrule_outside; i++) {
        apart &= is_apart(all->joint[i], all->results, rows);
    }
    return apart;
}

static double *whichever(int first, double *one, double *other)
{
    return first ? one : other;
}

/* The singular on the rows of a block that are NaN. Done before the block's results go to their place, which may be
 * that of the inputs. */
static size_t repair(const work *all, row_function *function, size_t start, size_t count, double *result,
                     fer_row_status *statuses)
{
    size_t failed = 0;
    for (size_t i = 0; i < count; i++) {
        if (result[i] != result[i]) {
            failed += note(statuses, start + i, function(all, start + i));
            memmove(&result[i], (const double *)all->results + start + i, sizeof(double));
        }
    }
    return failed;
}

static size_t run_blocks(size_t rows, fer_plain_question question, row_function *function, const work *all,
                         fer_row_status *statuses)
{
    fer_block_kernel *const kernel = fer_pick_kernel(question, rows);
    if (!kernel || rows == 0) {
        return run_rows(rows, function, all, statuses);
    }
    block buffers[FER_BLOCK_INPUTS], buffer;
    stream streams[FER_BLOCK_INPUTS];
    const double *input[FER_BLOCK_INPUTS];
    const int apart = all_apart(all, rows);
    for (size_t i = 0; i < FER_BLOCK_INPUTS; i++) {
        streams[i] = stream_of(i <= ferrule_outside ? all->joint[i] : all->input[0], buffers[i]);
    }
    size_t failed = 0;
    for (size_t start = 0; start < rows; start += FER_BLOCK_ROWS) {
        const size_t count = rows - start < FER_BLOCK_ROWS ? rows - start : (size_t)FER_BLOCK_ROWS;
        double *const place = (double *)all->results + start;
        double *const result = whichever(apart && rows - start >= FER_BLOCK_ROWS, place, buffer);
        for (size_t i = 0; i < FER_BLOCK_INPUTS; i++) {
            input[i] = block_at(&streams[i], start, count);
        }
        const int doubtful = kernel(input, result);
        if (statuses) {
            memset(statuses + start, 0, count * sizeof *statuses);
        }
        if (doubtful) {
            failed += repair(all, function, start, count, result, statuses);
        }
        if (result != place) {
            memcpy(place, result, count * sizeof(double));
        }
    }
    return failed;
}

/* Whether the rows can go by blocks, where the flow can. */
static int is_simple(const work *all)
{
    return all->results && all->model.basis == FER_BASIS_WALL && is_zero(all->joint[layer]) &&
           is_zero(all->joint[stem_bore]) && is_zero(all->joint[length]);
}

/* ---- compression, window --------------------------------------------------------------------------------- */

static fer_status diameter_row(const work *all, size_t row)
{
    const fer_joint joint = joint_of(all->joint, row);
    return fer_crimp_diameter(all->has_joints ? &joint : NULL, ratio_at(all, 0, row), all->model,
                              RESULT(fer_length, all, row));
}

size_t fer_crimp_diameters(size_t rows, const fer_joint_columns *joints, fer_ratio_column compressions,
                           fer_model model, fer_length *diameters, fer_row_status *statuses)
{
    work all = work_on(joints, diameters);
    all.input[0] = ratios(compressions);
    all.model = model;
    if (is_simple(&all) && model.flow == FER_FLOW_NONE) {
        const int one = all.joint[ferrule_outside].step == 0 || !all.joint[ferrule_outside].first;
        return run_blocks(rows, one ? FER_PLAIN_DIAMETER_ONE_FERRULE : FER_PLAIN_DIAMETER, diameter_row, &all,
                          statuses);
    }
    if (is_simple(&all) && model.flow == FER_FLOW_ENDS_FREE) {
        return run_blocks(rows, FER_FREE_DIAMETER, diameter_row, &all, statuses);
    }
    return run_rows(rows, diameter_row, &all, statuses);
}

static fer_status compression_row(const work *all, size_t row)
{
    const fer_joint joint = joint_of(all->joint, row);
    return fer_compression(all->has_joints ? &joint : NULL, length_at(all, 0, row), all->model,
                           RESULT(fer_ratio, all, row));
}

size_t fer_compressions(size_t rows, const fer_joint_columns *joints, fer_length_column diameters,
                        fer_model model, fer_ratio *compressions, fer_row_status *statuses)
{
    work all = work_on(joints, compressions);
    all.input[0] = lengths(diameters);
    all.model = model;
    if (is_simple(&all) && model.flow == FER_FLOW_NONE) {
        return run_blocks(rows, FER_PLAIN_COMPRESSION, compression_row, &all, statuses);
    }
    return run_rows(rows, compression_row, &all, statuses);
}

static fer_status window_row(const work *all, size_t row)
{
    const fer_joint joint = joint_of(all->joint, row);
    const fer_ratio_range range = {ratio_at(all, 0, row), ratio_at(all, 1, row)};
    return fer_crimp_window(all->has_joints ? &joint : NULL, range, all->model,
                            RESULT(fer_length_range, all, row));
}

size_t fer_crimp_windows(size_t rows, const fer_joint_columns *joints, fer_ratio_column lower,
                         fer_ratio_column upper, fer_model model, fer_length_range *windows,
                         fer_row_status *statuses)
{
    work all = work_on(joints, windows);
    all.input[0] = ratios(lower);
    all.input[1] = ratios(upper);
    all.model = model;
    return run_rows(rows, window_row, &all, statuses);
}

/* ---- lobe, die, press ---------------------------------------------------------------------------------------- */

static fer_status lobe_row(const work *all, size_t row)
{
    return fer_lobe_height(length_at(all, 0, row), length_at(all, 1, row), (int)all->count,
                           RESULT(fer_length, all, row));
}

size_t fer_lobe_heights(size_t rows, fer_length_column diameters, fer_length_column die_sizes, int segments,
                        fer_length *heights, fer_row_status *statuses)
{
    work all = work_on(NULL, heights);
    all.input[0] = lengths(diameters);
    all.input[1] = lengths(die_sizes);
    all.count = segments < 0 ? 0 : (size_t)segments;
    return run_rows(rows, lobe_row, &all, statuses);
}

static fer_status die_row(const work *all, size_t row)
{
    const fer_die_needs *needs = SECOND(fer_die_needs, all);
    return fer_choose_die(FIRST(fer_die, all), all->count, length_at(all, 0, row), *needs,
                          RESULT(fer_die_choice, all, row));
}

static fer_status die_row_checked(const work *all, size_t row)
{
    const fer_die_needs *needs = SECOND(fer_die_needs, all);
    fer_die_choice *choices =
        (fer_die_choice *)all->results; /* which there are, or the dies would not have been checked */
    return fer_choose_die_checked(FIRST(fer_die, all), all->count, length_at(all, 0, row), *needs,
                                  choices + row);
}

size_t fer_choose_dies(size_t rows, const fer_die *dies, size_t count, fer_length_column targets,
                       fer_die_needs needs, fer_die_choice *choices, fer_row_status *statuses)
{
    work all = work_on(NULL, choices);
    all.input[0] = lengths(targets);
    all.first = dies;
    all.count = count;
    all.second = &needs;
    const int checked = choices && fer_check_dies(dies, count) == FER_OK;
    return run_rows(rows, checked ? die_row_checked : die_row, &all, statuses);
}

static fer_status dial_row(const work *all, size_t row)
{
    const fer_die die = {length_at(all, 0, row), {0.0}, 0, {0.0}};
    return fer_dial_setting(FIRST(fer_press, all), &die, length_at(all, 1, row), RESULT(fer_dial, all, row));
}

size_t fer_dial_settings(size_t rows, const fer_press *press, fer_length_column die_sizes,
                         fer_length_column targets, fer_dial *dials, fer_row_status *statuses)
{
    work all = work_on(NULL, dials);
    all.input[0] = lengths(die_sizes);
    all.input[1] = lengths(targets);
    all.first = press;
    return run_rows(rows, dial_row, &all, statuses);
}

/* ---- share, verdict, forming --------------------------------------------------------------------------------- */

static fer_status shares_row(const work *all, size_t row)
{
    const fer_joint joint = joint_of(all->joint, row);
    return fer_conforming_share(all->has_joints ? &joint : NULL, FIRST(fer_uncertainties, all), all->range,
                                length_at(all, 0, row), RESULT(fer_shares, all, row));
}

static size_t run_planned_shares(size_t rows, const work *all, fer_share_plan *plan, fer_row_status *statuses)
{
    size_t failed = 0;
    for (size_t row = 0; row < rows; row++) {
        const fer_joint joint = joint_of(all->joint, row);
        failed +=
            note(statuses, row,
                 fer_planned_share(&joint, length_at(all, 0, row), plan, (fer_shares *)all->results + row));
    }
    return failed;
}

size_t fer_conforming_shares(size_t rows, const fer_joint_columns *joints,
                             const fer_uncertainties *uncertainties, fer_ratio_range range,
                             fer_length_column diameters, fer_shares *shares, fer_row_status *statuses)
{
    fer_share_plan plan;
    work all = work_on(joints, shares);
    all.input[0] = lengths(diameters);
    all.first = uncertainties;
    all.range = range;
    if (joints && shares && fer_plan_shares(uncertainties, range, &plan)) {
        return run_planned_shares(rows, &all, &plan, statuses);
    }
    return run_rows(rows, shares_row, &all, statuses);
}

static fer_status verdict_row(const work *all, size_t row)
{
    const fer_guard *guard = FIRST(fer_guard, all);
    const fer_process *process = SECOND(fer_process, all);
    const fer_length_range limits = {length_at(all, 2, row), length_at(all, 3, row)};
    return fer_judge(length_at(all, 0, row), length_at(all, 1, row), limits, *guard, *process,
                     RESULT(fer_verdict, all, row));
}

size_t fer_judge_values(size_t rows, fer_length_column values, fer_length_column standard_uncertainties,
                        fer_length_column lower, fer_length_column upper, fer_guard guard,
                        fer_process process, fer_verdict *verdicts, fer_row_status *statuses)
{
    work all = work_on(NULL, verdicts);
    all.input[0] = lengths(values);
    all.input[1] = lengths(standard_uncertainties);
    all.input[2] = lengths(lower);
    all.input[3] = lengths(upper);
    all.first = &guard;
    all.second = &process;
    return run_rows(rows, verdict_row, &all, statuses);
}

static fer_status zone_row(const work *all, size_t row)
{
    const fer_guard *guard = FIRST(fer_guard, all);
    const fer_length_range limits = {length_at(all, 0, row), length_at(all, 1, row)};
    return fer_find_acceptance_zone(limits, length_at(all, 2, row), *guard,
                                    RESULT(fer_acceptance_zone, all, row));
}

size_t fer_find_acceptance_zones(size_t rows, fer_length_column lower, fer_length_column upper,
                                 fer_length_column standard_uncertainties, fer_guard guard,
                                 fer_acceptance_zone *zones, fer_row_status *statuses)
{
    work all = work_on(NULL, zones);
    all.input[0] = lengths(lower);
    all.input[1] = lengths(upper);
    all.input[2] = lengths(standard_uncertainties);
    all.first = &guard;
    return run_rows(rows, zone_row, &all, statuses);
}

static fer_status forming_row(const work *all, size_t row)
{
    const fer_joint joint = joint_of(all->joint, row);
    const fer_forming_load *load = SECOND(fer_forming_load, all);
    return fer_form_ferrule(all->has_joints ? &joint.ferrule : NULL, length_at(all, 0, row),
                            FIRST(fer_material, all), *load, RESULT(fer_forming, all, row));
}

size_t fer_form_ferrules(size_t rows, const fer_joint_columns *ferrules, fer_length_column diameters,
                         const fer_material *material, fer_forming_load load, fer_forming *formings,
                         fer_row_status *statuses)
{
    work all = work_on(ferrules, formings);
    all.input[0] = lengths(diameters);
    all.first = material;
    all.second = &load;
    return run_rows(rows, forming_row, &all, statuses);
}
