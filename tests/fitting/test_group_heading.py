"""Columns of a group's file in four languages: by lists of their own, and none means two things."""

from __future__ import annotations

import unicodedata
from pathlib import Path

import pytest

from schematics.errors import UsageError
from schematics.fitting.column_names import AMBIGUOUS, OTHER_NAMES, folded, named
from schematics.fitting.group_heading import Heading, read_heading
from schematics.units import Unit
from schematics.wearer.body import Body

PATH = Path("class.csv")

CM, IN = Unit.CM, Unit.IN
HEIGHT = "is it the height? Then call it {}; of a size of clothes give the age, as {}"

ACROSS = "is it straight across the back, from the tip of one shoulder to that of the other? Then call it {}"


def heading(*titles: str, unit: Unit = CM) -> Heading:
    return read_heading(titles, unit, PATH)


@pytest.mark.parametrize(
    ("titles", "bodies"),
    [
        (
            (
                "Vorname",
                "Alter",
                "Kopfumfang",
                "Körpergröße",
                "Halsumfang",
                "Brustumfang",
                "Handgelenkumfang",
            ),
            ("head_girth", "height", "neck_girth", "chest_girth", "wrist_girth"),
        ),
        (
            ("VORNAME", "ALTER", "KOPFUMFANG (CM)", "KÖRPERGRÖSSE", "Schulterbreite", "Rückenlänge"),
            ("head_girth", "height", "shoulder_breadth", "back_waist_length"),
        ),
        (
            ("Name", "Alter in Jahren", "Koerpergroesse", "Ruecken­laenge".replace("\u00ad", ""), "Kniehoehe"),
            ("height", "back_waist_length", "knee_height"),
        ),
        (
            ("prénom", "âge", "tour de tête", "stature", "tour de cou", "tour de poitrine", "tour de main"),
            ("head_girth", "height", "neck_girth", "chest_girth", "hand_girth"),
        ),
        (
            ("Prenom", "Age", "Tour de tete en cm", "Largeur d’épaules", "Tour-de-bras", "nuque au poignet"),
            ("head_girth", "shoulder_breadth", "upper_arm_girth", "centre_back_neck_to_wrist"),
        ),
        (
            ("nombre", "edad", "contorno de cabeza", "estatura", "contorno de muñeca", "nuca a muñeca"),
            ("head_girth", "height", "wrist_girth", "centre_back_neck_to_wrist"),
        ),
        (
            (
                "Niña",
                "Edad en años",
                "Perimetro cefalico",
                "altura",
                "Contorno de Pecho",
                "altura de la rodilla",
            ),
            ("head_girth", "height", "chest_girth", "knee_height"),
        ),
        (("Prénom", "Âge (ans)", "Hauteur (cm)", "Tour de tête (cm)"), ("height", "head_girth")),
        (("Vorname", "Alter (Jahre)", "Kopfumfang (cm)"), ("head_girth",)),
        (("Nombre", "Edad (años)", "Contorno de la cabeza (cm)"), ("head_girth",)),
        (("name", "age_years", "head girth", "Height"), ("head_girth", "height")),
        (
            ("Child", "Age", "Head", "neck (cm)", "Chest", "upper arm", "wrist_in", "hand", "shoulder width"),
            (
                "head_girth",
                "neck_girth",
                "chest_girth",
                "upper_arm_girth",
                "wrist_girth",
                "hand_girth",
                "shoulder_breadth",
            ),
        ),
    ],
)
def test_a_header_in_any_of_the_languages(titles: tuple[str, ...], bodies: tuple[str, ...]) -> None:
    found = heading(*titles)
    assert (found.name, found.age, found.unused) == (0, 1, ())
    assert [body for body, _ in found.bodies.values()] == [Body(each) for each in bodies]
    decomposed = heading(*(unicodedata.normalize("NFD", each) for each in titles))
    assert decomposed == found


def test_a_columns_own_unit_wins_in_every_language() -> None:
    found = heading("Kopfumfang in cm", "tour de cou (in)", "estatura_cm", "wrist girth", unit=IN)
    assert [unit for _, unit in found.bodies.values()] == [CM, IN, CM, IN]


@pytest.mark.parametrize(
    ("title", "question"),
    [
        ("Größe", HEIGHT.format("Körpergröße", "Alter")),
        ("GROESSE", HEIGHT.format("Körpergröße", "Alter")),
        ("Größe (cm)", HEIGHT.format("Körpergröße", "Alter")),
        ("taille", HEIGHT.format("stature", "âge")),
        ("Talla en cm", HEIGHT.format("estatura", "edad")),
        ("size", HEIGHT.format("height", "age")),
        ("Carrure", ACROSS.format("largeur d'épaules")),
        ("Rückenbreite", ACROSS.format("Schulterbreite")),
        ("Ancho de espalda", ACROSS.format("ancho de hombros")),
        (
            "Armlänge",
            "is it from the middle of the back of the neck to the wrist? Then call it Nacken bis Handgelenk",
        ),
    ],
)
def test_what_may_mean_several_things_is_asked_about(title: str, question: str) -> None:
    found = heading("Kopfumfang", title)
    assert found.unused == (f"the column {title!r} is not used: {question}",)
    assert list(found.bodies) == [0]
    with pytest.raises(UsageError) as caught:
        heading("Name", title)
    assert str(caught.value).endswith(f"; the column {title!r} is not used: {question}")


def test_of_two_columns_of_names_the_first_is_taken() -> None:
    found = heading("Vorname", "Name", "Alter")
    assert (found.name, found.unused) == (0, ("the column 'Name' is not used; 'Vorname' is the name",))


@pytest.mark.parametrize("titles", [("Kopfumfang", "head_girth"), ("Alter", "age"), ("nom", "Nom")])
def test_the_same_twice_is_refused_in_two_languages_as_well(titles: tuple[str, str]) -> None:
    with pytest.raises(UsageError, match=f"the column '{titles[1]}' stands twice; keep one"):
        heading(*titles, "chest_girth")


def test_a_slip_of_the_pen_is_told_in_its_language() -> None:
    (said,) = heading("Kopfumfnag", "age").unused
    assert said == "the column 'Kopfumfnag' is not used; did you mean Kopfumfang?"


def test_every_measurement_has_a_name_in_each_language_and_no_name_means_two() -> None:
    seen: dict[str, object] = {}
    for column, names in OTHER_NAMES.items():
        languages = names.split("; ")
        assert len(languages) in (3, 4), column
        for name in (each for language in languages for each in language.split(", ")):
            assert named(folded(name)) == column
            assert seen.setdefault(folded(name), column) == column, name
    assert set(Body) <= OTHER_NAMES.keys()
    for names in AMBIGUOUS:
        assert all(named(folded(name)) is None for name in names.split(", "))


@pytest.mark.parametrize(
    ("title", "cells", "taken"),
    [
        ("Taille", ["116", "", "98,5"], True),
        ("taille (cm)", ["1,16 m"], True),
        ("Größe", ["116 cm", "122"], True),
        ("Talla", ["6", "8"], False),  # years of clothes
        ("Größe", ["116", "44"], False),  # a grown-up's size
        ("size", ["116", "M"], False),
        ("size", [""], False),
        ("Armlänge", ["98"], False),
    ],
)
def test_what_may_be_a_size_is_the_height_where_its_values_are(
    title: str, cells: list[str], taken: bool
) -> None:
    found = read_heading(["age", title], CM, PATH, [["6", cell] for cell in cells])
    assert ([body for body, _ in found.bodies.values()] == [Body.HEIGHT]) is taken
    (told,) = found.unused
    assert ("is taken for the height; is it a size of clothes?" in told) is taken
    beside = read_heading(["height", title], CM, PATH, [["116", cell] for cell in cells])
    assert list(beside.bodies) == [0]
