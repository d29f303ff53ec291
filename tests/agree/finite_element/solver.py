# SPDX-License-Identifier: MIT
"""Tubes and dies as finite elements: writes a deck, runs CalculiX (Debian package calculix-ccx), reads the answer.

Lengths in mm, stresses in MPa. Nothing here knows the library: the two are compared in test_forming.py and grid.py.
"""
import math
import os
import re
import subprocess
import tempfile
from dataclasses import dataclass
from pathlib import Path

import numpy as np

# An axisymmetric element is solved as a flat wedge of 2 degrees. A displacement printed at a corner is the mean over
# the three nodes of that edge, of which the two outer ones lie on the flats.
CORNER = 1 - (1 - math.cos(math.radians(1))) / 3
GAUSS = 1 / math.sqrt(3)


@dataclass(frozen=True)
class Material:
    modulus: float
    poisson: float
    yielding: float = 0.0  # 0: elastic
    hardening: float = 0.0

    def deck(self):
        lines = ["*MATERIAL,NAME=METAL", "*ELASTIC", f"{self.modulus:.12g},{self.poisson:.12g}"]
        if self.yielding:
            lines += ["*PLASTIC", f"{self.yielding:.12g},0."]
        if self.hardening:
            lines += [f"{self.yielding + 3 * self.hardening:.12g},3."]
        return lines


@dataclass(frozen=True)
class Moment:
    """A tube at one moment of its loading."""

    time: float
    outside: float  # radius
    bore: float  # radius
    stretch: float  # length by length before
    pressure: float  # on the outside

    @property
    def wall(self):
        return self.outside - self.bore


def version():
    """Version of the solver as it says itself."""
    text = subprocess.run(["ccx", "-v"], capture_output=True, text=True, check=False).stdout
    return re.search(r"Version (\S+)", text).group(1)


def run(deck, timeout=600):
    """Runs a deck on one core and returns what the solver printed into its table."""
    with tempfile.TemporaryDirectory() as folder:
        Path(folder, "case.inp").write_text("\n".join(deck) + "\n", encoding="ascii")
        environment = dict(os.environ, OMP_NUM_THREADS="1")
        done = subprocess.run(["ccx", "case"], cwd=folder, capture_output=True, text=True, env=environment,
                              timeout=timeout, check=False)
        if "*ERROR" in done.stdout or "Job finished" not in done.stdout:
            raise RuntimeError(done.stdout[-2000:])
        return Path(folder, "case.dat").read_text(encoding="ascii")


def tables(text):
    """The printed tables in order: (word at the head, time, rows)."""
    heads = list(re.finditer(r"^ (\w+).* for set (\w+) and time +(\S+)$", text, re.M))
    ends = [head.start() for head in heads[1:]] + [len(text)]
    return [(head.group(1), head.group(2), float(head.group(3)),
             np.array([row.split() for row in text[head.end():end].strip().splitlines()], dtype=float))
            for head, end in zip(heads, ends)]


class TubeMesh:
    """One layer of elements along the axis, as high as the wall is thick: flatter ones do not always converge."""

    def __init__(self, bore, wall, elements=6):
        self.bore, self.wall, self.elements, self.height = bore, wall, elements, wall
        self.node = {}
        for j in range(3):
            for i in range(2 * elements + 1):
                if not (j == 1 and i % 2):
                    self.node[i, j] = len(self.node) + 1
        last = 2 * elements
        self.top = [self.node[i, 2] for i in range(last + 1)]
        self.bottom = [self.node[i, 0] for i in range(last + 1)]
        self.outer = [self.node[last, j] for j in range(3)]
        self.corners = [self.node[i, 0] for i in range(0, last + 1, 2)]

    def deck(self):
        lines = ["*NODE"]
        for (i, j), number in self.node.items():
            r = self.bore + self.wall * i / (2 * self.elements)
            lines.append(f"{number},{r:.12g},{self.height * j / 2:.12g}")
        lines.append("*ELEMENT,TYPE=CAX8R,ELSET=TUBE")
        corners = [(0, 0), (2, 0), (2, 2), (0, 2), (1, 0), (2, 1), (1, 2), (0, 1)]
        for e in range(self.elements):
            lines.append(",".join(str(x) for x in [e + 1] + [self.node[2 * e + i, j] for i, j in corners]))
        sets = {"TOP": self.top, "BOTTOM": self.bottom, "OUTER": self.outer, "CORNERS": self.corners + self.top[:1]}
        for name, nodes in sets.items():
            lines += [f"*NSET,NSET={name}"] + [f"{x}," for x in nodes]
        return lines + ["*SOLID SECTION,ELSET=TUBE,MATERIAL=METAL"]

    def tie(self):
        """Plane ends: all nodes of the top move alike."""
        return ["*EQUATION"] + [x for top in self.top[1:] for x in ("2", f"{top},2,1.,{self.top[0]},2,-1.")]

    def moments(self, text):
        """What the printed tables say about the tube, one moment an increment."""
        found = tables(text)
        pairs = zip(found[0::2], found[1::2])
        return [self.moment(time, moves, stress) for (_, _, time, moves), (_, _, _, stress) in pairs]

    def moment(self, time, moves, stress):
        moves = {int(row[0]): row[1:] for row in moves}
        r0 = self.bore + self.wall * np.arange(self.elements + 1) / self.elements
        shift = np.array([moves[x][0] for x in self.corners]) / CORNER
        curve = np.polynomial.Polynomial.fit(r0, shift, self.elements)
        gauss = np.concatenate([(e + (1 + np.array([-GAUSS, GAUSS])) / 2) for e in range(self.elements)])
        gauss = self.bore + self.wall * gauss / self.elements
        radius = gauss + curve(gauss)
        outside = r0[-1] + shift[-1]
        line = np.polynomial.Polynomial.fit(radius[-6:], self.radial_stress(stress)[-6:], 3)
        stretch = 1 + moves[self.top[0]][1] / self.height
        return Moment(time, outside, r0[0] + shift[0], stretch, -line(outside))

    def radial_stress(self, stress):
        """Radial stress at the integration points from the bore outwards.

        They lie beside the middle of the wedge, so the stress is turned into the radial direction."""
        xx, zz, xz = stress[:, 2], stress[:, 4], stress[:, 6]
        turn = 0.5 * np.arctan2(2 * xz, xx - zz)
        turn = np.where(turn > np.pi / 4, turn - np.pi / 2, np.where(turn < -np.pi / 4, turn + np.pi / 2, turn))
        radial = xx * np.cos(turn) ** 2 + zz * np.sin(turn) ** 2 + xz * np.sin(2 * turn)
        table = radial.reshape(self.elements, 8)
        inner, outer = table[:, 0::2].mean(axis=1), table[:, 1::2].mean(axis=1)
        return np.column_stack([inner, outer]).ravel()


PRINT = ["*NODE PRINT,NSET=CORNERS", "U", "*EL PRINT,ELSET=TUBE", "S"]


@dataclass(frozen=True)
class Crimp:
    """A tube whose outside is pushed in to a closing diameter."""

    outside: float
    wall: float
    closing: float
    material: Material
    hose_pressure: float = 0.0
    ends_fixed: bool = False

    def push(self, step=0.02, ends=None, release=True):
        """Moments of the stroke, and the moment after the dies have opened.

        ends: (time, stretch) pairs that the ends are made to follow; otherwise free or fixed."""
        mesh = TubeMesh(self.outside / 2 - self.wall, self.wall)
        deck = mesh.deck() + self.material.deck()
        if not self.ends_fixed and ends is None:
            deck += mesh.tie()
        if ends is not None:
            deck += ["*AMPLITUDE,NAME=ENDS"] + [f"{time:.10g},{stretch - 1:.10g}" for time, stretch in ends]
        deck += ["*BOUNDARY", "BOTTOM,2,2"] + (["TOP,2,2"] if self.ends_fixed else [])
        deck += ["*STEP,NLGEOM,INC=5000", "*STATIC", f"{step},1.,1e-9,{step}", "*BOUNDARY",
                 f"OUTER,1,1,{(self.closing - self.outside) / 2:.12g}"]
        if ends is not None:
            deck += ["*BOUNDARY,AMPLITUDE=ENDS", f"TOP,2,2,{mesh.height:.12g}"]
        if self.hose_pressure:
            deck += ["*DLOAD", f"1,P4,{self.hose_pressure:.12g}"]
        deck += PRINT + ["*END STEP"]
        if release:
            deck += ["*STEP,NLGEOM,INC=200", "*STATIC", "1.,1.", "*BOUNDARY,OP=NEW", "BOTTOM,2,2"]
            deck += (["TOP,2,2"] if self.ends_fixed else []) + PRINT + ["*END STEP"]
        moments = mesh.moments(run(deck))
        stroke = [moment for moment in moments if moment.time <= 1 + 1e-9]
        return stroke, (moments[-1] if release else None)


@dataclass(frozen=True)
class Pressed:
    """A tube under pressure on its outside."""

    outside: float
    bore: float
    material: Material
    ends_fixed: bool = False

    def load(self, pressure, steps=20):
        """The tube under the pressure, and after the pressure has gone."""
        mesh = TubeMesh(self.bore / 2, (self.outside - self.bore) / 2, elements=12)
        deck = mesh.deck() + self.material.deck() + ([] if self.ends_fixed else mesh.tie())
        geometry = ",NLGEOM" if self.material.yielding else ""
        fixed = ["BOTTOM,2,2"] + (["TOP,2,2"] if self.ends_fixed else [])
        deck += ["*BOUNDARY"] + fixed
        for factor in (1.0, 0.0) if self.material.yielding else (1.0,):
            deck += [f"*STEP{geometry},INC=1000", "*STATIC", f"{1 / steps},1.,1e-9,{1 / steps}",
                     "*DLOAD,OP=NEW", f"{mesh.elements},P2,{factor * pressure:.12g}"] + PRINT + ["*END STEP"]
        moments = mesh.moments(run(deck))
        loaded = [moment for moment in moments if moment.time <= 1 + 1e-9][-1]
        return loaded, moments[-1]


@dataclass(frozen=True)
class Outline:
    """A ferrule in closed dies, seen along the axis: points from the middle of a segment to the middle of a gap."""

    outer: np.ndarray  # x, y of the outside
    inner: np.ndarray
    segment_force: float  # resultant of one segment along its own direction, by length along the axis
    segments: int

    def whole(self, points):
        """The points all round."""
        step = 2 * np.pi / self.segments
        half = points[:, 0] + 1j * points[:, 1]
        around = np.concatenate([np.conj(half[:0:-1]), half])
        whole = np.concatenate([around * np.exp(1j * step * k) for k in range(self.segments)])
        return whole[np.argsort(np.angle(whole))]

    @staticmethod
    def area(points):
        return 0.5 * np.sum((np.conj(points) * np.roll(points, -1)).imag)

    def bore(self):
        """Diameter of the circle with the bore's area."""
        return 2 * math.sqrt(self.area(self.whole(self.inner)) / math.pi)

    def radius(self, angle):
        x, y = self.outer.T
        return float(np.interp(angle, np.arctan2(y, x), np.hypot(x, y)))

    def jaws(self):
        """Readings of flat jaws all round."""
        turns = np.exp(1j * np.linspace(0, math.pi, 1441))
        along = (self.whole(self.outer)[None, :] * np.conj(turns)[:, None]).real
        return along.max(axis=1) - along.min(axis=1)

    def tape(self):
        """Circumference of the convex outline by pi: the mean of the widths (Cauchy)."""
        return float(self.jaws()[:-1].mean())


@dataclass(frozen=True)
class DieCrimp:
    """A ferrule with ends fixed between segments: half a segment, one layer of bricks along the axis, no friction."""

    outside: float
    wall: float
    closing: float
    die_size: float
    material: Material
    segments: int = 8
    through: int = 10
    around: int = 45
    penalty: float = 5e6

    def close(self, step=0.02):
        height = self.wall / self.through
        angle = math.pi / self.segments
        nodes, elements = [], []

        def grid(radii, angles, centre):
            """Two layers of nodes and the bricks between them; returns their numbers [layer, radius, angle]."""
            numbers = np.zeros((2, len(radii), len(angles)), dtype=int)
            for k, i, j in np.ndindex(numbers.shape):
                nodes.append((centre + radii[i] * math.cos(angles[j]), radii[i] * math.sin(angles[j]), k * height))
                numbers[k, i, j] = len(nodes)
            return numbers

        def bricks(numbers):
            first = len(elements) + 1
            for j in range(numbers.shape[2] - 1):
                for i in range(numbers.shape[1] - 1):
                    low = [numbers[0, i, j], numbers[0, i + 1, j], numbers[0, i + 1, j + 1], numbers[0, i, j + 1]]
                    elements.append(low + [x + numbers[1, 0, 0] - numbers[0, 0, 0] for x in low])
            return range(first, len(elements) + 1)

        ring = grid(np.linspace(self.outside / 2 - self.wall, self.outside / 2, self.through + 1),
                    np.linspace(0, angle, self.around + 1), 0.0)
        ring_bricks = bricks(ring)
        arc = self.die_size / 2
        die = grid(np.array([arc, arc + self.wall]), np.linspace(-0.1 * angle, angle, 2 * self.around + 1),
                   (self.outside - self.die_size) / 2)
        die_bricks = bricks(die)
        deck = ["*NODE"] + [f"{n},{x:.12g},{y:.12g},{z:.12g}" for n, (x, y, z) in enumerate(nodes, 1)]
        deck += ["*ELEMENT,TYPE=C3D8,ELSET=ALL"]
        deck += [",".join(str(x) for x in [n] + list(e)) for n, e in enumerate(elements, 1)]
        for name, chosen in (("RING", ring_bricks), ("DIE", die_bricks)):
            deck += [f"*ELSET,ELSET={name}"] + [f"{x}," for x in chosen]
        sets = {"FACES": ring.ravel(), "MIDDLE": ring[:, :, 0].ravel(), "DIES": die.ravel(),
                "OUTER": ring[0, -1], "INNER": ring[0, 0]}
        for name, chosen in sets.items():
            deck += [f"*NSET,NSET={name}"] + [f"{x}," for x in chosen]
        # the plane between two segments: no displacement across it
        deck += ["*EQUATION"]
        for n in ring[:, :, -1].ravel():
            deck += ["2", f"{n},2,{math.cos(angle):.15g},{n},1,{-math.sin(angle):.15g}"]
        through = self.through
        deck += ["*SURFACE,NAME=OUTSIDE,TYPE=ELEMENT"] + [f"{x},S4" for x in ring_bricks[through - 1::through]]
        deck += ["*SURFACE,NAME=ARC,TYPE=ELEMENT"] + [f"{x},S6" for x in die_bricks]
        deck += self.material.deck() + ["*SOLID SECTION,ELSET=RING,MATERIAL=METAL"]
        deck += ["*MATERIAL,NAME=HARD", "*ELASTIC", "1e7,0.3", "*SOLID SECTION,ELSET=DIE,MATERIAL=HARD"]
        deck += ["*SURFACE INTERACTION,NAME=TOUCH", "*SURFACE BEHAVIOR,PRESSURE-OVERCLOSURE=LINEAR",
                 f"{self.penalty:.6g}", "*CONTACT PAIR,INTERACTION=TOUCH,TYPE=SURFACE TO SURFACE", "OUTSIDE,ARC"]
        deck += ["*BOUNDARY", "FACES,3,3", "MIDDLE,2,2", "DIES,2,3"]
        deck += ["*STEP,NLGEOM,INC=5000", "*STATIC", f"{step},1.,1e-9,{step}", "*BOUNDARY",
                 f"DIES,1,1,{(self.closing - self.outside) / 2:.12g}"]
        deck += ["*NODE PRINT,NSET=OUTER,FREQUENCY=9999", "U", "*NODE PRINT,NSET=INNER,FREQUENCY=9999", "U",
                 "*NODE PRINT,NSET=DIES,FREQUENCY=9999", "RF", "*END STEP"]
        found = {name: rows for _, name, _, rows in tables(run(deck, timeout=1800))}
        start = np.array(nodes)[:, :2]
        outer, inner = (start[rows[:, 0].astype(int) - 1] + rows[:, 1:3] for rows in (found["OUTER"], found["INNER"]))
        force = abs(found["DIES"][:, 1].sum())
        return Outline(outer, inner, 2 * force / height, self.segments)
