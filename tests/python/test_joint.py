"""Seams and contact lines against forty digits."""

from __future__ import annotations

import mpmath
import numpy as np
import pytest
from finger_reference import transfer as finite_elements
from mpmath import mpc, mpf
from numpy.typing import NDArray
from seam_reference import transfer_impedance as sheet_transfer_impedance
from slit_reference import transmission as on_a_grid

import stillroom as sr

C = mpf(299_792_458)
TIN = sr.materials.tin
Complex = NDArray[np.complex128]
ZINC = sr.materials.zinc


def vacuum() -> tuple[mpf, mpf]:
    """Permeability and impedance of vacuum, with the round permeability of the handbooks."""
    permeability = 4 * mpmath.pi / mpf(10) ** 7
    return permeability, permeability * C


def gap_series(frequency_hz: float, gap_m: float, faces: sr.Material) -> mpc:
    """Series impedance of a gap between two metal faces, over j omega mu0."""
    permeability, impedance = vacuum()
    omega = 2 * mpmath.pi * mpf(frequency_hz)
    conductivity = faces.conductivity_s_per_m
    assert isinstance(conductivity, float)
    permittivity = 1 / (impedance * C)
    surface = mpmath.sqrt(mpc(0, omega * permeability) / (mpf(conductivity) + mpc(0, omega * permittivity)))
    return 1 + 2 * surface / (mpc(0, omega * permeability) * mpf(gap_m))


def transmission(mouth: mpc, matrices: list[mpmath.matrix]) -> mpf:
    """What a mode hands on between two alike mouths, by the product of its chain matrices."""
    chain = mpmath.eye(2)
    for matrix in matrices:
        chain = chain * matrix
    total = chain[1, 0] + (chain[0, 0] + chain[1, 1]) * mouth + chain[0, 1] * mouth**2
    return abs(2 * mouth.imag / total) ** 2


def line(gamma_squared: mpc, series: mpc, depth_m: float) -> mpmath.matrix:
    gamma = mpmath.sqrt(gamma_squared)
    cosh, sinh = mpmath.cosh(gamma * depth_m), mpmath.sinh(gamma * depth_m)
    return mpmath.matrix([[cosh, series * sinh / gamma], [gamma * sinh / series, cosh]])


def shunt(admittance: mpc) -> mpmath.matrix:
    return mpmath.matrix([[1, 0], [admittance, 1]])


def smooth_step(x: mpf) -> mpf:
    x = min(max(x, mpf(0)), mpf(1))
    return x * x * (3 - 2 * x)


def slit_mouth(mode: int, k: mpf, length_m: float, gap_m: float) -> mpc:
    """j omega mu0 Y of one mode over one half-space, by the integrals that the module's equation names."""
    length, gap = mpf(length_m), mpf(gap_m)
    beta = mode * mpmath.pi / length

    def cin(x: mpf) -> mpf:
        return mpmath.euler + mpmath.log(x) - mpmath.ci(x) if x != 0 else mpf(0)

    if mode == 1:
        # The lowest mode's slenderness is tied to the static polarizability of the rectangle.
        alpha = mpf(sr.apertures.Polarizability.of_rectangle(1.0, gap_m / length_m).magnetic_along_m3)
        slenderness = 4 / (mpmath.pi**3 * alpha) + mpmath.si(mpmath.pi) / mpmath.pi + cin(mpmath.pi)
    else:
        slenderness = mpmath.log(8 * length / gap)

    def field(q: mpf) -> mpc:
        size = abs(q) * length
        return slenderness - cin(size) - mpc(0, 1) * mpmath.sign(q) * mpmath.si(size)

    plus, minus = field(k + beta), field(k - beta)
    ends = mpmath.quad(
        lambda x: mpmath.cos(beta * x) * mpmath.expj(-k * x), mpmath.linspace(0, length, 4 * mode + 9)
    )
    first = (beta**2 - k**2) * (length * (plus + minus) / 2 - ends)
    second = (beta**2 + k**2) * (minus - plus) / (2 * mpc(0, 1) * beta)
    return (first - second) / (2 * mpmath.pi) * 2 * gap / length


def static_logarithm(gap_m: float, beta: mpf) -> mpf:
    reach = 8 / (mpmath.exp(mpmath.euler) * beta * mpf(gap_m))
    return mpmath.log(1 + reach**2) / 2


def static_modes(pitch_m: float, gap_m: float) -> list[tuple[mpf, mpf, mpf]]:
    """Odd modes, their weights and mouths over their wavenumber squared; a Gauss rule from mode 11 on."""
    counted = [(mpf(m), mpf(1)) for m in range(1, 10, 2)]
    places, weights = np.polynomial.legendre.leggauss(12)
    rest = [
        (10 / s**2, w * 10 / s**3)
        for s, w in zip((mpf(x) / 2 + 0.5 for x in places), weights / 2, strict=True)
    ]
    left = mpmath.pi**2 / 8 - sum(1 / m**2 for m, _ in counted)
    share = left / sum(w / m**2 for m, w in rest)
    modes = counted + [(m, w * share) for m, w in rest]

    def mouth(m: mpf) -> mpf:
        return mpf(gap_m) / mpmath.pi * static_logarithm(gap_m, m * mpmath.pi / mpf(pitch_m))

    return [(m, w, mouth(m)) for m, w in modes]


def excess(k: mpf, pitch_m: float, gap_m: float, overlap_m: float, series: mpc, contact: mpc) -> mpc:
    """Amplitude of all odd modes as one dipole over that of the lowest, faded where they radiate apart."""
    modes = static_modes(pitch_m, gap_m)
    beta = mpmath.pi / mpf(pitch_m)
    whole = slit_mouth(1, mpf(10) ** -30, pitch_m, gap_m).real
    others = sum(w / (m**2 * (m * beta) ** 2 * mouth) for m, w, mouth in modes[1:])
    first = 1 / (1 / whole - others)

    def transfer(m: mpf, mouth: mpf) -> mpc:
        if overlap_m == 0:
            return 1 / (contact + 2 * mouth)
        gamma = mpmath.sqrt((m * beta) ** 2 + series * contact / overlap_m)
        cosh, sinh = mpmath.cosh(gamma * overlap_m), mpmath.sinh(gamma * overlap_m)
        return 1 / (gamma / series * sinh + 2 * cosh * mouth + series / gamma * sinh * mouth**2)

    total = transfer(mpf(1), first)
    total += sum(w / m**2 * transfer(m, (m * beta) ** 2 * mouth) for m, w, mouth in modes[1:])
    kp = k * mpf(pitch_m)
    in_common = smooth_step(mpmath.log(64 / kp) / mpmath.log(4)) / (1 + (kp / mpf("5.6")) ** mpf("5.08"))
    return 1 + in_common * (total / transfer(mpf(1), whole) - 1)


def bay_db(frequency_hz: float, length_m: float, gap_m: float, overlap_m: float, conductance: float) -> float:
    """Averaged cross-section of one bay, dB over 1 m^2."""
    with mpmath.workdps(40):
        k = 2 * mpmath.pi * mpf(frequency_hz) / C
        series = gap_series(frequency_hz, gap_m, ZINC)
        contact = mpc(0, k * vacuum()[1] * mpf(gap_m)) * conductance
        half_waves = k * length_m / mpmath.pi
        assert half_waves < 16, "longer bays are joined to the slit without ends"
        last = mpf(1.5) * half_waves + 6
        total = mpf(0)
        mode = 1
        while mode < last:
            beta = mode * mpmath.pi / length_m
            share = mpf(1) if mode == 1 else smooth_step(last - mode)
            if overlap_m > 0:
                matrices = [line(beta**2 - k**2 * series + series * contact / overlap_m, series, overlap_m)]
            else:
                matrices = [shunt(contact)]
            passed = transmission(slit_mouth(mode, k, length_m, gap_m), matrices)
            if mode == 1:
                raised = abs(excess(k, length_m, gap_m, overlap_m, series, contact)) ** 2
                passed = passed * raised / (1 - passed + passed * raised)
            total += share * passed
            mode += 1
        return float(10 * mpmath.log10(total * mpmath.pi / k**2))


@pytest.mark.parametrize(
    ("frequency_hz", "length_m", "gap_m", "overlap_m", "conductance"),
    [
        (1e5, 0.1, 20e-6, 25e-3, 0.0),
        (1e8, 0.1, 20e-6, 25e-3, 0.0),
        (1e8, 0.1, 20e-6, 25e-3, 3e3),
        (1.5e9, 0.1, 20e-6, 25e-3, 10.0),
        (6e9, 0.1, 50e-6, 10e-3, 0.0),
        (18e9, 0.1, 20e-6, 25e-3, 1e4),
        (3e9, 0.05, 1e-3, 0.0, 0.0),
        (3e9, 0.05, 1e-3, 0.0, 0.5),
    ],
)
def test_one_bay_of_a_seam(
    frequency_hz: float, length_m: float, gap_m: float, overlap_m: float, conductance: float
) -> None:
    seam = sr.Seam(
        length_m,
        fastener_pitch_m=length_m,
        gap_m=gap_m,
        overlap_m=overlap_m,
        contact_conductance_s_per_m=conductance,
        contact_inductance_h_m=0.0,
        fastener_resistance_ohm=0.0,
        faces=ZINC,
    )
    reference = bay_db(frequency_hz, length_m, gap_m, overlap_m, conductance)
    assert seam.cross_section_db(frequency_hz) == pytest.approx(reference, rel=1e-12, abs=2e-11)


MU0 = 4e-7 * np.pi
BARE_ZINC = sr.Material("zinc", conductivity_s_per_m=1.682e7)


@pytest.mark.parametrize("frequency_hz", [14e3, 1e6, 1e8])
@pytest.mark.parametrize("conductivity_s_per_m", [1.682e7, 1e12])
@pytest.mark.parametrize(
    ("overlap_m", "conductance", "fastener"),
    [
        (25e-3, 0.0, (1e-9, 0.0)),
        (25e-3, 0.0, (2.5e-4, 0.0)),
        (25e-3, 1e4, (2.5e-4, 0.0)),
        (25e-3, 1e3, (1e-2, 1e-11)),
        (0.1, 1e5, (2.5e-4, 0.0)),
        (2e-3, 1e5, (1e-4, 0.0)),
        (1e-4, 1e4, (1e-3, 0.0)),
    ],
)
def test_a_bay_and_its_fasteners_by_nodal_analysis(
    frequency_hz: float,
    conductivity_s_per_m: float,
    overlap_m: float,
    conductance: float,
    fastener: tuple[float, float],
) -> None:
    """The bay as a sheet on a grid, past whose edges current flows by the mouths: a dipole Z_T p/jw mu0."""
    pitch_m, gap_m = 0.1, 20e-6
    seam = sr.Seam(
        pitch_m,
        pitch_m,
        gap_m,
        overlap_m,
        contact_conductance_s_per_m=conductance,
        contact_inductance_h_m=0.0,
        fastener_resistance_ohm=fastener[0],
        fastener_inductance_h=fastener[1],
        faces=sr.Material("metal", conductivity_s_per_m=conductivity_s_per_m),
    )
    omega = 2 * np.pi * frequency_hz
    series = 1j * omega * MU0 * gap_m + 2 * np.sqrt(1j * omega * MU0 / conductivity_s_per_m)
    # Magnetostatic way round a slot's end, for the half-wave along the bay; a tenth less for the next mode.
    logarithm = np.log(8 * pitch_m / (np.exp(np.euler_gamma) * np.pi * gap_m))
    mouth = logarithm / np.pi / (1j * omega * MU0)
    impedance = sheet_transfer_impedance(
        pitch_m, overlap_m, series, conductance, fastener[0] + 1j * omega * fastener[1], mouth
    )
    wavenumber = omega / float(C)
    moment = pitch_m * abs(impedance) / (omega * MU0)
    reference = 10 * np.log10(4 * wavenumber**4 / (9 * np.pi) * moment**2)
    assert seam.cross_section_db(frequency_hz) == pytest.approx(reference, abs=0.2)


def loop_reading(seam: sr.Seam, frequency_hz: float) -> float:
    wall = sr.Laminate([(sr.materials.copper, 5e-3)])
    room = sr.Enclosure(interior_m=(4.8, 3.6, 3.0), wall=wall, leaks={"seam": seam})
    test = sr.LoopTest("coaxial", 0.15, 0.15, outside_m=0.3, inside_m=0.3)
    study = room.study(np.array([frequency_hz]), exposure=test)
    return float(study.shielding_db[study.leaks.index("seam")][0])


def collar_seam(**stated: object) -> sr.Seam:
    defaults: dict[str, object] = {
        "contact_conductance_s_per_m": 3e3,
        "contact_inductance_h_m": 0.0,
        "fastener_resistance_ohm": 0.0,
        "faces": BARE_ZINC,
    }
    return sr.Seam(42.0, 0.1, 20e-6, 25e-3, **(defaults | stated))  # type: ignore[arg-type]


def test_a_quarter_of_a_milliohm_in_each_fastener_is_sixteen_decibels_at_14_khz() -> None:
    """By nodal analysis of a like seam, in the loop test: 68 dB with ideal fasteners, about 52 with these."""
    loss = loop_reading(collar_seam(), 14e3) - loop_reading(
        collar_seam(fastener_resistance_ohm=0.25e-3), 14e3
    )
    assert loss == pytest.approx(16, abs=1)
    # Where nothing is stated it is the same, and said.
    unsaid = collar_seam(fastener_resistance_ohm=None)
    with pytest.warns(sr.DomainWarning, match=r"not of a stated fastener impedance; 0\.25 mohm"):
        assert unsaid.cross_section_db(14e3) == collar_seam(fastener_resistance_ohm=0.25e-3).cross_section_db(
            14e3
        )


def test_the_inductance_of_contact_spots_decides_at_18_ghz() -> None:
    """1e-13 H m turns 136 dB into 50 (from outside, by the equations of the line)."""
    free, held = collar_seam(), collar_seam(contact_inductance_h_m=1e-13)
    assert held.cross_section_db(18e9) - free.cross_section_db(18e9) == pytest.approx(86, abs=1)
    # Nobody said what it is: that of the default spots, 4.4e-14 H m, with a warning.
    unsaid = collar_seam(contact_inductance_h_m=None)
    spots = collar_seam(
        contact_inductance_h_m=None, contact_spot_radius_m=0.1e-3, contact_spot_spacing_m=10e-3
    )
    with pytest.warns(sr.DomainWarning, match="not of a stated contact inductance"):
        assert unsaid.cross_section_db(18e9) == spots.cross_section_db(18e9)
    assert unsaid.parameter("contact_inductance_h_m") == pytest.approx(4.43e-14, rel=1e-3)
    assert free.cross_section_db(18e9) + 60 < spots.cross_section_db(18e9) < held.cross_section_db(18e9)
    with pytest.raises(sr.errors.OutOfRangeError, match="contact_spot_radius_m"):
        collar_seam(contact_spot_radius_m=0.1e-3)


def test_zinc_on_steel_is_not_zinc() -> None:
    """20 um of zinc (1.682e7 S/m) on steel (5.8e6 S/m, 1000) leaks 14 dB more at 100 kHz than thick zinc."""
    steel = sr.Material("steel", conductivity_s_per_m=5.8e6, relative_permeability=1000.0)
    galvanised = collar_seam(faces=steel, coating=BARE_ZINC, coating_thickness_m=20e-6)
    change = galvanised.cross_section_db(1e5) - collar_seam().cross_section_db(1e5)
    assert change == pytest.approx(14, abs=0.5)
    thick = collar_seam(faces=steel, coating=BARE_ZINC, coating_thickness_m=20e-3)
    assert thick.cross_section_db(1e5) == pytest.approx(collar_seam().cross_section_db(1e5), abs=1e-9)
    usual = sr.Seam(42.0, 0.1, 20e-6, 25e-3)
    assert (usual.faces.name, usual.coating, usual.coating_thickness_m) == ("steel", ZINC, 20e-6)
    foil = collar_seam(sheet_thickness_m=20e-6)
    assert foil.cross_section_db(1e5) > collar_seam().cross_section_db(1e5) + 5


@pytest.mark.filterwarnings("ignore:.*not of a stated contact inductance:stillroom.DomainWarning")
@pytest.mark.parametrize("inductance_h_m", [None, 0.0, 1e-13])
def test_an_opened_seam_gets_no_better(inductance_h_m: float | None) -> None:
    seam = collar_seam(contact_inductance_h_m=inductance_h_m, contact_conductance_s_per_m=1e4)
    f = np.geomspace(1e4, 1.4e9, 40)
    gaps = [20e-6, 30e-6, 60e-6, 120e-6, 240e-6]
    readings = [seam.with_parameter("gap_m", gap).cross_section_db(f) for gap in gaps]
    assert np.all(np.diff(readings, axis=0) > 0)
    assert seam.with_parameter("gap_m", 1e-4).parameter("contact_gap_m") == 20e-6


def test_bays_far_apart_add_and_bays_in_step_gain_what_poisson_says() -> None:
    one = sr.Seam(0.1, fastener_pitch_m=0.1, gap_m=20e-6, overlap_m=25e-3)
    row = sr.Seam(2000.0, fastener_pitch_m=0.1, gap_m=20e-6, overlap_m=25e-3)
    # Short bays of an endless row gain 0.6 wavelengths over the pitch; a power mean shortens the row.
    frequency_hz = 1e8
    endless = 0.6 * float(C) / frequency_hz / 0.1
    shortened = endless * (1 + (endless / 20_000) ** 1.8) ** (-1 / 1.8)
    gained = row.cross_section_db(frequency_hz) - one.cross_section_db(frequency_hz)
    # Of the lowest mode; the higher ones, which are not helped, are ten thousand times weaker.
    assert gained == pytest.approx(10 * np.log10(20_000 * shortened), abs=1e-3)


def transfer_impedance(
    frequency_hz: float, pitch_m: float, gap_m: float, slot_m: float, thickness_m: float = 0.0
) -> mpc:
    """Of straight fingers of 5 mohm, by the equation that the module names."""
    omega = 2 * mpmath.pi * mpf(frequency_hz)
    electrical = mpf(pitch_m) * mpf(frequency_hz) / C
    slot = mpf(slot_m) / mpf(pitch_m)
    secant = mpmath.log(mpmath.sec(mpmath.pi * slot / 2))
    beta = mpmath.cos(mpmath.pi * slot / 2) ** 2
    a = 1 / mpmath.sqrt(1 - electrical**2) - 1
    below = 1 - beta / 4 + beta * (1 + beta / 2 - beta**2 / 8) * 2 * a + 2 * beta**3 * a**2
    opening = (1 - beta) ** 2 / 2 * ((1 - beta / 4) * 2 * a + 4 * beta * a**2) / below
    depth = mpf(thickness_m) / mpf(slot_m) * mpmath.sqrt(1 - (2 * slot * electrical) ** 2)
    thick = 8 * slot**2 * ((1 - slot) / (1 + slot)) ** (1 / slot) / ((1 - slot**2) * secant)
    far = mpf("0.525") - mpf("0.2") * slot**10
    fitted = far + (1 - far) * mpmath.exp(-mpf("6.6") * depth ** mpf("0.69"))
    left = thick + (1 - thick) * mpmath.exp(-2 * mpmath.pi * depth) * fitted
    grid = (secant + opening) * mpmath.exp(-mpmath.pi * depth) * left
    reactance = omega * vacuum()[0] * mpf(gap_m) / (2 * mpmath.pi) * grid
    return mpf(pitch_m) * (mpf("5e-3") + mpc(0, reactance))


@pytest.mark.parametrize("frequency_hz", [1e3, 1e6, 1e9, 18e9])
@pytest.mark.parametrize(
    ("slot_m", "thickness_m"), [(7e-3, 0.0), (0.4e-3, 0.1e-3), (8e-7, 1e-9), (7.99e-3, 8e-3)]
)
def test_transfer_impedance_of_a_row_of_fingers(
    frequency_hz: float, slot_m: float, thickness_m: float
) -> None:
    door = sr.ContactLine(6.0, 8e-3, gap_m=1e-3, slot_width_m=slot_m, finger_thickness_m=thickness_m)
    with mpmath.workdps(40):
        reference = complex(transfer_impedance(frequency_hz, 8e-3, 1e-3, slot_m, thickness_m))
    ours = door.transfer_impedance_ohm_m(frequency_hz)
    assert isinstance(ours, complex)
    assert ours.real == pytest.approx(reference.real, rel=1e-12)
    assert ours.imag == pytest.approx(reference.imag, rel=1e-12)


@pytest.mark.parametrize(("slot", "thickness"), [(0.1, 0.0), (0.1, 0.5), (0.4, 0.2), (0.8, 0.1)])
def test_fingers_against_finite_elements(slot: float, thickness: float) -> None:
    """Laplace's equation in the cross-section of a row: 0.3 % up to slots of 0.9 pitches."""
    pitch_m, gap_m, omega = 5e-3, 1.3e-3, 2 * np.pi * 1e3
    row = sr.joints.FingerRow(
        pitch_m, slot * pitch_m, finger_thickness_m=thickness * slot * pitch_m, finger_resistance_ohm=0.0
    )
    found = row.impedance_ohm_m(1e3, gap_m).imag / (omega * float(vacuum()[0]) * gap_m * pitch_m)
    assert found == pytest.approx(finite_elements(slot, thickness * slot), rel=0.003)


def test_a_wide_pitch_has_an_inductance_and_a_slope_lengthens_the_slot() -> None:
    omega = 2 * np.pi * 1e6
    # 2 mm contacts every 6 mm across 1 mm: mu0 g/2pi ln 2 = 0.1386 nH each.
    row = sr.joints.FingerRow(6e-3)
    assert row.impedance_ohm_m(1e6, 1e-3).imag / omega / 6e-3 == pytest.approx(0.2e-9 * np.log(2), rel=1e-6)
    # From root to contact 5 mm, across 3 mm and 4 mm along.
    sloping = sr.joints.FingerRow(6e-3, finger_run_m=4e-3)
    ratio = sloping.impedance_ohm_m(1e6, 3e-3).imag / row.impedance_ohm_m(1e6, 5e-3).imag
    assert ratio == pytest.approx(1.0, rel=1e-12)
    with pytest.raises(sr.errors.RelationError, match="free_height_m"):
        sr.joints.FingerRow(6e-3, free_height_m=1e-3).impedance_ohm_m(1e6, 1e-3)


def test_a_wider_gap_makes_no_door_line_better() -> None:
    """With contacts of fixed values each of these was better with a wider gap, by up to 23 dB."""
    random = np.random.default_rng(11)
    f = np.array([1e6, 30e6, 300e6, 1e9, 3e9])
    for _ in range(60):
        gap_m = 10 ** random.uniform(-3.6, -2.7)
        pitch_m = 10 ** random.uniform(-2.7, -2.0)
        line = sr.ContactLine(6.0, pitch_m, gap_m, finger_resistance_ohm=10 ** random.uniform(-3.5, -1.5))
        wider = line.with_parameter("gap_m", random.uniform(1.05, 1.95) * gap_m)
        # A pitch of half a wavelength is far above these frequencies.
        assert np.all(wider.cross_section_db(f) > line.cross_section_db(f)), (line, wider)


def knife_edge_db(frequency_hz: float, door: sr.joints.KnifeEdge) -> float:
    """A knife edge with one row a side, by products of matrices and a plain rule over the angles."""
    gap_m, edge_m, length_m = door.gap_m, door.edge_clearance_m, door.length_m
    k = 2 * np.pi * frequency_hz / float(C)
    omega_mu = k * float(vacuum()[1])
    left_m = door.blade_depth_m - door.mouth_depth_m + edge_m / 2
    across_m = door.blade_thickness_m + gap_m
    row = door.transfer_impedance_ohm_m(frequency_hz)
    sine = (np.arange(40_000) + 0.5) / 40_000
    assert isinstance(door.faces.conductivity_s_per_m, float)
    skin = np.sqrt(1j * omega_mu / door.faces.conductivity_s_per_m)

    def piece(height_m: float, depth_m: float) -> Complex:
        # Voltage and current per length: series impedance and shunt admittance of a slit of this height.
        series = 1j * omega_mu * height_m + 2 * skin
        shunt = ((k * sine) ** 2 - k**2 * series / (1j * omega_mu * height_m)) / series
        gamma = np.sqrt(series * shunt)
        a, b = np.cosh(gamma * depth_m), np.sinh(gamma * depth_m)
        z = np.sqrt(series / shunt)
        return np.array([[a, b * z], [b / z, a]]).transpose(2, 0, 1)

    bridge = np.array([[1, 0], [1 / row, 1]])
    side = piece(gap_m, door.mouth_depth_m) @ bridge @ piece(gap_m, left_m)
    back = piece(gap_m, left_m) @ bridge @ piece(gap_m, door.mouth_depth_m)
    (a, b), (c, d) = (side @ piece(edge_m, across_m) @ back).transpose(1, 2, 0)
    transverse = k * np.sqrt(1 - sine**2)
    # A slit without ends into a half-space (Marcuvitz, sec. 4.16, in the form that stays positive).
    logarithm = np.log1p((8 / (np.exp(np.euler_gamma) * transverse * gap_m)) ** 2) / 2
    mouth = transverse**2 / (2 * omega_mu) * (1 + 2j / np.pi * logarithm)
    passed = np.abs(2 * mouth.real / (c + (a + d) * mouth + b * mouth**2)) ** 2
    coherent = (1 + (1.2 * np.pi / (k * length_m)) ** 1.8) ** (-1 / 1.8)
    return float(10 * np.log10(length_m / k * passed.mean() * coherent))


@pytest.mark.parametrize("frequency_hz", [1e5, 1e7, 1e9, 2e9, 6e9, 14e9])
def test_a_knife_edge_is_a_chain_of_pockets(frequency_hz: float) -> None:
    fingers = sr.joints.FingerRow(4e-3, 0.4e-3, finger_thickness_m=0.1e-3, finger_run_m=8e-3)
    door = sr.joints.KnifeEdge(6.0, 2e-3, 25e-3, fingers)
    # The plain rule finds the pocket's resonances, from 2.4 GHz on, to a few hundredths of a decibel.
    assert door.cross_section_db(frequency_hz) == pytest.approx(knife_edge_db(frequency_hz, door), abs=0.05)
    assert door.edge_pocket_m == pytest.approx(2 * (25e-3 - 3e-3 + 1.5e-3) + 6e-3 + 2e-3, rel=1e-12)


@pytest.mark.parametrize("frequency_hz", [1e8, 1e9, 6e9, 18e9])
@pytest.mark.parametrize("rows", [1, 2])
def test_contact_line_against_its_integral(frequency_hz: float, rows: int) -> None:
    length_m, pitch_m, gap_m, slot_m, spacing_m = 6.0, 8e-3, 1e-3, 7e-3, 12e-3
    door = sr.ContactLine(
        length_m, pitch_m, gap_m, row_count=rows, row_spacing_m=spacing_m, slot_width_m=slot_m
    )
    with mpmath.workdps(25):
        k = 2 * mpmath.pi * mpf(frequency_hz) / C
        series = gap_series(frequency_hz, gap_m, TIN)
        row = mpc(0, k * vacuum()[1] * gap_m) / transfer_impedance(frequency_hz, pitch_m, gap_m, slot_m)

        def passed(theta: mpf) -> mpf:
            beta, across = k * mpmath.sin(theta), k * mpmath.cos(theta)
            reach = 8 / (mpmath.exp(mpmath.euler) * across * gap_m)
            logarithm = mpmath.log(1 + reach**2) / 2
            mouth = mpf(gap_m) / 2 * across**2 * mpc(-2 / mpmath.pi * logarithm, 1)
            matrices = [shunt(row)]
            for _ in range(rows - 1):
                matrices += [line(beta**2 - k**2 * series, series, spacing_m), shunt(row)]
            return transmission(mouth, matrices) * mpmath.cos(theta)

        # Many short pieces: at 18 GHz the gap between two rows resonates sharply at some angle.
        pieces = 257 if rows == 2 and frequency_hz > 10e9 else 13
        integral = mpmath.quad(passed, mpmath.linspace(0, mpmath.pi / 2 - mpf("1e-15"), pieces), maxdegree=5)
        coherent = (1 + (1 / (k * length_m / (mpf(12) / 10 * mpmath.pi))) ** mpf(1.8)) ** (-1 / mpf(1.8))
        sigma = integral * k * length_m / mpmath.pi * mpmath.pi / k**2 * coherent
        reference = float(10 * mpmath.log10(sigma))
    # The product halves its panels until they agree to 1e-8 of the whole.
    assert door.cross_section_db(frequency_hz) == pytest.approx(reference, abs=1e-6)


def test_a_table_of_transfer_impedance_tells_row_and_line() -> None:
    with pytest.raises(sr.errors.NotIncreasingError) as unsorted:
        sr.joints.ImpedanceTable([1e6, 1e5], [1e-5, 1e-5])
    assert unsorted.value.index == 1
    assert unsorted.value.value == 1e5
    with pytest.raises(sr.errors.OutOfRangeError) as negative:
        sr.joints.ImpedanceTable([1e5, 1e6], [1e-5, -1e-5])
    assert negative.value.index == 1
    assert negative.value.value == -1e-5
    with pytest.raises(sr.errors.OutOfRangeError, match="two or more"):
        sr.joints.ImpedanceTable([1e5], [1e-5])
    with pytest.raises(sr.errors.FormatError) as line:
        sr.joints.ImpedanceTable.from_csv(
            "# bench\nfrequency_hz;transfer_impedance_ohm_m\n1e5;1e-5\n1e6;-2e-5\n"
        )
    assert line.value.line == 4
    table = sr.joints.ImpedanceTable.from_csv(
        "frequency_hz,phase_deg,transfer_impedance_ohm_m\n1e5,0,1e-5\n1e7,90,1e-4\n"
    )
    z = table.impedance_ohm_m(1e6)
    assert z == pytest.approx(10**-4.5 * np.exp(0.25j * np.pi), rel=1e-12)
    assert sr.joints.ImpedanceTable.from_csv(table.to_csv()) == table
    with pytest.warns(sr.DomainWarning, match="measured transfer impedance"):
        table.impedance_ohm_m(1e9)


def test_gaskets_in_series_and_beside_each_other() -> None:
    gasket = sr.joints.Gasket(2e-5, 2e-12)
    fingers = sr.joints.FingerRow(5e-3)
    both = sr.joints.ContactsBeside([gasket, fingers])
    f = np.geomspace(1e4, 1e10, 7)
    ours = both.impedance_ohm_m(f, 1e-3)
    sum_of_admittances = 1 / gasket.impedance_ohm_m(f) + 1 / fingers.impedance_ohm_m(f, 1e-3)
    np.testing.assert_allclose(ours, 1 / sum_of_admittances, rtol=1e-13)
    rows = sr.GasketLine(1.9, 1e-3, rows=[gasket, fingers], row_spacing_m=10e-3)
    one = sr.GasketLine(1.9, 1e-3, rows=[gasket])
    assert np.all(rows.cross_section_db(f) < one.cross_section_db(f))
    # Order does not matter to what passes through.
    turned = sr.GasketLine(1.9, 1e-3, rows=[fingers, gasket], row_spacing_m=10e-3)
    np.testing.assert_allclose(rows.cross_section_db(f), turned.cross_section_db(f), atol=1e-6)


def test_a_door_takes_joints_by_name() -> None:
    lid = sr.GasketLine(0.9, 1e-3, rows=[sr.joints.Gasket(1e-3)])
    door = sr.Door({"sill": lid})
    assert door.sides == {"sill": lid}
    assert door.cross_section_db(1e6) == pytest.approx(lid.cross_section_db(1e6), abs=1e-12)
    with pytest.raises(TypeError, match="sill"):
        sr.Door({"sill": sr.CircularHole(1e-3)})  # type: ignore[dict-item]
    with pytest.raises(sr.errors.EmptyError):
        sr.Door({})
    assert isinstance(door.with_parameter("sill.rows.0.resistance_ohm_m", 1e-2), sr.Door)


@pytest.mark.parametrize(("k_gap", "depth_over_gap"), [(0.5, 2.0), (0.7, 6.0)])
def test_a_slit_with_depth_on_a_grid(k_gap: float, depth_over_gap: float) -> None:
    """Finite differences against the mouth and line that the integral above holds the product to: 0.15 dB."""
    reach = 8 / (mpmath.exp(mpmath.euler) * k_gap)
    mouth = mpf(k_gap) ** 2 / 2 * mpc(-mpmath.log(1 + reach**2) / mpmath.pi, 1)
    formula = float(transmission(mouth, [line(mpc(-(k_gap**2)), mpc(1), depth_over_gap)]))
    assert 10 * np.log10(on_a_grid(k_gap, depth_over_gap) / formula) == pytest.approx(0, abs=0.15)
