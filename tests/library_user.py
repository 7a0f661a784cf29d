"""A user's code, which `make lint` checks: types are told, and an ignore that were not needed is an error.

Nobody runs it.
"""

from __future__ import annotations

from pathlib import Path

import schematics


def use() -> tuple[object, ...]:
    design: schematics.Design = schematics.read(Path("tidepool.yaml"))
    results = schematics.evaluate(design)
    result: schematics.Result = results["6"]
    verdicts = [name.upper() + each.verdict.value for name, each in results.items()]
    sheets = schematics.draw(design, paper="letter")
    text: str = sheets["6", "pieces"].svg
    png = sheets["nest"].png.hex()
    fitting: schematics.Fitting = schematics.fit(design, head_girth="52 cm", height=118, age=6)
    grading = schematics.grade("tidepool.yaml")
    count: float = grading.counts["6"]["body.neck"]
    report: schematics.BuildReport = schematics.build(grading.design, "output", sizes=["6"])
    problems: tuple[str, ...] = ()
    try:
        schematics.read("nowhere.yaml")
    except schematics.SchematicsError as error:
        problems = error.problems
    schematics.fit(design, head_girht="52 cm")  # type: ignore[call-arg]
    schematics.evaluate("tidepool.yaml")  # type: ignore[arg-type]
    wrong: object = schematics.knit  # type: ignore[attr-defined]
    return result, verdicts, text, png, fitting, count, report, problems, wrong
