-- SPDX-License-Identifier: MIT
-- Tables of a small shop, for SQLite and PostgreSQL alike. NULL: not measured, or not known.
-- A joint that cannot be one, a die or a press with impossible data do not get in: the check says which rule is broken.

CREATE TABLE joints (
    joint              text PRIMARY KEY,
    hose               text NOT NULL,
    coupling           text NOT NULL,
    hose_inside_mm     double precision NOT NULL,
    hose_outside_mm    double precision NOT NULL,
    stem_outside_mm    double precision NOT NULL,
    stem_bore_mm       double precision,
    ferrule_wall_mm    double precision NOT NULL,
    ferrule_outside_mm double precision,
    ferrule_length_mm  double precision,
    widest_mm          double precision,
    published_mm       double precision, -- crimp diameter that the coupling's manufacturer publishes: it comes first
    tolerance_mm       double precision,
    CONSTRAINT joint_is_possible CHECK (fer_check_joint_ok(
        hose_inside_mm, hose_outside_mm, stem_outside_mm, ferrule_wall_mm, 0, coalesce(stem_bore_mm, 0),
        coalesce(ferrule_outside_mm, 0), coalesce(ferrule_length_mm, 0)))
);

CREATE TABLE presses (
    press           text PRIMARY KEY,
    graduation_mm   double precision NOT NULL,
    correction_mm   double precision NOT NULL,
    dial_maximum_mm    double precision NOT NULL,
    opening_mm      double precision NOT NULL,
    capacity_newton double precision NOT NULL,
    segments        integer NOT NULL,
    adapter         integer NOT NULL, -- number of the adapter set that is in the press; 0: none
    CONSTRAINT press_is_possible CHECK (fer_check_press_ok(
        graduation_mm, correction_mm, dial_maximum_mm, opening_mm, capacity_newton, segments))
);

CREATE TABLE dies (
    die       text PRIMARY KEY,
    size_mm   double precision NOT NULL UNIQUE CHECK (size_mm > 0),
    reach_mm  double precision CHECK (reach_mm > 0), -- NULL: the usual 7 mm
    adapter   integer NOT NULL CHECK (adapter >= 0),
    length_mm double precision CHECK (length_mm > 0)
);

CREATE TABLE orders (
    order_number integer PRIMARY KEY,
    machine      text NOT NULL,
    joint        text NOT NULL REFERENCES joints,
    press        text NOT NULL REFERENCES presses,
    pieces       integer NOT NULL CHECK (pieces > 0)
);

CREATE TABLE gauges (
    gauge                   text PRIMARY KEY,
    standard_uncertainty_mm double precision NOT NULL CHECK (standard_uncertainty_mm >= 0),
    correction_mm           double precision NOT NULL,
    resolution_mm           double precision NOT NULL CHECK (resolution_mm >= 0)
);

CREATE TABLE crimps ( -- one row per reading
    order_number integer NOT NULL REFERENCES orders,
    piece        integer NOT NULL,
    section      integer NOT NULL CHECK (section BETWEEN 0 AND 15),
    angle_rad    double precision, -- NULL: not noted
    diameter_mm  double precision NOT NULL CHECK (diameter_mm > 0),
    gauge        text NOT NULL REFERENCES gauges
);
