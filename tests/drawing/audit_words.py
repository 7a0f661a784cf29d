"""What has to be written on a sheet: whose it is, whatever stops the size, the cautions once in all."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from schematics.checks.finding import Finding, Severity
from schematics.design.cautions import CAUTIONS
from schematics.design.design import Design
from tests.drawing.readback import Page


def _joined(texts: Sequence[str]) -> str:
    return re.sub(r"\s+", " ", " ".join(texts))


def caution_faults(page: Page, *, cover: bool) -> Iterator[str]:
    """Cautions that are not on the cover word for word, and any on another sheet."""
    cautions = _joined(page.texts("cautions"))
    for caution in CAUTIONS:
        if cover and caution.sentence not in cautions:
            yield f"the caution '{caution.sentence}' is not on the cover"
        if not cover and caution.sentence in _joined([words.text for words in page.words]):
            yield f"the caution '{caution.sentence}' is on a sheet that is no cover"


_UNFIT = re.compile(r"all good|every check|\w\.json\b|\bGOOD\b|\.ya?ml\b", re.IGNORECASE)


def word_faults(page: Page, design: Design) -> Iterator[str]:
    """A title block that does not say the design, praise, names of files."""
    for words in page.words:
        if _UNFIT.search(words.text.replace(design.title, "")):
            yield f"'{words.text}' has no place on a sheet"
    title = page.texts("title")
    if not any(text == design.title or _shortened(text, design.title) for text in title):
        yield f"the title block does not say '{design.title}'"
    parts = design.parts
    for fabric in dict.fromkeys((parts.body, parts.centre_panel, parts.neck_band, parts.arm_bands)):
        gauge = f"{fabric.swatch.stitches:g} sts x {fabric.swatch.rows:g} rows over "
        if not any(gauge in text and not text.endswith("…") for text in title):
            yield f"the title block does not give the gauge '{gauge}...' of {fabric.name} whole"
    dated = design.date.isoformat() if design.date else "undated"
    if dated not in title:
        yield f"the title block does not say '{dated}'"


def senseless_words(page: Page) -> Iterator[str]:
    """What a program says where it has nothing to say."""
    for words in page.words:
        if re.search(r"\b(None|nan|inf|null|True|False)\b", words.text):
            yield f"'{words.text}' of {words.group} makes no sense"


def _shortened(text: str, whole: str) -> bool:
    return text.endswith("…") and len(text) > 10 and whole.startswith(text.removesuffix("…"))


def finding_faults(page: Page, findings: Sequence[Finding]) -> Iterator[str]:
    """Findings that stop the size and are not on its sheet, at least by their code."""
    said = "".join(page.texts("checks")).replace(" ", "")
    for finding in findings:
        if finding.severity is Severity.STOP and finding.code.replace(" ", "") not in said:
            yield f"{finding.code} stops this size and is not on its sheet"
