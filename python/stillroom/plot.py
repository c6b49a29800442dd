"""Plots that an engineer can put into a report; they return matplotlib axes and style little."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from numpy.typing import NDArray

    from ._core import Requirement, Study

__all__ = ["frequency_axis", "plot_study"]


def frequency_axis(ax: Axes) -> None:
    """A logarithmic frequency axis in engineering units, also where it spans less than a decade."""
    from matplotlib.ticker import EngFormatter, LogLocator, NullFormatter

    ax.set_xscale("log")
    ax.xaxis.set_major_formatter(EngFormatter(unit="Hz"))
    low, high = ax.get_xlim()
    if high < 60.0 * low:
        ax.xaxis.set_minor_locator(LogLocator(subs=(2.0, 5.0)))
        ax.xaxis.set_minor_formatter(EngFormatter(unit="Hz"))
    else:
        ax.xaxis.set_minor_formatter(NullFormatter())
    ax.set_xlabel("frequency")


def _curve(
    ax: Axes, x: NDArray[np.float64], y: NDArray[np.float64], valid: NDArray[np.bool_], **style: Any
) -> None:
    """A line that is dotted where it is not valid."""
    (line,) = ax.plot(x, np.where(valid, y, np.nan), **style)
    # Dotted runs start at the last valid point, so that the line does not break.
    shown = ~valid | np.append(~valid[1:], False) | np.insert(~valid[:-1], 0, False)
    dotted = {**style, "color": line.get_color(), "label": "_dotted"}
    ax.plot(x, np.where(shown, y, np.nan), ":", **dotted)


def _largest(level_db: NDArray[np.float64]) -> float:
    """The largest finite number; 0 where there is none."""
    finite = level_db[np.isfinite(level_db)]
    return float(finite.max()) if finite.size else 0.0


def plot_study(study: Study, requirement: Requirement | None = None, ax: Axes | None = None) -> Axes:
    """Every leak and the whole against frequency.

    Parameters
    ----------
    study : Study
        What to draw.
    requirement : Requirement, optional
        Drawn as a dashed line that the whole should stay above.
    ax : matplotlib.axes.Axes, optional
        Where to draw; a new figure otherwise.

    Returns
    -------
    matplotlib.axes.Axes
        Numbers outside a model's domain are drawn dotted, those of the whole by ``study.total_valid``. Levels
        far above what matters are cut off at the top of the plot, not dropped.
    """
    import matplotlib.pyplot as plt

    if ax is None:
        _, ax = plt.subplots(figsize=(9.0, 5.5), layout="constrained")
    frequency_hz, total_valid = study.frequency_hz, study.total_valid
    for name, level_db, valid in zip(study.leaks, study.shielding_db, study.valid, strict=True):
        _curve(ax, frequency_hz, level_db, valid, label=name, linewidth=1.2)
    _curve(ax, frequency_hz, study.total_db, total_valid, label="total", color="black", linewidth=2.2)
    worst_case_db = study.total_worst_case_db
    _curve(
        ax, frequency_hz, worst_case_db, total_valid, label="total, worst case", color="black", linewidth=0.8
    )
    top = 1.25 * _largest(study.total_db)
    if requirement is not None:
        points = np.array(requirement.points)
        ax.plot(points[:, 0], points[:, 1], "--", color="tab:red", linewidth=1.6, label="required")
        top = max(top, 1.25 * float(points[:, 1].max()))
    frequency_axis(ax)
    low = min(0.0, -_largest(-worst_case_db))
    ax.set_ylim(low, max(top, low + 1.0))
    ax.set_ylabel("shielding effectiveness, dB")
    ax.grid(visible=True, which="major", alpha=0.3)
    handles, labels = ax.get_legend_handles_labels()
    if not (study.valid.all() and total_valid.all()):
        handles.append(ax.plot([], [], ":", color="grey")[0])
        labels.append("outside a model's domain")
    # Beside the axes, since every corner of the plot may hold a curve.
    ax.legend(handles, labels, fontsize="small", loc="upper left", bbox_to_anchor=(1.01, 1.0))
    return ax
