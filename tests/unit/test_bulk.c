/* SPDX-License-Identifier: MIT */
/* Each row of a plural function has the bits and the status of the function in the singular: random rows, bad rows,
 * every model, every way in which rows can lie in memory. What the singular functions give is checked in their modules. */
#include "check.h"

#include <float.h>
#include <stdlib.h>

/* More than 16384, from where on wide vectors are used. */
enum { row_count = 20000, few_rows = 2000 };

/* ---- rows -------------------------------------------------------------------------------------------------- */

/* Small generator with the state outside: xorshift (Marsaglia, J. Stat. Softw. 8 (2003) 14). */
static uint64_t next(uint64_t *state)
{
    *state ^= *state << 13;
    *state ^= *state >> 7;
    *state ^= *state << 17;
    return *state;
}

static double between(uint64_t *state, double low, double high)
{
    return low + (high - low) * ((double)(next(state) >> 11) / 9007199254740992.0);
}

/* Numbers that a check has to catch, or just not. */
static double awkward(uint64_t *state)
{
    static const double list[] = {0.0, -0.0,  -1.0,  NAN,    -NAN,  INFINITY, -INFINITY, 0.001, 0.00099999,
                                  1e6, 1.1e6, 1e300, 5e-324, -1e-3, 19.9,     12.7,      1.0,   0.25};
    return list[next(state) % (sizeof list / sizeof list[0])];
}

typedef struct {
    fer_joint joint;
    fer_ratio compression, upper;
    fer_length diameter, die_size, target, uncertainty;
} one_row;

/* A joint around the worked one; stems thinner and thicker than the hose inside; some at the edge of touching. */
static one_row random_row(uint64_t *state, int with_ferrule)
{
    one_row row = {worked_joint(), {0.0}, {0.0}, {0.0}, {0.0}, {0.0}, {0.0}};
    row.joint.hose.inside.mm = between(state, 12.0, 13.5);
    row.joint.hose.outside.mm = between(state, 19.0, 21.0);
    row.joint.stem.outside.mm = between(state, 11.5, 14.0);
    row.joint.ferrule.wall.mm = between(state, 1.0, 3.0);
    row.joint.ferrule.outside.mm = with_ferrule ? between(state, 23.0, 29.0) : 0.0;
    row.compression.fraction = between(state, -0.05, 0.6);
    row.upper.fraction = row.compression.fraction + between(state, -0.01, 0.3);
    row.diameter.mm =
        row.joint.stem.outside.mm + 2.0 * row.joint.ferrule.wall.mm +
        (row.joint.hose.outside.mm - row.joint.hose.inside.mm) * (1.0 - row.compression.fraction);
    row.die_size.mm = row.diameter.mm - between(state, -0.5, 8.0);
    row.target = row.diameter;
    row.uncertainty.mm = between(state, 0.0, 0.1);
    return row;
}

/* Puts an awkward number in a place of the row: its joint's six, its compressions, diameters, die and uncertainty. */
static void spoil(one_row *row, uint64_t *state)
{
    double *const place[] = {&row->joint.hose.inside.mm,
                             &row->joint.hose.outside.mm,
                             &row->joint.stem.outside.mm,
                             &row->joint.ferrule.wall.mm,
                             &row->joint.ferrule.outside.mm,
                             &row->compression.fraction,
                             &row->upper.fraction,
                             &row->diameter.mm,
                             &row->die_size.mm,
                             &row->target.mm,
                             &row->uncertainty.mm};
    *place[next(state) % (sizeof place / sizeof place[0])] = awkward(state);
}

/* On the edge: the bore is the outside of the hose on the stem, or the gap is closed, but for a rounding. */
static void put_on_edge(one_row *row, uint64_t *state)
{
    fer_length touch;
    const fer_model plain = {FER_BASIS_WALL, FER_FLOW_NONE};
    if (fer_touch_diameter(&row->joint, plain, &touch) == FER_OK) {
        row->diameter.mm = nextafter(touch.mm, touch.mm + between(state, -1.0, 1.0));
        row->compression.fraction =
            1.0 - (touch.mm - 2.0 * row->joint.ferrule.wall.mm - row->joint.stem.outside.mm) /
                      (row->joint.hose.outside.mm - row->joint.hose.inside.mm);
    }
    if (next(state) % 4 == 0) {
        row->compression.fraction = nextafter(1.0, between(state, 0.0, 2.0));
    }
}

static void fill(one_row *rows, size_t count, uint64_t seed, int with_ferrule)
{
    uint64_t state = seed;
    for (size_t i = 0; i < count; i++) {
        rows[i] = random_row(&state, with_ferrule);
        if (next(&state) % 8 == 0) {
            spoil(&rows[i], &state);
        } else if (next(&state) % 8 == 0) {
            put_on_edge(&rows[i], &state);
        }
    }
}

/* ---- columns ------------------------------------------------------------------------------------------------ */

static fer_length_column lengths_at(const fer_length *first)
{
    const fer_length_column column = {first, (ptrdiff_t)sizeof(one_row), 0};
    return column;
}

static fer_ratio_column ratios_at(const fer_ratio *first)
{
    const fer_ratio_column column = {first, (ptrdiff_t)sizeof(one_row), 0};
    return column;
}

static fer_joint_columns joints_of(const one_row *rows)
{
    fer_joint_columns columns = fer_columns_of_joints(&rows->joint);
    fer_length_column *const each[] = {&columns.hose_inside,     &columns.hose_outside,
                                       &columns.stem_outside,    &columns.ferrule_wall,
                                       &columns.ferrule_outside, &columns.hose_reinforcement,
                                       &columns.stem_bore,       &columns.ferrule_length};
    for (size_t i = 0; i < sizeof each / sizeof each[0]; i++) {
        each[i]->step = (ptrdiff_t)sizeof(one_row);
    }
    return columns;
}

/* Without the columns that the plain formula does not use: then the rows go through vector instructions. */
static fer_joint_columns plain_joints_of(const one_row *rows)
{
    const fer_length_column none = {0};
    fer_joint_columns columns = joints_of(rows);
    columns.hose_reinforcement = columns.stem_bore = columns.ferrule_length = none;
    return columns;
}

/* By bytes, so that NaN is equal to itself and 0 is not -0. */
static int same_bits(const void *a, const void *b, size_t size)
{
    const unsigned char *byte_a = a, *byte_b = b;
    size_t i = 0;
    while (i < size && byte_a[i] == byte_b[i]) {
        i++;
    }
    return i == size;
}

#define CHECK_SAME(row, found, expected, status, expected_status)                                            \
    do {                                                                                                     \
        if ((status) != (fer_row_status)(expected_status) ||                                                 \
            !same_bits(&(found), &(expected), sizeof(found))) {                                              \
            fail_msg("row %zu: %s, not %s, or other bits", (size_t)(row),                                    \
                     fer_status_name((fer_status)(status)), fer_status_name(expected_status));               \
        }                                                                                                    \
    } while (0)

/* ---- compression -------------------------------------------------------------------------------------------- */

typedef struct {
    double column[6][row_count]; /* the joint's five and compression or diameter */
} packed;

static void pack(const one_row *rows, packed *all, int backward)
{
    for (size_t i = 0; i < row_count; i++) {
        const fer_joint *joint = &rows[i].joint;
        const double number[6] = {
            joint->hose.inside.mm,     joint->hose.outside.mm,
            joint->stem.outside.mm,    joint->ferrule.wall.mm,
            joint->ferrule.outside.mm, backward ? rows[i].diameter.mm : rows[i].compression.fraction};
        for (size_t k = 0; k < 6; k++) {
            all->column[k][i] = number[k];
        }
    }
}

static fer_length_column packed_lengths(const double *column)
{
    return fer_length_rows((const fer_length *)(const void *)column);
}

static fer_joint_columns packed_joints(const packed *all, int with_ferrule)
{
    fer_joint_columns columns = {0};
    columns.hose_inside = packed_lengths(all->column[0]);
    columns.hose_outside = packed_lengths(all->column[1]);
    columns.stem_outside = packed_lengths(all->column[2]);
    columns.ferrule_wall = packed_lengths(all->column[3]);
    if (with_ferrule) {
        columns.ferrule_outside = packed_lengths(all->column[4]);
    }
    return columns;
}

static size_t check_diameters(const one_row *rows, size_t count, fer_model model, const fer_length *found,
                              const fer_row_status *statuses)
{
    size_t failed = 0;
    for (size_t i = 0; i < count; i++) {
        fer_length expected;
        const fer_status status = fer_crimp_diameter(&rows[i].joint, rows[i].compression, model, &expected);
        CHECK_SAME(i, found[i], expected, statuses[i], status);
        failed += status != FER_OK;
    }
    return failed;
}

static size_t check_compressions(const one_row *rows, size_t count, fer_model model, const fer_ratio *found,
                                 const fer_row_status *statuses)
{
    size_t failed = 0;
    for (size_t i = 0; i < count; i++) {
        fer_ratio expected;
        const fer_status status = fer_compression(&rows[i].joint, rows[i].diameter, model, &expected);
        CHECK_SAME(i, found[i], expected, statuses[i], status);
        failed += status != FER_OK;
    }
    return failed;
}

static void plain_rows_have_the_bits_of_one_row(void **test_state)
{
    static one_row rows[row_count];
    static packed all;
    static fer_length diameters[row_count];
    static fer_ratio ratios[row_count];
    static fer_row_status statuses[row_count];
    const fer_model plain = {FER_BASIS_WALL, FER_FLOW_NONE};
    size_t failed_somewhere = 0;
    (void)test_state;
    for (uint64_t seed = 1; seed <= 24; seed++) {
        const int with_ferrule = seed % 2 == 0;
        const size_t count = seed % 3 == 0 ? row_count : seed * 997 % row_count;
        fill(rows, row_count, seed, with_ferrule);
        if (!with_ferrule) {
            for (size_t i = 0; i < row_count; i++) {
                rows[i].joint.ferrule.outside.mm = 0.0;
            }
        }
        pack(rows, &all, 0);
        fer_joint_columns joints = packed_joints(&all, with_ferrule);
        const fer_ratio *compressions = (const fer_ratio *)(const void *)all.column[5];
        size_t failed =
            fer_crimp_diameters(count, &joints, fer_ratio_rows(compressions), plain, diameters, statuses);
        assert_int_equal(failed, check_diameters(rows, count, plain, diameters, statuses));
        failed_somewhere += failed;

        pack(rows, &all, 1);
        joints = packed_joints(&all, with_ferrule);
        failed = fer_compressions(count, &joints, packed_lengths(all.column[5]), plain, ratios, statuses);
        assert_int_equal(failed, check_compressions(rows, count, plain, ratios, statuses));
        failed_somewhere += failed;
    }
    assert_true(failed_somewhere > 10000);
}

static void rows_with_free_flow_have_the_bits_of_one_row(void **test_state)
{
    static one_row rows[row_count];
    static packed all;
    static fer_length diameters[row_count];
    static fer_row_status statuses[row_count];
    const fer_model free_flow = {FER_BASIS_WALL, FER_FLOW_ENDS_FREE};
    (void)test_state;
    for (uint64_t seed = 1; seed <= 4; seed++) {
        uint64_t state = seed;
        fill(rows, row_count, seed + 100, 1);
        for (size_t i = 0; i < row_count / 8; i++) { /* far beyond a crimp: thick walls, great reductions */
            rows[i].joint.ferrule.wall.mm = between(&state, 0.5, 12.0);
            rows[i].joint.ferrule.outside.mm = between(&state, 20.0, 60.0);
        }
        pack(rows, &all, 0);
        const fer_joint_columns joints = packed_joints(&all, 1);
        const fer_ratio *compressions = (const fer_ratio *)(const void *)all.column[5];
        const size_t failed = fer_crimp_diameters(row_count, &joints, fer_ratio_rows(compressions), free_flow,
                                                  diameters, statuses);
        assert_int_equal(failed, check_diameters(rows, row_count, free_flow, diameters, statuses));
        assert_in_range(failed, row_count / 20, row_count * 9 / 10);
    }
}

/* Numbers at the ends of what the row's checks accept, next to them, and what is no number. */
static double at_an_end(const one_row *row, uint64_t *state)
{
    const double outside = row->joint.hose.outside.mm;
    const double list[] = {
        NAN,  INFINITY, -INFINITY, 0.0,         -0.0,  -1.0,          0.001, 0.00099999, 1e6,  1.000001e6,
        1e15, 5e-324,   outside,   1.0,         2.0,   2.5,           0.2,   0.999999,   19.0, 0.25 * outside,
        24.0, 1e-5,     0.9989,    DBL_EPSILON, 1e300, 0.5 * outside, 9.0,   0.0019,     -0.2, 40.0};
    return list[next(state) % (sizeof list / sizeof list[0])];
}

/* A row of which only one number is beyond what a joint can have, and its crimp diameter is none of the reasons: a hose with next
 * to no inside, one that is larger inside than outside with a compression above 1, one that is too large; and a good one. */
static one_row refused_row(uint64_t *state, fer_length ferrule)
{
    static const double list[][5] = {{0.0005, 10.0, 0.1, 2.4, 0.5},
                                     {19.9, 12.7, 8.0, 2.4, 1.5},
                                     {1.1e6, 1.1e6 + 7.2, 12.95, 2.4, 0.2},
                                     {0.0025, 10.0, 0.1, 2.4, 0.5}};
    const double *const number = list[next(state) % 4];
    one_row row = {worked_joint(), {0.0}, {0.0}, {0.0}, {0.0}, {0.0}, {0.0}};
    row.joint.hose.inside.mm = number[0];
    row.joint.hose.outside.mm = number[1];
    row.joint.stem.outside.mm = number[2];
    row.joint.ferrule.wall.mm = number[3];
    row.joint.ferrule.outside = ferrule;
    row.compression.fraction = number[4];
    return row;
}

/* Blocks of good rows but for one here and there, at any place and in any column: what is asked of a whole block at once has to
 * see it. The ferrule outside diameter: a column, none, one for all rows, one that no row can have. */
static void one_bad_row_among_good_ones_is_seen(void **test_state)
{
    static one_row rows[row_count];
    static packed all;
    static fer_length diameters[row_count];
    static fer_row_status statuses[row_count];
    const fer_length ends[4] = {{0.0}, {25.6}, {1.1e6}, {NAN}};
    size_t failed_somewhere = 0;
    (void)test_state;
    for (uint64_t seed = 1; seed <= 90; seed++) {
        uint64_t state = seed;
        const int kind = (int)(seed % 5), flow = seed % 3 == 0 ? FER_FLOW_ENDS_FREE : FER_FLOW_NONE;
        const fer_model model = {FER_BASIS_WALL, (fer_flow)flow};
        for (size_t i = 0; i < row_count; i++) {
            rows[i] = random_row(&state, 1);
            rows[i].joint.hose.inside.mm = between(&state, 12.6, 12.8);
            rows[i].joint.hose.outside.mm = between(&state, 19.8, 20.0);
            rows[i].joint.stem.outside.mm = between(&state, 12.6, 13.0);
            rows[i].joint.ferrule.wall.mm = between(&state, 2.3, 2.5);
            rows[i].joint.ferrule.outside.mm = kind < 4 ? ends[kind].mm : between(&state, 25.6, 26.0);
            rows[i].compression.fraction = between(&state, 0.2, 0.3);
        }
        for (size_t i = next(&state) % 700; i < row_count; i += 1 + next(&state) % 1400) {
            double *const place[6] = {&rows[i].joint.hose.inside.mm,  &rows[i].joint.hose.outside.mm,
                                      &rows[i].joint.stem.outside.mm, &rows[i].joint.ferrule.wall.mm,
                                      &rows[i].compression.fraction,  &rows[i].joint.ferrule.outside.mm};
            if (next(&state) % 4 == 0) {
                rows[i] = refused_row(&state, rows[i].joint.ferrule.outside);
            } else if (kind == 4 && next(&state) % 4 == 0) {
                rows[i].joint.ferrule.outside.mm = NAN;
            } else {
                *place[next(&state) % (kind < 4 ? 5 : 6)] = at_an_end(&rows[i], &state);
            }
        }
        pack(rows, &all, 0);
        fer_joint_columns joints = packed_joints(&all, kind == 4);
        if (kind < 4) {
            joints.ferrule_outside = fer_same_length(&ends[kind]);
        }
        const fer_ratio *compressions = (const fer_ratio *)(const void *)all.column[5];
        const size_t failed =
            fer_crimp_diameters(row_count, &joints, fer_ratio_rows(compressions), model, diameters, statuses);
        assert_int_equal(failed, check_diameters(rows, row_count, model, diameters, statuses));
        failed_somewhere += failed < row_count ? failed : 0;
    }
    assert_true(failed_somewhere > 500);
}

static void every_model_over_an_array_of_structs(void **test_state)
{
    static one_row rows[few_rows];
    static fer_length diameters[few_rows];
    static fer_ratio compressions[few_rows];
    static fer_row_status statuses[few_rows];
    (void)test_state;
    fill(rows, few_rows, 77, 1);
    for (size_t i = 0; i < few_rows; i += 3) {
        rows[i].joint.hose.reinforcement.mm = 1.1;
        rows[i].joint.stem.bore.mm = i % 2 == 0 ? 9.0 : 90.0;
    }
    const fer_joint_columns joints = joints_of(rows);
    for (int basis = 0; basis <= FER_BASIS_SOFT_WALL + 1; basis++) {
        for (int flow = 0; flow <= FER_FLOW_ENDS_FREE + 1; flow++) {
            const fer_model model = {(fer_basis)basis, (fer_flow)flow};
            size_t failed = fer_crimp_diameters(few_rows, &joints, ratios_at(&rows->compression), model,
                                                diameters, statuses);
            assert_int_equal(failed, check_diameters(rows, few_rows, model, diameters, statuses));
            failed = fer_compressions(few_rows, &joints, lengths_at(&rows->diameter), model, compressions,
                                      statuses);
            assert_int_equal(failed, check_compressions(rows, few_rows, model, compressions, statuses));
        }
    }
}

/* Columns that the plain formula does not use are checked all the same, each by itself, one value or many. */
static void columns_that_do_not_count_are_checked(void **test_state)
{
    static one_row rows[row_count];
    static fer_length found[row_count], column[row_count];
    static fer_row_status statuses[row_count];
    const fer_model plain = {FER_BASIS_WALL, FER_FLOW_NONE};
    (void)test_state;
    for (size_t same = 0; same < 2; same++) {
        for (size_t k = 0; k < 3; k++) {
            fill(rows, row_count, 15, 1);
            fer_joint_columns joints = plain_joints_of(rows);
            fer_length_column *const place[3] = {&joints.hose_reinforcement, &joints.stem_bore,
                                                 &joints.ferrule_length};
            for (size_t i = 0; i < row_count; i++) {
                column[i].mm = same || i % 7 == 0 ? -1.0 : 0.0;
                fer_joint *joint = &rows[i].joint;
                fer_length *const member[3] = {&joint->hose.reinforcement, &joint->stem.bore,
                                               &joint->ferrule.length};
                *member[k] = column[i];
            }
            *place[k] = same ? fer_same_length(column) : fer_length_rows(column);
            const size_t failed = fer_crimp_diameters(row_count, &joints, ratios_at(&rows->compression),
                                                      plain, found, statuses);
            assert_int_equal(failed, check_diameters(rows, row_count, plain, found, statuses));
            assert_int_equal(statuses[0], fer_check_joint(&rows[0].joint));
        }
    }
}

/* The greatest lengths, where the ends of ranges are. */
static void largest_lengths(void **test_state)
{
    static one_row rows[row_count];
    static fer_length diameters[row_count];
    static fer_ratio compressions[row_count];
    static fer_row_status statuses[row_count];
    const fer_model plain = {FER_BASIS_WALL, FER_FLOW_NONE};
    uint64_t state = 16;
    (void)test_state;
    fill(rows, row_count, 16, 0);
    for (size_t i = 0; i < row_count; i++) {
        rows[i].joint.hose.outside.mm = between(&state, 4e5, 1.1e6);
        rows[i].joint.ferrule.wall.mm = between(&state, 1e5, 4e5);
        rows[i].diameter.mm = between(&state, 4e5, 1.2e6);
        rows[i].joint.ferrule.outside.mm = i % 2 == 0 ? 0.0 : between(&state, 6e5, 1.2e6);
    }
    const fer_joint_columns joints = plain_joints_of(rows);
    size_t failed =
        fer_crimp_diameters(row_count, &joints, ratios_at(&rows->compression), plain, diameters, statuses);
    assert_int_equal(failed, check_diameters(rows, row_count, plain, diameters, statuses));
    failed = fer_compressions(row_count, &joints, lengths_at(&rows->diameter), plain, compressions, statuses);
    assert_int_equal(failed, check_compressions(rows, row_count, plain, compressions, statuses));
    assert_in_range(failed, 1, row_count - 1);
}

static void windows(void **test_state)
{
    static one_row rows[few_rows];
    static fer_length_range found[few_rows];
    static fer_row_status statuses[few_rows];
    const fer_model model = {FER_BASIS_AREA, FER_FLOW_ENDS_FIXED};
    size_t expected_failed = 0;
    (void)test_state;
    fill(rows, few_rows, 5, 1);
    const fer_joint_columns joints = joints_of(rows);
    const size_t failed = fer_crimp_windows(few_rows, &joints, ratios_at(&rows->compression),
                                            ratios_at(&rows->upper), model, found, statuses);
    for (size_t i = 0; i < few_rows; i++) {
        fer_length_range expected;
        const fer_ratio_range range = {rows[i].compression, rows[i].upper};
        const fer_status status = fer_crimp_window(&rows[i].joint, range, model, &expected);
        CHECK_SAME(i, found[i], expected, statuses[i], status);
        expected_failed += status != FER_OK;
    }
    assert_int_equal(failed, expected_failed);
    assert_in_range(failed, 1, few_rows - 1);
}

/* ---- lobe, die, press, share, verdict, forming ----------------------------------------------------------------- */

static void lobes_and_dials(void **test_state)
{
    static one_row rows[few_rows];
    static fer_length heights[few_rows];
    static fer_dial dials[few_rows];
    static fer_row_status statuses[few_rows], dial_statuses[few_rows];
    fer_press press = {0};
    size_t failed_lobes = 0, failed_dials = 0;
    (void)test_state;
    press.graduation = fer_mm(0.05);
    press.correction = fer_mm(-0.13);
    fill(rows, few_rows, 6, 1);
    const size_t lobes = fer_lobe_heights(few_rows, lengths_at(&rows->diameter), lengths_at(&rows->die_size),
                                          8, heights, statuses);
    const size_t settings = fer_dial_settings(few_rows, &press, lengths_at(&rows->die_size),
                                              lengths_at(&rows->target), dials, dial_statuses);
    for (size_t i = 0; i < few_rows; i++) {
        fer_length height;
        fer_dial dial;
        fer_die die = {rows[i].die_size, {0.0}, 0, {0.0}};
        fer_status status = fer_lobe_height(rows[i].diameter, rows[i].die_size, 8, &height);
        CHECK_SAME(i, heights[i], height, statuses[i], status);
        failed_lobes += status != FER_OK;
        status = fer_dial_setting(&press, &die, rows[i].target, &dial);
        CHECK_SAME(i, dials[i], dial, dial_statuses[i], status);
        failed_dials += status != FER_OK;
    }
    assert_int_equal(lobes, failed_lobes);
    assert_int_equal(settings, failed_dials);
    assert_in_range(lobes, 1, few_rows - 1);
    assert_int_equal(fer_lobe_heights(few_rows, lengths_at(&rows->diameter), lengths_at(&rows->die_size), -8,
                                      heights, statuses),
                     few_rows);
}

/* All members but padding, which no one writes. */
static int same_choice(const fer_die_choice *a, const fer_die_choice *b)
{
    return a->found == b->found && a->index == b->index && a->die.size.mm == b->die.size.mm &&
           a->die.adapter == b->die.adapter && a->offset.mm == b->offset.mm &&
           a->adapter_change == b->adapter_change && a->buy.lower.mm == b->buy.lower.mm &&
           a->buy.upper.mm == b->buy.upper.mm && a->nearest_found == b->nearest_found &&
           a->nearest_index == b->nearest_index && a->nearest_distance.mm == b->nearest_distance.mm;
}

static void check_choices(const one_row *rows, const fer_die *rack, size_t count)
{
    fer_die_choice *found = calloc(few_rows, sizeof *found);
    static fer_row_status statuses[few_rows];
    assert_non_null(found);
    const fer_die_needs needs = {1, {0.0}};
    size_t expected_failed = 0;
    const size_t failed =
        fer_choose_dies(few_rows, rack, count, lengths_at(&rows->target), needs, found, statuses);
    for (size_t i = 0; i < few_rows; i++) {
        fer_die_choice expected;
        const fer_status status = fer_choose_die(rack, count, rows[i].target, needs, &expected);
        assert_int_equal(statuses[i], status);
        assert_true(same_choice(&found[i], &expected));
        expected_failed += status != FER_OK;
    }
    assert_int_equal(failed, expected_failed);
    free(found);
}

static void choices_out_of_a_rack(void **test_state)
{
    static one_row rows[few_rows];
    fer_die rack[4] = {{{16.0}, {0.0}, 0, {0.0}},
                       {{19.0}, {2.0}, 1, {0.0}},
                       {{19.0}, {3.0}, 0, {0.0}},
                       {{40.0}, {0.0}, 0, {0.0}}};
    (void)test_state;
    fill(rows, few_rows, 8, 1);
    check_choices(rows, rack, 4);
    check_choices(rows, rack, 0);
    check_choices(rows, NULL, 0);
    check_choices(rows, NULL, 1);
    rack[2].size.mm = NAN;
    check_choices(rows, rack, 4);
}

/* What no joint changes is computed once for all rows, or fails in every row: normal inputs, all inputs, a triangular one, correlated
 * ones, none at all, impossible ones, a hose wall that is too uncertain for its thickness, ranges in order or not. */
static void shares(void **test_state)
{
    static one_row rows[few_rows];
    static fer_shares found[few_rows];
    static fer_row_status statuses[few_rows];
    const fer_ratio_range ranges[] = {
        {{0.15}, {0.25}}, {{-1e300}, {0.4}}, {{0.25}, {0.15}}, {{0.1}, {INFINITY}}, {{0.1}, {NAN}}};
    size_t some_fail = 0;
    (void)test_state;
    for (int kind = 0; kind < 11; kind++) {
        fer_uncertainties uncertainties = {0};
        size_t expected_failed = 0;
        uncertainties.hose_outside.amount = fer_mm(kind == 1 ? 1.05 : 0.1);
        uncertainties.ferrule_wall.amount = fer_mm(kind == 2 ? -1.0 : 0.02);
        uncertainties.diameter.amount = fer_mm(kind == 3 ? 0.05 : 0.0);
        uncertainties.ferrule_wall.distribution =
            kind == 4 ? FER_DISTRIBUTION_TRIANGULAR : FER_DISTRIBUTION_NORMAL;
        uncertainties.hose_inside.amount = fer_mm(kind == 5 ? 0.08 : 0.0);
        uncertainties.correlations.hose_inside_hose_outside.fraction = kind == 5   ? 0.5
                                                                       : kind == 6 ? 1.5
                                                                                   : 0.0;
        if (kind == 7) {
            uncertainties.hose_outside.amount = uncertainties.ferrule_wall.amount = fer_mm(0.0);
        }
        if (kind == 10) { /* correlated, and not normal */
            uncertainties.hose_inside.amount = fer_mm(0.08);
            uncertainties.hose_inside.distribution = FER_DISTRIBUTION_RECTANGULAR;
            uncertainties.correlations.hose_inside_hose_outside.fraction = 0.5;
        }
        uncertainties.stem_outside.amount = fer_mm(kind == 9 ? -0.01 : uncertainties.stem_outside.amount.mm);
        const fer_ratio_range range = ranges[kind == 8 ? 0 : kind % 5 == 4 ? 0 : kind % 2];
        fill(rows, few_rows, 9, 1);
        const fer_joint_columns joints = joints_of(rows);
        for (size_t which = 0; which < (kind == 8 ? 5 : 1); which++) {
            const fer_ratio_range used = kind == 8 ? ranges[which] : range;
            const size_t failed = fer_conforming_shares(few_rows, &joints, &uncertainties, used,
                                                        lengths_at(&rows->diameter), found, statuses);
            expected_failed = 0;
            for (size_t i = 0; i < few_rows; i++) {
                fer_shares expected;
                const fer_status status =
                    fer_conforming_share(&rows[i].joint, &uncertainties, used, rows[i].diameter, &expected);
                CHECK_SAME(i, found[i], expected, statuses[i], status);
                expected_failed += status != FER_OK;
            }
            assert_int_equal(failed, expected_failed);
            some_fail += failed > 0 && failed < few_rows;
        }
    }
    assert_true(some_fail >= 6);
}

static void verdicts(void **test_state)
{
    static one_row rows[few_rows];
    fer_verdict *found = calloc(few_rows, sizeof *found);
    static fer_row_status statuses[few_rows];
    const fer_length lower = {22.0}, upper = {24.0};
    const fer_length_range limits = {lower, upper};
    const fer_guard guard = {0};
    const fer_process process = {0};
    size_t expected_failed = 0;
    (void)test_state;
    assert_non_null(found);
    fill(rows, few_rows, 10, 1);
    const size_t failed =
        fer_judge_values(few_rows, lengths_at(&rows->diameter), lengths_at(&rows->uncertainty),
                         fer_same_length(&lower), fer_same_length(&upper), guard, process, found, statuses);
    for (size_t i = 0; i < few_rows; i++) {
        fer_verdict expected;
        const fer_status status =
            fer_judge(rows[i].diameter, rows[i].uncertainty, limits, guard, process, &expected);
        assert_int_equal(statuses[i], status);
        assert_int_equal(found[i].decision, expected.decision);
        assert_memory_equal(&found[i].conforming, &expected.conforming, sizeof(fer_ratio));
        assert_memory_equal(&found[i].accept, &expected.accept, sizeof(fer_length_range));
        expected_failed += status != FER_OK;
    }
    assert_int_equal(failed, expected_failed);
    assert_in_range(failed, 1, few_rows - 1);
    free(found);
}

static void formings(void **test_state)
{
    static one_row rows[few_rows];
    static fer_forming found[few_rows];
    static fer_row_status statuses[few_rows];
    const fer_material steel = {{205000.0}, {0.29}, {300.0}, {600.0}};
    const fer_forming_load load = {{0.5}, {10.0}};
    size_t expected_failed = 0;
    (void)test_state;
    fill(rows, few_rows, 11, 1);
    const fer_joint_columns joints = joints_of(rows);
    const size_t failed =
        fer_form_ferrules(few_rows, &joints, lengths_at(&rows->diameter), &steel, load, found, statuses);
    for (size_t i = 0; i < few_rows; i++) {
        fer_forming expected;
        const fer_status status =
            fer_form_ferrule(&rows[i].joint.ferrule, rows[i].diameter, &steel, load, &expected);
        CHECK_SAME(i, found[i].crimp_diameter, expected.crimp_diameter, statuses[i], status);
        assert_memory_equal(&found[i], &expected, offsetof(fer_forming, release_status));
        assert_int_equal(found[i].release_status, expected.release_status);
        expected_failed += status != FER_OK;
    }
    assert_int_equal(failed, expected_failed);
    assert_in_range(failed, 1, few_rows - 1);
}

/* ---- memory ---------------------------------------------------------------------------------------------------- */

/* Each column with a step of its own: odd addresses, backwards, one value for all. */
static void rows_anywhere_in_memory(void **test_state)
{
    static one_row rows[row_count];
    static unsigned char odd[row_count * 11 + 8];
    static fer_length backwards[row_count], found[row_count];
    static fer_row_status statuses[row_count];
    const fer_length wall = {2.0};
    const fer_model models[2] = {{FER_BASIS_WALL, FER_FLOW_NONE}, {FER_BASIS_FITTED_WALL, FER_FLOW_NONE}};
    (void)test_state;
    fill(rows, row_count, 12, 1);
    for (size_t i = 0; i < row_count; i++) {
        rows[i].joint.ferrule.wall = wall;
        rows[i].joint.ferrule.outside.mm = 0.0;
        memcpy(odd + 1 + 11 * i, &rows[i].joint.hose.inside, sizeof(double));
        backwards[row_count - 1 - i] = rows[i].joint.hose.outside;
    }
    fer_joint_columns joints = {0};
    joints.hose_inside.first = (const fer_length *)(const void *)(odd + 1);
    joints.hose_inside.step = 11;
    joints.hose_outside.first = &backwards[row_count - 1];
    joints.hose_outside.step = -(ptrdiff_t)sizeof(fer_length);
    joints.stem_outside = lengths_at(&rows->joint.stem.outside);
    joints.ferrule_wall = fer_same_length(&wall);
    for (size_t k = 0; k < 2; k++) {
        const size_t failed = fer_crimp_diameters(row_count, &joints, ratios_at(&rows->compression),
                                                  models[k], found, statuses);
        assert_int_equal(failed, check_diameters(rows, row_count, models[k], found, statuses));
    }
}

/* Between the rows that count lie others that are as good, so that a wrong step gives wrong numbers and no failure. */
static void every_other_row(void **test_state)
{
    static one_row rows[row_count], every_second[row_count / 2];
    static fer_length diameters[row_count / 2];
    static fer_ratio compressions[row_count / 2];
    static fer_row_status statuses[row_count / 2];
    static packed all;
    const fer_model plain = {FER_BASIS_WALL, FER_FLOW_NONE};
    uint64_t state = 17;
    (void)test_state;
    for (size_t i = 0; i < row_count; i++) {
        rows[i] = random_row(&state, 0);
        rows[i].compression.fraction = between(&state, 0.15, 0.25);
        if (i % 2 == 0) {
            every_second[i / 2] = rows[i];
        }
    }
    pack(rows, &all, 0);
    fer_joint_columns joints = packed_joints(&all, 0);
    joints.hose_inside.step = joints.hose_outside.step = joints.stem_outside.step = joints.ferrule_wall.step =
        16;
    fer_ratio_column ratios = fer_ratio_rows((const fer_ratio *)(const void *)all.column[5]);
    ratios.step = 16;
    assert_int_equal(fer_crimp_diameters(row_count / 2, &joints, ratios, plain, diameters, statuses), 0);
    (void)check_diameters(every_second, row_count / 2, plain, diameters, statuses);
    for (size_t i = 0; i < row_count / 2; i++) {
        every_second[i].diameter = diameters[i];
    }
    assert_int_equal(
        fer_compressions(row_count / 2, &joints, fer_length_rows(diameters), plain, compressions, statuses),
        0);
    (void)check_compressions(every_second, row_count / 2, plain, compressions, statuses);
}

static void results_in_the_place_of_inputs(void **test_state)
{
    static one_row rows[row_count];
    static packed all;
    static fer_row_status statuses[row_count];
    const fer_model plain = {FER_BASIS_WALL, FER_FLOW_NONE};
    (void)test_state;
    fill(rows, row_count, 13, 1);
    for (size_t k = 0; k < 5; k++) {
        pack(rows, &all, 0);
        const fer_joint_columns joints = packed_joints(&all, 1);
        fer_length *place = (fer_length *)(void *)all.column[k];
        const size_t failed = fer_crimp_diameters(
            row_count, &joints, fer_ratio_rows((const fer_ratio *)(const void *)all.column[5]), plain, place,
            statuses);
        assert_int_equal(failed, check_diameters(rows, row_count, plain, place, statuses));
    }
}

static void nothing_beyond_the_rows_is_written(void **test_state)
{
    static one_row rows[row_count];
    static packed all;
    static fer_length found[row_count];
    static fer_row_status statuses[row_count];
    const fer_model plain = {FER_BASIS_WALL, FER_FLOW_NONE};
    (void)test_state;
    fill(rows, row_count, 14, 1);
    pack(rows, &all, 0);
    const fer_joint_columns joints = packed_joints(&all, 1);
    const fer_ratio_column compressions = fer_ratio_rows((const fer_ratio *)(const void *)all.column[5]);
    for (size_t count = 0; count <= 300; count++) {
        found[count].mm = -7.0;
        statuses[count] = 4711;
        (void)fer_crimp_diameters(count, &joints, compressions, plain, found, statuses);
        assert_true(found[count].mm == -7.0);
        assert_int_equal(statuses[count], 4711);
        (void)check_diameters(rows, count, plain, found, statuses);
    }
    const size_t failed = fer_crimp_diameters(row_count, &joints, compressions, plain, found, NULL);
    assert_int_equal(failed, fer_crimp_diameters(row_count, &joints, compressions, plain, found, statuses));
}

static void a_call_that_is_wrong_fails_in_every_row(void **test_state)
{
    const fer_ratio compression = {0.2};
    const fer_length diameter = {23.5};
    const fer_model plain = {FER_BASIS_WALL, FER_FLOW_NONE};
    const fer_joint joint = worked_joint();
    const fer_joint_columns joints = fer_columns_of_joints(&joint);
    const fer_joint_columns empty = {0};
    fer_length found[3];
    fer_row_status statuses[3] = {0};
    (void)test_state;
    assert_int_equal(fer_crimp_diameters(3, NULL, fer_same_ratio(&compression), plain, found, statuses), 3);
    assert_int_equal(statuses[2], FER_ARGUMENT_MISSING);
    CHECK_NAN(found[2].mm);
    assert_int_equal(fer_crimp_diameters(3, &empty, fer_same_ratio(&compression), plain, found, statuses), 3);
    assert_int_equal(statuses[2], FER_HOSE_INSIDE_MISSING);
    CHECK_NAN(found[2].mm);
    assert_int_equal(fer_crimp_diameters(1, &joints, fer_same_ratio(&compression), plain, NULL, statuses), 1);
    assert_int_equal(statuses[0], FER_ARGUMENT_MISSING);
    assert_int_equal(
        fer_dial_settings(1, NULL, fer_same_length(&diameter), fer_same_length(&diameter), NULL, statuses),
        1);
    assert_int_equal(statuses[0], FER_ARGUMENT_MISSING);
    assert_int_equal(fer_crimp_diameters(0, NULL, fer_same_ratio(NULL), plain, NULL, NULL), 0);
    const fer_joint_columns none = fer_columns_of_joints(NULL);
    assert_int_equal(fer_compressions(1, &none, fer_same_length(&diameter), plain, NULL, NULL), 1);
}

/* Every function: no joints, or nowhere to write, is the status of every row. */
#define CHECK_MISSING(call)                                                                                  \
    do {                                                                                                     \
        statuses[0] = statuses[1] = FER_OK;                                                                  \
        assert_int_equal(call, 2);                                                                           \
        assert_int_equal(statuses[0], FER_ARGUMENT_MISSING);                                                 \
        assert_int_equal(statuses[1], FER_ARGUMENT_MISSING);                                                 \
    } while (0)

static void what_is_missing_is_the_status_of_every_row(void **test_state)
{
    const fer_joint joint = worked_joint();
    const fer_joint pair[2] = {joint, joint};
    const fer_joint_columns joints = fer_columns_of_joints(pair);
    const fer_length diameter = {23.5}, size = {22.0}, small = {0.01};
    const fer_ratio low = {0.15}, high = {0.25};
    const fer_length_column diameters = fer_same_length(&diameter), sizes = fer_same_length(&size);
    const fer_length_column deviations = fer_same_length(&small);
    const fer_ratio_column lower = fer_same_ratio(&low), upper = fer_same_ratio(&high);
    const fer_model models[2] = {{FER_BASIS_WALL, FER_FLOW_NONE}, {FER_BASIS_WALL, FER_FLOW_ENDS_FREE}};
    const fer_ratio_range range = {{0.15}, {0.25}};
    const fer_material steel = {{206000.0}, {0.3}, {300.0}, {0.0}};
    const fer_forming_load load = {{0.0}, {0.0}};
    const fer_die die = {{22.0}, {0.0}, 0, {0.0}};
    const fer_die_needs needs = {0, {0.0}};
    const fer_press press = {0};
    const fer_guard guard = {0};
    const fer_process process = {0};
    fer_uncertainties uncertainties = {0};
    fer_ratio ratios[2];
    fer_length lengths[2];
    fer_length_range windows[2];
    fer_shares found[2];
    fer_forming formings[2];
    fer_row_status statuses[2];
    (void)test_state;
    uncertainties.diameter.amount = fer_mm(0.05);
    for (int i = 0; i < 2; i++) {
        CHECK_MISSING(fer_crimp_diameters(2, NULL, lower, models[i], lengths, statuses));
        CHECK_MISSING(fer_crimp_diameters(2, &joints, lower, models[i], NULL, statuses));
        CHECK_MISSING(fer_compressions(2, NULL, diameters, models[i], ratios, statuses));
        CHECK_MISSING(fer_compressions(2, &joints, diameters, models[i], NULL, statuses));
    }
    CHECK_MISSING(fer_crimp_windows(2, NULL, lower, upper, models[0], windows, statuses));
    CHECK_MISSING(fer_crimp_windows(2, &joints, lower, upper, models[0], NULL, statuses));
    CHECK_MISSING(fer_lobe_heights(2, diameters, sizes, 8, NULL, statuses));
    CHECK_MISSING(fer_choose_dies(2, &die, 1, diameters, needs, NULL, statuses));
    CHECK_MISSING(fer_dial_settings(2, &press, sizes, diameters, NULL, statuses));
    CHECK_MISSING(fer_conforming_shares(2, NULL, &uncertainties, range, diameters, found, statuses));
    CHECK_MISSING(fer_conforming_shares(2, &joints, &uncertainties, range, diameters, NULL, statuses));
    CHECK_MISSING(fer_conforming_shares(2, &joints, NULL, range, diameters, found, statuses));
    CHECK_MISSING(fer_judge_values(2, diameters, deviations, sizes, fer_same_length(&diameter), guard,
                                   process, NULL, statuses));
    CHECK_MISSING(fer_form_ferrules(2, NULL, diameters, &steel, load, formings, statuses));
    CHECK_MISSING(fer_form_ferrules(2, &joints, diameters, &steel, load, NULL, statuses));
}

/* Rows side by side at an odd address, a column that is 0 in every row, and every flow of the wall basis. */
static void rows_side_by_side_at_an_odd_address(void **state)
{
    static one_row rows[row_count];
    static unsigned char odd[row_count * sizeof(double) + 1];
    static fer_length found[row_count];
    static fer_ratio shares[row_count];
    static fer_row_status statuses[row_count];
    const fer_length none = {0.0};
    (void)state;
    fill(rows, row_count, 31, 1);
    for (size_t i = 0; i < row_count; i++) {
        rows[i].joint.hose.reinforcement = none;
        memcpy(odd + 1 + i * sizeof(double), &rows[i].joint.hose.inside, sizeof(double));
    }
    fer_joint_columns joints = plain_joints_of(rows);
    joints.hose_inside.first = (const fer_length *)(const void *)(odd + 1);
    joints.hose_inside.step = sizeof(double);
    joints.hose_reinforcement = fer_same_length(&none);
    for (int flow = 0; flow <= FER_FLOW_ENDS_FREE; flow++) {
        const fer_model model = {FER_BASIS_WALL, (fer_flow)flow};
        size_t failed =
            fer_crimp_diameters(row_count, &joints, ratios_at(&rows->compression), model, found, statuses);
        assert_int_equal(failed, check_diameters(rows, row_count, model, found, statuses));
        failed = fer_compressions(row_count, &joints, lengths_at(&rows->diameter), model, shares, statuses);
        assert_int_equal(failed, check_compressions(rows, row_count, model, shares, statuses));
    }
}

/* A die that is none is the status of every row. */
static void a_bad_die_is_the_status_of_every_row(void **state)
{
    (void)state;
    const fer_die dies[] = {{{22.0}, {0}, 0, {0}}, {{NAN}, {0}, 0, {0}}};
    const fer_length targets[] = {{23.0}, {24.0}};
    const fer_die_needs needs = {0, {0}};
    fer_die_choice choices[2];
    fer_row_status statuses[2] = {0, 0};
    assert_int_equal(fer_choose_dies(2, dies, 2, fer_length_rows(targets), needs, choices, statuses), 2);
    for (size_t i = 0; i < 2; i++) {
        assert_int_equal(statuses[i], FER_DIE_SIZE_OUT_OF_RANGE);
        assert_int_equal(choices[i].found, 0);
    }
}

/* Good rows, but no place for what they give. */
static void rows_without_a_place_fail(void **test_state)
{
    (void)test_state;
    const fer_joint joint = worked_joint();
    const fer_joint_columns joints = {.hose_inside = fer_same_length(&joint.hose.inside),
                                      .hose_outside = fer_same_length(&joint.hose.outside),
                                      .stem_outside = fer_same_length(&joint.stem.outside),
                                      .ferrule_wall = fer_same_length(&joint.ferrule.wall)};
    const fer_ratio share = {0.2};
    const fer_length diameter = {23.51};
    const fer_model simple = {FER_BASIS_WALL, FER_FLOW_NONE};
    fer_row_status statuses[300];
    assert_int_equal(fer_crimp_diameters(300, &joints, fer_same_ratio(&share), simple, NULL, statuses), 300);
    assert_int_equal(statuses[299], FER_ARGUMENT_MISSING);
    assert_int_equal(fer_compressions(300, &joints, fer_same_length(&diameter), simple, NULL, statuses), 300);
    assert_int_equal(statuses[0], FER_ARGUMENT_MISSING);
}

/* Enough rows for every kernel, with something that no kernel knows: a column of reinforcements, bores or lengths of which
 * the first is 0 and some are none, or another basis. And what every call needs is missed by all of them. */
static void many_rows_that_are_not_plain_have_the_bits_of_one_row(void **test_state)
{
    static one_row rows[row_count];
    static fer_length diameters[row_count];
    static fer_ratio ratios[row_count];
    static fer_row_status statuses[row_count];
    const double some[] = {0.0, 1.0, NAN, -1.0, 13.0};
    (void)test_state;
    for (int kind = 0; kind < 5; kind++) {
        fill(rows, row_count, 77, 1);
        for (size_t i = 0; i < row_count && kind < 3; i++) {
            double *const place[] = {&rows[i].joint.hose.reinforcement.mm, &rows[i].joint.stem.bore.mm,
                                     &rows[i].joint.ferrule.length.mm};
            *place[kind] = some[i % 5];
        }
        const fer_joint_columns joints = kind < 3 ? joints_of(rows) : plain_joints_of(rows);
        for (int flow = FER_FLOW_NONE; flow <= FER_FLOW_ENDS_FREE; flow++) {
            const fer_model model = {kind == 3 ? FER_BASIS_FITTED_WALL : FER_BASIS_WALL, (fer_flow)flow};
            size_t failed = fer_crimp_diameters(row_count, &joints, ratios_at(&rows->compression), model,
                                                diameters, statuses);
            assert_int_equal(failed, check_diameters(rows, row_count, model, diameters, statuses));
            failed =
                fer_compressions(row_count, &joints, lengths_at(&rows->diameter), model, ratios, statuses);
            assert_int_equal(failed, check_compressions(rows, row_count, model, ratios, statuses));
            failed = fer_crimp_diameters(row_count, NULL, ratios_at(&rows->compression), model, diameters,
                                         statuses);
            assert_int_equal(failed, row_count);
            assert_int_equal(statuses[row_count - 1], FER_ARGUMENT_MISSING);
            failed = fer_compressions(row_count, &joints, lengths_at(&rows->diameter), model, NULL, statuses);
            assert_int_equal(failed, row_count);
            assert_int_equal(statuses[row_count - 1], FER_ARGUMENT_MISSING);
        }
    }
}

/* 17.5 - 4.8 is 12.7 in doubles, and a little more in exact numbers: the joint is refused, whatever its diameter says. */
static void a_ferrule_that_rounding_closes_on_the_stem_is_none(void **test_state)
{
    static fer_ratio ratios[row_count];
    static fer_row_status statuses[row_count];
    const fer_model plain = {FER_BASIS_WALL, FER_FLOW_NONE};
    fer_joint joint = worked_joint();
    const fer_length diameter = {17.5};
    (void)test_state;
    joint.stem.outside = fer_mm(12.7);
    joint.ferrule.outside = diameter;
    fer_joint_columns joints = {0};
    joints.hose_inside = fer_same_length(&joint.hose.inside);
    joints.hose_outside = fer_same_length(&joint.hose.outside);
    joints.stem_outside = fer_same_length(&joint.stem.outside);
    joints.ferrule_wall = fer_same_length(&joint.ferrule.wall);
    joints.ferrule_outside = fer_same_length(&joint.ferrule.outside);
    assert_int_equal(
        fer_compressions(row_count, &joints, fer_same_length(&diameter), plain, ratios, statuses), row_count);
    assert_int_equal(statuses[row_count - 1], FER_FERRULE_BORE_NOT_ABOVE_STEM);
    static fer_length diameters[row_count];
    const fer_ratio nearly_all = {1.0 - DBL_EPSILON / 2.0}; /* the gap that is left is lost in 17.5 mm */
    for (int flow = FER_FLOW_NONE; flow <= FER_FLOW_ENDS_FREE; flow++) {
        const fer_model model = {FER_BASIS_WALL, (fer_flow)flow};
        assert_int_equal(
            fer_crimp_diameters(row_count, &joints, fer_same_ratio(&nearly_all), model, diameters, statuses),
            row_count);
        assert_int_equal(statuses[row_count - 1], FER_FERRULE_BORE_NOT_ABOVE_STEM);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_is_missing_is_the_status_of_every_row),
        cmocka_unit_test(plain_rows_have_the_bits_of_one_row),
        cmocka_unit_test(rows_with_free_flow_have_the_bits_of_one_row),
        cmocka_unit_test(one_bad_row_among_good_ones_is_seen),
        cmocka_unit_test(every_model_over_an_array_of_structs),
        cmocka_unit_test(columns_that_do_not_count_are_checked),
        cmocka_unit_test(largest_lengths),
        cmocka_unit_test(windows),
        cmocka_unit_test(lobes_and_dials),
        cmocka_unit_test(choices_out_of_a_rack),
        cmocka_unit_test(shares),
        cmocka_unit_test(verdicts),
        cmocka_unit_test(formings),
        cmocka_unit_test(rows_anywhere_in_memory),
        cmocka_unit_test(every_other_row),
        cmocka_unit_test(results_in_the_place_of_inputs),
        cmocka_unit_test(nothing_beyond_the_rows_is_written),
        cmocka_unit_test(a_call_that_is_wrong_fails_in_every_row),
        cmocka_unit_test(rows_side_by_side_at_an_odd_address),
        cmocka_unit_test(a_bad_die_is_the_status_of_every_row),
        cmocka_unit_test(rows_without_a_place_fail),
        cmocka_unit_test(many_rows_that_are_not_plain_have_the_bits_of_one_row),
        cmocka_unit_test(a_ferrule_that_rounding_closes_on_the_stem_is_none),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
