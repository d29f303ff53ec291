# SPDX-License-Identifier: MIT
"""python -m ferrule: plan a set-up, judge a crimp, convert units, say what is here.

Exit status: 0 done, and for judge accepted; 1 not accepted, or nothing to crimp with (no die); 2 something given is wrong:
one line says what, its value and the rule.
"""
import argparse
import collections.abc
import json
import os
import sys
from typing import Any, NoReturn

import ferrule

__all__ = ["main"]
LENGTHS = [unit.name for unit in ferrule.Unit if hasattr(ferrule.Length, unit.name)]
KINDS = [kind for kind in vars(ferrule).values() if isinstance(kind, type) and hasattr(kind, "to_pint")]


class Wrong(Exception):
    """What is reported in one line."""


class Parser(argparse.ArgumentParser):
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
                    "written with their unit: \"12.7 mm\", 12.7mm, \"1/2 in\", \"20 %\".")
    tasks = parser.add_subparsers(dest="task", required=True, metavar="plan, judge, units or about")
    add_plan(tasks)
    add_judge(tasks)
    units = tasks.add_parser("units", parents=[common_parser()], help="the units that are understood, or a quantity in them")
    units.add_argument("amount", nargs="?", help='a quantity, such as "0.5 in"')
    units.add_argument("unit", nargs="?", help="the one unit to give it in, such as mm")
    units.set_defaults(run=run_units)
    about = tasks.add_parser("about", parents=[common_parser()], help="version, what is installed, cautions")
    about.set_defaults(run=run_about)
    return parser


def add_plan(tasks: Any) -> None:
    plan = tasks.add_parser("plan", parents=[common_parser()], help="from a joint, a press and dies to a set-up")
    length, ratio = quantity(ferrule.Length), quantity(ferrule.Ratio)
    for name, words in (("hose-inside", "hose inside diameter"), ("hose-outside", "hose outside diameter"),
                        ("stem-outside", "stem outside diameter"), ("ferrule-wall", "wall of the ferrule")):
        plan.add_argument(f"--{name}", type=length, required=True, metavar="LENGTH", help=words)
    for name, words in (("ferrule-outside", "ferrule outside diameter"), ("ferrule-length", "length of the ferrule"),
                        ("stem-bore", "bore of the stem"), ("published", "crimp diameter that the coupling's manufacturer publishes"),
                        ("tolerance", "allowed deviation either way"), ("graduation", "smallest step of the dial"),
                        ("correction", "added to the dial's setting, found on finished crimps"),
                        ("opening", "how far the dies open, on the diameter"), ("reach", "greatest offset of the dies")):
        plan.add_argument(f"--{name}", type=length, metavar="LENGTH", help=words)
    plan.add_argument("--range", type=ratio, nargs=2, metavar="RATIO", help="compression from and to; without it 15 to 25 %%")
    plan.add_argument("--segments", type=int, metavar="NUMBER", help="segments of a die; without it 8")
    plan.add_argument("--dies", type=length, nargs="*", default=[], metavar="SIZE", help="sizes of the dies on the rack")
    plan.add_argument("--in", dest="unit", choices=LENGTHS, default="mm", help="the unit of the lengths that are shown")
    plan.set_defaults(run=run_plan)


def add_judge(tasks: Any) -> None:
    judge = tasks.add_parser("judge", parents=[common_parser()], help="measured diameters against limits")
    length = quantity(ferrule.Length)
    judge.add_argument("readings", type=length, nargs="+", metavar="READING", help="diameters as measured")
    judge.add_argument("--limits", type=length, nargs=2, required=True, metavar="LENGTH", help="minimum and maximum diameter allowed")
    judge.add_argument("--gauge", type=length, metavar="LENGTH", help="standard uncertainty of the gauge; without it none")
    judge.add_argument("--resolution", type=length, metavar="LENGTH", help="smallest step that the gauge shows")
    judge.add_argument("--in", dest="unit", choices=LENGTHS, default="mm", help="the unit of the lengths that are shown")
    judge.set_defaults(run=run_judge)


# ---- plan ----------------------------------------------------------------------------------------------------


def run_plan(given: argparse.Namespace) -> tuple[int, dict[str, Any], list[str]]:
    joint = ferrule.Joint(ferrule.Hose(given.hose_inside, given.hose_outside), ferrule.Stem(given.stem_outside, given.stem_bore),
                          ferrule.Ferrule(given.ferrule_wall, given.ferrule_outside, given.ferrule_length))
    press = ferrule.Press(graduation=given.graduation, correction=given.correction, opening=given.opening, segments=given.segments)
    allowed = ferrule.RatioRange(*given.range) if given.range else None
    order = ferrule.Order(joint, published=given.published, tolerance=given.tolerance, range=allowed)
    setup = ferrule.plan_setup(order, press, [ferrule.Die(size, reach=given.reach) for size in given.dies])
    data = {"set_up": setup.to_dict(), "remarks": [remark.sentence for remark in setup.remarks],
            "cautions": [caution.text for caution in setup.cautions]}
    return (0 if setup.die.found else 1), data, plan_text(setup, shower(given.unit))


def shower(unit: str) -> collections.abc.Callable[[Any], str]:
    decimals = {"mm": 2, "inch": 4, "micrometre": 0, "thou": 1, "cm": 3}.get(unit, 5)
    return lambda length: f"{length:.{decimals}f {unit}}"


def plan_text(setup: Any, show: collections.abc.Callable[[Any], str]) -> list[str]:
    rows = [("target", f"{show(setup.target)}, {setup.source.name.lower()}")]
    figures: list[tuple[str, Any, collections.abc.Callable[[Any], str]]] = [
        ("window", setup.window, lambda w: f"{show(w.lower)} to {show(w.upper)}, "
         f"compression {setup.range.lower:.1f %} to {setup.range.upper:.1f %}"),
        ("accept", setup.limits, lambda w: f"{show(w.lower)} to {show(w.upper)}"),
        ("compression", setup.plain, lambda c: f"{c:.1f %} by the plain formula"),
        ("with wall growth", setup.ends_free, lambda c: f"{c:.1f %} if the ferrule lengthens freely"),
        ("", setup.ends_fixed, lambda c: f"{c:.1f %} with its ends fixed")]
    for name, found, words in figures:
        rows.append((name, words(found.value) if found else f"not computed: {found.status.sentence}"))
        if len(rows) > 1 and rows[-1] == ("", rows[-2][1]):  # why there is no figure need not be said twice
            rows.pop()
    rows += die_rows(setup, show)
    return (["Set-up"] + table(rows) + ["", "To check"] + marks([r.sentence for r in setup.remarks])
            + ["", "Cautions"] + marks([c.text for c in setup.cautions]))


def die_rows(setup: Any, show: collections.abc.Callable[[Any], str]) -> list[tuple[str, str]]:
    die = setup.die
    if not die.found:
        return [("die", f"none; one of {show(die.buy.lower)} to {show(die.buy.upper)} would do")]
    rows = [("die", f"{show(die.die.size)}, offset {show(die.offset)}")]
    if setup.dial:
        rows.append(("dial", f"{show(setup.dial.value.setting)}; diameter to expect {show(setup.dial.value.expected)}"))
    if setup.shape:
        rows.append(("shape", f"lobe {show(setup.shape.value.lobe_height)}, gap {show(setup.shape.value.gap)}, "
                              f"{setup.segments} segments"))
    return rows


# ---- judge ---------------------------------------------------------------------------------------------------


def run_judge(given: argparse.Namespace) -> tuple[int, dict[str, Any], list[str]]:
    gauge = ferrule.Gauge(standard_uncertainty=given.gauge, resolution=given.resolution)
    readings = [ferrule.Reading(diameter) for diameter in given.readings]
    summary = ferrule.summarise_readings(readings, gauge)
    verdict = ferrule.judge(summary.mean, summary.standard_uncertainty, ferrule.LengthRange(*given.limits))
    show, word = shower(given.unit), verdict.decision.name.lower()
    rows = [("verdict", {"accept": "accept", "reject": "reject"}.get(word, "undecided: the measurement cannot tell")),
            ("mean", f"{show(verdict.value)} of {summary.count} reading{'s' * (summary.count != 1)}, "
                     f"{show(summary.minimum)} to {show(summary.maximum)}"),
            ("uncertainty", f"{show(verdict.standard_uncertainty)} (standard){', the gauge assumed exact' if given.gauge is None else ''}"),
            ("accepted", f"{show(verdict.accept.lower)} to {show(verdict.accept.upper)}"),
            ("conforms", f"with a probability of {verdict.conforming:.2f %}")]
    caution = ferrule.Caution.MANUFACTURERS_DATA_FIRST if word == "accept" else ferrule.Caution.SCRAP_NOT_REPAIR
    data = {"verdict": verdict.to_dict(), "readings": summary.to_dict(), "cautions": [caution.text]}
    return (0 if word == "accept" else 1), data, ["Judgement", *table(rows), "", "Cautions", *marks([caution.text])]


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
    except (Wrong, ValueError, TypeError, OverflowError) as error:
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
