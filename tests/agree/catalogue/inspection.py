# SPDX-License-Identifier: MIT
"""Rows of inspection.h."""
from catalogue.shared import *  # noqa: F403

row("fer_inspect_crimp", """the mean of the readings is the target
>>> setup = plan_setup(Joint(("12.7 mm", "19.9 mm"), "12.95 mm", "2.4 mm"), Press(), ["22 mm"])
>>> inspection = inspect_crimp(setup, ["23.50 mm", "23.51 mm", "23.52 mm"], Gauge("0.01 mm", resolution="0.01 mm"))
>>> inspection.decision.name, abs(inspection.deviation) < mm(1e-9)
('ACCEPT', True)
""", judged=CALLS)

row("fer_finding_name", """the name is the word itself
>>> finding_name(Finding.NEAR_LIMIT)
'NEAR_LIMIT'
""", finding=(0, 31))

row("fer_finding_sentence", """the sentence of the list
>>> finding_sentence("reading outside zone")
'a reading lies outside the acceptance zone'
""", finding=(0, 31))

row("fer_finding_severity", """the severity of the list
>>> finding_severity("gauge cannot accept").name
'STOP'
""", finding=(0, 31))
