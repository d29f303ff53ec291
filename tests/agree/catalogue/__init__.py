# SPDX-License-Identifier: MIT
"""The catalogue of exact values: what every public function is tried with, and what it should answer.

One file per module, MODULE.py beside include/ferrule/MODULE.h, holds one row per function:

    row("fer_gap_offset", '''0.5 × 2.4/sin 22.5°, by hand
    >>> f"{gap_offset('2.4 mm', 8, '50 %'):.4f mm}"
    '3.1358 mm'
    ''', wall=(0.5, 3), segments=(3, 64), of_wall=(0, 1))

    @exact("ulp", 2)
    def gap_offset(wall, segments, of_wall):
        return {"offset": of_wall * wall / sin(pi / segments)}

The text is the example of the docstring: where its figures come from, then a session of Python. The arguments have the names
of the header and say from where they are drawn; domains.py lists the ways. The function below has the formula as a text has
it, at 200 bits; "ulp", 2 is the largest error that passes: two units in the last place ("relative": of the value itself, or
of a scale that is given with it). A function that calculates nothing has judged="by what" in its row in place of a formula.

From the rows come the cases of the accuracy tests, the calls that are compared between machines, between threads and between
rounding modes, and the examples of the docstrings. rows.py reads rows without formulas, so builds need neither mpmath nor
the Python package; exact.py compares; write_calls.py writes C; shared.py has what several modules draw.
"""
