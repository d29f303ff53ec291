/* SPDX-License-Identifier: MIT */
#include <ferrule/ferrule.h>

#include <stdio.h>

/* An assembly of 1250 mm with two elbows, DN 12: invented figures. */
static const fer_hose_end ends[2] = {{.cut_off = {27.5}}, {.cut_off = {31}}};
static const fer_length_row tolerances[] = {{.length_maximum = {630}, .plus = {7}, .minus = {3}},
                                            {.length_maximum = {1250}, .plus = {12}, .minus = {4}}};
static const fer_point route[] = {{{0}, {0}, {0}}, {{500}, {0}, {0}}, {{500}, {600}, {0}}};

int main(void)
{
    const fer_point first_tip = {{0}, {0}, {50}}, last_tip = {{450}, {600}, {0}};
    const fer_ratings ratings = {.hose = {27.5}, .first = {35}, .second = {35}};
    const fer_holding holding = {.pressure = {55},
                                 .stem_outside = {12.95},
                                 .length = {34},
                                 .squeeze = {12},
                                 .ferrule_bore = {18.71},
                                 .ferrule_fixed = 1};
    fer_length cut;
    fer_length_range limits;
    fer_orientation orientation;
    fer_proof_pressures pressures;
    fer_grip grip;
    if (fer_cut_length(fer_mm(1250), &ends[0], &ends[1], &cut) != FER_OK ||
        fer_find_length_limits(tolerances, 2, fer_mm(12), fer_mm(1250), &limits) != FER_OK ||
        fer_find_orientation(route, 3, fer_mm(180), fer_mm(20), &first_tip, &last_tip, &orientation) !=
            FER_OK ||
        fer_find_proof_pressure(&ratings, (fer_proof_factors){0}, &pressures) != FER_OK ||
        fer_find_grip(&holding, &grip) != FER_OK) {
        return 1;
    }
    printf("cut the hose to %.1f mm; the assembly may be %.0f to %.0f mm long\n", cut.mm, limits.lower.mm,
           limits.upper.mm);
    printf("second elbow %.0f degrees clockwise of the first, seen along the hose\n",
           fer_to_deg(orientation.angle));
    printf("proof test at %.1f MPa, behind a guard: %.0f N push at each coupling\n",
           pressures.proof_pressure.mpa, grip.thrust.newton);
    printf("friction that is needed to hold it: %.2f\n", grip.friction_needed.fraction);
    return 0;
}
