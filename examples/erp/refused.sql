-- SPDX-License-Identifier: MIT
-- What does not get in: hose diameters exchanged, and a unit forgotten.
INSERT INTO joints (joint, hose, coupling, hose_inside_mm, hose_outside_mm, stem_outside_mm, ferrule_wall_mm)
VALUES ('wrong', 'D', 'D1', fer_mm('26.9 mm'), fer_mm('19.1 mm'), fer_mm('19.3 mm'), fer_mm('2.6 mm'));
INSERT INTO joints (joint, hose, coupling, hose_inside_mm, hose_outside_mm, stem_outside_mm, ferrule_wall_mm)
VALUES ('wrong', 'A', 'A1', fer_mm('12.7'), fer_mm('19.9 mm'), fer_mm('12.95 mm'), fer_mm('2.4 mm'));
