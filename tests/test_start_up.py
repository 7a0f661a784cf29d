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
    "schema": GEOMETRY,
    "check lake.yaml --json": GEOMETRY,
    "explain SEAM-LENGTH": {*GEOMETRY, "rich"},
    "check lake.yaml": {*GEOMETRY, "rich"},
}
"""The heavy libraries a command may import, at most: all of those before it, so that one process tells."""

_PROBE = """
import sys
from schematics.cli import main
for command in sys.argv[1:]:
    try:
        main(command.split())
    except SystemExit as ended:
        assert not ended.code
    print(*{name.partition(".")[0] for name in sys.modules}, file=sys.stderr)
"""


def imported(place: Path, *commands: str) -> list[set[str]]:
    """The libraries there are at the end of each command, one after the other in one process."""
    done = subprocess.run(
        [sys.executable, "-c", _PROBE, *commands],
        cwd=place, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, text=True, check=True,
    )  # fmt: skip
    return [set(line.split()) for line in done.stderr.splitlines()]


@pytest.mark.slow
def test_no_command_imports_more_than_it_needs(tmp_path: Path) -> None:
    write(tmp_path)
    for command, libraries in zip(CASES, imported(tmp_path, *CASES), strict=True):
        assert libraries & HEAVY <= CASES[command], command


@pytest.mark.slow
def test_a_build_with_nothing_to_do_imports_nothing_heavy(tmp_path: Path) -> None:
    """It need not even read the spec: the manifest says what came of this text."""
    from schematics.batch import Options, build_sources, spec_source
    from tests.program import spare_drawings

    path = write(tmp_path)
    with pytest.MonkeyPatch.context() as patch:
        spare_drawings(patch)
        patch.chdir(tmp_path)
        build_sources([spec_source(Path(path.name))], Path("output"), Options(cloth=True))
    (libraries,) = imported(tmp_path, f"build {path.name}")
    assert libraries & HEAVY == set()
