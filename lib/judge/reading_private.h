/* SPDX-License-Identifier: MIT */
/* What other modules need of readings. */
#ifndef FER_READING_PRIVATE_H
#define FER_READING_PRIVATE_H

#include <ferrule/reading.h>

/* What a summary is after a failure. */
void fer_leave_out_summary(fer_status why, fer_reading_summary *summary);

#endif
