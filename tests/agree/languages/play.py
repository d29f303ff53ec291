# SPDX-License-Identifier: MIT
"""The Python package as check_language.py asks: rows, bad, failing COUNT, speed COUNT, functions. Its own tests are in tests/agree/python."""
import pathlib
import struct
import sys
import time

sys.path[:0] = [str(pathlib.Path(__file__).resolve().parents[1] / "python")]
import ferrule as f  # noqa: E402
import test_decisions  # noqa: E402
import test_vectors  # noqa: E402

JOINT = {"hose": {"inside": "12.7 mm", "outside": "19.9 mm"}, "stem": "12.95 mm",
         "ferrule": {"wall": "2.4 mm", "outside": "25.6 mm"}}
BASES = {"Length": "mm", "Area": "mm2", "Force": "newton", "Pressure": "mpa", "Angle": "rad", "Ratio": "fraction",
         "Temperature": "celsius", "PerLength": "per_mm"}
BAD = {
    "bare_number": lambda: f.crimp_diameter(JOINT, 20),
    "missing_unit": lambda: f.crimp_diameter(JOINT, "20"),
    "other_kind": lambda: f.crimp_diameter(JOINT, f.mm(12.7)),
    "other_kind_text": lambda: f.crimp_diameter(JOINT, "12.7 mm"),
    "nan": lambda: f.crimp_diameter(JOINT, f.fraction(float("nan"))),
    "empty_list": lambda: f.summarise_readings([], {}),
    "empty_text": lambda: f.crimp_diameter(JOINT, ""),
    "long_text": lambda: f.crimp_diameter(JOINT, " " * 2000),
    "zero_byte": lambda: f.crimp_diameter(JOINT, "20 \0%"),
    "too_few": lambda: f.crimp_diameter(JOINT),
    "too_many": lambda: f.crimp_diameter(JOINT, "20 %", {}, 1),
    "unknown_word": lambda: f.crimp_diameter(JOINT, "20 %", {"basis": "wal"}),
    "unknown_member": lambda: f.crimp_diameter(JOINT | {"stm": 1}, "20 %"),
    "missing_member": lambda: f.crimp_diameter(JOINT | {"hose": {"inside": "1 mm"}}, "20 %"),
    "not_a_list": lambda: f.choose_die(3, "3 mm"),
    "bad_item": lambda: f.choose_die(["16 mm", {"size": "19"}], "3 mm"),
    "second_list": lambda: f.choose_purchases(["16 mm"], ["20 mm"], ["22 mm", 3]),
    "wrong_struct": lambda: f.crimp_diameter(f.Hose(**JOINT["hose"]), "20 %"),
    "rule": lambda: f.crimp_diameter(JOINT | {"stem": "19.9 mm"}, "20 %"),
    "not_whole": lambda: f.lobe_height("23 mm", "22 mm", 8.5),
    "too_large": lambda: f.lobe_height("23 mm", "22 mm", 2**40),
}


def memory():
    with open("/proc/self/status", encoding="ascii") as file:
        return next(int(line.split()[1]) for line in file if line.startswith("VmRSS:"))


DECISIONS = {"confirm_setup", "inspect_crimp", "release_assembly", "check_first_piece", "judge_batch"}


def said_of_decision(cells):
    """With two calls in a line the second one's set-up is what the first one gives."""
    function, arguments, path, *of_first = cells
    path = path.partition(".")[2]
    given = test_decisions.nest(arguments)
    try:
        if function == "inspect_crimp":
            second = test_decisions.inspect(test_decisions.plan(of_first[1]), arguments)
        elif function == "confirm_setup":
            second = f.confirm_setup(test_decisions.plan(of_first[1]), given.get("confirmations", []))
        else:
            second = getattr(f, function)(**given)
    except f.Error as error:
        return f"status {error.name}"
    figure = test_decisions.at(second, path)
    if isinstance(figure, tuple):
        return test_decisions.words(figure)
    if path.endswith("status"):
        return f.Status(figure).name
    return figure.name if hasattr(figure, "name") else in_bits(figure)


def said(row):
    try:
        figure = test_vectors.figure(row["function"], test_vectors.call(row), row["result"])
    except f.Error as error:
        return f"status {error.name}"
    return in_bits(figure)


def in_bits(figure):
    if isinstance(figure, (str, int)):
        return str(figure if isinstance(figure, str) else int(figure))
    return struct.pack(">d", figure if isinstance(figure, float) else getattr(figure, BASES[type(figure).__name__])).hex()


def rows():
    for line in sys.stdin:
        cells = line.rstrip("\n").split("\t")
        print(said_of_decision(cells) if cells[0] in DECISIONS else said(dict(zip(("function", "arguments", "result"), cells, strict=True))))


def fail_often(count):
    done, calls = 0, list(BAD.values())
    while done < count:
        for call in calls:
            try:
                call()
            except (f.Error, TypeError, OverflowError):
                done += 1


def failing(count):
    fail_often(int(count) // 5)
    before = memory()
    fail_often(int(count))
    print(before, memory())


def bad():
    """Name, class, status, function, path, message; what is no status is Python's own TypeError, and says the function itself."""
    for name, call in BAD.items():
        try:
            call()
        except f.Error as error:
            found = [type(error).__name__.removesuffix("Error"), error.name, error.function, error.path, str(error)]
        except (TypeError, OverflowError) as error:
            found = ["Type", "", str(error).split("(")[0].split(":")[0], getattr(error, "path", ""), str(error)]
        print("\t".join([name, *found]).replace("\n", " "))


def speed(count):
    joint, share = f.Joint(**JOINT), f.percent(20)
    start = time.perf_counter()
    for _ in range(int(count)):
        f.crimp_diameter(joint, share)
    print(int(count) / (time.perf_counter() - start))


def functions():
    print("\n".join(name.rstrip("_") for name, value in vars(f).items() if type(value).__name__ == "builtin_function_or_method"))


globals()[sys.argv[1]](*sys.argv[2:])
