"""The rigorous honeycomb against numpy and LAPACK.

Square cells, whose transforms are closed forms, a sweep of 200 frequencies at one angle. All three take the
same modes and harmonics (those of the wave's own mirror symmetry, each pair of mirrored harmonics once),
work in real numbers where they can, extrapolate from two bases, and are held to one thread:

- "numpy, each frequency": mode matching at every frequency, batched over all of them;
- "numpy, same reduction": what only stores energy is run out at 18 frequencies and interpolated, as in ours.

Nothing in ours uses more than one thread.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray
from side_by_side import Contest

import stillroom as sr

Reals = NDArray[np.float64]

C = 299_792_458.0
WIDTH, WALL, DEPTH = 4.8e-3, 0.3e-3, 12e-3
SWEEP_HZ = np.linspace(1e9, 30e9, 200)
ANGLE_DEG = 30.0
COARSE, FINE = 5.5 * np.pi, 7.5 * np.pi
POINTS = 18

SINE, COSINE = np.sin(np.radians(ANGLE_DEG)), np.cos(np.radians(ANGLE_DEG))
PITCH = (WIDTH + WALL) / WIDTH
AREA = PITCH**2
LENGTH = DEPTH / WIDTH
_RESOLVED = FINE * WALL / WIDTH
BEYOND = 1 / ((FINE / COARSE) ** (1 + _RESOLVED / (3 * (1 + _RESOLVED))) - 1)


def _modes() -> tuple[Reals, Reals, NDArray[np.bool_], Reals]:
    """Orders m and n, whether TE, and cutoffs, by rising cutoff; n is even in this plane of incidence."""
    orders = [(m, n) for m in range(8) for n in range(0, 8, 2) if 0 < np.pi * np.hypot(m, n) < FINE]
    both = [(m, n, True) for m, n in orders] + [(m, n, False) for m, n in orders if m * n > 0]
    both.sort(key=lambda mode: np.hypot(mode[0], mode[1]))
    m, n, te = (np.array(column) for column in zip(*both, strict=True))
    return m.astype(float), n.astype(float), te, np.pi * np.hypot(m, n)


M, N, IS_TE, CUTOFF = _modes()
SCALE = 1 / (CUTOFF * np.sqrt(np.where(M == 0, 1, 0.5) * np.where(N == 0, 1, 0.5)))


def _harmonics() -> tuple[Reals, Reals, Reals]:
    """Of pairs +-gy one, by rising length, with the root of how many it stands for."""
    count = np.arange(-9, 10)
    gx, gy = (2 * np.pi / PITCH * g.ravel() for g in np.meshgrid(count, count, indexing="ij"))
    keep = (np.hypot(gx, gy) <= 2 * FINE) & (gy > -1e-9)
    gx, gy = gx[keep], gy[keep]
    order = np.argsort(np.hypot(gx, gy), kind="stable")
    gx, gy = gx[order], gy[order]
    return gx, gy, np.where(gy > 1e-9, np.sqrt(2.0), 1.0)


GX, GY, SHARE = _harmonics()


def _line(order: Reals, k: Reals) -> tuple[Reals, Reals]:
    """Real transforms of cos and sin(m pi (x + 1/2)) over the unit line, the last axis for harmonics."""
    turns = order.astype(int)[:, None] % 4
    q = np.pi * order[:, None]
    difference, total = 0.5 * np.sinc((q - k) / (2 * np.pi)), 0.5 * np.sinc((q + k) / (2 * np.pi))
    with_cos, with_sin = difference + total, difference - total
    cosine = np.choose(turns, [with_cos, -with_sin, -with_cos, with_sin])
    sine = np.choose(turns, [with_sin, with_cos, -with_sin, -with_cos])
    return cosine, sine


_EACH_ORDER = np.arange(8.0)
_Y_COSINE, _Y_SINE = _line(_EACH_ORDER, GY)


def _transforms(k: Reals) -> tuple[Reals, Reals, Reals]:
    """Parts across and along, frequencies by modes by harmonics, and the transverse wavenumbers."""
    kx = GX + k[:, None] * SINE
    kappa = np.hypot(kx, GY) + 1e-300
    cosine, sine = _line(_EACH_ORDER, kx[:, None, :])
    m, n = M.astype(int), N.astype(int)
    cos_x, sin_x = cosine[:, m], sine[:, m]
    p, q = (np.pi * SCALE * orders for orders in (M, N))
    ex = np.where(IS_TE, q, p)[:, None] * cos_x * _Y_SINE[n]
    ey = np.where(IS_TE, -p, q)[:, None] * sin_x * _Y_COSINE[n]
    # E_x is even or odd in x by the mode; where both symmetries agree E_y has the other sign.
    flip = np.where(M % 2 == 0, 1.0, -1.0)[:, None]
    ux, uy = (kx / kappa)[:, None, :], (GY / kappa)[:, None, :]
    return SHARE * (ux * flip * ey - uy * ex), SHARE * (ux * ex + uy * flip * ey), kappa


def _ends(k: Reals, modes: slice, shift: Reals) -> tuple[Reals, Reals, Reals]:
    """Of each mode between the faces: even, odd, and through times exp(shift L)."""
    square = CUTOFF[modes] ** 2 - k[:, None] ** 2
    gamma = np.sqrt(np.abs(square))
    x = gamma * LENGTH
    below = square > 0
    tanh = np.where(below, np.tanh(x / 2), np.tan(x / 2))
    with np.errstate(over="ignore"):
        sinh = np.where(below, -0.5 * np.expm1(-2 * x) * np.exp(x - shift * LENGTH), np.sin(x))
    sign = np.where(below, 1.0, -1.0)
    te = IS_TE[modes]
    return (
        np.where(te, -sign * gamma * tanh, tanh / gamma),
        np.where(te, -gamma / tanh, sign / (gamma * tanh)),
        np.where(te, -gamma / sinh, sign / (gamma * sinh)),
    )


def _decay(cutoff: float, k: Reals) -> Reals:
    return np.sqrt(np.maximum(cutoff**2 - k**2, 0))


def _db(k: Reals, amplitude: NDArray[np.complex128]) -> Reals:
    return -20 * np.log10(np.abs(amplitude)) + 8.685889638065035 * LENGTH * _decay(CUTOFF[0], k)


def each_frequency() -> Reals:
    """Mode matching at every frequency; amplitudes are extrapolated."""
    k = 2 * np.pi * SWEEP_HZ / C * WIDTH
    t, a, kappa = _transforms(k)
    a *= np.where(IS_TE[:, None], k[:, None, None], 1.0)
    kz = np.sqrt(k[:, None] ** 2 - kappa**2 + 0j)
    kz = np.where(kz.imag > 0, -kz, kz)
    weights = kz / AREA, 1 / (kz * AREA)
    amplitudes = []
    for limit in (COARSE, FINE):
        modes, harmonics = (
            slice(int(np.searchsorted(CUTOFF, limit))),
            slice(int(np.sum(np.hypot(GX, GY) <= 2 * limit))),
        )
        parts = [part[:, modes, harmonics] for part in (t, a)]
        y = np.zeros((len(k), modes.stop, modes.stop), dtype=complex)
        travels = np.any(kz[:, harmonics].real > 0, axis=0)
        for part, weight in zip(parts, weights, strict=True):
            weight = weight[:, None, harmonics]
            y.imag += (part * weight.imag) @ part.swapaxes(1, 2)
            few = part[:, :, travels]
            y.real += (few * weight.real[:, :, travels]) @ few.swapaxes(1, 2)
        even, odd, through = _ends(k, modes, _decay(CUTOFF[0], k)[:, None])
        drive = parts[0][:, :, :1] + 0j
        place = np.arange(modes.stop)
        halves = y.copy()
        halves[:, place, place] += 1j * odd
        far = 1j * through[:, :, None] * np.linalg.solve(halves, drive)
        halves = y
        halves[:, place, place] += 1j * even
        far = np.linalg.solve(halves, far)
        amplitudes.append(2 * weights[0][:, 0] * np.sum(parts[0][:, :, 0] * far[:, :, 0], axis=1))
    coarse, fine = amplitudes
    return _db(k, fine * (fine / coarse) ** BEYOND)


def same_reduction() -> Reals:
    """What ours does, in numpy."""
    k = 2 * np.pi * SWEEP_HZ / C * WIDTH
    # The first band of ours reaches 2 % above cutoff.
    highest = 1.02 * np.pi
    along = GX * SINE
    square = GX**2 + GY**2
    live = (square < 1.6 * highest * (np.sqrt(along**2 + square * COSINE**2) - along)) | (square == 0)
    ports_first = np.argsort(~live, kind="stable")
    few, first = int(live.sum()), int(np.searchsorted(CUTOFF, 1.35 * highest))
    angle = np.pi * (np.arange(POINTS) + 0.5) / POINTS
    nodes = 0.5 * highest * (1 + np.cos(angle))
    t, a, kappa = (part[..., ports_first] for part in _transforms(nodes))
    a *= np.where(IS_TE[:, None], nodes[:, None, None], 1.0)
    length = np.hypot(GX, GY)[ports_first]
    reduced = []
    for limit in (COARSE, FINE):
        modes = int(np.searchsorted(CUTOFF, limit))
        harmonics = slice(few, few + int(np.sum(length[few:] <= 2 * limit)))
        kz = np.sqrt(kappa[:, None, harmonics] ** 2 - nodes[:, None, None] ** 2)
        across, alongs = (part[:, :modes, harmonics] for part in (t, a))
        total = (across * (-kz / AREA)) @ across.swapaxes(1, 2) + (alongs / (kz * AREA)) @ alongs.swapaxes(
            1, 2
        )
        open_parts = np.stack([t[:, :modes, :few], a[:, :modes, :few]], axis=3).reshape(
            POINTS, modes, 2 * few
        )
        even, odd, through = _ends(nodes, slice(first, modes), _decay(CUTOFF[first], nodes)[:, None])
        to_ports = np.concatenate([total[:, first:, :first], open_parts[:, first:]], axis=2)
        place = np.arange(modes - first)
        solved = []
        for own in (odd, even):
            block = total[:, first:, first:].copy()
            block[:, place, place] += own
            solved.append(np.linalg.solve(block, to_ports))
        by_odd, by_even = solved
        left = -(to_ports.swapaxes(1, 2) @ by_odd)
        left[:, :first, :first] += total[:, :first, :first]
        left[:, :first, first:] += open_parts[:, :first]
        left[:, first:, :first] += open_parts[:, :first].swapaxes(1, 2)
        besides = by_even.swapaxes(1, 2) @ (through[:, :, None] * by_odd)
        reduced.append(np.stack([left, besides], axis=1))
    coarse, fine = reduced
    values = fine + BEYOND * (fine - coarse)
    chebyshev = (
        np.cos(np.arange(POINTS)[:, None] * angle) * np.where(np.arange(POINTS) == 0, 1, 2)[:, None] / POINTS
    )
    shape = values.shape[1:]
    coefficients = chebyshev @ values.reshape(POINTS, -1)
    at = np.cos(np.arange(POINTS) * np.arccos(np.clip(2 * k / highest - 1, -1, 1))[:, None])
    left, besides = np.moveaxis((at @ coefficients).reshape(len(k), *shape), 1, 0)
    least, stored = _decay(CUTOFF[0], k), _decay(CUTOFF[first], k)
    even, odd, through = _ends(k, slice(first), least[:, None])
    kappa = np.hypot(GX[ports_first[:few]] + k[:, None] * SINE, GY[ports_first[:few]])
    kz = np.sqrt(k[:, None] ** 2 - kappa**2 + 0j)
    kz = np.where(kz.imag > 0, -kz, kz)
    y = np.stack([kz / AREA, 1 / (kz * AREA)], axis=2).reshape(len(k), -1)
    odd_half = left.astype(complex)
    even_half = left - 2 * np.exp(-stored * LENGTH)[:, None, None] * besides + 0j
    place = np.arange(first)
    odd_half[:, place, place] += odd
    even_half[:, place, place] += even
    place = first + np.arange(2 * few)
    odd_half[:, place, place] -= 1j / y
    even_half[:, place, place] -= 1j / y
    by_odd = np.linalg.solve(odd_half, -1j * left[:, :, first : first + 1])[:, :, 0]
    whole = by_odd.copy()
    whole[:, first] += 1j
    passed = np.exp((least - stored) * LENGTH)[:, None] * (besides @ whole[:, :, None])[:, :, 0]
    passed[:, :first] += by_odd[:, :first] * through
    far = np.linalg.solve(even_half, passed[:, :, None])[:, :, 0]
    return _db(k, 2j * far[:, first])


def rows() -> Iterator[Contest]:
    """The rigorous panel."""
    panel = sr.HoneycombPanel(sr.vents.SquareCell(WIDTH, WALL), DEPTH, (0.3, 0.3))
    yield Contest(
        "square honeycomb, mode matching, 200 f, 30 degrees",
        lambda: panel.matched_shielding_db(SWEEP_HZ, ANGLE_DEG),
        {"numpy, each frequency": each_frequency, "numpy, same reduction": same_reduction},
        steps=SWEEP_HZ.size,
        # The one extrapolates amplitudes, the other the ports behind them: 0.03 dB.
        rtol=1e-3,
    )
