# SPDX-License-Identifier: MIT
"""Rows of press.h."""
from catalogue.shared import *  # noqa: F403

row("fer_check_press", """a die has at least three segments
>>> check_press(Press(graduation="0.05 mm"))
>>> check_press(Press(segments=2))
Traceback (most recent call last):
ferrule.PressError: check_press: ...
""", judged=DECIDES, press=PRESS)

row("fer_dial_setting", """23.51 - 22 = 1.51, on a dial of 0.05: 1.50
>>> dial = dial_setting(Press(graduation="0.05 mm"), "22 mm", "23.51 mm")
>>> f"{dial.setting:.2f mm}", f"{dial.expected:.2f mm}"
('1.50 mm', '23.50 mm')
""", press=PRESS, die=DIE, target=plus("die.size", 0.5, 6))


def press_and_die(rng):
    size = length(rng, 0.1, 9e5)
    correction = rng.choice([0.0, rng.uniform(-1, 1) * min(size, 100)])
    return size, correction, rng.choice([0.0, 0.1, 0.05, 0.01, 0.0254])


@case("fer_dial_setting", "ulp", 2)
def dial_setting(rng):
    size, correction, step = press_and_die(rng)
    target = min(size * (1 + 10 ** rng.uniform(-9, -0.1)), MOST)
    found = f.dial_setting(f.Press(mm(step), mm(correction)), mm(size), mm(target))
    exact = mpf(target) - mpf(size) + mpf(correction)
    return {"exact": (found.exact.mm, exact), "expected": (found.expected.mm, mpf(target) + mpf(found.setting.mm) - exact),
            "remainder": (found.remainder.mm, mpf(found.setting.mm) - exact) if step else (0.0, mpf(0))}


row("fer_dialled_diameter", """1.5 + 22, by hand
>>> dialled_diameter(Press(graduation="0.05 mm"), "22 mm", "1.5 mm")
Length("23.5 mm")
""", press=PRESS, die=DIE, setting=(0.5, 6))


@case("fer_dialled_diameter", "ulp", 2)
def dialled_diameter(rng):
    size, correction, _ = press_and_die(rng)
    setting = length(rng, 1e-6, 1e5)
    found = f.dialled_diameter(f.Press(correction=mm(correction)), mm(size), mm(setting)).mm
    return {"diameter": (found, mpf(setting) - mpf(correction) + mpf(size))}


row("fer_opening_clearance", """22 + 10 - 28, by hand
>>> opening_clearance(Press(opening="10 mm"), "22 mm", "28 mm")
Length("4 mm")
""", press=PRESS, die=DIE, widest=(20, 60))


@case("fer_opening_clearance", "ulp", 2)
def opening_clearance(rng):
    size, opening = length(rng), length(rng)
    widest = min(MOST, max(LEAST, (size + opening) * rng.choice([1.0, 1 + 1e-15, rng.uniform(0.5, 1.5)])))
    found = f.opening_clearance(f.Press(opening=mm(opening)), mm(size), mm(widest)).mm
    return {"clearance": (found, mpf(size) + mpf(opening) - mpf(widest))}


row("fer_capacity_use", """500 of 2000
>>> capacity_use(Press(capacity="2000 kN"), "500 kN")
Ratio("25 %")
""", press=PRESS, force=(1e5, 2e6))


@case("fer_capacity_use", "ulp", 1)
def capacity_use(rng):
    force, capacity = 10 ** rng.uniform(-6, 12), 10 ** rng.uniform(-6, 12)
    return {"use": (f.capacity_use(f.Press(capacity=f.newton(capacity)), f.newton(force)).fraction,
                    mpf(force) / mpf(capacity))}
