# SPDX-License-Identifier: MIT
"""The depot: its tables as the library's values, and its day as planned jobs with judged crimps."""
from dataclasses import dataclass, field, replace

import ferrule

from tables import Trouble, angle, count, force, length, not_zero, optional, pressure, ratio, read_table, word

ORDERS = {
    "order": count, "machine": word, "hose": word, "coupling": word, "pieces": count,
    "hose inside": length, "hose outside": length, "stem outside": length, "stem bore": optional(not_zero(length)),
    "ferrule wall": length, "ferrule outside": optional(not_zero(length)), "ferrule length": optional(not_zero(length)),
    "widest diameter": optional(not_zero(length)),
}
DIES = {"die": word, "size": length, "reach": optional(not_zero(length)), "adapter": count,
        "length": optional(not_zero(length))}
PRESS = {
    "press": word, "graduation": length, "correction": length, "dial range": optional(not_zero(length)),
    "opening": optional(not_zero(length)), "capacity": optional(not_zero(force)), "segments": count, "adapter mounted": count,
}
PUBLISHED = {"hose": word, "coupling": word, "crimp diameter": not_zero(length),
             "tolerance": optional(not_zero(length))}
METALS = {"metal": word, "modulus": pressure, "poisson": ratio, "yield strength": pressure, "hardening": optional(pressure)}
COUPLINGS = {
    "coupling": word, "ferrule metal": optional(word), "stem metal": optional(word), "restraint": optional(ratio),
    "hose pressure": optional(not_zero(pressure)), "bore limit": optional(not_zero(length)),
}
MEASURING = {"what": word, "standard uncertainty": length}
GAUGES = {"gauge": word, "standard uncertainty": length, "correction": length, "resolution": length}
CRIMPS = {"order": count, "piece": count, "section": count, "angle": angle, "diameter": not_zero(length), "gauge": word}


@dataclass
class Shop:
    """What is there before the first order."""
    name: str
    press: ferrule.Press
    adapter: int
    die_names: list
    dies: list
    published: dict     # (hose, coupling) -> row, with its troubles
    metals: dict        # name -> Material
    couplings: dict     # name -> row, with its troubles
    uncertainties: ferrule.Uncertainties
    gauges: dict        # name -> Gauge
    troubles: list = field(default_factory=list)


@dataclass
class Piece:
    """One crimp that was measured."""
    number: str
    gauge: str
    inspection: ferrule.Inspection | None
    why_not: str = ""   # why it was not judged


@dataclass
class Job:
    """One order, planned, with the crimps that were measured."""
    row: object
    order: ferrule.Order
    setup: ferrule.Setup
    die_name: str
    pieces: list = field(default_factory=list)

    @property
    def number(self):
        return self.row.texts["order"]


class Stop(Exception):
    """Without this the day cannot be planned at all; the argument is a list of troubles."""


# ---- the tables as the library's values --------------------------------------------------------------------

def _given(row, columns):
    """Members that a row gives, for a constructor; what was not measured is left out."""
    return {member: row[column] for member, column in columns.items() if row[column] is not None}


def _sound(rows, troubles):
    """Rows without trouble; the trouble of the others goes to the list."""
    for row in rows:
        troubles += row.troubles
    return [row for row in rows if not row.troubles]


def _read_press(path):
    troubles = []
    rows = _sound(read_table(path, PRESS), troubles)
    if troubles or len(rows) != 1:
        raise Stop(troubles or [Trouble(path.name, 0, f"{len(rows)} rows", "one press is wanted, in one row")])
    row = rows[0]
    press = ferrule.Press(**_given(row, {
        "graduation": "graduation", "correction": "correction", "dial_maximum": "dial range", "opening": "opening",
        "capacity": "capacity", "segments": "segments"}))
    try:
        ferrule.check_press(press)
    except ferrule.Error as error:
        raise Stop([row.blame(error, "press ")]) from None
    return row, press


def _read_dies(path, troubles):
    names, dies = [], []
    for row in _sound(_by_name(read_table(path, DIES), "die").values(), troubles):
        die = ferrule.Die(**_given(row, {
            "size": "size", "reach": "reach", "adapter": "adapter", "length": "length"}))
        try:
            ferrule.choose_die([die], die.size)
        except ferrule.Error as error:
            troubles.append(row.blame(error, "die "))
            continue
        names.append(row["die"])
        dies.append(die)
    return names, dies


def _read_uncertainties(path):
    """A measurement whose uncertainty cannot be read would count as exact: then there is no day."""
    members = {"crimp diameter": "diameter"}
    amounts, troubles = {}, []
    for row in _sound(_by_name(read_table(path, MEASURING), "what").values(), troubles):
        member = members.get(row["what"], row["what"].replace(" ", "_"))
        try:
            ferrule.Uncertainties(**{member: ferrule.Uncertainty(amount=row["standard uncertainty"])})
        except TypeError:
            troubles.append(row.trouble("what", "nothing that is measured has this name"))
            continue
        amounts[member] = ferrule.Uncertainty(amount=row["standard uncertainty"])
    if troubles:
        raise Stop(troubles)
    return ferrule.Uncertainties(**amounts)


def _read_gauges(path, troubles):
    members = {"standard_uncertainty": "standard uncertainty", "correction": "correction", "resolution": "resolution"}
    rows = _by_name(read_table(path, GAUGES), "gauge").values()
    return {row["gauge"]: ferrule.Gauge(**_given(row, members)) for row in _sound(rows, troubles)}


def _by_name(rows, *columns):
    """Rows by name. One that stands twice becomes a row with trouble, since nobody knows which of the two holds."""
    by_name = {}
    for row in rows:
        name = row.texts.get(columns[0]) if len(columns) == 1 else tuple(row.texts.get(column) for column in columns)
        if name in by_name:
            twice = row.trouble(columns[-1], "the name stands in the table already")
            row = replace(row, troubles=(*by_name[name].troubles, *row.troubles, twice))
        by_name[name] = row
    return by_name


def _read_metals(path, troubles):
    metals = {}
    for name, row in _by_name(read_table(path, METALS), "metal").items():
        troubles += row.troubles
        if row.troubles:
            continue
        metal = ferrule.Material(**_given(row, {
            "elastic_modulus": "modulus", "poisson": "poisson", "yield_strength": "yield strength", "hardening": "hardening"}))
        try:
            ferrule.check_material(metal)
        except ferrule.Error as error:
            troubles.append(row.blame(error, "material "))
            continue
        metals[name] = metal
    return metals


def _read_couplings(path, metals, troubles):
    """Rows stay rows: their restraint, pressure and limit are checked together with an order."""
    couplings = _by_name(read_table(path, COUPLINGS), "coupling")
    for name, row in couplings.items():
        unknown = [row.trouble(column, "no metal of this name could be read from metals.csv")
                   for column in ("ferrule metal", "stem metal") if row.values.get(column, None) not in (None, *metals)]
        couplings[name] = replace(row, troubles=(*row.troubles, *unknown))
        troubles += couplings[name].troubles
    return couplings


def open_shop(folder):
    """Read all tables but the orders and the crimps."""
    troubles = []
    row, press = _read_press(folder / "press.csv")
    names, dies = _read_dies(folder / "dies.csv", troubles)
    published = _by_name(read_table(folder / "published.csv", PUBLISHED), "hose", "coupling")
    for line in published.values():
        troubles += line.troubles
    metals = _read_metals(folder / "metals.csv", troubles)
    couplings = _read_couplings(folder / "couplings.csv", metals, troubles)
    uncertainties = _read_uncertainties(folder / "measuring.csv")
    gauges = _read_gauges(folder / "gauges.csv", troubles)
    return Shop(row["press"], press, row["adapter mounted"], names, dies, published, metals, couplings, uncertainties, gauges,
                troubles)


# ---- orders ------------------------------------------------------------------------------------------------

def _joint_of(row):
    return ferrule.Joint(
        hose=ferrule.Hose(**_given(row, {"inside": "hose inside", "outside": "hose outside"})),
        stem=ferrule.Stem(**_given(row, {"outside": "stem outside", "bore": "stem bore"})),
        ferrule=ferrule.Ferrule(**_given(row, {
            "wall": "ferrule wall", "outside": "ferrule outside", "length": "ferrule length"})))


def _metal_of(coupling, metals):
    """Members of an order that a row of couplings.csv gives."""
    more = _given(coupling, {"ferrule_metal": "ferrule metal", "stem_metal": "stem metal"})
    more = {member: metals[name] for member, name in more.items()}
    load = ferrule.FormingLoad(**_given(coupling, {"restraint": "restraint", "hose_pressure": "hose pressure"}))
    return more | {"load": load} | _given(coupling, {"minimum_bore": "bore limit"})


def _order_of(row, shop):
    more = _given(row, {"widest": "widest diameter"})
    if row["coupling"] in shop.couplings:
        more |= _metal_of(shop.couplings[row["coupling"]], shop.metals)
    sheet = shop.published.get((row["hose"], row["coupling"]))
    if sheet:
        more.update(_given(sheet, {"published": "crimp diameter", "tolerance": "tolerance"}))
    return ferrule.Order(joint=_joint_of(row), uncertainties=shop.uncertainties, adapter_mounted=shop.adapter, **more)


def _blame(row, shop, error):
    """Published figures and what is known of the metal stand in tables of their own; all else is the order's row."""
    sheet = shop.published.get((row["hose"], row["coupling"]))
    coupling = shop.couplings.get(row["coupling"])
    if coupling and error.name.startswith(("RESTRAINT", "HOSE_PRESSURE", "BORE_LIMIT")):
        return coupling.blame(error)
    if sheet and error.name.startswith("PUBLISHED_DIAMETER"):
        return sheet.trouble("crimp diameter", error.code.sentence)
    if sheet and error.name.startswith("TOLERANCE"):
        return sheet.trouble("tolerance", error.code.sentence)
    return row.blame(error, otherwise="ferrule outside" if error.name.startswith("FERRULE_BORE") else "")


def _refusal(row, planned, shop):
    """Trouble that keeps an order from being planned although its cells can be read."""
    if row["order"] in planned:
        return row.trouble("order", "the number stands in the table already")
    sheet = shop.published.get((row["hose"], row["coupling"]))
    if sheet and sheet.troubles:
        return row.trouble("coupling", f"its published diameter cannot be read: {sheet.file}, line {sheet.line}")
    coupling = shop.couplings.get(row["coupling"])
    if coupling and coupling.troubles:
        return row.trouble("coupling", f"its metal cannot be read: {coupling.file}, line {coupling.line}")
    return None


def _plan(row, shop):
    """Job of one order; the adapter that it leaves in the press is there for the next."""
    order = _order_of(row, shop)
    setup = ferrule.plan_setup(order, shop.press, shop.dies)
    if not setup.die.found:
        return Job(row, order, setup, "")
    shop.adapter = setup.die.die.adapter
    return Job(row, order, setup, shop.die_names[setup.die.index])


def plan_orders(path, shop):
    """Jobs in the order of the file."""
    jobs, planned = [], set()
    for row in _sound(read_table(path, ORDERS), shop.troubles):
        refusal = _refusal(row, planned, shop)
        if refusal:
            shop.troubles.append(refusal)
            continue
        try:
            jobs.append(_plan(row, shop))
            planned.add(row["order"])
        except ferrule.Error as error:
            shop.troubles.append(_blame(row, shop, error))
    return jobs


# ---- crimps ------------------------------------------------------------------------------------------------

def _pieces(rows):
    """Rows by order and piece as they are written, so that a row with trouble still belongs to its piece."""
    pieces = {}
    for row in rows:
        key = row.texts.get("order", ""), row.texts.get("piece", "")
        pieces.setdefault(key, []).append(row)
    return pieces


def _left(shop, row, column, why):
    """A piece that is not judged for a trouble that no single cell has shown."""
    shop.troubles.append(row.trouble(column, why))
    return Piece(row.texts["piece"], row.texts["gauge"], None, why)


def _inspect(job, number, rows, shop):
    """Judge one piece, or say why not."""
    gauge = rows[0].texts.get("gauge", "")
    wrong = [row for row in rows if row.troubles]
    if wrong:
        lines = ", ".join(str(row.line) for row in wrong)
        return Piece(number, gauge, None, f"a reading cannot be read: {rows[0].file}, line {lines}")
    if any(row["gauge"] != gauge for row in rows):
        return _left(shop, rows[0], "piece", "its readings are from more than one gauge")
    if gauge not in shop.gauges:
        return _left(shop, rows[0], "gauge", "nothing is known of this gauge")
    readings = [ferrule.Reading(diameter=row["diameter"], section=row["section"], angle=row["angle"],
                                angle_known=True) for row in rows]
    try:
        return Piece(number, gauge, ferrule.inspect_crimp(job.setup, readings, shop.gauges[gauge]))
    except ferrule.Error as error:
        if error.name.startswith("TOLERANCE"):  # nothing is wrong with the readings
            return Piece(number, gauge, None, error.code.sentence)
        return _left(shop, rows[0], "piece", error.code.sentence)


def inspect_crimps(path, jobs, shop):
    """Judge every piece that was measured."""
    rows = read_table(path, CRIMPS)
    _sound(rows, shop.troubles)
    by_number = {job.number: job for job in jobs}
    for (order, number), readings in _pieces(rows).items():
        if order in by_number:
            by_number[order].pieces.append(_inspect(by_number[order], number, readings, shop))
        else:
            shop.troubles.append(readings[0].trouble("order", "no order with this number was planned"))


def run_day(folder):
    """The shop with its troubles, and the day's jobs. The folder is a path, or a Folder where something has to be said of its files."""
    shop = open_shop(folder)
    jobs = plan_orders(folder / "orders.csv", shop)
    inspect_crimps(folder / "crimps.csv", jobs, shop)
    files = {file: place for place, file in enumerate(dict.fromkeys(trouble.file for trouble in shop.troubles))}
    shop.troubles.sort(key=lambda trouble: (files[trouble.file], trouble.line))
    return shop, jobs
