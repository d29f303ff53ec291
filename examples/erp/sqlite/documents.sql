-- SPDX-License-Identifier: MIT
-- The two documents that fer_plan_setup_row takes, in SQLite's own JSON functions. A number with its unit in the name needs no
-- text; null is what was not measured. (SQLite's JSON functions keep 15 digits of a number; where all of them count, write
-- fer_mm_text(x) under the name without the unit.)

CREATE VIEW rack AS
SELECT json_group_array(json_object('size_mm', size_mm, 'reach_mm', reach_mm, 'adapter', adapter, 'length_mm', length_mm)) AS dies
FROM (SELECT * FROM dies ORDER BY size_mm);

CREATE VIEW order_documents AS
SELECT order_number, machine, joint, press, pieces,
    json_object('joint', json_object(
            'hose', json_object('inside_mm', hose_inside_mm, 'outside_mm', hose_outside_mm),
            'stem', json_object('outside_mm', stem_outside_mm, 'bore_mm', stem_bore_mm),
            'ferrule', json_object('wall_mm', ferrule_wall_mm, 'outside_mm', ferrule_outside_mm, 'length_mm', ferrule_length_mm)),
        'published_mm', published_mm, 'tolerance_mm', tolerance_mm, 'widest_mm', widest_mm, 'adapter_mounted', adapter) AS document
FROM orders JOIN joints USING (joint) JOIN presses USING (press);
