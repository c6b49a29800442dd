"""Finite panels of square cells as a sum over their cells.

The dominant pair of modes in each, all coupled through both half-spaces. Lengths in units of the cell's
width, admittances in units of 1/eta_0. The coupling of two cells is an integral over all transverse
wavenumbers of the modes' Fourier transforms; nothing is shared with the library.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from stored import stored

Reals = NDArray[np.float64]
Complexes = NDArray[np.complex128]

HIGHEST = 60.0


def _cosine(k: Reals) -> Reals:
    """Transform of cos(pi x) over the unit line."""
    difference = np.pi**2 - k**2
    return 2 * np.pi * np.cos(k / 2) / np.where(abs(difference) < 1e-9, 1e-9, difference)


def _across(kx: Reals, ky: Reals) -> Reals:
    """Transform of the mode whose field lies along y."""
    return np.sqrt(2) * _cosine(kx) * np.sinc(ky / (2 * np.pi))


def _rule(start: float, end: float, count: int) -> tuple[Reals, Reals]:
    place, weight = np.polynomial.legendre.leggauss(count)
    return (start + end) / 2 + (end - start) / 2 * place, (end - start) / 2 * weight


def _wavenumbers(k: float, reach: float) -> tuple[Reals, Reals, Complexes]:
    """Nodes, weights (with kappa) and k_z; the branch point is taken out by the variables."""
    angle, weight = _rule(0, np.pi / 2, 60 + int(reach * k))
    parts = [(k * np.sin(angle), weight * k**2 * np.sin(angle) * np.cos(angle), k * np.cos(angle) + 0j)]
    end = np.arccosh(HIGHEST / k)
    panels = int(np.ceil(end / 0.35))
    for panel in range(panels):
        low, high = end * panel / panels, end * (panel + 1) / panels
        count = 20 + int(0.7 * reach * k * (np.cosh(high) - np.cosh(low)))
        beyond, weight = _rule(low, high, count)
        kappa = k * np.cosh(beyond)
        parts.append((kappa, weight * kappa * k * np.sinh(beyond), -1j * k * np.sinh(beyond)))
    kappa, weight, kz = (np.concatenate(column) for column in zip(*parts, strict=True))
    return kappa, weight, kz


def _couplings(k: float, count: int, pitch: float) -> tuple[Complexes, Complexes]:
    """Between modes along y, and between one along x and one along y, by the distance in cells."""
    reach = 1.42 * (count - 1) * pitch
    alike, crossed = np.zeros((2, count, count), dtype=complex)
    distance = np.arange(count) * pitch
    for kappa, weight, kz in zip(*_wavenumbers(k, reach), strict=True):
        angle, weights = _rule(0, np.pi / 2, int(24 + 0.75 * kappa * reach))
        c, s = np.cos(angle), np.sin(angle)
        kx, ky = kappa * c, kappa * s
        on_y, on_x = _across(kx, ky), _across(ky, kx)
        common = weight * weights / np.pi**2
        f = common * (c**2 * kz / k + s**2 * k / kz) * on_y**2
        g = common * s * c * (k / kz - kz / k) * on_x * on_y
        phase_x, phase_y = np.outer(distance, kx), np.outer(distance, ky)
        alike += (np.cos(phase_x) * f) @ np.cos(phase_y).T
        crossed -= (np.sin(phase_x) * g) @ np.sin(phase_y).T
    return alike, crossed


def _through(admittance: Complexes, k: float, depth: float) -> Complexes:
    """Voltage behind for a current in front: half the difference of the even and the odd half."""
    gamma = np.sqrt(np.pi**2 - k**2 + 0j)
    mode, half = -1j * gamma / k, np.tanh(gamma * depth / 2)
    one = np.eye(len(admittance))
    inverse = np.linalg.inv
    return 0.5 * (inverse(admittance + mode * half * one) - inverse(admittance + mode / half * one))


@stored
def cross_section(k: float, count: int, pitch: float, depth: float) -> float:
    """Averaged cross-section of count x count cells: (lambda^2/4 pi) times 4 tr(G Z G Z*)."""
    alike, crossed = _couplings(k, count, pitch)
    row, column = np.divmod(np.arange(count**2), count)
    dx, dy = row[:, None] - row, column[:, None] - column
    mixed = crossed[abs(dx), abs(dy)] * np.sign(dx) * np.sign(dy)
    admittance = np.block(
        [[alike[abs(dx), abs(dy)], mixed], [mixed.T, alike[abs(dy), abs(dx)]]],
    )
    through, conductance = _through(admittance, k, depth), admittance.real
    passed = np.trace(conductance @ through @ conductance @ through.conj().T)
    return float(4 * np.pi / k**2 * passed.real)


@stored
def transmission(k: float, pitch: float, depth: float) -> float:
    """|T| of the unbounded lattice of the same modes along the normal."""
    most = int(HIGHEST * pitch / (2 * np.pi)) + 1
    line = 2 * np.pi / pitch * np.arange(-most, most + 1)
    kx, ky = (part.ravel() for part in np.meshgrid(line, line))
    kappa = np.hypot(kx, ky)
    kx, ky, kappa = kx[kappa < HIGHEST], ky[kappa < HIGHEST], kappa[kappa < HIGHEST]
    kz = np.sqrt(k**2 - kappa**2 + 0j)
    kz = np.where(kz.imag > 0, -kz, kz)
    length = np.where(kappa > 0, kappa, 1)
    c, s = np.where(kappa > 0, kx / length, 1), ky / length
    on_wave = np.sqrt(2) * 2 / np.pi
    admittance = np.sum(_across(kx, ky) ** 2 * (c**2 * kz / k + s**2 * k / kz)) / pitch**2
    through = _through(np.array([[admittance]]), k, depth)[0, 0]
    return float(abs(2 * on_wave**2 * through / pitch**2))
