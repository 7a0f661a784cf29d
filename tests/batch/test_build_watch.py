"""Which specs a watch finds changed, however an editor saves them."""

from __future__ import annotations

import signal
import subprocess
import sys
import threading
from collections.abc import Iterator
from pathlib import Path

import pytest

from schematics.batch.watch import Round, rounds
from tests.program import hear_interrupts
from tests.specs_for_tests import SPEC, write


@pytest.fixture
def stop() -> Iterator[threading.Event]:
    event = threading.Event()
    timer = threading.Timer(20, event.set)
    timer.start()
    yield event
    timer.cancel()


@pytest.mark.slow
def test_all_at_first_then_what_says_something_else(tmp_path: Path, stop: threading.Event) -> None:
    lake, shore = write(tmp_path), write(tmp_path, SPEC, "shore.yaml")
    told = rounds(lambda: sorted(tmp_path.glob("*.yaml")), stop)
    assert next(told) == Round(changed=(lake, shore))

    lake.write_text(SPEC + "# saved in place\n")
    assert next(told) == Round(changed=(lake,))

    (tmp_path / "lake.yaml~").write_text(SPEC + "# replaced\n")
    (tmp_path / "lake.yaml~").replace(lake)
    assert next(told) == Round(changed=(lake,))

    shore.write_text(SPEC)
    (tmp_path / "notes.txt").write_text("no spec")
    new = write(tmp_path, SPEC, "brook.yaml")
    assert next(told) == Round(changed=(new,)), "saved without a change, and no spec"

    shore.unlink()
    assert next(told) == Round(changed=(), gone=(shore,))
    write(tmp_path, SPEC, "shore.yaml")
    assert next(told) == Round(changed=(shore,))

    stop.set()
    assert next(told, None) is None


@pytest.mark.slow
@pytest.mark.skipif(sys.platform == "win32", reason="interrupts are sent otherwise there")
def test_a_broken_spec_is_told_and_an_interrupt_ends_the_watch(tmp_path: Path) -> None:
    write(tmp_path, "title: [")
    command = [sys.executable, "-m", "schematics", "build", "lake.yaml", "--watch", "--jobs", "1"]
    watch = subprocess.Popen(
        command,
        cwd=tmp_path,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
        preexec_fn=hear_interrupts,
    )
    assert watch.stdout is not None
    try:
        assert watch.stdout.readline().startswith("lake.yaml:1: ")
        assert watch.stdout.readline() == "watching for changes; Ctrl-C ends it\n"
        write(tmp_path, "title: {")
        assert watch.stdout.readline().startswith("lake.yaml:1: ")
        (tmp_path / "lake.yaml").unlink()
        assert watch.stdout.readline() == "lake.yaml: gone; what was drawn of it stays\n"
        watch.send_signal(signal.SIGINT)
        assert watch.communicate(timeout=600)[0] == "stopped; every file already written is whole\n"
        assert watch.returncode == 0
    finally:
        watch.kill()
        watch.wait()
