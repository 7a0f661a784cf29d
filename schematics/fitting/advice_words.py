"""What a maker is advised, in a sentence: the same from the command line and on her page."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from types import MappingProxyType

from schematics.checks.finding import Finding
from schematics.checks.rules.sentence import TO_BE_SURE
from schematics.checks.wording import listed, sentence_case

WORK_CHANGED = "Work size {size} with the changes below."
NEAREST_AS_IT_IS = "As it is, size {size} comes nearest; another is changed, for that leaves less amiss."
"""The words where another size is changed than the one that is best as the pattern has it."""

NEAREST = "No size fits as it is; size {size} comes nearest."

ADVISED: Mapping[str, str] = MappingProxyType(
    {
        "right": "Work size {size}.",
        "unsure": "Work size {size}: it should fit, but that is not sure.",
        "doubtful": "Work size {size}: it comes nearest, but that it fits is far from sure.",
        "mind": "Work size {size}: it comes nearest, but not all is right.",
        "stop": NEAREST,
    }
)
"""The words for the advised size, by `sizing.SizeFit.how`."""

ADVISED_SO_FAR: Mapping[str, str] = MappingProxyType(
    {
        "right": "As far as is known, work size {size}.",
        "unsure": "As far as is known, work size {size}: it should fit.",
        "doubtful": (
            "As far as is known, work size {size}: it comes nearest, but that it fits is far from sure."
        ),
        "mind": "As far as is known, work size {size}: it comes nearest, but not all is right.",
        "stop": NEAREST,
    }
)
"""The same where something of it is not known."""

_FAR_OFF = (
    "its bands or its hem come far from where they are meant to. All counts can be found for exactly this "
    "body instead."
)
NOT_HERS = f"Size {{size}} is not this wearer's: {_FAR_OFF}"
MADE_FROM_NOT_HERS = f"It is made from size {{size}}, which as it stands is not this wearer's: {_FAR_OFF}"
"""The words for a best size that nobody would think of, see `sizing.SizeFit.is_not_hers`, and for what was
made from it with other counts."""

COUNTS_CAN_MEND = (
    "Other counts can mend at least some of this: whoever sells the pattern can make it to measure, for this "
    "wearer and at this gauge."
)
"""What is said of a size with something amiss where no counts can be looked for."""

NOT_THIS_CHILDS = "not this child’s size"
"""The same in a list of sizes, of any that is so far off."""

NOTHING_LEFT = "Checked again: nothing is left that stops it or is to be minded for this wearer."
"""What is said of changed counts, and of a repair, that make it right."""


def advised_sentence(size: str, how: str, *, unknown: bool) -> str:
    """The sentence on the advised size.

    >>> advised_sentence("6", "mind", unknown=False)
    'Work size 6: it comes nearest, but not all is right.'
    """
    return (ADVISED_SO_FAR if unknown else ADVISED)[how].format(size=size)


AMISS, MAY_BE_AMISS = "{amiss}.", "It may be that {amiss}."
"""The words for what is amiss of the advised size, and for what is not, but not surely so."""


def amiss_sentences(findings: Iterable[Finding]) -> str:
    """What findings that are not good come to in a few words, each once; empty where there are none."""
    told: dict[str, list[str]] = {AMISS: [], MAY_BE_AMISS: []}
    for finding in findings:
        words = told[MAY_BE_AMISS if finding.unsure else AMISS]
        words += [] if finding.amiss_words in words else [finding.amiss_words]
    sentences = (template.format(amiss=listed(words)) for template, words in told.items() if words)
    return " ".join(map(sentence_case, sentences))


_WORN: Mapping[str, str] = MappingProxyType(
    {
        "right": "It fits: nothing is to be minded.",
        "unsure": "As far as it is measured it can be worn, but that is not sure.",
        "doubtful": "As far as it is measured it can be worn, but that is far from sure.",
        "mind": "It can be worn, but not all is right. Mind this:",
        "stop": "This wearer cannot wear it as it is:",
    }
)
_WORN_SO_FAR = "As far as is known it fits: nothing is to be minded."


def worn_sentence(how: str, *, unknown: bool) -> str:
    """The words for a poncho that is made or is to be made, by `sizing.SizeFit.how`; the findings follow.

    >>> worn_sentence("right", unknown=True)
    'As far as is known it fits: nothing is to be minded.'
    """
    return _WORN_SO_FAR if unknown and how == "right" else _WORN[how]


LEFT_OPEN = tuple(
    f"What is not measured leaves it open: it could be {named} {{sizes}} as well."
    for named in ("size", "sizes")
)
"""The words for one size that could be the best as well, and of several."""


def left_open(sizes: Sequence[str]) -> str:
    """Which other sizes could be the best as well, at least one.

    >>> left_open(["4", "8"])
    'What is not measured leaves it open: it could be sizes 4 and 8 as well.'
    """
    return LEFT_OPEN[len(sizes) > 1].format(sizes=listed(sizes))


_SHARED = (("measure ", " again"), ("measure ", ""))
"""How what is to be measured begins and ends that is said together."""


def to_be_sure(measures: Sequence[str]) -> str:
    """What to measure to be sure, of each finding; what begins and ends alike is said together.

    >>> to_be_sure(["measure the wrist girth", "hold it against the swatch", "measure the height"])
    'To be sure, measure the wrist girth and the height, and hold it against the swatch.'
    >>> to_be_sure(["measure the height again", "measure the neck girth again"])
    'To be sure, measure the height and the neck girth again.'
    """
    together: dict[tuple[str, str], list[str]] = {}
    for words in measures:
        shared = (each for each in _SHARED if words.startswith(each[0]) and words.endswith(each[1]))
        before, after = next(shared, (words, ""))
        together.setdefault((before, after), []).append(words[len(before) : len(words) - len(after)])
    *rest, last = (f"{before}{listed(each)}{after}" for (before, after), each in together.items())
    return TO_BE_SURE.format(measure=f"{', '.join(rest)}, and {last}" if rest else last)
