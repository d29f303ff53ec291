# SPDX-License-Identifier: MIT
"""The depot's hoselines: from orders with lengths, elbows and routes to a cut list, the assembler's sheets and the record of each job.

    python3 hoselines.py [--orders FILE] [--page FILE] [--records FILE]

Orders, depot and parts are invented. The table of tolerances is that of DIN 20066 from memory: compare it with your edition. Exit status:
0 every order can be cut, 1 some cannot and the list says why, 2 a file is wrong.
"""
import argparse
import csv
import html
import pathlib
import sys

import ferrule
from ferrule import record

HERE = pathlib.Path(__file__).resolve().parent
# In the order of the work (common practice, no source).
CHECKS = ["parts as ordered", "cut length, cut square and clean", "stem in to its mark", "crimp diameter", "go gauge through the bore", "overall length",
          "angle of the elbows", "looks", "proof test", "dry, caps on, marked"]


class Line:
    """An order and what came of it; each figure is there, or the reason why it is not."""

    def __init__(self, row, rows, before):
        self.row, self.name, self.problems, self.figures = row, row["order"], [], {}
        self.points = [[float(x) for x in point.split()] for point in row["route"].split("/")]
        self.account = record.Account(f"hoseline {self.name}", before, {"drawing": f"route of {len(self.points)} points"})
        self.compute(rows)

    def call(self, figure, function, **arguments):
        """A call for the record; its status is a problem of the order."""
        result = self.account.call(function, **arguments)
        if "status" in self.account.record["calls"][-1]:
            self.problems.append(getattr(ferrule.Status, self.account.record["calls"][-1]["status"]).sentence)
        self.figures[figure] = result
        return result

    def compute(self, rows):
        row = self.row
        ends = {end: {"cut_off": row[f"cut_off_{place}"], "growth": row[f"growth_{place}"]} for place, end in ((1, "first"), (2, "second"))}
        change = {"lower": row["change_shortest"], "upper": row["change_longest"]}
        cut = self.call("cut", "cut_length", overall=row["overall"], **ends)
        self.call("limits", "find_length_limits", rows=rows, bore=row["bore"], length=row["overall"])
        self.call("pressures", "find_proof_pressure", ratings={"hose": row["hose_rated"], "first": row["coupling_1_rated"] or "0 MPa",
                                                  "second": row["coupling_2_rated"] or "0 MPa"})
        tips = [self.tip(row[name], end) for name, end in (("tip_1", 0), ("tip_2", -1))]
        orientation = self.call("orientation", "find_orientation", points=[point(one) for one in self.points], bend_radius=row["bend_radius"],
                                hose_outside=row["hose_outside"], first_tip=point(tips[0]), last_tip=point(tips[1]))
        if orientation and cut:
            needed = self.call("needed", "length_before_pressure", shortest=orientation["length"], change=change)
            if ferrule.Length(cut) < ferrule.Length(needed):
                self.problems.append(f"too short for its route under pressure: the route takes {ferrule.Length(orientation['length']):.0f mm} of hose, "
                                     f"and to have that at its shortest it needs {ferrule.Length(needed):.0f mm}")
        if self.figures["pressures"]:
            self.call("thrust", "end_thrust", pressure=self.figures["pressures"]["proof_pressure"], seal_diameter=row["stem_outside"])

    def tip(self, text, end):
        """Where an elbow points; a straight end has no direction, and any that is square to the hose does to find the length."""
        if text:
            return [float(x) for x in text.split()]
        a, b = (self.points[end], self.points[1] if end == 0 else self.points[-2])
        along = [y - x for x, y in zip(a, b)]
        smallest = min(range(3), key=lambda axis: abs(along[axis]))
        return [x + 50 * (axis == smallest) for axis, x in enumerate(a)]

    @property
    def elbows(self):
        return bool(self.row["tip_1"] and self.row["tip_2"])


def point(place):
    return {axis: f"{value:g} mm" for axis, value in zip("xyz", place)}


def read(path):
    with open(path, newline="", encoding="utf-8") as file:
        return list(csv.DictReader(file))


def length_rows(path):
    return [{name: text for name, text in row.items() if text} for row in read(path)]


# ---- cut list -----------------------------------------------------------------------------------------------------

def words(line):
    """What the list and the sheet say of an order."""
    figures = line.figures
    length = lambda text, places=1: f"{ferrule.Length(text):.{places}f mm}"  # noqa: E731
    return {"order": line.name, "cut": "DO NOT CUT" if line.problems else length(figures["cut"]),
            "assembly": f"{length(figures['limits']['lower'], 0)} to {length(figures['limits']['upper'], 0)}" if figures["limits"] else "-",
            "elbows": f"{ferrule.Angle(figures['orientation']['angle']):.0f deg}" if line.elbows and figures["orientation"] else "-",
            "proof": f"{ferrule.Pressure(figures['pressures']['proof_pressure']):.1f MPa}" if figures["pressures"] else "-"}


def cut_list(lines):
    rows = [words(line) for line in lines]
    heads = {"order": "order", "cut": "cut the hose to", "assembly": "assembly", "elbows": "elbows", "proof": "proof test"}
    widths = {name: max(len(head), *(len(row[name]) for row in rows)) for name, head in heads.items()}
    yield "  ".join(f"{head:{widths[name]}}" for name, head in heads.items()).rstrip()
    for line, row in zip(lines, rows):
        yield "  ".join(f"{row[name]:{widths[name]}}" for name in heads).rstrip()
        yield from (f"       {problem}" for problem in line.problems)


# ---- the assembler's sheet -----------------------------------------------------------------------------------------

def drawing(line, width=170.0):
    """The hose's centre line from above (x to the right, y up), to scale, corners rounded; mm of paper."""
    radius = ferrule.Length(line.row["bend_radius"]).mm + ferrule.Length(line.row["hose_outside"]).mm / 2
    flat = [point[:2] for point in line.points]
    low, high = ([pick(axis) for axis in zip(*flat)] for pick in (min, max))
    outside = ferrule.Length(line.row["hose_outside"]).mm
    span = max(high[0] - low[0], high[1] - low[1], 1) + 2 * outside
    scale = width / span
    height = (high[1] - low[1] + 2 * outside) * scale
    place = lambda x, y: f"{(x - low[0] + outside) * scale:.2f} {height - (y - low[1] + outside) * scale:.2f}"  # noqa: E731
    path = f"M{place(*flat[0])}"
    for a, corner, b in zip(flat, flat[1:], flat[2:]):
        path += f"L{place(*corner)}" if line.figures["orientation"] is None or is_bent_upwards(line, radius) else rounded(a, corner, b, radius, scale, place)
    path += f"L{place(*flat[-1])}"
    bar = 100 * scale
    return (f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}mm" height="{height + 8:.2f}mm" viewBox="0 0 {width} {height + 8:.2f}" role="img">'
            f'<title>Hoseline {html.escape(line.name)} from above, to scale</title>'
            f'<path d="{path}" fill="none" stroke="#555" stroke-width="{outside * scale:.2f}"/>'
            f'<path d="{path}" fill="none" stroke="#fff" stroke-width=".3" stroke-dasharray="4 1 1 1"/>'
            f'<path d="M2 {height + 5:.2f}h{bar:.2f}m0 -1v2m{-bar:.2f} 0v-2" stroke="#111" stroke-width=".4" fill="none"/>'
            f'<text x="{bar + 4:.2f}" y="{height + 6:.2f}" font-size="3.5" font-family="sans-serif">100 mm</text></svg>')


def is_bent_upwards(line, radius):
    """Routes that leave the plane are drawn with sharp corners: their arcs are no arcs from above."""
    return len({point[2] for point in line.points}) > 1


def rounded(a, corner, b, radius, scale, place):
    """The straight to the bend at a corner, and its arc."""
    import math
    u, v = ([(x - y) / math.dist(one, corner) for x, y in zip(one, corner)] for one in (a, b))
    turn = math.pi - math.acos(max(-1.0, min(1.0, u[0] * v[0] + u[1] * v[1])))
    reach = radius * math.tan(turn / 2)
    start, end = ([c + reach * d for c, d in zip(corner, way)] for way in (u, v))
    left = u[0] * v[1] - u[1] * v[0] < 0
    return f"L{place(*start)}A{radius * scale:.2f} {radius * scale:.2f} 0 0 {0 if left else 1} {place(*end)}"


def sheet(line):
    row, found = line.row, words(line)
    told = [("cut the hose to", found["cut"]), ("assembly", found["assembly"]), ("elbows, seen along the hose, clockwise", found["elbows"]),
            ("bend radius, at the inside", row["bend_radius"]), ("proof test", found["proof"])]
    if line.figures.get("thrust"):
        told.append(("pushes at each coupling then", f"{ferrule.Force(line.figures['thrust']):.0f N}"))
    table = "".join(f"<tr><th scope=row>{html.escape(name)}</th><td>{html.escape(text)}</td></tr>" for name, text in told)
    problems = "".join(f"<p class=stop>STOP: {html.escape(problem)}</p>" for problem in line.problems)
    boxes = "" if line.problems else "".join(f"<li>&#9744; {html.escape(check)}</li>" for check in CHECKS)
    return (f"<section><h2>Hoseline {html.escape(line.name)}</h2>{problems}<table>{table}</table>{drawing(line)}<ol>{boxes}</ol>"
            f"<p>Record {record.digest(line.account.record)[:16]}</p></section>")


def page(lines):
    cautions = [caution.text for caution in (ferrule.Caution.PROOF_TEST, ferrule.Caution.HOSE_WHIPS, ferrule.Caution.OIL_UNDER_PRESSURE,
                                             ferrule.Caution.SCRAP_NOT_REPAIR, ferrule.Caution.APPROVED_PARTS_ONLY, ferrule.Caution.LAW_AND_LICENCE)]
    return f"""<!DOCTYPE html>
<html lang="en"><head><meta charset="utf-8"><title>Hoselines of the day</title>
<style>body{{font:11pt/1.4 sans-serif;max-width:180mm;margin:8mm auto;color:#111}}section{{break-after:page}}th{{text-align:left;font-weight:normal;
padding-right:6mm}}td{{font-weight:bold}}.stop{{border:.6mm solid #111;padding:2mm;font-weight:bold}}ol{{columns:2;list-style:none;padding:0}}svg{{max-width:100%}}
pre{{font-size:9pt;white-space:pre-wrap}}</style></head><body><h1>Hoselines of the day</h1><p>Invented orders of a depot.</p>
<pre>{html.escape(chr(10).join(cut_list(lines)))}</pre>
<h2>Cautions</h2><ul>{"".join(f"<li>{html.escape(text)}</li>" for text in cautions)}</ul>
{"".join(sheet(line) for line in lines)}</body></html>
"""


def main(arguments=None):
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--orders", type=pathlib.Path, default=HERE / "orders.csv")
    parser.add_argument("--page", type=pathlib.Path, help="write the cut list and the assembler's sheets there")
    parser.add_argument("--records", type=pathlib.Path, help="add the record of each job to this file")
    given = parser.parse_args(arguments)
    try:
        orders, rows = read(given.orders), length_rows(HERE / "tolerances.csv")
        kept = record.read(given.records) if given.records and given.records.exists() else []
        before = record.digest(kept[-1]) if kept else record.NOTHING_BEFORE
        lines = []
        for order in orders:
            lines.append(Line(order, rows, before))
            before = lines[-1].account.digest
    except (OSError, KeyError, ValueError, TypeError) as error:
        print(f"hoselines.py: {error}", file=sys.stderr)
        return 2
    print("\n".join(cut_list(lines)))
    for line in lines:
        if given.records:
            record.append(given.records, line.account.record)
    if given.page:
        given.page.write_text(page(lines), encoding="utf-8")
    print(f"last hash, to be kept elsewhere, too: {before}")
    return 1 if any(line.problems for line in lines) else 0


if __name__ == "__main__":
    sys.exit(main())
