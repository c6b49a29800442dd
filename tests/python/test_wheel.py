"""What is shipped: the wheel and the source distribution hold all that belongs in them, and nothing else."""

from __future__ import annotations

import os
import subprocess
import sys
import tarfile
import zipfile
from pathlib import Path

import pytest

# One worker builds it.
pytestmark = pytest.mark.xdist_group("wheel")

MATURIN = Path(sys.executable).with_name("maturin")


def run(*command: str | Path, cwd: Path) -> None:
    done = subprocess.run([str(c) for c in command], cwd=cwd, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr


@pytest.fixture(scope="module")
def wheel(root: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    out = tmp_path_factory.mktemp("wheel")
    # The profile of the module under test, in the folder where it was built: nothing is compiled twice.
    profile = os.environ.get("PROFILE", "dev")
    target = root / "target" / "python"
    run(
        MATURIN,
        "build",
        "--quiet",
        "--locked",
        "--profile",
        profile,
        "--target-dir",
        target,
        "--out",
        out,
        cwd=root,
    )
    (built,) = out.glob("*.whl")
    return built


@pytest.fixture(scope="module")
def source(root: Path, tmp_path_factory: pytest.TempPathFactory) -> list[str]:
    out = tmp_path_factory.mktemp("source")
    run(MATURIN, "sdist", "--out", out, cwd=root)
    (built,) = out.glob("*.tar.gz")
    with tarfile.open(built) as archive:
        return [name.split("/", 1)[1] for name in archive.getnames() if "/" in name]


def test_one_wheel_serves_every_python_from_3_10(wheel: Path) -> None:
    assert "-cp310-abi3-" in wheel.name


def test_wheel_has_types_and_licences(wheel: Path, root: Path) -> None:
    with zipfile.ZipFile(wheel) as archive:
        names = archive.namelist()
        stub = archive.read("stillroom/_core.pyi")
    assert stub == (root / "python/stillroom/_core.pyi").read_bytes()
    assert "stillroom/py.typed" in names
    for file in (root / "python/stillroom").rglob("*.py"):
        assert file.relative_to(root / "python").as_posix() in names
    for licence in ("LICENSE-MIT", "LICENSE-APACHE"):
        assert any(name.endswith(f".dist-info/licenses/{licence}") for name in names)


def test_wheel_has_nothing_else(wheel: Path) -> None:
    with zipfile.ZipFile(wheel) as archive:
        names = archive.namelist()
    assert sum(name.endswith((".so", ".pyd")) for name in names) == 1
    for name in names:
        assert name.startswith(("stillroom/", "stillroom-")), name
        assert "__pycache__" not in name


def test_installed_wheel_works_by_itself(wheel: Path, tmp_path: Path) -> None:
    """From a folder that holds the wheel alone, away from the source tree."""
    target = tmp_path / "site"
    run(
        sys.executable,
        "-m",
        "pip",
        "install",
        "--quiet",
        "--no-deps",
        "--no-index",
        "--target",
        target,
        wheel,
        cwd=tmp_path,
    )
    program = (
        "import sys; sys.path.insert(0, sys.argv[1]); import stillroom;"
        "assert stillroom.__file__.startswith(sys.argv[1]), stillroom.__file__;"
        "assert all(hasattr(stillroom, name) for name in stillroom.__all__)"
    )
    run(sys.executable, "-I", "-c", program, target, cwd=tmp_path)


@pytest.mark.parametrize(
    "needed",
    [
        "Cargo.lock",
        "Cargo.toml",
        "pyproject.toml",
        "README.md",
        "LICENSE-MIT",
        "LICENSE-APACHE",
        "src/lib.rs",
        "python/stillroom/_core.pyi",
    ],
)
def test_source_distribution_can_be_built_from(source: list[str], needed: str) -> None:
    assert needed in source


def test_source_distribution_has_no_build_products(source: list[str]) -> None:
    for name in source:
        assert not name.startswith(("target/", ".venv/", "notebooks-demo/")), name
        assert not name.endswith((".so", ".pyd", ".pyc")), name
