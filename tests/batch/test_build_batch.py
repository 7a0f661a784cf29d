"""The batch: whoever does the work, the bytes are the same, and two runs do not disturb each other."""

from __future__ import annotations

import json
import multiprocessing
import os
import subprocess
import sys
import time
import xml.etree.ElementTree as ET
from collections.abc import Iterator
from concurrent.futures import Executor, ThreadPoolExecutor
from importlib import import_module
from io import BytesIO
from pathlib import Path

import pytest
from PIL import Image

import schematics
from schematics.batch import BuildReport, Failure, Options, build_sources, spec_source, work
from schematics.batch.lock import LOCK
from schematics.batch.pool import WorkerError, WorkStep, processes, work_off
from schematics.drawing.bare import drawings
from schematics.drawing.ink import raster
from schematics.drawing.ink.sheet import Sheet
from schematics.errors import UsageError
from tests.batch.one_width import WIDTHS, pattern_places
from tests.program import call, files_in, spare_drawings
from tests.specs_for_tests import SPEC, read, write

ROOT = Path(__file__).parents[2]
ONE_SIZE = SPEC.partition('  "6 years":')[0]


def contents(folder: Path) -> dict[str, bytes]:
    return {name: (folder / name).read_bytes() for name in files_in(folder) if name != LOCK}


@pytest.fixture(scope="module")
def inline(tmp_path_factory: pytest.TempPathFactory) -> dict[str, bytes]:
    """What this process makes of a spec of one size."""
    place = tmp_path_factory.mktemp("inline")
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(drawings, "WIDTHS", WIDTHS)
        patch.setattr(work, "pattern_places", pattern_places)
        (report,) = build_sources([spec_source(write(place, ONE_SIZE))], place / "output", Options())
    assert isinstance(report, BuildReport)
    return contents(place / "output")


@pytest.mark.slow
def test_the_files_are_what_their_names_say(inline: dict[str, bytes]) -> None:
    drawn = [name for name in inline if name.endswith(".svg")]
    assert drawn
    for name in drawn:
        assert ET.fromstring(inline[name]).tag == "{http://www.w3.org/2000/svg}svg"
        with Image.open(BytesIO(inline[name.replace(".svg", ".png")])) as image:
            image.load()
            assert min(image.size) > (200 if "/schematics/" in name else 1000)
    document = json.loads(inline["lake/measurements.json"])
    assert [size["name"] for size in document["sizes"]] == ["4"]


@pytest.mark.slow
def test_a_run_of_two_processes_and_one_beside_it_give_what_one_process_gives(
    tmp_path: Path, inline: dict[str, bytes], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Both at once into one folder: one draws, the other finds it done. Nothing depends on where they run."""
    write(tmp_path, ONE_SIZE)
    monkeypatch.setattr(drawings, "WIDTHS", WIDTHS)
    monkeypatch.setattr(work, "pattern_places", pattern_places)
    program = [sys.executable, "-m", "tests.batch.one_width"]
    command = [*program, "build", "lake.yaml", "--no-cloth", "--jobs", "2"]
    there = os.environ | {
        "PYTHONPATH": str(ROOT),
        "PYTHONHASHSEED": "4711",
        "TZ": "Pacific/Auckland",
        "LC_ALL": "C",
    }
    drawing = subprocess.Popen(command, cwd=tmp_path, env=there, stdout=-1, stderr=-1, text=True)
    while not (tmp_path / "output" / LOCK).exists() and drawing.poll() is None:
        time.sleep(0.01)
    assert drawing.poll() is None
    monkeypatch.chdir(tmp_path)
    waiting = call("build", "lake.yaml", "--no-cloth", "--jobs", "1")
    line = "Lake poncho: 1 size in output/lake (1 mind)"
    assert drawing.communicate(timeout=600) == (f"{line}\n", "")
    assert (waiting.stdout, waiting.stderr) == (f"{line}, as it was\n", "")
    assert contents(tmp_path / "output") == inline


@pytest.fixture
def quick(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Spare drawing and rendering; the SVGs of which it was asked."""
    return spare_drawings(monkeypatch)


def built_by(executor: Executor | None, out: Path) -> dict[str, bytes]:
    """What it makes of a design of one size, this process if None."""
    schematics.build(read(out.parent, ONE_SIZE), out, executor=executor)
    return contents(out)


@pytest.mark.slow
@pytest.mark.filterwarnings("default")  # those of the cluster engine are not ours
def test_the_library_builds_with_any_executor(tmp_path: Path, quick: list[str]) -> None:
    """Threads, and the cluster engine that the extra names.

    Its worker is a thread of this process, where drawing is spared; what it is sent is pickled.
    """
    distributed = import_module("distributed")
    here = built_by(None, tmp_path / "here")
    with ThreadPoolExecutor(2) as executor:
        assert built_by(executor, tmp_path / "threads") == here
    one = {"n_workers": 1, "threads_per_worker": 1, "processes": False, "protocol": "tcp://"}
    with (
        distributed.LocalCluster(**one, dashboard_address=None) as cluster,
        distributed.Client(cluster) as client,
    ):
        assert built_by(client.get_executor(), tmp_path / "there") == here


@pytest.mark.slow
def test_only_what_would_come_out_otherwise_is_drawn(tmp_path: Path, quick: list[str]) -> None:
    source, out = write(tmp_path, ONE_SIZE), tmp_path / "output"

    def build(options: Options | None = None) -> BuildReport:
        quick.clear()
        (report,) = build_sources([spec_source(source)], out, options or Options())
        assert isinstance(report, BuildReport)
        return report

    drawn = [path for path in build().files if path.suffix == ".svg"]
    on_paper = [path for path in drawn if "schematics" not in path.parts]
    assert 0 < len(on_paper) < len(drawn)
    assert len(quick) == len(drawn)
    assert build().written == ()
    assert quick == []

    source.write_text(f"# a remark\n{ONE_SIZE}")
    assert build().written == (), "other text, the same sheets"
    assert quick == []

    (out / "lake" / "4" / "worn.pdf").write_bytes(b"by hand")
    report = build()
    assert report.edited == (out / "lake/4/worn.pdf",)
    assert len(quick) == 1

    build(Options(force=True))
    assert len(quick) == len(drawn)
    build(Options(paper="letter"))
    assert len(quick) == len(on_paper), "a drawing cropped to itself has no paper"


@pytest.mark.slow
def test_the_changed_size_comes_first_where_a_designer_waits(
    tmp_path: Path, quick: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    source, out = write(tmp_path), tmp_path / "output"
    build_sources([spec_source(source)], out, Options())
    source.write_text(SPEC.replace("panel: {stitches: 12, rows: 34}", "panel: {stitches: 14, rows: 34}"))
    seen: list[bool] = []
    worn = out / "lake" / "6 years" / "worn.svg"
    before = worn.read_bytes()

    spared = raster.to_png

    def to_png(sheet: Sheet) -> bytes:
        seen.append(worn.read_bytes() != before)
        return spared(sheet)

    monkeypatch.setattr(raster, "to_png", to_png)
    build_sources([spec_source(source)], out, Options(eager=True))
    assert len(seen) > 1
    assert all(seen), "its SVG is in place before anything is rendered"
    eager = contents(out)
    monkeypatch.setattr(raster, "to_png", spared)
    build_sources([spec_source(source)], tmp_path / "other", Options())
    assert eager == contents(tmp_path / "other")


@pytest.mark.slow
def test_a_design_that_fails_does_not_keep_the_others_from_being_built(
    tmp_path: Path, quick: list[str]
) -> None:
    (tmp_path / "output" / "lake").mkdir(parents=True)
    (tmp_path / "output" / "lake" / "cover.svg").write_text("mine")
    sources = [spec_source(write(tmp_path, ONE_SIZE, name)) for name in ("lake.yaml", "shore.yaml")]
    first, second = build_sources(sources, tmp_path / "output", Options())
    assert isinstance(first, Failure)
    assert isinstance(first.error, UsageError)
    assert files_in(tmp_path / "output" / "lake") == ["cover.svg"]
    assert isinstance(second, BuildReport)


@pytest.mark.slow
def test_a_process_that_is_ended_from_outside_is_one_sentence(monkeypatch: pytest.MonkeyPatch) -> None:
    """It has no need of what draws."""
    monkeypatch.setattr(multiprocessing, "set_forkserver_preload", lambda modules: None)

    def nothing(_result: object) -> tuple[WorkStep, ...]:
        return ()

    with processes(2) as pool, pytest.raises(WorkerError, match="ended from outside"):
        work_off([WorkStep(os._exit, (1,), nothing)], pool, 4, lambda: None)


def test_no_more_than_so_many_pieces_of_work_are_out_at_a_time() -> None:
    out: list[int] = []
    most = 0

    def counted() -> Iterator[WorkStep]:
        nonlocal most
        for number in range(50):
            out.append(number)
            most = max(most, len(out))
            yield WorkStep(abs, (number,), done)

    def done(number: int) -> tuple[WorkStep, ...]:
        out.remove(number)
        return ()

    with ThreadPoolExecutor(2) as pool:
        work_off(counted(), pool, 5, lambda: None)
    assert (most, out) == (5, [])
