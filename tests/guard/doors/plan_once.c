/* SPDX-License-Identifier: MIT */
/* One set-up with both metals and four dies, for check_once.py; all figures are invented. */
#include <ferrule/ferrule.h>

#include <stdio.h>

int main(void)
{
    const fer_press press = {{0.01}, {0.05}, {12.0}, {60.0}, {3e5}, 8};
    const fer_die dies[] = {{{16.0}, {7.0}, 0, {60.0}},
                            {{19.0}, {7.0}, 0, {60.0}},
                            {{22.0}, {7.0}, 0, {60.0}},
                            {{26.0}, {7.0}, 1, {60.0}}};
    fer_order order = {0};
    fer_setup setup;
    order.joint.hose.inside.mm = 12.7;
    order.joint.hose.outside.mm = 19.9;
    order.joint.stem.outside.mm = 12.95;
    order.joint.stem.bore.mm = 10.0;
    order.joint.ferrule.wall.mm = 2.4;
    order.joint.ferrule.outside.mm = 26.6;
    order.joint.ferrule.length.mm = 30.0;
    order.uncertainties.stem_outside.amount.mm = 0.02;
    order.uncertainties.hose_outside.amount.mm = 0.1;
    order.ferrule_metal.elastic_modulus.mpa = order.stem_metal.elastic_modulus.mpa = 210000.0;
    order.ferrule_metal.poisson.fraction = order.stem_metal.poisson.fraction = 0.3;
    order.ferrule_metal.yield_strength.mpa = order.stem_metal.yield_strength.mpa = 250.0;
    order.load.hose_pressure.mpa = 20.0;
    order.minimum_bore.mm = 9.99;
    const int done = fer_plan_setup(&order, &press, dies, 4, &setup) == FER_OK;
    const fer_status found[] = {setup.window.status,
                                setup.plain.status,
                                setup.ends_free.status,
                                setup.ends_fixed.status,
                                setup.uncertainty.status,
                                setup.shares.status,
                                setup.dial.status,
                                setup.shape.status,
                                setup.clearance.status,
                                setup.equivalent.status,
                                setup.closing.status,
                                setup.force.status,
                                setup.capacity_use.status,
                                setup.bore_reduction.status,
                                setup.bore_margin.status,
                                setup.hose_limits.capacity.status,
                                setup.hose_limits.bore.status,
                                setup.hose_limits.stem.status,
                                setup.hose_limits.formula.status};
    int all = done && setup.die.found;
    for (size_t i = 0; i < sizeof found / sizeof *found; i++) {
        if (found[i] != FER_OK) {
            printf("figure %zu: %s\n", i, fer_status_name(found[i]));
            all = 0;
        }
    }
    return all ? 0 : 1;
}
