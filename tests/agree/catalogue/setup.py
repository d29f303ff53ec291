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
""", field=(0, 68))

row("fer_confirm_remark", """nothing is published, so the computed target is confirmed as it was looked at
>>> joint = Joint(hose=Hose("12.7 mm", "19.9 mm"), stem=Stem("12.95 mm"), ferrule=Ferrule("2.4 mm", outside="25.6 mm"))
>>> setup = plan_setup(joint, Press(graduation="0.05 mm"), ["16 mm", "19 mm", "22 mm", "25 mm"])
>>> looked_at = confirm_remark(setup, "target computed")
>>> f"{looked_at.target:.2f mm}", f"{looked_at.die:.0f mm}", f"{looked_at.compression:.0f %}"
('23.51 mm', '22 mm', '20 %')
""", judged=CALLS)

row("fer_confirm_setup", """two remarks to confirm, of which one is
>>> joint = Joint(hose=Hose("12.7 mm", "19.9 mm"), stem=Stem("12.95 mm"), ferrule=Ferrule("2.4 mm", outside="25.6 mm"))
>>> setup = plan_setup(joint, Press(graduation="0.05 mm"), ["16 mm", "19 mm", "22 mm", "25 mm"])
>>> confirmed = confirm_setup(setup, [confirm_remark(setup, "target computed")])
>>> confirmed.readiness.name, [remark.name for remark in confirmed.confirmed]
('AFTER_CONFIRMING', ['TARGET_COMPUTED'])
""", judged=CALLS)

row("fer_remark_severity", """the severity of the list
>>> remark_severity("no die").name, remark_severity("target computed").name
('STOP', 'CONFIRM')
""", remark=(0, 63))

row("fer_readiness_name", """the name is the word itself
>>> readiness_name(Readiness.READY)
'READY'
""", readiness=(0, 2))

row("fer_readiness_sentence", """the sentence of the list
>>> readiness_sentence("not ready")
'not to be crimped: something has to be changed first'
""", readiness=(0, 2))

row("fer_remark_name", """the name is the word itself
>>> remark_name(Remark.NO_DIE)
'NO_DIE'
""", remark=(0, 63))

row("fer_remark_sentence", """the sentence of the list
>>> remark_sentence("adapter goes in")
'an adapter set has to go into the press'
""", remark=(0, 63))
