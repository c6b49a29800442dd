"""Plots of filters; they return matplotlib axes and style little."""

from __future__ import annotations

import warnings
from typing import TYPE_CHECKING

import numpy as np

from ._core import MeasuringCircuit
from ._errors import DomainWarning
from .plot import frequency_axis

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from numpy.typing import ArrayLike

    from ._core import Ladder

__all__ = ["plot_insertion_loss"]


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
    ax.legend()
    return ax
