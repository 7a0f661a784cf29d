"""What stands at the top: designer, copyright, level, and one paragraph."""

from __future__ import annotations

from schematics.design.size_string import size_string
from schematics.document.document import Section
from schematics.pattern.book import Book
from schematics.pattern.written.notes import making
from schematics.pattern.written.to_be_added import to_be_added


def section(book: Book) -> Section:
    """Whose design it is, how hard it is, and what it is."""
    said = book.design.publication
    level = said.level.value if said.level else to_be_added("level")
    first, *_ = making(book)
    sizes = f"Sizes {size_string(book.names)}" if len(book.names) > 1 else f"Size {book.names[0]}"
    return Section(
        "",
        (
            f"Designed by {said.designer or to_be_added('designer')}",
            said.copyright or to_be_added("copyright line"),
            f"Level: {level}. {sizes}. {book.terms.value} terms.",
            f"A crocheted poncho with a centre panel and ribbed bands at neck and arms. {first}",
        ),
        "about",
    )
