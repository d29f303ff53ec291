# SPDX-License-Identifier: MIT
"""Rows of caution.h."""
from catalogue.shared import *  # noqa: F403

row("fer_caution_name", """the name is the word itself
>>> caution_name("closing dies")
'CLOSING_DIES'
""", caution=(0, 3))

row("fer_caution_text", """the text of the list
>>> caution_text("closing dies")
'Keep hands out of the closing dies and wear eye protection. Switch off...'
""", caution=(0, 3))
