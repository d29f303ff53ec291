/* SPDX-License-Identifier: MIT */
/* What other modules need of readings. */
#ifndef FER_READING_PRIVATE_H
#define FER_READING_PRIVATE_H

#include <ferrule/reading.h>

/* What a summary is after a failure. */
void fer_leave_out_summary(fer_status why, fer_reading_summary *summary);

/* Grubbs' critical value for the farthest of m numbers, two-sided; NaN for two or fewer. */
double fer_critical_deviate(double m);

/* Whether a reading was taken and is not over a gap. The marks have been checked. */
int fer_reading_counts(const fer_reading *reading, const fer_marks *marks);

/* Standard deviation of a reading about the mean of its section, pooled over the sections, and its degrees of freedom:
 * NaN and 0 where no section has two readings. All arguments have been checked. */
double fer_scatter_within_sections(const fer_reading *readings, size_t count, const fer_gauge *gauge,
                                   const fer_marks *marks, size_t *degrees);

/* The sections that have readings, in their order, and how many they are. All arguments have been checked. */
size_t fer_summarise_sections_checked(const fer_reading *readings, size_t count, const fer_gauge *gauge,
                                      const fer_marks *marks,
                                      fer_section_summary sections[FER_SECTIONS_MAXIMUM]);

#endif
