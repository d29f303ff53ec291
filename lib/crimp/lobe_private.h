/* SPDX-License-Identifier: MIT */
/* What other modules need of the lobe: a diameter that is not below the die, a die and a number of segments that were
 * checked. */
#ifndef FER_LOBE_PRIVATE_H
#define FER_LOBE_PRIVATE_H

#include <ferrule/lobe.h>

#include "base/numeric/pair.h"

/* What the number of segments alone decides: half the angle of a segment and its sine, the square of the sine of a quarter of
 * that angle, both cosines. Found once for all crimps of a press. */
typedef struct {
    fer_pair half, sine, quarter_sine_square;
    double cosine, quarter_cosine;
    int segments;
} fer_segment_angles;

fer_segment_angles fer_find_segment_angles(int segments);

fer_length fer_lobe_height_checked(fer_length diameter, fer_length die_size, int segments);

void fer_crimp_shape_checked(fer_length diameter, fer_length die_size, const fer_segment_angles *angles,
                             fer_shape *shape);

/* fer_find_equivalent_crimp() from a shape, and a joint and a flow that were checked. `basis` is what fer_check_basis()
 * says; it counts only where the ferrule has a wall. */
fer_status fer_equivalent_crimp_checked(const fer_joint *joint, const fer_shape *shape, fer_model model,
                                        fer_status basis, fer_equivalent_crimp *equivalent);

#endif
