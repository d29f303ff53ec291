/* SPDX-License-Identifier: MIT */
/* Set-ups and inspections over tables of orders and readings.
 * Method: one order whose members the columns write row by row; what press and rack decide is found once.
 * Formulas: those of setup.h and inspection.h; docs/bulk.md. */
#include <ferrule/bulk.h>

#include "base/value_private.h"
#include "crimp/setup_private.h"

#include <assert.h>
#include <string.h>

/* ---- columns of orders -------------------------------------------------------------------------------------- */

/* Every kind of column, whatever it points at. */
typedef struct {
    const void *first;
    ptrdiff_t step;
    int same;
} any_column;

static_assert(sizeof(any_column) == sizeof(fer_length_column) &&
                  sizeof(any_column) == sizeof(fer_whole_column) &&
                  offsetof(fer_length_column, same) == offsetof(any_column, same),
              "all columns are alike");

/* Where a column stands among the columns, and where its numbers go in an order. */
typedef struct {
    unsigned short column, member, bytes;
} place;

#define PLACE(from, to)                                                                                      \
    {                                                                                                        \
        offsetof(fer_order_columns, from), offsetof(fer_order, to), sizeof(((fer_order *)0)->to)             \
    }
#define PLACES_OF_UNCERTAINTY(from, to)                                                                      \
    PLACE(from.amount, to.amount), PLACE(from.distribution, to.distribution),                                \
        PLACE(from.degrees_of_freedom, to.degrees_of_freedom)
#define PLACES_OF_METAL(name)                                                                                \
    PLACE(name.elastic_modulus, name.elastic_modulus), PLACE(name.poisson, name.poisson),                    \
        PLACE(name.yield_strength, name.yield_strength), PLACE(name.hardening, name.hardening)

static const place places[] = {
    PLACE(joint.hose_inside, joint.hose.inside),
    PLACE(joint.hose_outside, joint.hose.outside),
    PLACE(joint.hose_reinforcement, joint.hose.reinforcement),
    PLACE(joint.stem_outside, joint.stem.outside),
    PLACE(joint.stem_bore, joint.stem.bore),
    PLACE(joint.ferrule_wall, joint.ferrule.wall),
    PLACE(joint.ferrule_outside, joint.ferrule.outside),
    PLACE(joint.ferrule_length, joint.ferrule.length),
    PLACE(published, published),
    PLACE(tolerance, tolerance),
    PLACE(range_lower, range.lower),
    PLACE(range_upper, range.upper),
    PLACE(aim, aim),
    PLACE(model_basis, model.basis),
    PLACE(model_flow, model.flow),
    PLACE(widest, widest),
    PLACES_OF_UNCERTAINTY(hose_inside_uncertainty, uncertainties.hose_inside),
    PLACES_OF_UNCERTAINTY(hose_outside_uncertainty, uncertainties.hose_outside),
    PLACES_OF_UNCERTAINTY(stem_outside_uncertainty, uncertainties.stem_outside),
    PLACES_OF_UNCERTAINTY(ferrule_wall_uncertainty, uncertainties.ferrule_wall),
    PLACES_OF_UNCERTAINTY(ferrule_outside_uncertainty, uncertainties.ferrule_outside),
    PLACES_OF_UNCERTAINTY(diameter_uncertainty, uncertainties.diameter),
    PLACE(adapter_mounted, adapter_mounted),
    PLACES_OF_METAL(ferrule_metal),
    PLACES_OF_METAL(stem_metal),
    PLACE(restraint, load.restraint),
    PLACE(hose_pressure, load.hose_pressure),
    PLACE(minimum_bore, minimum_bore),
    PLACE(applies_to, applies_to),
    PLACE(gauge.standard_uncertainty, gauge.standard_uncertainty),
    PLACE(gauge.correction, gauge.correction),
    PLACE(gauge.resolution, gauge.resolution),
    PLACE(guard.factor, guard.factor),
    PLACE(guard.without, guard.without),
    PLACE(guard.side, guard.side),
    PLACE(guard.degrees_of_freedom, guard.degrees_of_freedom),
    PLACE(approval, approval),
    PLACE(insertion, insertion),
    PLACE(skive_outside, skive_outside),
    PLACE(skive_inside, skive_inside),
    PLACE(lobe_maximum, lobe_maximum),
};
enum { place_count = sizeof places / sizeof *places };

/* A column with numbers of its own, and what they are written over. */
typedef struct {
    const char *first;
    ptrdiff_t step;
    size_t member, bytes;
} source;

/* Orders row by row: one that changes from row to row. */
typedef struct {
    fer_order order;
    source sources[place_count];
    size_t count;
    fer_checked_uncertainties uncertainties;
    int same_uncertainties; /* no column is one of uncertainties */
} order_reader;

static ptrdiff_t step_of(const any_column *column, size_t bytes)
{
    return column->same ? 0 : column->step == 0 ? (ptrdiff_t)bytes : column->step;
}

static void copy_number(void *to, const char *from, size_t bytes)
{
    if (bytes == sizeof(double)) {
        memcpy(to, from, sizeof(double));
    } else {
        memcpy(to, from, sizeof(int));
    }
}

static int is_uncertainty(const source *own)
{
    return own->member >= offsetof(fer_order, uncertainties) &&
           own->member < offsetof(fer_order, uncertainties) + sizeof(fer_uncertainties);
}

static void begin_orders(const fer_order_columns *orders, size_t rows, order_reader *reader)
{
    FER_EMPTY(reader->order);
    if (orders->common) {
        reader->order = *orders->common;
    }
    reader->count = 0;
    reader->same_uncertainties = 1;
    for (size_t i = 0; i < place_count && rows > 0; i++) {
        any_column column;
        memcpy(&column, (const char *)orders + places[i].column, sizeof column);
        const source own = {(const char *)column.first, step_of(&column, places[i].bytes), places[i].member,
                            places[i].bytes};
        if (own.first && own.step == 0) {
            copy_number((char *)&reader->order + own.member, own.first, own.bytes);
        } else if (own.first) {
            reader->sources[reader->count++] = own;
            reader->same_uncertainties &= !is_uncertainty(&own);
        }
    }
    reader->uncertainties = fer_check_orders_uncertainties(&reader->order.uncertainties);
}

static const fer_order *order_at(order_reader *reader, size_t row)
{
    for (size_t i = 0; i < reader->count; i++) {
        const source *own = &reader->sources[i];
        copy_number((char *)&reader->order + own->member, own->first + (ptrdiff_t)row * own->step,
                    own->bytes);
    }
    if (!reader->same_uncertainties) {
        reader->uncertainties = fer_check_orders_uncertainties(&reader->order.uncertainties);
    }
    return &reader->order;
}

/* ---- set-ups ------------------------------------------------------------------------------------------------- */

/* What the rows of a table of orders need. The workplace of the row before is checked already. */
typedef struct {
    order_reader orders;
    const fer_workplace *workplaces;
    size_t count;
    fer_whole_column workplace;
    size_t here;
    fer_checked_workplace at;
} planner;

static size_t workplace_at(const planner *p, size_t row)
{
    const any_column column = {p->workplace.first, p->workplace.step, p->workplace.same};
    int number = 0;
    if (column.first) {
        memcpy(&number, (const char *)column.first + (ptrdiff_t)row * step_of(&column, sizeof number),
               sizeof number);
    }
    return number < 0 ? SIZE_MAX : (size_t)number;
}

static fer_status go_to(planner *p, size_t number)
{
    FER_REQUIRE(number < p->count, FER_WORKPLACE_UNKNOWN);
    const fer_workplace *next = &p->workplaces[number];
    FER_REQUIRE(next->press, FER_ARGUMENT_MISSING);
    if (number != p->here) {
        p->at = fer_check_workplace(next->press, next->dies, next->count);
        p->here = number;
    }
    return FER_OK;
}

/* Of an order that a workplace takes, by its rules; all else is the fault of no field. */
static void note_fault(fer_status status, const fer_order *order, const fer_checked_workplace *at,
                       fer_fault *fault)
{
    FER_EMPTY(*fault);
    if (status == FER_OK) {
        return;
    }
    fault->status = status;
    fault->field = FER_FIELD_COUNT;
    if (at && status != FER_ARGUMENT_MISSING) {
        fer_find_first_fault(order, at->press, at->dies, at->dies ? at->count : 0, fault);
    }
}

static fer_status plan_row(planner *p, size_t row, fer_setup *setup, fer_fault *fault)
{
    const fer_order *order = order_at(&p->orders, row);
    const fer_status there = go_to(p, workplace_at(p, row));
    fer_status status = there;
    if (there == FER_OK) {
        status = fer_plan_setup_at(order, &p->orders.uncertainties, &p->at, setup);
    } else {
        FER_EMPTY(*setup);
    }
    if (fault) {
        note_fault(status, order, there == FER_OK ? &p->at : NULL, fault);
    }
    return status;
}

/* The row's status where it is wanted; 1: it failed. */
static size_t note(fer_row_status *statuses, size_t row, fer_status status)
{
    if (statuses) {
        statuses[row] = (fer_row_status)status;
    }
    return status != FER_OK;
}

/* A call without orders, workplaces or a place for the results: each row fails. */
static size_t refuse_all(size_t rows, fer_setup *setups, fer_row_status *statuses, fer_fault *faults)
{
    size_t failed = 0;
    for (size_t row = 0; row < rows; row++) {
        if (setups) {
            FER_EMPTY(setups[row]);
        }
        if (faults) {
            note_fault(FER_ARGUMENT_MISSING, NULL, NULL, &faults[row]);
        }
        failed += note(statuses, row, FER_ARGUMENT_MISSING);
    }
    return failed;
}

size_t fer_plan_setups(size_t rows, const fer_order_columns *orders, const fer_workplace *workplaces,
                       size_t count, fer_whole_column workplace, fer_setup *setups, fer_row_status *statuses,
                       fer_fault *faults)
{
    planner p;
    size_t failed = 0;
    if (!orders || !workplaces || !setups) {
        return refuse_all(rows, setups, statuses, faults);
    }
    begin_orders(orders, rows, &p.orders);
    p.workplaces = workplaces;
    p.count = count;
    p.workplace = workplace;
    p.here = SIZE_MAX;
    for (size_t row = 0; row < rows; row++) {
        failed += note(statuses, row, plan_row(&p, row, &setups[row], faults ? &faults[row] : NULL));
    }
    return failed;
}

/* ---- inspections --------------------------------------------------------------------------------------------- */

static fer_length length_at(fer_length_column given, size_t row)
{
    const any_column column = {given.first, given.step, given.same};
    fer_length found = {0.0};
    if (column.first) {
        memcpy(&found, (const char *)column.first + (ptrdiff_t)row * step_of(&column, sizeof found),
               sizeof found);
    }
    return found;
}

size_t fer_inspect_crimps(size_t rows, const fer_setup *setups, const fer_reading *readings, size_t count,
                          const fer_gauge_columns *gauges, fer_marks marks, fer_guard guard,
                          fer_process process, fer_inspection *inspections, fer_row_status *statuses)
{
    size_t failed = 0;
    for (size_t row = 0; row < rows; row++) {
        fer_gauge gauge = {{0.0}, {0.0}, {0.0}};
        if (gauges) {
            gauge.standard_uncertainty = length_at(gauges->standard_uncertainty, row);
            gauge.correction = length_at(gauges->correction, row);
            gauge.resolution = length_at(gauges->resolution, row);
        }
        failed +=
            note(statuses, row,
                 fer_inspect_crimp(setups ? &setups[row] : NULL, readings ? readings + row * count : NULL,
                                   count, gauges ? &gauge : NULL, marks, guard, process,
                                   inspections ? &inspections[row] : NULL));
    }
    return failed;
}
