/* SPDX-License-Identifier: MIT */
/* What other modules need of verdicts. */
#ifndef FER_CONFORMITY_PRIVATE_H
#define FER_CONFORMITY_PRIVATE_H

#include <ferrule/conformity.h>

/* What a verdict is after a failure. */
fer_verdict fer_no_verdict(void);

#endif
