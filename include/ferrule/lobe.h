/* SPDX-License-Identifier: MIT */
/** @file
 * Module `lobe`: the shape that a die leaves.
 *
 * A die of size \f$d\f$ that stops at a larger diameter \f$D\f$ shapes the ferrule by \f$N\f$ arcs of radius
 * \f$r_d = d/2\f$ whose centres have moved out by \f$\delta = (D - d)/2\f$; \f$\alpha = \pi/N\f$. All diameters here
 * are closing diameters: what the dies form at the stop, over the middles of two segments that face each other.
 * Finite elements of an eight-die contact: the lobe comes out 1.1 to 4.5 % lower than the arcs say.
 */
#ifndef FERRULE_LOBE_H
#define FERRULE_LOBE_H

#include <ferrule/compression.h>

/** Shape that a die leaves, seen along the axis. */
typedef struct fer_shape {
    fer_length lobe_height;     /**< middle of a segment minus edge of a segment, on the radius */
    fer_length gap;             /**< between the edges of neighbouring segments */
    fer_angle edge_angle;       /**< from the middle of a segment to its edge, seen from the centre */
    fer_length edge_radius;     /**< from the centre to the edge of a segment */
    fer_length arcs_diameter;   /**< diameter of the circle with the mean area under the arcs */
    fer_length chords_diameter; /**< diameter of the circle with the whole area, gaps closed by chords */
    fer_length tape_diameter;   /**< what a tape round the outline reads: circumference by pi */
    fer_length jaws_minimum;    /**< minimum reading of flat jaws */
    fer_length jaws_maximum;    /**< maximum reading of flat jaws */
} fer_shape;

/** A crimp that is not round, by the circle with the mean area under the arcs. */
typedef struct fer_equivalent_crimp {
    fer_length diameter;   /**< of that circle, on the outside */
    fer_length bore;       /**< of the ferrule: diameter minus two walls */
    fer_ratio compression; /**< at that diameter */
    fer_length pin; /**< largest pin that goes through the ferrule: edges of the segments minus the wall */
} fer_equivalent_crimp;

#ifdef __cplusplus
extern "C" {
#endif

/**
 * Lobe height: how far the edges of the segments lie inside the middles, on the radius.
 *
 * @formula \f$ h = 4\,\delta\,r_d \sin^2(\alpha/2)/(D/2 + r_e) \f$,
 * \f$ r_e = \sqrt{\delta^2 + r_d^2 + 2\delta r_d\cos\alpha} \f$.
 *
 * @param[in] diameter  closing diameter @range die_size to 1,000,000 mm
 * @param[in] die_size  diameter of the circle that the closed die forms @range 0.001 mm to 1,000,000 mm
 * @param[in] segments  number of segments @range 3 to 64
 * @param[out] height  lobe height; 0 where diameter and die size are equal; NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  the pointer is null
 * @retval FER_DIE_SIZE_MISSING  not given
 * @retval FER_DIE_SIZE_OUT_OF_RANGE  not a number from 0.001 mm to 1,000,000 mm
 * @retval FER_DIAMETER_MISSING  not given
 * @retval FER_DIAMETER_OUT_OF_RANGE  not a number from 0.001 mm to 1,000,000 mm
 * @retval FER_DIE_ABOVE_DIAMETER  the die cannot open to less than its size
 * @retval FER_SEGMENTS_OUT_OF_RANGE  not 3 to 64
 * @accuracy 2 units in the last place
 * @source geometry of circular arcs; finite elements: 1.1 to 4.5 % lower
 */
FER_API fer_status fer_lobe_height(fer_length diameter, fer_length die_size, int segments,
                                   fer_length *height);

/**
 * Everything about the shape at once: lobe, gap, equivalent diameters, and what gauges read.
 *
 * @formula lobe height as fer_lobe_height(); gap \f$ (D - d)\sin\alpha \f$; edge angle
 * \f$ \varphi_e = \mathrm{atan2}(r_d\sin\alpha,\ \delta + r_d\cos\alpha) \f$; area under the arcs
 * \f$ A_a = N(r_d^2\alpha + \delta r_d\sin\alpha) \f$, arcs diameter \f$ 2\sqrt{A_a/(N\varphi_e)} \f$; chords diameter
 * \f$ 2\sqrt{A/\pi} \f$ with \f$ A = \pi d^2/4 + (N/2)d(D-d)\sin\alpha + (N/8)(D-d)^2\sin 2\alpha \f$; tape
 * \f$ d + (N/\pi)(D-d)\sin\alpha \f$; jaws, even N: \f$ D \f$ down to \f$ d + (D-d)\cos\alpha \f$; odd N:
 * \f$ d + (D-d)\cos(\alpha/2) \f$ down to \f$ d + (D-d)(1+\cos\alpha)/2 \f$.
 *
 * @param[in] diameter  closing diameter @range die_size to 1,000,000 mm
 * @param[in] die_size  @range 0.001 mm to 1,000,000 mm
 * @param[in] segments  @range 3 to 64
 * @param[out] shape  all lengths NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  the pointer is null
 * @retval FER_DIE_SIZE_MISSING  not given
 * @retval FER_DIE_SIZE_OUT_OF_RANGE  not a number from 0.001 mm to 1,000,000 mm
 * @retval FER_DIAMETER_MISSING  not given
 * @retval FER_DIAMETER_OUT_OF_RANGE  not a number from 0.001 mm to 1,000,000 mm
 * @retval FER_DIE_ABOVE_DIAMETER  the die cannot open to less than its size
 * @retval FER_SEGMENTS_OUT_OF_RANGE  not 3 to 64
 * @accuracy 2 units in the last place
 * @source geometry of circular arcs; finite elements: tape within 0.05 %, range of jaws an upper bound
 */
FER_API fer_status fer_crimp_shape(fer_length diameter, fer_length die_size, int segments, fer_shape *shape);

/**
 * Radius of the outline at an angle from the middle of a segment.
 *
 * @formula \f$ r(\varphi) = \delta\cos\varphi + \sqrt{r_d^2 - \delta^2\sin^2\varphi} \f$, \f$ |\varphi| \le \varphi_e \f$.
 *
 * @param[in] diameter  closing diameter @range die_size to 1,000,000 mm
 * @param[in] die_size  @range 0.001 mm to 1,000,000 mm
 * @param[in] segments  @range 3 to 64
 * @param[in] angle  from the middle of the segment, at most the edge angle either way @range any finite number
 * @param[out] radius  from the centre to the arc; NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  the pointer is null
 * @retval FER_ANGLE_OUT_OF_RANGE  beyond the edge of the segment, or not a number
 * @retval FER_DIE_ABOVE_DIAMETER  and the other statuses of fer_lobe_height()
 * @accuracy 2 units in the last place
 * @source geometry of circular arcs
 */
FER_API fer_status fer_arc_radius(fer_length diameter, fer_length die_size, int segments, fer_angle angle,
                                  fer_length *radius);

/**
 * What flat parallel jaws read at an angle from the middle of a segment.
 *
 * @formula width of the convex outline. Even N: \f$ d + (D - d)\cos\theta \f$, \f$\theta\f$ from the nearest middle.
 * Odd N: \f$ d + (D-d)(\cos\theta_1 + \cos\theta_2)/2 \f$ with the angles \f$\theta_1, \theta_2\f$ of the two
 * jaws, each from its nearest middle.
 *
 * @param[in] diameter  closing diameter @range die_size to 1,000,000 mm
 * @param[in] die_size  @range 0.001 mm to 1,000,000 mm
 * @param[in] segments  @range 3 to 64
 * @param[in] angle  of the first jaw from the middle of a segment @range any finite number
 * @param[out] reading  diameter that the jaws read; NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  the pointer is null
 * @retval FER_ANGLE_OUT_OF_RANGE  not a finite number
 * @retval FER_DIE_ABOVE_DIAMETER  and the other statuses of fer_lobe_height()
 * @accuracy 1e-12 relative
 * @source geometry of circular arcs; finite elements: real range 60 to 85 % of it
 */
FER_API fer_status fer_jaws_reading(fer_length diameter, fer_length die_size, int segments, fer_angle angle,
                                    fer_length *reading);

/**
 * Greatest offset at which the lobe stays at or below a height: a reasoned reach for a die.
 *
 * @formula \f$ D - d = \frac{h(2r_d - h)}{2r_d\sin^2(\alpha/2) - h} \f$; the lobe never becomes higher than
 * \f$ 2r_d\sin^2(\alpha/2) \f$.
 *
 * @param[in] die_size  @range 0.001 mm to 1,000,000 mm
 * @param[in] segments  @range 3 to 64
 * @param[in] height  lobe height allowed; below the greatest that this die can leave @range 0 mm to below die_size *
 *            sin(pi / segments / 2) ** 2
 * @param[out] offset  closing diameter minus die size; NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  the pointer is null
 * @retval FER_DIE_SIZE_MISSING  not given
 * @retval FER_DIE_SIZE_OUT_OF_RANGE  not a number from 0.001 mm to 1,000,000 mm
 * @retval FER_SEGMENTS_OUT_OF_RANGE  not 3 to 64
 * @retval FER_LOBE_HEIGHT_OUT_OF_RANGE  negative, not a number, or so high that no offset reaches it
 * @accuracy 1e-14 relative where the height is below 0.9 of the greatest
 * @source inverse of fer_lobe_height()
 */
FER_API fer_status fer_lobe_offset(fer_length die_size, int segments, fer_length height, fer_length *offset);

/**
 * Greatest offset at which the gap between neighbouring edges stays at or below a share of the wall.
 *
 * @formula \f$ D - d = \beta w/\sin\alpha \f$
 *
 * @param[in] wall  of the ferrule @range 0.001 mm to 1,000,000 mm
 * @param[in] segments  @range 3 to 64
 * @param[in] share  gap allowed by wall @range 0 to 100
 * @param[out] offset  closing diameter minus die size; NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  the pointer is null
 * @retval FER_FERRULE_WALL_MISSING  not given
 * @retval FER_FERRULE_WALL_OUT_OF_RANGE  not a number from 0.001 mm to 1,000,000 mm
 * @retval FER_SEGMENTS_OUT_OF_RANGE  not 3 to 64
 * @retval FER_GAP_SHARE_OUT_OF_RANGE  not a number from 0 to 100
 * @accuracy 2 units in the last place
 * @source inverse of the gap of fer_crimp_shape()
 */
FER_API fer_status fer_gap_offset(fer_length wall, int segments, fer_ratio share, fer_length *offset);

/**
 * Bore, compression and pin of a crimp that is not round.
 *
 * The hose does not feel the diameter over the middles of the segments but the mean of the whole outline. This is the
 * compression at that diameter, to stand beside fer_compression() at the diameter over the middles.
 *
 * @formula arcs diameter of fer_crimp_shape(), wall of fer_crimped_wall(), fer_compression() there; pin
 * \f$ 2(r_e - w') \f$
 *
 * @param[in] joint  @as fer_compression()
 * @param[in] diameter  over the middles of the segments; as fer_compression() @range die_size to 1,000,000 mm
 * @param[in] die_size  @range 0.001 mm to 1,000,000 mm
 * @param[in] segments  @range 3 to 64
 * @param[in] model  @as fer_compression()
 * @param[out] equivalent  all NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_DIE_ABOVE_DIAMETER  and the other statuses of fer_crimp_shape()
 * @retval FER_DIAMETER_WITHOUT_TOUCH  and the other statuses of fer_compression()
 * @accuracy finite elements of eight dies, ends fixed: bore within 0.2 %, pin within 0.5 %
 * @source geometry of circular arcs
 */
FER_API fer_status fer_find_equivalent_crimp(const fer_joint *joint, fer_length diameter, fer_length die_size,
                                             int segments, fer_model model, fer_equivalent_crimp *equivalent);

#ifdef __cplusplus
}
#endif

#endif
