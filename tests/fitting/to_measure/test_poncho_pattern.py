"""The pattern made to measure says what its maker is to mind, and nothing where there is nothing."""

from __future__ import annotations

from dataclasses import replace

import pytest

from schematics.document.writers import written
from schematics.drawing.draped import hang_sheet
from schematics.fitting.gauge_text import read_gauge
from schematics.fitting.to_measure.made_to_measure import made_to_measure
from schematics.fitting.to_measure.order import Order
from schematics.fitting.to_measure.own_yarn import own_yarn
from schematics.fitting.to_measure.poncho_pattern import poncho_pattern
from schematics.fitting.to_measure.poncho_report import poncho_document
from schematics.garment.cloth.draping import Hung, Settled, settled
from schematics.garment.cloth.material import Feel
from schematics.garment.cloth.worn_heights import answers
from schematics.garment.garment import Garment
from schematics.units import Grain, Unit, printed
from schematics.wearer.body import Body, WearerSpec
from schematics.wearer.body_figure import FigureSize
from schematics.wearer.survey import height
from tests.fitting.children import IN_SIZE_6, demo


@pytest.mark.slow
@pytest.mark.parametrize(("wrist_cm", "is_minded"), [(9.0, True), (None, False)])
def test_what_is_to_be_minded_stands_before_the_sizes(wrist_cm: float | None, is_minded: bool) -> None:
    """A child whom size 6 fits, and one alike whose wrist is so slim that a band of 14.5 cm hangs loose."""
    wearer = IN_SIZE_6
    if wrist_cm:
        wearer = replace(wearer, own={**wearer.own, Body.WRIST_GIRTH: wrist_cm})
    poncho = made_to_measure(demo("tidepool"), Order(wearer=wearer, name="Mara", size="6", changes=("none",)))
    text = "".join(written([poncho_pattern(poncho, "md")], "md"))
    before, _, _ = text.partition("## Sizes")
    assert ("## What to mind for Mara" in before) is is_minded
    assert ("wider than the wrist (9 cm" in before) is is_minded


@pytest.mark.slow
@pytest.mark.parametrize("gauge", [None, "18 sts 13 rows over 20 cm"])
def test_at_her_own_gauge_hooks_and_yarn_are_not_the_patterns(gauge: str | None) -> None:
    """Tidepool's 9 mm hook gives its 19 stitches and 14 rows over 20 cm, which hers does not."""
    design = demo("tidepool")
    parts = read_gauge([gauge], design).parts if gauge else None
    poncho = made_to_measure(design, Order(wearer=IN_SIZE_6, size="6", parts=parts, name="Mara"))
    text = "".join(written([poncho_pattern(poncho, "md")], "md"))
    _, _, body = text.partition("## Body")
    assert ("with your own hook for the body" in body) is bool(gauge)
    assert ("with a 9 mm (US M/N-13) hook" in body) is not bool(gauge)
    own = "your own for the body and centre panel; the pattern has 9 mm (US M/N-13)"
    assert (own in text) is bool(gauge)
    assert ("This is the pattern’s yarn" in text) is bool(gauge)
    assert ("This is your own gauge" in text) is bool(gauge)


@pytest.mark.slow
@pytest.mark.parametrize(("ball_m", "than"), [("80 m", "thinner"), ("50 m", ""), ("38 m", "thicker")])
def test_yarn_of_another_thickness_has_not_the_patterns_weight(ball_m: str, than: str) -> None:
    """50 g of the pattern's bulky wool are 47.5 m long."""
    design = demo("tidepool")
    yarn = own_yarn(design.yarn, "meadow wool", "50 g", ball_m)
    poncho = made_to_measure(design, Order(wearer=IN_SIZE_6, size="6", yarn=yarn))
    text = "".join(written([poncho_pattern(poncho, "md")], "md"))
    assert ("weight 5 Bulky" in text) is not bool(than)
    page = "".join(written([poncho_document(poncho)], "md"))
    for each in (text, page):
        assert (f"Your yarn is {than} than the pattern’s." in each) is bool(than)


@pytest.mark.slow
def test_measurements_stand_as_she_took_them_and_others_are_marked() -> None:
    """19 1/8 in are 48.6 cm; a child of three is as tall as the table's, which nobody measured."""
    wearer = WearerSpec(age_years=3.0, own={Body.HEAD_GIRTH: 19.125 * 2.54})
    poncho = made_to_measure(demo("tidepool"), Order(wearer=wearer))
    text = "".join(written([poncho_pattern(poncho, "md")], "md"))
    assert "| round the head | 48.6 | 19 1/8 |" in text
    tall = f"{height(3.0, 'both').cm:.1f}".removesuffix(".0")
    assert f"| height (not measured: typical at this age) | {tall} | " in text
    assert "| round the chest (not measured: " in text


@pytest.mark.slow
def test_it_shows_how_it_hangs_on_this_wearer(monkeypatch: pytest.MonkeyPatch) -> None:
    """With the lengths of the garment at rest, below the nape, as its picture is drawn."""
    hung: list[Hung] = []

    def coarsely(garment: Garment, size: FigureSize, feel: Feel) -> Settled:
        at_rest = settled(garment, size, feel, points=60)
        hung.append(at_rest.hung)
        return at_rest

    hang_sheet.hung_once.cache_clear()
    monkeypatch.setattr(hang_sheet, "settled", coarsely)
    poncho = made_to_measure(demo("tidepool"), Order(wearer=IN_SIZE_6, name="Mara", size="6"))
    page, text = (
        "".join(written([poncho_pattern(poncho, form, worn=True)], form)) for form in ("html", "md")
    )
    (at_rest,) = hung
    front = at_rest.down.body.size.nape_height_cm - answers(at_rest.down).hem_front_cm
    assert "## How it hangs on Mara" in text
    assert f"Arms down, the hem hangs {printed(front, Unit.CM, Grain.USUAL)} below the nape in front" in text
    _, _, shown = page.partition("How it hangs on Mara</h2>")
    picture, words, sizes = map(shown.index, ("on a plain figure", "Arms down, the hem hangs", "Sizes</h2>"))
    assert picture < words < sizes
    assert "How it hangs" not in "".join(written([poncho_pattern(poncho, "md")], "md"))
