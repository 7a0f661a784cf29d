"""What is at the top: designer, copyright, level, and one paragraph."""

from __future__ import annotations

from schematics.checks.wording import sentence_case
from schematics.design.missing import marks
from schematics.document.document import Section
from schematics.pattern.book import Book
from schematics.pattern.written.general_notes import making
from schematics.pattern.written.sizes import whose_sizes


def section(book: Book) -> Section:
    """The part that says for whom it is, whose design it is, how hard it is, and what it is."""
    publication, lacking = book.design.publication, marks(book.design)
    level = publication.level.value if publication.level else lacking["pattern.level"]
    first, *_ = making(book)
    return Section(
        "",
        (
            *([sentence_case(whose)] if (whose := whose_sizes(book)) else []),
            f"Designed by {publication.designer or lacking['pattern.designer']}",
            publication.copyright or lacking["pattern.copyright"],
            f"Level: {level}. {book.terms.value} terms.",
            f"A crocheted poncho with a centre panel and ribbed bands at the neck and arms. {first}",
        ),
        "about",
    )
