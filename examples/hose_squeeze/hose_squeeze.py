#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""How hard does the hose press in the crimp? One twin crimp on the depot's press, and what it changes in three set-ups.

    python3 hose_squeeze.py [PICTURE.svg]     with a file: draws the force against the diameter, bare and with the hose

All invented: depot, press, parts and readings. Do not crimp anything by them. Two ferrules of one lot were closed by the same dies on the
same press to the same diameter, one on its hose, one without; both were cut up afterwards. Closing on a ferrule without a hose is done
only where the press's manual allows it, on a rod longer than the dies are deep, hands clear of them.
"""
import sys

import ferrule as f

FERRULE = f.Ferrule("2.4 mm", outside="25.6 mm", length="28 mm")
CERTIFICATE = f.Material("206 GPa", "30 %", "300 MPa", "700 MPa")
STEM_STEEL = f.Material("206 GPa", "30 %", "400 MPa")
ON_HOSE = f.Closing("219.2 kN", "23.55 mm", before="28.00 mm", after="29.41 mm")
BARE = f.Closing("171.0 kN", "23.55 mm", before="28.00 mm", after="29.62 mm")
KNOWN = f.ClosingUncertainties(force="1 %", scale="8 %", yield_strength="11 %", diameter="0.03 mm", wall="0.02 mm", length="0.02 mm")
PRESSES = {"bench press of 2000 kN": "2000 kN", "small press of 240 kN": "240 kN", "small press of 210 kN": "210 kN"}


def found(bare=None):
    return f.find_hose_pressure(FERRULE, ON_HOSE, CERTIFICATE, *([bare] if bare else []), uncertainties=KNOWN)


def order(metal, load):
    joint = f.Joint(f.Hose("12.7 mm", "19.9 mm"), f.Stem("12.95 mm", bore="9.5 mm"), FERRULE)
    return f.Order(joint=joint, published="23.55 mm", tolerance="0.15 mm", ferrule_metal=metal, stem_metal=STEM_STEEL, load=load,
                   minimum_bore="9.45 mm", approval="approved", insertion="31 mm", gauge=f.Gauge("0.01 mm", resolution="0.01 mm"))


def plan(capacity, metal, load=None):
    press = f.Press(graduation="0.05 mm", correction="-0.15 mm", opening="32 mm", capacity=capacity)
    return f.plan_setup(order(metal, load or f.FormingLoad()), press, ["19 mm", "22 mm", "25 mm"])


def describe(setup):
    """Force, how much the hose may press, and whether it may be crimped."""
    limits = setup.hose_limits
    by = {"NONE": "", "CAPACITY": "the press", "BORE": "the go gauge", "STEM": "the stem", "FORMULA": "what is computed"}[limits.which.name]
    none = "none: the ferrule alone may need more force" if limits.which.name == "CAPACITY" else f"not computed: {limits.smallest.status.sentence}"
    allowed = f"{int(limits.smallest.value.mpa)} MPa ({by})" if limits.smallest else none
    lines = [f"force {'at least ' if setup.force_at_least else ''}{setup.force.value:.0f kN}, "
             f"{'at least ' if setup.force_at_least else ''}{setup.capacity_use.value:.0f %} of the capacity; squeeze allowed {allowed}",
             setup.readiness.name.replace("_", " ")]
    telling = ("FORCE_ABOVE_CAPACITY", "FORCE_NEAR_CAPACITY", "HOSE_PRESSURE_NOT_KNOWN", "BORE_NEAR_LIMIT", "BORE_BELOW_LIMIT", "STEM_YIELDS")
    return lines + [f"- {f.remark_sentence(remark)}" for remark in setup.remarks if remark.name in telling]


def show(title, lines):
    print(title, *(f"  {line}" for line in lines), "", sep="\n")


def draw(path, squeeze):
    import matplotlib
    matplotlib.use("svg")
    matplotlib.rcParams["svg.hashsalt"] = "ferrule"
    from matplotlib import pyplot
    metal = f.Material("206 GPa", "30 %", squeeze.yield_strength)
    diameters = [23.5 + 0.02 * k for k in range(71)]
    figure, axes = pyplot.subplots(figsize=(7, 4.5), layout="constrained")
    touch, end = 24.86, 23.55
    for label, colour, pressure in (("bare ferrule", "C0", 0.0), ("on its hose", "C1", squeeze.pressure.mpa)):
        forces = []
        for diameter in diameters:
            # a picture: squeeze and restraint grow evenly from touching the hose to the diameter that was measured
            share = max((touch - diameter) / (touch - end), 0.0) if pressure else 0.0
            load = f.FormingLoad(f.fraction(max(squeeze.restraint.fraction, 0.0) * share), f.mpa(pressure * share))
            formed = f.form_ferrule(FERRULE, f.mm(diameter), metal, load)
            forces.append(f.find_die_force(formed.pressure, f.mm(diameter), f.mm(28 * formed.stretch.fraction), 8).total.kn)
        axes.plot(diameters, forces, colour, label=label)
    axes.plot([23.55, 23.55], [BARE.force.kn, ON_HOSE.force.kn], "k.", label="readings (invented)")
    axes.axvline(touch, color="0.7", lw=0.8)
    axes.text(touch, axes.get_ylim()[0], " touches the hose", va="bottom", color="0.4")
    axes.set(xlabel="diameter in mm", ylabel="force of the dies in kN", title="Twin crimp: force against diameter (invented)")
    axes.invert_xaxis()
    axes.legend(frameon=False)
    figure.savefig(path, metadata={"Date": None})


def main():
    twin, certificate = found(BARE), found()
    show("Squeeze of the hose in the crimp (not oil pressure), mean on the ferrule while the dies are closed", [
        f"by the twin crimp: {twin.pressure:.0f MPa}, standard uncertainty {twin.standard_uncertainty:.0f MPa}; "
        f"yield strength {twin.yield_strength:.0f MPa}, restraint {twin.restraint:.0f %}",
        f"by the certificate alone: {certificate.pressure:.0f MPa}, standard uncertainty {certificate.standard_uncertainty:.0f MPa}",
        f"on the middle of the stem at most {twin.stem_maximum:.0f MPa}"])
    metal = f.Material("206 GPa", "30 %", twin.yield_strength)
    load = f.FormingLoad(f.fraction(max(twin.restraint.fraction, 0.0)), twin.pressure)
    for name, capacity in PRESSES.items():
        show(f"{name}, nothing known of the squeeze", describe(plan(capacity, CERTIFICATE)))
        show(f"{name}, after the twin crimp", describe(plan(capacity, metal, load)))
    print("What holds the hose and what leaks is not computed: a proof test decides. Both pieces of the twin crimp are cut up.")
    if len(sys.argv) > 1:
        draw(sys.argv[1], twin)


if __name__ == "__main__":
    main()
