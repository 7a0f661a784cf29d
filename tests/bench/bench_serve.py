"""``schematics serve`` under load: fifty makers at once for a minute, beside slow and hostile clients.

Run by `make bench`; not part of the test run. All is on this machine's loopback and ends by itself. It exits
with 1 where a maker meets anything but answers and refusals, where memory grows without end, where something
is written, or where a draft takes more than half a second of the processor after a save.
"""

from __future__ import annotations

import argparse
import http.client
import os
import random
import re
import shutil
import signal
import socket
import subprocess
import sys
import tempfile
import threading
import time
from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from statistics import median
from urllib.parse import urlencode

from tests.bench.bench_size import SPECS

MAKERS, SLOW, HOSTILE, SECONDS = 50, 10, 5, 60.0
READY = ("tidepool", "saltmarsh", "driftwood")
MOST_GROWTH_MB = 150.0
"""Between the first minute's beginning and its end: caches of the processes fill, and then no more."""
MOST_DRAFT_SECONDS = 0.5
SAVES = 5
AT_REST_SECONDS = 0.05
"""A service that takes no more of the processor in a second has nothing to do."""

_FORM = {"Content-Type": "application/x-www-form-urlencoded"}


@contextmanager
def serving(folder: Path, *arguments: object) -> Iterator[tuple[int, int]]:
    """The program in a process of its own, which may write into an empty folder: its number, and its port."""
    running = subprocess.Popen(
        [sys.executable, "-m", "schematics", "serve", *map(str, arguments), "--port", "0"],
        cwd=folder,
        env={**os.environ, "TMPDIR": str(folder), "PYTHONPATH": str(Path(__file__).parents[2])},
        stdout=subprocess.PIPE,
        text=True,
    )
    try:
        assert running.stdout is not None
        (port,) = re.findall(r":(\d+)/", running.stdout.readline())
        yield running.pid, int(port)
    finally:
        running.send_signal(signal.SIGINT)
        running.wait()


def family(pid: int) -> list[int]:
    """A process and those that come of it."""
    parents: dict[int, list[int]] = {}
    for path in Path("/proc").glob("[0-9]*/stat"):
        try:
            said = path.read_text().rpartition(")")[2].split()
        except OSError:
            continue
        parents.setdefault(int(said[1]), []).append(int(path.parent.name))
    found = [pid]
    for each in found:
        found += parents.get(each, [])
    return found


def memory_mb(pid: int) -> float:
    """What a process and those that come of it hold, each its own share of what they hold together."""
    total = 0
    for each in family(pid):
        try:
            text = Path(f"/proc/{each}/smaps_rollup").read_text()
        except OSError:
            continue
        total += sum(int(found) for found in re.findall(r"^Pss: +(\d+) kB", text, re.MULTILINE))
    return total / 1024


def processor_seconds(pid: int) -> float:
    """What a process and those that come of it have worked."""
    ticks = 0
    for each in family(pid):
        try:
            said = Path(f"/proc/{each}/stat").read_text().rpartition(")")[2].split()
        except OSError:
            continue
        ticks += int(said[11]) + int(said[12])
    return ticks / os.sysconf("SC_CLK_TCK")


class Load:
    """What all clients met."""

    def __init__(self, port: int, seconds: float) -> None:
        self.port, self.end = port, time.monotonic() + seconds
        self.met: Counter[str] = Counter()
        self.waited: dict[str, list[float]] = {}
        self.lock = threading.Lock()

    def on(self) -> bool:
        return time.monotonic() < self.end

    def note(self, what: str, seconds: float | None = None) -> None:
        with self.lock:
            self.met[what] += 1
            if seconds is not None:
                self.waited.setdefault(what, []).append(seconds)

    def ask(self, kind: str, method: str, path: str, body: str | None = None, **headers: str) -> int:
        """The status of an answer read whole; nought where there is none."""
        begun = time.monotonic()
        connection = http.client.HTTPConnection("127.0.0.1", self.port, timeout=300)
        told = {"Origin": f"http://127.0.0.1:{self.port}", **(_FORM if body is not None else {}), **headers}
        try:
            connection.request(method, path, body, told)
            answer = connection.getresponse()
            content = answer.read()
        except (OSError, http.client.HTTPException) as error:
            self.note(f"{kind}: {type(error).__name__}")
            return 0
        finally:
            connection.close()
        if kind == "pattern" and answer.status == 200 and not content.startswith(b"%PDF-"):
            self.note("pattern: no PDF")
        self.note(f"{kind}: {answer.status}", time.monotonic() - begun)
        return answer.status

    def maker(self, seed: int) -> None:
        """Reads, answers, takes the pattern, and begins anew with another child; waits when told to."""
        dice = random.Random(seed)
        while self.on():
            design = dice.choice(READY)
            age = dice.choice([3, 4, 6, 8, 10])
            child = {"age": str(age), "height": f"{84 + 6 * age + dice.uniform(-4, 4):.1f}"}
            child["head_girth"] = f"{48 + 0.5 * age + dice.uniform(-1, 1):.1f}"
            self.ask("form", "GET", "/")
            self.ask("form", "GET", f"/{design}")
            for kind, path in (("answer", f"/{design}"), ("pattern", f"/{design}.pdf")):
                while self.on():
                    time.sleep(dice.uniform(0.5, 2))
                    if self.ask(kind, "POST", path, urlencode(child)) != 503:
                        break
                    time.sleep(5)

    def slow(self, seed: int) -> None:
        """Sends a letter of a request now and then, until it is cut."""
        text = f"GET /tidepool HTTP/1.1\r\nHost: 127.0.0.1:{self.port}\r\nX: {'a' * 10_000}"
        while self.on():
            try:
                with socket.create_connection(("127.0.0.1", self.port)) as connection:
                    for letter in text:
                        connection.sendall(letter.encode())
                        time.sleep(0.5)
                        if not self.on():
                            return
            except OSError:
                self.note("slow: cut")

    def hostile(self, seed: int) -> None:
        """Sends what no form sends."""
        dice = random.Random(seed)
        while self.on():
            match dice.randrange(6):
                case 0:
                    self.ask("hostile", "GET", "/../../etc/passwd")
                case 1:
                    self.ask("hostile", "GET", "/", Host="evil.example")
                case 2:
                    self.ask("hostile", "POST", "/tidepool", "age=6", Origin="http://evil.example")
                case 3:
                    self.ask("hostile", "POST", "/tidepool", "age=" + "6" * 7_000)
                case 4:
                    self.ask("hostile", "POST", "/tidepool", "x=1&" * 1_000)
                case _:
                    self.ask("hostile", "DELETE", "/tidepool")
            time.sleep(dice.uniform(0, 0.1))


def loaded(seconds: float) -> list[str]:
    """Run the load and print what it met; what was promised and not kept."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        specs = [path for path in SPECS if path.stem in READY]
        with serving(folder, *specs) as (pid, port):
            Load(port, 0).ask("first", "POST", "/tidepool", "age=6")
            before = memory_mb(pid)
            load = Load(port, seconds)
            clients = [
                threading.Thread(target=each, args=(seed,))
                for each, count in ((load.maker, MAKERS), (load.slow, SLOW), (load.hostile, HOSTILE))
                for seed in range(count)
            ]
            for client in clients:
                client.start()
            for client in clients:
                client.join()
            after = memory_mb(pid)
        written = sorted(str(path.relative_to(folder)) for path in folder.rglob("*"))
    for what, count in sorted(load.met.items()):
        waited = load.waited.get(what, [])
        last = (
            f", half of them within {median(waited):.1f} s, all within {max(waited):.1f} s" if waited else ""
        )
        sys.stdout.write(f"{what}: {count}{last}\n")
    sys.stdout.write(f"memory: {before:.0f} MB before, {after:.0f} MB after\n")
    sys.stdout.write(f"written: {', '.join(written) or 'nothing'}\n")
    sys.stdout.flush()
    fine = {"form: 200", "answer: 200", "answer: 503", "pattern: 200", "pattern: 503", "slow: cut"}
    odd = [what for what in load.met if what not in fine and not re.fullmatch(r"hostile: 4\d\d", what)]
    missed = [f"met {', '.join(odd)}"] if odd else []
    if after - before > MOST_GROWTH_MB:
        missed.append(f"memory grew by over {MOST_GROWTH_MB:.0f} MB")
    return missed + (["something was written"] if written else [])


def drafted() -> list[str]:
    """Save each design and print how long it is until it is shown; those that take too long."""
    missed = []
    for path in SPECS:
        with tempfile.TemporaryDirectory() as name:
            shutil.copytree(path.parent, Path(name) / "specs")
            spec = Path(name) / "specs" / path.name
            text = spec.read_text("utf-8")
            with serving(Path(name), "--edit", spec) as (pid, port):
                waited: list[float] = []
                worked: list[float] = []
                number = _number(_draft(port, path.stem, ""))
                _draft(port, path.stem, "")
                _rested(pid)
                for save in range(SAVES):
                    threading.Timer(0.3, _save, (spec, f"{text}# {save}\n", waited)).start()
                    before = processor_seconds(pid)
                    while len(waited) == save:  # what is shown may be asked for and told before the save
                        number = _number(_draft(port, path.stem, number))
                    waited[-1] = time.monotonic() - waited[-1]
                    worked.append(processor_seconds(pid) - before)
        told = f"{path.stem}: {median(waited):.2f} s after a save, {median(worked):.2f} s of the processor"
        sys.stdout.write(f"draft of {told}\n")
        sys.stdout.flush()
        if median(worked) > MOST_DRAFT_SECONDS:
            missed.append(f"the draft of {path.stem} took {median(worked):.2f} s of the processor")
    return missed


def _rested(pid: int) -> None:
    """Wait until the processes for makers have rehearsed, which is no part of a draft."""
    before, now = 0.0, processor_seconds(pid)
    while now - before > AT_REST_SECONDS:
        time.sleep(1.0)
        before, now = now, processor_seconds(pid)


def _save(spec: Path, text: str, waited: list[float]) -> None:
    waited.append(time.monotonic())
    spec.write_text(text, "utf-8")


def _draft(port: int, slug: str, seen: str) -> str:
    connection = http.client.HTTPConnection("127.0.0.1", port, timeout=300)
    connection.request("GET", f"/draft/{slug}?seen={seen}")
    content = connection.getresponse().read().decode()
    connection.close()
    return content


def _number(page: str) -> str:
    (number,) = re.findall(r'data-number="(\d+)"', page)
    return str(number)


def main() -> int:
    """Print what was met and measured; 1 where a promise was not kept."""
    parser = argparse.ArgumentParser(description="Load a service, and time its drafts.")
    parser.add_argument("--seconds", type=float, default=SECONDS)
    missed = loaded(parser.parse_args().seconds) + drafted()
    for each in missed:
        sys.stdout.write(f"not kept: {each}\n")
    return int(bool(missed))


if __name__ == "__main__":
    sys.exit(main())
