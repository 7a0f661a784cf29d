"""Using the form in the tests."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from typing import Any

from tests.fitting.page.browser import SHIFT, Tab

_TYPE = """
((id, text) => {
  const field = document.getElementById(id);
  field.value = text;
  for (const kind of ["input", "change"]) field.dispatchEvent(new Event(kind, { bubbles: true }));
  const told = field.getAttribute("aria-describedby").split(" ").map((each) => document.getElementById(each));
  const problems = told.filter((each) => each.classList.contains("problem") && !each.hidden);
  return {
    invalid: field.getAttribute("aria-invalid"),
    message: problems.map((each) => each.textContent).join(),
    taken: document.getElementById(`${id}-taken`)?.textContent,
  };
})
"""


def type_in(tab: Tab, field: str, text: str) -> Any:
    """Type into a field and leave it; what its descriptions then say."""
    return tab.run(f"({_TYPE})({json.dumps(field)}, {json.dumps(text)})")


_EACH = f"""
((cases) => cases.map((entries) => {{
  document.getElementById("forget").click();
  const said = entries.map(([id, text]) => ({_TYPE})(id, text)).at(-1);
  const answers = [...document.querySelectorAll("li[data-verdict] [data-code]")].map((each) => (
    [`${{each.closest("li[data-verdict]").dataset.size}} ${{each.dataset.code}}`, each.dataset.answer]
  ));
  const told = ["tally", "gauge-taken"].map((id) => [id, document.getElementById(id).textContent]);
  return {{ ...said, ...Object.fromEntries([...answers, ...told]) }};
}}))
"""


def type_each(tab: Tab, cases: Sequence[Mapping[str, str]]) -> list[dict[str, Any]]:
    """Type each of the cases, texts by field, into a cleared form.

    What the descriptions of its last field then say, the answers by size and code, the tally and the gauge.
    """
    found: list[dict[str, Any]] = tab.run(f"({_EACH})({json.dumps([[*each.items()] for each in cases])})")
    return found


def summary(tab: Tab) -> str:
    """What is announced once the typing has paused."""
    said: str = tab.run(
        "new Promise((done) => setTimeout(() => done(document.getElementById('summary').textContent), 400))"
    )
    return said


def value(tab: Tab, name: str) -> Any:
    """What stands in a field."""
    return tab.run(f"document.getElementById('{name}').value")


_WAY = """
(() => {
  const at = document.activeElement, wanted = document.getElementById(NAME);
  if (at === wanted) return "there";
  const place = at === document.body ? 4 : at.compareDocumentPosition(wanted);
  return place & Node.DOCUMENT_POSITION_FOLLOWING ? "on" : "back";
})()
"""


def go_to(tab: Tab, name: str) -> None:
    """Press Tab, or with Shift where it is nearer, until the focus is on the element of that id."""
    for _ in range(120):
        way = tab.run(_WAY.replace("NAME", json.dumps(name)))
        if way == "there":
            return
        tab.press("Tab", modifiers=SHIFT if way == "back" else 0)
    raise AssertionError(f"the keyboard does not get to {name}")
