# SPDX-License-Identifier: MIT
"""Rows of batch.h."""
from catalogue.shared import *  # noqa: F403

row("BatchQuestion", """words and texts stand for quantities; what is not given is the usual
>>> question = BatchQuestion(Wanted(("23.4 mm", "23.6 mm")), Measuring(resolution="0.01 mm"), lot=200)
>>> question.lot, question.allowed.fraction
(200, 0.0)
""")

row("fer_judge_batch", """one of five pieces is above 23.6 mm: all have to be measured
>>> question = BatchQuestion(Wanted(("23.4 mm", "23.6 mm")), Measuring("0.004 mm"), lot=200)
>>> answer = judge_batch(["23.51 mm", "23.49 mm", "23.52 mm", "23.50 mm", "23.66 mm"], question)
>>> answer.decision.name, answer.outside, answer.findings[0].name
('REJECT', 1, 'PIECE_OUTSIDE')
""", judged=DECIDES, pieces=SAMPLE_PIECES, question={
    "wanted": WANTED, "measuring": MEASURING, "lot": any_of(0, 12, 200), "allowed": any_of(0.0, 0.05), "confidence": BATCH_CONFIDENCE,
    "index": any_of(0.0, 1.0), "burst_aim": {"working": any_of(0.0, 25.0)}})

row("fer_batch_finding_name", """the name is the word itself
>>> batch_finding_name("level changed")
'LEVEL_CHANGED'
""", finding=(0, 39))

row("fer_batch_finding_sentence", """the sentence of the list
>>> batch_finding_sentence("gauge wide")
"more than half of the variance is the gauge's"
""", finding=(0, 39))

row("fer_batch_finding_severity", """the severity of the list
>>> batch_finding_severity("level changed").name
'DO_FIRST'
""", finding=(0, 39))
