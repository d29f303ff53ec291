/* SPDX-License-Identifier: MIT */
/* What other modules need of readings. */
#ifndef FER_READING_PRIVATE_H
#define FER_READING_PRIVATE_H

#include <ferrule/reading.h>

/* What a summary is after a failure. */
fer_reading_summary fer_no_summary(fer_status why);

#endif
