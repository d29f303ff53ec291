/* SPDX-License-Identifier: MIT */
/* The rules and the target of an order, for the modules that take an order. */
#ifndef FER_SETUP_PRIVATE_H
#define FER_SETUP_PRIVATE_H

#include <ferrule/setup.h>

#include "base/faults.h"

/* Every rule of an order alone; members are those of fer_order. */
fer_status fer_check_order_rules(const fer_order *order, fer_fault_visitor *faults);

/* Published, or computed from the order's joint. */
fer_status fer_order_target(const fer_order *order, fer_length *target);

#endif
