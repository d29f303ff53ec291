# SPDX-License-Identifier: MIT
"""Rows of caution.h."""
from catalogue.shared import *  # noqa: F403

row("fer_caution_name", """the name is the word itself
>>> caution_name("closing dies")
'CLOSING_DIES'
""", caution=(0, 16))

row("fer_caution_text", """the text of the list
>>> caution_text("closing dies")
'Keep hands out of the closing dies, hold nothing in them...'
""", caution=(0, 16))

row("fer_stage_cautions", """after a failure: cut up, and never crimp twice
>>> [caution.name for caution in stage_cautions("failure")]
['SCRAP_NOT_REPAIR', 'NEVER_CRIMP_TWICE']
""", stage=(0, 5))

row("fer_stage_name", """the name is the word itself
>>> stage_name("planning")
'PLANNING'
""", stage=(0, 5))

row("fer_stage_sentence", """a sentence without a full stop
>>> stage_sentence("planning").endswith(".")
False
""", stage=(0, 5))
