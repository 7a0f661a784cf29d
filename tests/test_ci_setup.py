"""`.ci/setup` on machines that lack something: one sentence with what to type, and exit code 2."""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]

pytestmark = pytest.mark.skipif(shutil.which("sh") is None, reason="needs a POSIX shell")


@pytest.fixture
def clone(tmp_path: Path) -> Path:
    """What the script looks at, and a folder for the only programs it finds."""
    (tmp_path / "clone" / ".ci").mkdir(parents=True)
    for name in (".ci/setup", "pyproject.toml"):
        shutil.copy(ROOT / name, tmp_path / "clone" / name)
    (tmp_path / "bin").mkdir()
    for tool in ("sh", "dirname", "cksum", "cat", "grep", "find"):
        (tmp_path / "bin" / tool).symlink_to(str(shutil.which(tool)))
    return tmp_path


def program(clone: Path, name: str, script: str) -> Path:
    path = clone / "bin" / name
    path.write_text(f"#!/bin/sh\n{script}\n")
    path.chmod(0o755)
    return path


def setup(clone: Path, extra: str, python: Path) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        ["sh", ".ci/setup", extra],
        cwd=clone / "clone",
        env={"PATH": str(clone / "bin"), "PYTHON": str(python), "HOME": str(clone)},
        stdin=subprocess.DEVNULL,
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )


WITHOUT_VENV = 'case "$2" in *ensurepip*) exit 1 ;; *version_info*) exit 0 ;; esac; exit 1'
"""A recent Python without its venv module, on a machine without cairo: it only answers the probes."""


def test_without_root_it_says_what_to_type(clone: Path) -> None:
    program(clone, "id", "echo 1000")
    program(clone, "apt-get", "touch called")
    done = setup(clone, "run", program(clone, "python", WITHOUT_VENV))
    assert (done.returncode, done.stdout) == (2, "")
    assert done.stderr.startswith(
        "Some system packages are missing; type: sudo apt-get update && "
        "sudo apt-get install --yes python3 python3-venv libcairo2"
    )
    assert done.stderr.count("\n") == 1
    assert not (clone / "clone" / "called").exists()


def test_root_has_them_installed(clone: Path) -> None:
    program(clone, "id", "echo 0")
    program(clone, "apt-get", 'echo "$@" >>called')
    done = setup(clone, "run", program(clone, "python", WITHOUT_VENV))
    update, install = (clone / "clone" / "called").read_text().splitlines()
    assert update.startswith("update")
    assert install.startswith("install")
    assert "python3-venv libcairo2" in install
    assert done.returncode == 2, "this apt-get brought no Python"
    assert done.stderr == "Python 3.11 or newer with its venv module is needed, and none was found.\n"


def test_an_apt_get_that_fails_is_said(clone: Path) -> None:
    program(clone, "id", "echo 0")
    program(clone, "apt-get", "echo no network >&2; exit 100")
    done = setup(clone, "dev", program(clone, "python", WITHOUT_VENV))
    assert done.returncode == 2
    assert done.stderr.startswith("no network\napt-get could not install python3 python3-venv libcairo2")


def test_another_system_gets_the_names(clone: Path) -> None:
    done = setup(clone, "run", program(clone, "python", WITHOUT_VENV))
    assert done.returncode == 2
    assert done.stderr.startswith("Missing here: python3 python3-venv libcairo2")


def test_a_python_that_is_too_old(clone: Path) -> None:
    python = program(clone, "python", "exit 1")
    done = setup(clone, "run", python)
    assert (done.returncode, done.stderr) == (2, f"PYTHON={python} is not Python 3.11 or newer.\n")


def test_a_wrong_argument(clone: Path) -> None:
    done = setup(clone, "everything", Path("python3"))
    assert (done.returncode, done.stderr) == (2, "usage: sh .ci/setup run|dev\n")
