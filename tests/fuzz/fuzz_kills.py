"""Batches of two specs until so many were killed at random moments, in a folder with files of others.

Run by `make fuzz`. After every kill each file must be whole; the next run must finish, with the same bytes
as a run that nobody disturbed, and leave the files of others as they are.
"""

from __future__ import annotations

import os
import random
import shutil
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from schematics.batch.lock import LOCK
from tests.batch.killing import kill_at_random, look_through
from tests.program import files_in
from tests.specs_for_tests import SPEC, write

KILLS = 50


def contents(folder: Path) -> dict[str, bytes]:
    """Every file but the lock."""
    return {name: (folder / name).read_bytes() for name in files_in(folder) if name != LOCK}


def undisturbed(command: list[str], place: Path) -> float:
    """Run the batch to its end; the seconds it took."""
    start = time.monotonic()
    done = subprocess.run(command, cwd=place, capture_output=True, text=True, check=False)
    if done.returncode not in (0, 1):
        raise SystemExit(f"exit code {done.returncode}: {done.stderr}")
    return time.monotonic() - start


def bend(place: Path, number: int) -> None:
    """Save the specs with other words and counts, so that all sheets differ."""
    one_size = SPEC.partition('  "6 years":')[0]
    write(place / "specs", one_size.replace("title: Lake", f"title: {number}. Lake"))
    write(place / "specs", one_size.replace("hem: 176", f"hem: {176 + 2 * (number % 9)}"), "shore.yaml")


def main() -> int:
    """Kill batches; 0 where everything held."""
    chance = random.Random(os.environ.get("SEED", "20240301"))
    kills = int(os.environ.get("KILLS", KILLS))
    command = [sys.executable, "-m", "schematics", "build", "--jobs", "2"]
    with tempfile.TemporaryDirectory() as name:
        place = Path(name)
        (place / "specs").mkdir()
        bend(place, 0)
        longest = undisturbed(command, place)
        mine = place / "output" / "lake" / "4" / "photo.jpg"
        mine.write_bytes(b"mine")
        batches = killed = 0
        while killed < kills:
            batches += 1
            bend(place, batches)
            start = time.monotonic()
            if kill_at_random(command, place, chance, longest):
                killed += 1
            else:
                longest = time.monotonic() - start
            files = look_through(place / "output")
            sys.stdout.write(f"\r{batches} batches, {killed} killed in time, {files} files whole ")
            sys.stdout.flush()
        undisturbed(command, place)
        found = contents(place / "output")
        assert found.pop("lake/4/photo.jpg") == b"mine"
        shutil.rmtree(place / "output")
        undisturbed(command, place)
        assert found == contents(place / "output"), "not what an undisturbed run gives"
    sys.stdout.write("\n")
    return 0


if __name__ == "__main__":
    sys.exit(main())
