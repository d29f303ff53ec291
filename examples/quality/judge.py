# SPDX-License-Identifier: MIT
"""What the library finds in the tables: gauge, study, batch, each press, bursts. Every figure and every decision is its own."""
from collections import Counter
from dataclasses import dataclass

import ferrule

from read import ask, numbered, refuse

SHARE_THAT_HOLDS = ferrule.percent(95)
STRENGTHS = {"WEIBULL": "Weibull", "NORMAL": "normal", "LOGNORMAL": "lognormal", "ANY": "no shape"}


@dataclass(frozen=True)
class Lot:
    """Crimps that are judged together: those of the batch, or of one press. `answer` is None where they cannot be judged."""
    name: str
    rows: list
    pieces: list
    answer: object
    why_not: str = ""


@dataclass(frozen=True)
class Judged:
    """All that was found."""
    tables: object
    check: object      # of the gauge on its blocks
    study: object
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

def question(tables, study, crimps):
    """What is asked of crimps that were measured; `crimps`: how many there are in all."""
    batch = tables.batch
    return ferrule.BatchQuestion(wanted=wanted(batch), measuring=study.measuring, lot=crimps, allowed=_or_usual(batch["outside"], ferrule.fraction(0)),
                                 confidence=confidence(batch), index=_or_usual(batch["index"]))


def _lot(name, rows, pieces, asked):
    try:
        return Lot(name, rows, pieces, ferrule.judge_batch(pieces, asked))
    except ferrule.Error as error:
        return Lot(name, rows, pieces, None, f"{error.code.sentence} [{error.name}]")


def judge_crimps(tables, check, study):
    """The batch as a whole, and each press by itself. A kind is a press with a die: each has its own level on the sheet."""
    rows = tables.crimps
    presses, kinds = numbered(row["press"] for row in rows), numbered((row["press"], row["die"]) for row in rows)
    pieces = [ferrule.SamplePiece(corrected(row, check), presses[row["press"]], kinds[row["press"], row["die"]]) for row in rows]
    batch = ask(tables, "crimps.csv", lambda found: ferrule.judge_batch(pieces[:len(found)], question(tables, study, tables.batch["crimps"])),
                rows, "diameter")
    lots = []
    for press in presses:
        places = [place for place, row in enumerate(rows) if row["press"] == press]
        lots.append(_lot(press, [rows[place] for place in places], [pieces[place] for place in places],
                         question(tables, study, tables.batch["crimps"])))
    return Lot("batch", rows, pieces, batch), lots


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
    batch, presses = judge_crimps(tables, check, study)
    aim = burst_aim(tables.batch)
    return Judged(tables, check, study, batch, presses, aim, judge_bursts(tables, aim))
