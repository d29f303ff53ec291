# SPDX-License-Identifier: MIT
"""Rows of joint.h."""
from catalogue.shared import *  # noqa: F403

row("Joint", """an invented joint
>>> joint = Joint(hose=Hose(inside="12.7 mm", outside="19.9 mm"), stem="12.95 mm", ferrule=Ferrule(wall="2.4 mm"))
>>> joint.replace(stem="13 mm").stem.outside
Length("13 mm")
>>> joint.to_dict()["hose"]["outside"]
'19.9 mm'
""")

row("fer_check_joint", """a hose of which inside and outside are mixed up
>>> check_joint(Joint(("12.7 mm", "19.9 mm"), "12.95 mm", "2.4 mm"))
>>> check_joint(Joint(("19.9 mm", "12.7 mm"), "12.95 mm", "2.4 mm"))
Traceback (most recent call last):
ferrule.HoseError: check_joint: hose outside diameter is not above its inside diameter (hose: ...)
""", judged=DECIDES, joint=JOINT)

row("fer_fitted_outside", """sqrt(19.9² - 12.7² + 12.95²) = sqrt(402.4225), by hand
>>> joint = Joint(("12.7 mm", "19.9 mm"), "12.95 mm", "2.4 mm")
>>> f"{fitted_outside(joint):.4f mm}"
'20.0605 mm'
""", joint=JOINT)


@case("fer_fitted_outside", "ulp", 2)
def fitted_outside(rng):
    numbers, j = joint(rng)
    return {"outside": (f.fitted_outside(j).mm, ref.fitted_outside(numbers))}
