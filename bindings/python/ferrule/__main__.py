# SPDX-License-Identifier: MIT
"""python -m ferrule: plan a set-up, judge a crimp, make records of jobs again, convert units, say what is here.

Exit status: 0 done; 2 something given is wrong: one line says what, its value and the rule. plan: 0 READY, 1 NOT READY,
3 AFTER CONFIRMING. judge: 0 diameter accepted, 1 rejected, 3 undecided. replay: 0 the same, 1 not the same, 3 within the accuracy.
"""
import argparse
import collections.abc
import json
import os
import re
import sys
from typing import Any, NoReturn

import ferrule
from ferrule import show

__all__ = ["main"]
LENGTHS = [unit.name for unit in ferrule.Unit if hasattr(ferrule.Length, unit.name)]
KINDS = [kind for kind in vars(ferrule).values() if isinstance(kind, type) and hasattr(kind, "to_pint")]


PLAN_ENDS = {"READY": 0, "NOT_READY": 1, "AFTER_CONFIRMING": 3}
JUDGE_ENDS = {"ACCEPT": 0, "REJECT": 1, "UNDECIDED": 3}
PLAN_STATUS = ("Exit status: 0 READY: crimp one piece and check it; 1 NOT READY: not to be crimped, and die and dial are not shown; "
               "3 AFTER CONFIRMING: not to be crimped before somebody has confirmed; 2 something given is wrong.")
JUDGE_STATUS = ("Exit status: 0 diameter accepted; 1 diameter rejected; 3 undecided; 2 something given is wrong. The diameter is one check "
                "of several: looks, insertion, bore and the rest of the release decide, too.")
REPLAY_STATUS = ("Exit status: 0 every call says the same again, to the last byte, and the chain holds; 3 some numbers differ within 1e-9, as another "
                 "version or mathematical library may make them; 1 a call says something else, or the chain is broken; 2 the file cannot be read.")
APPLIES_TO = [rule.name.lower() for rule in ferrule.AppliesTo]
APPROVALS = [state.name.lower() for state in ferrule.Approval]


class Wrong(Exception):
    """What is reported in one line."""


class Parser(argparse.ArgumentParser):
    def __init__(self, *words: Any, **more: Any) -> None:
        super().__init__(*words, **more)
        self._negative_number_matcher = re.compile(r"^-\.?\d")  # -0.15mm is a value, not an option

    def error(self, message: str) -> NoReturn:
        raise Wrong(message)


def quantity(kind: type) -> collections.abc.Callable[[str], Any]:
    """Reads an argument; what is wrong is said with the value and the rule."""
    def read(text: str) -> Any:
        try:
            return kind(text)
        except ferrule.Error as error:
            raise argparse.ArgumentTypeError(f"{text!r}: {error.code.sentence}; units: {', '.join(unit_names(kind))}") from None
        except ValueError:
            raise argparse.ArgumentTypeError(f"{text!r} is no text that can be read") from None
    return read


def unit_names(kind: type) -> list[str]:
    return [unit.name for unit in ferrule.Unit if hasattr(kind, unit.name)]


def common_parser() -> Parser:
    common = Parser(add_help=False)
    common.add_argument("--json", action="store_true", help="as JSON, in one object")
    return common


def make_parser() -> Parser:
    parser = Parser(prog="python -m ferrule", description="Engineering mathematics of crimping hose couplings. Quantities are "
                    "written with their unit: \"12.7 mm\", 12.7mm, \"1/2 in\", \"20 %\".", epilog=f"plan: {PLAN_STATUS} judge: {JUDGE_STATUS}")
    tasks = parser.add_subparsers(dest="task", required=True, metavar="plan, judge, replay, units or about")
    add_plan(tasks)
    add_judge(tasks)
    replay = tasks.add_parser("replay", parents=[common_parser()], help="make the calls of records again, and check their chain", epilog=REPLAY_STATUS)
    replay.add_argument("file", metavar="FILE", help="records of jobs, a line for each")
    replay.add_argument("--last", metavar="HASH", help="hash of the last record as somebody else has kept it, at least its first 16 digits")
    replay.set_defaults(run=run_replay)
    units = tasks.add_parser("units", parents=[common_parser()], help="the units that are understood, or a quantity in them")
    units.add_argument("amount", nargs="?", help='a quantity, such as "0.5 in"')
    units.add_argument("unit", nargs="?", help="the one unit to give it in, such as mm")
    units.set_defaults(run=run_units)
    about = tasks.add_parser("about", parents=[common_parser()], help="version, what is installed, cautions")
    about.set_defaults(run=run_about)
    return parser


def add_plan(tasks: Any) -> None:
    plan = tasks.add_parser("plan", parents=[common_parser()], help="from a joint, a press and dies to a set-up", epilog=PLAN_STATUS)
    length, ratio = quantity(ferrule.Length), quantity(ferrule.Ratio)
    for name, words in (("hose-inside", "hose inside diameter"), ("hose-outside", "hose outside diameter"),
                        ("stem-outside", "stem outside diameter"), ("ferrule-wall", "wall of the ferrule")):
        plan.add_argument(f"--{name}", type=length, required=True, metavar="LENGTH", help=words)
    for name, words in (("ferrule-outside", "ferrule outside diameter"), ("ferrule-length", "length of the ferrule"),
                        ("stem-bore", "bore of the stem"), ("published", "crimp diameter that the coupling's manufacturer publishes"),
                        ("tolerance", "allowed deviation either way"), ("graduation", "smallest step of the dial"),
                        ("correction", "added to the dial's setting, found on finished crimps; 0mm where it was measured to be none"),
                        ("opening", "how far the dies open, on the diameter"), ("widest", "widest diameter that has to pass the open dies"),
                        ("reach", "greatest offset of the dies"), ("insertion", "depth to which the hose is pushed in"),
                        ("skive-outside", "length of hose that is skived outside"), ("skive-inside", "length that is skived inside"),
                        ("gauge", "standard uncertainty of the gauge in hand"), ("resolution", "smallest step that the gauge shows")):
        plan.add_argument(f"--{name}", type=length, metavar="LENGTH", help=words)
    plan.add_argument("--range", type=ratio, nargs=2, metavar="RATIO", help="compression from and to; without it 15 to 25 %%")
    plan.add_argument("--known", type=length, nargs=6, metavar="LENGTH", help="standard uncertainties of hose inside, hose outside, "
                      "stem outside, ferrule wall, ferrule outside, crimp diameter")
    plan.add_argument("--segments", type=int, metavar="NUMBER", help="segments of a die; without it 8")
    plan.add_argument("--dies", type=length, nargs="*", default=[], metavar="SIZE", help="sizes of the dies on the rack")
    plan.add_argument("--approval", choices=APPROVALS, default=APPROVALS[0], help="whether the manufacturers approve the combination")
    plan.add_argument("--applies-to", choices=APPLIES_TO, default=APPLIES_TO[0], help="what the limits apply to; without it that is not stated")
    plan.add_argument("--confirm", nargs=2, action="append", default=[], metavar=("REMARK", "NAME"), help="a remark of CONFIRM, and "
                      "who answers for it: the owner of the crimp specification. Needs --looked-at; may come again")
    plan.add_argument("--looked-at", nargs=4, metavar="FIGURE", help="target, tolerance, die and compression that were looked at, as "
                      "plan prints them; where one of them has changed the confirmation is void")
    plan.add_argument("--in", dest="unit", choices=LENGTHS, default="mm", help="the unit of the lengths that are shown")
    plan.set_defaults(run=run_plan)


def add_judge(tasks: Any) -> None:
    judge = tasks.add_parser("judge", parents=[common_parser()], help="measured diameters against limits", epilog=JUDGE_STATUS)
    length = quantity(ferrule.Length)
    judge.add_argument("readings", type=length, nargs="+", metavar="READING", help="diameters as measured")
    judge.add_argument("--limits", type=length, nargs=2, required=True, metavar="LENGTH", help="minimum and maximum diameter allowed")
    judge.add_argument("--gauge", type=length, metavar="LENGTH", help="standard uncertainty of the gauge; without it nothing is accepted")
    judge.add_argument("--resolution", type=length, metavar="LENGTH", help="smallest step that the gauge shows")
    judge.add_argument("--applies-to", choices=APPLIES_TO, default=APPLIES_TO[0], help="what the limits apply to; without it that is not stated")
    judge.add_argument("--without-guard", action="store_true", help="the limits alone decide, as if the mean were without error")
    judge.add_argument("--in", dest="unit", choices=LENGTHS, default="mm", help="the unit of the lengths that are shown")
    judge.set_defaults(run=run_judge)


# ---- plan ----------------------------------------------------------------------------------------------------


def order_of(given: argparse.Namespace) -> Any:
    joint = ferrule.Joint(ferrule.Hose(given.hose_inside, given.hose_outside), ferrule.Stem(given.stem_outside, given.stem_bore),
                          ferrule.Ferrule(given.ferrule_wall, given.ferrule_outside, given.ferrule_length))
    allowed = ferrule.RatioRange(*given.range) if given.range else None
    known = ferrule.Uncertainties(*given.known) if given.known else None
    gauge = ferrule.Gauge(standard_uncertainty=given.gauge, resolution=given.resolution)
    return ferrule.Order(joint, published=given.published, tolerance=given.tolerance, range=allowed, widest=given.widest, gauge=gauge,
                         uncertainties=known, approval=given.approval, applies_to=given.applies_to, insertion=given.insertion,
                         skive_outside=given.skive_outside, skive_inside=given.skive_inside)


def run_plan(given: argparse.Namespace) -> tuple[int, dict[str, Any], list[str]]:
    press = ferrule.Press(graduation=given.graduation, correction=given.correction, opening=given.opening, segments=given.segments,
                          correction_measured=given.correction is not None)
    setup = ferrule.plan_setup(order_of(given), press, [ferrule.Die(size, reach=given.reach) for size in given.dies])
    setup, names = confirm(setup, given)
    data = {"readiness": setup.readiness.name, "remarks": [remark_data(remark) for remark in show.remarks(setup, names)],
            "cautions": [caution.text for caution in setup.cautions], "set_up": set_up_data(setup)}
    return PLAN_ENDS[setup.readiness.name], data, plan_text(setup, names, given)


def confirm(setup: Any, given: argparse.Namespace) -> tuple[Any, dict[Any, str]]:
    """The set-up with what was confirmed, and by whom. Only what was looked at counts, never what came out today."""
    if not given.confirm:
        return setup, {}
    if given.looked_at is None:
        raise Wrong("--confirm needs --looked-at with the target, tolerance, die and compression that were looked at")
    if not all(name.strip() for _, name in given.confirm):
        raise Wrong("--confirm: nobody is named; the owner of the crimp specification answers for it")
    *lengths, compression = given.looked_at
    target, tolerance, die = (quantity(ferrule.Length)("0 mm" if text == "-" else text) for text in lengths)
    share = None if compression == "-" else quantity(ferrule.Ratio)(compression)
    found = {ferrule.Confirmation(remark, target, tolerance, die, share): name for remark, name in given.confirm}
    return ferrule.confirm_setup(setup, list(found)), {one.remark: name for one, name in found.items()}


def remark_data(remark: show.Remark) -> dict[str, Any]:
    return {"severity": remark.severity, "name": remark.remark.name, "sentence": remark.remark.sentence,
            "confirmed": remark.confirmed, **({"by": remark.by} if remark.confirmed else {})}


def set_up_data(setup: Any) -> Any:
    """What may not be crimped carries nothing that a label printer could take for a setting; what to buy stays."""
    data = setup.to_dict()
    if not show.may_be_set(setup):
        for name in ("dial", "springback_dial", *(["die"] if setup.die.found else [])):
            del data[name]
    return data


def places(unit: str) -> int:
    return {"mm": 2, "inch": 4, "micrometre": 0, "thou": 1, "cm": 3}.get(unit, 5)


def shower(unit: str) -> collections.abc.Callable[[Any], str]:
    return lambda length: f"{length:.{places(unit)}f {unit}}"


def plan_text(setup: Any, names: dict[Any, str], given: argparse.Namespace) -> list[str]:
    length = shower(given.unit)
    lines = [show.readiness(setup)]
    heading = ""
    for remark in show.remarks(setup, names):
        lines += ["", remark.heading] * (remark.heading != heading) + [f"  - {remark.text}"]
        heading = remark.heading
    if setup.readiness == ferrule.Readiness.AFTER_CONFIRMING:
        lines += ["", "Look at these figures, and add them with --confirm REMARK NAME, REMARK being one of",
                  *marks([remark.name for remark in setup.remarks if ferrule.remark_severity(remark) == ferrule.Severity.CONFIRM]),
                  "  --looked-at " + " ".join(looked_at(setup))]
    groups = [("Set", set_rows(setup, given)), ("Expect", expect_rows(setup, given.unit))] if show.may_be_set(setup) else \
        [("To get", buy_rows(setup, length))]
    for title, rows in [*groups, ("Target", target_rows(setup, length)), ("Compression", compression_rows(setup))]:
        lines += ["", title, *table(rows)] if rows else []
    return lines + ["", "Cautions"] + marks([caution.text for caution in setup.cautions])


def looked_at(setup: Any) -> list[str]:
    """The figures that a confirmation names, with the digits that it is compared by."""
    def text(length: Any) -> str:
        return f"{length:.4f mm}".replace(" ", "") if length else "-"
    return [text(setup.target), text(setup.tolerance), text(setup.die.die.size if setup.die.found else None),
            f"{setup.plain.value:.2f %}".replace(" ", "") if setup.plain else "-"]


def set_rows(setup: Any, given: argparse.Namespace) -> list[tuple[str, str]]:
    length = shower(given.unit)
    rows = [("adapter", "set %d" % setup.die.die.adapter if setup.die.die.adapter else "none"), ("die", length(setup.die.die.size))]
    setting, taken_off = show.dial(setup)
    places = show.decimals(given.graduation) if given.graduation else 3
    amount = f"{setting.value.setting:.{places}f mm}" if given.unit == "mm" else length(setting.value.setting)
    rows.append(("dial", amount + (", springback taken off" if taken_off else "")))
    if setup.insertion:
        rows.append(("insertion", f"mark the hose at {length(setup.insertion)}"))
    skives = [(f"skive {side}", length(amount)) for side, amount in (("outside", setup.skive_outside), ("inside", setup.skive_inside)) if amount]
    return rows + skives


def expect_rows(setup: Any, unit: str) -> list[tuple[str, str]]:
    length, step = shower(unit), ferrule.Length(f"{10.0 ** -places(unit):.6f} {unit}")
    return [("crimp diameter", length(show.dial(setup)[0].value.expected)), ("accept", show.zone(setup, length, step))]


def buy_rows(setup: Any, length: collections.abc.Callable[[Any], str]) -> list[tuple[str, str]]:
    if setup.die.found:
        return []
    return [("die", f"none; one of {length(setup.die.buy.lower)} to {length(setup.die.buy.upper)} would do")]


def target_rows(setup: Any, length: collections.abc.Callable[[Any], str]) -> list[tuple[str, str]]:
    rows = [("target", f"{length(setup.target)}, {setup.source.name.lower()}"),
            ("limits", found_text(setup.limits, lambda w: f"{length(w.lower)} to {length(w.upper)}")),
            ("window", found_text(setup.window, lambda w: f"{length(w.lower)} to {length(w.upper)}, "
                                  f"compression {setup.range.lower:.1f %} to {setup.range.upper:.1f %}"))]
    if setup.shares:
        rows.append(("inside the range", f"{show.probability(setup.shares.value.inside)} of joints"))
    if setup.best_target and setup.source == ferrule.TargetSource.COMPUTED:
        rows.append(("best target", length(setup.best_target.value)))
    if show.may_be_set(setup) and setup.shape:
        rows.append(("shape", f"lobe {length(setup.shape.value.lobe_height)}, gap {length(setup.shape.value.gap)}, {setup.segments} segments"))
    return rows


def found_text(found: Any, words: collections.abc.Callable[[Any], str]) -> str:
    return words(found.value) if found else f"not computed: {found.status.sentence}"


def compression_rows(setup: Any) -> list[tuple[str, str]]:
    """The one to look at first, then the others beside it."""
    best = setup.compression
    rows = [("look at first", found_text(best.value, lambda c: f"{c:.1f %} {show.SOURCES[best.source.name]}")),
            ("uncertainty", found_text(best.standard_uncertainty, lambda u: f"{u:.1f %} points (standard)"))]
    if setup.largest:
        rows.append(("largest part", f"{setup.largest.value.measurement.name.lower().replace('_', ' ')}, {setup.largest.value.share:.0f %}"))
    rows += [("plain formula", found_text(setup.plain, lambda c: f"{c:.1f %}")),
             ("with wall growth", found_text(setup.ends_free, lambda c: f"{c:.1f %} if the ferrule lengthens freely")),
             ("", found_text(setup.ends_fixed, lambda c: f"{c:.1f %} with its ends fixed"))]
    if rows[-1][1] == rows[-2][1]:  # why there is no figure need not be said twice
        rows.pop()
    return rows


# ---- judge ---------------------------------------------------------------------------------------------------


def run_judge(given: argparse.Namespace) -> tuple[int, dict[str, Any], list[str]]:
    gauge = ferrule.Gauge(standard_uncertainty=given.gauge, resolution=given.resolution)
    readings = [ferrule.Reading(diameter) for diameter in given.readings]
    limits = ferrule.LengthRange(*given.limits)
    found = ferrule.inspect_crimp(limits_alone(limits, given.applies_to), readings, gauge, None, ferrule.Guard(without=given.without_guard))
    findings = [f"{finding.sentence}" for finding in found.findings]
    data = {"decision": found.decision.name, "verdict": found.verdict.to_dict(), "readings": found.summary.to_dict(),
            "zone": found.zone.to_dict(), "findings": [{"severity": ferrule.finding_severity(finding).name, "name": finding.name,
                                                        "sentence": finding.sentence} for finding in found.findings],
            "cautions": [caution.text for caution in found.cautions]}
    lines = ["Judgement", *table(judge_rows(found, given))] + (["", "Why, and what to do", *marks(findings)] if findings else [])
    return JUDGE_ENDS[found.decision.name], data, lines + ["", "Cautions", *marks([caution.text for caution in found.cautions])]


def limits_alone(limits: Any, applies_to: str) -> Any:
    """A set-up of which nothing is known but its limits: an inspection looks at nothing else."""
    unknown = ("window", "plain", "ends_free", "ends_fixed", "uncertainty", "shares", "best_target", "dial", "shape", "clearance",
               "equivalent", "closing", "springback", "force", "capacity_use", "bore_reduction", "bore_margin", "springback_dial",
               "window_lower_uncertainty", "window_upper_uncertainty", "zone", "largest")
    none: Any = {"status": "UNCERTAINTY_EMPTY"}
    members: dict[str, Any] = dict.fromkeys(unknown, none) | dict.fromkeys(("remarks", "confirmed", "cautions"), [])
    members |= dict.fromkeys(("tolerance", "insertion", "skive_outside", "skive_inside"), ferrule.mm(0)) | {
        "force_at_least": False, "hose_limits": dict.fromkeys(("capacity", "bore", "stem", "formula", "smallest"), none) | {"which": "none"}}
    zero = {"lower": "0 mm", "upper": "0 mm"}
    die = {"found": False, "index": 0, "die": {"size": "0 mm"}, "offset": "0 mm", "adapter_change": False, "buy": zero,
           "nearest_found": False, "nearest_index": 0, "nearest_distance": "0 mm"}
    return ferrule.Setup(readiness="NOT_READY", target=(limits.lower + limits.upper) / 2, source="published", limits={"value": limits},
                         range={"lower": "0 %", "upper": "0 %"}, die=die, segments=0, applies_to=applies_to,
                         compression={"value": none, "standard_uncertainty": none, "source": "plain"}, **members)


def judge_rows(found: Any, given: argparse.Namespace) -> list[tuple[str, str]]:
    length, summary, accept = shower(given.unit), found.summary, found.zone.accept
    exact = "" if given.gauge else ", and nothing of the gauge, which was not given (--gauge)"
    zone = f"{length(accept.lower)} to {length(accept.upper)}"
    if found.zone.empty or ferrule.Finding.GAUGE_TAKEN_AS_EXACT in found.findings:
        zone = "nothing: this gauge cannot accept anything" if found.zone.empty else "nothing yet: the gauge is not given (--gauge)"
    return [("verdict", show.verdict(found.decision)),
            ("", "on the diameter alone: looks, insertion, bore and the rest of the release decide, too"),
            ("mean", f"{length(summary.mean)} of {summary.count} reading{'s' * (summary.count != 1)}, "
                     f"{length(summary.minimum)} to {length(summary.maximum)}"),
            ("uncertainty", f"{length(summary.standard_uncertainty)} (standard){exact}"),
            ("accept", zone), ("conforms", f"with a probability of {show.probability(found.verdict.conforming)}")]


# ---- replay ----------------------------------------------------------------------------------------------------


def run_replay(given: argparse.Namespace) -> tuple[int, dict[str, Any], list[str]]:
    from ferrule import record
    try:
        records = record.read(given.file)
    except OSError as error:
        raise Wrong(f"{given.file}: {error.strerror}") from None
    broken = record.broken_link(records, given.last)
    found = [(place, one["job"], difference) for place, one in enumerate(records) for difference in record.replay(one)]
    last = record.digest(records[-1]) if records else record.NOTHING_BEFORE
    data = {"records": len(records), "calls": sum(len(one["calls"]) for one in records), "chain": "holds" if broken is None else "broken",
            "broken_at": broken, "last": last,
            "differences": [{"record": place, "job": job, **difference._asdict()} for place, job, difference in found]}
    lines = [f"{data['records']} records, {data['calls']} calls made again"]
    lines += marks([f"record {place + 1}, job {job}, call {one.call + 1}, {one.function}: {', '.join(one.paths[:5])}{' ...' * (len(one.paths) > 5)}"
                    f"{' (within the accuracy)' * one.within_accuracy}" for place, job, one in found] or ["every call says the same"])
    lines += ["chain: " + ("holds" if broken is None else f"broken before record {broken + 1}" if broken < len(records)
                           else "the last record is not the one whose hash was kept: records were changed or cut off"), f"last hash: {last}"]
    gone = broken is not None or any(not one.within_accuracy for _, _, one in found)
    return 1 if gone else 3 if found else 0, data, lines


# ---- units, about ----------------------------------------------------------------------------------------------


def run_units(given: argparse.Namespace) -> tuple[int, dict[str, Any], list[str]]:
    if given.amount is None:
        data: dict[str, Any] = {kind.__name__: {name: ferrule.Unit[name].symbol for name in unit_names(kind)} for kind in KINDS}
        return 0, data, table([(kind, ", ".join(f"{name} ({symbol})" if name != symbol else name for name, symbol in units.items()))
                               for kind, units in data.items()])
    amount = read_any(given.amount)
    names = unit_names(type(amount))
    if given.unit is not None:
        fitting = [name for name in names if given.unit in (name, ferrule.Unit[name].symbol)]
        if not fitting:
            raise Wrong(f"{given.unit!r}: not a unit of {type(amount).__name__}; its units: {', '.join(names)}")
        names = fitting
    data = {"kind": type(amount).__name__, "values": {name: getattr(amount, name) for name in names}}
    return 0, data, table([(name, format(amount, ferrule.Unit[name].symbol)) for name in names])


def read_any(text: str) -> Any:
    """A quantity of whichever kind its unit says."""
    first = None
    for kind in KINDS:
        try:
            return kind(text)
        except ferrule.Error as error:
            first = first or error
            if error.name == "TEXT_UNIT_OTHER_KIND":
                continue
        except ValueError:
            raise Wrong(f"{text!r} is no text that can be read") from None
    if first is None:
        raise Wrong(f"{text!r}: no kind of quantity")
    raise Wrong(f"{text!r}: {first.code.sentence}")


def run_about(given: argparse.Namespace) -> tuple[int, dict[str, Any], list[str]]:
    from importlib import metadata

    def version(package: str) -> str | None:
        try:
            return metadata.version(package)
        except metadata.PackageNotFoundError:
            return None
    others = {"numpy": "ferrule.bulk, functions over arrays", "pandas": "tables into ferrule.bulk and back",
              "pint": "quantities of pint as arguments, to_pint()", "matplotlib": "ferrule.plot, pictures"}
    found = {name: version(name) for name in others}
    functions = [name for name, value in vars(ferrule).items() if type(value).__name__ == "builtin_function_or_method"]
    cautions = [caution.text for caution in ferrule.Caution]
    data = {"version": ferrule.__version__, "python": sys.version.split()[0], "functions": len(functions),
            "packages": found, "cautions": cautions}
    rows = [("version", ferrule.__version__), ("Python", data["python"]), ("functions", f"{len(functions)}, help(ferrule) lists them")]
    rows += [(name, f"{found[name] or 'not installed'}: {words}") for name, words in others.items()]
    return 0, data, ["ferrule: engineering mathematics of crimping hose couplings", *table(rows), "", "Cautions", *marks(cautions)]


# ---- text ------------------------------------------------------------------------------------------------------


def table(rows: list[Any]) -> list[str]:
    width = max(len(name) for name, _ in rows)
    return [f"  {name:{width}}  {words}" for name, words in rows]


def marks(sentences: list[str]) -> list[str]:
    return [f"  - {sentence}" for sentence in sentences] or ["  - nothing"]


def main(arguments: list[str] | None = None) -> int:
    try:
        given = make_parser().parse_args(arguments)
        status, data, lines = given.run(given)
    except (Wrong, argparse.ArgumentTypeError, ValueError, TypeError, OverflowError) as error:
        print(f"python -m ferrule: {' '.join(str(error).split())}", file=sys.stderr)
        return 2
    text = json.dumps(data, indent=2, ensure_ascii=False) if given.json else "\n".join(lines)
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="backslashreplace")
    try:
        print(text, flush=True)
    except BrokenPipeError:  # who reads has gone, as head does
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    return int(status)


if __name__ == "__main__":
    sys.exit(main())
