/* SPDX-License-Identifier: MIT */
/* What dies are worth: prices of demands that give a bound of the cost, and each die by itself.
 * Method: demands in order take what is left of their dies' prices; sums over the nearest and the second nearest die.
 * Formulas: include/ferrule/rack.h; docs/rack.md. */
#include <ferrule/rack.h>

#include "shop/rack_private.h"

/* ---- prices of demands -------------------------------------------------------------------------------------- */

/* First and last place of the dies that do a demand; the number of all where none does. */
static void find_ends(const fer_rack_task *task, size_t demand, fer_work *ends)
{
    ends->pair[0] = ends->pair[1] = (uint32_t)task->all;
    for (size_t place = 0; place < task->all; place++) {
        if (fer_does(task, place, demand)) {
            ends->pair[0] = ends->pair[0] == task->all ? (uint32_t)place : ends->pair[0];
            ends->pair[1] = (uint32_t)place;
        }
    }
}

/* The next demand by its largest die, then by its smallest, then as the caller has them, behind one; demand_count: none. */
static int is_later(const fer_work *ends, size_t a, size_t b)
{
    if (ends[a].pair[1] != ends[b].pair[1]) {
        return ends[a].pair[1] > ends[b].pair[1];
    }
    return ends[a].pair[0] != ends[b].pair[0] ? ends[a].pair[0] > ends[b].pair[0] : a > b;
}

/* Lets the demand at a place of a heap sink; the last in order is at place 0. */
static void sink(fer_work *heap, const fer_work *ends, size_t count, size_t place)
{
    const uint32_t demand = heap[place].pair[0];
    for (size_t child = 2 * place + 1; child < count; child = 2 * place + 1) {
        child += child + 1 < count && is_later(ends, heap[child + 1].pair[0], heap[child].pair[0]);
        if (!is_later(ends, heap[child].pair[0], demand)) {
            break;
        }
        heap[place].pair[0] = heap[child].pair[0];
        place = child;
    }
    heap[place].pair[0] = demand;
}

static void sort_demands(fer_work *sorted, const fer_work *ends, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        sorted[i].pair[0] = (uint32_t)i;
    }
    for (size_t i = count / 2; i > 0; i--) {
        sink(sorted, ends, count, i - 1);
    }
    for (size_t left = count; left > 1; left--) {
        const uint32_t last = sorted[0].pair[0];
        sorted[0].pair[0] = sorted[left - 1].pair[0];
        sink(sorted, ends, left - 1, 0);
        sorted[left - 1].pair[0] = last;
    }
}

/* What is left of the price of a demand's cheapest die is the demand's price, and is taken off all of its dies. */
static double take_price(const fer_rack_task *task, size_t demand, fer_work *left)
{
    double price = INFINITY;
    for (size_t place = 0; place < task->all; place++) {
        if (fer_does(task, place, demand)) {
            price = fmin(price, left[place].number);
        }
    }
    for (size_t place = 0; place < task->all; place++) {
        if (fer_does(task, place, demand)) {
            left[place].number -= price;
        }
    }
    return price;
}

static fer_status find_prices(fer_rack_task *task, fer_work *work, size_t words, double *prices,
                              size_t capacity, size_t *found, double *minimum)
{
    fer_work *ends, *sorted, *left;
    FER_TRY(fer_begin_rack(task, work, words));
    FER_REQUIRE(prices || capacity == 0, FER_ARGUMENT_MISSING);
    FER_REQUIRE(capacity >= task->demand_count, FER_ARGUMENT_CAPACITY_TOO_SMALL);
    FER_TRY(fer_take_work(task, task->demand_count, &ends));
    FER_TRY(fer_take_work(task, task->demand_count, &sorted));
    FER_TRY(fer_take_work(task, task->all, &left));
    for (size_t i = 0; i < task->demand_count; i++) {
        find_ends(task, i, &ends[i]);
    }
    for (size_t place = 0; place < task->all; place++) {
        left[place].number = fer_price_at(task, place);
    }
    sort_demands(sorted, ends, task->demand_count);
    double sum = 0.0;
    for (size_t i = 0; i < task->demand_count; i++) {
        const size_t demand = sorted[i].pair[0];
        prices[demand] = ends[demand].pair[1] < task->all ? take_price(task, demand, left) : 0.0;
        sum += prices[demand];
    }
    *minimum = sum;
    *found = task->demand_count;
    return FER_OK;
}

fer_status fer_find_demand_prices(const fer_die *dies, size_t count, const fer_demand *demands,
                                  size_t demand_count, const fer_offer *offers, size_t offer_count,
                                  int segments, fer_work *work, size_t words, double *prices, size_t capacity,
                                  size_t *found, double *minimum)
{
    fer_rack_task task = {dies,     count, demands, demand_count, offers, offer_count, 0.0,
                          segments, 0,     0,       NULL,         NULL,   NULL,        0};
    if (found) {
        *found = 0;
    }
    if (minimum) {
        FER_LEAVE_OUT(*minimum);
    }
    FER_REQUIRE(found && minimum, FER_ARGUMENT_MISSING);
    return find_prices(&task, work, words, prices, capacity, found, minimum);
}

/* ---- dies by themselves ------------------------------------------------------------------------------------- */

/* Of the dies owned that do a demand the largest, and the largest below it; the number of all where there is none. */
static void find_nearest_two(const fer_rack_task *task, size_t demand, fer_work *nearest)
{
    nearest->pair[0] = nearest->pair[1] = (uint32_t)task->all;
    for (size_t place = task->all; place > 0; place--) {
        if (fer_is_offer_at(task, place - 1) || !fer_does(task, place - 1, demand)) {
            continue;
        }
        if (nearest->pair[0] < task->all) {
            nearest->pair[1] = (uint32_t)(place - 1);
            return;
        }
        nearest->pair[0] = (uint32_t)(place - 1);
    }
}

static fer_status begin_nearest(fer_rack_task *task, fer_work *work, size_t words, fer_work **nearest)
{
    FER_TRY(fer_begin_rack(task, work, words));
    FER_TRY(fer_take_work(task, task->demand_count, nearest));
    for (size_t i = 0; i < task->demand_count; i++) {
        find_nearest_two(task, i, &(*nearest)[i]);
    }
    return FER_OK;
}

static void find_die_worth(const fer_rack_task *task, const fer_work *nearest, fer_work *taken_over,
                           size_t place, fer_die_worth *worth)
{
    double moved = 0.0, offset = 0.0;
    const fer_die_worth empty = {fer_number_at(task, place), 0.0, 0.0, {0.0}, task->count};
    *worth = empty;
    memset(taken_over, 0, task->all * sizeof *taken_over);
    for (size_t i = 0; i < task->demand_count; i++) {
        const double weight = fer_weight_of(task, i);
        const size_t second = nearest[i].pair[1];
        if (nearest[i].pair[0] != place) {
            continue;
        }
        worth->serves += weight;
        if (second == task->all) {
            worth->lost += weight;
            continue;
        }
        moved += weight;
        offset += weight * (fer_offset_at(task, second, i) - fer_offset_at(task, place, i));
        taken_over[second].number += weight;
    }
    double most = 0.0;
    for (size_t other = 0; other < task->all; other++) {
        if (taken_over[other].number > most) {
            most = taken_over[other].number;
            worth->substitute = fer_number_at(task, other);
        }
    }
    worth->offset_more.mm = moved > 0.0 ? offset / moved : 0.0;
}

static int is_missed_more(const fer_die_worth *a, const fer_die_worth *b)
{
    const double a_offset = a->offset_more.mm * (a->serves - a->lost),
                 b_offset = b->offset_more.mm * (b->serves - b->lost);
    if (a->lost != b->lost) {
        return a->lost > b->lost;
    }
    if (a_offset != b_offset) {
        return a_offset > b_offset;
    }
    return a->serves != b->serves ? a->serves > b->serves : a->index < b->index;
}

static fer_status rank_dies(fer_rack_task *task, fer_work *work, size_t words, fer_die_worth *worths,
                            size_t capacity, size_t *found)
{
    fer_work *nearest, *taken_over;
    FER_TRY(begin_nearest(task, work, words, &nearest));
    FER_REQUIRE(worths || capacity == 0, FER_ARGUMENT_MISSING);
    FER_REQUIRE(capacity >= task->all, FER_ARGUMENT_CAPACITY_TOO_SMALL);
    FER_TRY(fer_take_work(task, task->all, &taken_over));
    for (size_t place = 0; place < task->all; place++) {
        fer_die_worth worth;
        size_t rank = place;
        find_die_worth(task, nearest, taken_over, place, &worth);
        for (; rank > 0 && is_missed_more(&worth, &worths[rank - 1]); rank--) {
            worths[rank] = worths[rank - 1];
        }
        worths[rank] = worth;
    }
    *found = task->all;
    return FER_OK;
}

fer_status fer_rank_dies(const fer_die *dies, size_t count, const fer_demand *demands, size_t demand_count,
                         int segments, fer_work *work, size_t words, fer_die_worth *worths, size_t capacity,
                         size_t *found)
{
    fer_rack_task task = {dies,     count, demands, demand_count, NULL, 0,    0.0,
                          segments, 0,     0,       NULL,         NULL, NULL, 0};
    FER_REQUIRE(found, FER_ARGUMENT_MISSING);
    *found = 0;
    return rank_dies(&task, work, words, worths, capacity, found);
}

/* ---- offers by themselves ----------------------------------------------------------------------------------- */

static void find_offer_worth(const fer_rack_task *task, const fer_work *nearest, size_t place,
                             fer_offer_worth *worth)
{
    const fer_offer_worth empty = {fer_number_at(task, place) - task->count, 0.0, 0.0, 0.0};
    *worth = empty;
    for (size_t i = 0; i < task->demand_count; i++) {
        const size_t owned = nearest[i].pair[0];
        if (!fer_does(task, place, i)) {
            continue;
        }
        if (owned == task->all) {
            worth->gain += fer_weight_of(task, i);
        }
        if (owned == task->all || fer_die_at(task, place)->size.mm > fer_die_at(task, owned)->size.mm) {
            worth->serves += fer_weight_of(task, i);
        }
    }
    worth->by_price = worth->gain / fer_price_at(task, place);
}

static int is_worth_more(const fer_rack_task *task, const fer_offer_worth *a, const fer_offer_worth *b)
{
    const double a_serves = a->serves / fer_price_of(task, a->index),
                 b_serves = b->serves / fer_price_of(task, b->index);
    if (a->by_price != b->by_price) {
        return a->by_price > b->by_price;
    }
    return a_serves != b_serves ? a_serves > b_serves : a->index < b->index;
}

static fer_status rank_offers(fer_rack_task *task, fer_work *work, size_t words, fer_offer_worth *worths,
                              size_t capacity, size_t *found)
{
    fer_work *nearest;
    size_t rows = 0;
    FER_TRY(begin_nearest(task, work, words, &nearest));
    FER_REQUIRE(worths || capacity == 0, FER_ARGUMENT_MISSING);
    FER_REQUIRE(capacity >= task->offer_count, FER_ARGUMENT_CAPACITY_TOO_SMALL);
    for (size_t place = 0; place < task->all; place++) {
        if (!fer_is_offer_at(task, place)) {
            continue;
        }
        fer_offer_worth worth;
        size_t rank = rows++;
        find_offer_worth(task, nearest, place, &worth);
        for (; rank > 0 && is_worth_more(task, &worth, &worths[rank - 1]); rank--) {
            worths[rank] = worths[rank - 1];
        }
        worths[rank] = worth;
    }
    *found = rows;
    return FER_OK;
}

fer_status fer_rank_offers(const fer_die *dies, size_t count, const fer_demand *demands, size_t demand_count,
                           const fer_offer *offers, size_t offer_count, int segments, fer_work *work,
                           size_t words, fer_offer_worth *worths, size_t capacity, size_t *found)
{
    fer_rack_task task = {dies,     count, demands, demand_count, offers, offer_count, 0.0,
                          segments, 0,     0,       NULL,         NULL,   NULL,        0};
    FER_REQUIRE(found, FER_ARGUMENT_MISSING);
    *found = 0;
    return rank_offers(&task, work, words, worths, capacity, found);
}
