"""All that other counts do to a size: every length that changes, every check that changes its severity."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Protocol

from schematics.checks.check_names import check_name
from schematics.checks.evaluation import worst
from schematics.checks.finding import Finding, Severity
from schematics.checks.rules.garment_numbers import facts
from schematics.checks.tape import Tape
from schematics.checks.wording import listed
from schematics.garment.arm_freedom import ArmFreedom
from schematics.garment.garment import Garment
from schematics.units import HAIR

SEEN_CM = 0.05
"""A length that changes by less is not reported: no tape shows it."""

LENGTHS: Mapping[str, str] = {
    "drop_cm": "hang",
    "neck.full_cm": "neck opening at full stretch",
    "arm.full_cm": "arm bands at full stretch",
    "reach_cm": "reach to the band's edge",
    "spread_cm": "spread from band to band",
    "girth.1.girth_cm": "girth at the hem",
}
"""The lengths that say most of a garment, by the fact."""


_SAID_BY: Mapping[str, str] = {"drop_cm": "body.depth", "girth.1.girth_cm": "body.hem"}
"""The finished measurements, by their keys, that change as these do where both are of one place."""


class GarmentOnArms(Protocol):
    """A size that is worked out."""

    @property
    def garment(self) -> Garment:
        """The garment."""

    @property
    def freedom(self) -> ArmFreedom | None:
        """Its reach and spread."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Effect:
    """What the changes do to one length, in cm."""

    key: str
    name: str
    change_cm: float

    def words(self, tape: Tape) -> str:
        """Such as ``hang +7 cm``."""
        return f"{self.name} {'+' if self.change_cm > 0 else ''}{tape.length(self.change_cm)}"


@dataclass(frozen=True, slots=True, kw_only=True)
class SeverityChange:
    """A check that changes its severity at one place; one that says nothing there counts as good."""

    code: str
    place: str
    before: Severity
    after: Severity

    @property
    def words(self) -> str:
        """Such as ``hem above the knee from stop to good``."""
        return f"{check_name(self.code)} from {self.before.value} to {self.after.value}"


def changed_checks(changes: Sequence[SeverityChange]) -> str:
    """The changes as a sentence; empty where there are none."""
    words = dict.fromkeys(each.words for each in changes)
    return f"These checks change: {listed(words)}." if words else ""


def effects(before: GarmentOnArms, after: GarmentOnArms) -> tuple[Effect, ...]:
    """All that other counts do to a garment, as far as it can be seen on a tape.

    What says most of it comes first, then every finished measurement that has another length, but for those
    that only say it again.
    """
    old, new = (facts(each.garment, each.freedom) for each in (before, after))
    first = [Effect(key=key, name=name, change_cm=new[key] - old[key]) for key, name in LENGTHS.items()]
    told = {_SAID_BY.get(each.key): each.change_cm for each in first}
    lengths = {each.key: each.length_cm for each in before.garment.finished}
    finished = (
        Effect(key=each.key, name=each.name, change_cm=each.length_cm - lengths[each.key])
        for each in after.garment.finished
        if each.key in lengths
    )
    others = (each for each in finished if abs(each.change_cm - told.get(each.key, math.inf)) > HAIR)
    return tuple(each for each in (*first, *others) if abs(each.change_cm) >= SEEN_CM)


def together(before: GarmentOnArms, after: GarmentOnArms, tape: Tape) -> str:
    """All of that as a sentence."""
    lengths = [each.words(tape) for each in effects(before, after)]
    return f"Together: {', '.join(lengths)}." if lengths else "No length changes by as much as a tape shows."


def severity_changes(before: Iterable[Finding], after: Iterable[Finding]) -> tuple[SeverityChange, ...]:
    """Every check whose severity differs, in the order of the checks."""
    old, new = _severities(before), _severities(after)
    places = {key: (old.get(key, Severity.GOOD), new.get(key, Severity.GOOD)) for key in {**new, **old}}
    return tuple(
        SeverityChange(code=code, place=place, before=first, after=second)
        for (code, place), (first, second) in places.items()
        if first is not second
    )


def _severities(findings: Iterable[Finding]) -> dict[tuple[str, str], Severity]:
    """The worst of each check at each place."""
    by_check: dict[tuple[str, str], Severity] = {}
    for each in findings:
        key = each.code, each.place
        by_check[key] = worst((each.severity, by_check.get(key, Severity.GOOD)))
    return by_check
