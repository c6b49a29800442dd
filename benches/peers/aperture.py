"""Hole arrays against vectorised numpy, the same formulas, one thread each.

The peer is written as one would write it by hand for speed: all frequencies at once, one array operation at a
time, distances in a loop so that nothing larger than the cache is made.
"""

from __future__ import annotations

import os

os.environ.setdefault("RAYON_NUM_THREADS", "1")

import numpy as np
from side_by_side import Contest

import stillroom as sr

C = 299_792_458.0
DIAMETER, WALL = 3e-3, 1e-3


def rings(centres: np.ndarray) -> tuple[np.ndarray, np.ndarray, np.ndarray, tuple[float, float, float]]:
    """Distances of pairs, twice their number per hole, mean cos^2 of their direction; static fields."""
    i, j = np.triu_indices(len(centres), 1)
    d = centres[i] - centres[j]
    r = np.hypot(*d.T)
    along = (d[:, 0] / r) ** 2
    per_hole = 2 / len(centres)
    weight = per_hole / (4 * np.pi * r**3)
    fields = (np.sum(weight * (3 * along - 1)), np.sum(weight * (2 - 3 * along)), np.sum(weight))
    _, inverse, count = np.unique(np.round(r / r.max(), 8), return_inverse=True, return_counts=True)
    distance = np.bincount(inverse, r) / count
    return distance, per_hole * count, np.bincount(inverse, along) / count, fields


def channel(z, wall, r, strength, detuning, p, gathering, easing):
    """Logarithm of the transmission of one mode."""
    a, b = detuning
    kappa = r * (1 - a / (1 / z**2 + b * z)) - easing
    u = strength * z**2
    conductance = z * u / (1 + u**p) ** (1 / p) * gathering
    mouth = kappa + 1j * conductance
    square = (1 - z) * (1 + z)
    half = 0.5 * wall * np.sqrt(square + 0j)
    missing = np.expm1(-2 * half)
    cosh, sinh = 1 + missing / 2, -missing / 2
    gamma = np.sqrt(square + 0j)
    even, odd = gamma * sinh + mouth * cosh, cosh + mouth * sinh / gamma
    return 2 * np.log(conductance) - 2 * np.log(np.abs(even)) - 2 * np.log(np.abs(odd)) - 4 * half.real


def array_numpy(f: np.ndarray, pairs, count: int) -> np.ndarray:
    """The lattice answer, dB of a square metre."""
    distance, weight, along, fields = pairs
    k, a = 2 * np.pi * f / C, DIAMETER / 2
    fx, fy, fe = np.ones((3, f.size))
    fxe, fye = np.zeros((2, f.size))
    for r, w, c2 in zip(distance, weight, along, strict=True):
        x = k * r
        j0 = np.sin(x) / x
        ratio = (j0 - np.cos(x)) / x**2
        par, perp, mixed = 9 * w * ratio**2, 2.25 * w * (j0 - ratio) ** 2, 2.25 * w * (x * ratio) ** 2
        fx += par * c2 + perp * (1 - c2)
        fy += par * (1 - c2) + perp * c2
        fe += perp
        fxe += mixed * (1 - c2)
        fye += mixed * c2
    te, tm, rest_root = 1.8411837813406593, 2.404825557695773, 3.0542369282271403
    alpha_m, alpha_e = 4 / 3 * a**3, 2 / 3 * a**3
    sm, se = 2 / (3 * np.pi) * 4 / 3 * te**3 * 0.4265, 2 / (3 * np.pi) * 2 / 3 * tm**3 * 0.4097
    wall = WALL / a

    def magnetic(gathering, field):
        easing = 4 * field * alpha_m * 0.4265
        ln = channel(k * a / te, wall * te, 0.4265, sm, (1.038, 0.334), 1.819, gathering, easing)
        return ln - 2 * np.log(gathering)

    x, y = magnetic(fx, fields[0]), magnetic(fy, fields[1])
    easing = 4 * fields[2] * alpha_e * 0.4097
    e = channel(k * a / tm, wall * tm, 0.4097, se, (0.0, 0.3), 1.8, fe, easing) - 2 * np.log(fe)
    top = np.maximum(np.maximum(x, y), e)
    ax, ay, ae = np.exp((x - top) / 2), np.exp((y - top) / 2), np.exp((e - top) / 2)
    modes = fx * ax**2 + fy * ay**2 + fe * ae**2 - 2 * ae * (fxe * ax + fye * ay)
    excess = k**2 * a**2 / 2 - 3.3
    number = 0.5 / (np.hypot(excess, 1) - excess)
    z = k * a / rest_root
    depth = wall * rest_root * np.sqrt((1 - z) * (1 + z) + 0j)
    barrier = np.log(0.0326) - 10 * np.log(z) + 2 * np.log(np.abs(np.cosh(depth)))
    total = np.logaddexp(np.log(modes) + top, np.log(number) - np.logaddexp(0, barrier))
    return 10 / np.log(10) * (total + np.log(np.pi * count) - 2 * np.log(k))


def rows() -> list[Contest]:
    """A grid, and holes at random, at 10,000 frequencies from 1 to 30 GHz."""
    f = np.geomspace(1e9, 30e9, 10_000)
    hole = sr.CircularHole(DIAMETER, WALL)
    contests = []
    for title, layout in {
        "3 x 4 holes": sr.apertures.HoleGrid(5e-3, 3, 4),
        "10 x 10 holes": sr.apertures.HoleGrid(5e-3, 10, 10),
        "20 random holes": sr.apertures.RandomHoles(20, 0.1, 0.1, seed=1),
    }.items():
        array = sr.apertures.HoleArray(hole, layout)
        pairs = rings(array.centres_m())
        contests.append(
            Contest(
                what=f"{title}, per frequency",
                ours=lambda array=array: array.cross_section_db(f),
                peers={"numpy": lambda pairs=pairs, count=array.count: array_numpy(f, pairs, count)},
                steps=f.size,
                rtol=1e-6,
            )
        )
    return contests
