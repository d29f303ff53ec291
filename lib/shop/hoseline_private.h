/* SPDX-License-Identifier: MIT */
/* What lengths and routes of a hoseline share. */
#ifndef FER_HOSELINE_PRIVATE_H
#define FER_HOSELINE_PRIVATE_H

#include <ferrule/hoseline.h>

#include "base/numeric/strict.h"

/* A bend radius and the hose that is bent. */
fer_status fer_check_bend(fer_length bend_radius, fer_length hose_outside);

/* Radius of the centre line of a hose that is bent to a radius at the inside of the bend. */
static inline double fer_centre_radius(fer_length bend_radius, fer_length hose_outside)
{
    return bend_radius.mm + hose_outside.mm / 2.0;
}

#endif
