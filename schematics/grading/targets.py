"""From what the designer says to a length for each measurement of each size."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from schematics.errors import SchematicsError
from schematics.grading.case import SizeCase
from schematics.grading.draft import Draft, Intent, Wishes
from schematics.units import Grain, format_cm
from schematics.wearer.body import Body, Wearer


class GradingError(SchematicsError):
    """What the spec says is not enough to grade by; a line for each thing, with file and line."""


def targets(draft: Draft, cases: Sequence[SizeCase]) -> list[dict[str, float]]:
    """The intended lengths in cm of each size, by the keys of the finished measurements.

    Raises:
        GradingError: a body measurement or a count of the sample is not known, or a count that is
            left out has nothing to go by.
    """
    wishes = draft.wishes
    if wishes is None:
        return [{} for _ in cases]
    targets_cm: list[dict[str, float]] = [{} for _ in cases]
    problems = list(_aimless(draft, cases, wishes))
    for key, intent in wishes.intents.items():
        sample = None
        if intent.like_sample and intent.measure is not None:
            try:
                sample = _sample(cases, wishes, key, intent.measure)
            except _LackingError as lacking:
                problems.append(_problem(draft, intent.line, key, str(lacking)))
                continue
        for case, lengths in zip(cases, targets_cm, strict=True):
            try:
                lengths[key] = _length_cm(intent, case.wearer, sample)
            except _LackingError as lacking:
                problems.append(_problem(draft, intent.line, key, f"size {case.size.name!r}: {lacking}"))
    if problems:
        raise GradingError(*problems)
    return targets_cm


class _LackingError(Exception):
    """Something an intent needs is not known."""


def _problem(draft: Draft, line: int, key: str, sentence: str) -> str:
    return f'{draft.head.path}:{line}: grading.intent."{key}": {sentence}'


def _length_cm(intent: Intent, wearer: Wearer, sample: tuple[float, float] | None) -> float:
    """``sample`` is the sample's length and its wearer's measurement."""
    if intent.measure is None:
        return intent.length_cm or 0.0
    body_cm = _body_cm(wearer, intent.measure)
    if sample is not None:
        return sample[0] * body_cm / sample[1]
    length_cm = intent.part * body_cm + intent.ease_cm
    if length_cm <= 0:
        raise _LackingError(f"comes to {format_cm(length_cm, Grain.USUAL)}; expected more than nothing")
    return length_cm


def _body_cm(wearer: Wearer, measure: Body) -> float:
    value = wearer.get(measure)
    if value is None:
        raise _LackingError(
            f"the wearer's {measure.words} is not known; give {measure.value} in its wearer block"
        )
    return value.cm


def _sample(cases: Sequence[SizeCase], wishes: Wishes, key: str, measure: Body) -> tuple[float, float]:
    if wishes.sample is None:
        raise _LackingError(
            "says 'like_sample', but the grading block names no sample; add sample: and its size"
        )
    (case,) = (each for each in cases if each.size.name == wishes.sample)
    length = case.formulas.lengths[key]
    lacking = sorted(length.needs - case.size.given.keys())
    if lacking:
        raise _LackingError(
            f"the sample, size {wishes.sample!r}, lacks {', '.join(lacking)}; give its counts"
        )
    return float(length.at(case.size.given)), _body_cm(case.wearer, measure)


def _aimless(draft: Draft, cases: Sequence[SizeCase], wishes: Wishes) -> Iterator[str]:
    """Counts left out that neither an intent nor a seam says anything of."""
    lacking: dict[str, list[str]] = {}
    for case in cases:
        aimed = set(case.shaping)
        for key in wishes.intents:
            aimed |= case.formulas.lengths[key].needs
        for seam in case.formulas.seams:
            aimed |= seam.apart_cm.needs
        for count in draft.missing(case.size):
            if count not in aimed:
                lacking.setdefault(count, []).append(case.size.name)
    for count, sizes in lacking.items():
        key = draft.counts[count]
        yield (
            f"{draft.head.path}:{wishes.line}: grading.intent: the key {key!r} is missing: {count} is left "
            f"out in size{'s' if len(sizes) > 1 else ''} {', '.join(sizes)}, so say how long it should be"
        )
