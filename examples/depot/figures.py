# SPDX-License-Identifier: MIT
"""The figures of a job as words: the one place where they are rounded and named, for paper and screen alike."""
from dataclasses import dataclass

import ferrule

from drawing import Crimp

# Remarks after which the order cannot be crimped as it is.
STOPS = ("NO_DIE", "DOES_NOT_PASS", "DIAL_OUT_OF_RANGE", "FORCE_ABOVE_CAPACITY", "CLOSES_BELOW_DIE")


@dataclass(frozen=True)
class Group:
    """Lines that belong together: label and value."""
    title: str
    lines: tuple


# ---- words for single values -------------------------------------------------------------------------------

def _plain_zero(text):
    """Without the sign of what rounds to zero."""
    return text if any(digit in text for digit in "123456789") else text.removeprefix("-")


def diameter(length):
    return _plain_zero(f"{length:.2f mm}")


def fine(length):
    return _plain_zero(f"{length:.3f mm}")


def percent(ratio):
    return _plain_zero(f"{ratio:.1f %}")


def span(lengths):
    return f"{diameter(lengths.lower)} to {diameter(lengths.upper)}"


def _or_why(found, words):
    """The value in words, or why it is not there."""
    return words(found.value) if found else found.status.sentence


NOT_COMPUTED = "not computed: "


def _computed(found, words):
    """The same for figures of which the data may not be known at all."""
    return words(found.value) if found else NOT_COMPUTED + found.status.sentence


# ---- groups ------------------------------------------------------------------------------------------------

MEASURED = ("hose inside", "hose outside", "stem outside", "stem bore", "ferrule wall", "ferrule outside",
            "ferrule length", "widest diameter")


def measured(job):
    """What was measured, as it was written and in mm where that is something else."""
    lines = []
    for column in MEASURED:
        text, value = job.row.texts[column], job.row[column]
        if value is None:
            text = "not measured"
        elif not text.endswith("mm"):
            text += " = " + fine(value)
        lines.append((column, text))
    return Group("Measured", tuple(lines))


def _adapter(setup):
    number = setup.die.die.adapter
    if not setup.die.adapter_change:
        return f"set {number}" if number else "none"
    return f"set {number}: put it in first" if number else "none: take out the set in the press"


def to_set(job):
    """What the operator sets, or what has to be bought first."""
    setup = job.setup
    if setup.die.found:
        return Group("Set", (
            ("adapter", _adapter(setup)),
            ("die", f"{diameter(setup.die.die.size)}, die {job.die_name}"),
            ("dial", _or_why(setup.dial, lambda dial: fine(dial.setting))),
        ))
    lines = [("die", ferrule.Status.DIE_NONE_NEAR_ENOUGH.sentence), ("buy or borrow a die of", span(setup.die.buy))]
    if setup.die.nearest_found:
        lines.append(("the nearest die misses the target by", diameter(setup.die.nearest_distance)))
    return Group("Set", tuple(lines))


def to_expect(job):
    """What comes out."""
    setup = job.setup
    lines = []
    if setup.dial:
        lines.append(("crimp diameter", diameter(setup.dial.value.expected)))
    lines.append(("accept", _or_why(setup.limits, span)))
    if setup.shape:
        lines += [("lobe height", fine(setup.shape.value.lobe_height)),
                  ("gap between segments", diameter(setup.shape.value.gap))]
    if setup.die.found:
        lines.append(("clearance in the open dies", _or_why(setup.clearance, diameter)))
    return Group("Expect", tuple(lines))


def why_target(job):
    """Where the target comes from, and what would be best."""
    setup = job.setup
    lines = [
        ("target", diameter(setup.target)),
        ("target comes from", "published diameter" if setup.source == ferrule.TargetSource.PUBLISHED else "measurements"),
        ("window", _or_why(setup.window, span)),
    ]
    if setup.shares:
        lines.append(("joints inside the range", percent(setup.shares.value.inside)))
    if setup.best_target:
        lines.append(("best target", diameter(setup.best_target.value)))
    return Group("Target", tuple(lines))


def compression(job):
    """Compression at the target, by the plain formula and with a wall that grows."""
    setup = job.setup
    lines = [("plain formula", _or_why(setup.plain, percent))]
    if setup.equivalent:
        lines.append(("plain formula, lobes counted", percent(setup.equivalent.value)))
    return Group("Compression at the target", (
        *lines,
        ("ferrule lengthens freely", _or_why(setup.ends_free, percent)),
        ("ferrule cannot lengthen", _or_why(setup.ends_fixed, percent)),
        ("standard uncertainty", _or_why(setup.uncertainty, lambda ratio: percent(ratio) + " points")),
    ))


def metal(job):
    """What ferrule and stem do under the dies. A correction from finished crimps contains the springback already."""
    setup = job.setup
    return Group("Metal", (
        ("closing diameter of the dies", _computed(setup.closing, fine)),
        ("springback, not added to the dial", _computed(setup.springback, fine)),
        ("force", _computed(setup.force, lambda force: f"{force:.0f kN}")),
        ("share of the press's capacity", _computed(setup.capacity_use, percent)),
        ("bore reduction of the stem", _computed(setup.bore_reduction, fine)),
        ("bore margin of the stem", _computed(setup.bore_margin, fine)),
    ))


def why_dial(job):
    """How the dial setting comes about; nothing where there is no die."""
    setup = job.setup
    lines = [("offset", fine(setup.die.offset))] if setup.die.found else []
    if setup.dial:
        lines += [("dial before rounding", fine(setup.dial.value.exact)),
                  ("remainder", fine(setup.dial.value.remainder))]
    return Group("Dial", tuple(lines))


def groups(job):
    """All groups of figures, in the order in which a person at the press wants them."""
    return (to_set(job), to_expect(job), measured(job), why_target(job), compression(job), metal(job),
            why_dial(job))


def remarks(job):
    """What to check, first things first."""
    return tuple(remark.sentence for remark in job.setup.remarks)


def cautions(job):
    """What to take care of: that of the set-up, and that of the crimps which were not accepted."""
    found = set(job.setup.cautions)
    for piece in job.pieces:
        if piece.inspection:
            found |= set(piece.inspection.cautions)
    return tuple(caution.text for caution in sorted(found))


def _stops(job):
    """Why the order cannot be crimped as it is; nothing where it can."""
    return [remark.sentence for remark in job.setup.remarks if remark.name in STOPS]


def not_done(jobs, troubles):
    """What is left of the day: orders that cannot be crimped as they are, then what could not be read."""
    left = [f"order {job.number} cannot be crimped as it is: {_stops(job)[0]}" for job in jobs if _stops(job)]
    return left + [str(trouble) for trouble in troubles]


# ---- crimps ------------------------------------------------------------------------------------------------

CRIMP_COLUMNS = ("piece", "gauge", "mean", "uncertainty", "off target", "ovality", "taper", "conforms", "verdict")


@dataclass(frozen=True)
class CrimpLine:
    """One measured crimp in words: figures for the columns between gauge and verdict, none where it is not judged."""
    piece: str
    gauge: str
    figures: tuple
    verdict: str


def _verdict(job, piece):
    decision = piece.inspection.verdict.decision
    doubtful = ferrule.Remark.PUBLISHED_OUTSIDE_WINDOW in job.setup.remarks
    if decision == ferrule.Decision.ACCEPT and doubtful:
        return "ACCEPT if the published diameter holds"
    return decision.name


def _crimp_line(job, piece):
    if piece.inspection is None:
        return CrimpLine(piece.number, piece.gauge, (), "NOT JUDGED: " + piece.why_not)
    summary, verdict = piece.inspection.summary, piece.inspection.verdict
    texts = (fine(summary.mean), fine(summary.standard_uncertainty), fine(piece.inspection.deviation),
             _or_why(summary.ovality, fine), _or_why(summary.taper, fine), percent(verdict.conforming))
    return CrimpLine(piece.number, piece.gauge, texts, _verdict(job, piece))


def crimps(job):
    """A line for each measured crimp."""
    return tuple(_crimp_line(job, piece) for piece in job.pieces)


# ---- the drawing -------------------------------------------------------------------------------------------

def _crimped_wall(job, diameter):
    """Wall at this diameter, free to lengthen where the ferrule was measured outside; otherwise as it was."""
    flow = "ENDS_FREE" if job.setup.ends_free else "NONE"
    model = ferrule.Model(flow=flow)
    return ferrule.crimped_wall(job.order.joint, diameter, model)


def _drawn_diameter(setup):
    """Over the middles of the closed dies; the target where there is no die.

    It is smaller than the target where the springback is known.
    """
    shape = setup.shape
    return 2 * (shape.value.edge_radius + shape.value.lobe_height) if shape else setup.target


def crimp_drawing(job):
    """What is drawn of a job: the dies closed. The words are those of the finished crimp, at its target."""
    setup, joint = job.setup, job.order.joint
    drawn = _drawn_diameter(setup)
    shape = setup.shape.value if setup.shape else None
    words = {
        "stem": f"stem {diameter(joint.stem.outside)}",
        "bore": f"ferrule bore {diameter(setup.target - 2 * _crimped_wall(job, setup.target))}",
        "diameter": f"crimp diameter {diameter(setup.target)}",
    }
    if shape:
        words |= {"gap": f"gap {diameter(shape.gap)}", "lobe": f"lobe height {fine(shape.lobe_height)}",
                  "die": diameter(setup.die.die.size)}
    return Crimp(
        order=job.number, diameter=drawn.mm, wall=_crimped_wall(job, drawn).mm, stem=joint.stem.outside.mm,
        stem_bore=joint.stem.bore.mm, segments=setup.segments, words=words,
        die_size=setup.die.die.size.mm if shape else 0.0,
        edge_radius=shape.edge_radius.mm if shape else 0.0,
        edge_angle=shape.edge_angle.rad if shape else 0.0,
        gap=shape.gap.mm if shape else 0.0,
        lobe_height=shape.lobe_height.mm if shape else 0.0,
    )
