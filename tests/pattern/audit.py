"""Holding a page of figures, read back from its Markdown, against the garment worked out anew."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from fractions import Fraction

from tests.pattern.audit_increases import audit_increases
from tests.pattern.audit_yarn import PART_KEYS, audit_yarn
from tests.pattern.reading import Page, Row, read_join, split_size_string
from tests.pattern.recompute import Anew, Spec, anew, half_up, hem_count

_INCH = Fraction(254, 100)


def audit(spec: Spec, page: Page) -> Iterator[str]:
    """Every figure that is not what the spec's counts make it; nothing when all is well."""
    yield from _gauge(spec, page)
    for index, (name, size) in enumerate(spec["sizes"].items()):
        made = anew(spec, size)
        for fault in _size(spec, size, made, page, index):
            yield f"size {name}: {fault}"


def _gauge(spec: Spec, page: Page) -> Iterator[str]:
    for row in page.table("Materials", "Gauge, washed and measured"):
        swatch = spec["fabrics"][row["fabric"]]["swatch"]
        over = float(swatch["width"].split()[0])
        told = [float(row[column]) for column in ("sts to 10 cm", "rows to 10 cm")]
        expected = [10 * swatch[key] / over for key in ("stitches", "rows")]
        if not all(abs(pair[0] - pair[1]) < 0.00501 for pair in zip(told, expected, strict=True)):
            yield f"gauge of {row['fabric']}: told {told}, expected {expected}"
        measured = f"{swatch['stitches']} sts × {swatch['rows']} rows, {over:g} × {over:g} cm"
        yield from _differs(f"swatch of {row['fabric']}", row["measured over"], measured)


def _size(spec: Spec, size: Spec, made: Anew, page: Page, index: int) -> Iterator[str]:
    yield from _measurements(made, page, index)
    yield from _pieces(made, page, index)
    if spec["construction"] == "folded":
        yield from _folded_steps(size["body"], page, index)
    else:
        yield from audit_increases(size["body"], page, index)
    yield from _repeats(spec, made, page, index)
    yield from _joins(made, page, index)
    yield from _bands(size, made, page, index)
    yield from audit_yarn(spec, size, made, page, index)


NARROW = {
    "panel width", "neck band depth", "arm band depth", "slot for the panel",
    "front neck depth", "back neck depth", "arm run on the hem", "arm opening", "arm band length",
}  # fmt: skip
"""Printed to 0.25 cm and 1/8 in, where the others are to 0.5 cm and 1/4 in."""


def steps(name: str) -> tuple[Fraction, Fraction]:
    """What the measurement of that name is printed in steps of, in cm and in inches."""
    return (Fraction(1, 4), Fraction(1, 8)) if name in NARROW else (Fraction(1, 2), Fraction(1, 4))


def _differs(what: str, told: object, expected: object) -> Iterator[str]:
    if told != expected:
        yield f"{what}: told {told}, expected {expected}"


def _inches(text: str) -> Fraction:
    return sum((Fraction(part) for part in text.split()), Fraction(0))


def _measurements(made: Anew, page: Page, index: int) -> Iterator[str]:
    caption = "Finished measurements, laid flat"
    told = {row["measurement"] for row in page.table("Finished", caption)}
    assert len(told & made.lengths.keys()) >= 10
    for name in told & made.lengths.keys():
        exact = made.lengths[name]
        cm = page.size_strings("Finished", caption, name, "cm")[index]
        inches = page.size_strings("Finished", caption, name, "inches")[index]
        step_cm, step_in = steps(name)
        yield from _differs(f"{name}, cm", Fraction(cm), half_up(exact, step_cm))
        in_inches = half_up(exact / float(_INCH), step_in)
        yield from _differs(f"{name}, in", _inches(inches), in_inches)
        if name in made.counts:
            count = page.size_strings("Finished", caption, name, "count")[index]
            yield from _differs(f"{name}, count", int(count), made.counts[name])


def _pieces(made: Anew, page: Page, index: int) -> Iterator[str]:
    for name in made.chains:
        chain = page.size_strings("Foundation", "Every piece", name, "foundation chain")[index]
        rows = page.size_strings("Foundation", "Every piece", name, "rows")[index]
        yield from _differs(f"{name}, chain", int(chain), made.chains[name])
        yield from _differs(f"{name}, rows", int(rows), made.rows[name])
        stitches = page.size_strings("Foundation", "Every piece", name, "stitches in the first row")[index]
        yield from _differs(f"{name}, stitches", int(stitches), made.stitches[name])
        (turn,) = [
            row["turning chain"] for row in page.table("Foundation", "Every piece") if row["piece"] == name
        ]
        yield from _differs(f"{name}, turning chain", int(turn), made.chains[name] - made.stitches[name])
        (make,) = [row["make"] for row in page.table("Foundation", "Every piece") if row["piece"] == name]
        yield from _differs(f"{name}, make", make, "2" if name == "arm band" else "1")


def _folded_steps(body: Spec, page: Page, index: int) -> Iterator[str]:
    caption = "From the back hem to the front hem"
    steps = ("back, to the neck hole", "each shoulder, past the neck hole", "each front, to the hem")
    rows = [int(page.size_strings("Steps", caption, step, "rows")[index]) for step in steps]
    wide = [int(page.size_strings("Steps", caption, step, "stitches")[index]) for step in steps]
    in_all = int(page.size_strings("Steps", caption, "in all", "rows")[index])
    yield from _differs("rows of the steps", sum(rows), in_all)
    yield from _differs("rows in all", in_all, body["front_rows"] + body["back_rows"])
    cells = rows[0] * wide[0] + 2 * rows[1] * wide[1] + 2 * rows[2] * wide[2]
    hole = body["neck"] * (body["neck_front_rows"] + body["neck_back_rows"])
    slot = body["slot"] * (body["front_rows"] - body["neck_front_rows"])
    yield from _differs("stitches worked", cells, body["width"] * in_all - hole - slot)
    before = [row["before the step"] for row in page.table("Steps", caption)]
    left = split_size_string(
        before[1].removeprefix("leave the middle ").removesuffix(" sts"), len(page.sizes)
    )
    yield from _differs("left for the neck hole", int(left[index]), wide[0] - 2 * wide[1])
    if before[2] == "go on along the slot":
        yield from _differs("fronts", wide[2], wide[1])
    else:
        words = before[2].removeprefix("chain ").removesuffix(" at each neck edge, and the turning chain")
        added = split_size_string(words, len(page.sizes))
        yield from _differs("added at the fronts", int(added[index]), wide[2] - wide[1])
    marked = page.sentences["Steps of the body"][1]
    (fold,) = re.findall(r"at each end of row (.+), the last row of the back", marked)
    row = int(split_size_string(fold, len(page.sizes))[index])
    yield from _differs("row before the fold", row, body["back_rows"])


def _repeats(spec: Spec, made: Anew, page: Page, index: int) -> Iterator[str]:
    for piece, key in PART_KEYS.items():
        fabric = spec["fabrics"][spec["parts"][key]]
        if "multiple" not in fabric:
            continue
        of, plus = fabric["multiple"]["of"], fabric["multiple"]["plus"]
        words = f"a multiple of {of}{f' plus {plus}' if plus else ''} sts"
        yield from _repeat(page, index, f"{piece}, across", (of, plus, made.stitches[piece]), words)
        each, setup, closing = (fabric["row_repeat"][name] for name in ("rows", "setup", "closing"))
        ends = f", {setup} set-up and {closing} closing" if setup or closing else ""
        words = f"repeats of {each} row{'' if each == 1 else 's'}{ends}"
        yield from _repeat(page, index, f"{piece}, up", (each, setup + closing, made.rows[piece]), words)


def _repeat(page: Page, index: int, name: str, rule: tuple[int, int, int], words: str) -> Iterator[str]:
    each, besides, count = rule
    if each == 1 and besides == 0:
        return
    (row,) = [row for row in page.table("Pattern", "Whole repeats") if row["pattern"] == name]
    told = split_size_string(row["repeats"], len(page.sizes))[index]
    yield from _differs(f"{name}, rule", row["it takes"], words)
    fits = (count - besides) % each == 0 and count >= max(besides, 1)
    expected = str((count - besides) // each) if fits else f"{count} {_unit(name)} do not fit"
    yield from _differs(name, told, expected)


def _unit(name: str) -> str:
    return "sts" if name.endswith("across") else "rows"


def _joins(made: Anew, page: Page, index: int) -> Iterator[str]:
    tables = page.tables["Joining the pieces"]
    told: dict[str, Row] = {}
    for caption, rows in tables.items():
        letters = caption.partition(":")[0].split()[1:]
        for row in rows:
            if row["size"] == page.sizes[index]:
                told |= {letter: row for letter in letters if letter != "and"}
    yield from _differs("seams", {letter.strip(",") for letter in told}, set(made.joins))
    for letter, (first, second) in made.joins.items():
        row = told[letter]
        counts = [int(text) for text in list(row.values())[1:3]]
        yield from _differs(f"seam {letter}", counts, [first, second])
        yield from _schedule(f"seam {letter}", row["schedule"], first, second)
        yield from _ratio(letter, row["ratio"], max(first, second), min(first, second))


def _schedule(what: str, words: str, first: int, second: int) -> Iterator[str]:
    """A schedule in words adds up to both totals, evenly, and its sums are those of its sequence."""
    many, few, shares = read_join(words)
    yield from _differs(f"{what}, totals", (many, few), (max(first, second), min(first, second)))
    yield from _differs(f"{what}, shares", (sum(shares), len(shares)), (many, few))
    if max(shares) - min(shares) > 1:
        yield f"{what}: {shares} is not even"
    takes = [(int(count), int(each)) for count, each in re.findall(r"(\d+) takes? (\d+)", words)]
    if any(shares.count(each) != count for count, each in takes):
        yield f"{what}: {takes} are not the shares {shares}"


def _ratio(letter: str, words: str, many: int, few: int) -> Iterator[str]:
    """The simplest ratio within 5 %: for the shorter edge the smallest number that serves."""
    told = [int(number) for number in re.findall(r"(\d+) ", words)]
    exact = Fraction(many, few)
    for smaller in range(1, few + 1):
        larger = [n for n in (math.floor(exact * smaller), math.ceil(exact * smaller)) if n]
        near = min(larger, key=lambda n: abs(Fraction(n, smaller) - exact))
        if abs(Fraction(near, smaller) / exact - 1) <= Fraction(1, 20):
            yield from _differs(f"seam {letter}, ratio", sorted(told), sorted((near, smaller)))
            return


def _bands(size: Spec, made: Anew, page: Page, index: int) -> Iterator[str]:
    (caption,) = page.tables["Markers for the arm bands"]
    column = caption.removeprefix("Marked ").partition(" of")[0]
    names = [f"wearer's {side}, {end} marker" for side in ("right", "left") for end in ("first", "last")]
    told = tuple(int(page.size_strings("Markers", caption, name, column)[index]) for name in names)
    yield from _differs("markers", told, made.markers)
    run = page.size_strings("Markers", caption, f"{column} in each run, both markers counted in", column)
    yield from _differs("run", int(run[index]), made.markers[1] - made.markers[0] + 1)
    edge = int(page.size_strings("Markers", caption, f"{column} of the whole edge", column)[index])
    body = size["body"]
    whole = body["front_rows"] + body["back_rows"] if "front_rows" in body else hem_count(body)
    yield from _differs("whole edge", edge, whole)
    yield from _ribbing(size, made, page, index)


def _ribbing(size: Spec, made: Anew, page: Page, index: int) -> Iterator[str]:
    across = size["panel"]["stitches"]
    expected = {
        "neck band: edge stitches of the body": made.neck_edge - across,
        "neck band: edge stitches of the panel's top": across,
        "neck band: stitches in a ribbing row": size["neck_band"]["stitches"],
        "neck band: stitch to join yarn in": made.join_stitch,
        "arm bands, each: stitches in a ribbing row": size["arm_bands"]["stitches"],
    }
    for name, count in expected.items():
        text = page.size_strings("Ribbing", "Neck band and arm bands", name, "stitches or rows")[index]
        yield from _differs(name, Fraction(text), count)
    for band, edge in (("neck band", made.neck_edge), ("arm bands, each", made.arm_edge)):
        for what in ("edge stitches", "ribbing rows"):
            texts = page.size_strings(
                "Ribbing", "Neck band and arm bands", f"{band}: {what}", "stitches or rows"
            )
            yield from _differs(f"{band}, {what}", int(texts[index]), edge)
    yield from _picked_up(made, page, index)


def _picked_up(made: Anew, page: Page, index: int) -> Iterator[str]:
    prefix = "Picked up along "
    told = {
        caption.removeprefix(prefix): row
        for caption, rows in page.tables["Ribbing"].items()
        if caption.startswith(prefix)
        for row in rows
        if row["size"] == page.sizes[index]
    }
    yield from _differs("picked up along", set(told), set(made.picked_up))
    for where, counts in made.picked_up.items():
        row = told[where]
        yield from _differs(where, (int(row["row ends"]), int(row["stitches"])), counts)
        yield from _schedule(where, row["schedule"], *counts)
