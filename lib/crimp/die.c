/* SPDX-License-Identifier: MIT */
/* Which die to use, which diameters a rack leaves out, which dies to buy.
 * Method: comparisons of ranges; the fewest purchases by taking the farthest reach again and again.
 * Formulas: include/ferrule/die.h; docs/die.md. */
#include <ferrule/die.h>

#include "crimp/die_private.h"
#include "base/value_private.h"

fer_status fer_check_die_rules(const fer_die *die, fer_fault_visitor *faults)
{
    FER_RULE(faults, fer_die, size,
             fer_check_length(die->size, FER_DIE_SIZE_MISSING, FER_DIE_SIZE_OUT_OF_RANGE));
    FER_RULE(faults, fer_die, reach,
             fer_unless(die->reach.mm >= 0.0 && die->reach.mm <= FER_LENGTH_MAXIMUM_MM,
                        FER_DIE_REACH_OUT_OF_RANGE));
    FER_RULE(faults, fer_die, adapter, fer_unless(die->adapter >= 0, FER_DIE_ADAPTER_OUT_OF_RANGE));
    FER_RULE(faults, fer_die, length,
             fer_unless(fer_is_length_or_none(die->length), FER_DIE_LENGTH_OUT_OF_RANGE));
    return FER_OK;
}

fer_status fer_check_die(const fer_die *die)
{
    return fer_check_die_rules(die, NULL);
}

fer_status fer_check_dies(const fer_die *dies, size_t count)
{
    FER_REQUIRE(dies || count == 0, FER_ARGUMENT_MISSING);
    for (size_t i = 0; i < count; i++) {
        FER_TRY(fer_check_die(&dies[i]));
    }
    return FER_OK;
}

static int reaches(const fer_die *die, double target)
{
    return die->size.mm <= target && target <= fer_die_end(die);
}

/* ---- choice ------------------------------------------------------------------------------------------- */

static int is_better(const fer_die *die, const fer_die *best, int adapter_mounted)
{
    if (die->size.mm != best->size.mm) {
        return die->size.mm > best->size.mm;
    }
    return die->adapter == adapter_mounted && best->adapter != adapter_mounted;
}

/* Place of the best die, or count. */
static size_t find_best(const fer_die *dies, size_t count, double target, fer_die_needs needs)
{
    size_t best = count;
    for (size_t i = 0; i < count; i++) {
        if (reaches(&dies[i], target) && fer_is_die_long_enough(&dies[i], needs.ferrule_length) &&
            (best == count || is_better(&dies[i], &dies[best], needs.adapter_mounted))) {
            best = i;
        }
    }
    return best;
}

static double distance_outside(const fer_die *die, double target)
{
    return fmax(0.0, fmax(die->size.mm - target, target - fer_die_end(die)));
}

static void say_what_to_buy(const fer_die *dies, size_t count, double target, fer_die_choice *choice)
{
    const double lower = target - FER_DIE_REACH_USUAL_MM;
    choice->buy.lower.mm = lower > FER_LENGTH_MINIMUM_MM ? lower : FER_LENGTH_MINIMUM_MM;
    choice->buy.upper.mm = target;
    for (size_t i = 0; i < count; i++) {
        const double distance = distance_outside(&dies[i], target);
        if (!choice->nearest_found || distance < choice->nearest_distance.mm) {
            choice->nearest_found = 1;
            choice->nearest_index = i;
            choice->nearest_distance.mm = distance;
        }
    }
}

static fer_status choose(const fer_die *dies, size_t count, double target, fer_die_needs needs,
                         fer_die_choice *choice)
{
    const fer_length wanted = {target};
    FER_TRY(fer_check_length(wanted, FER_TARGET_MISSING, FER_TARGET_OUT_OF_RANGE));
    FER_REQUIRE(needs.adapter_mounted >= 0, FER_DIE_ADAPTER_OUT_OF_RANGE);
    FER_REQUIRE(fer_is_length_or_none(needs.ferrule_length), FER_FERRULE_LENGTH_OUT_OF_RANGE);
    choice->index = find_best(dies, count, target, needs);
    if (choice->index == count) {
        say_what_to_buy(dies, count, target, choice);
        return FER_OK;
    }
    choice->found = 1;
    choice->die = dies[choice->index];
    choice->offset.mm = target - choice->die.size.mm;
    choice->adapter_change = choice->die.adapter != needs.adapter_mounted;
    return FER_OK;
}

fer_status fer_choose_die_checked(const fer_die *dies, size_t count, fer_length target, fer_die_needs needs,
                                  fer_die_choice *choice)
{
    FER_EMPTY(*choice);
    return choose(dies, count, target.mm, needs, choice);
}

fer_status fer_choose_die(const fer_die *dies, size_t count, fer_length target, fer_die_needs needs,
                          fer_die_choice *choice)
{
    FER_REQUIRE(choice, FER_ARGUMENT_MISSING);
    FER_EMPTY(*choice);
    FER_TRY(fer_check_dies(dies, count));
    return choose(dies, count, target.mm, needs, choice);
}

/* ---- coverage ----------------------------------------------------------------------------------------- */

/* How far the dies reach on from a diameter without a gap; the diameter itself where none goes on from there. */
static double reach_from(const fer_die *dies, size_t count, double diameter)
{
    double end = diameter;
    for (size_t i = 0; i < count; i++) {
        if (dies[i].size.mm <= diameter) {
            end = fmax(end, fer_die_end(&dies[i]));
        }
    }
    return end;
}

/* Smallest die size above a diameter, or most. */
static double next_size(const fer_die *dies, size_t count, double diameter, double upper)
{
    double next = upper;
    for (size_t i = 0; i < count; i++) {
        if (dies[i].size.mm > diameter) {
            next = fmin(next, dies[i].size.mm);
        }
    }
    return next;
}

static fer_status find_gaps(const fer_die *dies, size_t count, fer_length_range over, fer_length_range *gaps,
                            size_t capacity, size_t *found)
{
    FER_REQUIRE(gaps || capacity == 0, FER_ARGUMENT_MISSING);
    FER_REQUIRE(count <= 10000, FER_ARGUMENT_COUNT_TOO_LARGE);
    FER_TRY(fer_check_dies(dies, count));
    FER_TRY(fer_check_length(over.lower, FER_DIAMETER_MISSING, FER_DIAMETER_OUT_OF_RANGE));
    FER_TRY(fer_check_length(over.upper, FER_DIAMETER_MISSING, FER_DIAMETER_OUT_OF_RANGE));
    FER_REQUIRE(over.lower.mm < over.upper.mm, FER_DIAMETER_RANGE_WRONG_ORDER);
    double diameter = over.lower.mm;
    size_t written = 0;
    while (diameter < over.upper.mm) {
        const double end = reach_from(dies, count, diameter);
        if (end > diameter) {
            diameter = end;
            continue;
        }
        FER_REQUIRE(written < capacity, FER_ARGUMENT_CAPACITY_TOO_SMALL);
        gaps[written].lower.mm = diameter;
        diameter = next_size(dies, count, diameter, over.upper.mm);
        gaps[written++].upper.mm = diameter;
    }
    *found = written;
    return FER_OK;
}

fer_status fer_find_coverage_gaps(const fer_die *dies, size_t count, fer_length_range over,
                                  fer_length_range *gaps, size_t capacity, size_t *found)
{
    FER_REQUIRE(found, FER_ARGUMENT_MISSING);
    *found = 0;
    return find_gaps(dies, count, over, gaps, capacity, found);
}

/* ---- purchase ----------------------------------------------------------------------------------------- */

/* So many targets are sorted at a time: there is no memory but the stack, and this is 2 kB of it. */
enum { waiting_most = 256 };

/* Lets the number at a place of a heap sink; the greatest is at place 0. */
static void sink(double *heap, size_t count, size_t place)
{
    const double number = heap[place];
    for (size_t child = 2 * place + 1; child < count; child = 2 * place + 1) {
        child += child + 1 < count && heap[child + 1] > heap[child];
        if (!(heap[child] > number)) {
            break;
        }
        heap[place] = heap[child];
        place = child;
    }
    heap[place] = number;
}

/* Lets the number at a place rise. */
static void rise(double *heap, size_t place)
{
    const double number = heap[place];
    for (; place > 0 && heap[(place - 1) / 2] < number; place = (place - 1) / 2) {
        heap[place] = heap[(place - 1) / 2];
    }
    heap[place] = number;
}

/* The smallest targets above a diameter, in rising order. */
static size_t list_smallest(const fer_length *targets, size_t target_count, double above,
                            double smallest[waiting_most])
{
    size_t count = 0;
    for (size_t i = 0; i < target_count; i++) {
        if (targets[i].mm > above && count < waiting_most) {
            smallest[count] = targets[i].mm;
            rise(smallest, count++);
        } else if (targets[i].mm > above && targets[i].mm < smallest[0]) {
            smallest[0] = targets[i].mm;
            sink(smallest, count, 0);
        }
    }
    for (size_t left = count; left > 1; left--) {
        const double greatest = smallest[0];
        smallest[0] = smallest[left - 1];
        sink(smallest, left - 1, 0);
        smallest[left - 1] = greatest;
    }
    return count;
}

/* How far the dies up to a diameter reach: from there on without a gap, where it is not below. */
static double farthest_reach(const fer_die *dies, size_t count, double diameter)
{
    double end = 0.0;
    for (size_t i = 0; i < count; i++) {
        if (dies[i].size.mm <= diameter) {
            end = fmax(end, fer_die_end(&dies[i]));
        }
    }
    return end;
}

/* The offer that reaches a target and farthest beyond it. */
static fer_status choose_offer(const fer_die *offers, size_t offer_count, double target, fer_die *purchase)
{
    const fer_die made_to_order = {{target}, {0.0}, 0, {0.0}};
    const fer_die *best = NULL;
    if (offer_count == 0) {
        *purchase = made_to_order;
        return FER_OK;
    }
    for (size_t i = 0; i < offer_count; i++) {
        if (reaches(&offers[i], target) && (!best || fer_die_end(&offers[i]) > fer_die_end(best))) {
            best = &offers[i];
        }
    }
    FER_REQUIRE(best, FER_TARGET_WITHOUT_DIE);
    *purchase = *best;
    return FER_OK;
}

static fer_status check_targets(const fer_length *targets, size_t count)
{
    FER_REQUIRE(targets || count == 0, FER_ARGUMENT_MISSING);
    for (size_t i = 0; i < count; i++) {
        FER_TRY(fer_check_length(targets[i], FER_TARGET_MISSING, FER_TARGET_OUT_OF_RANGE));
    }
    return FER_OK;
}

static fer_status purchase_all(const fer_die *dies, size_t count, const fer_length *targets,
                               size_t target_count, const fer_die *offers, size_t offer_count,
                               fer_die *purchases, size_t capacity, size_t *found)
{
    size_t bought = 0;
    FER_REQUIRE(purchases || capacity == 0, FER_ARGUMENT_MISSING);
    FER_TRY(fer_check_dies(dies, count));
    FER_TRY(check_targets(targets, target_count));
    FER_TRY(fer_check_dies(offers, offer_count));
    /* In rising order everything up to `end` has a die: whatever is bought for a target reaches on from it. */
    double waiting[waiting_most], end = 0.0;
    size_t count_waiting;
    while ((count_waiting = list_smallest(targets, target_count, end, waiting)) > 0) {
        for (size_t i = 0; i < count_waiting; i++) {
            if (waiting[i] > end) {
                end = farthest_reach(dies, count, waiting[i]);
            }
            if (waiting[i] > end) {
                FER_REQUIRE(bought < capacity, FER_ARGUMENT_CAPACITY_TOO_SMALL);
                FER_TRY(choose_offer(offers, offer_count, waiting[i], &purchases[bought]));
                end = fer_die_end(&purchases[bought++]);
            }
        }
    }
    *found = bought;
    return FER_OK;
}

fer_status fer_choose_purchases(const fer_die *dies, size_t count, const fer_length *targets,
                                size_t target_count, const fer_die *offers, size_t offer_count,
                                fer_die *purchases, size_t capacity, size_t *found)
{
    FER_REQUIRE(found, FER_ARGUMENT_MISSING);
    *found = 0;
    return purchase_all(dies, count, targets, target_count, offers, offer_count, purchases, capacity, found);
}
