/* SPDX-License-Identifier: MIT */
/* What other modules need of hose: a ferrule that fer_check_formable() accepts, a metal that was checked. Not written on failure. */
#ifndef FER_HOSE_PRIVATE_H
#define FER_HOSE_PRIVATE_H

#include <ferrule/hose.h>

/* Pressure of the hose at which the dies need a force at this crimp diameter; force and length are above 0. */
fer_status fer_hose_pressure_at_force(const fer_ferrule *ferrule, fer_force force, fer_length crimp_diameter,
                                      const fer_material *material, fer_ratio restraint,
                                      fer_pressure *pressure);

/* fer_hose_pressure_from_bore() of a stem, a metal and a restraint that were checked. */
fer_status fer_hose_pressure_from_bore_checked(const fer_stem *stem, fer_length reduction,
                                               const fer_material *material, fer_forming_load load,
                                               fer_pressure *pressure);

#endif
