from collections.abc import Callable
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from schematics.checks.finding import Severity
from schematics.checks.seams import nearest_count
from schematics.crochet.fabric import Counted, RowRule, Swatch
from schematics.crochet.traced_fabric import length_fact, traced
from schematics.design.limits import Limits
from schematics.garment.garment import Edge
from schematics.wearer.expr import Fact, expr_json
from schematics.wearer.traced import Traced, tree_of
from tests.checks.cases import PARTS, charted, fabric, finding, findings, make_case
from tests.examples import examples
from tests.fitting.reader import Reader
from tests.garment.constructions.counted import Counted as Counts
from tests.garment.constructions.counted import counted, tapered

GOOD, MIND, STOP = Severity.GOOD, Severity.MIND, Severity.STOP


@pytest.mark.parametrize(
    ("body_rows", "panel_rows", "severity"),
    [
        (100, 100, GOOD),
        (100, 99, GOOD),  # exactly 1 %
        (1000, 989, MIND),  # 1.1 %
        (100, 97, MIND),  # exactly 3 %
        (97, 100, MIND),
        (1000, 969, STOP),  # 3.1 % and 31 cm
        (969, 1000, STOP),
        (20, 19, MIND),  # 5 % but exactly 1 cm
        (20, 18, STOP),  # 10 % and 2 cm
    ],
)
def test_length_limits_are_shares_of_the_longer_edge(
    body_rows: int, panel_rows: int, severity: Severity
) -> None:
    found = finding(make_case(rows=body_rows, panel_rows=panel_rows), "SEAM-LENGTH")
    assert found.severity is severity
    assert found.figures["apart_fraction"] == pytest.approx(
        abs(body_rows - panel_rows) / max(body_rows, panel_rows)
    )


def test_a_spec_may_change_the_limits() -> None:
    case = make_case(rows=100, panel_rows=99, limits=Limits(seam_mind_fraction=0.009))
    assert finding(case, "SEAM-LENGTH").severity is MIND
    case = make_case(rows=20, panel_rows=19, limits=Limits(seam_stop_cm=0.9, seam_stop_row_fraction=0.9))
    assert finding(case, "SEAM-LENGTH").severity is STOP
    case = make_case(rows=20, panel_rows=19, limits=Limits(seam_mind_row_fraction=1))
    assert finding(case, "SEAM-LENGTH").severity is GOOD


COARSE = fabric(swatch=Swatch(stitches=5, rows=5, width_cm=10, height_cm=10))


@pytest.mark.parametrize(
    ("rows", "panel_rows", "severity", "allowed"),
    [
        (15, 31, GOOD, 1.0),  # 1 cm is half a row of 2 cm, though 3.2 %
        (15, 32, MIND, 1.0),  # 2 cm, 6 %, but no more than one row
        (15, 33, STOP, 1.0),
        (15, 29, GOOD, 1.0),
        (15, 27, STOP, 1.0),
        (100, 199, GOOD, 2.0),  # a hundredth of 200 cm is more than half a row
        (100, 197, MIND, 2.0),
    ],
)
def test_edges_agree_within_half_a_row_of_the_coarser(
    rows: int, panel_rows: int, severity: Severity, allowed: float
) -> None:
    """Body rows of 2 cm against panel rows of 1 cm; the coarser decides whichever edge has it."""
    found = finding(
        make_case(rows=rows, panel_rows=panel_rows, parts=replace(PARTS, body=COARSE)), "SEAM-LENGTH"
    )
    turned = finding(
        make_case(rows=panel_rows, panel_rows=rows, parts=replace(PARTS, centre_panel=COARSE)), "SEAM-LENGTH"
    )
    for each in (found, turned):
        assert each.severity is severity
        assert each.figures["allowed_cm"] == pytest.approx(allowed)


def test_edges_of_stitches_agree_within_half_a_stitch() -> None:
    """Stitches of 2 cm, rows of 1 cm: 16 and 17 stitches are 2 cm apart, 16 stitches and 31 rows 1 cm."""
    wide = fabric(swatch=Swatch(stitches=5, rows=10, width_cm=10, height_cm=10))
    garment = make_case(parts=replace(PARTS, body=wide)).garment
    front = garment.piece("body").edge("front")

    def severity(first: Edge, second: Edge) -> Severity:
        seam = replace(garment.seams[0], first=first, second=second)
        return finding(make_case(garment={"seams": (seam,)}), "SEAM-LENGTH").severity

    sixteen = replace(front, length_cm=32.0, count=16, counted=Counted.STITCHES)
    seventeen = replace(sixteen, length_cm=34.0, count=17)
    rows = replace(front, length_cm=31.0, count=31)
    assert (severity(sixteen, rows), severity(rows, sixteen)) == (GOOD, GOOD)
    assert severity(sixteen, seventeen) is MIND
    assert severity(rows, replace(rows, length_cm=30.0, count=30)) is MIND


def test_length_sentences() -> None:
    assert finding(make_case(), "SEAM-LENGTH").sentence == (
        "Along the seam the body and the centre panel are equally long, 30 cm: the edges meet."
    )
    assert finding(make_case(panel_rows=31), "SEAM-LENGTH").sentence == (
        "Along the seam the body is 1 cm (3.2 %) shorter than the centre panel, 31 cm: "
        "ease the longer edge in; 30 centre panel rows would be 30 cm."
    )
    assert finding(make_case(panel_rows=33), "SEAM-LENGTH").sentence == (
        "Along the seam the body is 3 cm (9 %) shorter than the centre panel, 33 cm: "
        "the edges do not meet; 30 centre panel rows would be 30 cm."
    )
    coarse = make_case(rows=15, panel_rows=31, parts=replace(PARTS, body=COARSE))
    assert finding(coarse, "SEAM-LENGTH").sentence == (
        "Along the seam the body is 1 cm (3.2 %) shorter than the centre panel, 31 cm: "
        "the edges meet, as near as rows come."
    )


def test_the_cure_keeps_to_the_row_repeat() -> None:
    # 30 rows of body; the panel may have 8 k + 4 rows: 28 is nearer than 36.
    panel = fabric(row_rule=RowRule(setup=4, repeat=8))
    found = finding(make_case(panel_rows=36, parts=replace(PARTS, centre_panel=panel)), "SEAM-LENGTH")
    assert found.sentence.endswith("; 28 centre panel rows would be 28 cm.")


def test_the_cure_turns_to_the_body_where_the_panel_is_as_near_as_it_gets() -> None:
    panel = fabric(row_rule=RowRule(setup=4, repeat=8))
    found = finding(make_case(panel_rows=28, parts=replace(PARTS, centre_panel=panel)), "SEAM-LENGTH")
    assert found.sentence.endswith("; 28 body rows would be 28 cm.")


def test_there_is_no_cure_where_both_edges_are_as_near_as_they_get() -> None:
    panel, body = fabric(row_rule=RowRule(setup=4, repeat=8)), fabric(row_rule=RowRule(repeat=10))
    parts = replace(PARTS, centre_panel=panel, body=body)
    found = finding(make_case(panel_rows=28, parts=parts), "SEAM-LENGTH")
    assert found.sentence.endswith("than the body, 30 cm: the edges do not meet.")


def test_seams_with_the_same_figures_are_told_once() -> None:
    assert finding(make_case(), "SEAM-LENGTH").place == "seams A and B"
    assert finding(make_case(), "SEAM-JOIN").place == "seams A and B"


def test_a_seam_with_other_figures_is_told_apart() -> None:
    garment = make_case().garment
    longer = replace(garment.seams[1].second, length_cm=33.0, count=33)
    seams = garment.seams[0], replace(garment.seams[1], second=longer)
    found = findings(make_case(garment={"seams": seams}), "SEAM-LENGTH")
    assert [(each.place, each.severity) for each in found] == [("seam A", GOOD), ("seam B", STOP)]


def test_a_piece_joined_to_itself_is_told_by_its_edges() -> None:
    garment = make_case().garment
    body = garment.piece("body")
    front, back = (replace(body.edge("front"), name=name) for name in ("front side", "back side"))
    seam = replace(garment.seams[0], letter="C", first=front, second=back, second_piece="body", places=2)
    case = make_case(garment={"seams": (seam,)})
    assert finding(case, "SEAM-LENGTH").place == "seam C, 2 places"
    assert finding(case, "SEAM-JOIN").sentence == (
        "Join 1 back side row to 1 front side row; exactly, 30 back side rows to "
        "30 front side rows: one to one."
    )


def test_join_gives_the_ratio_and_a_schedule_that_adds_up() -> None:
    # 40 panel rows over 26 cm meet 26 body rows over 26 cm: 1.54, and 3 : 2 is 2.5 % off.
    panel = fabric(swatch=Swatch(stitches=10, rows=20, width_cm=10, height_cm=13))
    case = make_case(rows=26, panel_rows=40, parts=replace(PARTS, centre_panel=panel))
    assert finding(case, "SEAM-LENGTH").severity is GOOD
    found = finding(case, "SEAM-JOIN")
    assert found.sentence == (
        "Join 3 centre panel rows to 2 body rows; exactly, 40 centre panel rows to 26 body rows: "
        "14 take 2 and 12 take 1, in turn [2, 1] × 6, 2, 2, 1, [2, 1] × 5, 2."
    )
    assert 14 + 12 == 26
    assert 14 * 2 + 12 == 40
    assert (found.figures["ratio_first_count"], found.figures["ratio_second_count"]) == (2, 3)


def test_the_rows_that_would_meet_are_reckoned_along_a_slope() -> None:
    """Repeats of 4 rows take off 3 stitches on either side: 5 cm of slope. 30 body rows are 6 repeats."""
    panel = charted(
        "sc3tog, sc across, sc3tog", "sc2tog, sc across, sc2tog", "sc across", "sc across", adds=(0, -6, 0)
    )
    parts = replace(PARTS, centre_panel=panel)
    meets = finding(make_case(panel_stitches=60, panel_rows=24, parts=parts), "SEAM-LENGTH")
    assert meets.severity is Severity.GOOD
    assert meets.figures["second_cm"] == pytest.approx(30)
    longer = finding(make_case(panel_stitches=60, panel_rows=28, parts=parts), "SEAM-LENGTH")
    assert longer.sentence.endswith("; 24 centre panel rows would be 30 cm.")


@pytest.mark.slow
@pytest.mark.parametrize("sizes", [counted, tapered], ids=["level panel", "tapering panel"])
def test_the_count_that_ends_level_is_the_same_at_a_gauge_that_is_not_known(
    sizes: Callable[[str], st.SearchStrategy[Counts]],
) -> None:
    """The page works out the tree; of a tapering panel whole repeats are meant, whose side is a slope."""

    @given(sizes("flared"), st.floats(5, 200))
    @examples(60, part=10)
    def agree(size: Counts, length_cm: float) -> None:
        edge = size.make().seams[0].second
        count, ends_cm = nearest_count(edge, edge.fabric, length_cm)
        assert edge.fabric.row_rule.rule.allows(count)
        tree = nearest_count(edge, traced(edge.fabric, 0), Traced(Fact("length")))
        facts = {length_fact(0, each).name: edge.fabric.length_cm(1, each) for each in Counted}
        reader = Reader({}, {}, {"length": length_cm, **facts})
        found = [reader.number(expr_json(tree_of(each))) for each in tree]
        assert found == [count, pytest.approx(ends_cm)]

    agree()
