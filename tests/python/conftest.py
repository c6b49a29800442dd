"""Settings shared by all Python tests."""

from __future__ import annotations

from pathlib import Path

import hypothesis
import pytest

ROOT = Path(__file__).resolve().parents[2]

# The same examples on every machine, and no clock: speed is a matter for benchmarks.
hypothesis.settings.register_profile("repeatable", derandomize=True, deadline=None)
hypothesis.settings.load_profile("repeatable")


@pytest.fixture(scope="session")
def root() -> Path:
    """The top folder of the project."""
    return ROOT
