# SPDX-License-Identifier: MIT
"""The day at the depot: figures of the orders, trouble with wrong cells, crimps that were measured."""
from math import isclose, pi

import pytest

import by_hand
from programs import DEPOT, copy_data, read_day, read_sheet, run_day, run_sheet

INCH = 25.4

# The orders as they stand in the tables, brought to mm here by hand.
JOINTS = {
    "101": by_hand.Joint(12.7, 19.9, 12.95, 2.4, 25.6),
    "102": by_hand.Joint(16.1, 23.3, 16.4, 2.6, 29.8),
    "103": by_hand.Joint(6.4, 13.3, 6.6, 1.6, 18.2),
    "104": by_hand.Joint(19.1, 26.9, 19.3, 2.6, 33.4),
    "105": by_hand.Joint(1.25 * INCH, 1.75 * INCH, 32.0, 0.126 * INCH, 2.0625 * INCH),
    "106": by_hand.Joint(38.1, 51.0, 38.4, 3.6, 60.4),
    "107": by_hand.Joint(0.5 * INCH, 0.783 * INCH, 0.510 * INCH, 0.094 * INCH),
}
WIDEST = {"101": 27.0, "102": 31.5, "103": 20.6, "104": 35.0, "105": 2.25 * INCH, "106": 63.0, "107": 1.06 * INCH}
PUBLISHED = {"102": (27.30, 0.20), "104": (29.60, 0.20), "107": (0.925 * INCH, None)}
DIES = [(8, 3), (10, 3), (13, 4), (16, 5), *((size, 7) for size in (19, 22, 25, 28, 31, 36, 41, 46))]
KNOWN = by_hand.Known(0.08, 0.10, 0.02, 0.03, 0.05)
STEP, CORRECTION, OPENING, SEGMENTS = 0.05, -0.15, 32.0, 8
CAPACITY = 2000.0  # kN

# Metals and couplings as they stand in the tables, brought to MPa and mm here by hand.
LOW_CARBON, FREE_CUTTING = by_hand.Metal(206000, 0.30, 280), by_hand.Metal(206000, 0.30, 400)
STAINLESS, BRASS = by_hand.Metal(195000, 0.29, 250), by_hand.Metal(105000, 0.34, 200)
PSI = 4.4482216152605 / INCH**2
# Ferrules with fixed ends and without hardening: metal, hose pressure, length.
HELD = {"102": (LOW_CARBON, 11.0, 38.0), "105": (STAINLESS, 1300 * PSI, 48.0)}
# Stems: metal, outside, bore, hose pressure, restraint times square of Poisson's ratio left out or not, bore limit.
STEMS = {
    "101": (FREE_CUTTING, 12.95, 9.5, 12.0, False, 9.45),
    "102": (FREE_CUTTING, 16.4, 12.5, 11.0, True, 12.45),
    "105": (BRASS, 32.0, 1.063 * INCH, 1300 * PSI, True, 1.06 * INCH),
}
METAL = ("closing diameter of the dies", "springback, not added to the dial", "force", "share of the press's capacity",
         "bore reduction of the stem", "bore margin of the stem")


@pytest.fixture(scope="module", name="day")
def run(tmp_path_factory):
    page = tmp_path_factory.mktemp("day") / "day.html"
    output = run_day(page)
    assert output.errors == ""
    return output


@pytest.fixture(scope="module", name="sheets")
def read_sheets(day):
    return read_day(day.text)[0]


def number(text):
    return float(text.split()[0])


def shown(value, decimals, unit="mm"):
    return f"{value:.{decimals}f} {unit}"


def formed_at(order, figures):
    """The diameter at which the dies stand: the target where the ferrule's metal is not known."""
    if order in HELD:
        metal, pressure, _ = HELD[order]
        return by_hand.fixed_closing(JOINTS[order], metal, pressure, target_of(order))
    closing = figures["closing diameter of the dies"]
    return target_of(order) if closing.startswith("not computed") else number(closing)


def target_of(order):
    return PUBLISHED[order][0] if order in PUBLISHED else by_hand.crimp_diameter(JOINTS[order], by_hand.AIM)


# ---- figures -----------------------------------------------------------------------------------------------

def test_every_order_is_there_and_the_wrong_rows_are_not(sheets):
    assert list(sheets) == list(JOINTS)


@pytest.mark.parametrize("order", JOINTS)
def test_target_and_window(sheets, order):
    figures, joint, target = sheets[order].figures, JOINTS[order], target_of(order)
    lower, upper = by_hand.crimp_diameter(joint, by_hand.UPPER), by_hand.crimp_diameter(joint, by_hand.LOWER)
    assert isclose(number(figures["target"]), target, abs_tol=0.00501)
    assert figures["target comes from"] == ("published diameter" if order in PUBLISHED else "measurements")
    lower_shown, upper_shown = figures["window"].split(" to ")
    assert isclose(number(lower_shown), lower, abs_tol=0.00501)
    assert isclose(number(upper_shown), upper, abs_tol=0.00501)


@pytest.mark.parametrize("order", JOINTS)
def test_compressions_and_shares(sheets, order):
    figures, joint, target = sheets[order].figures, JOINTS[order], target_of(order)
    assert figures["plain formula"] == shown(100 * by_hand.plain(joint, target), 1, "%")
    if joint.ferrule:
        assert figures["ferrule lengthens freely"] == shown(100 * by_hand.ends_free(joint, target), 1, "%")
        assert figures["ferrule cannot lengthen"] == shown(100 * by_hand.ends_fixed(joint, target), 1, "%")
    else:
        assert "not given" in figures["ferrule lengthens freely"]
    uncertainty = by_hand.compression_uncertainty(joint, KNOWN, target)
    assert figures["standard uncertainty"] == shown(100 * uncertainty, 1, "% points")
    assert figures["joints inside the range"] == shown(100 * by_hand.inside_range(joint, KNOWN, target), 1, "%")
    assert figures["best target"] == shown(by_hand.best_target(joint, KNOWN), 2)


@pytest.mark.parametrize("order", [order for order in JOINTS if order != "106"])
def test_die_and_dial(sheets, order):
    figures, target = sheets[order].figures, target_of(order)
    die = by_hand.choose_die(DIES, target)
    exact = target - die + CORRECTION
    setting = round(exact / STEP) * STEP
    number_on_rack = [size for size, _ in DIES].index(die) + 1
    assert figures["die"] == f"{die}.00 mm, die {number_on_rack}"
    assert figures["offset"] == shown(target - die, 3)
    assert figures["dial before rounding"] == shown(exact, 3)
    assert figures["dial"] == shown(setting, 3)
    assert isclose(number(figures["remainder"]), setting - exact, abs_tol=0.000501)
    assert isclose(number(figures["crimp diameter"]), target + setting - exact, abs_tol=0.00501)
    formed = formed_at(order, figures)
    assert isclose(number(figures["lobe height"]), by_hand.lobe_height(formed, die, SEGMENTS), abs_tol=0.00052)
    counted = by_hand.plain(JOINTS[order], by_hand.arcs_diameter(target, die, SEGMENTS))
    assert figures["plain formula, lobes counted"] == shown(100 * counted, 1, "%")
    assert figures["gap between segments"] == shown(by_hand.gap(formed, die, SEGMENTS), 2)
    assert isclose(number(figures["clearance in the open dies"]), die + OPENING - WIDEST[order], abs_tol=0.00501)


def test_no_die_says_what_to_buy(sheets):
    figures, target = sheets["106"].figures, target_of("106")
    assert by_hand.choose_die(DIES, target) is None
    assert figures["buy or borrow a die of"] == f"{target - by_hand.REACH:.2f} mm to {target:.2f} mm"
    assert figures["the nearest die misses the target by"] == shown(target - 46 - 7, 2)
    assert not {"dial", "offset", "lobe height"} & set(figures)
    assert sheets["106"].check_first[0].startswith("no die on the rack is near enough")


def test_limits_to_accept(sheets):
    assert sheets["101"].figures["accept"] == sheets["101"].figures["window"] == "23.15 mm to 23.87 mm"
    assert sheets["102"].figures["accept"] == "27.10 mm to 27.50 mm"
    assert "no tolerance came" in sheets["107"].figures["accept"]


def test_adapter_goes_in_stays_and_comes_out(sheets):
    adapters = {order: sheet.figures.get("adapter") for order, sheet in sheets.items()}
    assert adapters == {"101": "none", "102": "none", "103": "set 1: put it in first",
                        "104": "none: take out the set in the press", "105": "none", "106": None, "107": "none"}


def test_first_things_first(sheets):
    assert sheets["104"].check_first[0].startswith("the published diameter is outside the window")
    assert not any("published" in remark for remark in sheets["102"].check_first)
    assert sheets["103"].check_first == ["an adapter set has to go into the press first"]


def test_measurements_are_shown_as_written_and_in_mm(sheets):
    figures = sheets["105"].figures
    assert figures["hose inside"] == "1 1/4 in = 31.750 mm"
    assert figures["hose outside"] == "1-3/4 in = 44.450 mm"
    assert figures["ferrule wall"] == "0.126in = 3.200 mm"
    assert figures["stem outside"] == "32.0 mm"
    assert sheets["107"].figures["ferrule outside"] == "not measured"


def test_cautions(sheets):
    for sheet in sheets.values():
        text = " ".join(sheet.take_care)
        for words in ("publish come first", "different manufacturers", "closing dies", "Local codes"):
            assert words in text
    rejected = [order for order, sheet in sheets.items() if "Cut up an assembly" in " ".join(sheet.take_care)]
    assert rejected == ["102"]


# ---- metal -------------------------------------------------------------------------------------------------

@pytest.mark.parametrize("order", HELD)
def test_springback_and_force(sheets, order):
    figures, joint, (metal, hose_pressure, length) = sheets[order].figures, JOINTS[order], HELD[order]
    closing = by_hand.fixed_closing(joint, metal, hose_pressure, target_of(order))
    pressure, springback = by_hand.fixed_ferrule(joint, metal, hose_pressure, closing)
    force = pressure * pi * closing * length / 1000
    assert isclose(number(figures[METAL[0]]), closing, abs_tol=0.000501)
    assert isclose(number(figures[METAL[1]]), springback, abs_tol=0.000501)
    assert figures["force"] == shown(force, 0, "kN")
    assert figures["share of the press's capacity"] == shown(100 * force / CAPACITY, 1, "%")


@pytest.mark.parametrize("order", STEMS)
def test_bore_under_the_hose(sheets, order):
    figures, (metal, outside, bore, pressure, ends_fixed, limit) = sheets[order].figures, STEMS[order]
    reduction = by_hand.bore_reduction(outside, bore, metal, pressure, ends_fixed)
    assert isclose(number(figures["bore reduction of the stem"]), reduction, abs_tol=0.000501)
    assert isclose(number(figures["bore margin of the stem"]), bore - reduction - limit, abs_tol=0.000501)


def test_half_restraint_lies_between_free_and_fixed_ends_and_its_bore_does_not_pass(sheets):
    figures = sheets["104"].figures
    ends_free, ends_fixed = (by_hand.bore_reduction(19.3, 15.0, FREE_CUTTING, 14.0, ends_fixed) for ends_fixed in (False, True))
    assert isclose(number(figures["bore reduction of the stem"]), (ends_free + ends_fixed) / 2, abs_tol=0.000501)
    assert figures["bore margin of the stem"] == "-" + figures["bore reduction of the stem"]
    assert sheets["104"].check_first[-1] == "under the hose the stem's bore becomes smaller than its limit"
    at_least, _ = by_hand.fixed_ferrule(JOINTS["104"], by_hand.Metal(206000, 0.30, 240), 14.0, 29.6)
    assert number(figures["force"]) > 0.9 * at_least * pi * 29.6 * 42 / 1000  # hardening adds to what it is with ends fixed


METAL_MISSING = "not computed: the metal is not given, and this figure needs it"
OUTSIDE_MISSING = "not computed: ferrule outside diameter is not given, and this function needs it"
BORE_MISSING = "not computed: stem bore is not given, and this function needs it"


@pytest.mark.parametrize("order, texts", [
    ("101", [METAL_MISSING] * 4),
    ("103", [METAL_MISSING] * 6),
    ("106", [None] * 4 + [METAL_MISSING] * 2),
    ("107", [OUTSIDE_MISSING] * 4 + [BORE_MISSING] * 2),
])
def test_what_is_not_computed_says_why(sheets, order, texts):
    for label, text in zip(METAL, texts):
        found = sheets[order].figures[label]
        assert found == text if text else not found.startswith("not computed"), label


def test_force_without_a_hose_is_remarked(sheets):
    assert sheets["106"].check_first[1].startswith("force and springback are those of the ferrule alone")
    assert not any("alone" in remark for order in ("101", "102", "105") for remark in sheets[order].check_first)


@pytest.mark.parametrize("changes, reported, number_left", [
    ({"press": ("2000 kN", "250 kN")}, "order 102 cannot be crimped as it is: the crimp needs more force than", 4),
    ({"published": ("27.30 mm,0.20", "25.02 mm,0.20"), "press": ("-0.15 mm", "0.15 mm")},
     "order 102 cannot be crimped as it is: the ferrule springs back", 2),
])
def test_a_press_too_weak_and_dies_that_would_close_below_their_size(tmp_path, changes, reported, number_left):
    copy_data(tmp_path, **changes)
    not_done = read_day(run_day(tmp_path / "day.html", tmp_path).text)[1]
    stopped = [text for text in not_done if "cannot be crimped" in text]
    assert any(text.startswith(reported) for text in stopped), stopped
    assert len(stopped) == number_left


@pytest.mark.parametrize("table, old, new, reported, orders_left", [
    ("metals", "low-carbon steel,206 GPa", "low-carbon steel,206",
     'metals.csv, line 6, column "modulus" (B6): "206": a number without a unit', ["102"]),
    ("metals", "low-carbon steel,206 GPa", "low-carbon steel,206 mm",
     'metals.csv, line 6, column "modulus" (B6): "206 mm": the unit belongs to another kind', ["102"]),
    ("metals", "0.29 fraction", "0.29", 'metals.csv, line 8, column "poisson" (C8): "0.29": a number without', ["105"]),
    ("metals", "0.29 fraction", "50 %", 'metals.csv, line 8, column "poisson" (C8): "50 %": Poisson', ["105"]),
    ("metals", "250 MPa", "250 GPa", 'metals.csv, line 8, column "yield strength" (D8): "250 GPa": yield strength is not', ["105"]),
    ("metals", "900 MPa", "-900 MPa", 'metals.csv, line 5, column "hardening" (E5): "-900 MPa": hardening', ["104", "106"]),
    ("metals", "stainless steel,", "brass,", 'metals.csv, line 9, column "metal" (A9): "brass": the name stands', ["105"]),
    ("couplings", "B1,low-carbon steel", "B1,low carbon steel",
     'couplings.csv, line 6, column "ferrule metal" (B6): "low carbon steel": no metal of this name', ["102"]),
    ("couplings", "stainless steel,brass", "stainless steel,bronze",
     'couplings.csv, line 8, column "stem metal" (C8): "bronze": no metal of this name', ["105"]),
    ("couplings", "110 bar", "110", 'couplings.csv, line 6, column "hose pressure" (E6): "110": a number without', ["102"]),
    ("couplings", "110 bar", "-110 bar", 'couplings.csv, line 6, column "hose pressure" (E6): "-110 bar": pressure of',
     ["102"]),
    ("couplings", "100 %,110", "110 %,110", 'couplings.csv, line 6, column "restraint" (D6): "110 %": restraint is not',
     ["102"]),
    ("couplings", "12.45 mm", "12.45 bar", 'couplings.csv, line 6, column "bore limit" (F6): "12.45 bar": the unit',
     ["102"]),
    ("couplings", "12.45 mm", "-1 mm", 'couplings.csv, line 6, column "bore limit" (F6): "-1 mm": smallest bore', ["102"]),
    ("couplings", "E1,", "B1,", 'couplings.csv, line 8, column "coupling" (A8): "B1": the name stands', ["102"]),
    ("couplings", "12.45 mm", "", 'couplings.csv, line 6, column "bore limit" (F6): "": the cell is empty', ["102"]),
])
def test_a_doubtful_metal_never_turns_into_a_figure(tmp_path, table, old, new, reported, orders_left):
    copy_data(tmp_path, **{table: (old, new)})
    output = run_day(tmp_path / "day.html", tmp_path)
    sheets, not_done = read_day(output.text)
    assert output.status == 1
    assert any(text.startswith(reported) for text in not_done), not_done
    assert [order for order in JOINTS if order not in sheets] == orders_left


# ---- crimps ------------------------------------------------------------------------------------------------

# Readings in mm, section 1 then section 2; gauge's standard uncertainty, resolution, correction.
CALIPER_1, MICROMETER_1 = (0.03, 0.01, 0.0), (0.004, 0.001, -0.002)
CALIPER_2 = (0.001 * INCH, 0.001 * INCH, 0.0)
PIECES = {
    ("101", "1"): (CALIPER_1, [23.50, 23.52, 23.49, 23.51], [23.53, 23.54, 23.52, 23.53], (23.15, 23.87)),
    ("101", "2"): (CALIPER_1, [23.46, 23.48, 23.47, 23.45], [23.50, 23.49, 23.51, 23.50], (23.15, 23.87)),
    ("102", "1"): (MICROMETER_1, [27.312, 27.304, 27.318, 27.309], [27.331, 27.326, 27.335, 27.329], (27.1, 27.5)),
    ("102", "2"): (MICROMETER_1, [27.601, 27.612, 27.595, 27.606], [27.634, 27.641, 27.629, 27.638], (27.1, 27.5)),
    ("102", "3"): (CALIPER_1, [27.47, 27.49, 27.48, 27.46], [27.50, 27.51, 27.49, 27.50], (27.1, 27.5)),
    ("105", "1"): (CALIPER_2, [inches * INCH for inches in (1.911, 1.913, 1.912, 1.910)],
                   [inches * INCH for inches in (1.913, 1.914, 1.912, 1.913)],
                   tuple(by_hand.crimp_diameter(JOINTS["105"], share) for share in (0.25, 0.15))),
}


@pytest.mark.parametrize("order, piece", PIECES)
def test_measured_crimps(sheets, order, piece):
    (gauge, resolution, correction), first, second, limits = PIECES[order, piece]
    line = next(line for line in sheets[order].crimps if line[0] == piece)
    mean, uncertainty = by_hand.mean_and_uncertainty(first + second, gauge, resolution)
    mean += correction
    taper = sum(second) / 4 - sum(first) / 4
    ovality = max(max(readings) - min(readings) for readings in (first, second))
    wanted = [mean, uncertainty, mean - target_of(order), ovality, taper]
    for text, value in zip(line[2:7], wanted):
        assert isclose(number(text), value, abs_tol=0.000501), line
    assert line[8] == by_hand.verdict(mean, uncertainty, *limits)


def test_each_kind_of_verdict_comes_up(sheets):
    verdicts = {(order, line[0]): line[-1] for order, sheet in sheets.items() for line in sheet.crimps}
    assert verdicts[("102", "1")] == "ACCEPT"
    assert verdicts[("102", "2")] == "REJECT"
    assert verdicts[("102", "3")] == "UNDECIDED"
    assert verdicts[("104", "1")] == "ACCEPT if the published diameter holds"
    assert verdicts[("105", "2")] == "NOT JUDGED: a reading cannot be read: crimps.csv, line 75"
    assert verdicts[("107", "1")].startswith("NOT JUDGED: no tolerance came")


# ---- trouble -----------------------------------------------------------------------------------------------

def line_of(table, beginning):
    """Number of the line that begins so, counted here."""
    lines = (DEPOT / table).read_text(encoding="utf-8").splitlines()
    return next(number for number, line in enumerate(lines, 1) if line.startswith(beginning))


@pytest.mark.parametrize("row, column, letter, value, rule", [
    ("201", "hose inside", "F", "12.7", "a number without a unit: write the unit after it"),
    ("202", "hose outside", "G", "19.1 mm", "hose outside diameter is not above its inside diameter"),
    ("203", "hose outside", "G", "about 23 mm", "the text does not begin with a number"),
    ("204", "stem outside", "H", "", "the cell is empty"),
    ("205", "hose inside", "F", "16,1 mm", "a comma in a number can mean two things"),
    ("205", "ferrule wall", "J", "160 bar", "the unit belongs to another kind of quantity"),
    ("206", "ferrule outside", "K", "", "the row has 10 cells, the heading has 13"),
    ("207", "pieces", "E", "some", "a whole number is wanted here"),
])
def test_wrong_cells_are_reported(day, row, column, letter, value, rule):
    line = line_of("orders.csv", row + ",")
    wanted = f'orders.csv, line {line}, column "{column}" ({letter}{line}): "{value}": {rule}'
    assert any(text.startswith(wanted) for text in read_day(day.text)[1]), wanted


def test_nothing_else_is_reported_and_the_status_says_that_something_was_left(day):
    not_done = read_day(day.text)[1]
    assert day.status == 1
    assert len(not_done) == 1 + 8 + 1
    assert not_done[0].startswith("order 106 cannot be crimped as it is: no die")
    assert 'crimps.csv, line 75, column "diameter" (E75): "48.60": a number without a unit' in not_done[-1]


def test_a_day_without_trouble_has_status_0(tmp_path):
    copy_data(tmp_path, crimps=("105,2,2,90 deg,48.60,", "105,2,2,90 deg,48.60 mm,"))
    orders = tmp_path / "orders.csv"
    rows = [line for line in orders.read_text(encoding="utf-8").splitlines() if not line.startswith(("106", "2"))]
    orders.write_text("\n".join(rows) + "\n", encoding="utf-8")
    output = run_day(tmp_path / "day.html", tmp_path)
    assert (output.status, output.errors) == (0, "")
    assert "NOT DONE" not in output.text


@pytest.mark.parametrize("table, old, new, reported", [
    ("orders", "16.4 mm,12.5 mm,2.6 mm,29.8 mm,38 mm,31.5 mm\n103", "16.4 mm,17 mm,2.6 mm,29.8 mm,38 mm,31.5 mm\n103",
     'column "stem bore" (I6): "17 mm": stem bore'),
    ("orders", "2.4 mm,25.6 mm,34 mm,27.0 mm\n102", "2.4 mm,17 mm,34 mm,27.0 mm\n102",
     'column "ferrule outside" (K5): "17 mm": ferrule bore'),
    ("orders", "103,forwarder", "101,forwarder", 'column "order" (A7): "101": the number stands in the table already'),
    ("published", "27.30 mm,0.20", "27.30,0.20", 'published.csv, line 4, column "crimp diameter" (C4): "27.30"'),
    ("published", "27.30 mm,0.20", "27.30 mm,-0.20", 'published.csv, line 4, column "tolerance" (D4): "-0.20 mm"'),
    ("published", "D,D1", "B,B1", 'column "coupling" (B5): "B1": the name stands in the table already'),
    ("published", "27.30 mm,0.20", "0 mm,0.20", 'column "crimp diameter" (C4): "0 mm": zero is no measurement'),
    ("dies", "6,22 mm,-", "6,22 mm,0 mm", 'dies.csv, line 9, column "reach" (C9): "0 mm": zero is no measurement'),
    ("dies", "6,", "7,", 'column "die" (A10): "7": the name stands in the table already'),
    ("gauges", "caliper 2,", "caliper 1,", 'column "gauge" (A5): "caliper 1": the name stands in the table already'),
    ("crimps", "103,1,1,0 deg", "103,1,99,0 deg", 'column "piece" (B45): "1": the section of a reading is not'),
    ("dies", "6,22 mm", "6,22", 'dies.csv, line 9, column "size" (B9): "22"'),
    ("dies", "6,22 mm,-", "6,22 mm,-1 mm", 'dies.csv, line 9, column "reach" (C9): "-1 mm": die reach'),
    ("gauges", "caliper 2,0.001 in,", "caliper 2,0.001,", 'gauges.csv, line 5, column "standard uncertainty" (B5)'),
    ("crimps", "103,1,1,0 deg", "999,1,1,0 deg", 'column "order" (A45): "999": no order with this number was planned'),
    ("crimps", "103,1,1,0 deg", "103,1,1,0", 'column "angle" (D45): "0": a number without a unit'),
])
def test_other_trouble_is_reported(tmp_path, table, old, new, reported):
    copy_data(tmp_path, **{table: (old, new)})
    output = run_day(tmp_path / "day.html", tmp_path)
    assert output.status == 1
    assert any(reported in text for text in read_day(output.text)[1]), read_day(output.text)[1]


def test_an_order_is_never_computed_without_its_published_diameter(tmp_path):
    copy_data(tmp_path, published=("27.30 mm,0.20", "27.30,0.20"))
    sheets, not_done = read_day(run_day(tmp_path / "day.html", tmp_path).text)
    assert "102" not in sheets
    assert any("its published diameter cannot be read: published.csv, line 4" in text for text in not_done)


def test_a_piece_is_never_judged_with_an_unknown_gauge(tmp_path):
    copy_data(tmp_path, gauges=("caliper 2,0.001 in,", "caliper 2,0.001,"))
    sheets, _ = read_day(run_day(tmp_path / "day.html", tmp_path).text)
    assert sheets["103"].crimps[0][-1] == "NOT JUDGED: nothing is known of this gauge"


@pytest.mark.parametrize("table, old, new, reported", [
    ("press", "bench press,0.05 mm", "bench press,0.05", 'press.csv, line 4, column "graduation" (B4): "0.05"'),
    ("press", ",8,0", ",2,0", 'press.csv, line 4, column "segments" (G4): "2"'),
    ("measuring", "0.10 mm", "0.10", 'measuring.csv, line 5, column "standard uncertainty" (B5): "0.10"'),
    ("measuring", "hose outside", "hose inside", 'column "what" (A5): "hose inside": the name stands'),
    ("measuring", "hose outside", "hose wall", 'measuring.csv, line 5, column "what" (A5): "hose wall"'),
    ("orders", "order,machine", "order,truck", "orders.csv, line 4"),
])
def test_without_press_or_uncertainties_there_is_no_day(tmp_path, table, old, new, reported):
    copy_data(tmp_path, **{table: (old, new)})
    output = run_day(tmp_path / "day.html", tmp_path)
    assert (output.status, output.text) == (2, "")
    assert reported in output.errors
    assert not (tmp_path / "day.html").exists()


def test_an_open_quote_spoils_its_own_row_only(tmp_path):
    copy_data(tmp_path, orders=("102,harvester 2", '102,"harvester 2'))
    sheets, not_done = read_day(run_day(tmp_path / "day.html", tmp_path).text)
    assert "102" not in sheets and {"101", "103", "104", "105"} <= set(sheets)
    assert any(text.startswith("orders.csv, line 6,") and "the row has 2 cells" in text for text in not_done)


@pytest.mark.parametrize("before, after", [(b"\n", b"\r\n"), (b"# Invented", b"\xef\xbb\xbf# Invented")])
def test_line_ends_and_marks_of_other_systems_make_no_difference(tmp_path, day, before, after):
    copy_data(tmp_path)
    for table in tmp_path.glob("*.csv"):
        table.write_bytes(table.read_bytes().replace(before, after))
    output = run_day(tmp_path / "day.html", tmp_path)
    assert output.text.splitlines()[:-1] == day.text.splitlines()[:-1]



def test_a_page_that_cannot_be_written(tmp_path):
    output = run_day(tmp_path / "nowhere" / "day.html")
    assert output.status == 2 and output.errors.startswith("the page cannot be written")


def test_a_missing_table(tmp_path):
    copy_data(tmp_path)
    (tmp_path / "dies.csv").unlink()
    output = run_day(tmp_path / "day.html", tmp_path)
    assert output.status == 2 and output.errors.startswith('dies.csv: "dies.csv": the file cannot be read')


def test_text_is_at_most_100_wide(day):
    assert max(len(line) for line in day.text.splitlines()[:-1]) <= 100


# ---- the C example says the same ---------------------------------------------------------------------------

RACK = ("dies 8mm 10mm reach 3mm adapter 1 long 40mm dies 13mm reach 4mm adapter 1 long 45mm "
        "dies 16mm reach 5mm long 55mm dies 19mm long 55mm dies 22,25mm long 60mm dies 28mm long 65mm "
        "dies 31mm long 70mm dies 36mm long 75mm dies 41mm long 80mm dies 46mm long 90mm").split()
PRESS = ("dial 0.05mm -0.15mm 20mm opening 32mm segments 8 capacity 2000kN "
         "known 0.08mm 0.10mm 0.02mm 0.03mm 0.03mm 0.05mm").split()
WORDS = {
    "101": "hose 12.7mm 19.9mm stem 12.95mm 9.5mm ferrule 2.4mm 25.6mm 34mm widest 27mm "
           "stem-metal 206GPa 30% 400MPa squeeze 12MPa gauge 9.45mm",
    "102": "hose 16.1mm 23.3mm stem 16.4mm 12.5mm ferrule 2.6mm 29.8mm 38mm widest 31.5mm published 27.30mm 0.20mm "
           "ferrule-metal 206GPa 30% 280MPa stem-metal 206GPa 30% 400MPa restraint 100% squeeze 110bar gauge 12.45mm",
    "103": "hose 6.4mm 13.3mm stem 6.6mm 4.2mm ferrule 1.6mm 18.2mm 26mm widest 20.6mm",
    "104": "hose 19.1mm 26.9mm stem 19.3mm 15mm ferrule 2.6mm 33.4mm 42mm widest 35mm published 29.6mm 0.2mm mounted 1 "
           "ferrule-metal 206GPa 30% 240MPa 900MPa stem-metal 206GPa 30% 400MPa restraint 50% squeeze 14MPa gauge 15mm",
    "105": "hose 1-1/4in 1-3/4in stem 32mm 1.063in ferrule 0.126in 2-1/16in 48mm widest 2-1/4in "
           "ferrule-metal 195GPa 29% 250MPa stem-metal 105GPa 34% 200MPa restraint 100% squeeze 1300psi gauge 1.06in",
    "106": "hose 38.1mm 51mm stem 38.4mm 33mm ferrule 3.6mm 60.4mm 58mm widest 63mm "
           "ferrule-metal 206GPa 30% 240MPa 900MPa restraint 50%",
    "107": "hose 0.5in 0.783in stem 0.510in ferrule 0.094in widest 1.06in published 0.925in "
           "ferrule-metal 206GPa 30% 400MPa stem-metal 206GPa 30% 400MPa restraint 50% squeeze 12MPa",
}


@pytest.mark.parametrize("order", WORDS)
def test_the_c_example_agrees_to_the_last_digit(sheets, order):
    output = run_sheet(*WORDS[order].split(), *RACK, *PRESS)
    alone, day_sheet = read_sheet(output.text.splitlines()), sheets[order]
    names = set(alone.figures)
    wanted = {name: text for name, text in day_sheet.figures.items() if name in names}
    wanted["die"] = wanted["die"].split(", die")[0]
    assert alone.figures == wanted
    assert set(METAL) <= names
    assert len(names) >= 10
    assert alone.check_first == day_sheet.check_first
    assert set(alone.take_care) <= set(day_sheet.take_care)
    assert output.status == (1 if order == "106" else 0)
