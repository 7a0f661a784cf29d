"""`grade --write` disturbed: edits, second runs, kills and full disks at random moments.

Run by `make fuzz`. Whatever happens, the spec is the old one, the old one with the counts put in, or what
somebody else wrote meanwhile; it can be read, keeps its mode, and the next run clears what is left beside
it. Every third spec has two names, so that it is written where it stands. Only if such a run is killed may
the spec be torn; then the old one is whole beside it, every reader is told so, and the next run puts it back.
"""

from __future__ import annotations

import os
import random
import re
import resource
import signal
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

import pytest

from schematics.errors import SchematicsError
from schematics.reading.design_file import read_draft
from schematics.reading.files.unfinished import backup_beside
from schematics.reading.problems import SpecError
from tests.grading.test_grade_write import GRADED, SPEC_TEXT

EDITS, PAIRS, KILLS, FULL_DISKS = 200, 50, 50, 50
MODE = 0o640
OLD, NEW = SPEC_TEXT.encode(), GRADED.encode()
NOTE = b"# a note\n"
FILLING = b"#" * 79 + b"\n"
"""A line that makes a spec long enough for a disk to fill up halfway through it."""


class Place:
    """A folder with one spec, which is written by several runs of the program."""

    def __init__(self, folder: Path, chance: random.Random) -> None:
        self.folder, self.chance = folder, chance
        self.spec, self.other = folder / "lake.yaml", folder / "other.yaml"
        self.backup = backup_beside(self.spec)
        self.until_written = 0.0
        self.count = 0

    def fresh(self, filling: int = 0) -> tuple[bytes, bytes]:
        """Put the spec there without its counts; its content, and that with them."""
        for path in self.folder.iterdir():
            path.unlink()
        lines = FILLING * filling
        self.spec.write_bytes(lines + OLD)
        self.spec.chmod(MODE)
        self.count += 1
        if self.linked:
            os.link(self.spec, self.other)
        return lines + OLD, lines + NEW

    @property
    def linked(self) -> bool:
        """Whether the spec has two names."""
        return self.count % 3 == 0

    def start(self, prepare: Callable[[], None] | None = None) -> subprocess.Popen[bytes]:
        return subprocess.Popen(
            [sys.executable, "-m", "schematics", "grade", "--write", str(self.spec)],
            stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, preexec_fn=prepare,
        )  # fmt: skip

    def wait_at_random(self) -> None:
        """Half of the moments lie near that at which the spec is written."""
        late = self.chance.random() < 0.5
        share = self.chance.uniform(0.9, 1.2) if late else self.chance.uniform(0, 1.3)
        time.sleep(self.until_written * share)

    def wait_for_backup(self, process: subprocess.Popen[bytes]) -> None:
        """The moments right after are those in which a spec with two names is written."""
        while process.poll() is None and not self.backup.exists():
            pass
        time.sleep(self.chance.uniform(0, 0.01))

    def finished(self, process: subprocess.Popen[bytes]) -> int:
        words = (process.communicate()[1] or b"").decode()
        assert "internal error" not in words, words
        assert "Traceback" not in words, words
        return process.returncode

    def looked_at(self, *allowed: bytes) -> bytes:
        content = self.spec.read_bytes()
        assert content in allowed, content.decode(errors="replace")
        assert self.spec.stat().st_mode & 0o777 == MODE
        read_draft(self.spec)
        return content

    def is_torn(self, old: bytes, new: bytes) -> bool:
        """Whether the spec is partly old and partly new, which must be told and can be put back."""
        if not self.linked or self.spec.read_bytes() in (old, new):
            return False
        assert self.backup.read_bytes() == old
        with pytest.raises(SpecError, match=re.escape(str(self.backup))):
            read_draft(self.spec)
        return True

    def cleared_by_the_next_run(self) -> None:
        assert self.finished(self.start()) in (0, 1)
        names = [self.spec.name, *([self.other.name] if self.linked else [])]
        assert sorted(path.name for path in self.folder.iterdir()) == names
        assert not self.linked or self.other.samefile(self.spec)
        assert read_draft(self.spec).complete


def edited(place: Place) -> str:
    """An editor saves while the program works: by replacing the file, or by writing it where it stands."""
    old, new = place.fresh()
    process = place.start()
    place.wait_at_random()
    before = place.spec.read_bytes()
    if place.chance.random() < 0.5:
        other = place.folder / "editor"
        other.write_bytes(before + NOTE)
        other.chmod(MODE)
        if place.spec.read_bytes() != before:  # an editor looks before it saves, too
            other.unlink()
            place.finished(process)
            return "editor gave way"
        other.replace(place.spec)
    else:
        place.spec.write_bytes(before + NOTE)
    place.finished(process)
    content = place.looked_at(old + NOTE, new + NOTE)
    return "refused" if content == old + NOTE else "both are there"


def paired(place: Place) -> str:
    """Two runs at once."""
    _, new = place.fresh()
    runs = [place.start(), place.start()]
    codes = sorted(place.finished(run) for run in runs)
    place.looked_at(new)
    assert codes[0] in (0, 1), codes
    return "one was refused" if codes[1] == 2 else "both are content"


def killed(place: Place) -> str:
    old, new = place.fresh()
    process = place.start()
    if place.linked and place.chance.random() < 0.5:
        place.wait_for_backup(process)
    else:
        place.wait_at_random()
    process.send_signal(signal.SIGKILL)
    place.finished(process)
    if place.is_torn(old, new):
        outcome = "killed between"
    else:
        outcome = "killed before" if place.looked_at(old, new) == old else "killed after"
    place.cleared_by_the_next_run()
    place.looked_at(new)
    return outcome


def filled(place: Place) -> str:
    """No file may grow beyond a random size, which is what a disk that fills up looks like."""
    filling = place.chance.randrange(0, 200)
    old, new = place.fresh(filling)
    most = place.chance.randrange(0, len(new) + 2)

    def limit() -> None:
        signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
        resource.setrlimit(resource.RLIMIT_FSIZE, (most, most))

    code = place.finished(place.start(limit))
    content = place.looked_at(old, new)
    assert (code == 2) == (content == old) == (most < len(new)), (code, most, len(new))
    place.cleared_by_the_next_run()
    return "no room" if content == old else "room"


def undisturbed(place: Place) -> float:
    """After how many seconds a run has written the spec."""
    old, _ = place.fresh()
    start = time.monotonic()
    process = place.start()
    while place.spec.read_bytes() == old and process.poll() is None:
        time.sleep(0.001)
    seconds = time.monotonic() - start
    place.finished(process)
    return seconds


def main() -> int:
    """Disturb writing; 0 where everything held."""
    chance = random.Random(os.environ.get("SEED", "20240301"))
    trials = ((edited, EDITS), (paired, PAIRS), (killed, KILLS), (filled, FULL_DISKS))
    faults = 0
    with tempfile.TemporaryDirectory() as name:
        place = Place(Path(name), chance)
        place.until_written = min(undisturbed(place) for _ in range(4))
        for trial, times in trials:
            outcomes: dict[str, int] = {}
            for _ in range(int(os.environ.get("WRITES", times))):
                try:
                    outcome = trial(place)
                except (AssertionError, SchematicsError) as error:
                    faults += 1
                    outcome = f"FAULT {error}"
                outcomes[outcome] = outcomes.get(outcome, 0) + 1
            sys.stdout.write(f"grade --write, {trial.__name__}: {outcomes}\n")
            sys.stdout.flush()
    sys.stdout.write(f"{faults} faults\n")
    return int(faults > 0)


if __name__ == "__main__":
    sys.exit(main())
