"""What cannot be judged of a size for want of a measurement: which to take, and what each would show."""

from __future__ import annotations

from schematics.checks.ruled import lacking
from schematics.checks.rules.sentence import Answer
from schematics.checks.rules.size_rules import size_rules
from schematics.checks.wording import listed, sentence_case
from schematics.document.document import Items
from schematics.fitting.sizing import SizeFit
from schematics.wearer.body import Body
from schematics.wearer.estimates import estimates_of


def not_known(fit: SizeFit) -> Items | None:
    """A line for each measurement, or for several, and what it would show; None if none is missing."""
    rules = {rule.code: rule for rule in size_rules(fit.case.design.limits)}
    wearer = fit.case.wearer
    by_height = {each.body for each in estimates_of("both")}
    subjects: dict[tuple[Body, ...], list[str]] = {}
    for rule in (rules[point.code] for point in fit.points if point.answer is Answer.UNKNOWN):
        bodies = tuple(lacking(wearer, rule))
        if wearer.get(Body.HEIGHT) is None and by_height.issuperset(bodies):
            bodies = (Body.HEIGHT,)
        subjects.setdefault(bodies, []).append(rule.sentence.subject)
    if not subjects:
        return None
    age = ", or say a child’s age, which stands for all of them" if wearer.age_years is None else ""
    return Items(
        tuple(
            f"{sentence_case(listed(each.words for each in bodies))}: {listed(subjects[bodies])}"
            for bodies in sorted(subjects, key=len)
        ),
        f"Not known yet. Measure what you can{age}; else try it on early",
    )
