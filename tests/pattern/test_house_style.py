"""What a designer gives of their own is in every form that can show it.

What cannot be printed is refused in one sentence; empty room is marked.
"""

from __future__ import annotations

import base64
import io
import re
from pathlib import Path

import docx
import pytest
from docx.shared import Mm

from schematics.batch.source import spec_digest
from schematics.checks.evaluation import evaluate
from schematics.design.design import Design
from schematics.design.missing import missing
from schematics.document.fonts import font_of, installed_family
from schematics.document.lettering.text import FONT_FOLDER
from schematics.drawing.ink.sheet import A4
from schematics.errors import SchematicsError
from schematics.pattern.pattern_files import (
    LARGE,
    document_content,
    page_look,
    pattern_document,
    pattern_documents,
)
from schematics.reading.design_file import read_design
from tests.document.pdf_reading import reader, root, tags
from tests.examples import seeds
from tests.fitting.page.browser import MISSING, PROGRAM, Browser
from tests.fitting.page.test_look import violations
from tests.images import FONT, JPEG, PNG, SVG, image
from tests.pattern.test_page_in_browser import SIDEWAYS
from tests.pattern.written.lake import PATTERN
from tests.remembered import remembered
from tests.specs_for_tests import SPEC, write

SPECS = Path(__file__).parents[2] / "specs"
EELGRASS, GUIDE = SPECS / "house" / "eelgrass.yaml", SPECS / "README.md"
HOUSE = """\
  photos:
    - {at: cover, shows: The front., file: photos/front.jpg}
    - {at: seams, shows: A seam from near by.}
    - {at: bands, shows: The neck band., file: band.png}
  house: {accent: "#7a1f3d", logo: mark.svg, font: text.ttf, units_first: in}
"""


WIDE = "expected an image of 8000 pixels a side at most, got 9000 x 2: 'band.png'"
FILES = {"photos/front.jpg": JPEG, "band.png": PNG, "mark.svg": SVG, "text.ttf": FONT}


def spec(folder: Path, house: str = HOUSE) -> Path:
    (folder / "photos").mkdir(exist_ok=True)
    for name, content in FILES.items():
        (folder / name).write_bytes(content)
    return write(folder, SPEC + PATTERN + house)


@pytest.fixture(scope="module")
def design(tmp_path_factory: pytest.TempPathFactory) -> Design:
    return read_design(spec(tmp_path_factory.mktemp("house")))


worked_out = remembered(evaluate)


@remembered
def content_of(design: Design, form: str) -> bytes:
    document = pattern_document(design, worked_out(design), form)
    return document_content(document, form, page_look(design, A4, large=form == LARGE))


@pytest.mark.slow
@pytest.mark.parametrize("form", seeds(["pdf", LARGE], step=2))
def test_photos_mark_font_and_colour_are_in_the_pdf(design: Design, form: str) -> None:
    pdf = content_of(design, form)
    told = [str(each["/Alt"]) for each in tags(pdf) if each["/S"] == "/Figure"]
    assert told[:2] == ["Ida Example", "The front."]
    assert "The neck band." in told
    images = [image for page in reader(pdf).pages for image in page.images]
    assert sorted(each.image.size for each in images if each.image) == [(60, 40), (60, 40)]
    drawn = b"".join(
        page.get_object()["/Contents"].get_object().get_data() for page in root(pdf)["/Pages"]["/Kids"]
    )
    colours = re.findall(rb"([\d. ]+) (?:rg|scn)\b", drawn)
    wanted = [int(each, 16) / 255 for each in ("7a", "1f", "3d")]
    assert any([float(n) for n in each.split()] == pytest.approx(wanted, abs=0.002) for each in colours)


@pytest.mark.slow
def test_a_font_of_the_designers_is_set_and_embedded(tmp_path: Path) -> None:
    """A family that the program does not have: by its file, whatever this computer has."""
    font = next((path for path in Path("/usr/share/fonts").rglob("DejaVuSerif.ttf")), None)
    if font is None:
        pytest.skip("needs DejaVu Serif: apt-get install fonts-dejavu-extra")
    path = spec(tmp_path)
    (tmp_path / "text.ttf").write_bytes(font.read_bytes())
    design = read_design(path)
    fonts = {
        str(each["/BaseFont"]).partition("+")[2]
        for page in root(content_of(design, "pdf"))["/Pages"]["/Kids"]
        for each in (font.get_object() for font in page.get_object()["/Resources"]["/Font"].values())
    }
    assert any(each.startswith("DejaVuSerif") for each in fonts)
    page = content_of(design, "html").decode()
    assert '@font-face { font-family: "DejaVu Serif"; src: url("data:font/ttf;base64,' in page
    assert 'body { font-family: "DejaVu Serif", system-ui' in page
    word = docx.Document(io.BytesIO(content_of(design, "docx")))
    assert word.styles["Normal"].font.name == "DejaVu Serif"


def test_the_programs_own_family_is_found_whatever_this_computer_has() -> None:
    """As the guide to specs names it."""
    assert "`DejaVu Sans`" in GUIDE.read_text(encoding="utf-8")
    assert installed_family("dejavu sans") == "DejaVu Sans"
    assert font_of("DejaVu Sans", Path()) == font_of(str(FONT_FOLDER / "DejaVuSans.ttf"), Path())


@pytest.mark.slow
def test_a_family_that_is_found_is_spelt_as_its_fonts_do(tmp_path: Path) -> None:
    from schematics.document.fonts import _families

    family = next(iter(_families().values()), None)
    if family is None:
        pytest.skip("this computer has no fonts")
    design = read_design(spec(tmp_path, HOUSE.replace("text.ttf", family.upper())))
    assert design.publication.house.font == family
    assert content_of(design, "pdf").startswith(b"%PDF")


@pytest.mark.slow
def test_images_are_in_the_word_processors_file(design: Design) -> None:
    word = docx.Document(io.BytesIO(content_of(design, "docx")))
    shapes = [(each._inline.docPr.get("descr"), each.width, each.height) for each in word.inline_shapes]
    told = {name: (width, height) for name, width, height in shapes}
    assert {"Ida Example", "The front.", "The neck band."} <= told.keys()
    assert told["The front."] == (Mm(135), Mm(90))
    assert told["Ida Example"] == (Mm(24), Mm(16))
    kinds = {part.content_type for part in word.part.package.iter_parts()}
    assert {"image/jpeg", "image/png"} <= kinds


@pytest.mark.slow
@pytest.mark.parametrize("form", ["html", "md"])
def test_images_are_in_the_page_and_the_markdown_themselves(design: Design, form: str) -> None:
    text = content_of(design, form).decode()
    for kind, content in (("jpeg", JPEG), ("png", PNG), ("svg+xml", SVG)):
        assert f"data:image/{kind};base64,{base64.b64encode(content).decode()}" in text
    if form == "md":
        assert text.startswith("![Ida Example](data:image/svg+xml;base64,")
        assert "\n![The front.](data:image/jpeg;base64," in text
    else:
        assert "h1, h2, h3, h4 { color: #7a1f3d; }" in text


@pytest.mark.slow
@pytest.mark.parametrize("form", ["pdf", "html", "md", "text"])
def test_room_without_a_photo_is_marked_in_its_place(design: Design, form: str) -> None:
    (lacking,) = [each for each in missing(design) if "photos" in each.key]
    assert (lacking.key, lacking.place.value) == ("pattern.photos[1].file", "seams")
    document = pattern_document(design, worked_out(design), form)
    (seams,) = [each for each in document.sections if each.key == "seams"]
    assert seams.blocks[-1] == "[to be added: photo: A seam from near by]"
    (listed,) = [each for each in document.sections if each.key == "missing"]
    assert "Seams: photo: A seam from near by" in [str(each) for each in listed.sentences]


@pytest.mark.slow
def test_no_room_no_mark(tmp_path: Path) -> None:
    design = read_design(write(tmp_path, SPEC + PATTERN))
    assert not [each for each in missing(design) if "photo" in each.what]
    assert pattern_document(design, evaluate(design), "html").house is None


@pytest.mark.slow
def test_the_unit_asked_for_comes_first(design: Design) -> None:
    """In a spec in cm: inches, gauge to 4 inches."""
    text = content_of(design, "md").decode()
    assert "|  | inches | cm |" in text
    first, second = re.findall(r"^\| [A-Z] \| body neck edge \| (.+?) \|", text, re.MULTILINE)
    assert "/" in first
    assert "/" not in second
    assert re.search(r"rows to 4 in\b", text)


@pytest.mark.parametrize(
    ("name", "content", "sentence"),
    [
        ("band.png", None, "there is no file 'band.png' in the spec's folder"),
        ("band.png", b"", "expected an image, got a file that is no PNG: 'band.png'"),
        ("band.png", JPEG, "expected an image, got a file that is no PNG: 'band.png'"),
        ("band.png", PNG[:60], "expected an image, got a file that is no whole PNG: 'band.png'"),
        ("band.png", image("PNG", 9000, 2), WIDE),
        ("band.png", PNG + bytes(4_000_000), "expected an image of 4 MB at most, got 4.0 MB: 'band.png'"),
    ],
)  # fmt: skip
def test_an_image_that_cannot_be_printed_is_one_problem_with_its_line(
    tmp_path: Path, name: str, content: bytes | None, sentence: str
) -> None:
    path = spec(tmp_path)
    (tmp_path / name).unlink() if content is None else (tmp_path / name).write_bytes(content)
    line = (
        path.read_text("utf-8").splitlines().index("    - {at: bands, shows: The neck band., file: band.png}")
        + 1
    )
    with pytest.raises(SchematicsError) as refused:
        read_design(path)
    assert refused.value.problems == (f"{path}:{line}: pattern.photos[2].file: {sentence}",)


@pytest.mark.parametrize(
    "svg",
    [
        b"<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 30 20'><circle",
        b"<html/>",
        SVG.replace(b"<circle", b"<image href='https://a.example/b.png'/><circle"),
        SVG.replace(b"<circle", b"<script>1</script><circle"),
        b"<!DOCTYPE svg [<!ENTITY a 'b'>]>" + SVG,
        SVG.replace(b"viewBox='0 0 30 20'", b""),
    ],
)
def test_a_mark_that_is_no_whole_svg_by_itself(tmp_path: Path, svg: bytes) -> None:
    path = spec(tmp_path)
    (tmp_path / "mark.svg").write_bytes(svg)
    with pytest.raises(SchematicsError, match=r"lake\.yaml:\d+: pattern\.house\.logo: expected an image"):
        read_design(path)


def test_a_font_that_is_none(tmp_path: Path) -> None:
    path = spec(tmp_path)
    (tmp_path / "text.ttf").write_bytes(b"not a font")
    with pytest.raises(
        SchematicsError, match=r"house\.font: expected a font of 4 MB at most, got a file that is none"
    ):
        read_design(path)


def test_a_link_out_of_the_folder(tmp_path: Path) -> None:
    inside = tmp_path / "specs"
    inside.mkdir()
    path = spec(inside)
    (tmp_path / "band.png").write_bytes(PNG)
    (inside / "band.png").unlink()
    (inside / "band.png").symlink_to(tmp_path / "band.png")
    with pytest.raises(SchematicsError, match="expected a file in the spec's folder or below it"):
        read_design(path)


def test_a_file_that_goes_while_it_is_used_is_told(tmp_path: Path) -> None:
    design = read_design(spec(tmp_path))
    (tmp_path / "band.png").unlink()
    with pytest.raises(SchematicsError, match=r"band\.png: cannot be read"):
        pattern_documents(design, evaluate(design))


def test_a_changed_image_is_built_anew(tmp_path: Path) -> None:
    """By the digest that says whether anything is to be done."""
    path = spec(tmp_path)
    before = spec_digest(path)
    assert spec_digest(path) == before
    for name, content in (
        ("photos/front.jpg", image("JPEG", 61)),
        ("mark.svg", SVG + b" "),
        ("text.ttf", FONT + b" "),
    ):
        (tmp_path / name).write_bytes(content)
        after = spec_digest(path)
        assert after != before
        before = after


@pytest.mark.thorough
@pytest.mark.skipif(PROGRAM is None, reason=MISSING)
def test_the_page_of_a_house_is_for_everyone(browser: Browser, design: Design, tmp_path: Path) -> None:
    path = tmp_path / "lake.html"
    path.write_bytes(content_of(design, "html"))
    tab = browser.open(path, width=320)
    assert tab.run(SIDEWAYS) == [0, 0]
    assert tab.run("[...document.images].every(each => each.complete && each.naturalWidth > 0)")
    shown = "[...document.images].slice(0, 2).map(each => each.clientWidth / each.clientHeight)"
    assert tab.run(shown) == pytest.approx([30 / 20, 60 / 40], rel=0.02)
    assert list(violations(tab)) == []
    assert tab.complaints == []
    tab.close()


@pytest.mark.slow
def test_the_demo_has_it_all() -> None:
    design = read_design(EELGRASS)
    house = design.publication.house
    assert (house.accent, house.logo, house.units_first) == ("#1f5f6b", "mark.svg", "in")
    assert [photo.file for photo in design.publication.photos] == ["cover.svg", None]
    assert pattern_document(design, evaluate(design), "md").house
