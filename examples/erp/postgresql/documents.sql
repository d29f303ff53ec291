-- SPDX-License-Identifier: MIT
-- The two documents that fer_plan_setup_row takes, in PostgreSQL's own JSON functions. A number with its unit in the name
-- needs no text; null is what was not measured.

CREATE VIEW rack AS
SELECT json_agg(json_build_object('size_mm', size_mm, 'reach_mm', reach_mm, 'adapter', adapter, 'length_mm', length_mm)
                ORDER BY size_mm) AS dies
FROM dies;

CREATE VIEW order_documents AS
SELECT order_number, machine, joint, press, pieces,
    json_build_object('joint', json_build_object(
            'hose', json_build_object('inside_mm', hose_inside_mm, 'outside_mm', hose_outside_mm),
            'stem', json_build_object('outside_mm', stem_outside_mm, 'bore_mm', stem_bore_mm),
            'ferrule', json_build_object('wall_mm', ferrule_wall_mm, 'outside_mm', ferrule_outside_mm, 'length_mm', ferrule_length_mm)),
        'published_mm', published_mm, 'tolerance_mm', tolerance_mm, 'widest_mm', widest_mm, 'adapter_mounted', adapter) AS document
FROM orders JOIN joints USING (joint) JOIN presses USING (press);
