# SPDX-License-Identifier: MIT
"""The depot: its tables as the library's values, and its day as planned jobs with judged crimps."""
from dataclasses import dataclass, field, replace

import ferrule

from ferrule import show
from tables import (Trouble, angle, choice, count, date, force, length, not_zero, optional, person, pressure, ratio, read_table, word,
                    yes)

ORDERS = {
    "order": count, "machine": word, "hose": word, "coupling": word, "pieces": count,
    "hose inside": length, "hose outside": length, "stem outside": length, "stem bore": optional(not_zero(length)),
    "ferrule wall": length, "ferrule outside": optional(not_zero(length)), "ferrule length": optional(not_zero(length)),
    "widest diameter": optional(not_zero(length)), "gauge": word,
}
DIES = {"die": word, "size": length, "reach": optional(not_zero(length)), "adapter": count,
        "length": optional(not_zero(length))}
PRESS = {
    "press": word, "graduation": length, "correction": optional(length), "dial range": optional(not_zero(length)),
    "opening": optional(not_zero(length)), "capacity": optional(not_zero(force)), "segments": count, "adapter mounted": count,
}
PUBLISHED = {
    "hose": word, "coupling": word, "crimp diameter": optional(not_zero(length)), "tolerance": optional(not_zero(length)),
    "applies to": optional(choice(ferrule.AppliesTo)), "approval": optional(choice(ferrule.Approval)),
    "insertion": optional(not_zero(length)), "skive outside": optional(not_zero(length)), "skive inside": optional(not_zero(length)),
}
CONFIRMATIONS = {"order": count, "remark": choice(ferrule.Remark), "name": person, "date": date, "target": length,
                 "tolerance": optional(length), "die": optional(length), "compression": optional(ratio)}
OUTCOME = optional(choice(ferrule.Outcome))
ENDS = {"order": count, "piece": count, "looks": optional(choice(ferrule.EndLook)), "insertion": OUTCOME, "bore": OUTCOME,
        "read again": optional(yes)}
ASSEMBLIES = {"order": count, "assembly": count, "first end": optional(count), "second end": optional(count), "parts": OUTCOME,
              "hose age": optional(count), "straight": optional(yes), "length": OUTCOME, "orientation": OUTCOME, "cleanliness": OUTCOME,
              "marking": OUTCOME, "pressure": OUTCOME, "leak": OUTCOME, "movement": OUTCOME}
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
    gauge_units: dict   # name -> the unit that it shows
    troubles: list = field(default_factory=list)
    planned: dict = field(default_factory=dict)   # line of an order -> adapter in the press, order, set-up


@dataclass
class Piece:
    """One crimp that was measured: one end."""
    number: str
    gauge: str
    inspection: ferrule.Inspection | None
    why_not: str = ""   # why it was not judged
    checks: ferrule.EndChecks = field(default_factory=ferrule.EndChecks)  # with the verdict on its diameter


@dataclass
class Job:
    """One order, planned, with the crimps that were measured."""
    row: object
    order: ferrule.Order
    setup: ferrule.Setup
    die_name: str
    press: ferrule.Press
    gauge_unit: str = "mm"
    names: dict = field(default_factory=dict)       # remark -> who confirmed it, and when
    void: list = field(default_factory=list)        # rows of confirmations that were given for other figures
    pieces: list = field(default_factory=list)
    first_piece: ferrule.FirstPiece | None = None
    assemblies: list = field(default_factory=list)  # (row, Release)

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
        "capacity": "capacity", "segments": "segments"}), correction_measured=row["correction"] is not None)
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
    rows = _sound(rows, troubles)
    units = {row["gauge"]: "inch" if row.texts["resolution"].endswith(("in", '"')) else "mm" for row in rows}
    return {row["gauge"]: ferrule.Gauge(**_given(row, members)) for row in rows}, units


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
    gauges, units = _read_gauges(folder / "gauges.csv", troubles)
    return Shop(row["press"], press, row["adapter mounted"], names, dies, published, metals, couplings, uncertainties, gauges,
                units, troubles)


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
        more.update(_given(sheet, {"published": "crimp diameter", "tolerance": "tolerance", "applies_to": "applies to",
                                   "approval": "approval", "insertion": "insertion", "skive_outside": "skive outside",
                                   "skive_inside": "skive inside"}))
    return ferrule.Order(joint=_joint_of(row), uncertainties=shop.uncertainties, adapter_mounted=shop.adapter,
                         gauge=shop.gauges[row["gauge"]], **more)


def _blame(row, shop, error):
    """Published figures and what is known of the metal stand in tables of their own; all else is the order's row."""
    sheet = shop.published.get((row["hose"], row["coupling"]))
    coupling = shop.couplings.get(row["coupling"])
    if coupling and error.name.startswith(("RESTRAINT", "HOSE_PRESSURE", "BORE_LIMIT")):
        return coupling.blame(error)
    if sheet and error.name.startswith("PUBLISHED_DIAMETER"):
        return sheet.trouble("crimp diameter", error.code.sentence)
    for name, column in (("TOLERANCE", "tolerance"), ("INSERTION", "insertion"), ("SKIVE", "skive outside")):
        if sheet and error.name.startswith(name):
            return sheet.trouble(column, error.code.sentence)
    return row.blame(error, otherwise="ferrule outside" if error.name.startswith("FERRULE_BORE") else "")


def _refusal(row, shop):
    """Trouble that keeps an order from being planned although its cells can be read."""
    sheet = shop.published.get((row["hose"], row["coupling"]))
    if sheet and sheet.troubles:
        return row.trouble("coupling", f"its published diameter cannot be read: {sheet.file}, line {sheet.line}")
    coupling = shop.couplings.get(row["coupling"])
    if coupling and coupling.troubles:
        return row.trouble("coupling", f"its metal cannot be read: {coupling.file}, line {coupling.line}")
    if row["gauge"] not in shop.gauges:
        return row.trouble("gauge", "nothing is known of this gauge")
    return None


def _plan(row, shop):
    """Set-up of one order as it would be planned now; not anew while the same adapter is in the press."""
    kept = shop.planned.get(row.line)
    if not kept or kept[0] != shop.adapter:
        order = _order_of(row, shop)
        kept = shop.planned[row.line] = (shop.adapter, order, ferrule.plan_setup(order, shop.press, shop.dies))
    return kept[1:]


def _confirm(job, rows, shop):
    """What was confirmed, by whom, and what is void. Each is tried alone, so that a wrong one spoils no other."""
    taken = []
    for row in rows:
        one = ferrule.Confirmation(row["remark"], row["target"], row["tolerance"], row["die"], row["compression"])
        try:
            alone = ferrule.confirm_setup(job.setup, [one])
        except ferrule.Error as error:
            shop.troubles.append(row.trouble("remark", error.code.sentence))
            continue
        taken.append(one)
        if row["remark"] in alone.confirmed:
            job.names[row["remark"]] = f"{row['name']}, {row['date']}"
        elif ferrule.Remark.CONFIRMATION_STALE in alone.remarks:
            job.void.append(row)
    job.setup = ferrule.confirm_setup(job.setup, taken)


def _job(row, shop, confirmations):
    """One order, planned and confirmed; the adapter of one that is ready stays in the press for the next."""
    order, setup = _plan(row, shop)
    name = shop.die_names[setup.die.index] if setup.die.found else ""
    job = Job(row, order, setup, name, shop.press, shop.gauge_units[row["gauge"]])
    _confirm(job, confirmations, shop)
    if job.setup.readiness == ferrule.Readiness.READY:
        shop.adapter = setup.die.die.adapter
    return job


def _place(row, shop):
    """What an order needs on the press: adapter, die and dial; an order that needs nothing stands alone."""
    try:
        _, setup = _plan(row, shop)
    except ferrule.Error:
        return row.line
    if not show.may_be_set(setup):
        return row.line
    return setup.die.die.adapter, setup.die.index, show.dial(setup)[0].value.setting.mm


def _together(rows, shop):
    """Rows in the order of the file, each brought up to the first that needs the same adapter, die and dial."""
    groups = {}
    for row in rows:
        groups.setdefault(_place(row, shop), []).append(row)
    return [row for group in groups.values() for row in group]


def _acceptable(rows, shop):
    """Rows that can be planned; of two with the same number the first."""
    seen, found = set(), []
    for row in rows:
        refusal = row.trouble("order", "the number stands in the table already") if row["order"] in seen else _refusal(row, shop)
        seen.add(row["order"])
        if refusal:
            shop.troubles.append(refusal)
        else:
            found.append(row)
    return found


def _read_confirmations(path, shop):
    """Rows by order. One that cannot be read confirms nothing."""
    by_order = {}
    for row in _sound(read_table(path, CONFIRMATIONS), shop.troubles):
        by_order.setdefault(row["order"], []).append(row)
    return by_order


def plan_orders(folder, shop):
    """Jobs in the order in which they are run."""
    jobs = []
    rows = _acceptable(_sound(read_table(folder / "orders.csv", ORDERS), shop.troubles), shop)
    confirmations = _read_confirmations(folder / "confirmations.csv", shop)
    for row in _together(rows, shop):
        try:
            jobs.append(_job(row, shop, confirmations.pop(row["order"], [])))
        except ferrule.Error as error:
            shop.troubles.append(_blame(row, shop, error))
    for rows in confirmations.values():
        shop.troubles += [row.trouble("order", "no order with this number was planned") for row in rows]
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
    """Judge one piece, or say why not. What is not to be crimped is not judged either, let alone accepted."""
    gauge = rows[0].texts.get("gauge", "")
    wrong = [row for row in rows if row.troubles]
    if wrong:
        lines = ", ".join(str(row.line) for row in wrong)
        return Piece(number, gauge, None, f"a reading cannot be read: {rows[0].file}, line {lines}")
    if job.setup.readiness != ferrule.Readiness.READY:
        return Piece(number, gauge, None, f"the order is {show.word(job.setup.readiness)}")
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


# ---- what else was checked ---------------------------------------------------------------------------------

def _members(row, columns):
    """Members of a struct that a row gives under the same names."""
    return _given(row, {column.replace(" ", "_"): column for column in columns})


def _check_ends(path, jobs, shop):
    """Looks, insertion and bore of each end, together with the verdict on its diameter."""
    rows = {(row["order"], row["piece"]): row for row in _sound(read_table(path, ENDS), shop.troubles)}
    for job in jobs:
        for piece in job.pieces:
            row = rows.pop((job.row["order"], int(piece.number)), None)
            diameter = ferrule.enter_inspection(piece.inspection) if piece.inspection else ferrule.DiameterCheck()
            if row:
                failed = diameter.outcome == ferrule.Outcome.FAILED
                diameter = diameter.replace(read_again=bool(row["read again"]) and failed)
            more = _members(row, ("looks", "insertion", "bore")) if row else {}
            piece.checks = ferrule.EndChecks(diameter, **more)
    shop.troubles += [row.trouble("piece", "no piece with this number was measured") for row in rows.values()]


def _end(job, number):
    """What was checked on an end; nothing where it is not there."""
    found = [piece.checks for piece in job.pieces if number is not None and int(piece.number) == number]
    return found[0] if found else ferrule.EndChecks()


def _release(job, row):
    proof = ferrule.ProofTest(**_members(row, ("pressure", "leak", "movement")))
    checks = ferrule.AssemblyChecks(
        _end(job, row["first end"]), _end(job, row["second end"]), proof=proof, straight=bool(row["straight"]),
        **_members(row, ("parts", "hose age", "length", "orientation", "cleanliness", "marking")))
    return ferrule.release_assembly(checks)


def _release_assemblies(path, jobs, shop):
    by_number = {job.row["order"]: job for job in jobs}
    for row in _sound(read_table(path, ASSEMBLIES), shop.troubles):
        if row["order"] not in by_number:
            shop.troubles.append(row.trouble("order", "no order with this number was planned"))
            continue
        try:
            by_number[row["order"]].assemblies.append((row, _release(by_number[row["order"]], row)))
        except ferrule.Error as error:
            shop.troubles.append(row.blame(error))


def check_pieces(folder, jobs, shop):
    """First piece of each order, and its assemblies."""
    _check_ends(folder / "ends.csv", jobs, shop)
    for job in jobs:
        if job.pieces and job.setup.readiness == ferrule.Readiness.READY:
            first = min(job.pieces, key=lambda piece: int(piece.number))
            job.first_piece = ferrule.check_first_piece(ferrule.FirstPieceChecks(first.checks))
    _release_assemblies(folder / "assemblies.csv", jobs, shop)


def run_day(folder):
    """The shop with its troubles, and the day's jobs. The folder is a path, or a Folder where something has to be said of its files."""
    shop = open_shop(folder)
    jobs = plan_orders(folder, shop)
    inspect_crimps(folder / "crimps.csv", jobs, shop)
    check_pieces(folder, jobs, shop)
    files = {file: place for place, file in enumerate(dict.fromkeys(trouble.file for trouble in shop.troubles))}
    shop.troubles.sort(key=lambda trouble: (files[trouble.file], trouble.line))
    return shop, jobs
