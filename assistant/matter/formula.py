"""The general formula of OIML R 22 as it is printed, in kg/m³ and mass fractions: numbers in, numbers out, no limits checked.

source    OIML R 22 (1975), International alcoholometric tables; the same formula is annexed to Directive 76/766/EEC. Read at second hand: five of
          seven public copies agree in every digit, one of them transcribed from the scan and tried on 38 cells of table I.
range     mass fraction 0 to 1, -20 to 40 °C

        rho(p, t) = sum A[k] p^k + sum B[k] d^k + sum over i of d^i sum C[i][k] p^k        d = t - 20 °C, rho in kg/m³

At every temperature of the range the density falls as the mass fraction rises (shown by tests/matter).
"""

from collections.abc import Sequence
from functools import lru_cache

SOURCE = "OIML R 22 (1975), general formula, 20 °C"
EVIDENCE = "read"

#: Reference temperature of strength [°C] and range of the formula [°C].
REFERENCE = 20.0
COLDEST, WARMEST = -20.0, 40.0

# A[0] is water at 20 °C. Powers of p go up from 0 in A and from 1 in C; powers of d from 1 in B.
A = (
    998.20123, -192.9769495, 389.1238958, -1668.103923, 13522.15441, -88292.78388,
    306287.4042, -613838.1234, 747017.2998, -547846.1354, 223446.0334, -39032.85426,
)  # fmt: skip
B = (-0.20618513, -0.0052682542, 3.6130013e-05, -3.8957702e-07, 7.169354e-09, -9.9739231e-11)
C = (
    (
        0.1693443461530087, -10.46914743455169, 71.96353469546523, -704.7478054272792, 3924.090430035045, -12101.64659068747,
        22486.46550400788, -26055.62982188164, 18523.73922069467, -7420.201433430137, 1285.617841998974,
    ),
    (
        -0.0119301300505701, 0.2517399633803461, -2.170575700536993, 13.53034988843029, -50.29988758547014, 109.635566657757,
        -142.2753946421155, 108.043594285623, -44.14153236817392, 7.442971530188783,
    ),
    (
        -0.0006802995733503803, 0.01876837790289664, -0.2002561813734156, 1.02299296671922, -2.895696483903638, 4.810060584300675,
        -4.672147440794683, 2.458043105903461, -0.5411227621436812,
    ),
    (4.075376675622027e-06, -8.76305857347111e-06, 6.515031360099368e-06, -1.51578483698721e-06),
    (-2.788074354782409e-08, 1.345612883493354e-08),
)  # fmt: skip


def value(rho: Sequence[float], p: float) -> float:
    """Density [kg/m³] at a mass fraction, from the coefficients of one temperature."""
    total = 0.0
    for a in reversed(rho):
        total = total * p + a
    return total


#: Density of pure alcohol at 20 °C by the formula [kg/m³]; strength 100 % is exactly this.
ALCOHOL = value(A, 1.0)


@lru_cache(maxsize=64)
def coefficients_at(celsius: float) -> tuple[float, ...]:
    """Coefficients of the density in powers of p at one temperature: the two-way formula with d worked in."""
    d = celsius - REFERENCE
    rho = list(A)
    rho[0] += sum(b * d ** (k + 1) for k, b in enumerate(B))
    for i, row in enumerate(C, start=1):
        for k, c in enumerate(row, start=1):
            rho[k] += c * d**i
    return tuple(rho)


def value_and_slope(rho: tuple[float, ...], p: float) -> tuple[float, float]:
    """Density [kg/m³] and its slope in p, written out: this is where nearly all of a turn's arithmetic on spirits happens."""
    a0, a1, a2, a3, a4, a5, a6, a7, a8, a9, a10, a11 = rho
    value = a0 + p * (a1 + p * (a2 + p * (a3 + p * (a4 + p * (a5 + p * (a6 + p * (a7 + p * (a8 + p * (a9 + p * (a10 + p * a11))))))))))
    slope = a1 + p * (
        2 * a2 + p * (3 * a3 + p * (4 * a4 + p * (5 * a5 + p * (6 * a6 + p * (7 * a7 + p * (8 * a8 + p * (9 * a9 + p * (10 * a10 + p * 11 * a11))))))))
    )
    return value, slope


def fraction_at(rho: tuple[float, ...], target: float) -> float:
    """Mass fraction at which the falling density `rho` comes down to the target: Newton, halving the bracket where a step would leave it."""
    low, high = 0.0, 1.0
    p = 0.5
    for _ in range(80):
        here, slope = value_and_slope(rho, p)
        if here > target:
            low = p
        else:
            high = p
        step = (here - target) / slope
        p -= step
        if not low <= p <= high:
            p = (low + high) / 2
        elif abs(step) < 1e-13:
            break
    return p
