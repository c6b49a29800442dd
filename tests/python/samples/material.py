"""Materials and what they are described by."""

import stillroom as sr

SAMPLES: list[object] = [
    sr.materials.copper,
    sr.Material(
        "lossy board",
        conductivity_s_per_m=1e-3,
        relative_permittivity=2.7,
        loss_tangent=0.02,
        relative_permeability=1.5,
        range_hz=(1e6, 10e9),
        source="made up",
    ),
    sr.Material(
        "power laws",
        conductivity_s_per_m=sr.materials.PowerLaw(0.03, 0.8),
        relative_permittivity=sr.materials.PowerLaw(5.2),
        relative_permeability=sr.materials.RelaxingPermeability(200.0, 1e6),
    ),
    sr.materials.PowerLaw(0.03, 0.8),
    sr.materials.RelaxingPermeability(200.0, 1e6),
    sr.materials.PermeabilityTable([1e3, 1e6], [200.0, 90.0], [1.0, 40.0]),
    sr.materials.PermeabilityTable(
        [1e3, 1e6],
        [200.0, 90.0],
        [1.0, 40.0],
        least=[100.0, 50.0 - 9.0j],
        greatest=[300.0, 300.0],
        tolerance=-0.5,
    ),
]
