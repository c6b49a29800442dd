"""A box with a slot: ours against the same formulas, every mode at many frequencies at once, in numpy.

What does not depend on frequency (mode integrals, the sum over modes far below cutoff) is prepared once for
either side and not timed.
"""

from __future__ import annotations

import functools
from collections.abc import Callable, Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.special import j0, j1, sici
from side_by_side import Contest

import stillroom as sr
from joint import VACUUM_PERMEABILITY, C, mouth

Real = NDArray[np.float64]
Complex = NDArray[np.complex128]

VACUUM_IMPEDANCE = VACUUM_PERMEABILITY * C
INTERIOR = (0.3, 0.12, 0.3)
CENTER, SIZE = (0.14, 0.05), (0.1, 5e-3)
POINT = (0.11, 0.07, 0.15)
QUALITY = 200.0
# So many frequencies at a time were fastest: the arrays of all modes stay small.
CHUNK = 256


@dataclass(frozen=True)
class Carried:
    """A half-wave along an axis (0 or 1), or the potential (None)."""

    axis: int | None
    mode: int
    length: float
    width: float
    slenderness: float
    cutoff: float

    def transform(self, axis: int, kappa: Real) -> Real:
        """Its integral with exp(j kappa u) about its centre, without j."""
        if self.axis is None:
            half = SIZE[axis] / 2
            q = np.maximum(kappa * half, 1e-8)
            return np.asarray(np.pi * half * j1(q) / q)
        if self.axis != axis:
            return np.asarray(j0(kappa * self.width / 2))
        half, beta = self.length / 2, self.mode * np.pi / self.length
        minus, plus = (np.sinc((beta - kappa) * half / np.pi), np.sinc((beta + kappa) * half / np.pi))
        sign = 1 if (self.mode // 2) % 2 == 0 else -1
        return np.asarray(sign * half * (minus - plus if self.mode % 2 == 0 else minus + plus))

    def column(self, axis: int, kappa: Real) -> Real:
        """With the modes of the box."""
        sine, cosine = np.sin(kappa * CENTER[axis]), np.cos(kappa * CENTER[axis])
        even = self.axis == axis and self.mode % 2 == 0
        takes_sine = (self.axis is None or self.axis == axis) and not even
        return np.asarray(self.transform(axis, kappa) * (sine if takes_sine else cosine))

    def shares(self, kx: Real, ky: Real) -> tuple[Real, Real, Real]:
        """Field along x and along y, and its curl."""
        value = self.column(0, kx) * self.column(1, ky)
        zero = np.zeros_like(value)
        if self.axis is None:
            return kx * value, ky * value, zero
        return (zero, value, kx * value) if self.axis == 0 else (value, zero, -ky * value)


def carried_by_the_slot() -> tuple[list[Carried], float]:
    """All that the slot carries, and the static admittance of its potential."""
    long, short = SIZE
    unit = sr.apertures.Polarizability.of_rectangle(1.0, short / long)
    si, ci = (float(value) for value in sici(np.pi))
    cin_pi = float(np.euler_gamma + np.log(np.pi) - ci)

    def lowest(alpha: float) -> float:
        return 4 / (np.pi**3 * alpha) + si / np.pi + cin_pi

    slim = float(np.log(8 * long / short))
    found = [
        Carried(0, m, long, short, lowest(unit.magnetic_along_m3) if m == 1 else slim, m * np.pi / long)
        for m in (1, 2, 3)
    ]
    across = unit.magnetic_across_m3 * (long / short) ** 3
    found.append(Carried(1, 1, short, long, lowest(across), np.pi / short))
    found.append(Carried(None, 0, 0.0, 0.0, 0.0, float(np.hypot(np.pi / long, np.pi / short))))
    moment = (np.pi / 4) ** 2 * long * short
    return found, moment**2 / (2 * unit.electric_m3 * long**3)


def windowed(one: Carried, other: Carried, window: float) -> tuple[float, float]:
    """The half-space under the window, coefficients of 1 and k^2."""
    x, w = np.polynomial.legendre.leggauss(8)
    along, length, width = (0, *SIZE) if one.axis is None else (one.axis, one.length, one.width)
    last = 4.5 * window
    panels = max(int(np.ceil(last * length / np.pi)), 6), 4 + int(np.ceil(last * width / np.pi))

    def nodes(count: int) -> tuple[Real, Real]:
        return ((np.arange(count)[:, None] + (x + 1) / 2) / count).ravel(), np.tile(w / 2 / count, count)

    (s, s_weights), (t, t_weights) = nodes(panels[0]), nodes(panels[1])
    kappa = s * last
    reach = np.arcsinh(last / kappa)
    slant = kappa[:, None] * np.sinh(reach[:, None] * t)
    total = kappa[:, None] * np.cosh(reach[:, None] * t)
    amplitude = s_weights * last * one.transform(along, kappa) * other.transform(along, kappa) * reach
    part = (
        amplitude[:, None]
        * t_weights
        * one.transform(1 - along, slant) ** 2
        * np.exp(-((total / window) ** 2))
    )
    if one.axis is None:
        return 0.0, -float(np.sum(part * total**2)) / np.pi**2
    first, ratio = kappa[:, None] ** 2, (kappa[:, None] / total) ** 2
    return float(np.sum(part * first)) / np.pi**2, float(np.sum(part * (ratio / 2 - 1))) / np.pi**2


def outside(one: Carried, other: Carried, k: Real, static: float) -> Complex:
    """j omega mu0 Y in front, over the powers of k that potentials carry."""
    zero = np.zeros(k.size, dtype=complex)
    if one.axis is None or other.axis is None:
        if one is not other:
            return zero
        x, y = SIZE
        moment = (np.pi / 4) ** 2 * x * y
        stored = static + 0.15 * k**2 * moment**2 / np.sqrt(x * y / np.pi)
        return np.asarray(-stored + 1j * k**3 * moment**2 / (3 * np.pi) / (1 + k**2 * (x * x + y * y) / 40))
    if one is other:
        return np.asarray(mouth(one.mode, k * one.length, one.slenderness) / one.length)
    if one.axis != other.axis or (one.mode + other.mode) % 2:
        return zero
    x, w = np.polynomial.legendre.leggauss(16)
    length, a, b = one.length, one.mode * np.pi / one.length, other.mode * np.pi / one.length
    u = (x + 1) / 2 * length
    sines, cosines = np.zeros_like(u), np.zeros_like(u)
    for p, q in ((a, b), (b, a)):
        less = (np.sin((p - q) * (length - u) - q * u) + np.sin(q * u)) / (p - q)
        more = (np.sin((p + q) * (length - u) + q * u) - np.sin(q * u)) / (p + q)
        sines, cosines = sines + (less - more) / 2, cosines + (less + more) / 2
    r = np.hypot(u, one.width / 4)
    kernel = np.exp(-1j * np.outer(k, r)) / (2 * np.pi * r) * (w / 2 * length)
    return np.asarray(kernel @ (a * b * cosines) - k**2 * (kernel @ sines))


@dataclass(frozen=True)
class Prepared:
    """All that every frequency shares."""

    carried: list[Carried]
    static: float
    kx: Real
    ky: Real
    shares: tuple[Real, Real, Real]
    products: tuple[Real, Real]
    far: Real
    at_point: Real
    families: list[tuple[Real, Real, Real, float, float, Real]]


def prepare() -> Prepared:
    """Mode integrals, and the modes far below cutoff."""
    a, b, _ = INTERIOR
    carried, static = carried_by_the_slot()
    clearance = min(min(c, side - c) - s / 2 for c, side, s in zip(CENTER, (a, b), SIZE, strict=True))
    split = max(np.sqrt(4 * np.pi * 400 / (a * b)), 6 * np.pi / min(a, b))
    window = float(np.clip(5 / clearance, 1.5 * split, 12 * split))
    last = 4.5 * window
    p, q = np.meshgrid(
        np.arange(int(last * a / np.pi) + 1), np.arange(int(last * b / np.pi) + 1), indexing="ij"
    )
    kx, ky = p * np.pi / a, q * np.pi / b
    taken = (p + q > 0) & (kx**2 + ky**2 <= last**2)
    kx, ky = kx[taken], ky[taken]
    root = np.sqrt(np.where(kx > 0, 2, 1) * np.where(ky > 0, 2, 1) / (a * b))
    x, y, curl = (
        root * np.array(part) for part in zip(*(one.shares(kx, ky) for one in carried), strict=True)
    )
    total = np.hypot(kx, ky)
    near = total < split
    share = np.exp(-((total / window) ** 2)) - near
    count = len(carried)
    pairs = [(i, j) for i in range(count) for j in range(count)]
    far = np.zeros((3, count, count))
    for i, j in pairs:
        curls, fields = share * curl[i] * curl[j], share * (x[i] * x[j] + y[i] * y[j])
        far[0, i, j] = np.sum(curls / total)
        far[1, i, j] = np.sum(curls / total**3 / 2 - fields / total)
        far[2, i, j] = np.sum(curls / total**5 * 0.375 - fields / total**3 / 2)
        one, other = carried[i], carried[j]
        if one.axis is None and one is other:
            far[1, i, j] += -static - windowed(one, other, window)[1]
        elif one.axis is not None and one.axis == other.axis and (one.mode + other.mode) % 2 == 0:
            k = 0.03 / one.length
            whole = outside(one, other, np.array([1e-9, k]), static).real
            inner = windowed(one, other, window)
            far[0, i, j] += whole[0] - inner[0]
            far[1, i, j] += (whole[1] - whole[0]) / k**2 - inner[1]
    kx, ky, x, y, curl = kx[near], ky[near], x[:, near], y[:, near], curl[:, near]
    curls = np.array([curl[i] * curl[j] for i, j in pairs])
    fields = np.array([x[i] * x[j] + y[i] * y[j] for i, j in pairs])
    (sx, cx), (sy, cy) = ((np.sin(k * at), np.cos(k * at)) for k, at in ((kx, POINT[0]), (ky, POINT[1])))
    rows = [x * (cx * sy), y * (sx * cy), -(x * kx + y * ky) * (sx * sy)]
    families = []
    for own, other, own_m, other_m in ((kx, ky, a, b), (ky, kx, b, a)):
        families.append((own, other, np.where(other > 0, 0.5, 1.0), own_m, other_m, own > 0))
    at_point = np.array(rows) * root[near]
    return Prepared(carried, static, kx, ky, (x, y, curl), (curls, fields), far, at_point, families)


def wall_share(made: Prepared, k: Real) -> Real:
    """Surface over volume integral of |H|^2, modes by frequencies."""
    squared = (made.kx**2 + made.ky**2)[:, None]
    kz_squared = np.maximum(k**2 - squared, 1e-9 * squared)
    step = np.minimum(np.sqrt(kz_squared) * INTERIOR[2] / np.pi, 1.0)
    spread = 1 - 0.5 * step**2 * (3 - 2 * step)
    total, count = np.zeros_like(kz_squared), np.zeros_like(squared)
    for own, other, even, own_m, other_m, taken in made.families:
        own, other, even = own[:, None], other[:, None], even[:, None]
        along = (other**2 + kz_squared) ** 2 * 0.5 * even * spread
        across = 0.25 * own**2 * other**2 * spread
        through = 0.25 * own**2 * kz_squared * even
        walls = 4 / own_m * (across + through) + 2 / other_m * (along + through) / even
        walls += 2 / INTERIOR[2] * (along + across) / spread
        total += np.where(taken[:, None], walls / (along + across + through), 0.0)
        count += taken[:, None]
    return np.asarray(total / count)


def shielding_by_numpy(made: Prepared, conductivity: float, frequency_hz: Real) -> Real:
    """Electric shielding at the point, dB."""
    parts = (
        chunk_by_numpy(made, conductivity, frequency_hz[start : start + CHUNK])
        for start in range(0, frequency_hz.size, CHUNK)
    )
    return np.concatenate(list(parts))


def chunk_by_numpy(made: Prepared, conductivity: float, frequency_hz: Real) -> Real:
    """The same of some frequencies."""
    depth, z = INTERIOR[2], POINT[2]
    k = 2 * np.pi * frequency_hz / C
    count = len(made.carried)
    walls = 1 / np.sqrt(1 - 1j * conductivity * VACUUM_IMPEDANCE / k)
    share = wall_share(made, k) / k
    factor = 1 + walls.imag * share - 1j * (walls.real * share + 1 / QUALITY)
    gamma = np.sqrt((made.kx**2 + made.ky**2)[:, None] - k**2 * factor)
    over = 1 / gamma
    fall = np.expm1(-2 * depth * gamma)
    coth = -(fall + 2) / fall * over
    order = np.array([0 if one.axis is None else 1 for one in made.carried])
    powers = k ** (order[:, None, None] + order[None, :, None])
    filled = 1 - 1j / QUALITY
    inner = (made.products[0] @ coth).reshape(count, count, -1)
    inner = inner - powers * (made.products[1] @ (factor * coth)).reshape(count, count, -1)
    inner = inner + made.far[0][..., None]
    inner = inner + powers * filled * (made.far[1][..., None] + k**2 * filled * made.far[2][..., None])
    whole = np.moveaxis(inner, 2, 0).copy()
    for i, one in enumerate(made.carried):
        for j, other in enumerate(made.carried):
            whole[:, i, j] += outside(one, other, k, made.static)
    driven = np.array(
        [
            2 * k * 2 / (m.mode * np.pi) * m.length if m.axis == 0 and m.mode % 2 else 0 * k
            for m in made.carried
        ]
    )
    solved = np.linalg.solve(whole, 1j * driven.T[..., None])[..., 0].T
    solved = np.where(order[:, None] == 0, solved / k, solved)
    rest, reached = np.expm1(-2 * (depth - z) * gamma), np.exp(-z * gamma) / fall
    sinh, cosh = rest * reached, -(rest + 2) * reached * over
    ex, ey, ez = (
        np.einsum("jf,jf->f", row @ part, solved)
        for row, part in zip(made.at_point, (sinh, sinh, cosh), strict=True)
    )
    return np.asarray(-10 * np.log10(np.abs(ex) ** 2 + np.abs(ey) ** 2 + np.abs(ez) ** 2))


def rows() -> Iterator[Contest]:
    """The field at a point behind one slot."""
    bench = sr.BenchBox(INTERIOR, [sr.boxes.BoxSlot(CENTER, SIZE)], contents_quality_factor=QUALITY)
    conductivity = bench.walls.conductivity_s_per_m
    assert isinstance(conductivity, float)
    made = prepare()
    for count in (1_000, 10_000):
        frequency_hz = np.linspace(50e6, 2e9, count)
        peers: dict[str, Callable[[], Real]] = {
            "numpy": functools.partial(shielding_by_numpy, made, conductivity, frequency_hz)
        }
        yield Contest(
            f"box with a slot, a point inside x {count:,} f",
            functools.partial(bench.electric_shielding_db, frequency_hz, POINT),
            peers,
            steps=count,
            # Where modes are near their cutoffs both lose digits.
            rtol=1e-8,
            atol=1e-7,
        )
