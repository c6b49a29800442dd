"""Tubes below cutoff and the honeycomb by mode matching against numpy.

The numpy honeycomb is the same mode matching for square cells, whose transforms are closed forms, with
LAPACK for the systems; both take the same modes and harmonics.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray
from side_by_side import Contest

import stillroom as sr

PAIRS = 1_000_000
FREQUENCY_HZ = np.linspace(1e9, 28e9, PAIRS)
C = 299_792_458.0


def attenuation_by_numpy() -> NDArray[np.float64]:
    """Attenuation in dB/m of an empty round tube."""
    cutoff = 1.8411837813406593 / 3e-3
    k = 2 * np.pi * FREQUENCY_HZ / C
    return 8.685889638065035 * np.sqrt((cutoff - k) * (cutoff + k))


TARGET = np.empty(PAIRS)


def copy_of_memory() -> NDArray[np.float64]:
    """A million doubles from one array to another: what the memory's bandwidth allows."""
    np.copyto(TARGET, FREQUENCY_HZ)
    return TARGET


def copy_to_new_memory() -> NDArray[np.float64]:
    """The same into an array made for it, as every function that returns an array has to make one."""
    return FREQUENCY_HZ.copy()


def root_and_exponential() -> NDArray[np.float64]:
    """sqrt and exp of a million doubles by numpy."""
    return np.exp(-np.sqrt(UNIT))


UNIT = np.linspace(0.0, 1.0, PAIRS)


def propagation_by_numpy() -> NDArray[np.complex128]:
    """Propagation constant in a filling with loss."""
    cutoff = 1.8411837813406593 / 3e-3
    k = 2 * np.pi * FREQUENCY_HZ / C * np.sqrt(2.1 * (1 - 3e-4j))
    return np.sqrt((cutoff - k) * (cutoff + k))


WIDTH, WALL, DEPTH = 4.8e-3, 0.3e-3, 12e-3
SWEEP_HZ = np.linspace(1e9, 30e9, 200)
ANGLE_DEG = 30.0


def line(
    m: NDArray[np.float64], k: NDArray[np.float64]
) -> tuple[NDArray[np.complex128], NDArray[np.complex128]]:
    """Transforms of cos and sin(m pi (x + 1/2)) over the unit line, modes by harmonics."""
    q = np.pi * m[:, None]
    plus = np.exp(0.5j * q) * np.sinc((q - k) / (2 * np.pi))
    minus = np.exp(-0.5j * q) * np.sinc((q + k) / (2 * np.pi))
    return 0.5 * (plus + minus), (plus - minus) / 2j


def honeycomb_by_numpy() -> NDArray[np.float64]:
    """Shielding of square cells, TE in the plane through two sides."""
    limit = 5.5 * np.pi
    orders = [(m, n) for m in range(6) for n in range(6) if 0 < np.pi * np.hypot(m, n) < limit]
    te = np.array(orders, dtype=float)
    tm = np.array([(m, n) for m, n in orders if m * n > 0], dtype=float)
    pitch = (WIDTH + WALL) / WIDTH
    count = np.arange(-8, 9)
    gx, gy = (2 * np.pi / pitch * g.ravel() for g in np.meshgrid(count, count, indexing="ij"))
    keep = np.hypot(gx, gy) <= 36
    gx, gy = gx[keep], gy[keep]
    sine, cosine = np.sin(np.radians(ANGLE_DEG)), np.cos(np.radians(ANGLE_DEG))
    m, n = np.concatenate([te, tm]).T
    is_te = np.arange(len(m)) < len(te)
    cutoff = np.pi * np.hypot(m, n)
    scale = 1 / (cutoff * np.sqrt(np.where(m == 0, 1, 0.5) * np.where(n == 0, 1, 0.5)))
    area = pitch**2
    specular = int(np.argmin(np.hypot(gx, gy)))
    result = np.empty(len(SWEEP_HZ))
    for place, f in enumerate(SWEEP_HZ):
        k = 2 * np.pi * f / C * WIDTH
        kx, ky = gx + k * sine, gy
        kappa = np.hypot(kx, ky)
        cos_x, sin_x = line(m, kx)
        cos_y, sin_y = line(n, ky)
        p, q = np.pi * m[:, None], np.pi * n[:, None]
        ex = scale[:, None] * np.where(is_te[:, None], q, p) * cos_x * sin_y
        ey = scale[:, None] * np.where(is_te[:, None], -p, q) * sin_x * cos_y
        t = (kx * ey - ky * ex) / kappa
        a = (kx * ex + ky * ey) / kappa
        kz = np.sqrt(k**2 - kappa**2 + 0j)
        kz = np.where(kz.imag > 0, -kz, kz)
        y = ((t.conj() * (kz / k)) @ t.T + (a.conj() * (k / kz)) @ a.T) / area
        gamma = np.sqrt(cutoff**2 - k**2 + 0j)
        y0 = np.where(is_te, gamma / (1j * k), 1j * k / gamma)
        once = np.exp(-gamma * DEPTH / WIDTH)
        drive = 2 * cosine * t[:, specular].conj()
        odd = np.linalg.solve(y + np.diag(y0 * (1 + once) / (1 - once)), drive)
        even = y + np.diag(y0 * (1 - once) / (1 + once))
        far = np.linalg.solve(even, y0 * 2 * once / (1 - once**2) * odd)
        result[place] = -20 * np.log10(abs(t[:, specular] @ far) / area)
    return result


def rows() -> Iterator[Contest]:
    """A closed form on many points, and the rigorous panel."""
    guide = sr.CircularGuide(6e-3)
    yield Contest(
        "round tube, attenuation, 1e6 f",
        lambda: guide.attenuation_db_per_m(FREQUENCY_HZ),
        {
            "numpy": attenuation_by_numpy,
            "copy of memory": copy_of_memory,
            "copy to new memory": copy_to_new_memory,
            "sqrt and exp by numpy": root_and_exponential,
        },
        steps=PAIRS,
        unlike=frozenset({"copy of memory", "copy to new memory", "sqrt and exp by numpy"}),
    )
    filled = sr.CircularGuide(6e-3, 2.1, 3e-4)
    yield Contest(
        "round tube with loss, propagation constant, 1e6 f",
        lambda: filled.propagation_per_m(FREQUENCY_HZ),
        {"numpy": propagation_by_numpy},
        steps=PAIRS,
    )
    panel = sr.HoneycombPanel(sr.SquareCell(WIDTH, WALL), DEPTH, (0.3, 0.3))
    yield Contest(
        "square honeycomb, mode matching, 200 f",
        lambda: panel.matched_shielding_db(SWEEP_HZ, ANGLE_DEG),
        {"numpy and LAPACK": honeycomb_by_numpy},
        steps=SWEEP_HZ.size,
        rtol=1e-4,
    )
