/* SPDX-License-Identifier: MIT */
/* What other modules need of windows and targets. */
#ifndef FER_WINDOW_PRIVATE_H
#define FER_WINDOW_PRIVATE_H

#include <ferrule/window.h>

#include "crimp/uncertainties_private.h"

/* fer_crimp_window() from a joint and a model that were checked. */
fer_status fer_crimp_window_checked(const fer_joint *joint, fer_ratio_range range, fer_model model,
                                    fer_length_range *window);

/* Target with the lowest expected cost between two margins; not written on failure. */
fer_status fer_target_between(const fer_limit_margin *lower, const fer_limit_margin *upper,
                              double cost_too_loose, double cost_too_tight, fer_length *target);

#endif
