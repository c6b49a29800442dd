"""Mode matching of a round tube with very many modes, by numpy and scipy alone.

No limit is taken: what is left falls as N^(-4/3), N the zeros of each family, and at 48 it is less than
0.01 dB. Lengths in units of the radius.
"""

from __future__ import annotations

from typing import Any

import numpy as np
import scipy.special as special
from stored import stored

Array = np.ndarray[Any, Any]


def spectra(m: int, te: Array, tm: Array, kappa: Array) -> tuple[Array, Array]:
    """Fourier transforms of the modes across and along the wave vector, by Lommel's integral."""
    kappa = kappa[:, None]
    j, slope = special.jv(m, kappa), special.jvp(m, kappa)
    norm = np.sqrt(0.5 * (te - m) * (te + m))
    across = te**2 * slope / ((te - kappa) * (te + kappa)) / norm
    along_te = m * j / (kappa * norm)
    along_tm = np.sqrt(2) * kappa * j / ((tm - kappa) * (tm + kappa))
    return np.hstack([across, np.zeros((len(kappa), len(tm)))]), np.hstack([along_te, along_tm])


def panels(top: float, length: float) -> tuple[Array, Array]:
    """Gauss-Legendre nodes and weights on [0, top], in panels of about the length given."""
    x, w = np.polynomial.legendre.leggauss(12)
    edges = np.linspace(0, top, max(2, round(top / length)) + 1)
    half = np.diff(edges)[:, None] / 2
    return ((edges[:-1, None] + half) + half * x).ravel(), (half * w).ravel()


def half_space(m: int, te: Array, tm: Array, k: float) -> Array:
    """Admittance matrix of the open half-space; in the variable k_z on both sides of the branch point."""
    top = 6 * max(te[-1], tm[-1])
    z, w = panels(k, 1.5)
    across, along = spectra(m, te, tm, np.sqrt(k * k - z * z))
    y = 0j + (across.T * (w * z * z / k)) @ across + (along.T * (w * k)) @ along
    z, w = panels(top, 1.5)
    kappa = np.sqrt(k * k + z * z)
    across, along = spectra(m, te, tm, kappa)
    # Beyond the top the mean of the last stretch goes on as its power of the wavenumber.
    last = np.where(z > top - 6, kappa**3 * w / (12 * top**2), 0.0)
    return (
        y
        - 1j * (across.T * (w * z * z / k + last * kappa**2 / k)) @ across
        + 1j * (along.T * (w * k + last * k)) @ along
    )


def channels(m: int, count: int, k: float, length: float) -> float:
    """Sum of the transmission eigenvalues of azimuthal order m, with `count` zeros of each family."""
    te, tm = special.jnp_zeros(m, count), special.jn_zeros(m, count)
    y = half_space(m, te, tm, k)
    gamma = np.sqrt(0j + np.r_[te, tm] ** 2 - k * k)
    y0 = np.where(np.arange(2 * count) < count, gamma / (1j * k), 1j * k / gamma)
    through = y0 / np.sinh(gamma * length)
    even, odd = np.diag(y0 * np.tanh(gamma * length / 2)), np.diag(y0 / np.tanh(gamma * length / 2))
    transfer = np.linalg.solve(y + even, through[:, None] * np.linalg.solve(y + odd, y.real))
    return float(4 * np.trace(transfer @ transfer.conj()).real) * (1 if m == 0 else 2)


@stored
def cross_section(count: int, k: float, length: float, orders: int = 5) -> float:
    """Averaged cross-section in units of the squared radius."""
    return np.pi / k**2 * sum(channels(m, count, k, length) for m in range(orders))
