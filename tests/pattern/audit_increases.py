"""Holding what a page says of increases, by a rule or row by row, against the spec's own numbers."""

from __future__ import annotations

import itertools
import math
import re
from collections.abc import Iterator, Mapping
from fractions import Fraction

from tests.pattern.reading import Page, read_schedule, read_work, split_size_string
from tests.pattern.recompute import Spec, hem_count
from tests.pattern.rule_reading import is_rule, work_rule

_HEADING = "Increases of the body"


def audit_increases(body: Spec, page: Page, index: int) -> Iterator[str]:
    """Every fault in the increases of the size of that index."""
    by_row = increases_told(body, page, index)
    rule = _rule(page)
    if rule:
        done = work_rule(rule, index, len(page.sizes), body["neck"])
        yield from _differs("tables beside a rule", list(page.tables[_HEADING]), ["Increases in all"])
        yield from _all_even([[place - 1 for place in each.places] for each in done], body, by_row)
    else:
        yield from _schedule(body, page, index, by_row)
        yield from _table(body, page, index, by_row)
    yield from _totals(body, page, index, by_row)


def increases_told(body: Spec, page: Page, index: int) -> dict[int, int]:
    """The increases of each row of the size of that index, as the page tells them."""
    if rule := _rule(page):
        done = work_rule(rule, index, len(page.sizes), body["neck"])
        return {each.row: len(each.places) for each in done}
    return dict(_scheduled(page, index))


def _rule(page: Page) -> list[str]:
    return [line for line in page.sentences[_HEADING] if is_rule(line)]


def _differs(what: str, told: object, expected: object) -> Iterator[str]:
    if told != expected:
        yield f"{what}: told {told}, expected {expected}"


def _schedule_words(page: Page, index: int) -> str:
    rows = page.table("Increases", "Increase schedule")
    (schedule,) = [row["increases"] for row in rows if row["size"] == page.sizes[index]]
    return schedule


def _scheduled(page: Page, index: int) -> Iterator[tuple[int, int]]:
    for count, rows in read_schedule(_schedule_words(page, index)):
        yield from ((row, count) for row in rows)


def _schedule(body: Spec, page: Page, index: int, by_row: Mapping[int, int]) -> Iterator[str]:
    hem, schedule = hem_count(body), _schedule_words(page, index)
    each_once = sorted(row for row, _ in _scheduled(page, index))
    yield from _differs("rows of the schedule, each once", each_once, sorted(by_row))
    if by_row:
        ends = re.search(r"(\d+) increases, from (\d+) to (\d+) stitches$", schedule)
        told = [int(number) for number in ends.groups()] if ends else []
        yield from _differs("ends of the schedule", told, [hem - body["neck"], body["neck"], hem])
    if "lines" in body:
        lines = [str(body["lines"])] if body["lines"] > 1 else []
        yield from _differs("lines", re.findall(r"each of the (\d+) lines", schedule), lines)


def _totals(body: Spec, page: Page, index: int, by_row: Mapping[int, int]) -> Iterator[str]:
    hem = hem_count(body)
    yield from _differs("increases in words", sum(by_row.values()), hem - body["neck"])
    totals = {row["figure"]: row["stitches or rows"] for row in page.table("Increases", "Increases in all")}
    if "lines" in body:
        words = totals.pop("sections between the lines, before the first increase")
        told_sections = split_size_string(words, len(page.sizes))[index]
        yield from _differs("sections", told_sections, " + ".join(map(str, _sections(body))))
    told = [int(split_size_string(text, len(page.sizes))[index]) for text in totals.values()]
    yield from _differs("totals", told, [body["neck"], len(by_row), hem - body["neck"], hem])
    every, last = body.get("increase_every", 1), body.get("increase_until", body["rows"])
    if any(row < 2 or row > last or (row - 2) % every for row in by_row):
        yield f"increases on rows {sorted(by_row)} down to {last}, every {every}"


def _table(body: Spec, page: Page, index: int, by_row: Mapping[int, int]) -> Iterator[str]:
    table = page.tables[_HEADING].get(f"Size {page.sizes[index]}, increase rows", [])
    yield from _differs("rows of the table", [int(row["row"]) for row in table], sorted(by_row))
    stitches, worked = body["neck"], []
    for row in table:
        yield from _differs(f"row {row['row']}, stitches before", int(row["stitches before"]), stitches)
        yield from _differs(f"row {row['row']}, increases", int(row["increases"]), by_row[int(row["row"])])
        if row["work"].startswith("cannot be worked"):
            yield from _cannot(body, int(row["row"]), stitches, by_row)
        else:
            worked.append(_places(row["work"]))
            yield from _differs("stitches used", _used(row["work"]), stitches)
            yield from _differs("increases worked", len(worked[-1]), int(row["increases"]))
        stitches += int(row["increases"])
        yield from _differs(f"row {row['row']}, stitches after", int(row["stitches after"]), stitches)
    if len(worked) == len(table):
        yield from _all_even(worked, body, by_row)
    yield from _differs("stitches at the hem", stitches, hem_count(body))


def _sections(body: Spec) -> list[int]:
    """Each line at the stitch nearest to its even place, halves up, the same from either front edge."""
    neck, lines = body["neck"], body["lines"]
    half = [
        math.floor(Fraction(neck * (2 * n - 1), 2 * lines) + Fraction(1, 2)) for n in range(1, lines // 2 + 1)
    ]
    places = [0, *half, *([neck // 2] if lines % 2 else []), *(neck - each for each in reversed(half)), neck]
    return [after - before for before, after in itertools.pairwise(places)]


def _grown(sections: list[int], times: int) -> list[int]:
    last = len(sections) - 1
    return [each + times * ((at > 0) + (at < last)) for at, each in enumerate(sections)]


def _cannot(body: Spec, row: int, stitches: int, by_row: Mapping[int, int]) -> Iterator[str]:
    times = sorted(by_row).index(row)
    if "lines" in body:
        possible = min(_grown(_sections(body), times)[1:-1], default=2) >= 2
    else:
        possible = by_row[row] <= stitches
    if possible:
        yield f"{by_row[row]} increases in {stitches} stitches can be worked"


def _places(work: str) -> list[int]:
    """The stitches increased in, the first is 0."""
    places, at = [], 0
    for done in read_work(work):
        if done is None:
            places.append(at)
        at += 1 if done is None else done
    return places


def _used(work: str) -> int:
    return sum(1 if done is None else done for done in read_work(work))


def _all_even(rows: list[list[int]], body: Spec, by_row: Mapping[int, int]) -> Iterator[str]:
    """The increases of all rows fall where they should; each row takes a stitch for every one."""
    stitches = body["neck"]
    numbers, counts = sorted(by_row), set(by_row.values())
    regular = len(counts) == 1 and len({b - a for a, b in itertools.pairwise(numbers)}) == 1
    for times, places in enumerate(rows):
        if "lines" in body:
            lines = list(itertools.accumulate(_grown(_sections(body), times)))[:-1]
            beside = [at + side for at in lines for side in (-1, 0)]
            yield from _differs("increases beside the lines", places, beside)
        else:
            rule = regular and 2 <= len(places) <= body["neck"]
            few_over = stitches % len(places) <= 2 * (stitches // len(places))
            yield from _even(places, stitches, in_brackets=rule or few_over)
        stitches += len(places)


def _even(places: list[int], stitches: int, *, in_brackets: bool) -> Iterator[str]:
    """Alike from one to the next; all round to a stitch, but for what brackets leave over at the ends."""
    gaps = [after - before for before, after in itertools.pairwise(places)]
    if in_brackets:
        yield from _differs(f"brackets of {stitches}", set(gaps) - {stitches // len(places)}, set())
        return
    gaps.append(places[0] + stitches - places[-1])
    if max(gaps) - min(gaps) > 1:
        yield f"increases at {places} of {stitches} are not even"
