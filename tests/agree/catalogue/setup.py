# SPDX-License-Identifier: MIT
"""Rows of setup.h."""
from catalogue.shared import *  # noqa: F403

row("fer_plan_setup", """12.95 + 2 × 2.4 + 7.2 × 0.8 = 23.51, die 22, dial 1.51, by hand; the third line worked figures
>>> joint = Joint(hose=Hose("12.7 mm", "19.9 mm"), stem=Stem("12.95 mm"), ferrule=Ferrule("2.4 mm", outside="25.6 mm"))
>>> setup = plan_setup(joint, Press(graduation="0.05 mm"), ["16 mm", "19 mm", "22 mm", "25 mm"])
>>> f"{setup.target:.2f mm}", setup.die.die.size, f"{setup.dial.value.setting:.2f mm}"
('23.51 mm', Length("22 mm"), '1.50 mm')
>>> f"{setup.plain.value:.1f %}", f"{setup.ends_free.value:.3f %}", f"{setup.ends_fixed.value:.3f %}"
('20.0 %', '22.807 %', '27.557 %')
""", judged=CALLS)

row("fer_check_order", """the rules of the order: no hose has a wall without both diameters
>>> joint = Joint(hose=Hose("0 mm", "19.9 mm"), stem=Stem("12.95 mm"), ferrule=Ferrule("2.4 mm"))
>>> [(fault.path, fault.status.name) for fault in check_order(joint, Press(graduation="11 mm"), ["16 mm", "0 mm"])]
[('joint.hose.inside', 'HOSE_INSIDE_MISSING'), ('press.graduation', 'PRESS_GRADUATION_OUT_OF_RANGE'), ('dies[1].size', 'DIE_SIZE_MISSING')]
>>> check_order(joint, Press(), [])[0].message
'hose inside diameter is not given'
""", judged="each rule alone in tests/unit/test_faults.c, and against fer_plan_setup()")

row("fer_field_path", """the path is the member's, as it is written in C
>>> field_path("joint hose outside"), field_path("die size")
('joint.hose.outside', 'dies[].size')
""", field=(0, 57))

row("fer_remark_name", """the name is the word itself
>>> remark_name(Remark.NO_DIE)
'NO_DIE'
""", remark=(0, 9))

row("fer_remark_sentence", """the sentence of the list
>>> remark_sentence("adapter goes in")
'an adapter set has to go into the press first'
""", remark=(0, 9))
