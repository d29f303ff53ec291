# SPDX-License-Identifier: MIT
"""The figures of a job as words: the one place where they are rounded and named, for paper and screen alike."""
from dataclasses import dataclass
from math import floor

import ferrule
from ferrule import show

from drawing import Crimp


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


def adapter(setup):
    """Number of the adapter set, or that there is none."""
    number = setup.die.die.adapter
    return f"set {number}" if number else "none"


def _adapter(setup):
    if not setup.die.adapter_change:
        return adapter(setup)
    return f"{adapter(setup)}: put it in first" if setup.die.die.adapter else "none: take out the set in the press"


def dial_number(job):
    """The dial to set, with as many decimals as it shows; and whether the springback is taken off."""
    found, taken_off = show.dial(job.setup)
    return _plain_zero(f"{found.value.setting.mm:.{show.decimals(job.press.graduation)}f}"), taken_off


def _dial(job):
    number, taken_off = dial_number(job)
    return f"{number} mm" + (", springback taken off" if taken_off else "")


def depth(length):
    """A length that is measured with a rule."""
    return f"{length:.1f mm}"


def skives(setup):
    """Which ends of the hose's layers are skived, and how long."""
    both = (("skive outside", setup.skive_outside), ("skive inside", setup.skive_inside))
    return [(name, depth(length)) for name, length in both if length]


def to_set(job):
    """What the operator sets; nothing while the order is not ready."""
    setup = job.setup
    if not show.may_be_set(setup):
        return Group("Set", ())
    return Group("Set", (
        ("adapter", _adapter(setup)),
        ("die", f"{diameter(setup.die.die.size)}, die {job.die_name}"),
        ("dial", _dial(job)),
        ("insertion depth", depth(setup.insertion) if setup.insertion else "not given"),
        *skives(setup),
    ))


def to_get(job):
    """What has to be bought or borrowed first."""
    setup = job.setup
    if setup.die.found:
        return Group("To get", ())
    lines = [("die", ferrule.Status.DIE_NONE_NEAR_ENOUGH.sentence), ("buy or borrow a die of", span(setup.die.buy))]
    if setup.die.nearest_found:
        lines.append(("the nearest die misses the target by", diameter(setup.die.nearest_distance)))
    return Group("To get", tuple(lines))


def to_confirm(job):
    """The figures that somebody has to look at who may decide."""
    setup = job.setup
    if setup.readiness != ferrule.Readiness.AFTER_CONFIRMING:
        return Group("To confirm", ())
    return Group("To confirm", (
        ("target looked at", f"{setup.target:.4f mm}"),
        ("tolerance looked at", f"{setup.tolerance:.4f mm}" if setup.tolerance else "-"),
        ("die looked at", f"{setup.die.die.size:.4f mm}"),
        ("compression looked at", _or_why(setup.plain, lambda ratio: f"{ratio:.2f %}")),
    ))


def gauge_decimals(job):
    """How many decimals the gauge in hand shows, in its unit."""
    resolution = job.order.gauge.resolution
    return max(2, show.decimals(ferrule.mm(resolution.inch) if job.gauge_unit == "inch" else resolution))


def zone_step(job):
    """The step in which the zone is shown."""
    return getattr(ferrule, job.gauge_unit)(10.0 ** -gauge_decimals(job))


def accept(job):
    """The acceptance zone of the gauge in hand, in its unit and steps."""
    return show.zone(job.setup, lambda length: f"{length:.{gauge_decimals(job)}f {job.gauge_unit}}", zone_step(job))


def to_expect(job):
    """What comes out, and what of it is accepted; nothing while the order is not ready."""
    setup = job.setup
    if not show.may_be_set(setup):
        return Group("Expect", ())
    return Group("Expect", (
        ("crimp diameter", diameter(show.dial(setup)[0].value.expected)),
        ("accept", accept(job)),
        ("lobe height", fine(setup.shape.value.lobe_height)),
        ("gap between segments", diameter(setup.shape.value.gap)),
        ("clearance in the open dies", _or_why(setup.clearance, diameter)),
    ))


APPLIES_TO = {"NOT_STATED": "not stated", "EVERY_READING": "every reading", "SECTION_MEANS": "section means", "MEAN": "mean"}


def why_target(job):
    """Where the target comes from, and what would be best."""
    setup = job.setup
    lines = [
        ("target", diameter(setup.target)),
        ("target comes from", "published diameter" if setup.source == ferrule.TargetSource.PUBLISHED else "measurements"),
        ("tolerance limits", _or_why(setup.limits, span)),
        ("they apply to", APPLIES_TO[setup.applies_to.name]),
        ("window", _or_why(setup.window, span)),
    ]
    if setup.shares:
        lines.append(("joints inside the range", show.probability(setup.shares.value.inside)))
    if setup.best_target and setup.source == ferrule.TargetSource.COMPUTED:
        lines.append(("best target", diameter(setup.best_target.value)))
    return Group("Target", tuple(lines))


def compression(job):
    """The compression to look at first with its uncertainty and source, then the others beside it."""
    setup, best = job.setup, job.setup.compression
    lines = [("look at first", _or_why(best.value, lambda ratio: f"{percent(ratio)} {show.SOURCES[best.source.name]}")),
             ("standard uncertainty", _or_why(best.standard_uncertainty, lambda ratio: percent(ratio) + " points"))]
    if setup.largest:
        name = setup.largest.value.measurement.name.lower().replace("_", " ").replace("diameter", "crimp diameter")
        lines.append(("largest part in it", f"{name}, {setup.largest.value.share:.0f %}"))
    lines.append(("range allowed", f"{percent(setup.range.lower)} to {percent(setup.range.upper)} by the plain formula"))
    lines.append(("plain formula", _or_why(setup.plain, percent)))
    if setup.equivalent and show.may_be_set(setup):
        lines.append(("plain formula, lobes counted", percent(setup.equivalent.value)))
    return Group("Compression at the target", (
        *lines,
        ("ferrule lengthens freely", _or_why(setup.ends_free, percent)),
        ("ferrule cannot lengthen", _or_why(setup.ends_fixed, percent)),
    ))


ALLOWED_BY = {"NONE": "", "CAPACITY": " (press)", "BORE": " (go gauge)", "STEM": " (stem)", "FORMULA": " (as computed)"}


# What a limit means that has no figure, though everything is known.
SQUEEZE_IN_WORDS = {
    ferrule.Status.HOSE_PRESSURE_ABOVE_LIMIT: "more than is computed",
    ferrule.Status.FORCE_BELOW_METAL: "none: the ferrule alone may need more force",
    ferrule.Status.BORE_REDUCTION_OUT_OF_RANGE: "none: the bore is too small as it is",
    ferrule.Status.BORE_REDUCTION_ABOVE_FULL_YIELD: "the stem yields first",
    ferrule.Status.STEM_YIELDS_ENDS_NOT_FIXED: "the stem yields first",
    ferrule.Status.STEM_YIELDS_TOO_DEEP: "the stem yields first",
}


def squeeze(limit):
    """In words, rounded down: it is a limit."""
    words = SQUEEZE_IN_WORDS.get(limit.status)
    return words or _computed(limit, lambda pressure: f"{floor(pressure.mpa + 1e-9)} MPa")


def metal(job):
    """What ferrule and stem do under the dies, and how much the hose may press."""
    setup = job.setup
    limits, at_least = setup.hose_limits, ", at least" if setup.force_at_least else ""
    return Group("Metal", (
        ("closing diameter of the dies", _computed(setup.closing, fine)),
        ("springback", _computed(setup.springback, fine)),
        ("force" + at_least, _computed(setup.force, lambda force: f"{force:.0f kN}")),
        ("share of the press's capacity" + at_least, _computed(setup.capacity_use, percent)),
        ("bore reduction of the stem", _computed(setup.bore_reduction, fine)),
        ("bore margin of the stem", _computed(setup.bore_margin, fine)),
        ("squeeze of the hose: press allows", squeeze(limits.capacity)),
        ("squeeze of the hose: go gauge allows", squeeze(limits.bore)),
        ("squeeze of the hose: stem allows", squeeze(limits.stem)),
        ("squeeze of the hose: computed up to", squeeze(limits.formula)),
        ("squeeze of the hose allowed" + ALLOWED_BY[limits.which.name], squeeze(limits.smallest)),
    ))


def why_dial(job):
    """How the dial setting comes about; nothing while the order is not ready."""
    setup = job.setup
    if not show.may_be_set(setup):
        return Group("Dial", ())
    dial = show.dial(setup)[0].value
    return Group("Dial", (("offset", fine(setup.die.offset)), ("dial before rounding", fine(dial.exact)),
                          ("remainder", fine(dial.remainder))))


def groups(job):
    """All groups of figures, in the order in which a person at the press wants them."""
    return (to_confirm(job), to_set(job), to_expect(job), to_get(job), measured(job), why_target(job), compression(job), metal(job),
            why_dial(job))


def confirmed_figures(row):
    """What was looked at when a confirmation was given, as it is written in its row."""
    texts = row.texts
    return (f"target {texts['target']}, tolerance {texts['tolerance']}, die {texts['die']}, compression {texts['compression']}")


def _void(job):
    return [f"void: {row['remark'].name} was confirmed by {row['name']}, {row['date']}, for {confirmed_figures(row)}"
            for row in job.void]


def remarks(job):
    """Headings of severities in their order, each with its remarks; void confirmations stand under CONFIRM."""
    found = {}
    for remark in show.remarks(job.setup, job.names):
        found.setdefault(remark.heading, []).append(remark.text)
        if remark.severity == "CONFIRM":
            found[remark.heading] += [text for text in _void(job) if text.split()[1] == remark.remark.name]
    return list(found.items())


def cautions(job):
    """What to take care of: that of the set-up, of the crimps, the first piece and the assemblies."""
    found = set(job.setup.cautions)
    for piece in job.pieces:
        found |= set(piece.inspection.cautions) if piece.inspection else set()
    found |= set(job.first_piece.cautions) if job.first_piece else set()
    for _, release in job.assemblies:
        found |= set(release.cautions)
    return tuple(caution.text for caution in sorted(found))


def first_of(job):
    """The remark for which an order waits; nothing where it does not."""
    if job.setup.readiness == ferrule.Readiness.READY:
        return ""
    wanted = "STOP" if job.setup.readiness == ferrule.Readiness.NOT_READY else "CONFIRM"
    return next(remark.remark.sentence for remark in show.remarks(job.setup)
                if remark.severity == wanted and not remark.confirmed)


def not_done(jobs, troubles):
    """What is left of the day: orders that are not ready, those that wait, then what could not be read."""
    left = [f"order {job.number} is {show.word(job.setup.readiness)}: {first_of(job)}"
            for state in (ferrule.Readiness.NOT_READY, ferrule.Readiness.AFTER_CONFIRMING)
            for job in jobs if job.setup.readiness == state]
    return left + [str(trouble) for trouble in troubles]


# ---- the day's list ----------------------------------------------------------------------------------------

@dataclass(frozen=True)
class Place:
    """Orders that need the same adapter, die and dial; none of the three where they are not ready."""
    needs: str
    jobs: tuple


def needs(job):
    """Adapter, die and dial of an order in one line; nothing while it is not ready."""
    if not show.may_be_set(job.setup):
        return ""
    return f"adapter {adapter(job.setup)}, die {job.die_name} of {diameter(job.setup.die.die.size)}, dial {_dial(job)}"


def places(jobs):
    """The orders in the order in which they are run, those together that need the same; last what is not ready."""
    found = {}
    for job in jobs:
        found.setdefault(needs(job), []).append(job)
    not_ready = found.pop("", [])
    last = [Place("", tuple(not_ready))] if not_ready else []
    return [Place(text, tuple(same)) for text, same in found.items()] + last


# ---- crimps ------------------------------------------------------------------------------------------------

CRIMP_COLUMNS = ("piece", "gauge", "mean", "uncertainty", "off target", "ovality", "taper", "conforms", "verdict")
NOT_JUDGED = "NOT JUDGED: "


@dataclass(frozen=True)
class CrimpLine:
    """One measured crimp in words: figures for the columns between gauge and verdict, none where it is not judged."""
    piece: str
    gauge: str
    figures: tuple
    verdict: str


def _crimp_line(piece):
    if piece.inspection is None:
        return CrimpLine(piece.number, piece.gauge, (), NOT_JUDGED + piece.why_not)
    summary, verdict = piece.inspection.summary, piece.inspection.verdict
    texts = (fine(summary.mean), fine(summary.standard_uncertainty), fine(piece.inspection.deviation),
             _or_why(summary.ovality, fine), _or_why(summary.taper, fine), show.probability(verdict.conforming))
    return CrimpLine(piece.number, piece.gauge, texts, show.verdict(piece.inspection.decision))


def crimps(job):
    """A line for each measured crimp."""
    return tuple(_crimp_line(piece) for piece in job.pieces)


def findings(job):
    """What stood in the way of acceptance, and what to do."""
    return tuple(f"piece {piece.number}: {finding.sentence}" for piece in job.pieces if piece.inspection
                 for finding in piece.inspection.findings)


# ---- first piece and release -------------------------------------------------------------------------------

def first_piece(job):
    """Whether the rest may be crimped, and why not; no lines where no piece was crimped."""
    found = job.first_piece
    if not found:
        return ()
    verdict = "accepted: the rest may be crimped" if found.rest_allowed else "not accepted: crimp nothing more"
    return (verdict, *(point.sentence for point in found.points))


def _open_points(row, release):
    ends = (("first end", release.first), ("second end", release.second))
    points = [f"{end}, {point.sentence}" for end, open_points in ends for point in open_points]
    return points + [point.sentence for point in release.assembly]


def assemblies(job):
    """For each assembly what becomes of it, then its open points."""
    lines = []
    for row, release in job.assemblies:
        lines.append(f"assembly {row['assembly']}: {release.decision.sentence}")
        lines += [f"assembly {row['assembly']}: {point}" for point in _open_points(row, release)]
    return tuple(lines)


# ---- the drawing -------------------------------------------------------------------------------------------

def _crimped_wall(job, diameter):
    """Wall at this diameter, free to lengthen where the ferrule was measured outside; otherwise as it was."""
    flow = "ENDS_FREE" if job.setup.ends_free else "NONE"
    model = ferrule.Model(flow=flow)
    return ferrule.crimped_wall(job.order.joint, diameter, model)


def _drawn_diameter(setup):
    """Over the middles of the closed dies: smaller than the target where the springback is known."""
    shape = setup.shape.value
    return 2 * (shape.edge_radius + shape.lobe_height)


def crimp_drawing(job):
    """What is drawn of a job: the dies closed; without them while the order is not ready.

    The words are those of the finished crimp, at its target.
    """
    setup, joint = job.setup, job.order.joint
    shape = setup.shape.value if setup.shape and show.may_be_set(setup) else None
    drawn = _drawn_diameter(setup) if shape else setup.target
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
