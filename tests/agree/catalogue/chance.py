# SPDX-License-Identifier: MIT
"""Rows of chance.h."""
from catalogue.shared import *  # noqa: F403

row("fer_find_random_words", """known answer of Philox 4x32-10 (Salmon et al. 2011; from memory)
>>> hex(find_random_words(RandomWords((0, 0, 0, 0)), 0).word[0])
'0x6627e8d5'
""", counter={"word": repeated(4, (0, 2**31 - 1))}, key=(0, 2**31 - 1))


def philox(counter, key):
    """Philox 4x32-10, Salmon et al. 2011, figure 2."""
    a, b, c, d = counter
    low, high = key & 0xFFFFFFFF, key >> 32
    for _ in range(10):
        first, second = 0xD2511F53 * a, 0xCD9E8D57 * c
        a, b, c, d = (second >> 32) ^ b ^ low, second & 0xFFFFFFFF, (first >> 32) ^ d ^ high, first & 0xFFFFFFFF
        low, high = (low + 0x9E3779B9) & 0xFFFFFFFF, (high + 0xBB67AE85) & 0xFFFFFFFF
    return a, b, c, d


def uniforms(seed, number):
    """The six uniform numbers of a trial, each in the middle of its step of 2^-42."""
    words = [philox((number & 0xFFFFFFFF, number >> 32, k, 0), seed) for k in (0, 1)]
    upper, rest = (*words[0], *words[1][:2]), words[1][2:]
    return [(2 * (upper[i] << 10 | rest[i // 3] >> 10 * (i % 3) & 1023) + 1) * mpf(2) ** -43 for i in range(6)]


@case("fer_find_random_words", "ulp", 0)
def random_words(rng):
    counter, key = [rng.getrandbits(32) for _ in range(4)], rng.getrandbits(64)
    found = f.find_random_words(f.RandomWords(counter), key)
    return {"words": (float(sum(a != b for a, b in zip(found.word, philox(counter, key)))), mpf(0))}


row("fer_draw_joint", """only the crimp diameter is uncertain, so the joint is drawn as it is
>>> joint = Joint(("12.7 mm", "19.9 mm"), "12.95 mm", "2.4 mm")
>>> drawn, diameter = draw_joint(joint, Uncertainties(diameter="0.05 mm"), "23.51 mm", 1)
>>> drawn == joint, abs(diameter - mm(23.51)) < mm(0.5)
(True, True)
""")


@case("fer_draw_joint", "relative", 1.3e-10, 0.2)
def draw_joint(rng):
    """Deviates by the inverse of their distributions."""
    seed, number = rng.getrandbits(64), rng.randrange(2**54)
    shapes = {name: rng.choice(list(DISTRIBUTIONS)) for name in INPUTS}
    uncertainties = f.Uncertainties(**{name: f.Uncertainty(mm(100), shape) for name, shape in shapes.items()})
    drawn, diameter = f.draw_joint(WORKED, uncertainties, mm(23.51), number, f.Trials(seed=seed))
    found = (drawn.hose.inside.mm, drawn.hose.outside.mm, drawn.stem.outside.mm, drawn.ferrule.wall.mm, drawn.ferrule.outside.mm, diameter.mm)
    results = {}
    for name, value, mean, u in zip(INPUTS, found, (12.7, 19.9, 12.95, 2.4, 25.6, 23.51), uniforms(seed, number)):
        tail = 2 * u - 1
        with mp.workprec(120):
            exact = {"NORMAL": lambda: sqrt(mpf(2)) * mp.erfinv(tail), "RECTANGULAR": lambda: tail,
                     "TRIANGULAR": lambda: mp.sign(tail) * (1 - sqrt(1 - abs(tail)))}[shapes[name]]()
        results[f"{shapes[name].lower()}, of 1"] = ((value - mean) / 100, exact, mpf(1))
    return results


row("fer_simulate_shares", """the worked figure 0.99401852, within five standard errors
>>> joint = Joint(("12.7 mm", "19.9 mm"), "12.95 mm", "2.4 mm")
>>> uncertainties = Uncertainties(hose_inside="0.08 mm", hose_outside="0.10 mm", stem_outside="0.02 mm", ferrule_wall="0.03 mm", diameter="0.05 mm")
>>> found = find_simulated_shares(simulate_shares(joint, uncertainties, ("15 %", "25 %"), "23.51 mm"))
>>> abs(found.shares.inside - percent(99.401852)) < 5 * found.standard_error
True
""", judged="counts: exactly those of its trials (fer_summarise_tally), against the exact share in tests/agree/simulation")

row("fer_merge_counts", """two blocks are twice the trials of one
>>> joint, uncertainties = Joint(("12.7 mm", "19.9 mm"), "12.95 mm", "2.4 mm"), Uncertainties(diameter="0.1 mm")
>>> one, other = (simulate_shares(joint, uncertainties, ("15 %", "25 %"), "23.51 mm", trials=Trials(first_block=n)) for n in (0, 1))
>>> merge_counts(one, other).trials == 2 * one.trials
True
""", judged="sums of whole numbers")

row("fer_find_simulated_shares", """as much lies inside as does not lie below or above
>>> joint, uncertainties = Joint(("12.7 mm", "19.9 mm"), "12.95 mm", "2.4 mm"), Uncertainties(diameter="0.1 mm")
>>> shares = find_simulated_shares(simulate_shares(joint, uncertainties, ("15 %", "25 %"), "23.51 mm")).shares
>>> f"{shares.inside + shares.below + shares.above:.6f %}"
'100.000000 %'
""", judged="under fer_summarise_tally")

row("fer_simulate_compression", """worked figures: 20 % with a standard uncertainty of 1.8 %
>>> joint = Joint(("12.7 mm", "19.9 mm"), "12.95 mm", "2.4 mm")
>>> uncertainties = Uncertainties(hose_inside="0.08 mm", hose_outside="0.10 mm", stem_outside="0.02 mm", ferrule_wall="0.03 mm", diameter="0.05 mm")
>>> found = summarise_tally(simulate_compression(joint, uncertainties, ("15 %", "25 %"), "23.51 mm"), 1)
>>> f"{found.mean:.0f %}, {found.standard_uncertainty:.1f %}"
'20 %, 1.8 %'
""", judged="as fer_simulate_shares()")

row("fer_merge_tallies", """two blocks are twice the trials of one
>>> joint, uncertainties = Joint(("12.7 mm", "19.9 mm"), "12.95 mm", "2.4 mm"), Uncertainties(diameter="0.1 mm")
>>> one, other = (simulate_compression(joint, uncertainties, ("15 %", "25 %"), "23.51 mm", trials=Trials(first_block=n)) for n in (0, 1))
>>> merge_tallies(one, other).count.trials == 2 * one.count.trials
True
""", judged="sums of whole numbers")

row("fer_summarise_tally", """plain formula, only the diameter uncertain: 0.1/7.2, by hand
>>> joint, uncertainties = Joint(("12.7 mm", "19.9 mm"), "12.95 mm", "2.4 mm"), Uncertainties(diameter="0.1 mm")
>>> f"{summarise_tally(simulate_compression(joint, uncertainties, ('15 %', '25 %'), '23.51 mm'), 1).standard_uncertainty:.1f %}"
'1.4 %'
""")


@case("fer_summarise_tally", "relative", 1e-11, 0.0005)
def summarise_tally(rng):
    """One block: mean and deviation of its trials, drawn one by one; and the share inside, counted."""
    uncertainties = f.Uncertainties(hose_outside=mm(rng.uniform(0.02, 0.2)), diameter=mm(rng.uniform(0.02, 0.1)))
    trials, limits = f.Trials(seed=rng.getrandbits(64), first_block=rng.randrange(1000)), (f.fraction(0.15), f.fraction(0.25))
    tally = f.simulate_compression(WORKED, uncertainties, limits, mm(23.51), None, trials)
    counted = f.find_simulated_shares(f.simulate_shares(WORKED, uncertainties, limits, mm(23.51), None, trials))
    found, values = f.summarise_tally(tally, 2), []
    for number in range(trials.first_block * f.TRIALS_A_BLOCK, (trials.first_block + 1) * f.TRIALS_A_BLOCK):
        joint, at = f.draw_joint(WORKED, uncertainties, mm(23.51), number, trials)
        hose = mpf(joint.hose.outside.mm) - mpf(joint.hose.inside.mm)
        values.append(1 - (mpf(at.mm) - 2 * mpf(joint.ferrule.wall.mm) - mpf(joint.stem.outside.mm)) / hose)
    mean = sum(values) / len(values)
    deviation = sqrt(sum((x - mean) ** 2 for x in values) / (len(values) - 1))
    inside = mpf(sum(mpf(0.15) <= x <= mpf(0.25) for x in values)) / len(values)
    return {"mean": (found.mean.fraction, mean), "standard_uncertainty": (found.standard_uncertainty.fraction, deviation),
            "fer_find_simulated_shares: inside": (counted.shares.inside.fraction, inside),
            "fer_find_simulated_shares: standard_error": (counted.standard_error.fraction, sqrt(inside * (1 - inside) / len(values)))}


row("fer_find_tally_quantile", """half of the compressions lie below the middle
>>> joint, uncertainties = Joint(("12.7 mm", "19.9 mm"), "12.95 mm", "2.4 mm"), Uncertainties(diameter="0.1 mm")
>>> f"{find_tally_quantile(simulate_compression(joint, uncertainties, ('15 %', '25 %'), '23.51 mm'), '50 %'):.0f %}"
'20 %'
""", judged="within the class that the trials fell into: 1/32 of the standard uncertainty by definition")

row("fer_simulate_to_digits", """plain formula, only the diameter uncertain: 0.1/7.2, by hand
>>> joint, uncertainties = Joint(("12.7 mm", "19.9 mm"), "12.95 mm", "2.4 mm"), Uncertainties(diameter="0.1 mm")
>>> tally, found = simulate_to_digits(joint, uncertainties, ("15 %", "25 %"), "23.51 mm", 1, trials=Trials(blocks=20))
>>> f"{found.standard_uncertainty:.1f %}"
'1.4 %'
""", judged="as fer_simulate_shares()")

row("fer_simulate_setups", """the target is 23.51 ± 0.1: the 22 mm die is always the nearest below
>>> joint, uncertainties = Joint(("12.7 mm", "19.9 mm"), "12.95 mm", "2.4 mm"), Uncertainties(diameter="0.02 mm", stem_outside="0.02 mm")
>>> tally, uses = simulate_setups(Order(joint, uncertainties=uncertainties), Press(graduation="0.05 mm"), ["16 mm", "22 mm", "25 mm"])
>>> [share / sum(uses) for share in uses]  # the last: no die
[0.0, 1.0, 0.0, 0.0]
""", judged="as fer_simulate_shares()")
