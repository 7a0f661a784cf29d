"""A batch killed at random moments leaves whole files, the next one finishes, and nobody's files change.

The drawing is spared here: what is written is made up, fast and large. `make fuzz` kills real batches.
"""

from __future__ import annotations

import hashlib
import inspect
import random
import subprocess
import sys
import time
from pathlib import Path

import pytest

from schematics.batch.folder import WAITING
from tests.batch.killing import kill_at_random, look_through
from tests.examples import share
from tests.program import files_in

ROOT = Path(__file__).parents[2]
_BATCH = """
import hashlib, random, sys
from pathlib import Path
from schematics.batch.folder import DesignFolder
from schematics.batch.lock import locked
from schematics.batch.manifest import Manifest, Planned

key = sys.argv[1] * 64
names = [f"{size}/{stem}.svg" for size in "246" for stem in ("pieces", "assembly", "worn")]
with locked(Path("output")):
    folder = DesignFolder(Path("output/lake"))
    folder.clear()
    for name in names:
        folder.stage(name, sealed(key + name), size=name[0], key=key, source=key)
    sizes = tuple(Planned(name=size, verdict="good", digest=key) for size in "246")
    committed = folder.commit(Manifest(key=key, title="Lake", sizes=sizes), names, prune=False)
    assert committed.edited == (), committed.edited
"""


_KILLED_AT_THE_MANIFEST = """
import itertools, os
calls, fsync = itertools.count(1), os.fsync
os.fsync = lambda file: os._exit(9) if next(calls) == 10 else fsync(file)
"""
"""Before the batch: nine sheets are put on the disk, and then its end comes with the manifest half done."""


def sealed(text: str) -> bytes:
    """A large content that ends with its own hash."""
    content = random.Random(text).randbytes(200_000)
    return content + hashlib.sha256(content).digest()


def _script(before: str = "") -> str:
    return f"import sys; sys.path.insert(0, {str(ROOT)!r})\n{before}{inspect.getsource(sealed)}{_BATCH}"


def is_sealed(path: Path) -> None:
    if path.suffix == ".svg":
        content = path.read_bytes()
        assert hashlib.sha256(content[:-32]).digest() == content[-32:], path


@pytest.mark.slow
@pytest.mark.seeds
def test_killed_at_random_moments(tmp_path: Path) -> None:
    chance = random.Random(20240301)
    mine = {
        "output/mine.txt": "mine",
        "output/lake/notes.txt": "mine, too",
        "output/lake/4/photo.jpg": "so is this",
    }
    for name, content in mine.items():
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_text(content)
    script = _script()
    command = [sys.executable, "-c", script]
    start = time.monotonic()
    undisturbed = subprocess.run([*command, "0"], cwd=tmp_path, capture_output=True, text=True, check=False)
    longest = time.monotonic() - start
    assert (undisturbed.returncode, undisturbed.stderr) == (0, "")
    killed = 0
    for number in range(share(12)):
        killed += kill_at_random([*command, "abcdef"[number % 6]], tmp_path, chance, longest)
        look_through(tmp_path / "output" / "lake", is_sealed)
    assert killed >= share(12) // 4, "some were killed in time"
    done = subprocess.run(
        [*command, "0"], cwd=tmp_path, capture_output=True, text=True, timeout=600, check=False
    )
    assert (done.returncode, done.stderr) == (0, "")
    assert look_through(tmp_path / "output" / "lake", is_sealed) == 9 + 1 + 1
    assert {name: (tmp_path / name).read_text() for name in mine} == mine
    assert not (tmp_path / "output" / "lake" / WAITING).exists()
    assert (tmp_path / "told.txt").read_text() == "", "no run found a file it did not know"
    assert len(files_in(tmp_path)) == 9 + 1 + 3 + 2, "sheets, manifest, mine, the lock and what was told"


@pytest.mark.slow
def test_killed_while_it_writes_the_manifest(tmp_path: Path) -> None:
    killed = subprocess.run(
        [sys.executable, "-c", _script(_KILLED_AT_THE_MANIFEST), "a"], cwd=tmp_path, check=False
    )
    assert killed.returncode == 9
    assert not (tmp_path / "output" / "lake" / "manifest.json").exists()
    subprocess.run([sys.executable, "-c", _script(), "a"], cwd=tmp_path, check=True)
    assert look_through(tmp_path / "output" / "lake", is_sealed) == 9 + 1
    assert len(files_in(tmp_path)) == 9 + 1 + 1, "sheets, manifest and lock; nothing of the killed run"
