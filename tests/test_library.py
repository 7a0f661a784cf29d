"""The package as a library: its examples run, its names are typed and light, what is wrong is said."""

from __future__ import annotations

import doctest
import os
import subprocess
import sys
import tomllib
from collections.abc import Callable
from pathlib import Path

import pytest

import schematics
from schematics.library import functions, to_measure
from schematics.reading.design_file import read_design
from schematics.wearer.body import Body
from tests.program import spare_drawings
from tests.shipped import shipped_text
from tests.specs_for_tests import SPEC, TIGHT_NECK, read, write

ROOT = Path(__file__).parents[1]
TIDEPOOL = ROOT / "specs" / "tidepool.yaml"


def fresh(code: str) -> str:
    """What a new interpreter prints."""
    done = subprocess.run(
        [sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=True, timeout=600
    )
    return done.stdout.strip()


@pytest.mark.slow
def test_its_examples_run(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(ROOT)
    for module, least in ((schematics, 3), (functions, 10), (to_measure, 8)):
        found = doctest.testmod(module)
        assert found.failed == 0
        assert found.attempted >= least


@pytest.mark.slow
def test_importing_it_loads_nothing_but_itself() -> None:
    code = "import sys; before = {*sys.modules}; import schematics; print(*sorted({*sys.modules} - before))"
    ours = [name for name in fresh(code).split() if name.partition(".")[0] not in sys.stdlib_module_names]
    assert [name for name in ours if "editable" not in name] == ["schematics"]


@pytest.mark.slow
def test_a_public_name_is_never_a_module_whatever_was_imported() -> None:
    before = "import schematics.batch.work, schematics.checks.evaluation, schematics.fitting.fitting"
    counted = "[callable(getattr(schematics, name)) for name in schematics.__all__].count(False)"
    said = fresh(f"{before}; from schematics import *; print(build.__module__, {counted})")
    assert said == "schematics.library.functions 1", "the version alone is not callable"


def test_what_is_not_there_is_an_attribute_error() -> None:
    with pytest.raises(AttributeError, match="module 'schematics' has no attribute 'knit'"):
        _ = schematics.knit  # type: ignore[attr-defined]
    assert dir(schematics) == sorted(schematics.__all__)


def test_it_says_to_type_checkers_that_it_is_typed() -> None:
    assert (ROOT / "schematics" / "py.typed").exists()
    tools = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["tool"]
    assert "py.typed" in tools["setuptools"]["package-data"]["schematics"]


class Place:
    """A path that is no `pathlib.Path`."""

    def __init__(self, path: Path) -> None:
        self.path = path

    def __fspath__(self) -> str:
        return str(self.path)


@pytest.mark.slow
def test_paths_are_text_or_path_like(tmp_path: Path) -> None:
    path = write(tmp_path)
    kinds: tuple[Callable[[Path], str | os.PathLike[str]], ...] = (str, Place)
    for kind in kinds:
        assert schematics.read(kind(path)) == read_design(path)
        assert schematics.grade(kind(path)).design == read_design(path)
    with pytest.MonkeyPatch.context() as patch:
        spare_drawings(patch)
        report = schematics.build(schematics.read(path), Place(tmp_path / "out"), sizes=["4"])
    assert report.folder == tmp_path / "out" / "lake"
    assert report.verdicts == (("4", schematics.evaluate(schematics.read(path))["4"].verdict.value),)


def test_results_are_a_mapping_in_the_specs_order(tmp_path: Path) -> None:
    results = schematics.evaluate(read(tmp_path, TIGHT_NECK))
    assert list(results) == ["4", "6 years"]
    assert [result.size.name for result in results.values()] == ["4", "6 years"]
    assert (len(results), "6" in results, results.get("6")) == (2, False, None)
    assert results["4"].verdict == "stop"
    with pytest.raises(KeyError) as error:
        results["6"]
    assert str(error.value) == f"{tmp_path}/lake.yaml: no size '6'; the sizes are '4', '6 years'"
    assert isinstance(error.value, schematics.SchematicsError)


@pytest.mark.slow
def test_sheets_are_those_of_the_workbook_drawn_when_asked_for(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from schematics.drawing.sheets import Pages

    drawn: list[int] = []
    draw = Pages.draw

    def counted(pages: Pages, index: int) -> schematics.Page:
        drawn.append(index)
        return draw(pages, index)

    monkeypatch.setattr(Pages, "draw", counted)
    sheets = schematics.draw(read(tmp_path))
    assert [*sheets][:4] == ["cover", "sizes", "nest", ("4", "pieces")]
    assert (("6 years", "worn") in sheets, "worn" in sheets, drawn) == (True, False, [])
    page = sheets["4", "pieces"]
    assert page is sheets["4", "pieces"]
    assert drawn == [3]
    assert "Lake poncho" in page.svg
    assert page.png.startswith(b"\x89PNG")
    assert page.pdf.startswith(b"%PDF")
    with pytest.raises(KeyError, match=r"no sheet 'worn'; the sheets are 'cover', .* like .*'worn'"):
        sheets["worn"]


@pytest.mark.slow
def test_a_sheet_is_the_file_that_is_built(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    from schematics.drawing.sheets import SIZE_SHEETS

    draw_worn = SIZE_SHEETS["worn"]
    spare_drawings(monkeypatch)
    monkeypatch.setitem(SIZE_SHEETS, "worn", draw_worn)
    design = read(tmp_path)
    report = schematics.build(design, tmp_path, sizes=["4"])
    page = schematics.draw(design)["4", "worn"]
    for ending, content in (("svg", page.svg.encode()), ("png", page.png), ("pdf", page.pdf)):
        assert (report.folder / "4" / f"worn.{ending}").read_bytes() == content


def test_counts_that_were_given_are_as_given_and_nothing_is_proven_of_them() -> None:
    """Saltmarsh increases in two rows of every three."""
    grading = schematics.grade(ROOT / "specs" / "saltmarsh.yaml")
    assert grading.gap_cm is None
    assert {counts["body.increase_every"] for counts in grading.counts.values()} == {1.5}
    assert repr(grading).endswith("saltmarsh.yaml, every count given>")


@pytest.fixture(scope="module")
def grading(tmp_path_factory: pytest.TempPathFactory) -> schematics.Grading:
    """Of a spec that gives the counts of size 6 alone."""
    text = shipped_text("sandpiper", "4", "6", "8")
    return schematics.grade(write(tmp_path_factory.mktemp("graded"), text, "sandpiper.yaml"))


@pytest.mark.slow
@pytest.mark.seeds
def test_counts_left_out_are_found(grading: schematics.Grading) -> None:
    assert grading.design == schematics.read(grading.design.path)
    assert grading.design.graded == tuple(each.name for each in grading.design.sizes if each.name != "6")
    assert (grading.gap_cm, grading.misses) == (0, ())
    for size in grading.design.sizes:
        assert grading.counts[size.name]["body.neck"] == size.body.neck
        (hem,) = [row for row in grading.lengths[size.name] if row.key == "body.hem"]
        assert hem.length_cm == pytest.approx(size.body.hem * 20 / 27)  # 27 sts over 20 cm
    assert grading.spec.startswith("# Sandpiper poncho")


@pytest.mark.slow
@pytest.mark.seeds
def test_the_spec_with_its_counts_needs_no_grading(tmp_path: Path, grading: schematics.Grading) -> None:
    again = schematics.read(write(tmp_path, grading.spec, "sandpiper.yaml"))
    assert again.graded == ()
    assert [size.body for size in again.sizes] == [size.body for size in grading.design.sizes]


def test_the_measurements_of_fit_are_those_of_a_wearer() -> None:
    assert list(schematics.Measurements.__annotations__) == [body.value for body in Body]


def test_a_number_is_in_the_designs_unit(tmp_path: Path) -> None:
    inches = read(tmp_path, SPEC.replace("unit: cm", "unit: in"))
    assert schematics.fit(inches, head_girth=20).wearer == schematics.fit(inches, head_girth="20 in").wearer


def test_problems_are_told_each_by_itself_with_file_and_line(tmp_path: Path) -> None:
    path = write(
        tmp_path, SPEC.replace("hem: 176", "hemm: 176").replace("panel: {stitches: 12", "panel: {st: 12")
    )
    with pytest.raises(schematics.SchematicsError) as error:
        schematics.read(path)
    hem, *panels = error.value.problems
    assert hem == f"{path}:31: sizes.\"4\".body: unknown key 'hemm'; did you mean 'hem'?"
    assert len(panels) >= 2
    assert all(problem.startswith(f"{path}:") for problem in panels)
    assert "\n".join(error.value.problems) == str(error.value)


def test_wearers_that_cannot_be_are_told_by_size(tmp_path: Path) -> None:
    text = SPEC.replace("wearer: child/4", "wearer: {age: 4, chart: age/9}")
    with pytest.raises(schematics.SchematicsError) as error:
        schematics.evaluate(schematics.read(write(tmp_path, text)))
    assert all(problem.startswith(f"{tmp_path}/lake.yaml:") for problem in error.value.problems)


@pytest.mark.parametrize(
    ("call", "problem"),
    [
        (lambda _: schematics.read("nowhere.yaml"), "nowhere.yaml: there is no such file"),
        (lambda _: schematics.grade(Path("no/where.yaml")), "no/where.yaml: there is no such file"),
        (
            lambda _: schematics.read("title: Lake\nunit: cm"),
            "expected the path of a file or folder, got str: 'title: Lake\\nunit: cm'; "
            "save a text as a file first",
        ),
        (lambda design: schematics.draw(design, "a5"), "no paper 'a5'; expected 'a4' or 'letter'"),
        (
            lambda design: schematics.build(design, "out", paper="a5"),
            "no paper 'a5'; expected 'a4' or 'letter'",
        ),
        (
            lambda design: schematics.fit(design),
            "say whom it is for: a measurement such as head_girth='52 cm', or age=6",
        ),
        (
            lambda design: schematics.fit(design, head_girth="52 ells"),
            "head_girth: expected the unit cm, mm, m, in or ft, got 'ells' in '52 ells'",
        ),
        (
            lambda design: schematics.fit(design, age=6, gauge="tight"),
            "gauge: expected a gauge such as '20 sts 15 rows over 20 cm', got 'tight'",
        ),
    ],
)
def test_what_cannot_be_used_is_one_problem(
    call: Callable[[schematics.Design], object], problem: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    design = read(tmp_path)
    with pytest.raises(schematics.SchematicsError) as error:
        call(design)
    assert error.value.problems == (problem,)
    assert [path.name for path in tmp_path.iterdir()] == ["lake.yaml"]


@pytest.mark.parametrize("value", [None, 5, b"lake.yaml", ["lake.yaml"]])
def test_a_wrong_type_is_a_type_error_that_says_what_was_expected(value: object, tmp_path: Path) -> None:
    anything: dict[str, Callable[..., object]] = {
        "expected a path": schematics.read,
        "expected a path as a str or": schematics.grade,
        "expected a design": schematics.evaluate,
        "expected a design, such as": schematics.draw,
        "expected names of sizes": lambda wrong: schematics.build(read(tmp_path), "out", sizes=[wrong]),
    }
    for words, function in anything.items():
        with pytest.raises(TypeError, match=f"^{words}.*got {type(value).__name__}: "):
            function(value)
