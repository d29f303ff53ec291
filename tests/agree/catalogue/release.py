# SPDX-License-Identifier: MIT
"""Rows of release.h."""
from catalogue.shared import *  # noqa: F403

row("DiameterCheck", """a word stands for the whole check; read again only after it failed
>>> EndChecks(diameter="passed").diameter == DiameterCheck("passed") != DiameterCheck("passed", by_sample=True)
True
""")

row("EndChecks", """what nobody checked is not done
>>> EndChecks(looks="good").bore.name
'NOT_DONE'
""")

row("AssemblyChecks", """nothing checked, nothing released
>>> AssemblyChecks().proof.leak.name, release_assembly(AssemblyChecks()).decision.name
('NOT_DONE', 'HOLD')
""")

row("FirstPieceChecks", """a change makes another first piece due
>>> check_first_piece(FirstPieceChecks(EndChecks("passed", "good", bore="passed"), changed=["dial"])).changed[0].sentence
'the dial was set anew'
""")

row("fer_enter_inspection", """23.9 mm is above 23.7 mm, by hand
>>> order = Order(Joint(("12.7 mm", "19.9 mm"), "12.95 mm", "2.4 mm"), published="23.5 mm", tolerance="0.2 mm")
>>> found = inspect_crimp(plan_setup(order, Press(), ["22 mm"]), ["23.9 mm"], Gauge("0.01 mm"))
>>> check = enter_inspection(found)
>>> check.outcome.name, check.limit.name
('FAILED', 'UPPER')
""", judged=DECIDES, inspection={"verdict": {
    "decision": any_of("UNDECIDED", "ACCEPT", "REJECT"), "below": (0, 1), "above": (0, 1)}})

row("fer_check_first_piece", """diameter, looks and bore of this very piece, and nothing changed since
>>> piece = EndChecks(diameter="passed", looks="good", bore="passed")
>>> check_first_piece(piece).rest_allowed, check_first_piece(FirstPieceChecks(piece, changed=["die"])).rest_allowed
(True, False)
>>> [point.name for point in check_first_piece(piece.replace(looks="too loose")).points]
['LOOKS_TOO_LOOSE']
""", judged=DECIDES, checks={"piece": END, "changed": {"bits": any_of(0, 0, 0, 1, 36, 127)}})

row("fer_release_assembly", """the rules of the manual's page Release
>>> end = EndChecks(diameter="passed", looks="good", insertion="passed", bore="passed")
>>> checks = AssemblyChecks(end, end, parts="passed", hose_age=9, length="passed", cleanliness="passed", marking="passed",
...                         straight=True)
>>> release = release_assembly(checks)
>>> release.decision.name, [point.name for point in release.assembly]
('HOLD', ['PROOF_NOT_DONE'])
>>> release_assembly(checks.replace(proof=ProofTest("passed", "passed", "passed"))).decision.sentence
'released: everything that is needed was checked and passed'
""", judged=DECIDES, checks=CHECKS, needs={"needed": {"bits": (0, 2047)}, "hose_age_limit": (0, 60)})

row("fer_end_point_name", """the name is the word itself
>>> end_point_name("bore too small")
'BORE_TOO_SMALL'
""", point=(0, 31))

row("fer_end_point_sentence", """the sentence of the list
>>> end_point_sentence("diameter above")
'diameter: above the upper limit, also when read again: never crimp it again...'
""", point=(0, 31))

row("fer_end_point_severity", """a bad look stops, a missing one has to be made up for
>>> end_point_severity("looks too loose").name, end_point_severity("looks not done").name
('STOP', 'DO_FIRST')
""", point=(0, 31))

row("fer_assembly_point_name", """the name is the word itself
>>> assembly_point_name("proof leak")
'PROOF_LEAK'
""", point=(0, 31))

row("fer_assembly_point_sentence", """the sentence of the list
>>> assembly_point_sentence("proof leak")
'proof test: the assembly leaks'
""", point=(0, 31))

row("fer_assembly_point_severity", """the person responsible has to answer for an old hose
>>> assembly_point_severity("hose too old").name
'CONFIRM'
""", point=(0, 31))

row("fer_disposition_name", """the name is the word itself
>>> disposition_name("hold")
'HOLD'
""", disposition=(0, 31))

row("fer_disposition_sentence", """the sentence of the list
>>> disposition_sentence("scrap")
'scrap: cut it up, nothing on it is used again'
""", disposition=(0, 31))

row("fer_change_name", """the name is the word itself
>>> change_name("hose batch")
'HOSE_BATCH'
""", change=(0, 31))

row("fer_change_sentence", """the sentence of the list
>>> change_sentence("adapter")
'an adapter set went in or came out'
""", change=(0, 31))
