/* SPDX-License-Identifier: MIT */
/* Each row of a table of orders or readings has the bits and the status of the single call: random orders, whatever is missing,
 * numbers that no check may let through, every member as a column. What the single calls give is checked in their modules. */
#include "check.h"

#include <limits.h>
#include <string.h>

enum { row_count = 3000, few_rows = 60, readings_a_row = 5 };

/* ---- random orders ------------------------------------------------------------------------------------------- */

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

static int once_in(uint64_t *state, uint64_t times)
{
    return next(state) % times == 0;
}

static double awkward(uint64_t *state)
{
    static const double list[] = {0.0, -0.0,  -1.0,  NAN,    -NAN,  INFINITY, -INFINITY, 0.001, 0.00099999,
                                  1e6, 1.1e6, 1e300, 5e-324, -1e-3, 19.9,     12.7,      1.0,   0.25};
    return list[next(state) % (sizeof list / sizeof list[0])];
}

static int awkward_whole(uint64_t *state)
{
    static const int list[] = {0, 1, 2, 3, 4, 5, -1, 99, INT_MAX, INT_MIN};
    return list[next(state) % (sizeof list / sizeof list[0])];
}

/* An order in a row of its own, with the workplace and one number that is in no column. */
typedef struct {
    char odd; /* so that nothing may lie where a compiler would like it */
    fer_order order;
    int workplace;
} one_row;

static fer_order worked_order(uint64_t *state)
{
    fer_order order = {0};
    order.joint = worked_joint();
    order.joint.hose.inside.mm = between(state, 12.0, 13.5);
    order.joint.hose.outside.mm = between(state, 19.0, 21.0);
    order.joint.stem.outside.mm = between(state, 11.8, 13.8);
    order.joint.stem.bore.mm = once_in(state, 2) ? 10.0 : 0.0;
    order.joint.ferrule.outside.mm = once_in(state, 4) ? 0.0 : between(state, 24.5, 28.0);
    order.joint.ferrule.length.mm = once_in(state, 2) ? 30.0 : 0.0;
    order.published.mm = once_in(state, 3) ? 0.0 : between(state, 22.0, 25.0);
    order.tolerance.mm = once_in(state, 3) ? 0.0 : 0.2;
    order.applies_to = (fer_applies_to)(next(state) % 4);
    order.approval = (fer_approval)(next(state) % 3);
    order.insertion.mm = once_in(state, 3) ? 0.0 : 31.0;
    return order;
}

static void know_more(fer_order *order, uint64_t *state)
{
    const fer_material steel = {{210000.0}, {0.3}, {250.0}, {once_in(state, 2) ? 0.0 : 500.0}};
    order->uncertainties.hose_outside.amount.mm = 0.1;
    order->uncertainties.stem_outside.amount.mm = between(state, 0.0, 0.05);
    order->uncertainties.diameter.amount.mm = 0.05;
    order->uncertainties.diameter.distribution = (fer_distribution)(next(state) % 3);
    order->gauge.standard_uncertainty.mm = 0.01;
    order->gauge.resolution.mm = 0.01;
    if (once_in(state, 3)) {
        order->ferrule_metal = order->stem_metal = steel;
        order->load.restraint.fraction = once_in(state, 2) ? 0.0 : 0.5;
        order->load.hose_pressure.mpa = once_in(state, 2) ? 0.0 : 20.0;
        order->minimum_bore.mm = 9.5;
    }
    if (once_in(state, 4)) {
        order->range.lower.fraction = 0.1;
        order->range.upper.fraction = 0.3;
        order->model.flow = (fer_flow)(next(state) % 3);
        order->model.basis = (fer_basis)(next(state) % 4);
    }
}

/* ---- every member as a column ---------------------------------------------------------------------------------- */

/* One of the numbers becomes one that a check has to catch, or just not. */
static void spoil(fer_order *o, uint64_t *state)
{
    double *const numbers[] = {&o->joint.hose.inside.mm,
                               &o->joint.hose.outside.mm,
                               &o->joint.hose.reinforcement.mm,
                               &o->joint.stem.outside.mm,
                               &o->joint.stem.bore.mm,
                               &o->joint.ferrule.wall.mm,
                               &o->joint.ferrule.outside.mm,
                               &o->joint.ferrule.length.mm,
                               &o->published.mm,
                               &o->tolerance.mm,
                               &o->range.lower.fraction,
                               &o->range.upper.fraction,
                               &o->aim.fraction,
                               &o->widest.mm,
                               &o->uncertainties.hose_inside.amount.mm,
                               &o->uncertainties.hose_inside.degrees_of_freedom,
                               &o->uncertainties.hose_outside.amount.mm,
                               &o->uncertainties.stem_outside.amount.mm,
                               &o->uncertainties.ferrule_wall.amount.mm,
                               &o->uncertainties.ferrule_outside.amount.mm,
                               &o->uncertainties.diameter.amount.mm,
                               &o->uncertainties.diameter.degrees_of_freedom,
                               &o->ferrule_metal.elastic_modulus.mpa,
                               &o->ferrule_metal.poisson.fraction,
                               &o->ferrule_metal.yield_strength.mpa,
                               &o->ferrule_metal.hardening.mpa,
                               &o->stem_metal.elastic_modulus.mpa,
                               &o->stem_metal.poisson.fraction,
                               &o->stem_metal.yield_strength.mpa,
                               &o->stem_metal.hardening.mpa,
                               &o->load.restraint.fraction,
                               &o->load.hose_pressure.mpa,
                               &o->minimum_bore.mm,
                               &o->gauge.standard_uncertainty.mm,
                               &o->gauge.correction.mm,
                               &o->gauge.resolution.mm,
                               &o->guard.factor,
                               &o->guard.degrees_of_freedom,
                               &o->insertion.mm,
                               &o->skive_outside.mm,
                               &o->skive_inside.mm,
                               &o->lobe_maximum.mm};
    *numbers[next(state) % (sizeof numbers / sizeof *numbers)] = awkward(state);
}

static void spoil_word(fer_order *o, uint64_t *state)
{
    const int number = awkward_whole(state);
    switch (next(state) % 8) {
    case 0:
        o->model.basis = (fer_basis)number;
        break;
    case 1:
        o->model.flow = (fer_flow)number;
        break;
    case 2:
        o->adapter_mounted = number;
        break;
    case 3:
        o->applies_to = (fer_applies_to)number;
        break;
    case 4:
        o->approval = (fer_approval)number;
        break;
    case 5:
        o->guard.side = (fer_side)number;
        break;
    case 6:
        o->guard.without = number;
        break;
    default:
        o->uncertainties.ferrule_wall.distribution = (fer_distribution)number;
        break;
    }
}

static void fill(one_row *rows, size_t count, uint64_t seed)
{
    uint64_t state = seed;
    for (size_t i = 0; i < count; i++) {
        rows[i].order = worked_order(&state);
        rows[i].workplace = (int)(next(&state) % 3);
        if (once_in(&state, 2)) {
            know_more(&rows[i].order, &state);
        }
        if (once_in(&state, 4)) {
            spoil(&rows[i].order, &state);
        }
        if (once_in(&state, 8)) {
            spoil_word(&rows[i].order, &state);
        }
        if (once_in(&state, 50)) {
            rows[i].workplace = awkward_whole(&state);
        }
    }
}

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

static fer_pressure_column pressures_at(const fer_pressure *first)
{
    const fer_pressure_column column = {first, (ptrdiff_t)sizeof(one_row), 0};
    return column;
}

static fer_number_column numbers_at(const double *first)
{
    const fer_number_column column = {first, (ptrdiff_t)sizeof(one_row), 0};
    return column;
}

static fer_whole_column wholes_at(const void *first)
{
    const fer_whole_column column = {first, (ptrdiff_t)sizeof(one_row), 0};
    return column;
}

static fer_uncertainty_columns uncertainties_at(const fer_uncertainty *first)
{
    const fer_uncertainty_columns columns = {lengths_at(&first->amount), wholes_at(&first->distribution),
                                             numbers_at(&first->degrees_of_freedom)};
    return columns;
}

static fer_material_columns metals_at(const fer_material *first)
{
    const fer_material_columns columns = {pressures_at(&first->elastic_modulus), ratios_at(&first->poisson),
                                          pressures_at(&first->yield_strength),
                                          pressures_at(&first->hardening)};
    return columns;
}

static fer_joint_columns joints_at(const fer_joint *first)
{
    const fer_joint_columns columns = {
        lengths_at(&first->hose.inside),     lengths_at(&first->hose.outside),
        lengths_at(&first->stem.outside),    lengths_at(&first->ferrule.wall),
        lengths_at(&first->ferrule.outside), lengths_at(&first->hose.reinforcement),
        lengths_at(&first->stem.bore),       lengths_at(&first->ferrule.length)};
    return columns;
}

/* All members of the orders of these rows, correlations apart. */
static fer_order_columns all_columns(const fer_order *o)
{
    const fer_order_columns columns = {NULL,
                                       joints_at(&o->joint),
                                       lengths_at(&o->published),
                                       lengths_at(&o->tolerance),
                                       ratios_at(&o->range.lower),
                                       ratios_at(&o->range.upper),
                                       ratios_at(&o->aim),
                                       wholes_at(&o->model.basis),
                                       wholes_at(&o->model.flow),
                                       lengths_at(&o->widest),
                                       uncertainties_at(&o->uncertainties.hose_inside),
                                       uncertainties_at(&o->uncertainties.hose_outside),
                                       uncertainties_at(&o->uncertainties.stem_outside),
                                       uncertainties_at(&o->uncertainties.ferrule_wall),
                                       uncertainties_at(&o->uncertainties.ferrule_outside),
                                       uncertainties_at(&o->uncertainties.diameter),
                                       wholes_at(&o->adapter_mounted),
                                       metals_at(&o->ferrule_metal),
                                       metals_at(&o->stem_metal),
                                       ratios_at(&o->load.restraint),
                                       pressures_at(&o->load.hose_pressure),
                                       lengths_at(&o->minimum_bore),
                                       wholes_at(&o->applies_to),
                                       {lengths_at(&o->gauge.standard_uncertainty),
                                        lengths_at(&o->gauge.correction), lengths_at(&o->gauge.resolution)},
                                       {numbers_at(&o->guard.factor), wholes_at(&o->guard.without),
                                        wholes_at(&o->guard.side), numbers_at(&o->guard.degrees_of_freedom)},
                                       wholes_at(&o->approval),
                                       lengths_at(&o->insertion),
                                       lengths_at(&o->skive_outside),
                                       lengths_at(&o->skive_inside),
                                       lengths_at(&o->lobe_maximum)};
    return columns;
}

/* ---- equal to the last bit --------------------------------------------------------------------------------------- */

#define SAME(member)  (memcmp(&a->member, &b->member, sizeof a->member) == 0)
#define FOUND(member) (SAME(member.value) && a->member.status == b->member.status)

static int same_dies(const fer_die *a, const fer_die *b)
{
    return SAME(size) && SAME(reach) && SAME(adapter) && SAME(length);
}

static int same_choices(const fer_die_choice *a, const fer_die_choice *b)
{
    return SAME(found) && SAME(index) && same_dies(&a->die, &b->die) && SAME(offset) &&
           SAME(adapter_change) && SAME(buy) && SAME(nearest_found) && SAME(nearest_index) &&
           SAME(nearest_distance);
}

static int same_zones(const fer_acceptance_zone *a, const fer_acceptance_zone *b)
{
    return SAME(accept) && SAME(guard) && SAME(side) && SAME(by_probability) && SAME(empty);
}

static int same_figures(const fer_setup *a, const fer_setup *b)
{
    return FOUND(window) && FOUND(limits) && FOUND(plain) && FOUND(ends_free) && FOUND(ends_fixed) &&
           FOUND(uncertainty) && FOUND(shares) && FOUND(best_target) && FOUND(dial) && FOUND(shape) &&
           FOUND(clearance) && FOUND(equivalent) && FOUND(closing) && FOUND(springback) && FOUND(force) &&
           FOUND(capacity_use) && FOUND(bore_reduction) && FOUND(bore_margin) &&
           FOUND(hose_limits.capacity) && FOUND(hose_limits.bore) && FOUND(hose_limits.stem) &&
           SAME(force_at_least) && FOUND(window_lower_uncertainty) && FOUND(window_upper_uncertainty) &&
           FOUND(springback_dial) && FOUND(compression.value) && FOUND(compression.standard_uncertainty) &&
           SAME(compression.source) && same_zones(&a->zone.value, &b->zone.value) && SAME(zone.status) &&
           SAME(largest.value.measurement) && SAME(largest.value.share) && SAME(largest.status);
}

static int same_setups(const fer_setup *a, const fer_setup *b)
{
    return SAME(readiness) && SAME(target) && SAME(source) && SAME(range) && same_figures(a, b) &&
           same_choices(&a->die, &b->die) && SAME(segments) && SAME(remarks) && SAME(confirmed) &&
           SAME(cautions) && SAME(applies_to) && SAME(tolerance) && SAME(insertion) && SAME(skive_outside) &&
           SAME(skive_inside);
}

/* ---- set-ups ------------------------------------------------------------------------------------------------------ */

static const fer_press press = {{0.01}, {0.05}, {12.0}, {60.0}, {1.5e6}, 8, 0};
static const fer_press odd_press = {{0.0}, {0.0}, {0.0}, {0.0}, {0.0}, 9, 0};
static const fer_press bad_press = {{-1.0}, {0.0}, {0.0}, {0.0}, {0.0}, 0, 0};
static const fer_die dies[] = {{{16.0}, {7.0}, 0, {60.0}},
                               {{19.0}, {7.0}, 0, {60.0}},
                               {{22.0}, {0.0}, 0, {20.0}},
                               {{23.0}, {7.0}, 1, {0.0}}};
static const fer_die bad_dies[] = {{{16.0}, {7.0}, 0, {60.0}}, {{22.0}, {7.0}, -1, {60.0}}};
static const fer_workplace workplaces[] = {{&press, dies, 4},
                                           {&odd_press, dies, 2},
                                           {&odd_press, NULL, 0},
                                           {&press, bad_dies, 2},
                                           {&bad_press, dies, 4}};
enum { workplace_count = sizeof workplaces / sizeof *workplaces };

/* What the single call says, and where fer_check_order() finds the first fault. */
static fer_status plan_one(const one_row *row, fer_setup *setup, fer_fault *fault)
{
    const fer_fault none = {FER_OK, FER_FIELD_JOINT_HOSE_INSIDE, 0};
    fer_fault faults[FER_FIELD_COUNT + 4 * 4];
    size_t found;
    *fault = none;
    if (row->workplace < 0 || row->workplace >= workplace_count) {
        memset(setup, 0, sizeof *setup);
        fault->status = FER_WORKPLACE_UNKNOWN;
        fault->field = FER_FIELD_COUNT;
        return FER_WORKPLACE_UNKNOWN;
    }
    const fer_workplace *at = &workplaces[row->workplace];
    assert_int_equal(fer_check_order(&row->order, at->press, at->dies, at->count, faults,
                                     sizeof faults / sizeof *faults, &found),
                     FER_OK);
    if (found > 0) {
        *fault = faults[0];
    }
    return fer_plan_setup(&row->order, at->press, at->dies, at->count, setup);
}

static size_t check_rows(const one_row *rows, size_t count, const fer_setup *setups,
                         const fer_row_status *statuses, const fer_fault *faults)
{
    size_t failed = 0;
    for (size_t i = 0; i < count; i++) {
        fer_setup expected;
        fer_fault fault;
        const fer_status status = plan_one(&rows[i], &expected, &fault);
        if (statuses[i] != (fer_row_status)status || !same_setups(&setups[i], &expected)) {
            fail_msg("row %zu: %s, not %s, or other bits", i, fer_status_name((fer_status)statuses[i]),
                     fer_status_name(status));
        }
        assert_int_equal(faults[i].status, status);
        assert_int_equal(faults[i].status, fault.status);
        assert_int_equal(faults[i].field, fault.field);
        assert_int_equal(faults[i].die, fault.die);
        failed += status != FER_OK;
    }
    return failed;
}

static void each_row_is_the_single_call(void **test_state)
{
    static one_row rows[row_count];
    static fer_setup setups[row_count];
    static fer_row_status statuses[row_count];
    static fer_fault faults[row_count];
    (void)test_state;
    const size_t count = (size_t)draws(row_count);
    for (uint64_t seed = 1; seed <= 3; seed++) {
        fill(rows, count, seed);
        const fer_order_columns columns = all_columns(&rows->order);
        const size_t failed = fer_plan_setups(count, &columns, workplaces, workplace_count,
                                              wholes_at(&rows->workplace), setups, statuses, faults);
        assert_int_equal(failed, check_rows(rows, count, setups, statuses, faults));
        assert_in_range(failed, count / 10, count * 9 / 10);
    }
}

/* What is the same in all rows may be a column of one value, or stand in the order that the rows have in common. */
static void what_rows_have_in_common(void **test_state)
{
    static one_row rows[few_rows];
    static fer_setup setups[few_rows];
    fer_row_status statuses[few_rows];
    fer_fault faults[few_rows];
    fer_order_columns columns = {0};
    fer_whole_column first = {0};
    uint64_t state = 7;
    const int adapter = 1;
    const double factor = 2.0;
    (void)test_state;
    fer_order common = worked_order(&state);
    know_more(&common, &state);
    common.uncertainties.correlations.hose_inside_hose_outside.fraction = 0.5;
    common.uncertainties.diameter.distribution = FER_DISTRIBUTION_NORMAL;
    for (size_t i = 0; i < few_rows; i++) {
        rows[i].order = common;
        rows[i].order.joint.hose.outside.mm = 19.0 + 0.01 * (double)i;
        rows[i].order.adapter_mounted = adapter;
        rows[i].order.guard.factor = factor;
        rows[i].workplace = 0;
    }
    columns.common = &common;
    columns.joint.hose_outside = lengths_at(&rows->order.joint.hose.outside);
    columns.adapter_mounted.first = &adapter;
    columns.adapter_mounted.same = 1;
    columns.guard.factor.first = &factor;
    columns.guard.factor.same = 1;
    (void)fer_plan_setups(few_rows, &columns, workplaces, 1, first, setups, statuses, faults);
    assert_int_equal(check_rows(rows, few_rows, setups, statuses, faults), 0);
}

/* What rows have in common is checked once, and the status of what is wrong in it is that of every row that gets so far. */
static void what_is_wrong_in_common(void **test_state)
{
    static one_row rows[few_rows];
    static fer_setup setups[few_rows];
    fer_row_status statuses[few_rows];
    fer_fault faults[few_rows];
    fer_order_columns columns = {0};
    fer_whole_column first = {0};
    uint64_t state = 9;
    (void)test_state;
    fer_order common = worked_order(&state);
    common.uncertainties.stem_outside.amount.mm = -1.0;
    for (size_t i = 0; i < few_rows; i++) {
        rows[i].order = common;
        rows[i].order.joint.hose.outside.mm = i % 3 == 0 ? NAN : 19.9;
        rows[i].order.adapter_mounted = i % 2 == 0 ? -1 : 0;
        rows[i].workplace = 0;
    }
    columns.common = &common;
    columns.joint.hose_outside = lengths_at(&rows->order.joint.hose.outside);
    columns.adapter_mounted = wholes_at(&rows->order.adapter_mounted);
    (void)fer_plan_setups(few_rows, &columns, workplaces, 1, first, setups, statuses, faults);
    assert_int_equal(check_rows(rows, few_rows, setups, statuses, faults), few_rows);
    assert_int_equal(statuses[0], FER_HOSE_OUTSIDE_OUT_OF_RANGE);
    assert_int_equal(statuses[2], FER_UNCERTAINTY_AMOUNT_OUT_OF_RANGE);
}

/* Rows side by side, which is what a step of 0 means, and rows from the last to the first. */
static void rows_side_by_side_and_backwards(void **test_state)
{
    static one_row rows[few_rows];
    static fer_setup setups[few_rows];
    fer_row_status statuses[few_rows];
    fer_fault faults[few_rows];
    fer_length insides[few_rows], outsides[few_rows];
    int approvals[few_rows];
    fer_order_columns columns = {0};
    fer_whole_column first = {0};
    uint64_t state = 11;
    (void)test_state;
    const fer_order common = worked_order(&state);
    for (size_t i = 0; i < few_rows; i++) {
        rows[i].order = common;
        rows[i].order.joint.hose.inside.mm = insides[i].mm = 12.5 + 0.003 * (double)i;
        rows[i].order.joint.hose.outside.mm = outsides[few_rows - 1 - i].mm = 19.5 + 0.005 * (double)i;
        approvals[i] = (int)(i % 4);
        rows[i].order.approval = (fer_approval)approvals[i];
        rows[i].workplace = 0;
    }
    columns.common = &common;
    columns.joint.hose_inside = fer_length_rows(insides);
    columns.joint.hose_outside.first = &outsides[few_rows - 1];
    columns.joint.hose_outside.step = -(ptrdiff_t)sizeof *outsides;
    columns.approval.first = approvals;
    const size_t failed = fer_plan_setups(few_rows, &columns, workplaces, 1, first, setups, statuses, faults);
    assert_int_equal(failed, few_rows / 4);
    assert_int_equal(failed, check_rows(rows, few_rows, setups, statuses, faults));
}

static void what_is_wrong_with_the_call_is_the_status_of_every_row(void **test_state)
{
    static const fer_setup empty = {0};
    static fer_setup setups[2];
    const fer_workplace without_press = {NULL, dies, 4}, without_dies = {&press, NULL, 1};
    fer_order_columns columns = {0};
    fer_whole_column first = {0};
    fer_row_status statuses[2];
    fer_fault faults[2];
    uint64_t state = 13;
    (void)test_state;
    const fer_order sound = worked_order(&state), unsound = {0};
    columns.common = &sound;
    const struct {
        const fer_order_columns *orders;
        const fer_workplace *workplaces;
        size_t count;
        fer_setup *setups;
        fer_status status;
    } calls[] = {{NULL, workplaces, 1, setups, FER_ARGUMENT_MISSING},
                 {&columns, NULL, 1, setups, FER_ARGUMENT_MISSING},
                 {&columns, workplaces, 1, NULL, FER_ARGUMENT_MISSING},
                 {&columns, workplaces, 0, setups, FER_WORKPLACE_UNKNOWN},
                 {&columns, &without_press, 1, setups, FER_ARGUMENT_MISSING},
                 {&columns, &without_dies, 1, setups, FER_ARGUMENT_MISSING}};
    for (size_t i = 0; i < sizeof calls / sizeof *calls; i++) {
        memset(setups, 1, sizeof setups);
        assert_int_equal(fer_plan_setups(2, calls[i].orders, calls[i].workplaces, calls[i].count, first,
                                         calls[i].setups, statuses, faults),
                         2);
        for (size_t row = 0; row < 2; row++) {
            assert_int_equal(statuses[row], calls[i].status);
            assert_int_equal(faults[row].status, calls[i].status);
            assert_int_equal(faults[row].field, FER_FIELD_COUNT);
            assert_true(!calls[i].setups || same_setups(&setups[row], &empty));
        }
        assert_int_equal(fer_plan_setups(2, calls[i].orders, calls[i].workplaces, calls[i].count, first,
                                         calls[i].setups, NULL, NULL),
                         2);
    }
    columns.common = &unsound; /* the order's own fault comes before the missing rack */
    assert_int_equal(fer_plan_setups(1, &columns, &without_dies, 1, first, setups, statuses, faults), 1);
    assert_int_equal(statuses[0], FER_HOSE_INSIDE_MISSING);
    assert_int_equal(faults[0].field, FER_FIELD_JOINT_HOSE_INSIDE);
    assert_int_equal(fer_plan_setups(0, &columns, workplaces, 1, first, setups, statuses, faults), 0);
}

/* ---- inspections ---------------------------------------------------------------------------------------------------- */

static int same_summaries(const fer_reading_summary *a, const fer_reading_summary *b)
{
    return SAME(count) && SAME(missing) && SAME(over_gaps) && SAME(mean) && SAME(minimum) && SAME(maximum) &&
           SAME(range) && FOUND(scatter) && SAME(standard_uncertainty) && SAME(degrees_of_freedom) &&
           SAME(sections) && FOUND(ovality) && SAME(ovality_section) && FOUND(taper) &&
           FOUND(section_range) && SAME(outlier_found) && SAME(outlier_index);
}

static int same_inspections(const fer_inspection *a, const fer_inspection *b)
{
    return same_summaries(&a->summary, &b->summary) && SAME(verdict.decision) && SAME(verdict.conforming) &&
           SAME(verdict.below) && SAME(verdict.above) && SAME(verdict.accept) && SAME(verdict.reject) &&
           SAME(verdict.guard) && SAME(limits) && SAME(deviation) && SAME(cautions) && SAME(decision) &&
           SAME(applies_to) && same_zones(&a->zone, &b->zone) && SAME(worst_index) && SAME(worst) &&
           SAME(worst_section) && FOUND(compression_conforming) && SAME(findings);
}

static void fill_readings(fer_reading *readings, uint64_t *state)
{
    for (size_t i = 0; i < few_rows * readings_a_row; i++) {
        const fer_reading one = {{once_in(state, 4) ? 0.0 : between(state, 23.2, 23.8)},
                                 (int)(next(state) % 3),
                                 {between(state, 0.0, 3.0)},
                                 1};
        readings[i] = one;
        if (once_in(state, 60)) {
            readings[i].diameter.mm = awkward(state);
        }
    }
}

static void each_inspection_is_the_single_call(void **test_state)
{
    static one_row rows[few_rows];
    static fer_setup setups[few_rows];
    static fer_reading readings[few_rows * readings_a_row];
    static fer_inspection found[few_rows];
    fer_row_status statuses[few_rows];
    fer_gauge gauges[few_rows];
    uint64_t state = 17;
    const fer_length correction = {0.002};
    const fer_gauge_columns columns = {{&gauges->standard_uncertainty, (ptrdiff_t)sizeof *gauges, 0},
                                       fer_same_length(&correction),
                                       {&gauges->resolution, (ptrdiff_t)sizeof *gauges, 0}};
    const fer_marks marks = {{0.1}, 1, {0.0}, 0};
    const fer_guard guard = {0};
    const fer_process process = {{23.5}, {0.05}};
    size_t failed = 0;
    (void)test_state;
    fill(rows, few_rows, 19);
    fill_readings(readings, &state);
    const fer_order_columns orders = all_columns(&rows->order);
    (void)fer_plan_setups(few_rows, &orders, workplaces, workplace_count, wholes_at(&rows->workplace), setups,
                          statuses, NULL);
    for (size_t i = 0; i < few_rows; i++) {
        gauges[i].standard_uncertainty.mm = once_in(&state, 9) ? awkward(&state) : 0.005;
        gauges[i].correction = correction;
        gauges[i].resolution.mm = once_in(&state, 2) ? 0.01 : 0.0;
    }
    const size_t counted = fer_inspect_crimps(few_rows, setups, readings, readings_a_row, &columns, marks,
                                              guard, process, found, statuses);
    for (size_t i = 0; i < few_rows; i++) {
        fer_inspection expected;
        const fer_status status = fer_inspect_crimp(&setups[i], readings + i * readings_a_row, readings_a_row,
                                                    &gauges[i], marks, guard, process, &expected);
        assert_int_equal(statuses[i], status);
        assert_true(same_inspections(&found[i], &expected));
        failed += status != FER_OK;
    }
    assert_int_equal(failed, counted);
    assert_in_range(failed, few_rows / 10, few_rows * 9 / 10);
}

static void what_an_inspection_needs(void **test_state)
{
    static const fer_setup setup = {0};
    static const fer_reading reading = {{23.5}, 0, {0.0}, 0};
    const fer_gauge_columns none = {{0}, {0}, {0}};
    const fer_marks marks = {{0.0}, 0, {0.0}, 0};
    const fer_guard guard = {0};
    const fer_process process = {{0.0}, {0.0}};
    fer_inspection found;
    fer_row_status status;
    (void)test_state;
    assert_int_equal(
        fer_inspect_crimps(1, &setup, &reading, 1, &none, marks, guard, process, &found, &status), 1);
    assert_int_equal(status, FER_SETUP_INCOMPLETE);
    assert_int_equal(fer_inspect_crimps(1, NULL, &reading, 1, &none, marks, guard, process, &found, &status),
                     1);
    assert_int_equal(status, FER_ARGUMENT_MISSING);
    assert_int_equal(fer_inspect_crimps(1, &setup, NULL, 1, &none, marks, guard, process, &found, NULL), 1);
    assert_int_equal(fer_inspect_crimps(1, &setup, &reading, 1, NULL, marks, guard, process, &found, NULL),
                     1);
    assert_int_equal(fer_inspect_crimps(1, &setup, &reading, 1, &none, marks, guard, process, NULL, &status),
                     1);
    assert_int_equal(status, FER_ARGUMENT_MISSING);
    assert_int_equal(fer_inspect_crimps(0, NULL, NULL, 0, NULL, marks, guard, process, NULL, NULL), 0);
}

/* ---- zones ----------------------------------------------------------------------------------------------------------- */

static void each_zone_is_the_single_call(void **test_state)
{
    fer_length lower[few_rows], upper[few_rows], u[few_rows];
    fer_acceptance_zone zones[few_rows];
    fer_row_status statuses[few_rows];
    const fer_guard guard = {2.0, 0, FER_SIDE_BOTH, 0.0};
    uint64_t state = 23;
    size_t failed = 0;
    (void)test_state;
    for (size_t i = 0; i < few_rows; i++) {
        lower[i].mm = once_in(&state, 9) ? awkward(&state) : between(&state, 23.0, 23.4);
        upper[i].mm = between(&state, 23.3, 23.9);
        u[i].mm = once_in(&state, 9) ? awkward(&state) : between(&state, 0.0, 0.1);
    }
    const size_t counted = fer_find_acceptance_zones(few_rows, fer_length_rows(lower), fer_length_rows(upper),
                                                     fer_length_rows(u), guard, zones, statuses);
    for (size_t i = 0; i < few_rows; i++) {
        const fer_length_range limits = {lower[i], upper[i]};
        fer_acceptance_zone expected;
        const fer_status status = fer_find_acceptance_zone(limits, u[i], guard, &expected);
        assert_int_equal(statuses[i], status);
        assert_true(same_zones(&zones[i], &expected));
        failed += status != FER_OK;
    }
    assert_int_equal(failed, counted);
    assert_in_range(failed, 1, few_rows / 2);
    assert_int_equal(fer_find_acceptance_zones(1, fer_length_rows(lower), fer_length_rows(upper),
                                               fer_length_rows(u), guard, NULL, statuses),
                     1);
    assert_int_equal(statuses[0], FER_ARGUMENT_MISSING);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_row_is_the_single_call),
        cmocka_unit_test(what_rows_have_in_common),
        cmocka_unit_test(what_is_wrong_in_common),
        cmocka_unit_test(rows_side_by_side_and_backwards),
        cmocka_unit_test(what_is_wrong_with_the_call_is_the_status_of_every_row),
        cmocka_unit_test(each_inspection_is_the_single_call),
        cmocka_unit_test(what_an_inspection_needs),
        cmocka_unit_test(each_zone_is_the_single_call),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
