#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Makes the invented data of this folder, always the same: a shift's crimps, a gauge study, a calibration, five bursts.

Hidden in them, so that there is something to find: press 2 moved in mid shift, press 3 is low and was measured little, one of the
three people reads high, the micrometer reads high by a few micrometres, and five bursts are few.

Usage: make_data.py [FOLDER]     (usual: the folder of this program)
"""
import pathlib
import random
import re
import sys

SEED = 22
INVENTED = "# Invented data, made by make_data.py: the forestry machinery depot of examples/depot, which does not exist."
BIAS, REPEATABILITY = 0.005, 0.0025  # of the micrometer, in mm
PEOPLE = {"K.R.": 0.0, "M.S.": 0.001, "T.L.": 0.011}  # how much higher than the first each reads, in mm


def clock(minutes):
    return f"{6 + minutes // 60:02}:{minutes % 60:02}"


def crimps(draw):
    """Press 1 hands its dies on to press 3 at ten. Press 2 moves up by 0.06 mm after its eleventh piece."""
    made = [(10 + 12 * i, "press 1", "die 6, set 1", "K.R.", draw.gauss(23.514, 0.017)) for i in range(18)]
    made += [(15 + 21 * i, "press 2", "die 6, set 2", "M.S.", draw.gauss(23.492 if i < 11 else 23.552, 0.016)) for i in range(20)]
    made += [(262 + 27 * i, "press 3", "die 6, set 1", "K.R.", draw.gauss(23.468, 0.013)) for i in range(7)]
    for piece, (minutes, press, die, person, diameter) in enumerate(sorted(made), 1):
        reading = diameter + BIAS + PEOPLE[person] + draw.gauss(0, REPEATABILITY)
        yield f'{piece},{clock(minutes)},{press},"{die}",{person},{reading:.3f} mm'


def study(draw):
    """Ten crimps that span what the presses make, each read twice by each, in an order that was drawn."""
    parts = [draw.gauss(23.51, 0.03) for _ in range(10)]
    rows = [(part, person) for part in range(1, 11) for person in PEOPLE] * 2
    draw.shuffle(rows)
    for part, person in rows:
        reading = parts[part - 1] + BIAS + PEOPLE[person] + draw.gauss(0, REPEATABILITY)
        yield f"{part},{person},{reading:.3f} mm"


def blocks(draw):
    for block in (10, 20, 22, 25, 30):
        for _ in range(4):
            yield f"{block} mm,{block + BIAS + draw.gauss(0, REPEATABILITY):.3f} mm"


def bursts(draw):
    for piece in range(1, 6):
        yield f"{piece},{5 * round(draw.gauss(1245, 42) / 5)} bar,yes"


TABLES = {
    "crimps.csv": (crimps, "piece,time,press,die,person,diameter",
                   "A shift's crimps in the order they were made: mean of the readings over the middles of the segments, as read."),
    "study.csv": (study, "part,person,diameter", "A gauge study: ten crimps, three people, each reads each twice without seeing the first."),
    "blocks.csv": (blocks, "block,reading", "The micrometer on gauge blocks."),
    "bursts.csv": (bursts, "piece,pressure,burst", 'Assemblies burst on the rig; "-" under burst: not burst when the test stopped there.'),
}


# The same tables with a typing error in each, to show how it is refused: the row that begins so, what is written there, and what instead.
WRONG = {"crimps.csv": ("17,", r"(\d\.\d)\d+ mm", r"\1l5 mm"), "study.csv": ("4,M.S.", r" mm", ""), "blocks.csv": ("22 mm", r"22\.(\d+) mm", r'"22,\1 mm"'),
         "bursts.csv": ("3,", "yes", "maybe"), "batch.csv": ("120,", "90 %", "90"), "gauge.csv": ("micrometer", "0.0058 %", "")}


def spoil(lines, begins, old, new):
    """The first row that begins so, with an error."""
    place = next(place for place, line in enumerate(lines) if line.startswith(begins))
    return [*lines[:place], re.sub(old, new, lines[place]), *lines[place + 1:]]


def main(folder):
    """All tables; batch.csv and gauge.csv are written by hand."""
    (folder / "wrong").mkdir(exist_ok=True)
    for name, (make, heading, comment) in TABLES.items():
        lines = [INVENTED, f"# {comment}", heading, *make(random.Random(f"{SEED} {name}"))]
        (folder / name).write_text("\n".join(lines) + "\n", encoding="utf-8")
    for name, error in WRONG.items():
        lines = (folder / name).read_text(encoding="utf-8").splitlines()
        lines = [*lines[:1], "# One row is wrong on purpose.", *spoil(lines[1:], *error)]
        (folder / "wrong" / name).write_text("\n".join(lines) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main(pathlib.Path(*sys.argv[1:2] or [pathlib.Path(__file__).parent]))
