# SPDX-License-Identifier: MIT
"""Rows of status.h."""
from catalogue.shared import *  # noqa: F403

row("fer_status_name", """the name is the word itself
>>> status_name(Status.HOSE_OUTSIDE_NOT_ABOVE_INSIDE)
'HOSE_OUTSIDE_NOT_ABOVE_INSIDE'
""", status=(0, 99))

row("fer_status_sentence", """the sentence of the list
>>> status_sentence("hose outside not above inside")
'hose outside diameter is not above its inside diameter'
""", status=(0, 99))
