/* SPDX-License-Identifier: MIT */
/* The target of an order, for the modules that take an order. */
#ifndef FER_SETUP_PRIVATE_H
#define FER_SETUP_PRIVATE_H

#include <ferrule/setup.h>

/* Published, or computed from the order's joint. */
fer_status fer_order_target(const fer_order *order, fer_length *target);

#endif
