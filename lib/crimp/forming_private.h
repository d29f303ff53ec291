/* SPDX-License-Identifier: MIT */
/* What other modules need of forming: a ferrule and a stem of a joint, a metal and a load that were checked. Results are
 * not written on failure. */
#ifndef FER_FORMING_PRIVATE_H
#define FER_FORMING_PRIVATE_H

#include <ferrule/forming.h>

#include "base/faults.h"

/* fer_check_material() of a metal that is there. */
fer_status fer_check_material_rules(const fer_material *material, fer_fault_visitor *faults);

/* Restraint and pressure of the hose. */
fer_status fer_check_load(fer_forming_load load, fer_fault_visitor *faults);

/* A ferrule that may be missing, its wall at most as thick as was compared. */
fer_status fer_check_thin_ferrule(const fer_ferrule *ferrule);

/* A metal that may be missing, whatever it yields at. */
fer_status fer_check_elastic(const fer_material *material);

/* A stem with a bore, its metal, both of which may be missing, and the restraint. */
fer_status fer_check_stem(const fer_stem *stem, const fer_material *material, fer_forming_load load);

/* Whether the closed forms hold for this ferrule of a joint, and for this load. */
fer_status fer_check_formable(const fer_ferrule *ferrule);
fer_status fer_check_hose_limit(const fer_material *material, fer_forming_load load);

/* Pressure of the hose by yield strength up to which the closed forms were compared with finite elements. */
#define FER_STRONGEST_HOSE 0.5

/* fer_minimum_reduction() of a ferrule and a metal that were checked. */
double fer_reduction_needed(const fer_ferrule *ferrule, const fer_material *material);

/* Whether they hold for dies that close to a diameter, and for so small a one. */
fer_status fer_check_deep_closing(const fer_ferrule *ferrule, fer_length diameter);
fer_status fer_check_closing(const fer_ferrule *ferrule, fer_length diameter, const fer_material *material);

/* fer_form_ferrule() of what the checks above accept; the sizes after opening by an elastic release, also where
 * release_status says that the bore yields. A restraint below 0 and above 1, and a hose that pulls a little, go on smoothly.
 * Roughly: for slopes. */
void fer_close_ferrule(const fer_ferrule *ferrule, fer_length diameter, const fer_material *material,
                       fer_forming_load load, int roughly, fer_forming *forming);

/* The same from the crimp diameter of a ferrule that fer_check_formable() accepts, a load that fer_check_hose_limit()
 * does, and the closing diameter. */
fer_status fer_form_crimp_checked(const fer_ferrule *ferrule, fer_length crimp_diameter,
                                  const fer_material *material, fer_forming_load load, fer_length *closing,
                                  fer_forming *forming);

/* A stem with a bore. */
fer_stem_strength fer_stem_strength_checked(const fer_stem *stem, const fer_material *material,
                                            fer_forming_load load);
fer_status fer_load_stem_checked(const fer_stem *stem, const fer_material *material, fer_forming_load load,
                                 fer_stem_change *change);
fer_status fer_bore_margin_checked(const fer_stem *stem, fer_length reduction, fer_length gauge,
                                   fer_length *margin);

#endif
