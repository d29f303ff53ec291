# SPDX-License-Identifier: MIT
"""Write normal_table.h: the normal distribution's quantile as polynomials. Usage: normal_table.py > normal_table.h

A tail probability p from 2^-9 to 1/2 lies in one of eight octaves, each cut in two halves. In a half it is
p = 2^-e (middle + t), |t| <= 1/4, middle 5/4 or 7/4, and the quantile is a polynomial of degree 8 in t, interpolated at
Chebyshev's points with 40 digits (mpmath).
"""
from mpmath import chebyfit, erfinv, mp, mpf, sqrt

DEGREE, OCTAVES = 8, 8


def main():
    mp.dps = 40
    rows, worst = [], mpf(0)
    for octave in range(OCTAVES):
        low = mpf(2) ** (octave - OCTAVES - 1)
        for middle in (mpf(5) / 4, mpf(7) / 4):
            polynomial, error = chebyfit(lambda t: sqrt(2) * erfinv(1 - 2 * low * (middle + t)),
                                         [-mpf(1) / 4, mpf(1) / 4], DEGREE + 1, error=True)
            rows.append([float(c) for c in reversed(polynomial)])
            worst = max(worst, error)
    print("/* SPDX-License-Identifier: MIT */")
    print(f"/* Written by normal_table.py: coefficient of t^k in row k; largest error {float(worst):.2g}. */")
    print("#ifndef FER_NUMERIC_NORMAL_TABLE_H\n#define FER_NUMERIC_NORMAL_TABLE_H\n")
    print(f"enum {{ FER_NORMAL_DEGREE = {DEGREE}, FER_NORMAL_OCTAVES = {OCTAVES}, FER_NORMAL_PIECES = {2 * OCTAVES} }};\n")
    print("/* clang-format off */")
    print("static const double fer_normal_table[FER_NORMAL_DEGREE + 1][FER_NORMAL_PIECES] = {")
    for k in range(DEGREE + 1):
        print("    {" + ",\n     ".join(", ".join(repr(r[k]) for r in rows[i:i + 4]) for i in range(0, len(rows), 4)) + "},")
    print("};\n/* clang-format on */\n\n#endif")


main()
