# SPDX-License-Identifier: MIT
"""Checked with mypy --strict by test_package.py."""
import ferrule
from ferrule import bulk, drawing

joint = ferrule.Joint(hose=ferrule.Hose("12.7 mm", outside="19.9 mm"), stem="13 mm", ferrule=ferrule.Ferrule("1.5 mm"))
diameter: ferrule.Length = ferrule.crimp_diameter(joint, "20 %", ferrule.Model(flow="ends_free"))
number: float = diameter.inch
target, share = ferrule.best_target(joint, {"hose_inside": "0.1 mm"}, ("15 %", "25 %"))
ratio: ferrule.Ratio = target / diameter
length: ferrule.Length = 2 * (target + diameter) * ferrule.percent(3) + ferrule.percent(3) * target
plan = ferrule.plan_setup(joint, ferrule.Press(graduation="0.05 mm"), ["16 mm", ferrule.Die("19 mm")])
if plan.window.value is not None:
    print(f"{plan.window.value.lower:.2f mm}", [remark.sentence for remark in plan.remarks])
try:
    ferrule.check_joint(joint.replace(hose=ferrule.Hose("1 mm", "2 mm")))
except ferrule.HoseError as error:
    print(error.code.sentence, error.function)
match joint:
    case ferrule.Joint(ferrule.Hose(inside)):
        print(inside.mm)
picture: drawing.Drawing = drawing.section(joint, plan)
words: str = picture.svg + plan._repr_html_()
columns = bulk.crimp_diameter(hose_inside_mm=[12.7], hose_outside_mm=19.9, stem_outside_mm=13, ferrule_wall_mm=1.5, compression_percent=20)
