"""A slit through a thick wall by finite differences: an independent numerical reference in two dimensions.

The magnetic field along the slit obeys the Helmholtz equation on a grid of square cells; metal is left out,
so that its normal derivative vanishes there, and absorbing layers (complex stretched coordinates) end the
half-spaces. The wave in front of the closed wall enters as a jump across the outer mouth.
"""

from __future__ import annotations

import numpy as np
from scipy.sparse import coo_matrix
from scipy.sparse.linalg import spsolve
from stored import stored


def transmitted_width(k_gap: float, depth_over_gap: float, cells: int) -> float:
    """Power through an endless slit at normal incidence over the power density, in gaps.

    ``k_gap`` is the wavenumber times the gap, ``cells`` how many of them span it.
    """
    h = 1.0 / cells
    k = k_gap
    layer = round(0.5 * 2 * np.pi / k / h)
    room = round(0.4 * 2 * np.pi / k / h)
    deep = round(depth_over_gap * cells)
    half = room + layer
    nx, nz = 2 * half + cells, 2 * half + deep
    open_cells = np.zeros((nx, nz), dtype=bool)
    open_cells[:, :half] = open_cells[:, half + deep :] = True
    open_cells[half : half + cells, :] = True
    number = -np.ones((nx, nz), dtype=int)
    number[open_cells] = np.arange(open_cells.sum())

    def stretch(count: int, at: np.ndarray) -> np.ndarray:
        inside = np.clip(np.maximum(layer - at, at - (count - layer)) / layer, 0, None)
        return np.asarray(1 - 1j * 12 / (k * layer * h) * inside**2)

    rows, columns, values = [], [], []
    count = int(open_cells.sum())
    diagonal = np.zeros(count, dtype=complex)
    source = np.zeros(count, dtype=complex)
    for axis, size in ((0, nx), (1, nz)):
        centre, edge = stretch(size, np.arange(size) + 0.5), stretch(size, np.arange(1, size))
        low = number[:-1, :] if axis == 0 else number[:, :-1]
        high = number[1:, :] if axis == 0 else number[:, 1:]
        i, j = np.nonzero((low >= 0) & (high >= 0))
        place = i if axis == 0 else j
        one, other = low[i, j], high[i, j]
        for here, there, at in ((one, other, place), (other, one, place + 1)):
            link = 1 / (h * h * centre[at] * edge[place])
            rows.append(here)
            columns.append(there)
            values.append(link)
            np.add.at(diagonal, here, -link)
            if axis == 1:
                # Above the outer mouth the field of the closed wall, 2, comes on top.
                mouth = (j == half - 1) & (i >= half) & (i < half + cells)
                step = -2.0 if here is other else 2.0
                np.add.at(source, here[mouth], step * link[mouth])
    rows.append(np.arange(count))
    columns.append(np.arange(count))
    values.append(diagonal + k * k)
    matrix = coo_matrix((np.concatenate(values), (np.concatenate(rows), np.concatenate(columns))))
    field = spsolve(matrix.tocsc(), source)
    before = field[number[half : half + cells, half + deep - 1]]
    after = field[number[half : half + cells, half + deep]]
    power = abs(np.sum(np.imag(np.conj(0.5 * (before + after)) * (after - before))))
    return float(power / k)


@stored
def transmission(k_gap: float, depth_over_gap: float) -> float:
    """What the slit hands on, from 0 to 1: extrapolated from two grids; the error at edges is of h^(4/3)."""
    coarse, fine = (transmitted_width(k_gap, depth_over_gap, cells) for cells in (4, 8))
    share = 2 ** (4 / 3)
    return 0.5 * k_gap * (fine * share - coarse) / (share - 1)
