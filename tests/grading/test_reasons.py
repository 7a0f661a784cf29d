"""A miss is told with a reason, and what is said to write does what it says."""

from __future__ import annotations

import json
import threading
import time
from collections.abc import Callable
from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from schematics.design.limits import Limits
from schematics.grading.asks import asks_of
from schematics.grading.best import best, feasible
from schematics.grading.case import Ask
from schematics.grading.columns import one_row
from schematics.grading.grade import search_of
from schematics.grading.release import words_to_keep
from schematics.grading.search import Search
from schematics.reading.design_file import read_draft
from schematics.units import HAIR
from tests.program import call, run

FOLDED = ("--construction", "folded", "--swatch", "26 sts 20 rows over 20 cm", "--row-repeat", "4")
LINED = ("--construction", "mitred", "--swatch", "18 sts 14 rows over 10 cm", "--row-repeat", "4")


def new(folder: Path, *flags: str) -> Path:
    path = folder / "lake.yaml"
    made = call("new", path, *flags)
    assert made.exit_code == 0, made.output
    return path


def graded(path: Path) -> Any:
    result = call("grade", path, "--format", "json")
    assert result.exit_code in (0, 1), result.output
    return json.loads(result.stdout)


@pytest.mark.slow
def test_a_limit_that_is_named_gives_the_length(tmp_path: Path) -> None:
    """The front of a two-year-old, 13 cm below the waist, is short because of the knee.

    Another sag, and it is as long as said.
    """
    path = new(tmp_path, *FOLDED, "--sizes", "child/2")
    usual = "{measure: back_waist_length, ease: 7}"
    text = path.read_text("utf-8")
    assert text.count(usual) == 2
    path.write_text(text.replace(usual, usual.replace("7", "13")), "utf-8")
    (miss,) = graded(path)["misses"]
    assert (miss["size"], miss["key"], miss["because"]) == ("2", "body.front", "HANG-KNEE would stop it")
    assert miss["choice"].startswith("limits: {hem_sag_fraction: ")
    text = path.read_text("utf-8")
    path.write_text(text.replace("\ngrading:\n", f"\n{miss['choice']}\ngrading:\n", 1), "utf-8")
    after = graded(path)
    assert after["misses"] == []
    (length,) = (each for each in after["sizes"][0]["lengths"] if each["key"] == "body.front_rows")
    assert length["cm"] == pytest.approx(miss["without_it_cm"])


@pytest.mark.slow
def test_a_limit_that_is_named_is_the_nearest_that_will_do(tmp_path: Path) -> None:
    """A thousandth nearer to the usual 0.05 the same counts would not keep it."""
    path = new(tmp_path, *FOLDED, "--sizes", "child/2")
    path.write_text(path.read_text("utf-8").replace("ease: 7}", "ease: 13}"), "utf-8")
    (case,) = search_of(read_draft(path)).cases

    def knee(limits: Limits) -> Ask:
        return next(each for each in asks_of(replace(case, limits=limits)) if each.key == "HANG-KNEE")

    ask = knee(case.limits)
    counts = best(Search(cases=(case,), left_out=frozenset({(0, ask.key)}))).counts[0]
    words = words_to_keep(case, ask, counts)
    named = float(words.removeprefix("limits: {hem_sag_fraction: ").removesuffix("}"))
    assert named < case.limits.hem_sag_fraction == 0.05
    near = [knee(replace(case.limits, hem_sag_fraction=each)) for each in (named, named + 0.001)]
    assert [bool(np.any(each.miss(one_row(counts)) > HAIR)) for each in near] == [False, True]


@pytest.mark.thorough
def test_an_interval_that_is_named_gives_the_length(tmp_path: Path) -> None:
    """The babies' depth is cut by the rows on which women's sizes increase; their own interval mends it."""
    path = new(tmp_path, *LINED, "--sizes", "baby/6 mo, woman/5X")
    told = [
        each for each in graded(path)["misses"] if each["because"].startswith("increases are on the same")
    ]
    assert told
    for miss in told:
        assert miss["choice"].startswith("body: {increase_every: ")
        assert abs(miss["without_it_cm"] - miss["meant_cm"]) <= miss["tolerance_cm"]


@pytest.mark.slow
def test_a_count_by_hand_is_its_own_reason(tmp_path: Path) -> None:
    path = new(tmp_path, *LINED, "--sizes", "child/4")
    text = path.read_text("utf-8")
    path.write_text(text.replace("body: {lines: 4}", "body: {lines: 4, rows: 40}"), "utf-8")
    (miss,) = (each for each in graded(path)["misses"] if each["key"] == "body.depth")
    assert miss["by_hand"]
    assert miss["because"] is None


@pytest.mark.slow
def test_sizes_that_share_no_interval_are_named(tmp_path: Path) -> None:
    """Of 56 rows, 40 with increases are on every row; of 64, 30 are on two of three or on every second."""
    path = new(tmp_path, *LINED, "--sizes", "child/8, child/10")
    text = path.read_text("utf-8")
    for size, rows, number in (("8", 56, 40), ("10", 64, 30)):
        blocks = f'"{size}": {{wearer: child/{size}, body: {{lines: 4'
        assert blocks in text
        text = text.replace(blocks, f"{blocks}, rows: {rows}, increase_rows: {number}")
    path.write_text(text, "utf-8")
    result = call("grade", path)
    assert result.exit_code == 2
    assert "increases on the same rows do not serve all sizes: in row 2 and every " in result.stderr
    assert "they serve all but 10. Give increase_every in the body of that size, or " in result.stderr
    path.write_text(text.replace("increase_rows: 30", "increase_rows: 30, increase_every: 2"), "utf-8")
    search = search_of(read_draft(path))
    assert [case.interval_by_hand for case in search.cases] == [None, 2]
    assert feasible(search)


@pytest.mark.slow
def test_the_same_bytes_whatever_the_time_and_with_other_hashes(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = new(tmp_path, *FOLDED, "--sizes", "child/2")
    asked = "grade", str(path), "--format", "json"
    elsewhere = run(*asked, PYTHONHASHSEED="2").stdout

    def refuse(honest: Callable[[], float]) -> float:
        """What other tests left running may look."""
        assert threading.current_thread() is not threading.main_thread(), "the clock was looked at"
        return honest()

    for clock in ("time", "monotonic", "perf_counter", "process_time"):
        monkeypatch.setattr(time, clock, partial(refuse, getattr(time, clock)))
    assert call(*asked).stdout == elsewhere != ""
