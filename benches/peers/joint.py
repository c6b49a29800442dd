"""Seams and door lines over 10,000 frequencies against vectorised numpy with the same formulas.

The numpy versions hold all frequencies in arrays. For the seam they go mode by mode through the special
functions of scipy, which are vectorised as well; bays longer than 16 half-waves, where the modes give way
to an integral, are left out of the contest by its top frequency. For rows of contacts they integrate
over the angle with one fixed rule of Gauss and Legendre for all frequencies, whose order is the lowest that
agrees with the adaptive rule to the tolerance of the contest.
"""

from __future__ import annotations

import functools
from collections.abc import Callable, Iterator

import numpy as np
from numpy.typing import NDArray
from scipy.special import sici
from side_by_side import Contest

import stillroom as sr

C = 299_792_458.0
VACUUM_PERMEABILITY = 4e-7 * np.pi
VACUUM_IMPEDANCE = VACUUM_PERMEABILITY * C
EULER = float(np.euler_gamma)

Real = NDArray[np.float64]
Complex = NDArray[np.complex128]

TAU, TAU_WEIGHTS = np.polynomial.legendre.leggauss(12)
TAU, TAU_WEIGHTS = (TAU + 1) / 2, TAU_WEIGHTS / 2

SEAM_HZ = np.geomspace(10e3, 23e9, 10_000)
DOOR_HZ = np.geomspace(10e3, 10e9, 10_000)


def gap_series(frequency_hz: Real, gap_m: float, faces: sr.Material) -> Complex:
    """Series impedance of a gap between two metal faces, over j omega mu0."""
    omega = 2 * np.pi * frequency_hz
    conductivity = faces.conductivity_s_per_m
    assert isinstance(conductivity, float)
    surface = np.sqrt(1j * omega * VACUUM_PERMEABILITY / conductivity)
    return np.asarray(1 + 2 * surface / (1j * omega * VACUUM_PERMEABILITY * gap_m))


def cin(x: Real, ci: Real) -> Real:
    """The entire cosine integral."""
    with np.errstate(divide="ignore", invalid="ignore"):
        return np.where(x > 0, EULER + np.log(x) - ci, 0.0)


def mouth(mode: int, kl: Real, slenderness: float) -> Complex:
    """l j omega mu0 Y of one mode over one half-space."""
    b = mode * np.pi
    total, gap = kl + b, kl - b
    (si_sum, ci_sum), (si_gap, ci_gap) = sici(total), sici(np.abs(gap))
    si_gap = np.sign(gap) * si_gap
    cin_sum, cin_gap = cin(total, ci_sum), cin(np.abs(gap), ci_gap)
    field = 0.5 * (
        np.exp(-0.5j * total) * np.sinc(total / 2 / np.pi) + np.exp(-0.5j * gap) * np.sinc(gap / 2 / np.pi)
    )
    plus = slenderness - cin_sum - 1j * si_sum
    minus = slenderness - cin_gap - 1j * si_gap
    squares = (b**2 + kl**2) / (2j * b)
    admittance = ((b**2 - kl**2) * (0.5 * (plus + minus) - field) - squares * (minus - plus)) / (2 * np.pi)
    # The radiated power of a short slit is kl^3 among ones: from its pattern, by Gauss's rule.
    short = kl[: int(np.searchsorted(kl, 3.0))]
    radiated = np.zeros_like(short)
    for tau, weight in zip(TAU, TAU_WEIGHTS, strict=True):
        q = short * tau
        lobe = np.sin(q / 2) if mode % 2 == 0 else np.cos(q / 2)
        radiated += weight * (2 * b * lobe / ((b - q) * (b + q))) ** 2 * (1 - tau**2)
    admittance.imag[: short.size] = short**3 / (2 * np.pi) * radiated
    return np.asarray(admittance)


def excess_by_numpy(k: Real, seam: sr.Seam, series: Complex, contact: Complex, whole: float) -> Complex:
    """Amplitude of all odd modes as one dipole over that of the lowest, between ideal fasteners."""
    length, gap, overlap = seam.fastener_pitch_m, seam.gap_m, seam.overlap_m
    counted = np.arange(1.0, 10.0, 2.0)
    places = 10 / TAU**2
    rest = TAU_WEIGHTS * 10 / TAU**3
    rest *= (np.pi**2 / 8 - np.sum(counted**-2)) / np.sum(rest / places**2)
    modes = np.concatenate([counted, places])
    weights = np.concatenate([np.ones_like(counted), rest]) / modes**2
    beta = modes * np.pi / length
    mouths = beta**2 * gap / np.pi * 0.5 * np.log1p((8 / (np.exp(EULER) * beta * gap)) ** 2)
    mouths[0] = 1 / (1 / whole - np.sum((weights / mouths)[1:]))
    lowest = np.sqrt((np.pi / length) ** 2 + series * contact / overlap)

    def passed(gamma: Complex, y: float) -> Complex:
        fall = np.exp(-2 * gamma * overlap)
        cosh, sinh = 1 + fall, 1 - fall
        response = gamma / series * sinh + 2 * cosh * y + series / gamma * sinh * y * y
        return np.asarray(np.exp((lowest - gamma) * overlap) / response)

    total = sum(
        weight * passed(np.sqrt(b**2 + series * contact / overlap), y)
        for b, weight, y in zip(beta, weights, mouths, strict=True)
    )
    kp = k * length
    fade = np.clip(np.log(64 / kp) / np.log(4), 0, 1)
    in_common = fade * fade * (3 - 2 * fade) / (1 + (kp / 5.6) ** 5.08)
    return np.asarray(1 + in_common * (total / passed(lowest, whole) - 1))


def seam_by_numpy(seam: sr.Seam, frequency_hz: Real) -> Real:
    """Cross-section of one bay in dB over 1 m^2, without the fade of the last mode's neighbours."""
    length, gap, overlap = seam.fastener_pitch_m, seam.gap_m, seam.overlap_m
    k = 2 * np.pi * frequency_hz / C
    kl = k * length
    series = gap_series(frequency_hz, gap, seam.faces)
    conductance = seam.contact_conductance_s_per_m
    contact = 1j * k * VACUUM_IMPEDANCE * gap * conductance
    si_pi, ci_pi = (float(value) for value in sici(np.pi))
    alpha = sr.apertures.Polarizability.of_rectangle(1.0, gap / length).magnetic_along_m3
    lowest = 4 / (np.pi**3 * alpha) + si_pi / np.pi + EULER + np.log(np.pi) - ci_pi
    slenderness = np.log(8 * length / gap)
    last = 1.5 * kl / np.pi + 6
    total = np.zeros_like(k)
    for mode in range(1, int(np.ceil(last.max())) + 1):
        beta = mode * np.pi / length
        share = np.clip(last - mode, 0, 1)
        share = share * share * (3 - 2 * share)
        # Frequencies rise: a mode is asked for from some place on.
        on = slice(int(np.argmax(share > 0)), None)
        y = mouth(mode, kl[on], lowest if mode == 1 else slenderness) * 2 * gap / length**2
        gamma = np.sqrt(beta**2 - k[on] ** 2 * series[on] + series[on] * contact[on] / overlap)
        fall = np.exp(-2 * gamma * overlap)
        cosh, sinh = 1 + fall, 1 - fall
        response = gamma / series[on] * sinh + 2 * cosh * y + series[on] / gamma * sinh * y * y
        ln = 2 * (np.log(4 * y.imag / np.abs(response)) - gamma.real * overlap)
        passed = np.exp(ln)
        if mode == 1:
            # ln(2l/rho) - Cin(pi) - Si(pi)/pi, of static fields
            static = np.pi * (lowest - (EULER + np.log(np.pi) - ci_pi) - si_pi / np.pi) / 2
            whole = float(static * 2 * gap / length**2)
            raised = np.abs(excess_by_numpy(k, seam, series, contact, whole)) ** 2
            passed = passed * raised / (1 - passed + passed * raised)
        total[on] += share[on] * passed
    return np.asarray(10 * np.log10(total * np.pi / k**2))


def door_by_numpy(line: sr.GasketLine, nodes: int, frequency_hz: Real) -> Real:
    """Cross-section of rows of gaskets in dB over 1 m^2."""
    k = 2 * np.pi * frequency_hz / C
    gap = line.gap_m
    series = gap_series(frequency_hz, gap, line.faces)
    rows = []
    for row in line.rows:
        assert isinstance(row, sr.joints.Gasket)
        impedance = row.resistance_ohm_m + 2j * np.pi * frequency_hz * row.inductance_h_m
        rows.append(1j * k * VACUUM_IMPEDANCE * gap / impedance)
    x, weights = np.polynomial.legendre.leggauss(nodes)
    total = np.zeros_like(k)
    for theta, weight in zip((x + 1) * np.pi / 4, weights * np.pi / 4, strict=True):
        across = k * np.cos(theta)
        reach = 8 / (np.exp(EULER) * across * gap)
        y = 0.5 * gap * across**2 * (1j - np.log1p(reach**2) / np.pi)
        if len(rows) == 1:
            total += weight * np.cos(theta) * (2 * y.imag / np.abs(rows[0] + 2 * y)) ** 2
            continue
        a, b, c, d = 1.0 + 0j, 0j, rows[0], 1.0 + 0j
        ln_scale = 0.0
        gamma = np.sqrt((k * np.sin(theta)) ** 2 - k**2 * series)
        fall = np.exp(-2 * gamma * line.row_spacing_m)
        cosh, sinh = 0.5 * (1 + fall), 0.5 * (1 - fall)
        for shunt in rows[1:]:
            one, other = series / gamma * sinh, gamma / series * sinh
            a, b, c, d = a * cosh + b * other, a * one + b * cosh, c * cosh + d * other, c * one + d * cosh
            ln_scale = ln_scale + gamma.real * line.row_spacing_m
            a, c = a + b * shunt, c + d * shunt
        response = c + (a + d) * y + b * y * y
        ln = 2 * (np.log(2 * y.imag / np.abs(response)) - ln_scale)
        total += weight * np.cos(theta) * np.exp(ln)
    coherent = (1 + (1 / (k * line.length_m / (1.2 * np.pi))) ** 1.8) ** (-1 / 1.8)
    return np.asarray(10 * np.log10(total * line.length_m / k * coherent))


def rows() -> Iterator[Contest]:
    """A bay of a seam, with and without contact, and a door line of one and two rows."""
    for name, conductance in (("bare", 0.0), ("in contact", 1e3)):
        seam = sr.Seam(
            0.1,
            0.1,
            50e-6,
            10e-3,
            contact_conductance_s_per_m=conductance,
            contact_inductance_h_m=0.0,
            fastener_resistance_ohm=0.0,
            faces=sr.materials.zinc,
        )
        peers: dict[str, Callable[[], Real]] = {"numpy": functools.partial(seam_by_numpy, seam, SEAM_HZ)}
        yield Contest(
            f"seam, one bay {name} x 10,000 f",
            functools.partial(seam.cross_section_db, SEAM_HZ),
            peers,
            steps=SEAM_HZ.size,
            # at the sharp resonances of the depth both lose digits
            rtol=1e-8,
        )
    gasket = sr.joints.Gasket(2e-4, 2e-12)
    for count, nodes in ((1, 8), (2, 80)):
        line = sr.GasketLine(6.0, 1e-3, [gasket] * count, row_spacing_m=12e-3)
        peers = {"numpy": functools.partial(door_by_numpy, line, nodes, DOOR_HZ)}
        yield Contest(
            f"door line of {count} row{'s' * (count > 1)} x 10,000 f",
            functools.partial(line.cross_section_db, DOOR_HZ),
            peers,
            steps=DOOR_HZ.size,
            rtol=1e-5,
        )
