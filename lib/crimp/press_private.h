/* SPDX-License-Identifier: MIT */
/* What other modules need of the press: a press that fer_check_press() accepts, the size of a die that was checked, and a
 * target or a widest diameter that is a length. Results are not written on failure. */
#ifndef FER_PRESS_PRIVATE_H
#define FER_PRESS_PRIVATE_H

#include <ferrule/press.h>

#include "base/faults.h"

/* fer_check_press() of a press that is there. */
fer_status fer_check_press_rules(const fer_press *press, fer_fault_visitor *faults);

/* The target is not below the die. */
fer_status fer_dial_setting_checked(const fer_press *press, fer_length die_size, fer_length target,
                                    fer_dial *dial);

/* The press's opening is known. */
fer_length fer_opening_clearance_checked(const fer_press *press, fer_length die_size, fer_length widest);

fer_status fer_capacity_use_checked(const fer_press *press, fer_force force, fer_ratio *use);

#endif
