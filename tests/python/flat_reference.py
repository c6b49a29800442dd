"""Static polarizabilities of openings of any outline, by panels.

The complement of an opening in a wall is a flat plate. Its charge in a field along it gives the magnetic
polarizability (a quarter of the plate's), its currents in a field through it the electric one (J. Van
Bladel, *Electromagnetic Fields*, 2nd ed., 2007, sec. 10.4, from memory). A quarter of the plate is cut into
quadrilaterals that are graded towards all edges; charge is constant on each, current runs around each, and
the equations are met at one place of each. What such panels cause at a place is known in closed form. The
error falls with the square of their number along a side (currents along a curved edge: with their number, as
the field of a bent current has a logarithm that a straight one has not): three solutions are extrapolated.

`python flat_reference.py` writes the tables of rounded slots and crosses that
`src/wave/polarizability.rs` interpolates.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np

Array = np.ndarray[Any, Any]


def graded(low: float, high: float, count: int) -> tuple[Array, Array]:
    """Edges crowded towards both ends, and the places between them."""
    middle, half = (low + high) / 2, (high - low) / 2
    edges = middle - half * np.cos(np.pi * np.arange(count + 1) / count)
    return edges, middle - half * np.cos(np.pi * (np.arange(count) + 0.5) / count)


def graded_at_end(end: float, count: int) -> tuple[Array, Array]:
    """The same from 0 to one end, crowded there only."""
    edges, places = graded(-end, end, 2 * count)
    return edges[count:], places[count:]


def blocks(x: tuple[Array, Array], y: tuple[Array, Array]) -> tuple[Array, Array]:
    """Rectangles of a grid, corner by corner, and the places inside at which the current is decided."""
    (gx, px), (gy, py) = x, y
    corners = [(gx[:-1], gy[:-1]), (gx[1:], gy[:-1]), (gx[1:], gy[1:]), (gx[:-1], gy[1:])]
    quads = np.stack([np.stack(np.meshgrid(a, b, indexing="ij"), -1).reshape(-1, 2) for a, b in corners], 1)
    return quads, np.stack(np.meshgrid(px, py, indexing="ij"), -1).reshape(-1, 2)


def joined(*parts: tuple[Array, Array]) -> tuple[Array, Array]:
    return np.concatenate([part[0] for part in parts]), np.concatenate([part[1] for part in parts])


def rectangle(length: float, width: float, count: int) -> tuple[Array, Array]:
    """A quarter of a rectangle."""
    return blocks(graded_at_end(length / 2, count), graded_at_end(width / 2, count))


def rounded_slot(length: float, width: float, count: int) -> tuple[Array, Array]:
    """A quarter of a slot with half-round ends: a rectangle and a fan."""
    radius, straight = width / 2, (length - width) / 2
    edges, places = graded_at_end(radius, count)
    turns = 2 * count
    turn = np.pi / 2 * np.arange(turns + 1) / turns

    def polar(r: Array, t: Array) -> Array:
        return np.stack([straight + np.outer(r, np.cos(t)), np.outer(r, np.sin(t))], -1)

    grid = polar(edges, turn)
    fan = np.stack([grid[:-1, :-1], grid[1:, :-1], grid[1:, 1:], grid[:-1, 1:]], 2).reshape(-1, 4, 2)
    chord = np.cos(np.pi / 4 / turns)
    spots = polar(places * chord, (turn[1:] + turn[:-1]) / 2).reshape(-1, 2)
    if straight == 0:
        return fan, spots
    along = max(2, int(count * min(2.0, 0.5 + straight / width)))
    return joined((fan, spots), blocks(graded_at_end(straight, along), (edges, places)))


def cross(length: float, width: float, count: int) -> tuple[Array, Array]:
    """A quarter of a cross of two equal slots."""
    inner = graded_at_end(width / 2, count)
    if width == length:
        return blocks(inner, inner)
    arm = graded(width / 2, length / 2, int(count * min(3.0, 1.0 + 0.5 * np.log(length / width))))
    return joined(blocks(inner, inner), blocks(arm, inner), blocks(inner, arm))


def sides(places: Array, quads: Array) -> list[tuple[Array, Array, Array]]:
    """For each side of each quadrilateral, seen from each place: distance across, and along to both ends."""
    seen = []
    for corner in range(4):
        a, b = quads[:, corner], quads[:, (corner + 1) % 4]
        length = np.hypot(*(b - a).T)
        tangent = (b - a) / np.where(length > 0, length, 1)[:, None]
        normal = np.stack([tangent[:, 1], -tangent[:, 0]], 1)
        from_a = a[None] - places[:, None]
        across = np.einsum("mnk,nk->mn", from_a, normal)
        start = np.einsum("mnk,nk->mn", from_a, tangent)
        seen.append((np.where(length > 0, across, 0), start, start + length))
    return seen


def potential(places: Array, quads: Array) -> Array:
    """Of unit charge density, times 4 pi: the integral of 1/distance."""
    total = np.zeros((len(places), len(quads)))
    for across, start, end in sides(places, quads):
        away = np.abs(across) > 1e-15
        safe = np.where(away, np.abs(across), 1)
        total += np.where(away, across * (np.arcsinh(end / safe) - np.arcsinh(start / safe)), 0)
    return total


def through(places: Array, quads: Array) -> Array:
    """Of a unit current around each, the field through the plane, times 4 pi."""
    total = np.zeros((len(places), len(quads)))
    for across, start, end in sides(places, quads):
        away = np.abs(across) > 1e-15
        safe = np.where(away, across, 1)
        total += np.where(away, (end / np.hypot(end, safe) - start / np.hypot(start, safe)) / safe, 0)
    return total


def reflected(
    act: Callable[[Array, Array], Array], places: Array, quads: Array, odd_x: bool, odd_y: bool
) -> Array:
    """The same with the other three quarters, each a mirror image."""
    total = np.zeros((len(places), len(quads)))
    for x in (1, -1):
        for y in (1, -1):
            image = quads * np.array([x, y])
            sign = (-1 if odd_x and x < 0 else 1) * (-1 if odd_y and y < 0 else 1)
            total += sign * act(places, image if x * y > 0 else image[:, ::-1])
    return total / (4 * np.pi)


def polarizabilities(quarter: tuple[Array, Array]) -> Array:
    """Magnetic along x, magnetic along y, electric: those of the opening, wall closed."""
    quads, spots = quarter
    x, y = quads[..., 0], quads[..., 1]
    turn = x * np.roll(y, -1, 1) - np.roll(x, -1, 1) * y
    area = turn.sum(1) / 2
    middles = np.stack([((c + np.roll(c, -1, 1)) * turn).sum(1) for c in (x, y)], 1) / (6 * area)[:, None]
    found = []
    for axis in (0, 1):
        matrix = reflected(potential, middles, quads, axis == 0, axis == 1)
        charge = np.linalg.solve(matrix, middles[:, axis])
        found.append(charge @ (middles[:, axis] * area))
    current = np.linalg.solve(reflected(through, spots, quads, False, False), np.ones(len(spots)))
    found.append(abs(current @ area))
    return np.array(found)


def extrapolated(
    shape: Callable[[float, float, int], tuple[Array, Array]], aspect: float, count: int = 5
) -> Array:
    """Of unit length, from three solutions with doubled panels, two leading terms of the error removed."""
    first, second, third = (polarizabilities(shape(1.0, aspect, count * n)) for n in (1, 2, 4))
    order = np.array([2, 2, 1 if shape is rounded_slot else 2])

    def better(coarse: Array, fine: Array, order: Array) -> Array:
        return fine + (fine - coarse) / (2.0**order - 1)

    once = better(first, second, order), better(second, third, order)
    return better(*once, order + 1)


#: Widest range of the tables, and what becomes of the ratio to the rectangle in the limit of a thin slot.
THINNEST = 0.01
LIMITS = {"rounded_slot": np.array([1.0, 1.0, 1.0]), "cross": np.array([1.0, np.nan, 2.0])}


def table(name: str, rectangles: Callable[[float], Array], degree: int = 8) -> Array:
    """Chebyshev coefficients of G, with shape over rectangle = limit + (w/l) G, in the root of w/l."""
    x = np.cos(np.pi * np.arange(degree + 1) / degree)
    low = THINNEST**0.5
    roots = low + (1 - low) * (x + 1) / 2
    values = []
    for aspect in roots**2:
        value = extrapolated(globals()[name], aspect)
        print(name, aspect, value, flush=True)
        values.append((value / rectangles(aspect) - LIMITS[name]) / aspect)
    return np.polynomial.chebyshev.chebfit(x, np.array(values), degree)


def main() -> None:
    """Prints both tables, by the product's own rectangles, which are checked elsewhere."""
    import sys

    import stillroom as sr

    def rectangles(aspect: float) -> Array:
        alpha = sr.apertures.Polarizability.of_rectangle(1.0, aspect)
        return np.array([alpha.magnetic_along_m3, alpha.magnetic_across_m3, alpha.electric_m3])

    for name in sys.argv[1:] or LIMITS:
        print(name, table(name, rectangles).T)


if __name__ == "__main__":
    main()
