/* SPDX-License-Identifier: MIT */
/* Elastic tube under pressure inside and outside (Lamé). The restraint keeps the ends from moving: 0 free, 1 fixed. */
#ifndef FER_NUMERIC_TUBE_H
#define FER_NUMERIC_TUBE_H

#include "base/numeric/strict.h"

typedef struct {
    double inside, outside;  /* radii */
    double modulus, poisson; /* of the metal */
    double restraint;        /* of the ends */
    double inner_pressure, outer_pressure;
} fer_tube;

/* b^2 - a^2 without loss where the wall is thin. */
static inline double fer_tube_section(const fer_tube *tube)
{
    return (tube->outside - tube->inside) * (tube->outside + tube->inside);
}

/* Mean of radial and hoop stress, the same everywhere in the wall. */
static inline double fer_tube_mean_stress(const fer_tube *tube)
{
    return (tube->inner_pressure * tube->inside * tube->inside -
            tube->outer_pressure * tube->outside * tube->outside) /
           fer_tube_section(tube);
}

/* Axial strain that there would be with ends free. */
static inline double fer_tube_free_stretch(const fer_tube *tube)
{
    return -2.0 * tube->poisson * fer_tube_mean_stress(tube) / tube->modulus;
}

/* Half the difference of hoop and radial stress at a radius. */
static inline double fer_tube_shear(const fer_tube *tube, double radius)
{
    const double inside = tube->inside / radius, pressure = tube->inner_pressure - tube->outer_pressure;
    return pressure * inside * inside * tube->outside * tube->outside / fer_tube_section(tube);
}

/* Hoop stress at a radius. */
static inline double fer_tube_hoop(const fer_tube *tube, double radius)
{
    return fer_tube_mean_stress(tube) + fer_tube_shear(tube, radius);
}

/* Radial displacement at a radius, outwards. */
static inline double fer_tube_displacement(const fer_tube *tube, double radius)
{
    const double strain = ((1.0 - tube->poisson) * fer_tube_mean_stress(tube) +
                           (1.0 + tube->poisson) * fer_tube_shear(tube, radius)) /
                          tube->modulus;
    return radius * (strain + tube->restraint * tube->poisson * fer_tube_free_stretch(tube));
}

#endif
