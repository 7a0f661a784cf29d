"""The straight lines grading works with, held against garments made at random."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings

from schematics.checks.tape import Tape
from schematics.constructions import CONSTRUCTIONS
from schematics.grading.draft import DraftSize
from schematics.grading.rules import SizeCase, size_rules
from schematics.limits import Limits
from schematics.units import Unit
from schematics.wearer.body import Body, WearerSpec
from schematics.wearer.resolve import resolve
from tests.constructions.counted import Counted, counted

WORDS = tuple(CONSTRUCTIONS)
CHORDS = 1e-4
"""Share of a length by which arcs drawn as chords may come out otherwise."""
TURNS = math.cos(math.pi / 2 / 24)
"""A distance along the nearest of 13 lines that part a right angle into 12: at worst half a part off."""
CHILD = WearerSpec(chart="child/6")
FAR_CM = 1e5


def with_picked_up(size: Counted) -> dict[str, int]:
    return {**size.counts, **{each.name: each.count(size.counts) for each in size.facts.picked_up}}


@pytest.mark.parametrize("word", WORDS)
def test_lengths_and_rings_are_those_of_the_garment(word: str) -> None:
    @given(counted(word))
    @settings(max_examples=60, deadline=None)
    def agree(size: Counted) -> None:
        made, facts, counts = size.make(), size.facts, with_picked_up(size)
        finished = {each.key: each.length_cm for each in made.finished}
        assert facts.lengths.keys() <= finished.keys()
        assert {key: each.at(counts) for key, each in facts.lengths.items()} == {
            key: pytest.approx(finished[key]) for key in facts.lengths
        }
        for ring, told in ((made.neck, facts.neck), (made.arm.ring, facts.arm)):
            assert told.edge_count.at(counts) == ring.edge_count
            for name in ("edge_cm", "edge_full_cm", "band_cm", "band_full_cm"):
                assert getattr(told, name).at(counts) == pytest.approx(getattr(ring, name)), name

    agree()


@pytest.mark.parametrize("word", WORDS)
def test_drops_are_those_of_the_garment(word: str) -> None:
    """The rule on the knee misses by what the longest drop, taken along straight lines, is too long."""
    child = resolve(CHILD, "4")
    nape, knee = child.values[Body.NAPE_HEIGHT], child.values[Body.KNEE_HEIGHT]
    ends = (nape.cm - knee.cm, nape.low_cm - knee.low_cm, nape.high_cm - knee.high_cm)
    limits = Limits(knee_clearance_cm=FAR_CM)

    @given(counted(word))
    @settings(max_examples=60, deadline=None)
    def agree(size: Counted) -> None:
        made, facts = size.make(), size.facts
        farthest = max(
            math.hypot(across.at(size.counts), down.at(size.counts)) for across, down in facts.corners_cm
        )
        assert farthest == pytest.approx(made.longest_drop_cm, rel=CHORDS)
        if facts.drop_cm is not None:
            assert facts.drop_cm.at(size.counts) == pytest.approx(made.drop_cm, rel=CHORDS)
        case = SizeCase(
            index=0,
            size=DraftSize(name="4", wearer=CHILD, given={}, settings={}, line=1),
            facts=facts,
            wearer=child,
            parts=size.parts,
            limits=limits,
            tape=Tape(Unit.CM),
        )
        (knees,) = (rule for rule in size_rules(case) if rule.code == "HANG-KNEE")
        worn = knees.miss({f"0/{name}": value for name, value in size.counts.items()}) + min(ends) - FAR_CM
        straight = worn / (1 + limits.hem_sag_fraction)
        assert made.longest_drop_cm * (TURNS - CHORDS) <= straight <= made.longest_drop_cm * (1 + CHORDS)

    agree()
