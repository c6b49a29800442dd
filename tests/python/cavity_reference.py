"""A box with openings by images instead of modes: independent numerical references.

In a box that is filled with loss the walls are replaced by mirror images of the openings' magnetic currents,
summed until the loss has swallowed them; voltages follow from the reaction integrals in space, by
Galerkin's method with the same half-waves along a thin slot. Nothing is summed over modes, and the field at a
point is the curl of a sum of dipole potentials. The strip's edge field enters by its equivalent radius, a
quarter of the width.

`SlottedBox` has images in all three directions, which takes heavy loss. `ResonantBox` has a Fourier series
along x and images of line currents in the other two: they reach further, so that it resonates with a quality
factor of tens.
"""

from __future__ import annotations

import itertools

import numpy as np
from numpy.typing import NDArray
from scipy.special import jv, kv

C = 299_792_458.0
Box = tuple[float, float, float]
Complex = NDArray[np.complex128]
Real = NDArray[np.float64]


class SlottedBox:
    """Thin slots along x in the front (z = 0) of a box with perfect walls and a lossy filling."""

    def __init__(
        self,
        interior_m: Box,
        slots: list[tuple[float, float, float, float]],
        quality: float,
        modes: int = 3,
        nodes: int = 24,
    ) -> None:
        """Slots by x and y of their centre, length and width."""
        self.interior = interior_m
        self.slots = slots
        self.quality = quality
        self.basis = [(slot, mode) for slot in slots for mode in range(1, modes + 1)]
        x, weights = np.polynomial.legendre.leggauss(nodes)
        self.u, self.weights = (x + 1) / 2, weights / 2

    def images(self, y: float, k: complex) -> list[tuple[int, Real]]:
        """Mirror images of a current along x in the front: the sign of x and where they are.

        Along x a magnetic current keeps its sign in walls along it and turns in those across it, which
        mirrors the half-wave as well, so that f(x) goes to -f(-x).
        """
        a, b, d = self.interior
        reach = 22 / abs(k.imag)
        counts = [int(np.ceil(reach / (2 * side))) for side in (a, b, d)]
        found = []
        for m, n, p in itertools.product(*(range(-count, count + 1) for count in counts)):
            for mirrored_x, mirrored_y in itertools.product((0, 1), (0, 1)):
                shift = np.array([2 * m * a, 2 * n * b + (y if not mirrored_y else -y), 2 * p * d])
                if np.hypot(np.hypot(shift[0], shift[1] - y), shift[2]) < reach:
                    found.append((1 - 2 * mirrored_x, shift))
        return found

    def wave(self, entry: tuple[tuple[float, float, float, float], int]) -> tuple[Real, Real, Real]:
        """Places along the slot, the voltage there and its slope."""
        (x, _, length, _), mode = entry
        beta = mode * np.pi / length
        u = self.u * length
        return x - length / 2 + u, np.sin(beta * u), beta * np.cos(beta * u)

    def reaction(self, k: complex, one: int, other: int, inside: bool) -> complex:
        """j omega mu0 Y of two voltages, by the integral over charges and currents."""
        (slot, _), (source, _) = self.basis[one], self.basis[other]
        xs, f, slope = self.wave(self.basis[one])
        there, g, g_slope = self.wave(self.basis[other])
        weight = slot[2] * source[2] * np.outer(self.weights, self.weights)
        total = 0j
        images = self.images(source[1], k) if inside else [(1, np.array([0.0, source[1], 0.0]))]
        for sign, shift in images:
            across = np.hypot(shift[1] - slot[1], shift[2])
            dx = xs[:, None] - (shift[0] + sign * there)[None, :]
            if across < 1e-9 and sign > 0 and abs(shift[0]) < 1e-9 and slot == source:
                total += self.self_term(k, one, other)
                continue
            r = np.sqrt(dx**2 + across**2)
            # An image turned about x carries -f(-x): the current turns, its slope does not.
            currents = sign * np.outer(f, g)
            charges = np.outer(slope, g_slope)
            total += np.sum(weight * (charges - k**2 * currents) * np.exp(-1j * k * r) / r) / (2 * np.pi)
        return complex(total)

    def self_term(self, k: complex, one: int, other: int) -> complex:
        """The same for a slot on itself, with the strip's equivalent radius; graded towards each point."""
        (slot, m), (_, n) = self.basis[one], self.basis[other]
        length, radius = slot[2], slot[3] / 4
        edges = np.concatenate([[0.0], np.geomspace(radius / 4, length, 40)])
        x, w = np.polynomial.legendre.leggauss(12)
        lag = np.concatenate([(lo + hi) / 2 + (hi - lo) / 2 * x for lo, hi in itertools.pairwise(edges)])
        lag_weight = np.concatenate([(hi - lo) / 2 * w for lo, hi in itertools.pairwise(edges)])
        kernel = np.exp(-1j * k * np.hypot(lag, radius)) / (2 * np.pi * np.hypot(lag, radius))
        a, b = m * np.pi / length, n * np.pi / length
        u = self.u[:, None] * (length - lag)
        span = self.weights[:, None] * (length - lag)
        pairs = [(u, u + lag), (u + lag, u)]
        sines = sum(np.sum(span * np.sin(a * p) * np.sin(b * q), axis=0) for p, q in pairs)
        cosines = sum(np.sum(span * np.cos(a * p) * np.cos(b * q), axis=0) for p, q in pairs)
        return complex(np.sum(lag_weight * kernel * (a * b * cosines - k**2 * sines)))

    def field(self, frequency_hz: float, at_m: Box) -> Complex:
        """Electric field at a point for an incident wave of 1 V/m along y."""
        k0 = 2 * np.pi * frequency_hz / C
        k = complex(k0 * np.sqrt(1 - 1j / self.quality))
        count = len(self.basis)
        whole = np.zeros((count, count), dtype=complex)
        for i, j in itertools.product(range(count), range(count)):
            if j <= i:
                value = self.reaction(complex(k0), i, j, False) + self.reaction(k, i, j, True)
                whole[i, j] = whole[j, i] = value
        driven = [2 * np.sum(self.weights * self.wave(one)[1]) * one[0][2] for one in self.basis]
        voltages = np.linalg.solve(whole, 1j * k0 * np.array(driven))
        # E = -curl F, F along x: F = sum of V f exp(-jkR)/(2 pi R); Ey = -dF/dz, Ez = dF/dy.
        field = np.zeros(3, dtype=complex)
        point = np.array(at_m)
        for voltage, one in zip(voltages, self.basis, strict=True):
            xs, f, _ = self.wave(one)
            for sign, shift in self.images(one[0][1], k):
                dx, dy, dz = point[0] - (shift[0] + sign * xs), point[1] - shift[1], point[2] - shift[2]
                r = np.sqrt(dx**2 + dy**2 + dz**2)
                slope = -(1j * k + 1 / r) * np.exp(-1j * k * r) / (2 * np.pi * r**2)
                total = voltage * one[0][2] * sign * np.sum(self.weights * f * slope)
                field += np.array([0, -dz * total, dy * total])
        return field


class ResonantBox(SlottedBox):
    """The same by line currents: sin(n pi x/a) along x, images along y and z."""

    def __init__(
        self,
        interior_m: Box,
        slots: list[tuple[float, float, float, float]],
        quality: float,
        terms: int = 400,
    ) -> None:
        super().__init__(interior_m, slots, quality)
        self.kx = np.arange(1, terms + 1) * np.pi / interior_m[0]
        x, weights = np.polynomial.legendre.leggauss(400)
        self.fine = (x + 1) / 2, weights / 2
        self.series = [self.coefficients(one) for one in self.basis]

    def coefficients(self, entry: tuple[tuple[float, float, float, float], int]) -> Real:
        """Integrals of a half-wave along a slot with the sines along x."""
        (x, _, length, _), mode = entry
        u, weights = self.fine
        wave = length * weights * np.sin(mode * np.pi * u)
        return np.asarray(np.sin(np.outer(self.kx, x - length / 2 + length * u)) @ wave)

    def line_images(self, source_y: float, reach: float) -> tuple[Real, Real]:
        """Where the images of a line current along x in the front are."""
        _, b, d = self.interior
        n = np.arange(-np.ceil(reach / (2 * b)) - 1, np.ceil(reach / (2 * b)) + 2)
        p = np.arange(-np.ceil(reach / (2 * d)) - 1, np.ceil(reach / (2 * d)) + 2)
        y = np.concatenate([2 * n * b + source_y, 2 * n * b - source_y])
        ys, zs = np.meshgrid(y, 2 * p * d, indexing="ij")
        return ys.ravel(), zs.ravel()

    def line_sums(
        self, k: complex, source_y: float, y: float, z: float, radius: float, order: int
    ) -> Complex:
        """Sums over the images, for every term: of K0, or of q K1 times the direction along y and along z."""
        q = np.sqrt(self.kx**2 - k**2 + 0j)
        found = np.zeros((3, q.size), dtype=complex)
        reach = 18 / q.real
        ys, zs = self.line_images(source_y, float(reach.max()))
        dy, dz = y - ys, z - zs
        distance = np.hypot(dy, dz)
        close = np.argsort(distance)
        dy, dz, distance = dy[close], dz[close], distance[close]
        # The line itself is a wire of the strip's equivalent radius.
        distance[distance < 1e-9] = radius
        for term in range(q.size):
            count = int(np.searchsorted(distance, reach[term])) + 1
            r = distance[:count]
            if order == 0:
                found[0, term] = np.sum(kv(0, q[term] * r))
            else:
                slope = q[term] * kv(1, q[term] * r) / r
                found[1, term], found[2, term] = np.sum(slope * dy[:count]), np.sum(slope * dz[:count])
        return found

    def inner(self, k: complex) -> Complex:
        """j omega mu0 Y inside, of all pairs of half-waves."""
        count = len(self.basis)
        found = np.zeros((count, count), dtype=complex)
        pairs: dict[tuple[int, int], Complex] = {}
        for i, j in itertools.product(range(count), range(count)):
            one, other = self.slots.index(self.basis[i][0]), self.slots.index(self.basis[j][0])
            if (one, other) not in pairs:
                slot, source = self.slots[one], self.slots[other]
                sums = self.line_sums(k, source[1], slot[1], 0.0, slot[3] / 4, 0)[0]
                pairs[one, other] = 2 / (np.pi * self.interior[0]) * (self.kx**2 - k**2) * sums
            found[i, j] = np.sum(pairs[one, other] * self.series[i] * self.series[j])
        return found

    def field(self, frequency_hz: float, at_m: Box) -> Complex:
        """Electric field at a point for an incident wave of 1 V/m along y."""
        k0 = 2 * np.pi * frequency_hz / C
        k = complex(k0 * np.sqrt(1 - 1j / self.quality))
        count = len(self.basis)
        whole = self.inner(k)
        for i, j in itertools.product(range(count), range(count)):
            whole[i, j] += self.reaction(complex(k0), max(i, j), min(i, j), False)
        driven = [2 * np.sum(self.weights * self.wave(one)[1]) * one[0][2] for one in self.basis]
        voltages = np.linalg.solve(whole, 1j * k0 * np.array(driven))
        field = np.zeros(3, dtype=complex)
        along = np.sin(self.kx * at_m[0])
        for voltage, one, series in zip(voltages, self.basis, self.series, strict=True):
            _, over_y, over_z = self.line_sums(k, one[0][1], at_m[1], at_m[2], 0.0, 1)
            share = 2 / (np.pi * self.interior[0]) * voltage * series * along
            field += np.array([0, np.sum(share * over_z), -np.sum(share * over_y)])
        return field


def coupled_slot_db(
    frequency_hz: float,
    interior_m: Box,
    slot: tuple[float, float, float, float],
    at_m: Box,
    odd: int,
    terms: tuple[int, int] = (600, 3000),
) -> float:
    """Electric shielding of a lossless box with one thin slot along x, by so many odd voltages along it.

    Inside the sum over the modes of the box is carried out, with the edge field J0 across the slot; in front
    the reaction of charges and currents on a wire of a quarter of the width, graded towards each point.
    """
    a, b, d = interior_m
    x, y, length, width = slot
    k = 2 * np.pi * frequency_hz / C
    orders = np.arange(1, 2 * odd, 2)
    beta = orders * np.pi / length
    kx, ky = np.arange(terms[0]) * np.pi / a, np.arange(terms[1]) * np.pi / b
    sign = np.where((orders // 2) % 2 == 0, 1, -1)[:, None]
    lobes = sum(np.sinc((beta[:, None] + s * kx) * length / 2 / np.pi) for s in (1, -1))
    along = sign * length / 2 * lobes * np.sin(kx * x)
    across = np.cos(ky * y) * jv(0, ky * width / 2)
    twice_x, twice_y = np.where(kx == 0, 1, 2.0), np.where(ky == 0, 1, 2.0)
    gamma = np.sqrt((kx[:, None] ** 2 + ky**2 - k**2).astype(complex))
    summed = (twice_y * across**2 / np.tanh(gamma * d) / gamma).sum(axis=1)
    inside = np.einsum("ip,jp,p->ij", along, along, twice_x * (kx**2 - k**2) * summed) / (a * b)

    radius = width / 4
    edges = np.concatenate([[0.0], np.geomspace(radius / 4, length, 40)])
    nodes, weights = np.polynomial.legendre.leggauss(12)
    lag = np.concatenate([(lo + hi) / 2 + (hi - lo) / 2 * nodes for lo, hi in itertools.pairwise(edges)])
    lag_weight = np.concatenate([(hi - lo) / 2 * weights for lo, hi in itertools.pairwise(edges)])
    kernel = lag_weight * np.exp(-1j * k * np.hypot(lag, radius)) / (2 * np.pi * np.hypot(lag, radius))
    nodes, weights = np.polynomial.legendre.leggauss(60)
    u, span = (nodes[:, None] + 1) / 2 * (length - lag), weights[:, None] / 2 * (length - lag)
    sines, cosines = ([f(v * at) for v in beta for at in (u, u + lag)] for f in (np.sin, np.cos))

    def outside(i: int, j: int) -> complex:
        pairs = [(2 * i, 2 * j + 1), (2 * i + 1, 2 * j)]
        charges = sum(np.sum(span * cosines[p] * cosines[q], axis=0) for p, q in pairs)
        currents = sum(np.sum(span * sines[p] * sines[q], axis=0) for p, q in pairs)
        return complex(np.sum(kernel * (beta[i] * beta[j] * charges - k**2 * currents)))

    whole = inside + np.array([[outside(i, j) for j in range(odd)] for i in range(odd)])
    voltages = np.linalg.solve(whole, 2j * k * 2 / beta)
    px, py, pz = at_m
    fall = np.exp(-gamma * pz) * np.expm1(-2 * gamma * (d - pz)) / np.expm1(-2 * gamma * d)
    seen = (along.T @ voltages) * twice_x * np.sin(kx * px)
    field = seen @ fall @ (twice_y * across * np.cos(ky * py)) / (a * b)
    return float(-20 * np.log10(abs(field)))
