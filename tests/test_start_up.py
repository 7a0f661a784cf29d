"""What each command imports: heavy libraries only where needed, so that the program starts at once."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from tests.specs_for_tests import write

HEAVY = {
    *("cairocffi", "jinja2", "matplotlib", "networkx", "numpy", "PIL", "pydantic", "pypdf"),
    *("rich", "ruamel", "scipy", "shapely", "svgwrite", "watchfiles", "yaml"),
}
"""Libraries that cost more than a few milliseconds to import."""

READING = {"pydantic", "yaml", "shapely", "numpy"}
GEOMETRY = {*READING, "scipy"}
CASES = {
    "--help": set[str](),
    "--version": set(),
    "build --help": set(),
    "explain SEAM-LENGTH": {*GEOMETRY, "rich"},
    "check lake.yaml --json": GEOMETRY,
    "check lake.yaml": {*GEOMETRY, "rich"},
    "schema": GEOMETRY,
}
"""The heavy libraries a command may import, at most."""

_PROBE = """
import atexit, sys
atexit.register(lambda: print(*sorted({name.partition(".")[0] for name in sys.modules}), file=sys.stderr))
from schematics.cli import main
main(sys.argv[1:])
"""


def imported(place: Path, *arguments: str) -> set[str]:
    """The libraries there are at the end of a command."""
    done = subprocess.run(
        [sys.executable, "-c", _PROBE, *arguments],
        cwd=place, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, text=True, check=True,
    )  # fmt: skip
    return set(done.stderr.split())


@pytest.mark.slow
@pytest.mark.parametrize("command", CASES)
def test_no_command_imports_more_than_it_needs(tmp_path: Path, command: str) -> None:
    write(tmp_path)
    assert imported(tmp_path, *command.split()) & HEAVY <= CASES[command]


@pytest.mark.slow
def test_a_build_with_nothing_to_do_imports_nothing_heavy(tmp_path: Path) -> None:
    """It need not even read the spec: the manifest says what came of this text."""
    from schematics.batch import Options, build_sources, spec_source
    from tests.program import spare_rendering

    path = write(tmp_path)
    with pytest.MonkeyPatch.context() as patch:
        spare_rendering(patch)
        patch.chdir(tmp_path)
        build_sources([spec_source(Path(path.name))], Path("output"), Options())
    assert imported(tmp_path, "build", path.name) & HEAVY == set()
