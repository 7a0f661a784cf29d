"""`.ci/setup` on machines that lack something: one sentence with what to type, and exit code 2."""

from __future__ import annotations

import shutil
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]

pytestmark = pytest.mark.skipif(shutil.which("sh") is None, reason="needs a POSIX shell")


@pytest.fixture
def clone(tmp_path: Path) -> Path:
    """What the script looks at, and a folder for the only programs it finds."""
    shutil.copytree(ROOT / ".ci", tmp_path / "clone" / ".ci")
    shutil.copy(ROOT / "pyproject.toml", tmp_path / "clone" / "pyproject.toml")
    (tmp_path / "bin").mkdir()
    for tool in ("sh", "dirname", "cksum", "cat", "grep"):
        (tmp_path / "bin" / tool).symlink_to(str(shutil.which(tool)))
    return tmp_path


def program(clone: Path, name: str, script: str) -> Path:
    path = clone / "bin" / name
    path.write_text(f"#!/bin/sh\n{script}\n")
    path.chmod(0o755)
    return path


def setup(clone: Path, kind: str, python: Path) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        ["sh", ".ci/setup", kind],
        cwd=clone / "clone",
        env={"PATH": str(clone / "bin"), "PYTHON": str(python), "HOME": str(clone)},
        stdin=subprocess.DEVNULL,
        capture_output=True,
        text=True,
        timeout=600,
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


@pytest.mark.parametrize(
    ("kind", "version", "needed"),
    [
        ("run", "3.10.16", "Python 3.11 or newer"),
        ("dev", "3.10.16", "Python 3.11 or newer"),
        ("lowest", "3.10.16", "Python 3.11"),
        ("lowest", "3.12.1", "Python 3.11"),
    ],
)
def test_a_python_that_will_not_do(clone: Path, kind: str, version: str, needed: str) -> None:
    """The lowest versions are for the lowest Python: many of them cannot be installed on a newer one."""
    claim = clone / "claim.py"
    claim.write_text(
        "import sys\n"
        "class Version(tuple):\n"
        "    releaselevel = 'final'\n"
        f"sys.version_info = Version({[int(part) for part in version.split('.')]})\n"
        "exec(sys.argv[1])\n"
    )
    python = program(clone, "python", f'exec {sys.executable} {claim} "$2"')
    done = setup(clone, kind, python)
    assert (done.returncode, done.stderr) == (2, f"PYTHON={python} is not {needed}.\n")


def test_a_wrong_argument(clone: Path) -> None:
    done = setup(clone, "everything", Path("python3"))
    assert (done.returncode, done.stderr) == (2, "usage: sh .ci/setup run|dev|lowest\n")
