/* SPDX-License-Identifier: MIT */
/* Trials block by block: each block is a call of the library, and the library puts the blocks together. Racks and schedules: a search
 * that ends early is begun again with four times the steps, so that all of them together take a third more than the last one. */
#include "parts.h"

#include <stdlib.h>
#include <string.h>

/* Blocks end here (chance.h); the library says so of what goes beyond. */
static const uint64_t block_maximum = UINT64_C(1) << 40;

/* A question, and what is known of its answer so far. */
typedef struct question {
    const fer_joint *joint;
    const fer_uncertainties *uncertainties;
    fer_ratio_range range;
    fer_length diameter;
    fer_model model;
    const fer_order *order;
    const fer_press *press;
    const fer_die *dies;
    size_t die_count;
    int digits;
    fer_crimp_count *count;
    fer_tally *tally;
    fer_simulation *simulation;
    uint64_t *uses, *block_uses;
    size_t capacity, *found;
} question;

/* Makes one block and puts it to the others; `is_first`: there are none. */
typedef fer_status block_call(const question *q, fer_trials trials, int is_first);
/* Whether there are blocks enough. */
typedef int is_enough(const question *q);

static int never(const question *q)
{
    (void)q;
    return 0;
}

static fer_status run(bind_stop *stop, const question *q, fer_trials trials, uint64_t blocks,
                      block_call *call, is_enough *enough)
{
    const uint64_t first = trials.first_block, end = first + blocks;
    fer_status status = FER_OK;
    trials.blocks = 1;
    for (; status == FER_OK && trials.first_block < end; trials.first_block++) {
        if (trials.first_block > first && enough(q))
            break;
        stop->stopped = trials.first_block > first && stop->is_asked(stop->with);
        if (stop->stopped)
            break;
        status = call(q, trials, trials.first_block == first);
    }
    return status;
}

/* One block, or what the library refuses: it does both by itself. */
static int is_short(fer_trials trials, uint64_t blocks)
{
    return blocks == 1 || blocks > block_maximum || trials.first_block > block_maximum - blocks;
}

/* ---- shares ----------------------------------------------------------------------------------------------- */

static fer_status count_block(const question *q, fer_trials trials, int is_first)
{
    fer_crimp_count block, before = *q->count;
    const fer_status status =
        fer_simulate_shares(q->joint, q->uncertainties, q->range, q->diameter, q->model, trials, &block);
    if (status != FER_OK || is_first) {
        *q->count = block;
        return status;
    }
    return fer_merge_counts(&before, &block, q->count);
}

fer_status bind_simulate_shares(bind_stop *stop, const fer_joint *joint,
                                const fer_uncertainties *uncertainties, fer_ratio_range range,
                                fer_length diameter, fer_model model, fer_trials trials,
                                fer_crimp_count *count)
{
    const uint64_t blocks = trials.blocks ? trials.blocks : 1;
    const question q = {.joint = joint,
                        .uncertainties = uncertainties,
                        .range = range,
                        .diameter = diameter,
                        .model = model,
                        .count = count};
    return is_short(trials, blocks)
               ? fer_simulate_shares(joint, uncertainties, range, diameter, model, trials, count)
               : run(stop, &q, trials, blocks, count_block, never);
}

/* ---- tallies ---------------------------------------------------------------------------------------------- */

static fer_status add_block(const question *q, const fer_tally *block, fer_status status, int is_first)
{
    const fer_tally before = *q->tally;
    if (status != FER_OK || is_first) {
        *q->tally = *block;
        return status;
    }
    return fer_merge_tallies(&before, block, q->tally);
}

static fer_status tally_block(const question *q, fer_trials trials, int is_first)
{
    fer_tally block;
    const fer_status status =
        fer_simulate_compression(q->joint, q->uncertainties, q->range, q->diameter, q->model, trials, &block);
    return add_block(q, &block, status, is_first);
}

fer_status bind_simulate_compression(bind_stop *stop, const fer_joint *joint,
                                     const fer_uncertainties *uncertainties, fer_ratio_range range,
                                     fer_length diameter, fer_model model, fer_trials trials,
                                     fer_tally *tally)
{
    const uint64_t blocks = trials.blocks ? trials.blocks : 1;
    const question q = {.joint = joint,
                        .uncertainties = uncertainties,
                        .range = range,
                        .diameter = diameter,
                        .model = model,
                        .tally = tally};
    return is_short(trials, blocks)
               ? fer_simulate_compression(joint, uncertainties, range, diameter, model, trials, tally)
               : run(stop, &q, trials, blocks, tally_block, never);
}

/* The first block is a whole call with a maximum of one, which refuses what there is to refuse. */
static fer_status digits_block(const question *q, fer_trials trials, int is_first)
{
    fer_status status;
    if (is_first)
        return fer_simulate_to_digits(q->joint, q->uncertainties, q->range, q->diameter, q->digits, q->model,
                                      trials, q->tally, q->simulation);
    status = tally_block(q, trials, 0);
    if (status == FER_OK)
        return fer_summarise_tally(q->tally, q->digits, q->simulation);
    /* what the library writes where it fails */
    (void)fer_summarise_tally(q->tally, q->digits, q->simulation);
    return status;
}

static int is_settled(const question *q)
{
    return q->simulation->settled;
}

fer_status bind_simulate_to_digits(bind_stop *stop, const fer_joint *joint,
                                   const fer_uncertainties *uncertainties, fer_ratio_range range,
                                   fer_length diameter, int digits, fer_model model, fer_trials trials,
                                   fer_tally *tally, fer_simulation *simulation)
{
    const uint64_t blocks = trials.blocks ? trials.blocks : 1000;
    const question q = {.joint = joint,
                        .uncertainties = uncertainties,
                        .range = range,
                        .diameter = diameter,
                        .model = model,
                        .digits = digits,
                        .tally = tally,
                        .simulation = simulation};
    return is_short(trials, blocks) ? fer_simulate_to_digits(joint, uncertainties, range, diameter, digits,
                                                             model, trials, tally, simulation)
                                    : run(stop, &q, trials, blocks, digits_block, is_settled);
}

/* ---- set-ups ---------------------------------------------------------------------------------------------- */

static fer_status setups_block(const question *q, fer_trials trials, int is_first)
{
    fer_tally block;
    const fer_status status = fer_simulate_setups(q->order, q->press, q->dies, q->die_count, trials, &block,
                                                  is_first ? q->uses : q->block_uses, q->capacity, q->found);
    for (size_t i = 0; !is_first && i < *q->found; i++)
        q->uses[i] += q->block_uses[i];
    return add_block(q, &block, status, is_first);
}

fer_status bind_simulate_setups(bind_stop *stop, const fer_order *order, const fer_press *press,
                                const fer_die *dies, size_t count, fer_trials trials, fer_tally *tally,
                                uint64_t *uses, size_t capacity, size_t *found)
{
    const uint64_t blocks = trials.blocks ? trials.blocks : 1;
    uint64_t *block_uses = is_short(trials, blocks) ? NULL : malloc(capacity * sizeof *block_uses);
    if (!block_uses)
        return fer_simulate_setups(order, press, dies, count, trials, tally, uses, capacity, found);
    const question q = {.order = order,
                        .press = press,
                        .dies = dies,
                        .die_count = count,
                        .tally = tally,
                        .uses = uses,
                        .block_uses = block_uses,
                        .capacity = capacity,
                        .found = found};
    const fer_status status = run(stop, &q, trials, blocks, setups_block, never);
    free(block_uses);
    return status;
}

/* ---- racks ------------------------------------------------------------------------------------------------ */

/* Steps of the first part; they take less than a second. */
static const double first_steps = 4194304.0;

/* The steps of the next part; 0: somebody stopped the call, or what the caller wanted has been done. */
static double next_steps(bind_stop *stop, double done, double wanted, int is_complete)
{
    const double most = wanted > 0.0 ? wanted : 1e15;
    if (is_complete || done >= most)
        return 0.0;
    stop->stopped = stop->is_asked(stop->with);
    return stop->stopped ? 0.0 : done * 4.0 < most ? done * 4.0 : wanted;
}

/* Steps that are out of range are for the library to refuse. */
static double begin_steps(double wanted)
{
    return wanted == 0.0 || wanted > first_steps ? first_steps : wanted;
}

fer_status bind_find_rack_curve(bind_stop *stop, const fer_die *dies, size_t count, const fer_demand *demands,
                                size_t demand_count, const fer_offer *offers, size_t offer_count,
                                const fer_adapter_offer *adapters, size_t adapter_count, fer_rack_aim aim,
                                fer_work *work, size_t words, fer_rack *points, size_t capacity,
                                size_t *found)
{
    const double wanted = aim.steps;
    fer_status status = FER_OK;
    for (double steps = begin_steps(wanted);;) {
        aim.steps = steps;
        status = fer_find_rack_curve(dies, count, demands, demand_count, offers, offer_count, adapters,
                                     adapter_count, aim, work, words, points, capacity, found);
        steps = status == FER_OK ? next_steps(stop, steps, wanted, points[0].searched.fraction >= 1.0) : 0.0;
        if (steps == 0.0)
            return status;
    }
}

fer_status bind_choose_rack(bind_stop *stop, const fer_die *dies, size_t count, const fer_demand *demands,
                            size_t demand_count, const fer_offer *offers, size_t offer_count,
                            const fer_adapter_offer *adapters, size_t adapter_count, fer_rack_aim aim,
                            fer_work *work, size_t words, size_t *purchases, size_t capacity, size_t *found,
                            fer_rack *rack)
{
    const double wanted = aim.steps;
    fer_status status = FER_OK;
    for (double steps = begin_steps(wanted);;) {
        aim.steps = steps;
        status = fer_choose_rack(dies, count, demands, demand_count, offers, offer_count, adapters,
                                 adapter_count, aim, work, words, purchases, capacity, found, rack);
        steps = status == FER_OK ? next_steps(stop, steps, wanted, rack->searched.fraction >= 1.0) : 0.0;
        if (steps == 0.0)
            return status;
    }
}

/* ---- schedules -------------------------------------------------------------------------------------------- */

typedef fer_status schedule_call(const fer_job *, size_t, const fer_press *, const fer_die *, size_t,
                                 const fer_change_times *, fer_mounted, fer_schedule_aim, fer_work *, size_t,
                                 fer_turn *, size_t, size_t *, fer_schedule *);

static fer_status run_schedule(bind_stop *stop, schedule_call *call, const fer_job *jobs, size_t count,
                               const fer_press *press, const fer_die *dies, size_t die_count,
                               const fer_change_times *times, fer_mounted mounted, fer_schedule_aim aim,
                               fer_work *work, size_t words, fer_turn *turns, size_t capacity, size_t *found,
                               fer_schedule *schedule)
{
    /* These steps are quicker: the programme of a whole working memory is in the first part. */
    const double wanted = aim.steps, first = 32.0 * first_steps;
    for (double steps = wanted == 0.0 || wanted > first ? first : wanted;;) {
        aim.steps = steps;
        const fer_status status = call(jobs, count, press, dies, die_count, times, mounted, aim, work, words,
                                       turns, capacity, found, schedule);
        steps = status == FER_OK ? next_steps(stop, steps, wanted, schedule->complete) : 0.0;
        if (steps == 0.0)
            return status;
    }
}

fer_status bind_plan_schedule(bind_stop *stop, const fer_job *jobs, size_t count, const fer_press *press,
                              const fer_die *dies, size_t die_count, const fer_change_times *times,
                              fer_mounted mounted, fer_schedule_aim aim, fer_work *work, size_t words,
                              fer_turn *turns, size_t capacity, size_t *found, fer_schedule *schedule)
{
    return run_schedule(stop, fer_plan_schedule, jobs, count, press, dies, die_count, times, mounted, aim,
                        work, words, turns, capacity, found, schedule);
}

fer_status bind_time_schedule(bind_stop *stop, const fer_job *jobs, size_t count, const fer_press *press,
                              const fer_die *dies, size_t die_count, const fer_change_times *times,
                              fer_mounted mounted, fer_schedule_aim aim, fer_work *work, size_t words,
                              fer_turn *turns, size_t capacity, size_t *found, fer_schedule *schedule)
{
    return run_schedule(stop, fer_time_schedule, jobs, count, press, dies, die_count, times, mounted, aim,
                        work, words, turns, capacity, found, schedule);
}
