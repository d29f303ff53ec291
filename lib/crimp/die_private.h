/* SPDX-License-Identifier: MIT */
/* The check of one die, for the rooms that take a die, and of a rack, for the room that takes many targets. */
#ifndef FER_DIE_PRIVATE_H
#define FER_DIE_PRIVATE_H

#include <ferrule/die.h>

fer_status fer_check_die(const fer_die *die);
fer_status fer_check_dies(const fer_die *dies, size_t count);

/* fer_choose_die() out of a rack that is known to be possible. */
fer_status fer_choose_checked_die(const fer_die *dies, size_t count, fer_length target, fer_die_needs needs,
                                  fer_die_choice *choice);

#endif
