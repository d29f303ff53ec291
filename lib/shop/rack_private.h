/* SPDX-License-Identifier: MIT */
/* What the sources of module rack share: a question that was checked, with its dies in order of size and the table of which die
 * does which demand, both in the caller's working memory. */
#ifndef FER_RACK_PRIVATE_H
#define FER_RACK_PRIVATE_H

#include <ferrule/rack.h>

#include "base/value_private.h"

typedef struct {
    const fer_die *dies;
    size_t count;
    const fer_demand *demands;
    size_t demand_count;
    const fer_offer *offers;
    size_t offer_count;
    double offset_cost; /* per mm */
    int segments;
    size_t all;      /* dies and offers; a die has a place among them by size */
    size_t row;      /* words of a die's row in `does` */
    fer_work *order; /* by place: number of the die, offers behind those owned */
    fer_work *does;  /* by place, a bit for each demand */
    fer_work *left;  /* working memory that is left */
    size_t words;    /* of it */
} fer_rack_task;

/* Checks dies, demands, offers, segments; puts the dies in order. */
fer_status fer_begin_rack(fer_rack_task *task, fer_work *work, size_t words);

/* Takes words of what is left of the working memory. */
fer_status fer_take_work(fer_rack_task *task, size_t words, fer_work **taken);

/* Number of the die at a place, and the die itself. */
static inline size_t fer_number_at(const fer_rack_task *task, size_t place)
{
    return task->order[place].pair[0];
}

static inline const fer_die *fer_die_at(const fer_rack_task *task, size_t place)
{
    const size_t number = fer_number_at(task, place);
    return number < task->count ? &task->dies[number] : &task->offers[number - task->count].die;
}

static inline int fer_is_offer_at(const fer_rack_task *task, size_t place)
{
    return fer_number_at(task, place) >= task->count;
}

static inline int fer_does(const fer_rack_task *task, size_t place, size_t demand)
{
    return (int)(task->does[place * task->row + demand / 64].bits >> demand % 64 & 1u);
}

static inline double fer_weight_of(const fer_rack_task *task, size_t demand)
{
    const double weight = task->demands[demand].weight;
    return weight > 0.0 ? weight : 1.0;
}

static inline double fer_offset_at(const fer_rack_task *task, size_t place, size_t demand)
{
    return task->demands[demand].target.mm - fer_die_at(task, place)->size.mm;
}

/* What an offer costs: 1 where no offer has a price. */
double fer_price_of(const fer_rack_task *task, size_t offer);

/* What the die at a place costs; nothing where it is owned. */
double fer_price_at(const fer_rack_task *task, size_t place);

#endif
