# SPDX-License-Identifier: MIT
"""One piece, judged by what the certificate says of the gauge and by what a study found. Readings are invented."""
from ferrule import (AssemblyChecks, Die, EndChecks, Ferrule, Gauge, Hose, Joint, Order, Press, Stem, StudyReading, StudySettings, enter_inspection,
                     inspect_crimp, plan_setup, release_assembly, study_gauge)

joint = Joint(Hose("12.7 mm", "19.9 mm"), Stem("12.95 mm"), Ferrule(wall="2.4 mm", outside="25.6 mm"))
order = Order(joint, published="23.5 mm", tolerance="0.2 mm", approval="approved", insertion="31 mm", widest="38 mm")
setup = plan_setup(order, Press("0.05 mm", opening="25 mm"), [Die("22 mm")])

# five parts, three people, each part read twice; the second reads larger, the third smaller
first = {0: ["23.41 mm", "23.42 mm"], 1: ["23.55 mm", "23.55 mm"], 2: ["23.47 mm", "23.46 mm"], 3: ["23.61 mm", "23.62 mm"],
         4: ["23.50 mm", "23.50 mm"]}
second = {0: ["23.44 mm", "23.44 mm"], 1: ["23.57 mm", "23.58 mm"], 2: ["23.49 mm", "23.49 mm"], 3: ["23.64 mm", "23.64 mm"],
          4: ["23.52 mm", "23.53 mm"]}
third = {0: ["23.39 mm", "23.40 mm"], 1: ["23.53 mm", "23.52 mm"], 2: ["23.44 mm", "23.45 mm"], 3: ["23.59 mm", "23.59 mm"],
         4: ["23.48 mm", "23.47 mm"]}
readings = [StudyReading(part, person, value) for person, parts in enumerate([first, second, third])
            for part, values in parts.items() for value in values]
study = study_gauge(readings, "0.4 mm", "90 %", StudySettings(calibration="0.01 mm", resolution="0.01 mm"))

certificate = Gauge(standard_uncertainty="0.01 mm", resolution="0.01 mm")
for name, gauge in {"certificate": certificate, "study": study.one_piece}.items():
    inspection = inspect_crimp(setup, [{"diameter": "23.67 mm"}, {"diameter": "23.66 mm"}, {"diameter": "23.67 mm"}, {"diameter": "23.67 mm"}], gauge)
    end = EndChecks(diameter=enter_inspection(inspection), looks="good", insertion="passed", bore="passed")
    checks = AssemblyChecks(first=end, second=end, straight=True, parts="passed", length="passed", cleanliness="passed", marking="passed",
                            hose_age=9, proof={"pressure": "passed", "leak": "passed", "movement": "passed"})
    print(f"{name}: standard uncertainty {gauge.standard_uncertainty:.3f mm}, diameter {inspection.decision.name.lower()}, "
          f"assembly {release_assembly(checks).decision.name.lower()}")
