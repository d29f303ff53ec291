# SPDX-License-Identifier: MIT
"""Words that front ends show alike: whether a set-up may be crimped, what stands in the way, what to set, how probable.

    >>> from ferrule import Joint, Press, plan_setup, show
    >>> setup = plan_setup(Joint(("12.7 mm", "19.9 mm"), "12.95 mm", "2.4 mm"), Press(), ["16 mm"])
    >>> show.readiness(setup)
    '[X] NOT READY: not to be crimped: something has to be changed first'
    >>> show.probability("99.97 %")
    '> 99.9 %'

Nothing is decided here: the library's readiness, severities and sentences are put into an order and a form.
"""
from typing import Any

import ferrule

__all__ = ["Remark", "decimals", "dial", "may_be_set", "probability", "readiness", "remarks", "sign", "verdict", "word", "zone",
           "zone_ends"]

SIGNS = {"NOT_READY": "[X]", "AFTER_CONFIRMING": "[?]", "READY": "[OK]"}
HEADINGS = {"STOP": "STOP", "CONFIRM": "CONFIRM", "DO_FIRST": "DO FIRST", "KNOW": "GOOD TO KNOW"}
VERDICTS = {"ACCEPT": "accept", "REJECT": "reject", "UNDECIDED": "undecided"}
# Where the compression to look at first comes from.
SOURCES = {"PLAIN": "by the plain formula", "MODEL": "by the order's model", "FORMING": "of the bore that the ferrule's metal leaves"}


class Remark:
    """A remark as it is shown: heading of its severity, its own sentence, and whether somebody confirmed it."""

    def __init__(self, remark: Any, confirmed: bool, by: str = "") -> None:
        self.remark, self.by, self.confirmed = remark, by, confirmed
        self.severity = ferrule.remark_severity(remark).name
        self.heading = HEADINGS[self.severity]

    @property
    def text(self) -> str:
        """The sentence, and before it whether it is confirmed, by whom and when."""
        if self.severity != "CONFIRM":
            return str(self.remark.sentence)
        state = f"confirmed by {self.by}" if self.by else "confirmed"
        return f"{state if self.confirmed else 'not confirmed'}: {self.remark.sentence}"


def sign(answer: Any) -> str:
    """The sign of a readiness; of a number that is none of them that of not ready."""
    return SIGNS.get(answer.name, SIGNS["NOT_READY"])


def word(answer: Any) -> str:
    """The readiness in words: NOT READY, AFTER CONFIRMING, READY."""
    return str(answer.name).replace("_", " ")


def readiness(setup: Any) -> str:
    """The first line of every front end: sign, word and sentence."""
    answer = setup.readiness
    return f"{sign(answer)} {word(answer)}: {answer.sentence}"


def may_be_set(setup: Any) -> bool:
    """Whether die, adapter and dial are shown at all: while a set-up is not ready there is nothing to set."""
    return bool(setup.readiness != ferrule.Readiness.NOT_READY)


def remarks(setup: Any, names: Any = None) -> list[Remark]:
    """All remarks, the gravest first; names: remark to who confirmed it."""
    by = names or {}
    return [Remark(remark, remark in setup.confirmed, by.get(remark, "")) for remark in setup.remarks]


def probability(share: Any) -> str:
    """A probability with one decimal; what is nearly sure or nearly impossible is not printed as if it were known exactly."""
    percent = ferrule.Ratio(share).percent
    if percent != percent:
        return "not known"
    if percent > 99.9:
        return "> 99.9 %"
    return "< 0.1 %" if percent < 0.1 else f"{percent:.1f} %"


def decimals(graduation: Any, usual: int = 3) -> int:
    """How many decimals of a millimetre a scale of this step shows, at most four; `usual` where there are no steps."""
    step = ferrule.Length(graduation).mm
    if not step:
        return usual
    return next((places for places in range(4) if abs(step - round(step, places)) < 1e-9), 4)


def dial(setup: Any) -> tuple[Any, bool]:
    """The dial setting to use and whether the springback is taken off in it; the setting may not be there."""
    return (setup.springback_dial, True) if setup.springback_dial else (setup.dial, False)


def zone_ends(setup: Any, step: Any) -> Any:
    """The readings that are accepted, rounded inwards to the step in which they are shown; None where nothing is accepted."""
    found = setup.zone
    if not found or found.value.empty or ferrule.Remark.GAUGE_TAKEN_AS_EXACT in setup.remarks:
        return None
    shown = ferrule.find_shown_zone(found.value, ferrule.Gauge(resolution=step))
    return None if shown.empty else shown


def zone(setup: Any, length: Any, step: Any) -> str:
    """What the gauge in hand may show, or why there is nothing to accept; length: a function from a length to its text."""
    shown = zone_ends(setup, step)
    if shown is None:
        found = setup.zone
        exact = ferrule.Remark.GAUGE_TAKEN_AS_EXACT
        why = found.status.sentence if not found else exact.sentence if exact in setup.remarks else "this gauge cannot accept anything"
        return f"nothing yet: {why}"
    lower, upper = length(shown.accept.lower), length(shown.accept.upper)
    said = {"LOWER": f"{lower} or more", "UPPER": f"{upper} or less"}.get(shown.side.name, f"{lower} to {upper}")
    return f"{said}, as the gauge shows it"


def verdict(decision: Any) -> str:
    """A verdict on a diameter, which is never the verdict on a piece."""
    return f"diameter: {VERDICTS[decision.name]}"
