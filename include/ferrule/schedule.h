/* SPDX-License-Identifier: MIT */
/** @file
 * Module `schedule`: in which order to run the day's jobs at one press, and with which dies, so that changing takes the shortest time.
 *
 * A change from one job to the next takes the sum of what changes: adapter set, die, dial (also after every change of die), reel of
 * hose, bin of couplings. Who crimps a trial piece after a change of reel or bin, as first pieces ask, puts its time
 * into that of the reel or bin; the trial after a change of die or dial belongs to the dial. Each job may take any die that does
 * it, at most the eight nearest below the target. Times are whole seconds, so sums are exact and the answer has the same bits
 * everywhere.
 *
 * Jobs with due times: if nothing needs to be late, the order that ends first of those in which nothing is late; otherwise the
 * smallest greatest lateness, and of the orders with it the one that ends first.
 *
 * The calls need working memory from their caller (#fer_work); other languages give #FER_WORK_USUAL by themselves. With more of it
 * larger days have the best order for certain.
 */
#ifndef FERRULE_SCHEDULE_H
#define FERRULE_SCHEDULE_H

#include <ferrule/press.h>

/** Greatest number of jobs. */
#define FER_SCHEDULE_JOBS_MAXIMUM 1000

/** Greatest number of dies. */
#define FER_SCHEDULE_DIES_MAXIMUM 256

/** Dies that a job may take: so many, the nearest below its target. */
#define FER_SCHEDULE_CHOICES_MAXIMUM 8

/** A job: one order at one diameter. */
typedef struct fer_job {
    /** crimp diameter @label target @range 0.001 mm to 1,000,000 mm */
    fer_length target;
    /** dies shorter than this do not do, dies of unknown length do @label ferrule length @range 0.001 mm to 1,000,000 mm
     * @optional any */
    fer_length ferrule_length;
    /** widest diameter that has to pass the open dies; looked at where the press's opening is known @label widest diameter
     * @range 0.001 mm to 1,000,000 mm @optional not looked at */
    fer_length widest;
    /** greatest lobe height allowed; half the tolerance of the diameter is a sensible limit @label greatest lobe height
     * @range 0.001 mm to 1,000,000 mm @optional any */
    fer_length lobe_maximum;
    /** reel of hose, by a number of the shop; another number is a change @label reel @range 0 or more @optional number 0 */
    int reel;
    /** bin of couplings, by a number of the shop; another number is a change @label bin @range 0 or more @optional number 0 */
    int bin;
    /** time at the press without changes, in whole seconds @label work @range 0 to 1000000 @optional not counted */
    int work_seconds;
    /** when it has to be done, in whole seconds from the start on @label due time @range 1 to 1000000 @optional at any time */
    int due_seconds;
} fer_job;

/** How long changes take, in whole seconds; 0: no time. */
typedef struct fer_change_times {
    int adapter_seconds; /**< another adapter set @label change of adapter @range 0 to 100000 @optional no time */
    int die_seconds;     /**< another die @label change of die @range 0 to 100000 @optional no time */
    int dial_seconds; /**< another dial setting, with its trial crimp @label change of dial @range 0 to 100000 @optional no time */
    int reel_seconds; /**< another reel of hose @label change of reel @range 0 to 100000 @optional no time */
    int bin_seconds; /**< another bin of couplings @label change of bin @range 0 to 100000 @optional no time */
} fer_change_times;

/** What is in the press and beside it at the start; all zero: no die, no adapter set, and reel 0 and bin 0. */
typedef struct fer_mounted {
    int die_mounted; /**< a die is in the press @flag @optional none */
    size_t
        die; /**< its place in the list of dies @label die in the press @range 0 to 255 @optional the first */
    fer_length
        setting; /**< what its dial shows @label dial setting @range 0 mm to 1,000,000 mm @optional 0 */
    int adapter; /**< adapter set in the press, where no die is @label adapter set @range 0 or more @optional none */
    int reel; /**< reel that is laid out @label reel laid out @range 0 or more @optional number 0 */
    int bin;  /**< bin that is laid out @label bin laid out @range 0 or more @optional number 0 */
} fer_mounted;

/** What is wanted of a schedule; all zero: any die that does, and a search to its end. */
typedef struct fer_schedule_aim {
    int nearest_only; /**< each job takes the nearest die below its target @label nearest dies only @flag @optional any die that does */
    /** after so many steps the search ends with the best order that it found: fer_schedule::complete says so. A step is a change that
     * is looked at; some hundred million take a second @label steps @range 1 to 1000000000000000 @optional to the end */
    double steps;
} fer_schedule_aim;

/** A turn of the schedule: one job, with what has to be changed before it. */
typedef struct fer_turn {
    size_t job; /**< place of the job in the list */
    int found;  /**< a die does it; jobs without one come last, and nothing else is known of them @flag */
    size_t die; /**< place of its die in the list; the number of dies where there is none */
    fer_length setting;     /**< what the dial is set to; NaN where there is no die */
    fer_length offset;      /**< target minus die size; NaN where there is no die */
    fer_length lobe_height; /**< of this target in this die; NaN where there is no die */
    int adapter_changes;    /**< another adapter set goes in, or the one in the press comes out @flag */
    int die_changes;        /**< another die goes in @flag */
    int dial_changes;       /**< the dial is set @flag */
    int reel_changes;       /**< another reel @flag */
    int bin_changes;        /**< another bin @flag */
    int change_seconds;     /**< time of these changes */
    int start_seconds;      /**< when the changes begin, from the start on */
    int end_seconds;        /**< when the job is done */
    int late_seconds;       /**< how late that is; 0: in time, or at any time */
} fer_turn;

/** A schedule in one row. */
typedef struct fer_schedule {
    int change_seconds; /**< time of all changes */
    int end_seconds;    /**< when the last job is done: all changes and all work */
    int late_seconds;   /**< greatest lateness; 0: nothing is late */
    int end_bound;      /**< in seconds: no schedule that is no later than this one ends before */
    int late_bound;     /**< in seconds: no schedule has a smaller greatest lateness */
    int optimal;        /**< end and lateness are at their bounds: no schedule is better @flag */
    int complete;       /**< the search ended by itself, not by `steps` @flag */
    size_t adapters;    /**< number of changes of the adapter set */
    size_t dies;        /**< number of changes of the die */
    size_t dials;       /**< number of times the dial is set */
    size_t reels;       /**< number of changes of the reel */
    size_t bins;        /**< number of changes of the bin */
    size_t kinds;       /**< number of kinds: jobs with the same dies, settings, reel and bin are one */
    size_t left_out;    /**< jobs that no die does */
    fer_length offset_maximum; /**< of the jobs with a die; NaN where none has one */
    fer_length lobe_maximum;   /**< of the jobs with a die; NaN where none has one */
} fer_schedule;

#ifdef __cplusplus
extern "C" {
#endif

/**
 * The order of the jobs, and their dies, in which changing takes the shortest time and nothing is late, or as little as can be.
 *
 * A job takes any die with size ≤ target ≤ size + reach that is long enough, whose dial setting the press can show, through which the
 * widest diameter passes (where it and the opening are known) and whose lobe is allowed. Jobs with the same dies, settings, reel and
 * bin are one *kind* and stay together, as far as their due times allow. What the working memory holds (with #FER_WORK_USUAL about 16
 * kinds of two dies without due times) is solved exactly: dynamic programming over what is done and the die of the last. For larger
 * days the order is improved until no turning round, no moving and no reordering of eight neighbours makes it shorter, and the bound
 * says how much better any other can be at most: die covers, settings, reels and bins counted, and spanning trees with prices of
 * nodes.
 *
 * @param[in] jobs  in any order; may be empty
 * @param[in] count  number of jobs, at most 1000
 * @param[in] press  see fer_check_press(); graduation and correction make the settings
 * @param[in] dies  dies that are there, in any order; may be empty
 * @param[in] die_count  number of dies, at most 256
 * @param[in] times  how long changes take
 * @param[in] mounted  what is in the press at the start @optional nothing
 * @param[in] aim  nearest dies only, steps @optional any die, to the end
 * @param[in] work  working memory; what it holds before and after means nothing
 * @param[in] words  of it, at least 60 for each job and 200; with more, larger days are solved exactly
 * @param[out] turns  one for each job, in their order
 * @param[in] capacity  number of elements in turns; count is enough
 * @param[out] found  number of turns; 0 on failure
 * @param[out] schedule  the whole day in one row; empty on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_ARGUMENT_COUNT_TOO_LARGE  more jobs or dies than it takes
 * @retval FER_ARGUMENT_CAPACITY_TOO_SMALL  fewer elements than jobs
 * @retval FER_ARGUMENT_WORK_TOO_SMALL  more words are needed
 * @retval FER_PRESS_GRADUATION_OUT_OF_RANGE  and the other statuses of fer_check_press()
 * @retval FER_DIE_SIZE_OUT_OF_RANGE  and the other statuses of fer_choose_die() that concern a die
 * @retval FER_TARGET_MISSING  a job's target is not given
 * @retval FER_TARGET_OUT_OF_RANGE  a job's target is not a number from 0.001 mm to 1,000,000 mm
 * @retval FER_FERRULE_LENGTH_OUT_OF_RANGE  given, and not 0.001 mm to 1,000,000 mm
 * @retval FER_WIDEST_DIAMETER_OUT_OF_RANGE  given, and not 0.001 mm to 1,000,000 mm
 * @retval FER_JOB_LOBE_OUT_OF_RANGE  given, and not 0.001 mm to 1,000,000 mm
 * @retval FER_JOB_REEL_OUT_OF_RANGE  negative
 * @retval FER_JOB_BIN_OUT_OF_RANGE  negative
 * @retval FER_JOB_WORK_OUT_OF_RANGE  not 0 to 1,000,000 s
 * @retval FER_JOB_DUE_OUT_OF_RANGE  not 0 to 1,000,000 s
 * @retval FER_CHANGE_TIME_OUT_OF_RANGE  not 0 to 100,000 s
 * @retval FER_MOUNTED_DIE_UNKNOWN  not a place in the list of dies
 * @retval FER_MOUNTED_SETTING_OUT_OF_RANGE  not 0 to 1,000,000 mm
 * @retval FER_MOUNTED_NUMBER_OUT_OF_RANGE  adapter, reel or bin is negative
 * @retval FER_SCHEDULE_STEPS_OUT_OF_RANGE  neither 0 nor 1 to 1e15
 * @accuracy times are exact. Where `optimal` is set no schedule is better, against all orders and dies in tests/agree/python and
 *           against mixed-integer programmes; otherwise the bound holds. Offset and lobe as fer_choose_die() and fer_lobe_height()
 * @source dynamic programming over sets: Bellman, J. ACM 9 (1962) 61; jobs of a kind by due time: Monma
 *         and Potts, Operations Research 37 (1989); spanning trees: Operations Research 18 (1970) 1138 (all from memory)
 */
FER_API fer_status fer_plan_schedule(const fer_job *jobs, size_t count, const fer_press *press,
                                     const fer_die *dies, size_t die_count, const fer_change_times *times,
                                     fer_mounted mounted, fer_schedule_aim aim, fer_work *work, size_t words,
                                     fer_turn *turns, size_t capacity, size_t *found, fer_schedule *schedule);

/**
 * What the order of the list would take: the jobs as they come, with the dies for which changing takes the shortest time.
 *
 * To compare: as the orders came, by die size, as somebody proposes it. With `nearest_only` each job takes its nearest die. The
 * bounds are those of the best order, so end minus bound is what a better order can save at most; `optimal` says that none saves
 * anything. Jobs without a die come last.
 *
 * @param[in] jobs  in the order in which they are run; may be empty
 * @param[in] count  number of jobs, at most 1000
 * @param[in] press  see fer_check_press(); graduation and correction make the settings
 * @param[in] dies  dies that are there, in any order; may be empty
 * @param[in] die_count  number of dies, at most 256
 * @param[in] times  how long changes take
 * @param[in] mounted  what is in the press at the start @optional nothing
 * @param[in] aim  nearest dies only, steps @optional any die, to the end
 * @param[in] work  working memory; what it holds before and after means nothing
 * @param[in] words  of it, as for fer_plan_schedule()
 * @param[out] turns  one for each job, in their order
 * @param[in] capacity  number of elements in turns; count is enough
 * @param[out] found  number of turns; 0 on failure
 * @param[out] schedule  the whole day in one row; empty on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_ARGUMENT_WORK_TOO_SMALL  and the other statuses of fer_plan_schedule()
 * @accuracy times are exact; the dies are the best ones for the order, against all choices in tests/agree/python
 * @source shortest path through the dies of each job
 */
FER_API fer_status fer_time_schedule(const fer_job *jobs, size_t count, const fer_press *press,
                                     const fer_die *dies, size_t die_count, const fer_change_times *times,
                                     fer_mounted mounted, fer_schedule_aim aim, fer_work *work, size_t words,
                                     fer_turn *turns, size_t capacity, size_t *found, fer_schedule *schedule);

#ifdef __cplusplus
}
#endif

#endif
