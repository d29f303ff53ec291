-- SPDX-License-Identifier: MIT
-- Tables of a small shop, for SQLite and PostgreSQL alike. NULL: not measured, or not known.
-- A joint that cannot be one, a die or a press with impossible data do not get in: the check says which rule is broken.

CREATE TABLE metals (
    metal              text PRIMARY KEY,
    modulus_mpa        double precision NOT NULL,
    poisson_fraction   double precision NOT NULL,
    yield_strength_mpa double precision NOT NULL,
    hardening_mpa      double precision NOT NULL,
    CONSTRAINT metal_is_possible CHECK (fer_check_material_ok(modulus_mpa, poisson_fraction, yield_strength_mpa, hardening_mpa))
);

CREATE TABLE gauges (
    gauge                   text PRIMARY KEY,
    standard_uncertainty_mm double precision NOT NULL CHECK (standard_uncertainty_mm BETWEEN 0 AND 100),
    correction_mm           double precision NOT NULL CHECK (correction_mm BETWEEN -100 AND 100),
    resolution_mm           double precision NOT NULL CHECK (resolution_mm BETWEEN 0 AND 10)
);

CREATE TABLE measuring ( -- how well the bench measures, as standard uncertainty; "crimp diameter": among crimps at one setting
    what           text PRIMARY KEY CHECK (what IN ('hose_inside', 'hose_outside', 'stem_outside', 'ferrule_wall', 'ferrule_outside',
                                                    'diameter')),
    uncertainty_mm double precision NOT NULL CHECK (uncertainty_mm BETWEEN 0 AND 100)
);

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
    applies_to         text NOT NULL DEFAULT 'NOT_STATED' -- what the limits of the diameter apply to
        CHECK (applies_to IN ('NOT_STATED', 'EVERY_READING', 'SECTION_MEANS', 'MEAN')),
    approval           text NOT NULL DEFAULT 'NOT_STATED' -- whether the manufacturers approve the combination
        CHECK (approval IN ('NOT_STATED', 'APPROVED', 'NOT_APPROVED')),
    insertion_mm       double precision CHECK (insertion_mm > 0),
    skive_outside_mm   double precision CHECK (skive_outside_mm > 0),
    skive_inside_mm    double precision CHECK (skive_inside_mm > 0),
    ferrule_metal      text REFERENCES metals,
    stem_metal         text REFERENCES metals,
    restraint_fraction double precision CHECK (restraint_fraction BETWEEN 0 AND 1),
    hose_pressure_mpa  double precision CHECK (hose_pressure_mpa > 0),
    minimum_bore_mm    double precision CHECK (minimum_bore_mm > 0), -- go gauge of the stem's bore
    CONSTRAINT joint_is_possible CHECK (fer_check_joint_ok(
        hose_inside_mm, hose_outside_mm, stem_outside_mm, ferrule_wall_mm, 0, coalesce(stem_bore_mm, 0),
        coalesce(ferrule_outside_mm, 0), coalesce(ferrule_length_mm, 0)))
);

CREATE TABLE presses (
    press           text PRIMARY KEY,
    graduation_mm   double precision NOT NULL,
    correction_mm   double precision, -- found on finished crimps; NULL: not measured
    dial_maximum_mm double precision NOT NULL,
    opening_mm      double precision NOT NULL,
    capacity_newton double precision NOT NULL,
    segments        integer NOT NULL,
    CONSTRAINT press_is_possible CHECK (fer_check_press_ok(
        graduation_mm, coalesce(correction_mm, 0), dial_maximum_mm, opening_mm, capacity_newton, segments))
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
    pieces       integer NOT NULL CHECK (pieces > 0),
    gauge        text NOT NULL REFERENCES gauges, -- in hand for the finished crimps
    adapter      integer NOT NULL DEFAULT 0 CHECK (adapter >= 0) -- set that is in the press when its turn comes; 0: none
);

-- Who answers for a remark, and the figures that were looked at; where today's are others it is void. It is the owner of the crimp
-- specification who confirms. Only what can be confirmed gets in, and nothing without a name.
CREATE TABLE confirmations (
    order_number         integer NOT NULL REFERENCES orders,
    remark               text NOT NULL CHECK (fer_remark_severity(remark) = 'CONFIRM'),
    name                 text NOT NULL CHECK (length(trim(name)) > 1),
    day                  text NOT NULL CHECK (length(day) = 10),
    target_mm            double precision NOT NULL,
    tolerance_mm         double precision,
    die_mm               double precision,
    compression_fraction double precision,
    PRIMARY KEY (order_number, remark, day)
);

CREATE TABLE crimps ( -- one row per reading
    order_number integer NOT NULL REFERENCES orders,
    piece        integer NOT NULL,
    section      integer NOT NULL CHECK (section BETWEEN 0 AND 15),
    angle_rad    double precision, -- NULL: not noted
    diameter_mm  double precision NOT NULL CHECK (diameter_mm BETWEEN 0.001 AND 1000000),
    gauge        text NOT NULL REFERENCES gauges
);

CREATE TABLE ends ( -- what was checked on a crimped end besides its diameter
    order_number integer NOT NULL REFERENCES orders,
    piece        integer NOT NULL,
    looks        text NOT NULL CHECK (looks IN ('NOT_DONE', 'GOOD', 'TOO_TIGHT', 'TOO_LOOSE', 'DAMAGED', 'UNDECIDED')),
    insertion    text NOT NULL CHECK (insertion IN ('NOT_DONE', 'PASSED', 'FAILED', 'UNDECIDED')),
    bore         text NOT NULL CHECK (bore IN ('NOT_DONE', 'PASSED', 'FAILED', 'UNDECIDED')),
    read_again   boolean NOT NULL, -- after its diameter failed the gauge was put on its setting ring, and the end read again
    PRIMARY KEY (order_number, piece)
);

CREATE TABLE assemblies (
    order_number integer NOT NULL REFERENCES orders,
    assembly     integer NOT NULL,
    first_piece  integer, -- NULL: not crimped yet
    second_piece integer,
    parts        text NOT NULL CHECK (parts IN ('NOT_DONE', 'PASSED', 'FAILED', 'UNDECIDED')),
    hose_age     integer CHECK (hose_age BETWEEN 1 AND 1200), -- months, the begun one counted; NULL: the date was not read
    straight     boolean NOT NULL, -- a coupling at one end is straight
    length       text NOT NULL CHECK (length IN ('NOT_DONE', 'PASSED', 'FAILED', 'UNDECIDED')),
    orientation  text NOT NULL CHECK (orientation IN ('NOT_DONE', 'PASSED', 'FAILED', 'UNDECIDED')),
    cleanliness  text NOT NULL CHECK (cleanliness IN ('NOT_DONE', 'PASSED', 'FAILED', 'UNDECIDED')),
    marking      text NOT NULL CHECK (marking IN ('NOT_DONE', 'PASSED', 'FAILED', 'UNDECIDED')),
    pressure     text NOT NULL CHECK (pressure IN ('NOT_DONE', 'PASSED', 'FAILED', 'UNDECIDED')), -- of the proof test, as the next two
    leak         text NOT NULL CHECK (leak IN ('NOT_DONE', 'PASSED', 'FAILED', 'UNDECIDED')),
    movement     text NOT NULL CHECK (movement IN ('NOT_DONE', 'PASSED', 'FAILED', 'UNDECIDED')),
    PRIMARY KEY (order_number, assembly)
);
