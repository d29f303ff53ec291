# SPDX-License-Identifier: MIT
import ferrule
from ferrule import Ferrule, Hose, Joint, Length, Stem

joint = Joint(
    hose=Hose(inside="1/2 in", outside="19.9 mm"),
    stem=Stem(outside="12.95 mm"),
    ferrule=Ferrule(wall=Length(mm=2.4)),
)
target = ferrule.crimp_diameter(joint, "20 %")
print(f"{target:.2f mm} or {target:.4f in}")
print(f"{target - Length('22 mm'):.2f mm} above a 22 mm die")

try:
    ferrule.crimp_diameter(joint.replace(stem=Stem(outside="19.9 mm")), "20 %")
except ferrule.StemError as error:
    print(error.name)
