-- SPDX-License-Identifier: MIT
-- Invented data: the forestry machinery depot of examples/depot, which does not exist. Codes mean nothing outside this folder.
-- Do not crimp anything by them. Lengths are written as they were measured, with their units, and kept in millimetres.

-- Generic metals, handbook values from memory: no manufacturer, no grade.
INSERT INTO metals VALUES
    ('annealed steel', fer_mpa('206 GPa'), 0.30, fer_mpa('240 MPa'), fer_mpa('900 MPa')),
    ('low-carbon steel', fer_mpa('206 GPa'), 0.30, fer_mpa('280 MPa'), 0),
    ('free-cutting steel', fer_mpa('206 GPa'), 0.30, fer_mpa('400 MPa'), 0),
    ('stainless steel', fer_mpa('195 GPa'), 0.29, fer_mpa('250 MPa'), 0),
    ('brass', fer_mpa('105 GPa'), 0.34, fer_mpa('200 MPa'), 0);

INSERT INTO gauges VALUES
    ('caliper 1', fer_mm('0.03 mm'), fer_mm('0 mm'), fer_mm('0.01 mm')),
    ('micrometer 1', fer_mm('0.004 mm'), fer_mm('-0.002 mm'), fer_mm('0.001 mm')),
    ('caliper 2', fer_mm('0.001 in'), fer_mm('0 in'), fer_mm('0.001 in'));

INSERT INTO measuring VALUES
    ('hose_inside', fer_mm('0.08 mm')), ('hose_outside', fer_mm('0.10 mm')), ('stem_outside', fer_mm('0.02 mm')),
    ('ferrule_wall', fer_mm('0.03 mm')), ('ferrule_outside', fer_mm('0.03 mm')), ('diameter', fer_mm('0.05 mm'));

INSERT INTO joints VALUES
    ('hose A, coupling A1', 'A', 'A1', fer_mm('12.7 mm'), fer_mm('19.9 mm'), fer_mm('12.95 mm'), fer_mm('9.5 mm'), fer_mm('2.4 mm'),
     fer_mm('25.6 mm'), fer_mm('34 mm'), fer_mm('27.0 mm'), NULL, NULL, 'EVERY_READING', 'APPROVED', fer_mm('31 mm'), NULL, NULL,
     NULL, 'free-cutting steel', NULL, fer_mpa('12 MPa'), fer_mm('9.45 mm')),
    ('hose B, coupling B1', 'B', 'B1', fer_mm('16.1 mm'), fer_mm('23.3 mm'), fer_mm('16.4 mm'), fer_mm('12.5 mm'), fer_mm('2.6 mm'),
     fer_mm('29.8 mm'), fer_mm('38 mm'), fer_mm('31.5 mm'), fer_mm('27.30 mm'), fer_mm('0.20 mm'), 'EVERY_READING', 'APPROVED',
     fer_mm('35 mm'), fer_mm('33 mm'), NULL, 'low-carbon steel', 'free-cutting steel', 1.0, fer_mpa('110 bar'), fer_mm('12.45 mm')),
    ('hose C, coupling C1', 'C', 'C1', fer_mm('6.4 mm'), fer_mm('13.3 mm'), fer_mm('6.6 mm'), fer_mm('4.2 mm'), fer_mm('1.6 mm'),
     fer_mm('18.2 mm'), fer_mm('26 mm'), fer_mm('20.6 mm'), NULL, NULL, 'MEAN', 'APPROVED', fer_mm('24 mm'), NULL, NULL,
     NULL, NULL, NULL, NULL, NULL),
    ('hose D, coupling D1', 'D', 'D1', fer_mm('19.1 mm'), fer_mm('26.9 mm'), fer_mm('19.3 mm'), fer_mm('15.0 mm'), fer_mm('2.6 mm'),
     fer_mm('33.4 mm'), fer_mm('42 mm'), fer_mm('35.0 mm'), fer_mm('29.60 mm'), fer_mm('0.20 mm'), 'EVERY_READING', 'APPROVED',
     fer_mm('38 mm'), NULL, NULL, 'annealed steel', 'free-cutting steel', 0.5, fer_mpa('14 MPa'), fer_mm('15.0 mm')),
    ('hose E, coupling E1', 'E', 'E1', fer_mm('1 1/4 in'), fer_mm('1-3/4 in'), fer_mm('32.0 mm'), fer_mm('1.063 in'), fer_mm('0.126in'),
     fer_mm('2 1/16 in'), fer_mm('48 mm'), fer_mm('2 1/4"'), NULL, NULL, 'EVERY_READING', 'APPROVED', fer_mm('1 3/4 in'),
     fer_mm('1.5 in'), fer_mm('0.25 in'), 'stainless steel', 'brass', 1.0, fer_mpa('1300 psi'), fer_mm('1.06 in')),
    ('hose F, coupling F1', 'F', 'F1', fer_mm('38.1 mm'), fer_mm('51.0 mm'), fer_mm('38.4 mm'), fer_mm('33 mm'), fer_mm('3.6 mm'),
     fer_mm('60.4 mm'), fer_mm('58 mm'), fer_mm('63 mm'), NULL, NULL, 'NOT_STATED', 'NOT_STATED', NULL, NULL, NULL,
     'annealed steel', NULL, 0.5, NULL, NULL),
    ('hose A, coupling A2', 'A', 'A2', fer_mm('0.5 in'), fer_mm('0.783 in'), fer_mm('0.510 in'), NULL, fer_mm('0.094 in'),
     NULL, NULL, fer_mm('1.06 in'), fer_mm('0.925 in'), NULL, 'EVERY_READING', 'APPROVED', fer_mm('31 mm'), NULL, NULL,
     'free-cutting steel', 'free-cutting steel', 0.5, fer_mpa('12 MPa'), NULL);

INSERT INTO presses VALUES
    ('bench press', fer_mm('0.05 mm'), fer_mm('-0.15 mm'), fer_mm('20 mm'), fer_mm('32 mm'), fer_newton('2000 kN'), 8);

INSERT INTO dies VALUES
    ('1', fer_mm('8 mm'), fer_mm('3 mm'), 1, fer_mm('40 mm')),
    ('2', fer_mm('10 mm'), fer_mm('3 mm'), 1, fer_mm('40 mm')),
    ('3', fer_mm('13 mm'), fer_mm('4 mm'), 1, fer_mm('45 mm')),
    ('4', fer_mm('16 mm'), fer_mm('5 mm'), 0, fer_mm('55 mm')),
    ('5', fer_mm('19 mm'), NULL, 0, fer_mm('55 mm')),
    ('6', fer_mm('22 mm'), NULL, 0, fer_mm('60 mm')),
    ('7', fer_mm('25 mm'), NULL, 0, fer_mm('60 mm')),
    ('8', fer_mm('28 mm'), NULL, 0, fer_mm('65 mm')),
    ('9', fer_mm('31 mm'), NULL, 0, fer_mm('70 mm')),
    ('10', fer_mm('36 mm'), NULL, 0, fer_mm('75 mm')),
    ('11', fer_mm('41 mm'), NULL, 0, fer_mm('80 mm')),
    ('12', fer_mm('46 mm'), NULL, 0, fer_mm('90 mm'));

INSERT INTO orders VALUES
    (101, 'harvester 2 boom lift', 'hose A, coupling A1', 'bench press', 6, 'caliper 1', 0),
    (102, 'harvester 2 saw motor', 'hose B, coupling B1', 'bench press', 4, 'micrometer 1', 0),
    (103, 'forwarder 5 pilot line', 'hose C, coupling C1', 'bench press', 10, 'caliper 2', 0),
    (104, 'forwarder 5 grapple', 'hose D, coupling D1', 'bench press', 2, 'micrometer 1', 1),
    (105, 'harvester 3 drive', 'hose E, coupling E1', 'bench press', 2, 'caliper 2', 1),
    (106, 'forwarder 1 return line', 'hose F, coupling F1', 'bench press', 1, 'caliper 1', 1),
    (107, 'harvester 2 tilt', 'hose A, coupling A2', 'bench press', 4, 'caliper 1', 0),
    (108, 'harvester 4 boom lift', 'hose A, coupling A1', 'bench press', 3, 'caliper 1', 0);

INSERT INTO confirmations VALUES
    (101, 'TARGET_COMPUTED', 'specification owner, K.R.', '2026-11-30', fer_mm('23.51 mm'), NULL, fer_mm('22 mm'), 0.2),
    (103, 'TARGET_COMPUTED', 'specification owner, K.R.', '2026-11-30', fer_mm('15.32 mm'), NULL, fer_mm('13 mm'), 0.2),
    (105, 'TARGET_COMPUTED', 'specification owner, K.R.', '2026-11-12', fer_mm('48.30 mm'), NULL, fer_mm('46 mm'), 0.221),
    (108, 'TARGET_COMPUTED', 'specification owner, K.R.', '2026-11-30', fer_mm('23.51 mm'), NULL, fer_mm('22 mm'), 0.2);

INSERT INTO crimps VALUES
    (101, 1, 1, fer_rad('0 deg'), fer_mm('23.50 mm'), 'caliper 1'),
    (101, 1, 1, fer_rad('45 deg'), fer_mm('23.52 mm'), 'caliper 1'),
    (101, 1, 1, fer_rad('90 deg'), fer_mm('23.49 mm'), 'caliper 1'),
    (101, 1, 1, fer_rad('135 deg'), fer_mm('23.51 mm'), 'caliper 1'),
    (101, 1, 2, fer_rad('0 deg'), fer_mm('23.53 mm'), 'caliper 1'),
    (101, 1, 2, fer_rad('45 deg'), fer_mm('23.54 mm'), 'caliper 1'),
    (101, 1, 2, fer_rad('90 deg'), fer_mm('23.52 mm'), 'caliper 1'),
    (101, 1, 2, fer_rad('135 deg'), fer_mm('23.53 mm'), 'caliper 1'),
    (101, 2, 1, fer_rad('0 deg'), fer_mm('23.46 mm'), 'caliper 1'),
    (101, 2, 1, fer_rad('45 deg'), fer_mm('23.48 mm'), 'caliper 1'),
    (101, 2, 1, fer_rad('90 deg'), fer_mm('23.47 mm'), 'caliper 1'),
    (101, 2, 1, fer_rad('135 deg'), fer_mm('23.45 mm'), 'caliper 1'),
    (101, 2, 2, fer_rad('0 deg'), fer_mm('23.50 mm'), 'caliper 1'),
    (101, 2, 2, fer_rad('45 deg'), fer_mm('23.49 mm'), 'caliper 1'),
    (101, 2, 2, fer_rad('90 deg'), fer_mm('23.51 mm'), 'caliper 1'),
    (101, 2, 2, fer_rad('135 deg'), fer_mm('23.50 mm'), 'caliper 1'),
    (102, 1, 1, fer_rad('0 deg'), fer_mm('27.312 mm'), 'micrometer 1'),
    (102, 1, 1, fer_rad('45 deg'), fer_mm('27.304 mm'), 'micrometer 1'),
    (102, 1, 1, fer_rad('90 deg'), fer_mm('27.318 mm'), 'micrometer 1'),
    (102, 1, 1, fer_rad('135 deg'), fer_mm('27.309 mm'), 'micrometer 1'),
    (102, 1, 2, fer_rad('0 deg'), fer_mm('27.331 mm'), 'micrometer 1'),
    (102, 1, 2, fer_rad('45 deg'), fer_mm('27.326 mm'), 'micrometer 1'),
    (102, 1, 2, fer_rad('90 deg'), fer_mm('27.335 mm'), 'micrometer 1'),
    (102, 1, 2, fer_rad('135 deg'), fer_mm('27.329 mm'), 'micrometer 1'),
    (102, 2, 1, fer_rad('0 deg'), fer_mm('27.601 mm'), 'micrometer 1'),
    (102, 2, 1, fer_rad('45 deg'), fer_mm('27.612 mm'), 'micrometer 1'),
    (102, 2, 1, fer_rad('90 deg'), fer_mm('27.595 mm'), 'micrometer 1'),
    (102, 2, 1, fer_rad('135 deg'), fer_mm('27.606 mm'), 'micrometer 1'),
    (102, 2, 2, fer_rad('0 deg'), fer_mm('27.634 mm'), 'micrometer 1'),
    (102, 2, 2, fer_rad('45 deg'), fer_mm('27.641 mm'), 'micrometer 1'),
    (102, 2, 2, fer_rad('90 deg'), fer_mm('27.629 mm'), 'micrometer 1'),
    (102, 2, 2, fer_rad('135 deg'), fer_mm('27.638 mm'), 'micrometer 1'),
    (102, 3, 1, fer_rad('0 deg'), fer_mm('27.47 mm'), 'caliper 1'),
    (102, 3, 1, fer_rad('45 deg'), fer_mm('27.49 mm'), 'caliper 1'),
    (102, 3, 1, fer_rad('90 deg'), fer_mm('27.48 mm'), 'caliper 1'),
    (102, 3, 1, fer_rad('135 deg'), fer_mm('27.46 mm'), 'caliper 1'),
    (102, 3, 2, fer_rad('0 deg'), fer_mm('27.50 mm'), 'caliper 1'),
    (102, 3, 2, fer_rad('45 deg'), fer_mm('27.51 mm'), 'caliper 1'),
    (102, 3, 2, fer_rad('90 deg'), fer_mm('27.49 mm'), 'caliper 1'),
    (102, 3, 2, fer_rad('135 deg'), fer_mm('27.50 mm'), 'caliper 1'),
    (103, 1, 1, fer_rad('0 deg'), fer_mm('0.602 in'), 'caliper 2'),
    (103, 1, 1, fer_rad('45 deg'), fer_mm('0.603 in'), 'caliper 2'),
    (103, 1, 1, fer_rad('90 deg'), fer_mm('0.601 in'), 'caliper 2'),
    (103, 1, 1, fer_rad('135 deg'), fer_mm('0.602 in'), 'caliper 2'),
    (103, 1, 2, fer_rad('0 deg'), fer_mm('0.603 in'), 'caliper 2'),
    (103, 1, 2, fer_rad('45 deg'), fer_mm('0.604 in'), 'caliper 2'),
    (103, 1, 2, fer_rad('90 deg'), fer_mm('0.602 in'), 'caliper 2'),
    (103, 1, 2, fer_rad('135 deg'), fer_mm('0.603 in'), 'caliper 2'),
    (104, 1, 1, fer_rad('0 deg'), fer_mm('29.58 mm'), 'caliper 1'),
    (104, 1, 1, fer_rad('90 deg'), fer_mm('29.60 mm'), 'caliper 1'),
    (107, 1, 1, fer_rad('0 deg'), fer_mm('23.48 mm'), 'caliper 1'),
    (107, 1, 1, fer_rad('90 deg'), fer_mm('23.49 mm'), 'caliper 1');

INSERT INTO ends VALUES
    (101, 1, 'GOOD', 'PASSED', 'PASSED', false),
    (101, 2, 'GOOD', 'PASSED', 'PASSED', false),
    (102, 1, 'GOOD', 'PASSED', 'PASSED', false),
    (102, 2, 'GOOD', 'PASSED', 'PASSED', true),
    (102, 3, 'GOOD', 'PASSED', 'PASSED', false),
    (103, 1, 'TOO_LOOSE', 'PASSED', 'PASSED', false);

INSERT INTO assemblies VALUES
    (101, 1, 1, 2, 'PASSED', 7, true, 'PASSED', 'NOT_DONE', 'PASSED', 'PASSED', 'PASSED', 'PASSED', 'PASSED'),
    (102, 1, 1, 3, 'PASSED', 9, true, 'PASSED', 'NOT_DONE', 'PASSED', 'PASSED', 'NOT_DONE', 'NOT_DONE', 'NOT_DONE'),
    (102, 2, 2, NULL, 'PASSED', 9, true, 'NOT_DONE', 'NOT_DONE', 'NOT_DONE', 'NOT_DONE', 'NOT_DONE', 'NOT_DONE', 'NOT_DONE'),
    (103, 1, 1, NULL, 'PASSED', 20, true, 'NOT_DONE', 'NOT_DONE', 'NOT_DONE', 'NOT_DONE', 'NOT_DONE', 'NOT_DONE', 'NOT_DONE');
