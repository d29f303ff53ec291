# SPDX-License-Identifier: MIT
"""Calls each function just inside and just outside of each range that api.json has, and looks at the status.

Usage: test_ranges.py SHARED_LIBRARY

Everything about the functions comes from api.json; here stands only one joint with its press and its readings, from which each
call is changed in one number. Outside of a range, the status has to be one that the function's comment names and that is
about this number; inside, it must not say that the number is out of its range. A quantity that has to be given and cannot be 0 was
not given where it is 0, and the status says that.
"""
import copy
import ctypes
import json
import math
import pathlib
import re
import sys

API = json.loads((pathlib.Path(__file__).resolve().parents[3] / "bindings" / "api" / "api.json").read_text(encoding="utf-8"))
NUMBERS = {"double": ctypes.c_double, "int": ctypes.c_int, "size_t": ctypes.c_size_t, "uint64_t": ctypes.c_uint64,
           "int64_t": ctypes.c_int64, "uint32_t": ctypes.c_uint32}
QUANTITIES = {q["name"]: q["member"]["name"] for q in API["quantities"]}
STRUCTS = {s["name"]: s for s in API["structs"]}
FUNCTIONS = {f["name"]: f for f in API["functions"]}
STATUSES = next({w["name"]: w for w in e["words"]} for e in API["enums"] if e["name"] == "fer_status")
NAMES = {w["number"]: name for name, w in STATUSES.items()}

# ---- one joint, one press, and what is measured on it; invented, in base units -----------------------------------

MATERIAL = {"elastic_modulus": 210000.0, "poisson": 0.3, "yield_strength": 300.0, "hardening": 500.0}
UNCERTAINTY = {"amount": 0.02}
MEASUREMENTS = ("hose_inside", "hose_outside", "stem_outside", "ferrule_wall", "ferrule_outside", "diameter")
GIVEN = {
    "fer_hose": {"inside": 12.7, "outside": 19.9, "reinforcement": 1.5},
    "fer_stem": {"outside": 13.0, "bore": 9.0},
    "fer_ferrule": {"wall": 2.4, "outside": 28.0, "length": 30.0},
    "fer_material": MATERIAL,
    "fer_forming_load": {"restraint": 1.0, "hose_pressure": 5.0},
    "fer_uncertainties": {name: UNCERTAINTY for name in MEASUREMENTS},
    "fer_die": {"size": 22.5, "reach": 7.0, "adapter": 1, "length": 40.0},
    "fer_die_needs": {"adapter_mounted": 1, "ferrule_length": 30.0},
    "fer_press": {"graduation": 0.01, "correction": 0.05, "dial_maximum": 20.0, "opening": 30.0, "capacity": 1e6, "segments": 8},
    "fer_order": {"tolerance": 0.1, "range": {"lower": 0.15, "upper": 0.25}, "aim": 0.2, "widest": 30.0, "minimum_bore": 8.0},
    "fer_trials": {"seed": 1, "blocks": 1, "coverage": 0.95},
    "fer_gauge": {"standard_uncertainty": 0.005, "correction": 0.0, "resolution": 0.01},
    "fer_marks": {"gap": 0.1, "gap_known": 1, "gap_half_width": 0.02, "segments": 8},
    "fer_guard": {"factor": 1.65},
    "fer_process": {"mean": 23.6, "standard_deviation": 0.02},
    "fer_adjusting": {"crimp_deviation": 0.03, "setting_deviation": 0.1, "gain": 1.0, "asked": 0.95},
    "fer_length_range": {"lower": 23.5, "upper": 23.7},
    "fer_ratio_range": {"lower": 0.15, "upper": 0.25},
    "fer_piece": {"diameter": 23.7, "standard_uncertainty": 0.01},
    "fer_prior": {"cause": 2, "weight": 1.0},
    "fer_plan": {"pieces": 10000, "accept": 1},
    "fer_plan_aim": {"good": 0.01, "bad": 0.1},
    "fer_measured_plan": {"pieces": 20, "factor": 1.5, "deviation_known": 1},
    "fer_burst_aim": {"working": 25.0},
    "fer_batch_question": {"lot": 100, "measuring": {"repeatability": 0.001},
                           "charting": {"deviation": 0.03, "beyond": 3.5, "allowance": 0.5, "decision": 5.0}},
    "fer_wanted": {"limits": {"lower": 23.4, "upper": 23.6}, "target": 23.5},
    "fer_study_settings": {"resolution": 0.01},
    "fer_sample_piece": {"diameter": 23.5},
    "fer_charting": {"deviation": 0.03},
    "fer_limit_rule": {"false_alarms": 0.01, "assurance": 0.9},
    "fer_chart_figures": {"mean": 23.5, "scatter": 0.03, "groups": 20, "pieces": 5},
    "fer_closing": {"force": 150e3, "diameter": 25.6, "before": 24.0, "after": 25.2},
    "fer_hose_end": {"cut_off": 27.5, "growth": 0.5},
    "fer_point": {"x": 100.0, "y": 100.0, "z": 100.0},
    "fer_ratings": {"hose": 27.5, "first": 35.0, "second": 35.0, "asked": 20.0, "allowed": 100.0},
    "fer_proof_factors": {"proof_pressure": 2.0, "burst": 4.0},
    "fer_holding": {"pressure": 55.0, "stem_outside": 12.95, "hose_inside": 12.7, "length": 34.0, "squeeze": 12.0, "ferrule_bore": 18.71,
                    "ferrule_fixed": 1, "friction": 0.25, "ferrule_outside": 23.51, "yield_strength": 280.0},
    "fer_look": {"kind": 3, "compression": 0.2, "standard_uncertainty": 0.02},
}
LISTS = {
    "fer_die": [{}, {"size": 20.0}, {"size": 18.0}],
    "fer_demand": [{"target": 23.0, "weight": 2.0}, {"target": 19.0}],
    "fer_offer": [{"die": {"size": 21.0}, "price": 2.0}, {"die": {"size": 18.0, "reach": 7.0}, "price": 3.0}],
    "fer_job": [{"target": 23.0, "work_seconds": 60}, {"target": 19.0, "reel": 1}],
    "fer_adapter_offer": [{"adapter": 3, "price": 1.0}],
    "fer_length_row": [{"bore_maximum": 25.0, "length_maximum": 20.0, "plus": 7.0, "minus": 3.0},
                       {"bore_maximum": 25.0, "length_maximum": 1250.0, "plus": 7.0, "minus": 3.0}],
    "fer_point": [{"x": 0.0, "y": 0.0, "z": 0.0}, {"x": 500.0, "y": 0.0, "z": 0.0}, {"x": 500.0, "y": 600.0, "z": 10.0}],
    "fer_reading": [{"diameter": 23.6 + 0.01 * math.sin(2.9 * k), "section": k % 2, "angle": 0.27 * k, "angle_known": 1} for k in range(12)],
    "fer_trial": [{"setting": 1.2 + 0.1 * k, "diameter": 23.7 + 0.1 * k} for k in range(3)],
    "fer_calibration_point": [{"set": 20.0 + k, "measured": 20.1 + k + 0.01 * (k % 2), "standard_uncertainty": 0.01} for k in range(5)],
    "fer_drift_point": [{"day": 10 * k, "deviation": 0.01 * k + 0.002 * (k % 2)} for k in range(5)],
    "fer_length": [23.6, 21.0],
    "fer_confirmation": [{"remark": 27, "target": 23.6, "die": 22.0}],
    "fer_sample_piece": [{"diameter": 23.5 + 0.01 * math.sin(2.9 * k)} for k in range(8)],
    "fer_study_reading": [{"part": k // 4, "person": k // 2 % 2, "diameter": 23.5 + 0.1 * (k // 4) + 0.01 * (k % 3)} for k in range(8)],
    "fer_block_reading": [{"block": 10.0 * (1 + k % 2), "reading": 10.0 * (1 + k % 2) + 0.01 * (k % 3)} for k in range(6)],
    "fer_plan_stage": [{"accept": -1, "refuse": 2}, {"accept": 0, "refuse": 2}, {"accept": 1, "refuse": 2}],
    "fer_burst": [{"pressure": 110.0 + 3.0 * math.sin(2.9 * k)} for k in range(6)],
    "fer_opinion": [{"piece": (k + 1) // 2, "person": k % 2, "said": 1 + k % 2, "truth": 1} for k in range(8)],
}
ARGUMENTS = {
    "compression": 0.2, "diameter": 23.6, "crimp_diameter": 24.0, "die_size": 22.5, "segments": 8, "angle": 0.1, "height": 0.01, "wall": 2.4,
    "share": 0.5, "coverage": 0.95, "target": 23.6, "setting": 1.15, "widest": 30.0, "force": 1e5, "number": 17, "key": 3, "digits": 1,
    "probability": 0.4, "value": 23.6, "standard_uncertainty": 0.005, "cost_too_loose": 1.0, "cost_too_tight": 2.0, "anchor": 22.45,
    "graduation": 0.01, "reduction": 0.1, "gauge": 8.0, "inside": 20.0, "outside": 28.0, "inner_pressure": 5.0, "outer_pressure": 20.0,
    "pressure": 100.0, "length": 30.0, "set": 22.0, "trials": 3, "today": 50, "limit": 0.2,
    "confidence": 0.9, "content": 0.9, "count": 20, "pieces": 20.0, "index": 1.0, "expected": 2.0, "power": 0.8, "further": 10, "tolerance": 0.2,
    "bias": 0.001, "consumer": 0.001, "groups": 20, "run_length": 370.0, "shift": 1.0,
    "bias": 0.001, "consumer": 0.001, "bad": 0.05, "share": 0.9, "lot": 0, "deviation": 0.03, "mean": 140.0, "variation": 0.05, "raised": 1.1,
    "shape": 10.0, "overall": 1250.0, "cut": 1190.0, "shortest": 600.0, "bore": 12.0, "bend_radius": 180.0, "hose_outside": 23.1, "offset": 200.0,
    "stroke": 800.0, "straight": 50.0, "made": 1.5, "needed": 1.0, "seal_diameter": 12.95, "measured": 1.1,
}
# What a function needs otherwise.
HALF_WIDTHS = {name: UNCERTAINTY | {"distribution": 1} for name in MEASUREMENTS}
SPECIAL = {
    "fer_worst_case": {"uncertainties": HALF_WIDTHS},
    "fer_confirm_remark": {"remark": 27},
    "fer_find_chart_constants": {"pieces": 5},
    "fer_find_chart_limits": {"chart": 2},
    "fer_find_run_length": {"charting": {"weight": 0.2, "limit": 2.8}},
    "fer_find_charting_limit": {"charting": {"weight": 0.2}},
    "fer_find_coverage_gaps": {"over": {"lower": 20.0, "upper": 40.0}},
    "fer_find_risks": {"process": {"mean": 23.6, "standard_deviation": 0.05}},
    "fer_curtail_plan": {"plan": {"pieces": 400, "accept": 1}},
    "fer_find_hose_pressure": {"bare": {"force": 110e3, "diameter": 25.6, "before": 24.0, "after": 25.2}},
    "fer_hose_pressure_from_bore": {"reduction": 0.002},
    "fer_find_restraint": {"hose_pressure": 5.0},
    "fer_check_assembly_length": {"measured": 23.6},
    "fer_simulate_to_digits": {"trials": {"blocks": 4, "coverage": 0.95}},
}
# Whose statuses are those of another function, in its list of faults.
SAME_RULES = {"fer_check_order": "fer_plan_setup"}
# Places with a rule of their own besides their range, which their comments state.
OWN_RULES = {
    "fer_find_rack_curve aim.rank": "a curve has the best racks only",
    "fer_choose_rack aim.rank": "1 where adapter sets are on offer, and no more than there are racks",
    "fer_find_stages_risk stages.0.accept": "below refuse",
    "fer_find_stages_risk stages.0.refuse": "above accept of the stage and of those before it",
    "fer_choose_measured_plan aim.good": "a good share of 0 does not do",
    "fer_choose_plan aim.bad": "a share of 0 is a number, not a gap",
    "fer_choose_measured_plan aim.bad": "a share of 0 is a number, not a gap",
    "fer_find_measured_acceptance bad": "a share of 0 is a number, not a gap",
    "fer_choose_stages aim.good": "a good share of 0 does not do",
    "fer_choose_stages aim.bad": "a share of 0 is a number, not a gap",
    "fer_curtail_plan plan.accept": "below pieces",
    **{f"{name} {one}": "together they say how much longer the ferrule became" for name, closing in (
        ("fer_find_effective_yield_strength", "bare"), ("fer_find_hose_pressure", "bare"), ("fer_find_hose_pressure", "closing"),
        ("fer_find_restraint", "closing")) for one in (f"{closing}.before", f"{closing}.after", f"{closing}.force")},
    **{f"fer_find_hose_pressure material.{one}": "not looked at where a bare closing is given" for one in ("yield_strength", "hardening")},
    "fer_judge_batch question.lot": "not below the number of pieces measured",
    "fer_judge_batch question.burst_aim.working": "left out with the whole aim: no bursts are asked for",
}
# A range's end that would take a machine's lifetime to try.
ENDLESS = re.compile(r"fer_simulate_\w+ trials\.blocks")


# ---- values -----------------------------------------------------------------------------------------------------

def bare(type_):
    return type_.removeprefix("const ").removesuffix(" *")


def given(type_, changes=None):
    """A value as plain Python: a number, or a dict of the members."""
    if type_ not in STRUCTS:
        return changes if changes is not None else 0
    own = GIVEN.get(type_, {}) | (changes or {})
    found = {}
    for m in STRUCTS[type_]["members"]:
        one = given(m["type"], own.get(m["name"]))
        found[m["name"]] = [one] * int(m["array"]) if "array" in m else one
    return found


CLASSES = {}


def c_type(type_):
    if type_ in NUMBERS:
        return NUMBERS[type_]
    if type_ not in CLASSES:
        if type_ in QUANTITIES:
            fields = [(QUANTITIES[type_], ctypes.c_double)]
        elif type_ in STRUCTS:
            fields = [(m["name"], c_type(m["type"]) * int(m["array"]) if "array" in m else c_type(m["type"])) for m in STRUCTS[type_]["members"]]
        else:
            return ctypes.c_int  # an enum
        CLASSES[type_] = type(type_, (ctypes.Structure,), {"_fields_": fields})
    return CLASSES[type_]


def c_value(type_, value):
    if isinstance(value, ctypes.Structure):
        return value
    if type_ in STRUCTS:
        return c_type(type_)(*((c_type(m["type"]) * int(m["array"]))(*(c_value(m["type"], v) for v in value[m["name"]])) if "array" in m
                               else c_value(m["type"], value[m["name"]]) for m in STRUCTS[type_]["members"]))
    return c_type(type_)(value)


# ---- calls ------------------------------------------------------------------------------------------------------

class Library:
    def __init__(self, path):
        self.c = ctypes.CDLL(path)
        self.made = {}

    def arguments(self, f):
        """The arguments of a call that succeeds."""
        special, found = SPECIAL.get(f["name"], {}), {}
        for p in f["parameters"]:
            base, name = bare(p["type"]), p["name"]
            if "from" in p and p["from"]["function"] == f["name"]:
                found[name] = c_type(base)()  # what it gave before: at first nothing
            elif "from" in p:
                found[name] = self.result(p["from"]["function"], base)
            elif p["role"] == "list":
                found[name] = [given(base, changes) for changes in LISTS.get(base, [None])]
            elif p["role"] in ("value", "input"):
                found[name] = given(base, special.get(name, None if base in STRUCTS else ARGUMENTS.get(name)))
        return found

    def result(self, name, base):
        """What a function gives for its own arguments."""
        if name not in self.made:
            f = FUNCTIONS[name]
            status, results = self.call(f, self.arguments(f))
            assert status == "FER_OK", f"{name}: {status}"
            self.made[name] = results
        return next(r for r in self.made[name] if isinstance(r, c_type(base)))

    def call(self, f, values):
        words, results, keep = [], [], []
        for p in f["parameters"]:
            base, role = bare(p["type"]), p["role"]
            if role == "value":
                words.append(c_value(base, values[p["name"]]))
            elif role == "input":
                keep.append(c_value(base, values[p["name"]]))
                words.append(ctypes.byref(keep[-1]))
            elif role == "list":
                items = values[p["name"]]
                keep.append((c_type(base) * len(items))(*(c_value(base, item) for item in items)))
                words += [keep[-1], ctypes.c_size_t(len(items))]
            elif role == "work":
                keep.append((ctypes.c_double * 65536)())
                words += [keep[-1], ctypes.c_size_t(65536)]
            elif role == "results":
                keep.append((c_type(base) * 1024)())
                number = ctypes.c_size_t()
                words += [keep[-1], ctypes.c_size_t(1024), ctypes.byref(number)]
            elif role == "result":
                results.append(c_type(base)())
                words.append(ctypes.byref(results[-1]))
        said = NAMES[getattr(self.c, f["name"])(*words)]
        return (self.first_fault(f, words) if said == "FER_OK" else said), results

    def first_fault(self, f, words):
        """What a function that lists faults says of its arguments: it succeeds, and the status stands in the list."""
        places = [i for i, p in enumerate(f["parameters"]) if bare(p["type"]) == "fer_fault"]
        found = words[-1]._obj.value if places else 0
        return NAMES[words[places[0]][0].status] if found else "FER_OK"


# ---- what is tried ----------------------------------------------------------------------------------------------

class Place:
    """A number among the arguments: the way to it, the structs and members on it, its range."""

    def __init__(self, f, way, chain, type_, said, unused):
        self.f, self.way, self.chain, self.type, self.said, self.unused = f, way, chain, type_, said, unused
        self.is_whole = type_ in NUMBERS and type_ != "double"

    def name(self):
        return f"{self.f['name']} {'.'.join(str(step) for step in self.way)}"

    def get(self, values, steps=None):
        for step in self.way[:steps]:
            values = values[step]
        return values

    def put(self, values, number):
        values = copy.deepcopy(values)
        self.get(values, -1)[self.way[-1]] = number
        return values

    def is_about(self, about):
        if "." in about:
            return tuple(about.split(".")) in self.chain
        return about == self.way[0] or any(about == struct for struct, _ in self.chain)

    def figure(self, text, values):
        """An end of a range; names are those of members beside it, of those further out, or of arguments."""
        def value(match):
            path = match[0].split(".")
            if path[0] in ("pi", "sin"):
                return f"math.{path[0]}"
            for depth in range(len(self.way) - 1, -1, -1):
                found = self.get(values, depth)
                try:
                    for step in path:
                        found = found[step]
                except (KeyError, TypeError, IndexError):
                    continue
                if path[0] in self.unused:
                    break
                return repr(float(found))
            raise LookupError
        return eval(re.sub(r"[a-z_]+(?:\.[a-z_]+)*", value, text), {"math": math})  # only numbers, signs and these two are left

    def ends(self, values):
        """(just inside or None, just outside or None) of each end."""
        said = self.said.get("range", {})
        for key, sign in (("lower", -1.0), ("upper", 1.0)):
            if key in said:
                yield self.end(said[key], sign, values)
        for key, sign in (("above", -1.0), ("below", 1.0)):
            if key in self.said:
                yield self.end({"at": self.said[key], "open": True}, sign, values)
        if not self.is_whole:
            yield None, math.nan
            for key, infinity in (("lower", -math.inf), ("upper", math.inf)):
                if key not in said:
                    yield None, infinity

    def end(self, end, sign, values):
        is_open = end.get("open", False)
        if isinstance(end["at"], str):
            try:
                at = self.figure(end["at"], values)
            except LookupError:
                return None, None  # the other member is not at hand here
            step = (lambda x, direction: x + math.copysign(1e-9 * max(abs(x), 1.0), direction)) if not self.is_whole else (lambda x, d: int(x + d))
            inside, outside = (step(at, -sign), step(at, sign)) if is_open else (at if self.is_whole else step(at, -sign), step(at, sign))
        elif self.is_whole:
            at = end["at"]
            inside, outside = (at - int(sign), at) if is_open else (at, at + int(sign))
        else:
            at = float(end["at"])
            beside = lambda direction: math.nextafter(at, direction * math.inf)
            inside, outside = (beside(-sign), at) if is_open else (at, beside(sign))
        if outside == 0 and "optional" in self.said:
            outside = -1 if self.is_whole else -5e-324
        if self.is_whole:
            bits, signed = 8 * ctypes.sizeof(NUMBERS[self.type]), self.type in ("int", "int64_t")
            lower, upper = (-2 ** (bits - 1), 2 ** (bits - 1) - 1) if signed else (0, 2 ** bits - 1)
            inside, outside = int(inside), int(outside) if lower <= outside <= upper else None
        return inside, outside


def places(f):
    """Every number that a function takes, with the range that counts for it."""
    def inner(type_, way, chain, said, unused):
        if type_ in QUANTITIES or type_ in NUMBERS:
            if "flag" not in said:
                yield Place(f, way, chain, type_, said, unused)
            return
        for m in STRUCTS.get(type_, {"members": []})["members"]:
            if not chain and m["name"] in unused:
                continue
            own = m if "range" in m or "range" not in said else m | {k: said[k] for k in ("range", "optional") if k in said}
            tail = (m["name"], 0) if "array" in m else (m["name"],)
            yield from inner(m["type"], way + tail, chain + [(type_.removeprefix("fer_"), m["name"])], own, unused)
    for p in f["parameters"]:
        if p["role"] in ("value", "input", "list") and "from" not in p:
            way = (p["name"], 0) if p["role"] == "list" else (p["name"],)
            yield from inner(bare(p["type"]), way, [], p, p.get("unused", []))


def allowed(name, seen):
    """The statuses that a comment names, with those of the functions that it refers to."""
    if name in seen or name not in FUNCTIONS:
        return set()
    seen.add(name)
    statuses = FUNCTIONS[name].get("statuses", [])
    return {s["name"] for s in statuses}.union(*(allowed(other, seen) for s in statuses for other in re.findall(r"(fer_\w+)\(\)", s["text"])))


def complaints(library, f):
    values = library.arguments(f)
    status, _ = library.call(f, values)
    if status != "FER_OK":
        yield f"{f['name']}: the call to begin with gives {status}"
        return
    statuses = allowed(SAME_RULES.get(f["name"], f["name"]), set())
    for place in places(f):
        about = {name for name in statuses if any(place.is_about(a) for a in STATUSES[name].get("about", []))}
        yield from complaints_at_zero(library, f, place, values, about)
        for inside, outside in place.ends(values):
            if outside is not None and not (place.name() in OWN_RULES and OWN_RULES[place.name()].startswith("not looked at")):
                said, _ = library.call(f, place.put(values, outside))
                COUNT[0] += 1
                if said not in about and not about:
                    yield (f"{place.name()} = {outside!r} gives {said}: no status that its comment names is about that; its row in FER_STATUS_LIST "
                           "(status.h) names the arguments at fault: add this one there, or rename the argument")
                elif said not in about:
                    yield f"{place.name()} = {outside!r}, outside of '{place.said.get('range', {}).get('text')}', gives {said}, not one of {sorted(about)}"
            if inside is not None and not ENDLESS.fullmatch(place.name()):
                said, _ = library.call(f, place.put(values, inside))
                COUNT[0] += 1
                if said in about and re.search("_OUT_OF_RANGE$|_NOT_A_NUMBER$", said) and place.name() not in OWN_RULES:
                    yield f"{place.name()} = {inside!r}, inside of '{place.said.get('range', {}).get('text')}', gives {said}"


def complaints_at_zero(library, f, place, values, about):
    lower = place.said.get("range", {}).get("lower", {})
    if place.type not in QUANTITIES or "optional" in place.said or isinstance(lower.get("at"), str) or not lower.get("at", 0) > 0:
        return
    if place.name() in OWN_RULES:
        return
    COUNT[0] += 1
    said, _ = library.call(f, place.put(values, 0.0))
    if said not in about or not said.endswith("_MISSING"):
        yield f"{place.name()} = 0 gives {said}, and it was not given: a status _MISSING that is about it says so"


def try_check(library):
    """A range that is too wide, one that is too narrow and a status that is about something else are found."""
    graduation = STRUCTS["fer_press"]["members"][0]
    right, about = graduation["range"], STATUSES["FER_PRESS_GRADUATION_OUT_OF_RANGE"]
    for wrong in ({"lower": {"at": 0.00005}}, {"lower": {"at": 0.0002}}, {"upper": {"at": 10.5}}, {"upper": {"at": 9.5}}):
        graduation["range"] = right | wrong
        assert any(complaints(library, FUNCTIONS["fer_check_press"])), wrong
    graduation["range"] = right
    said, about["about"] = about["about"], ["press.opening"]
    assert any(complaints(library, FUNCTIONS["fer_check_press"]))
    about["about"] = said
    about = STATUSES["FER_DIE_SIZE_MISSING"]
    said, about["about"] = about["about"], ["die.reach"]
    assert any(complaints(library, FUNCTIONS["fer_choose_die"]))
    about["about"] = said
    assert not any(complaints(library, FUNCTIONS["fer_check_press"]))


COUNT = [0]


def main():
    library = Library(sys.argv[1])
    tried = [f for f in API["functions"] if f["returns"] == "fer_status" and "inline" not in f
             and not re.match("fer_(parse|format)_", f["name"])]
    found = [complaint for f in tried for complaint in complaints(library, f)]
    if not found:
        try_check(library)
    print(f"{COUNT[0]} calls of {len(tried)} functions")
    sys.exit("\n".join(found) if found else 0)


main()
