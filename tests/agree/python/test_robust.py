# SPDX-License-Identifier: MIT
"""Nothing that is passed to the package crashes it or makes it leak."""
import ast
import gc
import inspect
import math
import pathlib
import pickle
import random
import resource
import sys

import pytest

import ferrule
from conftest import PACKAGE_PATH, PUBLIC

FUNCTIONS = [value for value in PUBLIC.values() if inspect.isbuiltin(value)]
VALUES = [value for value in PUBLIC.values() if isinstance(value, type) and
          not issubclass(value, (Exception, int))]
EXPECTED = (TypeError, ValueError, OverflowError, AttributeError)


class Odd:
    """Its own methods raise or give nonsense."""

    def __index__(self):
        return 10 ** 30

    def __float__(self):
        raise ValueError("odd")

    def __iter__(self):
        return iter([self, "1 mm"])

    def __repr__(self):
        raise RuntimeError("odd")

    def __hash__(self):
        return 3


def deep():
    nested = []
    for _ in range(10000):
        nested = [nested]
    return nested


class Chance(random.Random):
    """Arguments: many are right, so that calls come as far as the library."""

    plain = [None, True, False, 0, -1, 3, 8, 2 ** 31, 2 ** 63, 2 ** 64, -2 ** 63, 10 ** 5000, 0.5, math.nan, math.inf, -0.0, "",
             "1 mm", "20 %", "20", "x" * 5000, "\0", "1 mm\0", "\ud800", "wall", b"1 mm", 1j, (), [], {}, {"size": "1 mm"},
             {1: 2}, ("15 %", "25 %"), ["16 mm"] * 3, object(), Odd(), {Odd(): 1}, [Odd()], int, Ellipsis, iter(()),
             {"inside": "12.7 mm", "outside": "19.9 mm"}, float, "1e400 mm", "9" * 390 + " mm"]

    def __init__(self, seed):
        super().__init__(seed)
        joint = ferrule.Joint(("12.7 mm", "19.9 mm"), "13 mm", ("1.5 mm", "28 mm"))
        press = ferrule.Press(graduation="0.05 mm")
        self.values = [joint, press, ferrule.Die("19 mm"), ferrule.plan_setup(joint, press, ["19 mm"]), ferrule.Model(),
                       ferrule.Uncertainties("0.1 mm"), *joint.replace().__reduce__()[1], *ferrule.Basis, *ferrule.Flow]

    def argument(self):
        roll = self.random()
        if roll < 0.3:
            return self.choice(self.plain)
        if roll < 0.6:
            return self.choice(self.values)
        if roll < 0.85:
            unit = self.choice([ferrule.mm, ferrule.percent, ferrule.deg, ferrule.mpa, ferrule.newton])
            return unit(self.choice([0.0, -1.0, 12.7, 19.9, 1e300, 5e-324, math.nan, math.inf, self.gauss(20, 10)]))
        if roll < 0.95:
            return [self.argument() for _ in range(self.randrange(4))]
        return {self.choice(["hose", "inside", "size", "value", "status", "basis"]): self.argument()}


def attempt(call):
    try:
        result = call()
    except EXPECTED:
        return
    if type(result).__module__ == "ferrule":
        repr(result), hash(result), result == result


def test_any_arguments_to_any_function():
    chance = Chance(20)
    calls = 0
    for round_ in range(400):
        for function in FUNCTIONS:
            count = len(inspect.signature(function).parameters) if round_ == 0 else chance.randrange(6)
            arguments = [chance.argument() for _ in range(count)]
            attempt(lambda: function(*arguments))
            calls += 1
    assert calls == 400 * len(FUNCTIONS)


def test_any_arguments_to_any_type():
    chance = Chance(21)
    for _ in range(300):
        for type_ in VALUES:
            names = getattr(type_, "__match_args__", ("mm", "percent", "bar"))
            keywords = {chance.choice([*names, "nonsense"]): chance.argument() for _ in range(chance.randrange(4))}
            arguments = [chance.argument() for _ in range(chance.choice([0, 0, 1, 2, len(names)]))]
            attempt(lambda: type_(*arguments, **keywords))
            attempt(lambda: type_.__new__(type_, *arguments))
            attempt(lambda: chance.choice(chance.values).replace(**keywords))
            attempt(lambda: chance.argument() + chance.argument())
            attempt(lambda: format(ferrule.mm(41), chance.choice(["", ".2f in", ".2", ">10", "mm", "\0"])))


class Sample:
    """Right arguments for every function, made from what the stub says about types."""

    def __init__(self):
        tree = ast.parse(pathlib.Path(PACKAGE_PATH, "ferrule", "__init__.pyi").read_text())
        self.functions = {f.name: f for f in tree.body if isinstance(f, ast.FunctionDef)}
        self.makers = {c.name: f for c in tree.body if isinstance(c, ast.ClassDef) for f in c.body
                       if isinstance(f, ast.FunctionDef) and f.name == "__new__" and not f.decorator_list}
        joint = ferrule.Joint(("12.7 mm", "19.9 mm", "2 mm"), ("13 mm", "8 mm"), ("1.5 mm", "28 mm", "30 mm"))
        self.known = {"int": 8, "float": 0.5, "str": "1 mm", "bool": True, "Joint": joint, "Hose": joint.hose, "Stem": joint.stem,
                      "Ferrule": joint.ferrule, "Length": ferrule.mm(22), "Ratio": ferrule.percent(20),
                      "RatioRange": ferrule.RatioRange("15 %", "25 %"), "LengthRange": ferrule.LengthRange("20 mm", "25 mm")}

        self.lengths = {"word": 4, "classes": ferrule.TALLY_CLASSES}  # of members that are arrays; lists have five items

    def of(self, annotation, length=5):
        name = ast.unparse(annotation).split(" | ")[0]
        while isinstance(annotation, ast.BinOp):
            annotation = annotation.left
        if name.startswith("Iterable["):
            return [self.of(annotation.slice)] * length
        if name in self.known:
            return self.known[name]
        type_ = getattr(ferrule, name)
        if issubclass(type_, int):
            return next(iter(type_))
        if name not in self.makers:
            return type_(**{next(n for n, v in vars(type_).items() if inspect.isgetsetdescriptor(v)): 1.0})
        return type_(**self.arguments(self.makers[name]))

    def arguments(self, function):
        return {a.arg: self.of(a.annotation, self.lengths.get(a.arg, 5)) for a in function.args.args if a.arg != "cls"}


def test_right_arguments_are_taken_by_every_function_and_type():
    sample, done = Sample(), 0
    assert set(sample.functions) == {f.__name__ for f in FUNCTIONS}
    for name, function in sample.functions.items():
        arguments = sample.arguments(function)
        try:
            assert (getattr(ferrule, name)(**arguments) is None) == (ast.unparse(function.returns) == "None")
            done += 1
        except ferrule.Error as error:
            assert error.function == name and error.code != 0
    assert done > len(FUNCTIONS) / 2
    for name, maker in sample.makers.items():
        value = getattr(ferrule, name)(**sample.arguments(maker))
        assert eval(repr(value), vars(ferrule)) == value == pickle.loads(pickle.dumps(value))
        assert type(value)(**value.to_dict()) == value
        assert value._repr_html_().startswith(("<table>", "<div"))


def test_deep_nesting():
    for call in (lambda: ferrule.check_joint(deep()), lambda: ferrule.choose_die(deep(), "1 mm"),
                 lambda: ferrule.choose_die(["-1 mm"], deep())):
        with pytest.raises(TypeError):
            call()


def work(joint, setup):
    """Successful and failing calls of every sort."""
    for call in (lambda: ferrule.crimp_diameter(joint, "20 %"), lambda: ferrule.crimp_diameter(joint, 20),
                 lambda: ferrule.crimp_diameter(joint, "999 %"), lambda: ferrule.crimp_diameter(joint, "20"),
                 lambda: ferrule.choose_die(["16 mm", "19 mm"], "20 mm"), lambda: ferrule.choose_die(["16 mm", 19], "20 mm"),
                 lambda: ferrule.choose_die(["16 mm", "-19 mm"], "20 mm"), lambda: ferrule.choose_die(["16 mm"], 20),
                 lambda: ferrule.find_coverage_gaps(["16 mm"], ("10 mm", "60 mm")),
                 lambda: ferrule.find_coverage_gaps(["16 mm"], ("60 mm", "10 mm")),
                 lambda: ferrule.best_target(joint, {"hose_inside": "0.1 mm"}, ("15 %", "25 %")),
                 lambda: ferrule.Hose("1 mm"), lambda: ferrule.Hose(x="1 mm"), lambda: joint.replace(hose={"inside": "3 mm"}),
                 lambda: setup.to_dict(), lambda: repr(setup), lambda: hash(setup), lambda: setup.remarks, lambda: setup.shares,
                 lambda: setup.replace(remarks=["NO_DIE"]), lambda: setup.replace(remarks=["x"]), lambda: setup.__reduce__(),
                 lambda: ferrule.Setup(**setup.to_dict()), lambda: ferrule.mm(3) + ferrule.mm(4) * 2 / 3, lambda: ferrule.mm(3) * "3",
                 lambda: f"{ferrule.mm(3):.2f in}", lambda: format(ferrule.mm(3), "bar"), lambda: ferrule.Length(bar=3),
                 lambda: ferrule.Length(mm=3).inch, lambda: setattr(joint, "hose", 3), lambda: ferrule.Model(basis="area").basis,
                 lambda: ferrule.Remark.NO_DIE.sentence, lambda: ferrule.check_joint(joint.replace(hose={"outside": "1 mm"})),
                 lambda: ferrule.crimp_diameter(joint, compresion=3), lambda: ferrule.remark_sentence("no die")):
        try:
            call()
        except EXPECTED:
            pass


def test_nothing_leaks(joint, setup):
    def state():
        gc.collect()
        return sys.getallocatedblocks(), resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    for _ in range(1000):
        work(joint, setup)
    blocks, memory = state()
    things = [value for value in PUBLIC.values() if inspect.isbuiltin(value) or isinstance(value, type)]
    things += [*ferrule.Status, *ferrule.Remark, *ferrule.Basis]
    counted = [sys.getrefcount(thing) for thing in things]
    grown_blocks, grown_memory = [], []
    for _ in range(3):  # what was imported before may make caches meanwhile, but not each time
        for _ in range(1000):
            work(joint, setup)  # 35 calls: 10**5 in all
        more_blocks, more_memory = state()
        grown_blocks.append(more_blocks - blocks)
        grown_memory.append(more_memory - memory)
        blocks, memory = more_blocks, more_memory
    assert min(map(abs, grown_blocks)) < 200
    assert min(grown_memory) < 2000  # kB
    grown = [sys.getrefcount(thing) - count for thing, count in zip(things, counted)]
    assert max(grown) < 50 and min(grown) > -50
