/* SPDX-License-Identifier: MIT */
/* What other modules need of dies. */
#ifndef FER_DIE_PRIVATE_H
#define FER_DIE_PRIVATE_H

#include <ferrule/die.h>

#include "base/faults.h"

fer_status fer_check_die_rules(const fer_die *die, fer_fault_visitor *faults);
fer_status fer_check_die(const fer_die *die);
fer_status fer_check_dies(const fer_die *dies, size_t count);

/* Greatest diameter that a die reaches. */
static inline double fer_die_end(const fer_die *die)
{
    return die->size.mm + (die->reach.mm > 0.0 ? die->reach.mm : FER_DIE_REACH_USUAL_MM);
}

static inline int fer_is_die_long_enough(const fer_die *die, fer_length ferrule_length)
{
    return die->length.mm == 0.0 || die->length.mm >= ferrule_length.mm;
}

/* fer_choose_die() out of a rack that was checked. */
fer_status fer_choose_die_checked(const fer_die *dies, size_t count, fer_length target, fer_die_needs needs,
                                  fer_die_choice *choice);

#endif
