"""A bay of a seam as a sheet of resistors and coils on a grid: an independent reference by nodal analysis.

The gap between two faces is a sheet with a series impedance per square and an admittance per area. Half a
bay is laid out, from a fastener to the middle between two. Unit current per length enters all along the
outer edge and the voltage along the inner edge is averaged: the transfer impedance of the seam times length.
"""

from __future__ import annotations

import numpy as np
from scipy.sparse import coo_matrix
from scipy.sparse.linalg import spsolve


def transfer_impedance(
    pitch_m: float,
    depth_m: float,
    series_ohm: complex,
    contact_s_per_m: complex,
    fastener_ohm: complex,
    mouth_s_m: complex,
    cells: tuple[int, int] = (160, 80),
) -> complex:
    """Mean voltage at the inner edge over the current per length into the outer one, ohm m.

    ``series_ohm`` is the impedance per square, ``contact_s_per_m`` the admittance of the whole depth per
    length, ``fastener_ohm`` what lies between the faces at the fastener, spread evenly over the depth,
    ``mouth_s_m`` the admittance, times length, of the way past the gap along each edge.
    """
    nx, nz = cells
    hx, hz = pitch_m / 2 / nx, depth_m / nz
    number = np.arange((nx + 1) * (nz + 1)).reshape(nx + 1, nz + 1)
    wide, deep = np.full(nx + 1, hx), np.full(nz + 1, hz)
    wide[[0, -1]] /= 2
    deep[[0, -1]] /= 2

    along = np.tile(deep / hx / series_ohm, (nx, 1)).astype(complex)
    along[:, [0, -1]] += mouth_s_m / hx
    across = np.tile((wide / hz / series_ohm)[:, None], (1, nz))
    one = np.concatenate([number[:-1].ravel(), number[:, :-1].ravel()])
    other = np.concatenate([number[1:].ravel(), number[:, 1:].ravel()])
    between = np.concatenate([along.ravel(), across.ravel()])

    shunt = contact_s_per_m / depth_m * np.outer(wide, deep).astype(complex)
    # Half of the fastener belongs to the bay beside.
    shunt[0] += deep / depth_m / (2 * fastener_ohm)

    rows = np.concatenate([one, other, one, other, number.ravel()])
    columns = np.concatenate([one, other, other, one, number.ravel()])
    values = np.concatenate([between, between, -between, -between, shunt.ravel()])
    nodes = coo_matrix((values, (rows, columns)), shape=(number.size, number.size)).tocsc()
    current = np.zeros(number.shape, complex)
    current[:, 0] = wide
    voltage = spsolve(nodes, current.ravel()).reshape(number.shape)
    return complex((voltage[:, -1] * wide).sum() / (pitch_m / 2))
