/* SPDX-License-Identifier: MIT */
/** @file
 * Long calls in parts, so that somebody may stop one between two of them: trials block by block, racks and schedules with a growing number of steps.
 *
 * The library calls nobody back and holds nothing, so it cannot be asked to stop; but blocks of trials may be made one by one
 * and put together, with the same bits. A language or database whose user can interrupt a call makes them so.
 */
#ifndef FERRULE_BINDINGS_PARTS_H
#define FERRULE_BINDINGS_PARTS_H

#include <ferrule/ferrule.h>

/** Who may stop a call. */
typedef struct bind_stop {
    int (*is_asked)(void *with); /**< 1: stop now; asked between two blocks */
    void *with;
    int stopped; /**< 1: it was stopped, and neither status nor results mean anything */
} bind_stop;

/** @name The library's functions of the same names, but for the first argument
 * What they give is the same to the bit.
 * @{ */
fer_status bind_simulate_shares(bind_stop *, const fer_joint *, const fer_uncertainties *, fer_ratio_range,
                                fer_length diameter, fer_model, fer_trials, fer_crimp_count *);
fer_status bind_simulate_compression(bind_stop *, const fer_joint *, const fer_uncertainties *,
                                     fer_ratio_range, fer_length diameter, fer_model, fer_trials,
                                     fer_tally *);
fer_status bind_simulate_to_digits(bind_stop *, const fer_joint *, const fer_uncertainties *, fer_ratio_range,
                                   fer_length diameter, int digits, fer_model, fer_trials, fer_tally *,
                                   fer_simulation *);
fer_status bind_simulate_setups(bind_stop *, const fer_order *, const fer_press *, const fer_die *dies,
                                size_t count, fer_trials, fer_tally *, uint64_t *uses, size_t capacity,
                                size_t *found);
fer_status bind_find_rack_curve(bind_stop *, const fer_die *dies, size_t count, const fer_demand *demands,
                                size_t demand_count, const fer_offer *offers, size_t offer_count,
                                const fer_adapter_offer *adapters, size_t adapter_count, fer_rack_aim,
                                fer_work *work, size_t words, fer_rack *points, size_t capacity,
                                size_t *found);
fer_status bind_choose_rack(bind_stop *, const fer_die *dies, size_t count, const fer_demand *demands,
                            size_t demand_count, const fer_offer *offers, size_t offer_count,
                            const fer_adapter_offer *adapters, size_t adapter_count, fer_rack_aim,
                            fer_work *work, size_t words, size_t *purchases, size_t capacity, size_t *found,
                            fer_rack *rack);
fer_status bind_plan_schedule(bind_stop *, const fer_job *jobs, size_t count, const fer_press *,
                              const fer_die *dies, size_t die_count, const fer_change_times *, fer_mounted,
                              fer_schedule_aim, fer_work *work, size_t words, fer_turn *turns,
                              size_t capacity, size_t *found, fer_schedule *);
fer_status bind_time_schedule(bind_stop *, const fer_job *jobs, size_t count, const fer_press *,
                              const fer_die *dies, size_t die_count, const fer_change_times *, fer_mounted,
                              fer_schedule_aim, fer_work *work, size_t words, fer_turn *turns,
                              size_t capacity, size_t *found, fer_schedule *);
/** @} */

/* What is written for the library's functions, such as by SWIG, then calls these; BIND_STOP is the first argument. */
#ifdef BIND_STOP
#define fer_simulate_shares(...)      bind_simulate_shares(BIND_STOP, __VA_ARGS__)
#define fer_simulate_compression(...) bind_simulate_compression(BIND_STOP, __VA_ARGS__)
#define fer_simulate_to_digits(...)   bind_simulate_to_digits(BIND_STOP, __VA_ARGS__)
#define fer_simulate_setups(...)      bind_simulate_setups(BIND_STOP, __VA_ARGS__)
#define fer_find_rack_curve(...)      bind_find_rack_curve(BIND_STOP, __VA_ARGS__)
#define fer_choose_rack(...)          bind_choose_rack(BIND_STOP, __VA_ARGS__)
#define fer_plan_schedule(...)        bind_plan_schedule(BIND_STOP, __VA_ARGS__)
#define fer_time_schedule(...)        bind_time_schedule(BIND_STOP, __VA_ARGS__)
#endif

#endif
