# SPDX-License-Identifier: MIT
"""What page and text say, in the same words. Nothing is decided here: decisions, findings and their severities are the library's.

Figures are rounded once, here: a limit to the side that promises less.
"""
from dataclasses import dataclass
from decimal import ROUND_CEILING, ROUND_FLOOR, Decimal

import ferrule
from ferrule import show

from judge import STRENGTHS

WORDS = {"ACCEPT": "accept", "REJECT": "reject", "UNDECIDED": "find out first"}
SIGNS = {"ACCEPT": "[OK]", "REJECT": "[X]", "UNDECIDED": "[?]"}
NOT_JUDGED = "UNDECIDED"
MEANINGS = {
    "ACCEPT": "The diameters pass. At most {allowed} of all crimps of this batch are outside the limits: that is {confidence} sure.{but}",
    "REJECT": "A measured crimp is outside the limits. Stop the batch, measure every crimp, and scrap what is outside.",
    "ALL_MEASURED": "The diameters pass: every crimp of this batch was measured, and each is inside the limits.",
    "UNDECIDED": "Keep the batch back{by}. What was measured does not settle it: do first what stands below, under \"Do next\".",
}
MOVED = {"LEVEL_CHANGED", "CHART_SIGNAL"}  # a cause is to be found
NOT_SHOWN = {"SHARE_NOT_SHOWN", "INDEX_NOT_SHOWN", "CANNOT_BE_SHOWN"}  # follows where a press moved
NOT_SAID = ("This is about diameters only. It says nothing of leaks: every assembly is checked, proof tested and released by itself, "
            "never by a sample of diameters.")
INVENTED = "All data that come with this program are invented: do not crimp anything by them."


@dataclass(frozen=True)
class Row:
    """A press on the first screen."""
    press: str
    count: str
    decision: str
    word: str
    sign: str
    why: str
    next: str


@dataclass(frozen=True)
class Group:
    title: str
    lines: list


@dataclass(frozen=True)
class Report:
    title: str
    subject: str
    decision: str
    word: str
    sign: str
    meaning: str
    not_said: str
    presses: list
    do_next: list
    findings: dict   # heading of the severity: (where, sentence), the gravest first
    groups: list
    cautions: list
    invented: str = INVENTED


# ---- figures -----------------------------------------------------------------------------------------------

def _rounded(value, digits, towards):
    return str(Decimal(repr(value)).quantize(Decimal(1).scaleb(-digits), towards))


def at_least(value, digits=2):
    """A lower limit: rounded down."""
    return "none" if value != value else _rounded(value, digits, ROUND_FLOOR)


def at_most(share, digits=2):
    """An upper limit of a share: rounded up."""
    percent = share.percent
    return "not known" if percent != percent else f"{_rounded(percent, digits, ROUND_CEILING)} %"


def plain(number, digits=2):
    return "none" if number != number else f"{number:.{digits}f}"


def mm(value, digits=3):
    return "not known" if value.mm != value.mm else f"{value.mm:.{digits}f} mm"


def signed(value, digits=3):
    return f"{value.mm:+.{digits}f} mm"


def bar(value):
    """A pressure that is shown to hold: rounded down."""
    return "none" if value.bar != value.bar else f"{_rounded(value.bar, 0, ROUND_FLOOR)} bar"


def percent(share, digits=1):
    return "not known" if share.percent != share.percent else f"{share.percent:.{digits}f} %"


# ---- findings ----------------------------------------------------------------------------------------------

ORDER = ("STOP", "CONFIRM", "DO_FIRST", "KNOW")


def _batch_findings(lot):
    """Severity and finding of each, in the library's order: the gravest first."""
    return [(ferrule.batch_finding_severity(finding).name, finding) for finding in lot.answer.findings] if lot.answer else []


def _findings(judged):
    """Of batch, presses and gauge: by severity, then by place."""
    found = {severity: [] for severity in ORDER}
    for lot in (judged.batch, *judged.presses):
        for severity, finding in _batch_findings(lot):
            if severity != "KNOW" or lot is judged.batch or finding not in judged.batch.answer.findings:  # said once
                found[severity].append((lot.name, finding.sentence))
    for finding in judged.study.findings:
        found[ferrule.study_finding_severity(finding).name].append((judged.tables.gauge["gauge"], finding.sentence))
    return {show.HEADINGS[severity]: texts for severity, texts in found.items() if texts}


# ---- what to do next ---------------------------------------------------------------------------------------

def _at(row):
    return f"crimp {row.texts['piece']} ({row.texts['time']})"


def _change(lot):
    """Where the level most likely moved, and by how much."""
    return f"moved from {mm(lot.change.before)} to {mm(lot.change.after)} after {_at(lot.rows[lot.answer.change_after])}"


def _range_of_change(lot):
    """Between which crimps it surely enough moved."""
    first, last = lot.rows[lot.change.earliest], lot.rows[min(lot.change.latest + 1, len(lot.rows) - 1)]
    return f"90 % sure: between {_at(first)} and {_at(last)}"


# What is done about a finding, where there is more to say than its own sentence.
STEPS = {
    "PIECE_OUTSIDE": "measure every crimp, and scrap what is outside",
    "LEVEL_CHANGED": "find what was touched there",
    "CHART_SIGNAL": "find what was touched before {signal}",
    "SHARE_NOT_SHOWN": "measure {more} more crimps", "INDEX_NOT_SHOWN": "measure {more} more crimps",
    "OFF_TARGET": "before it goes on, correct the dial by {correction}, to its nearest step, and crimp a new trial piece",
}
# In words that need no statistics.
WHY = {"SHARE_NOT_SHOWN": "too few crimps were measured to show that the others are inside the limits",
       "INDEX_NOT_SHOWN": "too few crimps were measured to show that it is as good as it has to be"}


def _step(lot, finding):
    answer = lot.answer
    return STEPS.get(finding.name, finding.sentence).format(
        signal=_at(lot.rows[answer.signal_at]), correction=signed(answer.correction), more=answer.more_pieces or "some")


def _steps(lot):
    """What is asked for, in the order of the findings: finding and what to do. More crimps settle nothing while a cause is to be found."""
    if not lot.answer:
        return []
    moved = MOVED & {finding.name for finding in lot.answer.findings}
    steps = {}
    for severity, finding in _batch_findings(lot):
        if finding.name == "OFF_TARGET" and not moved or severity != "KNOW" and not (moved and finding.name in NOT_SHOWN):
            steps.setdefault(_step(lot, finding), finding.name)
    if "find what was touched there" in steps:
        steps = {step: name for step, name in steps.items() if name != "CHART_SIGNAL"}
    return [(name, step) for step, name in steps.items()]


def _why(lot):
    """The gravest finding, in figures where there are some; of what is accepted, what was shown."""
    if not lot.answer:
        return f"not judged: {lot.why_not}"
    if lot.change:
        return _change(lot)
    if lot.answer.decision.name == "ACCEPT":
        return f"at most {at_most(lot.answer.outside_upper)} are outside"
    found = [WHY.get(finding.name, finding.sentence) for severity, finding in _batch_findings(lot) if severity != "KNOW"]
    return found[0]


def _row(lot):
    decision = lot.answer.decision.name if lot.answer else NOT_JUDGED
    steps = "; then ".join(step for _, step in _steps(lot)) or ("nothing" if lot.answer else "measure fewer or more crimps of it together")
    return Row(lot.name, str(len(lot.rows)), decision, WORDS[decision], SIGNS[decision], _why(lot), steps)


def _do_next(judged):
    """In the order of their weight: what keeps the batch back, then the bursts, then the gauge."""
    texts, named = [], set()
    for lot in judged.presses:
        for name, step in _steps(lot):
            named.add(name)
            texts.append(f"{lot.name}: {step}: it {_change(lot)}; {_range_of_change(lot)}." if name == "LEVEL_CHANGED" else f"{lot.name}: {step}.")
    texts += [f"{judged.batch.name}: {step}." for name, step in _steps(judged.batch) if name not in named and name not in MOVED | NOT_SHOWN]
    texts += _burst_steps(judged)
    texts += [f"{judged.tables.gauge['gauge']}: {finding.sentence}." for finding in judged.study.findings
              if ferrule.study_finding_severity(finding).name != "KNOW"]
    return texts or ["Nothing: go on, and measure the next batch as this one."]


def _burst_steps(judged):
    verdict = judged.bursts["WEIBULL"]
    if verdict.decision.name == "REJECT":
        return [f"Bursts: one burst below {bar(verdict.limit)}. Release nothing of these parts, and find out why."]
    if verdict.decision.name == "ACCEPT":
        return []
    if verdict.never_shown or not verdict.more:
        return [f"Bursts: more like these will never show {bar(verdict.limit)}: find out why they scatter."]
    return [f"Bursts: burst {verdict.more} more assemblies; that shows {bar(verdict.limit)} if they burst as these did. Whatever shape burst "
            f"pressures have, {judged.batch.answer.to_burst} in all show it, none of which bursts at that pressure."]


# ---- figures by subject ------------------------------------------------------------------------------------

def _lot_lines(lot, judged):
    answer = lot.answer
    if not answer:
        return [("not judged", lot.why_not)]
    asked = judged.tables.batch["index"]
    lines = [("crimps measured", str(len(lot.rows))), ("mean", mm(answer.mean)), ("standard deviation, gauge taken off", mm(answer.deviation, 4)),
             ("index, gauge taken off", plain(answer.index)), ("index, at least", at_least(answer.index_lower)),
             ("share outside, at most", at_most(answer.outside_upper))]
    if asked:
        lines.insert(5, ("index asked", plain(asked)))
    if lot is judged.batch:
        lines.append(("all that were not measured are inside with", show.probability(answer.rest_inside)))
    return lines


def _gauge_lines(judged):
    check, study = judged.check, judged.study
    return [("reads high by", signed(check.bias, 4)), ("correction", signed(check.gauge.correction, 4)),
            ("standard uncertainty of the correction", mm(check.gauge.standard_uncertainty, 4)),
            ("repeatability, one person", mm(study.repeatability.value, 4)), ("between people", mm(study.people.value, 4)),
            ("gauge and people together", mm(study.gauge.value, 4)),
            ("six of that take of the tolerance", percent(study.gauge.of_tolerance)),
            ("categories of parts that it distinguishes", plain(study.categories, 1))]


def _burst_lines(judged):
    first = judged.bursts["WEIBULL"]
    lines = [("has to hold", bar(first.limit)), ("burst, stopped", f"{first.burst}, {first.stopped}"),
             ("answer, by the most cautious model", WORDS[first.decision.name])]
    for strength, verdict in judged.bursts.items():
        said = verdict.code.sentence if isinstance(verdict, ferrule.Error) else bar(verdict.bound)
        lines.append((f"{percent(judged.aim.share, 0)} hold, {STRENGTHS[strength]}", said))
    return lines


def _groups(judged):
    groups = [Group("Whole batch", _lot_lines(judged.batch, judged))]
    groups += [Group(lot.name, _lot_lines(lot, judged)) for lot in judged.presses]
    return [*groups, Group(f"Gauge: {judged.tables.gauge['gauge']}", _gauge_lines(judged)), Group("Bursts", _burst_lines(judged))]


# ---- the whole of it ---------------------------------------------------------------------------------------

def _cautions(judged):
    answers = [lot.answer for lot in (judged.batch, *judged.presses) if lot.answer]
    answers += [verdict for verdict in judged.bursts.values() if not isinstance(verdict, ferrule.Error)]
    return [ferrule.caution_text(caution) for caution in sorted({caution for answer in answers for caution in answer.cautions})]


def _asked(judged):
    """What a meaning names: who keeps the batch back, the share and the confidence that were asked for, or the usual ones."""
    batch = judged.tables.batch
    waiting = [lot.name for lot in judged.presses if not lot.answer or lot.answer.decision.name != "ACCEPT"]
    names = " and ".join(waiting)
    return {"by": f", because of {names}" if waiting else "", "but": f" Of {names} alone it is not shown: see below." if waiting else "",
            "allowed": batch.texts["outside"] if batch["outside"] else percent(ferrule.percent(1), 0),
            "confidence": batch.texts["confidence"] if batch["confidence"] else percent(ferrule.percent(90), 0)}


def make(judged):
    """The report."""
    batch, answer = judged.tables.batch, judged.batch.answer
    decision = answer.decision.name
    said = "ALL_MEASURED" if decision == "ACCEPT" and batch["crimps"] == len(judged.batch.rows) else decision
    target = "" if batch["target"] is None else f", target {batch.texts['target']}"
    subject = (f"{batch.texts['crimps']} crimps of {batch['parts']}, {len(judged.batch.rows)} of them measured with {judged.tables.gauge['gauge']}; "
               f"limits {batch.texts['lower']} to {batch.texts['upper']}{target}")
    return Report(title=f"Order {batch['order']}: do the diameters pass?", subject=subject, decision=decision, word=WORDS[decision],
                  sign=SIGNS[decision], meaning=MEANINGS[said].format(**_asked(judged)), not_said=NOT_SAID,
                  presses=[_row(lot) for lot in judged.presses], do_next=_do_next(judged), findings=_findings(judged),
                  groups=_groups(judged), cautions=_cautions(judged))
