"""Openings of any outline in a wall of any depth, by finite elements and mode matching.

The depth of the wall is a guide. Its modes are found by finite elements (the general library scikit-fem,
second order on triangles) on a quarter of the outline, for each symmetry; both mouths radiate through the
full admittance matrix of those modes, integrated over plane waves (`aperture_reference`). Nothing is fitted,
and none of the product's equations is used.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import numpy as np
import skfem
from aperture_reference import all_around, passed, plane_waves, propagation
from scipy.sparse.linalg import eigsh
from skfem.helpers import dot, grad
from stored import stored

Array = np.ndarray[Any, Any]
Mesh = skfem.MeshTri


def strip(low: tuple[float, float], high: tuple[float, float], nx: int, ny: int) -> Mesh:
    x, y = np.linspace(low[0], high[0], nx + 1), np.linspace(low[1], high[1], ny + 1)
    return skfem.MeshTri.init_tensor(x, y)


def fan(centre: float, radii: tuple[float, float], count: int) -> Mesh:
    """A quarter of an ellipse about a place on the x axis."""
    mesh = strip((0, 0), (1, 1), count, count)
    # From the square to the quarter circle, with no place where triangles shrink to nothing.
    u, v = mesh.p
    r, angle = np.maximum(u, v), np.arctan2(v, u)
    places = np.stack([centre + radii[0] * r * np.cos(angle), radii[1] * r * np.sin(angle)])
    return skfem.MeshTri(places, mesh.t)


def rectangle(length: float, width: float, count: int) -> Mesh:
    return strip((0, 0), (length / 2, width / 2), int(count * max(1, min(3, length / width / 2))), count)


def ellipse(length: float, width: float, count: int) -> Mesh:
    return fan(0, (length / 2, width / 2), count)


def rounded_slot(length: float, width: float, count: int) -> Mesh:
    straight = (length - width) / 2
    end = fan(straight, (width / 2, width / 2), count)
    if straight <= 0:
        return end
    along = int(np.ceil(count * max(0.5, min(3, straight / width))))
    # The fan meets the straight part along x = straight with the same places on it.
    return end + strip((0, 0), (straight, width / 2), along, count)


def cross(length: float, width: float, count: int) -> Mesh:
    inner = strip((0, 0), (width / 2, width / 2), count, count)
    if width >= length:
        return inner
    along = int(np.ceil(count * max(0.5, min(3, (length - width) / width / 2))))
    arm = strip((width / 2, 0), (length / 2, width / 2), along, count)
    other = skfem.MeshTri(arm.p[::-1].copy(), arm.t[[0, 2, 1]].copy())
    return inner + arm + other


@dataclass(frozen=True)
class Modes:
    """Guide modes of one symmetry: cutoffs, and fields at the places of a quadrature over a quarter."""

    cutoff: Array
    electric: Array
    ex: Array
    ey: Array
    odd: tuple[int, int]


@skfem.BilinearForm
def stiffness(u: Any, v: Any, _: Any) -> Any:
    return dot(grad(u), grad(v))


@skfem.BilinearForm
def mass(u: Any, v: Any, _: Any) -> Any:
    return u * v


class Opening:
    """Modes of an outline up to a number for each symmetry and kind."""

    def __init__(self, mesh: Mesh, count: int) -> None:
        basis = skfem.Basis(mesh, skfem.ElementTriP2(), intorder=10)
        k, m = stiffness.assemble(basis), mass.assemble(basis)
        x, y = np.asarray(basis.global_coordinates())
        self.x, self.y, self.weight = x.ravel(), y.ravel(), basis.dx.ravel()
        self.size = 2 * max(self.x.max(), self.y.max())
        facets = mesh.boundary_facets()
        middle = mesh.p[:, mesh.facets[:, facets]].mean(axis=1)
        small = 1e-9 * self.size
        on_x, on_y = facets[middle[0] < small], facets[middle[1] < small]
        outer = np.setdiff1d(facets, np.r_[on_x, on_y])
        self.classes = []
        for odd in ((0, 0), (0, 1), (1, 0), (1, 1)):
            axis = np.r_[on_x if odd[0] else [], on_y if odd[1] else []].astype(int)
            cutoffs, fields, kinds = [], [], []
            for electric in (False, True):
                held = np.union1d(axis, outer) if electric else axis
                fixed = basis.get_dofs(held).all() if len(held) else np.array([], int)
                free = np.setdiff1d(np.arange(basis.N), fixed)
                wanted = min(count + 1, len(free) - 2)
                inside = [a[free][:, free].tocsc() for a in (k, m)]
                values, vectors = eigsh(inside[0], wanted, inside[1], sigma=-1e-3)
                for value, vector in sorted(zip(values, vectors.T, strict=True), key=lambda p: p[0]):
                    if value < 1e-6 or kinds.count(electric) == count:
                        continue
                    whole = np.zeros(basis.N)
                    whole[free] = vector
                    gx, gy = (g.ravel() for g in basis.interpolate(whole).grad)
                    norm = np.sqrt(4 * np.sum((gx**2 + gy**2) * self.weight))
                    fields.append((gx / norm, gy / norm) if electric else (-gy / norm, gx / norm))
                    cutoffs.append(np.sqrt(value))
                    kinds.append(electric)
            ex, ey = (np.array(part) for part in zip(*fields, strict=True))
            self.classes.append(Modes(np.array(cutoffs), np.array(kinds), ex, ey, odd))

    def transforms(self, modes: Modes, kx: Array, ky: Array) -> tuple[Array, Array]:
        """Of the fields along and across the wave's direction in the wall, mode by wave."""
        waves = [(np.cos, np.sin)[n] for n in (0, 1)]
        total = []
        for field, axis in ((modes.ex, 0), (modes.ey, 1)):
            parts = np.zeros((len(field), len(kx)), complex)
            for electric in (False, True):
                pick = modes.electric == electric
                if not pick.any():
                    continue
                # d/dx of an electric potential, d/dy of a magnetic one: that direction changes its parity.
                changed = axis if electric else 1 - axis
                parity = [p ^ (changed == n) for n, p in enumerate(modes.odd)]
                wave = waves[parity[0]](np.outer(self.x, kx)) * waves[parity[1]](np.outer(self.y, ky))
                parts[pick] = 1j ** sum(parity) * 4 * (field[pick] * self.weight) @ wave
            total.append(parts)
        kt = np.hypot(kx, ky)
        safe = np.where(kt > 0, kt, 1)
        c, s = np.where(kt > 0, kx / safe, 1), np.where(kt > 0, ky / safe, 0)
        return total[0] * c + total[1] * s, total[1] * c - total[0] * s

    def mouths(self, k: float) -> list[Array]:
        """Radiation admittance of each symmetry, relative to that of the wave."""
        most = 3.0 * max(modes.cutoff.max() for modes in self.classes)
        kt, kz, w = plane_waves(k, 1.4 * self.size, most)
        x, y, w, z = all_around(kt, kz, w, self.size / 8, (1, 40))
        found = [np.zeros((len(m.cutoff),) * 2, complex) for m in self.classes]
        for part in np.array_split(np.arange(len(x)), max(1, len(x) * len(self.x) // 4_000_000)):
            for mouth, modes in zip(found, self.classes, strict=True):
                tm, te = self.transforms(modes, x[part], y[part])
                mouth += (tm * (k / z * w)[part]) @ tm.conj().T + (te * (z / k * w)[part]) @ te.conj().T
        return [(mouth + mouth.T) / (8 * np.pi**2) for mouth in found]

    def guide(self, modes: Modes, k: float) -> tuple[Array, Array]:
        gamma = propagation(k, modes.cutoff)
        return np.where(modes.electric, 1j * k / gamma, gamma / (1j * k)), gamma

    def averaged(self, k: float, walls: list[float]) -> Array:
        """Averaged cross-section over wavelength^2/4 pi."""
        total = np.zeros(len(walls))
        for mouth, modes in zip(self.mouths(k), self.classes, strict=True):
            total += passed(mouth, *self.guide(modes, k), walls)
        return total

    def towards(
        self, k: float, wall: float, theta_deg: Array, azimuth_deg: Array, polarization: str
    ) -> Array:
        """Cross-section for waves from these directions."""
        theta, azimuth = np.radians(theta_deg), np.radians(azimuth_deg)
        kx, ky = k * np.sin(theta) * np.cos(azimuth), k * np.sin(theta) * np.sin(azimuth)
        # Along the normal the direction of the plane of incidence is a matter of the azimuth alone.
        tiny = 1e-9 * k
        kx, ky = kx + tiny * np.cos(azimuth), ky + tiny * np.sin(azimuth)
        total = np.zeros(len(theta))
        for mouth, modes in zip(self.mouths(k), self.classes, strict=True):
            guide, gamma = self.guide(modes, k)
            if wall == 0:
                transfer = np.linalg.inv(2 * mouth)
            else:
                tanh = np.tanh(gamma * wall / 2)
                even, odd = mouth + np.diag(guide * tanh), mouth + np.diag(guide / tanh)
                transfer = (np.linalg.inv(even) - np.linalg.inv(odd)) / 2
            tm, te = self.transforms(modes, kx, ky)
            drive = tm if polarization == "tm" else te * np.cos(theta)
            answer = transfer @ drive
            conductance = (mouth + mouth.conj().T) / 2
            total += 4 * np.einsum("mw,mn,nw->w", answer.conj(), conductance, answer).real
        return total

    def lowest(self) -> Array:
        """Cutoff and moment^2/area of the mode with E across x, of that with E along x; electric cutoff."""
        area = 4 * self.weight.sum()
        found = []
        for odd, field in (((1, 0), "ey"), ((0, 1), "ex")):
            modes = next(m for m in self.classes if m.odd == odd)
            place = int(np.argmin(np.where(modes.electric, np.inf, modes.cutoff)))
            moment = 4 * np.sum(getattr(modes, field)[place] * self.weight)
            found += [modes.cutoff[place], moment**2 / area]
        even = next(m for m in self.classes if m.odd == (0, 0))
        return np.array([*found, even.cutoff[even.electric].min()])


@stored
def lowest(shape: Callable[[float, float, int], Mesh], aspect: float, count: int = 8) -> Array:
    """The same of unit length, extrapolated to straight sides that are curved."""
    coarse, fine = (Opening(shape(1.0, aspect, n), 1).lowest() for n in (count, 2 * count))
    return (4 * fine - coarse) / 3
