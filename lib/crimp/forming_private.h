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

/* Whether the closed forms hold for this ferrule under this load. */
fer_status fer_check_formable(const fer_ferrule *ferrule, const fer_material *material,
                              fer_forming_load load);

/* fer_closing_diameter() of a ferrule that fer_check_formable() accepts. */
fer_status fer_closing_diameter_checked(const fer_ferrule *ferrule, fer_length crimp_diameter,
                                        const fer_material *material, fer_forming_load load,
                                        fer_length *diameter);

/* fer_form_ferrule() at a diameter that fer_closing_diameter_checked() has found. */
fer_status fer_form_ferrule_checked(const fer_ferrule *ferrule, fer_length diameter,
                                    const fer_material *material, fer_forming_load load,
                                    fer_forming *forming);

/* A stem with a bore. */
fer_stem_strength fer_stem_strength_checked(const fer_stem *stem, const fer_material *material,
                                            fer_forming_load load);
fer_status fer_load_stem_checked(const fer_stem *stem, const fer_material *material, fer_forming_load load,
                                 fer_stem_change *change);
fer_status fer_bore_margin_checked(const fer_stem *stem, fer_length reduction, fer_length gauge,
                                   fer_length *margin);

#endif
