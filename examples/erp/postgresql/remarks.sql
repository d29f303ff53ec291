-- SPDX-License-Identifier: MIT
-- What to check on an order, and which cautions go with it: one row per remark.
CREATE VIEW remarks AS
SELECT order_number, r.place, r.remark, fer_remark_sentence(r.remark) AS sentence
FROM set_up_sheet CROSS JOIN json_array_elements_text(remarks) WITH ORDINALITY AS r(remark, place);

CREATE VIEW cautions AS
SELECT order_number, c.caution, fer_caution_text(c.caution) AS sentence
FROM set_up_sheet CROSS JOIN json_array_elements_text(cautions) AS c(caution);
