/* SPDX-License-Identifier: MIT */
/* What other modules need of dies. */
#ifndef FER_DIE_PRIVATE_H
#define FER_DIE_PRIVATE_H

#include <ferrule/die.h>

#include "base/faults.h"

fer_status fer_check_die_rules(const fer_die *die, fer_fault_visitor *faults);
fer_status fer_check_die(const fer_die *die);
fer_status fer_check_dies(const fer_die *dies, size_t count);

/* fer_choose_die() out of a rack that was checked. */
fer_status fer_choose_die_checked(const fer_die *dies, size_t count, fer_length target, fer_die_needs needs,
                                  fer_die_choice *choice);

#endif
