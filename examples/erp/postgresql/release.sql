-- SPDX-License-Identifier: MIT
-- May the assembly be handed over? One row for each assembly, and one for each of its open points.
CREATE VIEW end_documents AS
SELECT order_number, piece, json_build_object('diameter', json_build_object('outcome', outcome, 'limit', missed, 'read_again', read_again),
    'looks', looks, 'insertion', insertion, 'bore', bore) AS document
FROM end_checks AS e;

CREATE VIEW releases AS
SELECT a.order_number, a.assembly, fer_release_assembly(json_build_object(
        'first', f.document, 'second', s.document, 'parts', a.parts, 'hose_age', a.hose_age,
        'straight', a.straight, 'length', a.length, 'orientation', a.orientation, 'cleanliness', a.cleanliness, 'marking', a.marking,
        'proof', json_build_object('pressure', a.pressure, 'leak', a.leak, 'movement', a.movement)), '[]') AS result
FROM assemblies AS a LEFT JOIN end_documents AS f ON f.order_number = a.order_number AND f.piece = a.first_piece
LEFT JOIN end_documents AS s ON s.order_number = a.order_number AND s.piece = a.second_piece;

CREATE VIEW open_points AS
SELECT order_number, assembly, 1 AS part, r.place AS place, r.point AS point, 'first end, ' || fer_end_point_sentence(r.point) AS sentence
FROM releases CROSS JOIN json_array_elements_text(result -> 'first') WITH ORDINALITY AS r(point, place)
UNION ALL
SELECT order_number, assembly, 2, r.place, r.point, 'second end, ' || fer_end_point_sentence(r.point)
FROM releases CROSS JOIN json_array_elements_text(result -> 'second') WITH ORDINALITY AS r(point, place)
UNION ALL
SELECT order_number, assembly, 3, r.place, r.point, fer_assembly_point_sentence(r.point)
FROM releases CROSS JOIN json_array_elements_text(result -> 'assembly') WITH ORDINALITY AS r(point, place);

CREATE VIEW first_piece_points AS
SELECT order_number, piece, r.place AS place, r.point AS point, fer_end_point_sentence(r.point) AS sentence
FROM first_pieces CROSS JOIN json_array_elements_text(result -> 'points') WITH ORDINALITY AS r(point, place);
