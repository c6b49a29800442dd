"""Sheets in forty digits, by other ways than the library's: chain matrices and real wavenumbers."""

from __future__ import annotations

import mpmath as mp
from stored import stored

DIGITS = 40
mp.mp.dps = DIGITS
SPEED_OF_LIGHT = mp.mpf(299792458)
MU0 = 4 * mp.pi * mp.mpf("1e-7")
EPS0 = 1 / (MU0 * SPEED_OF_LIGHT**2)
ETA0 = MU0 * SPEED_OF_LIGHT


def medium(frequency_hz, *, conductivity=0, permittivity=1, loss_tangent=0, permeability=1):
    """Complex relative permittivity and permeability under exp(+j w t)."""
    w = 2 * mp.pi * mp.mpf(frequency_hz)
    real = mp.mpf(permittivity)
    return real * (1 - 1j * mp.mpf(loss_tangent)) - 1j * mp.mpf(conductivity) / (w * EPS0), mp.mpc(
        permeability
    )


def chain(layers, frequency_hz, transverse_squared, polarization):
    """Chain matrix of layers (permittivity, permeability, thickness), plain hyperbolic functions."""
    w = 2 * mp.pi * mp.mpf(frequency_hz)
    k0 = w / SPEED_OF_LIGHT
    whole = mp.matrix([[1, 0], [0, 1]])
    for eps, mu, thickness in layers:
        gamma = mp.sqrt(transverse_squared - k0**2 * eps * mu)
        z = 1j * w * MU0 * mu / gamma if polarization == "te" else gamma / (1j * w * EPS0 * eps)
        x = gamma * mp.mpf(thickness)
        whole = whole * mp.matrix([[mp.cosh(x), z * mp.sinh(x)], [mp.sinh(x) / z, mp.cosh(x)]])
    return whole


def electrical_length(layers, frequency_hz):
    """Radians and nepers through the stack: what rounding the inputs does to a result, in roundings."""
    k0 = 2 * mp.pi * mp.mpf(frequency_hz) / SPEED_OF_LIGHT
    return sum(abs(k0 * mp.sqrt(eps * mu) * mp.mpf(thickness)) for eps, mu, thickness in layers)


def outside(frequency_hz, tau, polarization):
    """Wave impedance of vacuum for a wave with the factor exp(-tau z)."""
    w = 2 * mp.pi * mp.mpf(frequency_hz)
    return 1j * w * MU0 / tau if polarization == "te" else tau / (1j * w * EPS0)


def scatter(layers, frequency_hz, transverse_squared, tau, polarization):
    """Transmission and reflection of the tangential electric field."""
    m = chain(layers, frequency_hz, transverse_squared, polarization)
    z0 = outside(frequency_hz, tau, polarization)
    total = m[0, 0] + m[0, 1] / z0 + m[1, 0] * z0 + m[1, 1]
    reflection = (m[0, 0] + m[0, 1] / z0 - m[1, 0] * z0 - m[1, 1]) / total
    return 2 / total, reflection


def plane_wave(layers, frequency_hz, angle_deg, polarization):
    """Transmission and reflection under an angle; enough digits for thick metal."""
    k0 = 2 * mp.pi * mp.mpf(frequency_hz) / SPEED_OF_LIGHT
    angle = mp.radians(mp.mpf(angle_deg))
    return scatter(layers, frequency_hz, (k0 * mp.sin(angle)) ** 2, 1j * k0 * mp.cos(angle), polarization)


@stored
def near_field_ratio(kind, layers, frequency_hz, spacing, source, receiver):
    """ln of the field with over without a sheet, for coaxial or coplanar loops (radii) or rods (lengths).

    The path runs over real wavenumbers l > sqrt(2) k0; below, an arc of radius k0 in the plane of
    tau = sqrt(l^2 - k0^2) keeps clear of the surface-wave pole near the branch point.
    """
    with mp.workdps(22):
        f, z = mp.mpf(frequency_hz), mp.mpf(spacing)
        a, b = mp.mpf(source), mp.mpf(receiver)
        k0 = 2 * mp.pi * f / SPEED_OF_LIGHT
        thickness = sum(mp.mpf(layer[2]) for layer in layers)

        def rod(length, tau):
            u = tau * length / 4
            return (mp.sinh(u) / u) ** 2 if length else 1

        def vertical_loop(radius, squared):
            u = radius * mp.sqrt(squared)
            return 2 * mp.besseli(1, u) / u if abs(u) > mp.mpf("1e-12") else mp.mpf(1)

        def weights(l2, tau):
            wave = mp.sqrt(l2)
            if kind == "coaxial":
                flux = 2 * mp.besselj(1, wave * b) / (wave * b) if b else 1
                return {"te": wave * mp.besselj(1, wave * a) * flux}
            if kind == "rods":
                return {"tm": l2 * rod(a, tau) * rod(b, tau)}
            points = 12
            te = tm = mp.mpf(0)
            for point in range(points):
                psi = (point + mp.mpf(1) / 2) * mp.pi / (2 * points)
                squared = l2 * mp.sin(psi) ** 2 - k0**2
                both = vertical_loop(a, squared) * vertical_loop(b, squared) / points
                te += mp.sin(psi) ** 2 * both
                tm += mp.cos(psi) ** 2 * both
            return {"te": -(tau**2) * te, "tm": k0**2 * tm}

        def integral(transmission):
            def integrand(tau):
                l2 = k0**2 + tau**2
                parts = weights(l2, tau).items()
                return mp.exp(-tau * z) * sum(g * transmission(l2, tau, wave) for wave, g in parts)

            def arc(angle):
                tau = k0 * mp.expj(angle)
                return integrand(tau) * 1j * tau

            decades = [mp.mpf(10) ** -power for power in range(14, 0, -1)]
            ends = [k0] + [
                u / z for u in [*decades, mp.mpf(1) / 2, 1, 2, 4, 7, 11, 16, 24, 36, 55] if u / z > k0 * 3 / 2
            ]
            return mp.quad(arc, [mp.pi / 2, mp.pi / 4, 0]) + mp.quad(integrand, ends)

        def sheet(l2, tau, wave):
            return scatter(layers, f, l2, tau, wave)[0] * mp.exp(tau * thickness)

        # mp.quad stops on an absolute error: bring the integrand to order one.
        size = abs(sheet(k0**2 + 1 / z**2, 1 / z, "tm" if kind == "rods" else "te"))
        with_sheet = integral(lambda l2, tau, wave: sheet(l2, tau, wave) / size)
        return mp.log(with_sheet / integral(lambda l2, tau, wave: mp.mpf(1))) + mp.log(size)


@stored
def shell_factor(shape, layers, inner_radius, frequency_hz):
    """Shielding factor of a closed shell by matching Bessel functions at every face."""
    k0 = 2 * mp.pi * mp.mpf(frequency_hz) / SPEED_OF_LIGHT
    radius = mp.mpf(inner_radius)
    if shape == "sphere":
        value, slope = radius**2, 2 * radius
    elif shape == "cylinder across":
        value, slope = radius, mp.mpf(1)
    else:
        value, slope = mp.mpf(1), radius / 2
    for eps, mu, thickness in layers:
        gamma = mp.sqrt(-(k0**2) * eps * mu)
        weight = gamma**2 / mu if shape == "cylinder along" else mu
        (rise, rise_slope), (fall, fall_slope) = radial_pair(shape, gamma, radius)
        # Amplitudes by Cramer's rule.
        slope *= weight
        whole = rise * fall_slope - rise_slope * fall
        up, down = (value * fall_slope - slope * fall) / whole, (rise * slope - rise_slope * value) / whole
        radius += mp.mpf(thickness)
        (rise, rise_slope), (fall, fall_slope) = radial_pair(shape, gamma, radius)
        value, slope = up * rise + down * fall, (up * rise_slope + down * fall_slope) / weight
    if shape == "sphere":
        return (value + radius * slope) / (3 * radius**2)
    if shape == "cylinder across":
        return (value + radius * slope) / (2 * radius)
    return value


def radial_pair(shape, gamma, r):
    """Growing and falling solution of a layer's radial equation, each with its slope."""
    x = gamma * r
    if shape == "sphere":
        # r times the modified spherical Bessel functions of order one.
        return (
            (mp.cosh(x) - mp.sinh(x) / x, gamma * (mp.sinh(x) - mp.cosh(x) / x + mp.sinh(x) / x**2)),
            (mp.exp(-x) * (1 + 1 / x), -gamma * mp.exp(-x) * (1 + 1 / x + 1 / x**2)),
        )
    n = 1 if shape == "cylinder across" else 0
    return (
        (mp.besseli(n, x), gamma * (mp.besseli(n - 1, x) + mp.besseli(n + 1, x)) / 2),
        (mp.besselk(n, x), -gamma * (mp.besselk(n - 1, x) + mp.besselk(n + 1, x)) / 2),
    )
