# SPDX-License-Identifier: MIT
"""Monte Carlo, shares of mixtures and second order against NumPy, SciPy and mpmath."""
import concurrent.futures
import itertools
import math
import statistics

import ferrule as f
import mpmath
import numpy
import pytest
import scipy.special
import scipy.stats

BITS = 42
JOINT = f.Joint(hose=("12.7 mm", "19.9 mm"), stem="12.95 mm", ferrule=("2.4 mm", "25.6 mm"))
UNCERTAINTIES = f.Uncertainties(hose_inside="0.08 mm", hose_outside="0.1 mm", stem_outside="0.02 mm", ferrule_wall="0.03 mm",
                  diameter="0.05 mm")
USUAL = f.RatioRange("15 %", "25 %")


def philox(counter, key, bits, multipliers, steps):
    """Salmon et al. 2011, figure 2, for words of any size."""
    mask = (1 << bits) - 1
    a, b, c, d = counter
    for r in range(10):
        first, second = multipliers[0] * a, multipliers[1] * c
        k = [(key[i] + r * steps[i]) & mask for i in range(2)]
        a, b, c, d = (second >> bits) ^ b ^ k[0], second & mask, (first >> bits) ^ d ^ k[1], first & mask
    return a, b, c, d


def philox32(counter, key):
    return philox(counter, (key & 0xFFFFFFFF, key >> 32), 32, (0xD2511F53, 0xCD9E8D57), (0x9E3779B9, 0xBB67AE85))


def test_philox_is_that_of_numpy_with_other_constants():
    generator = numpy.random.Philox(counter=[7, 8, 9, 10], key=[11, 12])
    # NumPy counts up before it draws
    words = philox((8, 8, 9, 10), (11, 12), 64, (0xD2E7470EE14C6C93, 0xCA5A826395121157),
                   (0x9E3779B97F4A7C15, 0xBB67AE8584CAA73B))
    assert [int(w) for w in generator.random_raw(4)] == list(words)
    for counter, key in [((0, 0, 0, 0), 0), ((1, 2, 3, 4), 1 << 63 | 5), ((2 ** 32 - 1,) * 4, 2 ** 64 - 1)]:
        assert f.find_random_words((counter,), key).word == philox32(counter, key)


def uniforms(number, seed, stream=0):
    """The six uniform numbers of a trial, as the header describes them."""
    low, high = number & 0xFFFFFFFF, number >> 32
    words = [w for call in (0, 1) for w in philox32((low, high, call, stream), seed)]
    return [words[i] << 10 | (words[6 if i < 3 else 7] >> 10 * (i % 3) & 1023) for i in range(6)]


def test_deviates_are_quantiles_of_the_numbers():
    uncertainties = f.Uncertainties(hose_inside="1 mm", hose_outside=("1 mm", "rectangular"), stem_outside=("1 mm", "triangular"),
                      diameter="1 mm")
    joint = f.Joint(hose=("100 mm", "200 mm"), stem="150 mm", ferrule="5 mm")
    for number in list(range(3000)) + [2 ** 40 + 3, 2 ** 54 - 1]:
        drawn, diameter = f.draw_joint(joint, uncertainties, "300 mm", number, f.Trials(seed=987654321987654321))
        u = [(n + 0.5) / 2 ** BITS for n in uniforms(number, 987654321987654321)]
        assert drawn.hose.inside.mm - 100 == pytest.approx(scipy.special.ndtri(u[0]), abs=2e-10)
        assert drawn.hose.outside.mm - 200 == pytest.approx(2 * u[1] - 1, abs=1e-12)
        assert drawn.stem.outside.mm - 150 == pytest.approx(scipy.stats.triang.ppf(u[2], 0.5, -1, 2), abs=1e-12)
        assert diameter.mm - 300 == pytest.approx(scipy.special.ndtri(u[5]), abs=2e-10)
        assert drawn.ferrule.wall.mm == 5


def test_points_are_those_of_sobol():
    uncertainties = f.Uncertainties(*[("1 mm", "rectangular")] * 6)
    joint = f.Joint(hose=("100 mm", "200 mm"), stem="150 mm", ferrule=("5 mm", "250 mm"))
    reference = scipy.stats.qmc.Sobol(6, scramble=False).random_base2(14)
    block, seed = 3, 99
    shift = uniforms(block, seed, stream=1)
    for i in list(range(40)) + [127, 128, 129, 5000, 16383]:
        drawn, diameter = f.draw_joint(joint, uncertainties, "300 mm", block * f.TRIALS_A_BLOCK + i,
                                       f.Trials(seed=seed, sequence="sobol"))
        found = [drawn.hose.inside.mm - 100, drawn.hose.outside.mm - 200, drawn.stem.outside.mm - 150,
                 drawn.ferrule.wall.mm - 5, drawn.ferrule.outside.mm - 250, diameter.mm - 300]
        expected = [int(x * 2 ** BITS) ^ s for x, s in zip(reference[i], shift)]
        for x, n in zip(found, expected):
            assert (x + 1) / 2 * 2 ** BITS - 0.5 == pytest.approx(n, abs=1)


def test_threads_give_the_same_bits():
    whole = f.simulate_compression(JOINT, UNCERTAINTIES, USUAL, "23.51 mm", trials=f.Trials(seed=5, blocks=24))
    count = f.simulate_shares(JOINT, UNCERTAINTIES, USUAL, "23.51 mm", trials=f.Trials(seed=5, blocks=24))
    assert whole.count == count
    for threads in (1, 2, 3, 8):
        with concurrent.futures.ThreadPoolExecutor(threads) as pool:
            size = 24 // threads
            jobs = [pool.submit(f.simulate_compression, JOINT, UNCERTAINTIES, USUAL, "23.51 mm", None,
                                f.Trials(seed=5, first_block=i * size, blocks=size)) for i in range(threads)]
            parts = [job.result() for job in concurrent.futures.as_completed(jobs)]
        merged = parts[0]
        for part in parts[1:]:
            merged = f.merge_tallies(merged, part)
        assert merged == whole


# ---- exact share of mixtures: a closed formula with many digits, which the library does not use

def above(y, deviation, power):
    """E[max(y - sZ, 0)^k]/k! of a normal number sZ."""
    if deviation == 0:
        return (y ** power / mpmath.factorial(power) if y > 0 else mpmath.mpf(0)) if power else mpmath.mpf(y > 0)
    z = mpmath.mpf(y) / deviation
    density, integral = mpmath.npdf(z), mpmath.ncdf(z)
    before, now = density, integral
    for k in range(1, power + 1):
        before, now = now, (z * now + before) / k
    return now * mpmath.mpf(deviation) ** power


def mixture_cdf(x, deviation, rectangular, triangular):
    """Sum over all corners of the parts, divided by their widths; a triangular number is two rectangular ones."""
    halves = [mpmath.mpf(h) for h in rectangular] + [mpmath.mpf(h) / 2 for h in triangular for _ in range(2)]
    total = sum(math.prod(s) * above(x + mpmath.fdot(s, halves), deviation, len(halves))
                for s in itertools.product((1, -1), repeat=len(halves)))
    return total / mpmath.fprod(2 * h for h in halves)


MIXTURES = [(n, r, t) for n, r, t in [
    (0.05, [0.05], []), (0.05, [0.3], []), (0.05, [1e-9], []), (1e-9, [0.1], []), (0.05, [], [0.4]), (0.05, [0.049], [0.051]),
    (0.0, [0.1], [0.1]), (0.0, [0.1], [1e-7]), (0.0, [1e-7, 0.1], []), (0.0, [], [0.1, 0.2, 0.05]), (0.0, [0.1, 0.1], [0.1]),
    (1e-4, [0.2, 1e-3], []), (1e-4, [0.2, 1e-5], [1e-5]), (0.01, [0.2], [0.3]), (0.02, [0.02], [0.02, 0.5]), (1e-12, [], [0.1]),
    (0.1, [0.2, 0.05], [0.1]), (1e-3, [0.4], []), (0.0, [0.1], [1e-5])]]


@pytest.mark.parametrize("deviation, rectangular, triangular", MIXTURES)
def test_shares_of_a_mixture(deviation, rectangular, triangular):
    parts = [(h, "rectangular") for h in rectangular] + [(h, "triangular") for h in triangular]
    joint = f.Joint(hose=("100 mm", "200 mm"), stem="150 mm", ferrule="10 mm")
    # at the limit 0 % D, s, do and di count with factor 1
    inputs = [(deviation, "normal")] + parts
    uncertainties = f.Uncertainties(**{name: (f.mm(a), shape) for name, (a, shape) in
                         zip(["diameter", "stem_outside", "hose_outside", "hose_inside"], inputs)})
    reach = 4 * deviation + sum(rectangular) + sum(triangular)
    with mpmath.workdps(90):
        for share in (-0.999, -0.6, -0.1, 0.0, 1e-3, 0.25, 0.8, 1.1):
            x = share * reach
            diameter = 270 + x
            exact = mixture_cdf(diameter - mpmath.mpf(270), deviation, rectangular, triangular)
            found = f.conforming_share(joint, uncertainties, f.RatioRange("0 %", "90 %"), f.mm(diameter)).below.fraction
            assert found == pytest.approx(float(exact), abs=1e-10 + 1e-13 / reach)


# ---- second order against the moments by Gauss-Hermite quadrature

@pytest.mark.parametrize("basis", list(f.Basis))
@pytest.mark.parametrize("flow", list(f.Flow))
def test_second_order_is_nearer_to_the_truth(basis, flow):
    nodes, weights = numpy.polynomial.hermite_e.hermegauss(5)
    # a stem so thick that no node of the quadrature reaches the kink of the fitted wall
    joint = JOINT.replace(hose=JOINT.hose.replace(reinforcement="0.8 mm"), stem="13.2 mm")
    model, mean, square = f.Model(basis, flow), 0.0, 0.0
    u = [0.08, 0.1, 0.02, 0.03, 0.04, 0.05] if flow else [0.08, 0.1, 0.02, 0.03, 0.0, 0.05]
    places = [range(5) if amount else [2] for amount in u]
    total = 0.0
    for which in itertools.product(*places):
        z = [nodes[i] * amount for i, amount in zip(which, u)]
        weight = math.prod(weights[i] for i in which)
        moved = f.Joint(hose=(f.mm(12.7 + z[0]), f.mm(19.9 + z[1]), "0.8 mm"), stem=f.mm(13.2 + z[2]),
                        ferrule=(f.mm(2.4 + z[3]), f.mm(25.6 + z[4])))
        c = f.compression(moved, f.mm(23.51 + z[5]), model).fraction
        total, mean, square = total + weight, mean + weight * c, square + weight * c * c
    mean /= total
    true = math.sqrt(square / total - mean * mean)
    uncertainties = f.Uncertainties(*map(f.mm, u))
    found = f.second_order_uncertainty(joint, uncertainties, "23.51 mm", model)
    assert found.first_order == f.uncertainty_budget(joint, uncertainties, "23.51 mm", "95 %", model).standard_uncertainty
    assert found.shift.fraction == pytest.approx(mean - found.compression.fraction, rel=0.02, abs=1e-7)
    assert abs(found.second_order.fraction - true) < 0.05 * abs(found.first_order.fraction - true) + 1e-7


def test_sobol_needs_fewer_trials():
    """Root mean square error of the mean of a block, 40 blocks, by that of random numbers."""
    def error(sequence):
        blocks = [f.summarise_tally(f.simulate_compression(JOINT, UNCERTAINTIES, USUAL, "23.51 mm", trials=f.Trials(
            seed=1, first_block=i, sequence=sequence)), 2).mean.fraction for i in range(40)]
        return statistics.stdev(blocks)
    assert error("random") > 10 * error("sobol")


def test_the_main_job_by_simulation():
    order = f.Order(joint=JOINT, uncertainties=UNCERTAINTIES)
    dies = ["22 mm", "23.5 mm", "16 mm"]
    tally, uses = f.simulate_setups(order, f.Press(graduation="0.1 mm"), dies, f.Trials(seed=3, blocks=8))
    assert sum(uses) == tally.count.trials == 8 * f.TRIALS_A_BLOCK
    # the target is 23.51 +- u(D) of the slopes of the plain formula; it takes the die of 23.5 mm above it
    u = math.sqrt(0.8 ** 2 * (0.08 ** 2 + 0.1 ** 2) + 0.02 ** 2 + 4 * 0.03 ** 2)
    share = statistics.NormalDist(23.51, u).cdf(23.5)
    assert uses[0] / sum(uses) == pytest.approx(share, abs=4 * math.sqrt(0.25 / sum(uses)))
    assert uses[2:] == [0, 0]
