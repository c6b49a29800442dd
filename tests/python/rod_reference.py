"""A round tube with a rod, by finite elements: no Bessel function, no dispersion equation, no branch.

Lengths in units of the tube's radius, gamma the propagation constant: fields go as exp(-gamma z).
"""

from typing import Any

import numpy as np
from numpy.polynomial import legendre
from scipy import linalg

Array = np.ndarray[Any, Any]


def element(low: float, high: float, degree: int) -> tuple[Array, Array, Array, Array, Array]:
    """Points, weights, values and slopes of Lagrange polynomials, and their slopes at both ends."""
    nodes = -np.cos(np.pi * np.arange(degree + 1) / degree)
    x, w = legendre.leggauss(degree + 6)
    inverse = np.linalg.inv(legendre.legvander(nodes, degree))

    def slopes(at: Array) -> Array:
        unit = np.eye(degree + 1)
        return (
            np.array([legendre.legval(at, legendre.legder(unit[i])) for i in range(degree + 1)]).T @ inverse
        )

    half = 0.5 * (high - low)
    values = legendre.legvander(x, degree) @ inverse
    return low + half * (x + 1), w * half, values, slopes(x) / half, slopes(np.array([-1.0, 1.0])) / half


def edges(ratio: float, rod: int = 2, around: int = 2) -> Array:
    outer = ratio * (1 / ratio) ** (np.arange(1, around + 1) / around)
    return np.r_[np.linspace(0, ratio, rod + 1), outer]


def sorted_roots(squares: Array) -> Array:
    gamma = np.sqrt(squares + 0j)
    return gamma[np.argsort(gamma.real)]


def order_zero(k: float, ratio: float, inner: complex, outer: complex = 1.0, degree: int = 10) -> Array:
    """gamma of the TM modes without azimuth, the least decay first.

    -((rh)'/(eps r))' - k^2 h = gamma^2 h/eps in the azimuthal magnetic field, E_z = 0 on the wall.
    """
    at = edges(ratio)
    count = (len(at) - 1) * degree + 1
    stiffness, mass = np.zeros((2, count, count), complex)
    for i in range(len(at) - 1):
        r, w, value, slope, _ = element(at[i], at[i + 1], degree)
        inverse = 1 / (inner if i < 2 else outer)
        here = np.ix_(*[np.arange(i * degree, (i + 1) * degree + 1)] * 2)
        curl = slope + value / r[:, None]
        stiffness[here] += (curl.T * (w * r * inverse)) @ curl - k**2 * (value.T * (w * r)) @ value
        mass[here] += (value.T * (w * r * inverse)) @ value
    return sorted_roots(linalg.eigvals(stiffness[1:, 1:], mass[1:, 1:]))


def order_one(k: float, ratio: float, inner: complex, outer: complex = 1.0, degree: int = 10) -> Array:
    """gamma of the modes with one azimuthal period, the least decay first.

    In the transverse magnetic field (R cos, F sin): curl curl /eps - grad div /eps - k^2 = gamma^2/eps.
    """
    at = edges(ratio)
    count = (len(at) - 1) * degree + 1
    stiffness, mass = np.zeros((2, 2 * count, 2 * count), complex)
    for i in range(len(at) - 1):
        r, w, value, slope, ends = element(at[i], at[i + 1], degree)
        inverse = 1 / (inner if i < 2 else outer)
        radial = np.arange(i * degree, (i + 1) * degree + 1)
        here = np.r_[radial, count + radial]
        by_r = value / r[:, None]
        for part in (np.hstack([by_r, slope + by_r]), np.hstack([slope + by_r, by_r])):
            stiffness[np.ix_(here, here)] += (part.T * (w * r * inverse)) @ part
        for part in (np.hstack([value, 0 * value]), np.hstack([0 * value, value])):
            stiffness[np.ix_(here, here)] -= k**2 * (part.T * (w * r)) @ part
            mass[np.ix_(here, here)] += (part.T * (w * r * inverse)) @ part
        # The divergence, H_z, is continuous where eps jumps.
        for side, node in ((0, i), (1, i + 1)):
            if node == 2:
                row = np.r_[ends[side], 0 * ends[side]]
                row[[side * degree, side * degree + degree + 1]] += 1 / ratio
                stiffness[node * degree, here] -= 0.5 * (1 / inner - 1 / outer) * ratio * row
    # R + F = 0 on the axis, R = 0 on the wall.
    ties = np.eye(2 * count)
    ties[count, 0] = -1
    ties = np.delete(ties, [count - 1, count], axis=1)
    return sorted_roots(linalg.eigvals(ties.T @ stiffness @ ties, ties.T @ mass @ ties))


def cutoff(order: int, ratio: float, permittivity: float, degree: int = 10) -> float:
    """k at gamma = 0: of the TM mode without azimuth, in E_z, or of the TE mode with one period, in H_z."""
    at = edges(ratio)
    count = (len(at) - 1) * degree + 1
    stiffness, mass = np.zeros((2, count, count))
    for i in range(len(at) - 1):
        r, w, value, slope, _ = element(at[i], at[i + 1], degree)
        eps = permittivity if i < 2 else 1.0
        here = np.ix_(*[np.arange(i * degree, (i + 1) * degree + 1)] * 2)
        bending = (slope.T * (w * r)) @ slope + order**2 * (value.T * (w / r)) @ value
        held = (value.T * (w * r)) @ value
        stiffness[here] += bending / (1 if order == 0 else eps)
        mass[here] += held * (eps if order == 0 else 1)
    free = slice(0, -1) if order == 0 else slice(1, None)
    return float(np.sqrt(linalg.eigh(stiffness[free, free], mass[free, free], eigvals_only=True)[0]))


def static_mode(ratio: float, permittivity: float, degree: int = 12) -> tuple[float, float, Any]:
    """Static alpha of TM0, the integral of eps psi^2, and its potential psi, one on the axis."""
    at = edges(ratio)
    count = (len(at) - 1) * degree + 1
    stiffness, mass = np.zeros((2, count, count))
    for i in range(len(at) - 1):
        r, w, value, slope, _ = element(at[i], at[i + 1], degree)
        eps = permittivity if i < 2 else 1.0
        here = np.ix_(*[np.arange(i * degree, (i + 1) * degree + 1)] * 2)
        stiffness[here] += (slope.T * (w * r * eps)) @ slope
        mass[here] += (value.T * (w * r * eps)) @ value
    squares, shapes = linalg.eigh(stiffness[:-1, :-1], mass[:-1, :-1])
    shape = np.r_[shapes[:, 0] / shapes[0, 0], 0.0]
    nodes = -np.cos(np.pi * np.arange(degree + 1) / degree)

    def potential(r: Array) -> Array:
        psi = np.zeros_like(r)
        for i in range(len(at) - 1):
            inside = (r >= at[i] - 1e-12) & (r <= at[i + 1] + 1e-12)
            series = np.linalg.solve(
                legendre.legvander(nodes, degree), shape[i * degree : (i + 1) * degree + 1]
            )
            psi[inside] = legendre.legval(2 * (r[inside] - at[i]) / (at[i + 1] - at[i]) - 1, series)
        return psi

    return float(np.sqrt(squares[0])), float(2 * np.pi * shape[:-1] @ mass[:-1, :-1] @ shape[:-1]), potential


def graded(low: float, high: float, first: float, most: float = np.inf) -> Array:
    """Places from low to high, the first step given, the next ones longer by 1.6."""
    places, step = [low], first
    while places[-1] < high:
        places.append(places[-1] + step)
        step = min(1.6 * step, most)
    run = np.array(places)
    return low + (run - low) * (high - low) / (run[-1] - low)


def to_both_ends(low: float, high: float, first: float) -> Array:
    middle = 0.5 * (low + high)
    run = graded(low, middle, min(first, 0.25 * (high - low)))
    return np.unique(np.round(np.r_[run, low + high - run[::-1]], 12))


def static_end(
    ratio: float, permittivity: float, out: float, first: float = 0.02
) -> tuple[float, float, float]:
    """What a normal field of one at the wall drives in a half-infinite tube whose rod stands out by `out`.

    Electrostatic, axisymmetric, quadratic elements. Gives alpha of TM0, its amplitude on the axis at the
    mouth, and the integral of eps psi^2.
    """
    import skfem as fem
    from skfem.helpers import dot, grad

    alpha, norm, potential = static_mode(ratio, permittivity)
    far = max(60.0, 6 * out)
    depth = max(2.5, min(6 / alpha, 8.0))
    r = np.unique(np.r_[to_both_ends(0, ratio, first), to_both_ends(ratio, 1, first), graded(1, far, first)])
    above = (
        np.r_[to_both_ends(0, out, first), out + graded(0, far - out, first)]
        if out
        else graded(0, far, first)
    )
    z = np.unique(np.round(np.r_[-graded(0, depth, first, 0.35), above], 12))
    mesh = fem.MeshQuad.init_tensor(r, z)
    centre = mesh.p[:, mesh.t].mean(axis=1)
    mesh = mesh.restrict(np.nonzero((centre[1] > 0) | (centre[0] < 1))[0])
    centre = mesh.p[:, mesh.t].mean(axis=1)
    basis = fem.Basis(mesh, fem.ElementQuad2())
    inside = (centre[0] < ratio) & (centre[1] < out)
    eps = basis.with_element(fem.ElementQuad0()).interpolate(np.where(inside, permittivity, 1.0))
    matrix = fem.BilinearForm(lambda u, v, w: w.eps * w.x[0] * dot(grad(u), grad(v))).assemble(basis, eps=eps)

    def facets(condition: Any) -> Any:
        return mesh.facets_satisfying(condition, boundaries_only=True)

    # Deep inside TM0 alone is left, and goes as exp(alpha z).
    deep = fem.FacetBasis(mesh, fem.ElementQuad2(), facets=facets(lambda x: np.abs(x[1] + depth) < 1e-9))
    filling = lambda x: np.where(x[0] < ratio, permittivity, 1.0)  # noqa: E731
    matrix = matrix + fem.BilinearForm(lambda u, v, w: alpha * filling(w.x) * w.x[0] * u * v).assemble(deep)
    sky = basis.get_dofs(facets(lambda x: (np.abs(x[1] - far) < 1e-9) | (np.abs(x[0] - far) < 1e-9))).all()
    wall = basis.get_dofs(
        facets(lambda x: ((np.abs(x[1]) < 1e-12) & (x[0] > 1)) | ((np.abs(x[0] - 1) < 1e-12) & (x[1] < 0)))
    ).all()
    u = np.zeros(basis.N)
    u[sky] = -basis.doflocs[1][sky]
    u[wall] = 0.0
    u = fem.solve(*fem.condense(matrix, np.zeros(basis.N), x=u, D=np.unique(np.r_[sky, wall])))
    share = fem.Functional(lambda w: filling(w.x) * w.x[0] * w.u * potential(w.x[0])).assemble(deep, u=u)
    return alpha, abs(2 * np.pi * share) / norm * float(np.exp(alpha * depth)), norm


def axial_cross_section_db(
    ratio: float, permittivity: float, length: float, k: float, out: tuple[float, float] = (0.0, 0.0)
) -> float:
    """What TM0 passes, averaged over directions and polarizations, dB of radius squared; far below cutoff.

    The amplitude at the far mouth radiates, by reciprocity (Green's second identity with the driven end), as
    the dipole 4 alpha c norm times it: (16/9 pi) k^4 (alpha c1 c2 norm)^2 exp(-2 alpha L).
    """
    alpha, first, norm = static_end(ratio, permittivity, out[0])
    second = first if out[1] == out[0] else static_end(ratio, permittivity, out[1])[1]
    passed = 16 / (9 * np.pi) * k**4 * (alpha * first * second * norm) ** 2
    return float(10 * np.log10(passed) - 20 / np.log(10) * alpha * length)
