"""The inductance of a grid of flat fingers by finite elements: shares no equation with the library.

Fingers stand straight across a gap, so that the vector potential A along them solves Laplace's equation in
the plane of their cross-sections, and is zero on them. A sheet current flows on one side; what A keeps far
behind them, per length of finger, is what passes. By symmetry the cell is half of a slot and half of a
finger, with the plane in the middle of the fingers' thickness once mirror (no flux through it) and once
wall (A = 0): the difference of the two halves is the transfer.
"""

from __future__ import annotations

import itertools
from typing import Any

import numpy as np
from numpy.typing import NDArray
from skfem import Basis, BilinearForm, ElementTriP2, FacetBasis, LinearForm, MeshTri, condense, solve
from skfem.helpers import dot, grad

Real = NDArray[np.float64]
Truth = NDArray[np.bool_]

ELEMENT = ElementTriP2()


@BilinearForm
def stiffness(u: Any, v: Any, _: Any) -> Any:
    return dot(grad(u), grad(v))


@LinearForm
def flux(v: Any, _: Any) -> Any:
    return v


def tensor(xs: list[float], zs: list[float], steps: int) -> MeshTri:
    """A mesh with lines through the given places."""

    def between(places: list[float]) -> Real:
        parts = [
            np.linspace(a, b, max(2, int(np.ceil(steps * (b - a) / (places[-1] - places[0])))) + 1)
            for a, b in itertools.pairwise(places)
        ]
        return np.asarray(np.unique(np.concatenate(parts)))

    return MeshTri.init_tensor(between(xs), between(zs))


def half(slot: float, thickness: float, wall: bool, refinements: int) -> float:
    """A far from the fingers, less the distance to their front face, for a current of one per length and a
    pitch of one."""
    far, depth = 1.5, thickness / 2
    xs = [0.0, slot / 2, 0.5]
    if depth == 0.0:
        mesh = tensor(xs, [-far, 0.0], 24)
    else:
        mesh = tensor(xs, [-far, 0.0, depth], 24)
        centres = mesh.p[:, mesh.t].mean(axis=1)
        mesh = mesh.remove_elements(np.nonzero((centres[0] > slot / 2) & (centres[1] > 0))[0])
    for _ in range(refinements):
        # Towards the edge, where the field is singular, and to the bottom of the slot.
        corner = np.hypot(mesh.p[0][mesh.t] - slot / 2, mesh.p[1][mesh.t]).min(axis=0)
        middle = mesh.p[:, mesh.t].mean(axis=1)
        size = np.hypot(middle[0] - slot / 2, middle[1])
        area = np.sqrt(mesh_areas(mesh))
        mesh = mesh.refined(np.nonzero((area > 0.15 * size) | (corner == 0))[0])
    basis = Basis(mesh, ELEMENT)
    matrix = stiffness.assemble(basis)
    top = FacetBasis(mesh, ELEMENT, facets=mesh.facets_satisfying(lambda x: x[1] < -far + 1e-9))
    load = flux.assemble(top)

    def on_finger(x: Real) -> Truth:
        front = (np.abs(x[1]) < 1e-12) & (x[0] > slot / 2 - 1e-12)
        side = (np.abs(x[0] - slot / 2) < 1e-12) & (x[1] > -1e-12)
        bottom = np.abs(x[1] - depth) < 1e-12
        fixed = front | (side if depth > 0 else front)
        return np.asarray(fixed | bottom if wall else fixed)

    facets = mesh.facets_satisfying(on_finger, boundaries_only=True)
    fixed = basis.get_dofs(facets).flatten()
    potential = solve(*condense(matrix, load, D=fixed))
    return float(load @ potential / 0.5) - far


def mesh_areas(mesh: MeshTri) -> Real:
    a, b, c = (np.asarray(mesh.p[:, mesh.t[i]]) for i in range(3))
    return np.asarray(0.5 * np.abs((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])))


def transfer(slot: float, thickness: float, refinements: int = 14) -> float:
    """What passes, as inductance of a square over that of free space and the pitch, by slot and thickness
    over the pitch."""
    if thickness == 0.0:
        return 0.5 * half(slot, 0.0, False, refinements)
    return 0.5 * (half(slot, thickness, False, refinements) - half(slot, thickness, True, refinements))
