/* SPDX-License-Identifier: MIT */
/* The target of an order, for the rooms that take an order. */
#ifndef FER_ORDER_TARGET_H
#define FER_ORDER_TARGET_H

#include <ferrule/setup.h>

/* Published, or computed from the order's joint. */
fer_status fer_order_target(const fer_order *order, fer_length *target);

#endif
