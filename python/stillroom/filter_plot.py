"""Plots of filters; they return matplotlib axes and style little."""

from __future__ import annotations

import warnings
from itertools import combinations
from typing import TYPE_CHECKING, TypeAlias

import numpy as np

from ._core import MeasuringCircuit, ModalTermination
from .errors import DomainWarning
from .plot import frequency_axis

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from numpy.typing import ArrayLike

    from ._core import Ladder, LineFilter

ModeLike: TypeAlias = str | tuple[int, int]

__all__ = ["plot_insertion_loss", "plot_modes"]


def plot_insertion_loss(
    ladder: Ladder,
    frequency_hz: ArrayLike,
    circuits: dict[str, MeasuringCircuit] | None = None,
    worst_case: bool = True,
    ax: Axes | None = None,
) -> Axes:
    """Insertion loss in several circuits at once, with the least over all passive terminations.

    Parameters
    ----------
    ladder : Ladder
        The filter.
    frequency_hz : array_like
        Frequencies, Hz.
    circuits : dict[str, MeasuringCircuit], optional
        By label; where not given 50/50, 0.1/100 and 100/0.1 ohm, an artificial mains network and a 10 m wire.
    worst_case : bool, default True
        Whether to draw the least loss over all passive terminations.
    ax : matplotlib.axes.Axes, optional
        Where to draw; a new figure otherwise.

    Returns
    -------
    matplotlib.axes.Axes
        Gain is below the zero line and shaded.
    """
    import matplotlib.pyplot as plt

    if circuits is None:
        circuits = {
            "50 Ω / 50 Ω": MeasuringCircuit.fifty_ohm(),
            "0.1 Ω / 100 Ω": MeasuringCircuit.low_to_high(),
            "100 Ω / 0.1 Ω": MeasuringCircuit.high_to_low(),
            "mains network / 50 Ω": MeasuringCircuit.mains_network(),
            "10 m wire / 50 Ω": MeasuringCircuit.outside_wire(),
        }
    frequencies = np.sort(np.asarray(frequency_hz, dtype=float).ravel())
    # Everything is computed before a figure is opened: a bad argument should not leave an empty one behind.
    with warnings.catch_warnings():
        # A plot shows a whole range at once; the ladder's own methods say where it holds.
        warnings.simplefilter("ignore", DomainWarning)
        curves = {
            label: ladder.insertion_loss_db(frequencies, circuit) for label, circuit in circuits.items()
        }
        worst = np.asarray(ladder.worst_insertion_loss_db(frequencies)) if worst_case else None
    if ax is None:
        _, ax = plt.subplots(figsize=(9.0, 5.5), layout="constrained")
    for label, loss_db in curves.items():
        ax.plot(frequencies, loss_db, label=label)
    if worst is not None and np.isfinite(worst).any():
        shown = np.where(np.isfinite(worst), worst, np.nan)
        ax.plot(frequencies, shown, color="black", linewidth=0.9, label="worst passive ends")
    _dress(ax)
    ax.legend()
    return ax


def plot_modes(
    filter_: LineFilter,
    frequency_hz: ArrayLike,
    terminations: dict[str, tuple[ModalTermination, ModalTermination]] | None = None,
    ax: Axes | None = None,
) -> Axes:
    """Loss of every mode between several terminations at once, with the conversion between modes.

    Parameters
    ----------
    filter_ : LineFilter
        The filter.
    frequency_hz : array_like
        Frequencies, Hz.
    terminations : dict[str, tuple[ModalTermination, ModalTermination]], optional
        Source and load by label; where not given 50/50, 0.1/100 and 100/0.1 ohm and an artificial mains
        network, from each line to the case.
    ax : matplotlib.axes.Axes, optional
        Where to draw; a new figure otherwise.

    Returns
    -------
    matplotlib.axes.Axes
        A colour for each pair of terminations and a dash for each mode: through for common mode, dashed
        between two lines (the least of all pairs), dotted from common mode to between two lines (the least
        of all pairs). Gain is below the zero line and shaded.
    """
    import matplotlib.pyplot as plt

    lines = filter_.lines
    each = {ohm: ModalTermination.each_line(ohm, lines) for ohm in (0.1, 50.0, 100.0)}
    if terminations is None:
        terminations = {
            "50 Ω / 50 Ω": (each[50.0], each[50.0]),
            "0.1 Ω / 100 Ω": (each[0.1], each[100.0]),
            "100 Ω / 0.1 Ω": (each[100.0], each[0.1]),
            "mains network / 50 Ω": (ModalTermination.mains_network(lines), each[50.0]),
        }
    frequencies = np.sort(np.asarray(frequency_hz, dtype=float).ravel())
    pairs = list(combinations(range(lines), 2))
    paths: dict[str, tuple[str, list[tuple[ModeLike, ModeLike]]]] = {
        "common mode": ("-", [("common", "common")]),
        "between two lines": ("--", [(pair, pair) for pair in pairs]),
        "common mode to between lines": (":", [("common", pair) for pair in pairs]),
    }
    curves = []
    with warnings.catch_warnings():
        # A plot shows a whole range at once; the filter's own methods say where it holds.
        warnings.simplefilter("ignore", DomainWarning)
        for place, (source, load) in enumerate(terminations.values()):
            for path, (dash, modes) in paths.items():
                losses = [
                    np.asarray(filter_.insertion_loss_db(frequencies, drive, listen, source, load))
                    for drive, listen in modes
                ]
                if losses:
                    curves.append((f"C{place}", dash, path, np.min(losses, axis=0)))
    if ax is None:
        _, ax = plt.subplots(figsize=(9.0, 5.5), layout="constrained")
    top = max(
        (
            float(np.max(loss, initial=0.0, where=np.isfinite(loss)))
            for _, dash, _, loss in curves
            if dash != ":"
        ),
        default=0.0,
    )
    for color, dash, _, loss_db in curves:
        # Equal lines convert nothing: what rounding leaves of it is not a curve.
        shown = np.where(loss_db < top + 80.0, loss_db, np.nan) if dash == ":" else loss_db
        ax.plot(frequencies, shown, dash, color=color, linewidth=1.4)
    handles = [ax.plot([], [], color=f"C{place}", label=label)[0] for place, label in enumerate(terminations)]
    drawn = {path for _, _, path, _ in curves}
    handles += [
        ax.plot([], [], dash, color="grey", label=path)[0]
        for path, (dash, _) in paths.items()
        if path in drawn
    ]
    _dress(ax)
    # Beside the axes, since every corner of the plot may hold a curve.
    ax.legend(handles=handles, fontsize="small", loc="upper left", bbox_to_anchor=(1.01, 1.0))
    return ax


def _dress(ax: Axes) -> None:
    """Axes of insertion loss, with gain shaded."""
    low, _ = ax.get_ylim()
    if low < 0.0:
        ax.axhspan(low, 0.0, color="tab:red", alpha=0.07, linewidth=0.0)
        ax.set_ylim(bottom=low)
        ax.annotate(
            "gain", (0.99, 0.0), xycoords=("axes fraction", "data"), ha="right", va="top", fontsize="small"
        )
    frequency_axis(ax)
    ax.set_ylabel("insertion loss, dB")
    ax.grid(visible=True, which="major", alpha=0.3)
