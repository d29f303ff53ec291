/* SPDX-License-Identifier: MIT */
/* What other modules need of adjusting: checks of a press, and what a gauge leaves of any scatter. */
#ifndef FER_ADJUST_PRIVATE_H
#define FER_ADJUST_PRIVATE_H

#include <ferrule/adjust.h>

/* Day and deviation are possible. */
fer_status fer_check_drift_point(const fer_drift_point *check);

/* Day to judge, limit in mm and coverage are possible. */
fer_status fer_check_drift_question(int today, double limit, double coverage);

/* Smallest standard deviation to believe where it is estimated, in mm: a gauge of which nothing is known has steps, too. */
double fer_usual_floor(const fer_gauge *gauge);

#endif
