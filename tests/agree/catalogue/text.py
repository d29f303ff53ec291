# SPDX-License-Identifier: MIT
"""Rows of text.h."""
from catalogue.shared import *  # noqa: F403

row("fer_unit_symbol", """the symbols of the SI brochure
>>> unit_symbol("mm"), unit_symbol(Unit.mpa)
('mm', 'MPa')
""", unit=(0, 26))
