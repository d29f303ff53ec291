-- SPDX-License-Identifier: MIT
-- May the assembly be handed over? One row for each assembly, and one for each of its open points.
CREATE VIEW end_documents AS
SELECT order_number, piece, json_object('diameter', json_object('outcome', outcome, 'limit', missed, 'read_again', json(CASE WHEN read_again THEN 'true' ELSE 'false' END)),
    'looks', looks, 'insertion', insertion, 'bore', bore) AS document
FROM end_checks AS e;

CREATE VIEW releases AS
SELECT a.order_number, a.assembly, fer_release_assembly(json_object(
        'first', json(f.document), 'second', json(s.document), 'parts', a.parts, 'hose_age', a.hose_age,
        'straight', json(CASE WHEN a.straight THEN 'true' ELSE 'false' END), 'length', a.length, 'orientation', a.orientation, 'cleanliness', a.cleanliness, 'marking', a.marking,
        'proof', json_object('pressure', a.pressure, 'leak', a.leak, 'movement', a.movement)), '[]') AS result
FROM assemblies AS a LEFT JOIN end_documents AS f ON f.order_number = a.order_number AND f.piece = a.first_piece
LEFT JOIN end_documents AS s ON s.order_number = a.order_number AND s.piece = a.second_piece;

CREATE VIEW open_points AS
SELECT order_number, assembly, 1 AS part, r.key AS place, r.value AS point, 'first end, ' || fer_end_point_sentence(r.value) AS sentence
FROM releases CROSS JOIN json_each(result, '$.first') AS r
UNION ALL
SELECT order_number, assembly, 2, r.key, r.value, 'second end, ' || fer_end_point_sentence(r.value)
FROM releases CROSS JOIN json_each(result, '$.second') AS r
UNION ALL
SELECT order_number, assembly, 3, r.key, r.value, fer_assembly_point_sentence(r.value)
FROM releases CROSS JOIN json_each(result, '$.assembly') AS r;

CREATE VIEW first_piece_points AS
SELECT order_number, piece, r.key AS place, r.value AS point, fer_end_point_sentence(r.value) AS sentence
FROM first_pieces CROSS JOIN json_each(result, '$.points') AS r;
