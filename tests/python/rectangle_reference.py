"""Mode matching of a rectangular tube by numpy alone: its own transforms, quadrature and algebra.

No limit is taken: what is left falls as N^(-4/3). Lengths in units of the width.
"""

from __future__ import annotations

from typing import Any

import numpy as np

Array = np.ndarray[Any, Any]
# Family, orders and cutoff.
Mode = tuple[str, int, int, float]


def line(order: int, length: float, wavenumber: Array) -> tuple[Array, Array]:
    """Fourier transforms of cos and sin(order pi x/length) over the line from 0 to its length."""
    out = []
    for sign in (1, -1):
        q = wavenumber + sign * order * np.pi / length
        out.append(length * np.exp(0.5j * q * length) * np.sinc(q * length / (2 * np.pi)))
    return (out[0] + out[1]) / 2, (out[0] - out[1]) / 2j


def modes(odd: tuple[bool, bool], height: float, counts: tuple[int, int]) -> list[Mode]:
    """Family, orders and cutoff of the modes of one symmetry, by rising cutoff."""
    found = []
    for m in range(int(odd[0]), 2 * counts[0], 2):
        for n in range(int(odd[1]), 2 * counts[1], 2):
            cutoff = np.pi * np.hypot(m, n / height)
            if m + n:
                found.append(("TE", m, n, cutoff))
            if m * n:
                found.append(("TM", m, n, cutoff))
    return sorted(found, key=lambda mode: mode[3])


def fields(of: list[Mode], height: float, kx: Array, ky: Array) -> tuple[Array, Array]:
    """Transforms of the transverse electric fields of unit power integral."""
    ex, ey = [], []
    for family, m, n, cutoff in of:
        (cx, sx), (cy, sy) = line(m, 1.0, kx), line(n, height, ky)
        p, q = m * np.pi, n * np.pi / height
        scale = 1 / (cutoff * np.sqrt(height * (0.5 if m else 1) * (0.5 if n else 1)))
        x, y = (q, -p) if family == "TE" else (p, q)
        ex.append(scale * x * cx * sy)
        ey.append(scale * y * sx * cy)
    return np.array(ex), np.array(ey)


def half_space(of: list[Mode], height: float, k: float) -> Array:
    """Admittance matrix of the half-space, in polar wavenumbers; no branch point in the variable k_z."""
    place, weight = np.polynomial.legendre.leggauss(10)
    top = 2.5 * of[-1][3]
    stretches = []
    for end, is_visible in ((k, True), (top, False)):
        edges = np.linspace(0, end, max(2, int(end / 1.5)) + 1)
        half = np.diff(edges)[:, None] / 2
        z, w = ((edges[:-1, None] + half) + half * place).ravel(), (half * weight).ravel()
        # kappa dkappa = -+ k_z dk_z
        kappa = np.sqrt(k * k - z * z) if is_visible else np.sqrt(k * k + z * z)
        turn = 1 if is_visible else -1j
        stretches.append((kappa, turn * w * z * z / k, (1 if is_visible else 1j) * w * k))
    y = np.zeros((len(of), len(of)), dtype=complex)
    for kappas, wt, wm in stretches:
        for kappa, t, m in zip(kappas, wt, wm, strict=True):
            x, w = np.polynomial.legendre.leggauss(12 + int(0.4 * kappa))
            angle = np.pi / 4 * (1 + x)
            c, s = np.cos(angle), np.sin(angle)
            # Four quadrants of a symmetric integrand.
            share = w / (4 * np.pi)
            ex, ey = fields(of, height, kappa * c, kappa * s)
            across, along = c * ey - s * ex, c * ex + s * ey
            y += t * np.real((across.conj() * share) @ across.T)
            y += m * np.real((along.conj() * share) @ along.T)
    return y


def channels(height: float, counts: tuple[int, int], k: float, length: float) -> float:
    """Sum of the transmission eigenvalues."""
    total = 0.0
    for odd in ((False, False), (True, False), (False, True), (True, True)):
        of = modes(odd, height, counts)
        y = half_space(of, height, k)
        gamma = np.sqrt(0j + np.array([mode[3] for mode in of]) ** 2 - k * k)
        is_te = np.array([mode[0] == "TE" for mode in of])
        y0 = np.where(is_te, gamma / (1j * k), 1j * k / gamma)
        through = y0 / np.sinh(gamma * length)
        even, odd_half = np.diag(y0 * np.tanh(gamma * length / 2)), np.diag(y0 / np.tanh(gamma * length / 2))
        transfer = np.linalg.solve(y + even, through[:, None] * np.linalg.solve(y + odd_half, y.real))
        total += 4 * np.trace(transfer @ transfer.conj()).real
    return float(total)
