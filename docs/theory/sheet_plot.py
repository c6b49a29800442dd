"""Draws sheet.svg: where loop test and closed shell differ. Run it from the top folder."""

from __future__ import annotations

from pathlib import Path

import matplotlib.pyplot as plt
import numpy as np

import stillroom as sr

INTERIOR = (4.8, 3.6, 3.0)


def main() -> None:
    """Two walls, three answers each."""
    plt.rcParams["svg.hashsalt"] = "stillroom"
    board = sr.Material("chipboard", relative_permittivity=2.6, loss_tangent=0.05)
    steel, copper = sr.materials.steel, sr.materials.copper
    walls = {
        "0.5 mm steel, 19 mm chipboard, 0.5 mm steel": [(steel, 0.5e-3), (board, 19e-3), (steel, 0.5e-3)],
        "1 mm copper": [(copper, 1e-3)],
    }
    # Up to where the room is small against the wavelength.
    f = np.geomspace(10, 2e6, 300)
    test = sr.LoopTest("coaxial", 0.15, 0.15, outside_m=0.3, inside_m=0.3)
    figure, panels = plt.subplots(1, 2, figsize=(10, 4.4), sharey=True, layout="constrained")
    for ax, (title, layers) in zip(panels, walls.items(), strict=True):
        wall = sr.Laminate(layers)
        room = sr.sheets.room_in_uniform_field(INTERIOR, layers, f)
        ax.semilogx(f, wall.shielding_db(f), color="tab:gray", label="plane wave")
        ax.semilogx(f, room.shielding_db, color="tab:green", label="closed shell")
        ax.fill_between(f, room.lowest_db, room.highest_db, color="tab:green", alpha=0.15, lw=0)
        ax.semilogx(f, test.shielding_db(wall, f), color="tab:blue", lw=2, label="loop test, exact")
        ax.set(title=title, xlabel="frequency / Hz", xlim=(f[0], f[-1]), ylim=(0, 200))
        ax.grid(alpha=0.3, which="major")
    panels[0].set_ylabel("shielding effectiveness / dB")
    panels[0].legend(loc="upper left")
    figure.savefig(Path(__file__).with_name("sheet.svg"), metadata={"Date": None})


if __name__ == "__main__":
    main()
