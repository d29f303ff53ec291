-- SPDX-License-Identifier: MIT
-- The documents that fer_plan_setup and fer_confirm_setup take, in SQLite's own JSON functions. A number with its unit in the name
-- needs no text; null is what was not measured. (SQLite's JSON functions keep 15 digits of a number; where all of them
-- count, write fer_mm_text(x) under the name without the unit.)

CREATE VIEW rack AS
SELECT json_group_array(json_object('size_mm', size_mm, 'reach_mm', reach_mm, 'adapter', adapter, 'length_mm', length_mm)) AS dies
FROM (SELECT * FROM dies ORDER BY size_mm);

CREATE VIEW metal_documents AS
SELECT metal, json_object('elastic_modulus_mpa', modulus_mpa, 'poisson_fraction', poisson_fraction, 'yield_strength_mpa', yield_strength_mpa,
    'hardening_mpa', hardening_mpa) AS document
FROM metals;

CREATE VIEW known AS
SELECT json_group_object(what, json_object('amount_mm', uncertainty_mm)) AS uncertainties FROM measuring;

CREATE VIEW order_documents AS
SELECT o.order_number, o.machine, o.joint, o.press, o.pieces, o.gauge,
    json_object('joint', json_object(
            'hose', json_object('inside_mm', j.hose_inside_mm, 'outside_mm', j.hose_outside_mm),
            'stem', json_object('outside_mm', j.stem_outside_mm, 'bore_mm', j.stem_bore_mm),
            'ferrule', json_object('wall_mm', j.ferrule_wall_mm, 'outside_mm', j.ferrule_outside_mm, 'length_mm', j.ferrule_length_mm)),
        'published_mm', j.published_mm, 'tolerance_mm', j.tolerance_mm, 'widest_mm', j.widest_mm, 'adapter_mounted', o.adapter,
        'uncertainties', json(k.uncertainties), 'ferrule_metal', json(f.document), 'stem_metal', json(s.document),
        'load', json_object('restraint_fraction', j.restraint_fraction, 'hose_pressure', fer_mpa_text(j.hose_pressure_mpa)),
        'minimum_bore_mm', j.minimum_bore_mm, 'applies_to', j.applies_to, 'approval', j.approval,
        'gauge', json_object('standard_uncertainty_mm', g.standard_uncertainty_mm, 'correction_mm', g.correction_mm,
                             'resolution_mm', g.resolution_mm),
        'insertion_mm', j.insertion_mm, 'skive_outside_mm', j.skive_outside_mm, 'skive_inside_mm', j.skive_inside_mm) AS document
FROM orders AS o JOIN joints AS j ON j.joint = o.joint JOIN gauges AS g ON g.gauge = o.gauge CROSS JOIN known AS k
LEFT JOIN metal_documents AS f ON f.metal = j.ferrule_metal LEFT JOIN metal_documents AS s ON s.metal = j.stem_metal;

CREATE VIEW confirmation_documents AS
SELECT order_number, remark, name, day, document, json_array(json(document)) AS alone
FROM (SELECT order_number, remark, name, day,
          json_object('remark', remark, 'target_mm', target_mm, 'tolerance_mm', tolerance_mm, 'die_mm', die_mm,
               'compression_fraction', compression_fraction) AS document
      FROM confirmations) AS c;

CREATE VIEW confirmation_lists AS
SELECT o.order_number, (SELECT json_group_array(json(c.document)) FROM confirmation_documents AS c
    WHERE c.order_number = o.order_number) AS confirmations
FROM orders AS o;
