/* SPDX-License-Identifier: MIT */
/* The check of one die, for the rooms that take a die. */
#ifndef FER_CHECK_DIE_H
#define FER_CHECK_DIE_H

#include <ferrule/die.h>

fer_status fer_check_die(const fer_die *die);

#endif
