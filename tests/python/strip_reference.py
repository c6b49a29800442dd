"""A thin slot as the strip that would fill it: all modes coupled, by Galerkin's method in the wavenumber.

The product gives each mode of a slot a radiation admittance of its own. Here the voltage is a sum of
sin(m pi x/l) whose mutual admittances are all kept,

Z_mn = j int F_m F_n (k^2 - q^2) K0(rho sqrt(q^2 - k^2)) dq,

with F the Fourier transforms and rho = w/4 the equivalent radius of the strip. Waves from everywhere then
pass tr(R Z^-1 R Z^-H) of lambda^2/4 pi, R the real part of Z (trace over an antenna's ports by reciprocity).
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray
from scipy.special import hankel2, kv
from stored import stored

C = 299_792_458.0
NODES, WEIGHTS = np.polynomial.legendre.leggauss(24)

Real = NDArray[np.float64]


def spectrum(mode: int, length_m: float, q: Real) -> Real:
    """Fourier transform of sin(m pi x/l), less its phase about the middle."""
    beta = mode * np.pi / length_m
    lobe = np.cos(q * length_m / 2) if mode % 2 else np.sin(q * length_m / 2)
    return np.asarray(2 * beta * lobe / (beta**2 - q**2))


def abscissas(k: float) -> tuple[Real, Real]:
    """Places and weights of 24-point panels that crowd at k, where the kernel is singular."""
    below = k * (1 - 2.0 ** -np.arange(0, 40))
    above = k * (1 + 2.0 ** np.arange(-40.0, 1.0))
    far = [np.arange(2 * k + 20, 3000, 20.0), np.geomspace(3000, 4e5, 900)]
    edges = np.unique(np.concatenate([below, [k], above, *far]))
    low, high = edges[:-1, None], edges[1:, None]
    return ((low + high + (high - low) * NODES) / 2).ravel(), ((high - low) / 2 * WEIGHTS).ravel()


@stored
def transmission(frequency_hz: float, length_m: float, width_m: float, modes: Sequence[int]) -> float:
    """Averaged cross-section over lambda^2/4 pi."""
    k = 2 * np.pi * frequency_hz / C
    q, weights = abscissas(k)
    transverse_squared = k**2 - q**2
    size = np.sqrt(np.abs(transverse_squared)) * width_m / 4
    travelling = transverse_squared > 0
    kernel = np.where(travelling, -0.5j * np.pi * hankel2(0, size), kv(0, np.minimum(size, 600)))
    shapes = np.array([spectrum(mode, length_m, q) for mode in modes])
    impedance = 1j * (shapes * (weights * transverse_squared * kernel)) @ shapes.T
    solved = np.linalg.solve(impedance, impedance.real)
    return float(np.trace(solved @ solved.conj()).real)
