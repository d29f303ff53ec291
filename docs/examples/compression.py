# SPDX-License-Identifier: MIT
from ferrule import Basis, Ferrule, Flow, Hose, Joint, Model, Stem, compression, crimp_diameter

worked = Joint(
    hose=Hose(inside="12.7 mm", outside="19.9 mm"),
    stem=Stem(outside="12.95 mm"),
    ferrule=Ferrule(wall="2.4 mm", outside="25.6 mm"),
)
models = {
    "plain": Model(),
    "ends free": Model(flow=Flow.ENDS_FREE),
    "ends fixed": Model(flow=Flow.ENDS_FIXED),
    "fitted wall": Model(basis=Basis.FITTED_WALL),
    "area": Model(basis=Basis.AREA),
}
print("             at 23.51   for 20 %")
for words, model in models.items():
    at, diameter = compression(worked, "23.51 mm", model), crimp_diameter(worked, "20 %", model)
    print(f"{words:12} {at.percent:6.3f} %   {diameter:.4f mm}")
