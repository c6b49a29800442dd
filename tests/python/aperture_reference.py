"""Numerical references for openings, independent of the product's formulas.

Mode matching: the opening's depth is a guide with many modes, both its mouths radiate through their full
admittance matrix, found by integrating over plane waves. Of the matrices that result, the averaged
transmission is a trace; nothing is fitted and no mode is left alone. R. F. Harrington, J. R. Mautz,
IEEE Trans. Antennas Propag. 24 (1976) 870 (from memory).

Static integral equations: a Galerkin method for the charged plate (magnetic polarizability) and rings of
current for the electric one, both on a mesh graded towards the edges.

`python aperture_reference.py` writes the table of rectangles that `src/wave/polarizability.rs` interpolates.
"""

from __future__ import annotations

from typing import Any

import numpy as np
from scipy.special import ellipe, elliprd, jn_zeros, jnp_zeros, jv, jvp
from stored import stored

Array = np.ndarray[Any, Any]

GAUSS = np.polynomial.legendre.leggauss(10)


def panels(edges: Array) -> tuple[Array, Array]:
    """Gauss nodes and weights over consecutive panels."""
    width = np.diff(edges)
    x, w = GAUSS
    return (edges[:-1, None] + (x + 1) / 2 * width[:, None]).ravel(), (w / 2 * width[:, None]).ravel()


def plane_waves(k: float, size: float, most: float) -> tuple[Array, Array, Array]:
    """Transverse and normal wavenumbers of travelling and evanescent waves, with weights for d k_t."""
    angle, weight = panels(np.linspace(0, np.pi / 2, max(4, int(k * size / 2) + 3)))
    travelling = k * np.sin(angle), k * np.cos(angle) + 0j, weight * k * np.cos(angle)
    step = 3.0 / size
    edges = np.unique(np.r_[0, 1e-3 * k, 0.03 * k, 0.2 * k, np.arange(step, most, step)])
    decay, weight = panels(edges)
    transverse = np.hypot(k, decay)
    evanescent = transverse, -1j * decay, weight * decay / transverse
    kt, kz, w = (np.concatenate(pair) for pair in zip(travelling, evanescent, strict=True))
    return kt, kz, w


def passed(mouth: Array, guide: Array, gamma: Array, walls: list[float]) -> Array:
    """Sum of transmissions: 4 tr(T G T^H G), T the transfer between two mouths, from even and odd parts."""
    conductance = (mouth + mouth.conj().T) / 2
    sums = []
    for wall in walls:
        if wall == 0:
            transfer = np.linalg.inv(2 * mouth)
        else:
            tanh = np.tanh(gamma * wall / 2)
            even, odd = mouth + np.diag(guide * tanh), mouth + np.diag(guide / tanh)
            transfer = (np.linalg.inv(even) - np.linalg.inv(odd)) / 2
        sums.append(4 * np.trace(transfer @ conductance @ transfer.conj().T @ conductance).real)
    return np.array(sums)


def propagation(k: float, cutoff: Array) -> Array:
    square = cutoff**2 - k**2
    return np.where(square > 0, np.sqrt(np.abs(square)), 1j * np.sqrt(np.abs(square)))


@stored
def circular_hole(ka: float, walls: list[float], modes: int = 16) -> Array:
    """Sum of transmissions of a round hole of unit radius: averaged cross-section over wavelength^2/4 pi."""
    total = np.zeros(len(walls))
    for n in range(int(ka) + 4):
        kt, kz, w = plane_waves(ka, 2.0, 8.0 * modes)
        te, tm = jnp_zeros(n, modes), jn_zeros(n, modes)
        parity = 1.0 if n else 2.0
        bessel, slope = jv(n, kt), jvp(n, kt)
        along, across = [], []
        for x in te:
            norm = np.sqrt(parity * np.pi / 2 * (x * x - n * n)) * jv(n, x)
            across.append(jv(n, x) * slope * x * x / (x * x - kt * kt) / norm)
            along.append(-jv(n, x) * n * bessel / kt / norm)
        for x in tm:
            norm = np.sqrt(parity * np.pi / 2) * x * jvp(n, x)
            along.append(kt * x * jvp(n, x) * bessel / (kt * kt - x * x) / norm)
            across.append(0 * kt)
        e_tm, e_te = np.array(along), np.array(across)
        mouth = np.pi * parity * ((e_tm * (ka / kz * kt * w)) @ e_tm.T + (e_te * (kz / ka * kt * w)) @ e_te.T)
        gamma = propagation(ka, np.r_[te, tm])
        guide = np.r_[gamma[: len(te)] / (1j * ka), 1j * ka / gamma[len(te) :]]
        total += (2 if n else 1) * passed(mouth, guide, gamma, walls)
    return total


def all_around(
    kt: Array, kz: Array, w: Array, panels_per_k: float, panel_range: tuple[int, int]
) -> tuple[Array, Array, Array, Array]:
    """Plane waves of a quarter turn for each transverse wavenumber; weights are those of the whole turn."""
    kx, ky, weight, normal = [], [], [], []
    need = np.clip((kt * panels_per_k).astype(int) + panel_range[0], *panel_range)
    for count in np.unique(need):
        pick = need == count
        angle, wa = panels(np.linspace(0, np.pi / 2, count + 1))
        kx.append(np.outer(kt[pick], np.cos(angle)).ravel())
        ky.append(np.outer(kt[pick], np.sin(angle)).ravel())
        weight.append(np.outer(4 * w[pick] * kt[pick], wa).ravel())
        normal.append(np.repeat(kz[pick], len(angle)))
    x, y, w, z = (np.concatenate(part) for part in (kx, ky, weight, normal))
    return x, y, w, z


@stored
def rectangular_hole(
    k: float, length: float, width: float, walls: list[float], counts: tuple[int, int]
) -> Array:
    """The same for a rectangle, with modes up to the given numbers along length and width."""
    most = 2.0 * np.pi * max(counts[0] / length, counts[1] / width)
    kt, kz, w = plane_waves(k, 1.4 * max(length, width), most)
    x, y, w, z = all_around(kt, kz, w, max(length, width) / 8, (3, 300))
    t = np.hypot(x, y)

    def transforms(mode: int, side: float, q: Array) -> tuple[Array, Array]:
        b = mode * np.pi / side
        plus = np.exp(0.5j * b * side) * np.sinc((b - q) * side / 2 / np.pi) * side
        minus = np.exp(-0.5j * b * side) * np.sinc((b + q) * side / 2 / np.pi) * side
        return (plus + minus) / 2, (plus - minus) / 2j

    in_x = [transforms(m, length, x) for m in range(counts[0] + 1)]
    in_y = [transforms(n, width, y) for n in range(counts[1] + 1)]
    total = np.zeros(len(walls))
    for odd_x in (0, 1):
        for odd_y in (0, 1):
            along, across, cutoff, kinds = [], [], [], []
            for m in range(odd_x, counts[0] + 1, 2):
                for n in range(odd_y, counts[1] + 1, 2):
                    for kind in "EM" if m and n else "E" if m or n else "":
                        a, b = m * np.pi / length, n * np.pi / width
                        p, q = (b, -a) if kind == "E" else (a, b)
                        norm = np.sqrt(length * width / 4 * (p * p * (1 + (m == 0)) + q * q * (1 + (n == 0))))
                        ex = p / norm * in_x[m][0] * in_y[n][1]
                        ey = q / norm * in_x[m][1] * in_y[n][0]
                        along.append((ex * x + ey * y) / t)
                        across.append((ey * x - ex * y) / t)
                        cutoff.append(np.hypot(a, b))
                        kinds.append(kind)
            if not kinds:
                continue
            e_tm, e_te = np.array(along), np.array(across)
            mouth = (e_tm * (k / z * w)) @ e_tm.conj().T + (e_te * (z / k * w)) @ e_te.conj().T
            mouth = (mouth + mouth.T) / (8 * np.pi**2)
            gamma = propagation(k, np.array(cutoff))
            electric = np.array(kinds) == "M"
            guide = np.where(electric, 1j * k / gamma, gamma / (1j * k))
            total += passed(mouth, guide, gamma, walls)
    return total


def graded(count: int, side: float) -> Array:
    return -side / 2 * np.cos(np.pi * np.arange(count + 1) / count)


def plate_magnetic(length: float, width: float, count: int) -> float:
    """Magnetic polarizability along `length`: a quarter of the charged plate's, by a Galerkin method."""

    def antiderivative(x: Array, y: Array) -> Array:
        x, y = np.abs(x), np.abs(y)
        one = np.where(x > 0, x * x * y / 2 * np.arcsinh(y / np.where(x > 0, x, 1)), 0)
        two = np.where(y > 0, x * y * y / 2 * np.arcsinh(x / np.where(y > 0, y, 1)), 0)
        return one + two - np.hypot(x, y) ** 3 / 6

    def corners(low: Array, high: Array, other_low: Array, other_high: Array) -> list[tuple[Array, int]]:
        pairs = ((high, other_low, 1), (low, other_low, -1), (high, other_high, -1), (low, other_high, 1))
        return [(a[:, None] - b[None, :], sign) for a, b, sign in pairs]

    gx, gy = graded(2 * count, length)[count:], graded(2 * count, width)[count:]
    matrix = np.zeros((count,) * 4)
    for x_pairs, x_sign in (
        (corners(gx[:-1], gx[1:], gx[:-1], gx[1:]), 1),
        (corners(gx[:-1], gx[1:], -gx[1:], -gx[:-1]), -1),
    ):
        for y_pairs in (
            corners(gy[:-1], gy[1:], gy[:-1], gy[1:]),
            corners(gy[:-1], gy[1:], -gy[1:], -gy[:-1]),
        ):
            for dx, sx in x_pairs:
                for dy, sy in y_pairs:
                    matrix -= x_sign * sx * sy * antiderivative(dx[:, None, :, None], dy[None, :, None, :])
    matrix = matrix.reshape(count * count, -1) / (4 * np.pi)
    matrix *= np.sign(matrix[0, 0])
    moment = np.outer((gx[:-1] + gx[1:]) / 2 * np.diff(gx), np.diff(gy)).ravel()
    return float(moment @ np.linalg.solve(matrix, moment))


def plate_electric(length: float, width: float, count: int) -> float:
    """Electric polarizability: a quarter of the plate's magnetic one, by rings of current."""
    gx, gy = graded(2 * count, length), graded(2 * count, width)
    middle = -np.cos(np.pi * (np.arange(2 * count) + 0.5) / (2 * count))[count:] / 2
    dx = (length * middle)[:, None, None, None] - gx[None, None, :, None]
    dy = (width * middle)[None, :, None, None] - gy[None, None, None, :]
    h = np.hypot(dx, dy) / (dx * dy)
    rings = (h[:, :, 1:, 1:] - h[:, :, :-1, 1:] - h[:, :, 1:, :-1] + h[:, :, :-1, :-1]) / (4 * np.pi)
    rings = rings[:, :, count:] + rings[:, :, count - 1 :: -1]
    rings = rings[..., count:] + rings[..., count - 1 :: -1]
    strength = np.linalg.solve(rings.reshape(count * count, -1), np.ones(count * count))
    area = np.outer(np.diff(gx)[count:], np.diff(gy)[count:]).ravel()
    return float(np.abs(strength @ area))


@stored
def rectangle(length: float, width: float, count: int = 14) -> tuple[float, float, float]:
    """Magnetic along, magnetic across and electric polarizability, the error of second order removed."""

    def extrapolated(coarse: float, fine: float) -> float:
        return (4 * fine - coarse) / 3

    return (
        extrapolated(plate_magnetic(length, width, count), plate_magnetic(length, width, 2 * count)),
        extrapolated(plate_magnetic(width, length, count), plate_magnetic(width, length, 2 * count)),
        extrapolated(plate_electric(length, width, count), plate_electric(length, width, 2 * count)),
    )


def ellipse(aspect: float) -> tuple[float, float, float]:
    """The same of the ellipse of unit length."""
    b2 = aspect**2
    along, across = np.pi / 8 / elliprd(0, b2, 1), np.pi / 8 / elliprd(0, 1, b2)
    return along, across, np.pi / 24 * b2 / ellipe(1 - b2)


def main() -> None:
    """Chebyshev coefficients of rectangle over ellipse in 1 - 2 ln(w/l)/ln 0.001."""
    degree = 13
    x = np.cos(np.pi * np.arange(degree + 1) / degree)
    aspects = np.exp((1 - x) / 2 * np.log(1e-3))
    ratios = np.array([np.array(rectangle(1, a, 17)) / ellipse(a) for a in aspects])
    for name, column in zip(("ALONG", "ACROSS", "ELECTRIC"), ratios.T, strict=True):
        print(name, np.polynomial.chebyshev.chebfit(x, column, degree))


if __name__ == "__main__":
    main()
