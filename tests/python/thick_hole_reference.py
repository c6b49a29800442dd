"""Static fields of a round hole in a thick wall, by finite elements, with no modes at all.

A scalar potential u(r, z) cos(m phi) in half of the space: the hole below, an open half-space above, closed
far away, where what the hole adds has fallen to nothing. Magnetic (m = 1): no flux enters the metal, the
field far away lies along the wall. Electric (m = 0): the metal is at zero, the field far away stands on it.
The middle of the wall is a plane of even or of odd symmetry; half the difference of both is what passes.
Second-order triangles of the general library scikit-fem, crowded towards the rim, where fields are singular.
"""

from __future__ import annotations

from typing import Any

import numpy as np
import skfem
from skfem.helpers import grad

Array = np.ndarray[Any, Any]

FAR = 24.0


def crowded(low: float, high: float, count: int, first: float) -> Array:
    """Places from `low` on, the first step as given, each longer than the one before in proportion."""
    span = high - low
    if count * first >= span:
        return np.linspace(low, high, count + 1)
    a, b = 1.0 + 1e-9, 10.0
    for _ in range(80):
        q = (a + b) / 2
        a, b = (q, b) if first * (q**count - 1) / (q - 1) < span else (a, q)
    steps = first * a ** np.arange(count)
    return low + np.r_[0, np.cumsum(steps)] * span / steps.sum()


def mesh(half_depth: float, count: int) -> skfem.MeshTri:
    """Hole of unit radius below z = 0, open space above; axis at r = 0."""
    first = 2e-4 * (8 / count) ** 3
    inner = 1 - crowded(0, 1, 2 * count, first)[::-1]
    outer, up = crowded(1, FAR, 3 * count, first), crowded(0, FAR, 3 * count, first)
    above = skfem.MeshTri.init_tensor(np.r_[inner, outer[1:]], up)
    if half_depth == 0:
        return above
    return above + skfem.MeshTri.init_tensor(inner, -crowded(0, half_depth, 2 * count, first)[::-1])


def moment(half_depth: float, electric: bool, odd: bool, count: int) -> float:
    """Dipole moment on its face of what the hole adds, per field on the closed wall, up to a factor."""
    m = 0 if electric else 1
    basis = skfem.Basis(mesh(half_depth, count), skfem.ElementTriP2(), intorder=5)

    @skfem.BilinearForm
    def stiffness(u: Any, v: Any, w: Any) -> Any:
        gu, gv = grad(u), grad(v)
        return (gu[0] * gv[0] + gu[1] * gv[1]) * w.x[0] + m * m * u * v / w.x[0]

    matrix = stiffness.assemble(basis)
    r, z = basis.doflocs
    near = 1e-9
    far = (np.abs(r - FAR) < near) | (np.abs(z - FAR) < near)
    mouth = (np.abs(z) < near) & (r < 1 + near)
    # With the hole closed: r cos(phi) along the wall, z upon it.
    values = np.where(far, z if electric else r, 0.0)
    fixed = far | ((r < near) if m else (z < near) & (r > 1 - near))
    if odd:
        fixed |= np.abs(z + half_depth) < near if half_depth else mouth
    u = skfem.solve(*skfem.condense(matrix, x=values, D=np.flatnonzero(fixed)))
    if electric:
        # Potential over the mouth.
        facets = basis.mesh.facets_satisfying(lambda x: (np.abs(x[1]) < near) & (x[0] < 1 + near))
        face = skfem.FacetBasis(basis.mesh, skfem.ElementTriP2(), facets=facets, intorder=6)
        return float(skfem.Functional(lambda w: w.u * w.x[0]).assemble(face, u=face.interpolate(u)))
    # Flux through the mouth times r, as what the equations of the space above leave on it.
    left = stiffness.assemble(basis.with_elements(lambda x: x[1] > 0)) @ u
    return float(np.abs(left[mouth] @ r[mouth]))


def passed(depth: float, electric: bool, count: int) -> float:
    """Polarizability through a wall `depth` radii thick, over that of a thin one."""
    even, odd = (moment(depth / 2, electric, odd, count) for odd in (False, True))
    thin = moment(0.0, electric, not electric, count)
    return abs(even - odd) / thin
