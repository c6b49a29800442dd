"""Writes reference.csv: elementary functions by mpmath with 60 digits.

Numbers are bit patterns; each result is a double and what is left over, also as a double.
"""

import math
import struct

import mpmath
import numpy as np

mpmath.mp.dps = 400  # arguments up to 2**1000 have to be reduced
rng = np.random.default_rng(20)
POINTS = 24


def bits(value):
    return f"{struct.unpack('<Q', struct.pack('<d', value))[0]:016x}"


def parts(value):
    high = float(value)
    low = 0.0 if math.isinf(high) else float(value - mpmath.mpf(high))
    return [bits(high), bits(low)]


def log_uniform(low, high, signed=True):
    values = 2.0 ** rng.uniform(low, high, POINTS)
    return values * rng.choice([-1.0, 1.0], POINTS) if signed else values


def near_one(low, high):
    radius, angle = 1.0 + log_uniform(low, high), rng.uniform(0, 2 * np.pi, POINTS)
    return radius * np.cos(angle), radius * np.sin(angle)


def plane(low, high):
    return log_uniform(low, high), log_uniform(low, high)


REAL = {
    "exp": (mpmath.exp, [rng.uniform(-745, 709.7, POINTS), rng.uniform(-1, 1, POINTS), log_uniform(-60, 9)]),
    "exp_m1": (
        mpmath.expm1,
        [rng.uniform(-60, 709.7, POINTS), rng.uniform(-1, 1, POINTS), log_uniform(-1060, 5)],
    ),
    "ln": (
        mpmath.log,
        [log_uniform(-1074, 1023.9, False), rng.uniform(0.5, 2, POINTS), 1 + log_uniform(-50, -2)],
    ),
    "ln_1p": (
        mpmath.log1p,
        [log_uniform(-1060, 1023.9, False), rng.uniform(-0.9, 2, POINTS), -1 + log_uniform(-52, -1, False)],
    ),
    "sin": (
        mpmath.sin,
        [
            rng.uniform(-1e5, 1e5, POINTS),
            log_uniform(-1060, 3),
            np.arange(POINTS) * np.pi / 2,
            log_uniform(20, 1000),
        ],
    ),
    "cos": (
        mpmath.cos,
        [
            rng.uniform(-1e5, 1e5, POINTS),
            log_uniform(-1060, 3),
            np.arange(POINTS) * np.pi / 2,
            log_uniform(20, 1000),
        ],
    ),
}
PLANE = {
    "atan2": (lambda y, x: mpmath.atan2(y, x), [plane(-20, 20), plane(-500, 500), plane(-1, 1)]),
    "ln_norm_sqr": (
        lambda x, y: mpmath.log(x * x + y * y),
        [plane(-500, 500), near_one(-40, -1), plane(-1, 1)],
    ),
    "sqrt": (lambda x, y: mpmath.sqrt(mpmath.mpc(x, y)), [plane(-30, 30), plane(-1040, 1020), plane(-1, 1)]),
    "complex_exp": (
        lambda x, y: mpmath.exp(mpmath.mpc(x, y)),
        [(rng.uniform(-700, 700, POINTS), rng.uniform(-1e5, 1e5, POINTS)), plane(-20, 2)],
    ),
    "complex_exp_m1": (lambda x, y: mpmath.expm1(mpmath.mpc(x, y)), [plane(-30, 3), plane(-2, 2)]),
    "complex_ln": (lambda x, y: mpmath.log(mpmath.mpc(x, y)), [plane(-30, 30), near_one(-40, -1)]),
    "recip": (lambda x, y: 1 / mpmath.mpc(x, y), [plane(-60, 60)]),
}

with open("reference.csv", "w", encoding="ascii") as table:
    for name, (function, sets) in REAL.items():
        for values in sets:
            for x in values:
                x = float(x)
                row = [name, bits(x), bits(0.0), *parts(function(mpmath.mpf(x))), bits(0.0), bits(0.0)]
                print(",".join(row), file=table)
    for name, (function, sets) in PLANE.items():
        for first, second in sets:
            for x, y in zip(map(float, first), map(float, second), strict=True):
                result = mpmath.mpc(function(mpmath.mpf(x), mpmath.mpf(y)))
                row = [name, bits(x), bits(y), *parts(result.real), *parts(result.imag)]
                print(",".join(row), file=table)
