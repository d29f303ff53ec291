# SPDX-License-Identifier: MIT
"""What the library finds in the tables: gauge, study, batch, each press, bursts. Every figure and every decision is its own."""
from collections import Counter
from dataclasses import dataclass

import ferrule

from read import ask, numbered, refuse

SHARE_THAT_HOLDS = ferrule.percent(95)
# The library's usual signals, written down since the picture has them, too.
CHARTING = {"beyond": 3.5, "allowance": 0.5, "decision": 5}
STRENGTHS = {"WEIBULL": "Weibull", "NORMAL": "normal", "LOGNORMAL": "lognormal", "ANY": "no shape"}


@dataclass(frozen=True)
class Lot:
    """Crimps that are judged together: those of the batch, or of one press. `answer` is None where they cannot be judged."""
    name: str
    rows: list
    answer: object
    change: object = None   # of the level, where it changed
    why_not: str = ""


@dataclass(frozen=True)
class Judged:
    """All that was found."""
    tables: object
    check: object      # of the gauge on its blocks
    study: object
    diameters: dict    # of each crimp, corrected
    batch: Lot
    presses: list
    aim: object        # of the bursts
    bursts: dict       # a verdict for each model, or the error that there is none


def _or_usual(value, usual=0):
    """What is not given is the library's usual."""
    return usual if value is None else value


def wanted(batch):
    return ferrule.Wanted(limits=(batch["lower"], batch["upper"]), target=_or_usual(batch["target"], ferrule.mm(0)))


def confidence(batch):
    return _or_usual(batch["confidence"], ferrule.fraction(0))


# ---- the gauge ---------------------------------------------------------------------------------------------

KNOWN = {"block uncertainty": "standard_uncertainty", "resolution": "resolution", "expansion": "expansion"}
SOUND_BLOCKS = [ferrule.BlockReading("20 mm", reading) for reading in ("20.00 mm", "20.01 mm", "20.02 mm")]


def check_known(tables):
    """Each cell of gauge.csv by itself, since a refusal of all of them would not say which."""
    for column, member in KNOWN.items():
        try:
            ferrule.calibrate_gauge(SOUND_BLOCKS, "90 %", ferrule.Block(**{member: tables.gauge[column]}))
        except ferrule.Error as error:
            refuse("gauge.csv", error, tables.gauge, column)


def check_wanted(tables):
    """Limits and target by themselves: a study without a tolerance would be refused before anybody looks at them."""
    sound = ferrule.summarise_sample(["20 mm", "21 mm"])
    ask(tables, "batch.csv", lambda _: ferrule.find_capability(sound, wanted(tables.batch), confidence(tables.batch)), [], "")


def check_gauge(tables):
    """Bias and correction of the gauge, where it is going to be used."""
    gauge, batch = tables.gauge, tables.batch
    known = ferrule.Block(used_at=_or_usual(batch["target"], ferrule.mm(0)), **{member: gauge[column] for column, member in KNOWN.items()})

    def call(rows):
        return ferrule.calibrate_gauge([ferrule.BlockReading(row["block"], row["reading"]) for row in rows], confidence(batch), known)
    return ask(tables, "blocks.csv", call, tables.blocks, "reading")


def check_balance(rows):
    """The first reading of a part that one person read more or less often than others: the library only says that there is one."""
    counts = Counter((row["part"], row["person"]) for row in rows)
    usual = Counter(counts.values()).most_common(1)[0][0]
    for row in rows:
        for person in numbered(row["person"] for row in rows):
            if counts[row["part"], person] != usual:
                return row, f"part {row['part']} by {person}: {counts[row['part'], person]} readings, others {usual}"
    return None, ""


def study_gauge(tables, check):
    """Repeatability and people; what both put into every sample."""
    batch, people = tables.batch, numbered(row["person"] for row in tables.study)
    settings = ferrule.StudySettings(calibration=check.gauge.standard_uncertainty, resolution=tables.gauge["resolution"])

    def call(rows):
        readings = [ferrule.StudyReading(row["part"], people[row["person"]], row["diameter"]) for row in rows]
        try:
            return ferrule.study_gauge(readings, batch["upper"] - batch["lower"], confidence(batch), settings)
        except ferrule.Error as error:
            row, where = check_balance(rows)
            if row is None or error.name not in ("STUDY_NOT_BALANCED", "STUDY_TOO_SMALL") or len(rows) < len(tables.study):
                raise
            return refuse("study.csv", error, row, "part", where)
    return ask(tables, "study.csv", call, tables.study, "diameter")


def corrected(row, check):
    """The diameter of a crimp, with the gauge's correction."""
    try:
        return ferrule.summarise_readings([row["diameter"]], check.gauge).mean
    except ferrule.Error as error:
        return refuse("crimps.csv", error, row, "diameter")


# ---- the batch, and each press -----------------------------------------------------------------------------

def question(tables, study, measured):
    """What is asked of crimps of which so many were measured.

    Where every crimp of the batch was measured, every one of a press was, too; otherwise as many may be left as of the whole batch.
    """
    batch = tables.batch
    lot = measured if batch["crimps"] == len(tables.crimps) else batch["crimps"]
    return ferrule.BatchQuestion(wanted=wanted(batch), measuring=study.measuring, lot=lot,
                                 allowed=_or_usual(batch["outside"], ferrule.fraction(0)), confidence=confidence(batch),
                                 index=_or_usual(batch["index"]), charting=ferrule.Charting(**CHARTING), burst_aim=burst_aim(batch))


def _lot(name, rows, pieces, asked):
    """Crimps judged together, and where their level changed, if it did."""
    try:
        answer = ferrule.judge_batch(pieces, asked)
    except ferrule.Error as error:
        return Lot(name, rows, None, None, f"{error.code.sentence} [{error.name}]")
    changed = ferrule.BatchFinding.LEVEL_CHANGED in answer.findings
    return Lot(name, rows, answer, ferrule.find_change(pieces)[0] if changed else None)


def _pieces(rows, diameters, group):
    """Crimps for the library; `group`: what those of a group have in common."""
    numbers = numbered(group(row) for row in rows)
    return [ferrule.SamplePiece(diameters[row["piece"]], numbers[group(row)]) for row in rows]


def judge_crimps(tables, check, study):
    """The batch as a whole, where a group is a press, and each press by itself, where a group is a die."""
    rows = tables.crimps
    diameters = {row["piece"]: corrected(row, check) for row in rows}

    def judge_all(found):
        return ferrule.judge_batch(_pieces(found, diameters, lambda row: row["press"]), question(tables, study, len(rows)))
    ask(tables, "crimps.csv", judge_all, rows, "diameter")
    batch = _lot("whole batch", rows, _pieces(rows, diameters, lambda row: row["press"]), question(tables, study, len(rows)))
    presses = []
    for press in numbered(row["press"] for row in rows):
        own = [row for row in rows if row["press"] == press]
        presses.append(_lot(press, own, _pieces(own, diameters, lambda row: row["die"]), question(tables, study, len(own))))
    return diameters, batch, presses


def on_one_sheet(judged):
    """A point for each crimp. A kind is a press with a die: each has a level of its own."""
    rows = judged.batch.rows
    kinds = numbered((row["press"], row["die"]) for row in rows)
    pieces = [ferrule.SamplePiece(judged.diameters[row["piece"]], 0, kinds[row["press"], row["die"]]) for row in rows]
    return ferrule.chart_points(pieces, ferrule.Charting(**CHARTING, resolution=judged.study.measuring.resolution))


def shown_so_far(judged, lot, count):
    """The index of the first crimps of a press, or None where so few have none."""
    try:
        sample = ferrule.summarise_sample([judged.diameters[row["piece"]] for row in lot.rows[:count]])
        return ferrule.find_capability(sample, wanted(judged.tables.batch), confidence(judged.tables.batch),
                                       ferrule.CapabilitySettings(measuring=judged.study.measuring)).nearer
    except ferrule.Error:
        return None


# ---- bursts ------------------------------------------------------------------------------------------------

def burst_aim(batch):
    return ferrule.BurstAim(working=_or_usual(batch["working pressure"], ferrule.mpa(0)), share=SHARE_THAT_HOLDS, multiple=_or_usual(batch["burst multiple"]),
                            confidence=confidence(batch))


def judge_bursts(tables, aim):
    """A verdict for each model. The most cautious counts; where even that is refused, the table is."""
    def call(rows, strength="WEIBULL"):
        return ferrule.judge_bursts([ferrule.Burst(row["pressure"], not row["burst"]) for row in rows], aim, strength)
    found = {"WEIBULL": ask(tables, "bursts.csv", call, tables.bursts, "pressure")}
    for strength in [*STRENGTHS][1:]:
        try:
            found[strength] = call(tables.bursts, strength)
        except ferrule.Error as error:
            found[strength] = error
    return found


def judge(tables):
    """All of it."""
    check_known(tables)
    check_wanted(tables)
    check = check_gauge(tables)
    study = study_gauge(tables, check)
    diameters, batch, presses = judge_crimps(tables, check, study)
    aim = burst_aim(tables.batch)
    return Judged(tables, check, study, diameters, batch, presses, aim, judge_bursts(tables, aim))
