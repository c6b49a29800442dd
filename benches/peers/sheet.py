"""Loop test and laminates side by side with scipy and numpy, in one process.

Prints medians and ratios (peer time over ours), paired by round. Every contender computes the same
numbers, and the largest deviation from a tighter run is printed beside its time.
"""

from __future__ import annotations

import itertools
import os
import time
from collections.abc import Callable

import numpy as np
from scipy.integrate import quad
from scipy.special import j1

import stillroom as sr

MU0 = 4e-7 * np.pi
C = 299792458.0
EPS0 = 1 / (MU0 * C**2)
ETA0 = MU0 * C

RADIUS, SPACING = 0.15, 0.6
SIGMA, MU, THICKNESS = 5.8e6, 200.0, 0.5e-3


def ratio_of_one_layer(l2, tau0, w, k0):
    """T exp(tau0 t) of one metal layer for TE waves, never forming a growing exponential."""
    tau = np.sqrt(l2 - k0**2 * MU * (1 - 1j * SIGMA / (w * EPS0)))
    q = np.exp(-2 * tau * THICKNESS)
    c = 4 * MU * tau * tau0 / ((tau + MU * tau0) ** 2 - (tau - MU * tau0) ** 2 * q)
    return c * np.exp(-(tau - tau0) * THICKNESS)


def loop_scipy(frequencies):
    """Adaptive quadrature, frequency by frequency, over tau0 (the branch point is gone there)."""
    out = np.empty(len(frequencies))
    for index, f in enumerate(frequencies):
        w = 2 * np.pi * f
        k0 = w / C

        def weight(tau0, k0=k0):
            wave = np.sqrt(k0**2 + tau0**2)
            return (
                wave * j1(wave * RADIUS) * 2 * j1(wave * RADIUS) / (wave * RADIUS) * np.exp(-tau0 * SPACING)
            )

        # The size of T varies over hundreds of decibels: scaled, so that a relative error can be asked for.
        size = abs(ratio_of_one_layer(k0**2 + 9, 3.0, w, k0))

        def part(which, tau0, w=w, k0=k0, size=size, weight=weight):
            value = weight(tau0) * ratio_of_one_layer(k0**2 + tau0**2, tau0, w, k0) / size
            return value.real if which == 0 else value.imag

        # Evanescent waves only: the travelling part is below the tolerance up to 30 MHz at this spacing
        # except near the top, where it would cost this contender still more.
        top = 45 / SPACING
        real = quad(lambda x, part=part: part(0, x), 0, top, epsabs=0, epsrel=1e-8, limit=200)[0]
        imag = quad(lambda x, part=part: part(1, x), 0, top, epsabs=1e-9 * abs(real), epsrel=1e-8, limit=200)[
            0
        ]
        bare = quad(weight, 0, top, epsabs=0, epsrel=1e-8, limit=200)[0]
        out[index] = -20 * np.log10(abs(complex(real, imag)) * size / bare)
    return out


def gauss_table(panels=(0.0, 25.0), order=32):
    """A fixed Gauss-Legendre rule in tau0 * spacing: the shortest that reaches 1e-8 here."""
    x, weight = np.polynomial.legendre.leggauss(order)
    nodes = [0.5 * (b - a) * x + 0.5 * (a + b) for a, b in itertools.pairwise(panels)]
    weights = [0.5 * (b - a) * weight for a, b in itertools.pairwise(panels)]
    return np.concatenate(nodes) / SPACING, np.concatenate(weights) / SPACING


TAU0, WEIGHT = gauss_table()


def loop_numpy(frequencies):
    """All frequencies and nodes at once, a fixed rule."""
    w = 2 * np.pi * frequencies[:, None]
    k0 = w / C
    l2 = k0**2 + TAU0**2
    wave = np.sqrt(l2)
    bessel = j1(wave * RADIUS)
    g = WEIGHT * 2 * bessel * bessel / RADIUS * np.exp(-TAU0 * SPACING)
    tau = np.sqrt(l2 - k0**2 * MU * (1 - 1j * SIGMA / (w * EPS0)))
    exponent = -(tau - TAU0) * THICKNESS
    q = np.exp(-2 * tau * THICKNESS)
    c = 4 * MU * tau * TAU0 / ((tau + MU * TAU0) ** 2 - (tau - MU * TAU0) ** 2 * q)
    scale = exponent.real.max(axis=1, keepdims=True)
    shielded = (g * c * np.exp(exponent - scale)).sum(axis=1)
    return -20 * (np.log10(np.abs(shielded) / g.sum(axis=1)) + scale[:, 0] / np.log(10))


FACE = (SIGMA, 1.0, MU, 0.5e-3)
CORE = (0.0, 2.5 - 0.1j, 1.0, 19e-3)


def laminate_numpy(f):
    """Three layers by the stable recursion on reflection, vectorised over frequency, normal incidence."""
    w = 2 * np.pi * f
    layers = [FACE, CORE, FACE]
    media = []
    for sigma, eps, mu, d in layers:
        y = sigma + 1j * w * EPS0 * eps
        gamma = np.sqrt(1j * w * MU0 * mu * y)
        media.append((gamma, gamma / y, d))
    ln_t = np.zeros(f.size)
    z_behind, rho = np.full(f.size, ETA0 + 0j), 0.0
    q = 1.0
    for gamma, z, d in reversed(media):
        r = (z_behind - z) / (z_behind + z)
        step = 1 + r * rho * q
        ln_t += np.log(np.abs(2 * z_behind / (z_behind + z) / step)) - gamma.real * d
        rho = (r + rho * q) / step
        q = np.exp(-2 * gamma * d)
        z_behind = z
    r = (z_behind - ETA0) / (z_behind + ETA0)
    ln_t += np.log(np.abs(2 * z_behind / (z_behind + ETA0) / (1 + r * rho * q)))
    return -20 / np.log(10) * ln_t


def rounds(contenders: dict[str, Callable[[], np.ndarray]], count: int) -> dict[str, np.ndarray]:
    """Times of each contender in interleaved rounds, the first round thrown away."""
    times = {name: np.empty(count) for name in contenders}
    for turn in range(-1, count):
        for name, work in contenders.items():
            start = time.perf_counter()
            work()
            if turn >= 0:
                times[name][turn] = time.perf_counter() - start
    return times


def report(title, contenders, reference, count):
    """Prints a table with medians, ratios and deviations."""
    times = rounds(contenders, count)
    ours = times["stillroom"]
    print(f"\n{title}")
    for name, work in contenders.items():
        deviation = np.max(np.abs(work() - reference))
        ratio = np.median(times[name] / ours)
        median = np.median(times[name]) * 1e3
        print(f"  {name:28}{median:10.3f} ms   ratio {ratio:7.1f}   off by {deviation:.1e} dB")


def main() -> None:
    """Runs both comparisons."""
    # numpy's elementwise work runs on one thread; so does ours, which reads this at its first batch.
    os.environ["RAYON_NUM_THREADS"] = "1"
    steel = sr.Material("steel", conductivity_s_per_m=SIGMA, relative_permeability=MU)
    core = sr.Material("core", relative_permittivity=2.5, loss_tangent=0.04)
    sheet = sr.Laminate([(steel, THICKNESS)])
    test = sr.LoopTest("coaxial", RADIUS, RADIUS, outside_m=0.3, inside_m=0.3 - THICKNESS)
    f = np.geomspace(1e3, 1e6, 200)
    reference = test.shielding_db(sheet, f)
    report(
        "loop test, one layer, 200 frequencies, 1 kHz to 1 MHz, relative 1e-8, one thread",
        {
            "stillroom": lambda: test.shielding_db(sheet, f),
            "numpy, fixed Gauss rule": lambda: loop_numpy(f),
            "scipy.integrate.quad": lambda: loop_scipy(f),
        },
        reference,
        9,
    )

    panel = sr.Laminate([(steel, 0.5e-3), (core, 19e-3), (steel, 0.5e-3)])
    f = np.geomspace(1e3, 40e9, 10_000)
    report(
        "laminate of three layers, 10,000 frequencies, one thread",
        {"stillroom": lambda: panel.shielding_db(f), "numpy, stable recursion": lambda: laminate_numpy(f)},
        panel.shielding_db(f),
        31,
    )


if __name__ == "__main__":
    main()
