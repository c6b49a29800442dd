"""Studies as data frames and data sets."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import pandas as pd
    import xarray as xr

    from ._core import Requirement, Study

__all__ = ["study_to_pandas", "study_to_xarray"]


def study_to_pandas(study: Study, requirement: Requirement | None = None) -> pd.DataFrame:
    """One row a frequency (index, Hz); one column a leak (dB), then the whole.

    Parameters
    ----------
    study : Study
        What to tabulate.
    requirement : Requirement, optional
        Adds ``required_db`` and ``margin_db``.

    Returns
    -------
    pandas.DataFrame
        Columns: one for each leak by its name, ``total_db``, ``worst_case_db``, ``limiting``, ``valid``
        (whether the whole can be relied on: ``study.total_valid``), and with a requirement ``required_db``
        and ``margin_db``. Of ``study.masked()`` with NaN for numbers outside their domain.
    """
    import pandas as pd

    frame: pd.DataFrame = pd.DataFrame(
        study.shielding_db.T,
        index=pd.Index(study.frequency_hz, name="frequency_hz"),
        columns=study.leaks,
    )
    frame["total_db"] = study.total_db
    frame["worst_case_db"] = study.total_worst_case_db
    frame["limiting"] = study.limiting()
    frame["valid"] = study.total_valid
    if requirement is not None:
        frame["required_db"] = requirement.required_db(study.frequency_hz)
        frame["margin_db"] = study.margin_db(requirement)
    return frame


def study_to_xarray(study: Study) -> xr.Dataset:
    """A data set with the dimensions ``leak`` and ``frequency_hz``.

    Parameters
    ----------
    study : Study
        What to tabulate.

    Returns
    -------
    xarray.Dataset
        Variables ``shielding_db``, ``worst_case_db``, ``valid`` (leak, frequency) and ``total_db``,
        ``total_worst_case_db``, ``total_valid``, ``limiting`` (frequency), with units as attributes. Of
        ``study.masked()`` with NaN for numbers outside their domain.
    """
    import xarray as xr

    both = ("leak", "frequency_hz")
    level = {"units": "dB"}
    return xr.Dataset(
        {
            "shielding_db": (both, study.shielding_db, level),
            "worst_case_db": (both, study.worst_case_db, level),
            "valid": (both, study.valid),
            "total_db": ("frequency_hz", study.total_db, level),
            "total_worst_case_db": ("frequency_hz", study.total_worst_case_db, level),
            "total_valid": ("frequency_hz", study.total_valid),
            "limiting": ("frequency_hz", study.limiting()),
        },
        coords={"leak": study.leaks, "frequency_hz": ("frequency_hz", study.frequency_hz, {"units": "Hz"})},
    )
