"""What a good spec becomes: centimetres, whole counts, defaults, and the same design in either unit."""

from __future__ import annotations

import datetime
import pickle
from dataclasses import asdict
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import BaseModel

from schematics.crochet.fabric import CountRule, Fabric, RowRule, Swatch
from schematics.design.design import Design, Size, Yarn
from schematics.design.limits import Limits
from schematics.design.publication import (
    House,
    Level,
    PhotoPlace,
    PhotoRoom,
    Publication,
    SeamSides,
    SeamStitch,
    SeamStyle,
)
from schematics.garment.constructions.base import HemArms
from schematics.garment.constructions.flared import FlaredBody
from schematics.reading.design_file import parse_draft, read_design
from schematics.units import Unit
from schematics.wearer.body import Body, WearerSpec
from tests.examples import examples
from tests.images import FONT, JPEG, SVG
from tests.reading.files import GOOD, HERE, edited, read, told, write

GOOD_DESIGN = read_design(HERE / "good.yaml")


def test_the_head_of_the_file() -> None:
    design = GOOD_DESIGN
    assert (design.slug, design.path, design.title) == ("good", HERE / "good.yaml", "Harbour poncho")
    assert (design.date, design.unit) == (datetime.date(2026, 9, 14), Unit.CM)
    assert (design.construction, design.hook_mm) == ("flared", 9.0)
    assert design.yarn == Yarn(name="Chunky wool blend", weight=5, ball_mass_g=100, ball_length_m=90)


def test_fabrics_reach_their_parts() -> None:
    parts = GOOD_DESIGN.parts
    assert parts.body == Fabric(
        name="body",
        stitch="half double crochet",
        swatch=Swatch(stitches=19, rows=14, width_cm=20, height_cm=20, mass_g=38),
        hook_mm=9.0,
        stretch_across=0.15,
        stretch_along=0.10,
        turning_chains=2,
    )
    assert parts.centre_panel == Fabric(
        name="cable",
        stitch="crossed trebles",
        swatch=Swatch(stitches=12, rows=11.5, width_cm=10, height_cm=15.24),
        hook_mm=9.0,
        stitch_rule=CountRule(multiple=4, plus=2),
        row_rule=RowRule(setup=2, repeat=8, closing=1),
        turning_chains=3,
    )
    assert parts.neck_band is parts.arm_bands
    assert parts.neck_band.swatch.height_cm == 10
    assert parts.neck_band.turning_chains == 1


def test_what_the_pattern_needs_besides_its_figures(tmp_path: Path) -> None:
    (tmp_path / "photos").mkdir()
    files = {"photos/front.JPG": JPEG, "text.ttf": FONT, "head.otf": FONT, "mark.svg": SVG}
    for name, content in files.items():
        (tmp_path / name).write_bytes(content)
    text = GOOD.replace(
        "hook: 9\n",
        """hook: US L/11
pattern:
  designer: Tern Hollow Patterns
  copyright: © 2026 Tern Hollow Patterns
  level: easy
  seam: {stitch: slip stitch, sides: right sides together}
  notions: [2 markers, yarn needle]
  care: [Dry flat.]
  notes: [Work loosely.]
  photos:
    - {at: cover, shows: The front., file: photos/front.JPG}
    - {at: seams, shows: A seam.}
  house: {accent: "#1F5F6B", font: text.ttf, lettering: head.otf, logo: mark.svg, units_first: in}
""",
    ).replace("weight: 5,", "weight: 5, fibre: wool, colour: sand,")
    head = parse_draft(tmp_path / "lake.yaml", text.encode()).head
    assert head.publication == Publication(
        designer="Tern Hollow Patterns",
        copyright="© 2026 Tern Hollow Patterns",
        level=Level.EASY,
        seam=SeamStyle(stitch=SeamStitch.SLIP, sides=SeamSides.RIGHT),
        notions=("2 markers", "yarn needle"),
        care=("Dry flat.",),
        notes=("Work loosely.",),
        photos=(
            PhotoRoom(at=PhotoPlace.COVER, shows="The front.", file="photos/front.JPG"),
            PhotoRoom(at=PhotoPlace.SEAMS, shows="A seam."),
        ),
        house=House(
            accent="#1f5f6b", font="text.ttf", lettering="head.otf", logo="mark.svg", units_first=Unit.IN
        ),
    )
    assert (head.yarn.fibre, head.yarn.colour, head.hook_mm) == ("wool", "sand", 8.0)
    assert (head.unit, head.unit_first) == (Unit.CM, Unit.IN)
    assert GOOD_DESIGN.publication == Publication()
    assert GOOD_DESIGN.unit_first is Unit.CM


def test_mattress_stitch_has_one_way_for_the_pieces_to_lie() -> None:
    text = GOOD.replace("hook: 9\n", "pattern: {seam: {stitch: mattress stitch}}\n")
    head = parse_draft(Path("lake.yaml"), text.encode()).head
    assert head.publication.seam == SeamStyle(stitch=SeamStitch.MATTRESS, sides=SeamSides.EDGES)


def test_guesses_are_read_where_they_stand() -> None:
    text = GOOD.replace("along: 10 %}", "along: 10 %, guessed: true}").replace(
        "turning_chains: 3", "turning_chains: {chains: 3, guessed: true}"
    )
    parts = parse_draft(Path("lake.yaml"), text.encode()).head.parts
    assert (parts.body.stretch_guessed, parts.body.swatch.guessed) == (True, False)
    assert (parts.centre_panel.turning_chains, parts.centre_panel.turning_chains_guessed) == (3, True)
    assert parts.hooks == {9.0: ("body", "centre panel", "neck band", "arm bands")}


def test_sizes_keep_their_order_names_and_lines() -> None:
    assert GOOD_DESIGN.sizes == (
        Size(
            name="4",
            wearer=WearerSpec(chart="child/4"),
            body=FlaredBody(neck=44, hem=168, rows=26),
            arms=HemArms(from_front=34, stitches=18),
            panel_stitches=14,
            panel_rows=43,
            neck_band_stitches=5,
            arm_band_stitches=6,
            line=40,
        ),
        Size(
            name="6",
            wearer=WearerSpec(
                chart="child/6",
                age_years=6.5,
                own={Body.HEAD_GIRTH: 52.5, Body.HEIGHT: 46.5 * 2.54},
            ),
            body=FlaredBody(neck=48, hem=180, rows=28, increase_every=2),
            arms=HemArms(from_front=36, stitches=18),
            panel_stitches=14,
            panel_rows=43,
            neck_band_stitches=5,
            arm_band_stitches=6,
            line=47,
        ),
    )


def test_limits_replace_the_usual_ones_and_leave_the_rest() -> None:
    assert GOOD_DESIGN.limits == Limits(neck_clearance_cm=3, arm_rest_high_fraction=0.4)


def test_a_limit_named_in_centimetres_is_in_centimetres_whatever_the_unit(tmp_path: Path) -> None:
    assert read(tmp_path, edited(("unit: cm", "unit: in"))).limits.neck_clearance_cm == 3
    inches = edited(("neck_clearance_cm: 3", "neck_clearance_cm: 1 1/2 in"))
    assert read(tmp_path, inches).limits.neck_clearance_cm == pytest.approx(3.81)


def test_what_may_be_left_out_may_be_left_empty_too(tmp_path: Path) -> None:
    bare = GOOD
    for line in (
        "date: 2026-09-14\n",
        "hook: 9\n",
        "  neck_clearance_cm: 3\n",
        "  arm_rest_high_fraction: 40 %\n",
    ):
        bare = bare.replace(line, "")
    bare = bare.replace(", weight: 5, ball_mass: 100, ball_length: 90", "").replace(", mass: 38", "")
    design = read(tmp_path, bare)
    assert (design.date, design.hook_mm, design.limits) == (None, None, Limits())
    assert design.yarn == Yarn(name="Chunky wool blend")
    assert design.parts.body.swatch.mass_g is None


@pytest.mark.parametrize(
    ("stitch", "chains"),
    [
        ("slip stitch", 1),
        ("single crochet", 1),
        ("single", 1),
        ("Half Double Crochet", 2),
        ("half  double", 2),
        ("double crochet", 3),
        ("treble", 4),
    ],
)
def test_turning_chains_by_stitch(stitch: str, chains: int, tmp_path: Path) -> None:
    """Common practice, no source."""
    design = read(tmp_path, edited(("half double crochet", stitch)))
    assert design.parts.body.turning_chains == chains
    own = edited(("half double crochet", f"{stitch}\n    turning_chains: 0"))
    assert read(tmp_path, own).parts.body.turning_chains == 0


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("hook: 9", "hook: 9 mm"),
        ("hook: 9", "hook: 9.0mm"),
        ("mass: 38", "mass: 38 g"),
        ("ball_length: 90", "ball_length: 90 m"),
        ("across: 0.15", "across: 15%"),
        ("along: 10 %", "along: 0.1"),
        ("width: 20,", "width: 200 mm,"),
        ("width: 20,", "width: '20',"),
        ("stitches: 19,", "stitches: 19.0,"),
        ("stitches: 19,", "stitches: 0x13,"),
        ("construction: flared", 'construction: "flared"'),
        ("  4:", "  '4':"),
        ('  "6":', "  6:"),
        ("wearer: child/4", "wearer: {chart: child/4}"),
        ("increase_every: 2", "increase_every: 0o2"),
    ],
)
def test_other_ways_to_write_the_same(old: str, new: str, tmp_path: Path) -> None:
    assert facts(read(tmp_path, edited((old, new)))) == facts(GOOD_DESIGN)


def test_an_alias_repeats_a_block(tmp_path: Path) -> None:
    text = edited(("stretch: {across: 0.15", "stretch: &give {across: 0.15"))
    text = text.replace("stretch: {across: 0.1, along: 0.45}", "stretch: *give")
    assert read(tmp_path, text).parts.neck_band.stretch_along == 0.10


@pytest.mark.parametrize(
    ("key", "name"),
    [("4", "4"), ("4.0", "4.0"), ("04", "04"), ("yes", "yes"), ("2026-09-14", "2026-09-14"),
     ("~", "~"), ("4 to 6", "4 to 6"), ("Größe 4", "Größe 4"), ("Μέγεθος 4", "Μέγεθος 4")],
)  # fmt: skip
def test_size_names_are_the_text_of_their_key(key: str, name: str, tmp_path: Path) -> None:
    assert read(tmp_path, edited(("  4:", f"  {key}:"))).sizes[0].name == name


@pytest.mark.parametrize("row", ["age/6.5", "woman/M", "baby/12 mo"])
def test_rows_of_every_table_are_known(row: str, tmp_path: Path) -> None:
    assert read(tmp_path, edited(("child/4", row))).sizes[0].wearer == WearerSpec(chart=row)


def test_a_wearer_without_a_row(tmp_path: Path) -> None:
    design = read(tmp_path, edited(("wearer: child/4", "wearer: {age: 0, wrist_girth: 5 1/2 in}")))
    assert design.sizes[0].wearer.age_years == 0
    assert design.sizes[0].wearer.own == {Body.WRIST_GIRTH: pytest.approx(13.97)}


def test_a_design_can_be_sent_to_another_process() -> None:
    assert pickle.loads(pickle.dumps(GOOD_DESIGN)) == GOOD_DESIGN


def facts(design: Design) -> dict[str, Any]:
    """Everything a design says but its file and lines, flat, so that lengths can be compared closely."""
    found: dict[str, Any] = {}

    def collect(path: str, value: Any) -> None:
        if isinstance(value, BaseModel):
            value = value.model_dump()
        if isinstance(value, dict):
            for key, each in value.items():
                collect(f"{path}.{key}", each)
        elif isinstance(value, tuple):
            for at, each in enumerate(value):
                collect(f"{path}[{at}]", each)
        else:
            found[path] = pytest.approx(value, rel=1e-12) if isinstance(value, float) else value

    collect("", asdict(design) | {"slug": "", "path": None, "unit": None})
    return {path: value for path, value in found.items() if not path.endswith(".line")}


LENGTHS = st.floats(min_value=30, max_value=100)


@pytest.mark.slow
@examples(100, part=10)
@given(st.tuples(LENGTHS, LENGTHS, LENGTHS, LENGTHS), st.booleans())
def test_inches_and_centimetres_give_the_same_design(
    tmp_path_factory: pytest.TempPathFactory, lengths_cm: tuple[float, ...], bare: bool
) -> None:
    """1 in = 2.54 cm; ``bare`` lengths take the file's unit, others carry their own."""
    folder = tmp_path_factory.mktemp("units", numbered=True)

    def spec(file_unit: str, unit: str, per_unit: float) -> Path:
        written = [f"{length / per_unit:.17g}{'' if bare else f' {unit}'}" for length in lengths_cm]
        text = edited(
            ("unit: cm", f"unit: {file_unit}"),
            ("width: 20, height: 20,", f"width: {written[0]}, height: {written[1]},"),
            ("width: 10, height: 100 mm", f"width: 100 mm, height: {written[2]}"),
            ("head_girth: 52.5", f"head_girth: {written[3]}"),
        )
        return write(folder, text, f"{file_unit}.yaml")

    in_cm, in_inches = read_design(spec("cm", "cm", 1.0)), read_design(spec("in", "in", 2.54))
    assert in_inches.unit is Unit.IN
    assert facts(in_cm) == facts(in_inches)
    assert in_cm.parts.body.swatch.width_cm == pytest.approx(lengths_cm[0], rel=1e-12)


@pytest.mark.slow
@examples(100)
@given(st.floats(0, 210) | st.floats(allow_nan=False))
def test_lengths_are_in_range_or_told(tmp_path_factory: pytest.TempPathFactory, length: float) -> None:
    folder = tmp_path_factory.mktemp("range", numbered=True)
    text = edited(("head_girth: 52.5", f"head_girth: {length!r}"))
    if 3 <= length <= 200:
        assert read(folder, text).sizes[1].wearer.own[Body.HEAD_GIRTH] == length
    else:
        (problem,) = told(folder, text)
        assert problem.startswith('51: sizes."6".wearer.head_girth: expected a length ')
