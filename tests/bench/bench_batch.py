"""The batch as ratios within one run: against CairoSVG alone, matplotlib, itself when nothing changed, click.

Run by `make bench`; not part of the test run. Seconds are of the processor, with all processes started, so
that other programs disturb them little. Exits with 1 where a target is missed.
"""

from __future__ import annotations

import ctypes
import os
import resource
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator, Sequence
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from statistics import median

from tests.specs_for_tests import SPEC

SPECS = Path(__file__).parents[2] / "specs"
FEW, MANY = 10, 1000

_SET_CHILD_SUBREAPER = 36
"""Of prctl(2): processes whose parent is gone become ours, so that their time is counted with ours."""

_CAIRO_ALONE = """
import sys
from pathlib import Path
import cairosvg
for path in map(Path, sys.argv[1:]):
    svg = path.read_bytes()
    cairosvg.svg2png(bytestring=svg, scale=300 / 96, write_to=str(path.with_suffix(".alone.png")))
    cairosvg.svg2pdf(bytestring=svg, write_to=str(path.with_suffix(".alone.pdf")))
"""


@dataclass(frozen=True, slots=True)
class Row:
    """One ratio: what is measured against what, in seconds or kilobytes, and the most it may be."""

    what: str
    ours: float
    against: str
    theirs: float
    most: float

    @property
    def ratio(self) -> float:
        return self.ours / self.theirs

    def __str__(self) -> str:
        return (
            f"| {self.what} | {self.ours:.3f} | {self.against} | {self.theirs:.3f} | "
            f"{self.ratio:.3f} | {self.most:g} | {'yes' if self.ratio <= self.most else '**no**'} |"
        )


def cpu(command: Sequence[str], folder: Path | None = None) -> float:
    """Processor seconds of the command and all it started, whoever started that (Linux)."""
    ctypes.CDLL(None, use_errno=True).prctl(_SET_CHILD_SUBREAPER, 1, 0, 0, 0)
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    done = subprocess.run(command, cwd=folder, stdout=subprocess.DEVNULL, check=False)
    with suppress(ChildProcessError):
        while True:
            os.wait()
    if done.returncode not in (0, 1):
        raise SystemExit(f"exit code {done.returncode}: {command}")
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def schematics(*arguments: str) -> list[str]:
    """The program as a command."""
    return [sys.executable, "-m", "schematics", *arguments]


def batch(place: Path) -> Iterator[Row]:
    """Cold against CairoSVG alone, and warm against cold, over all specs that come with the program."""
    shutil.copytree(SPECS, place / "specs")
    one = cpu(schematics("build", "--no-cloth", "--jobs", "1"), place)
    shutil.rmtree(place / "output")
    two = cpu(schematics("build", "--no-cloth", "--jobs", "2"), place)
    warm = median(cpu(schematics("build", "--no-cloth"), place) for _ in range(5))
    svgs = [str(path) for path in sorted((place / "output").rglob("*.svg"))]
    alone = cpu([sys.executable, "-c", _CAIRO_ALONE, *svgs])
    yield Row(f"batch, {len(svgs)} sheets, 1 process", one, "CairoSVG alone, same SVGs", alone, 0.45)
    yield Row(f"batch, {len(svgs)} sheets, 2 processes", two, "CairoSVG alone, same SVGs", alone, 0.6)
    yield Row("batch when nothing changed", warm, "the batch", one, 0.15)


def start() -> Iterator[Row]:
    """``--help`` against importing click."""
    ours = min(cpu(schematics("--help")) for _ in range(15))
    click = min(cpu([sys.executable, "-c", "import click"]) for _ in range(15))
    yield Row("start of --help", ours, "importing click", click, 1.5)


def sheet() -> Iterator[Row]:
    """A pieces sheet as SVG against matplotlib drawing the same marks; importing either is left out."""
    from schematics.checks.evaluation import evaluate
    from schematics.drawing.ink.svg import to_svg
    from schematics.drawing.sheets import Pages, setting_of
    from schematics.reading.design_file import read_design

    design = read_design(SPECS / "tidepool.yaml")
    pages = Pages(setting_of(design, evaluate(design)))
    drawn = pages.draw(pages.names.index(("pieces", "6"))).sheet
    svg = seconds(lambda: to_svg(drawn))
    with_layout = seconds(lambda: to_svg(pages.draw(pages.names.index(("pieces", "6"))).sheet))
    other = seconds(lambda: in_matplotlib(drawn))
    yield Row("SVG of a sheet", svg, "matplotlib, same marks", other, 0.1)
    yield Row("SVG of a sheet, laid out too", with_layout, "matplotlib, same marks, given", other, 1)


def in_matplotlib(drawn: object) -> bytes:
    """The marks of a sheet drawn by matplotlib: lines, areas, circles and texts at the same places."""
    import io

    from matplotlib.backends.backend_svg import FigureCanvasSVG
    from matplotlib.figure import Figure
    from matplotlib.lines import Line2D
    from matplotlib.patches import Circle as Disc
    from matplotlib.patches import Polygon

    from schematics.drawing.ink.marks import Area, Circle, Text
    from schematics.drawing.ink.sheet import Sheet

    assert isinstance(drawn, Sheet)
    width, height = drawn.paper.width, drawn.paper.height
    figure = Figure(figsize=(width / 25.4, height / 25.4))
    canvas = FigureCanvasSVG(figure)
    axes = figure.add_axes((0, 0, 1, 1))
    axes.set_axis_off()
    axes.set_xlim(0, width)
    axes.set_ylim(height, 0)
    for mark in (mark for group in drawn.groups for mark in group.marks):
        if isinstance(mark, Text):
            axes.text(
                *mark.at, mark.words.replace("$", r"\$"), fontsize=mark.height * 3.9, rotation=-mark.angle,
                ha={"start": "left", "middle": "center", "end": "right"}[mark.anchor], va="baseline",
            )  # fmt: skip
        elif isinstance(mark, Circle):
            axes.add_patch(Disc(mark.centre, mark.radius, fill=False))
        elif isinstance(mark, Area):
            axes.add_patch(Polygon(list(mark.points), fill=False))
        else:
            axes.add_line(Line2D(*zip(*mark.points, strict=True), linewidth=0.7))
    out = io.BytesIO()
    canvas.print_svg(out)  # type: ignore[no-untyped-call]
    return out.getvalue()


def seconds(work: Callable[[], object]) -> float:
    """Processor seconds, the best of several runs after one to warm up."""
    work()
    taken = []
    for _ in range(7):
        begun = time.process_time()
        work()
        taken.append(time.process_time() - begun)
    return min(taken)


_GROWTH = """
import resource, sys, time
from pathlib import Path
from schematics.batch import Options, build_sources, spec_source
from schematics.drawing.ink import pdf, raster
from schematics.drawing.ink.svg import to_svg
import cairosvg
from pypdf import PdfWriter
blank = PdfWriter()
blank.add_blank_page(width=100, height=100)
blank.write("blank.pdf")
page = Path("blank.pdf").read_bytes()
dot = cairosvg.svg2png(bytestring=b'<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"/>')
raster.to_png, pdf.to_pdf = lambda sheet: dot + to_svg(sheet).encode() * 5, lambda sheet: page
specs = sorted(Path("specs").glob("*.yaml"))
def run(paths, out):
    begun = time.process_time()
    outcomes = build_sources([spec_source(path) for path in paths], Path(out), Options())
    assert sum(len(each.verdicts) for each in outcomes) == 10 * len(paths), outcomes
    return time.process_time() - begun
warm_up = run(specs[:1], "first")
print(run(specs[1 : 1 + int(sys.argv[1])], "output"), resource.getrusage(resource.RUSAGE_SELF).ru_maxrss)
"""


def growth(place: Path, many: int) -> Iterator[Row]:
    """Time for each size and the most memory: many sizes, ten to a spec, against ten.

    Rendering, which is the same for each sheet, is spared; what stands for it is as large.
    """
    (place / "specs").mkdir()
    head, _, block = SPEC.partition('  "4":\n')
    block = block.partition('  "6 years":')[0]
    for number in range(many // 10 + 1):
        sizes = "".join(f'  "{size}":\n{block}' for size in range(10))
        text = head.replace("Lake", f"Lake {number}") + sizes
        (place / "specs" / f"lake{number:03}.yaml").write_text(text, "utf-8")
    found = {}
    for count in (FEW, many):
        done = subprocess.run(
            [sys.executable, "-c", _GROWTH, f"{count // 10}"],
            cwd=place, stdout=subprocess.PIPE, text=True, check=True,
        )  # fmt: skip
        shutil.rmtree(place / "output")
        shutil.rmtree(place / "first")
        taken, memory = map(float, done.stdout.split())
        found[count] = taken / count, memory / 1024
    for index, what, most in ((0, "seconds for each size", 1.1), (1, "most memory, MB", 1.1)):
        yield Row(f"{many} sizes: {what}", found[many][index], f"{FEW} sizes", found[FEW][index], most)


def main() -> int:
    """Print the table; 0 where every target is kept."""
    many = int(sys.argv[1]) if len(sys.argv) > 1 else MANY
    sys.stdout.write("| what | is | against | is | ratio | at most | kept |\n|---|---|---|---|---|---|---|\n")
    missed = 0
    with tempfile.TemporaryDirectory() as first, tempfile.TemporaryDirectory() as second:
        for rows in (start(), sheet(), batch(Path(first)), growth(Path(second), many)):
            for row in rows:
                missed += row.ratio > row.most
                sys.stdout.write(f"{row}\n")
                sys.stdout.flush()
    return 1 if missed else 0


if __name__ == "__main__":
    sys.exit(main())
