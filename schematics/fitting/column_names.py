"""What the columns of a group's file are called, in English, German, French and Spanish.

The names of measurements in other languages, and those that mean one thing to a tailor and another in a shop,
are common practice, no source.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Mapping
from functools import cache
from typing import Final

from schematics.wearer.body import Body

NAME: Final = "name"
AGE: Final = "age"

Column = Body | str
"""A measurement, `NAME` or `AGE`."""

OTHER_NAMES: Mapping[Column, str] = {
    NAME: "child, first name; Name, Vorname, Rufname, Kind; nom, prénom, enfant; nombre, niño, niña",
    AGE: "age years; Alter, Alter Jahre, Alter in Jahren; âge, âge ans, âge en ans, âge en années; "
    "edad, edad años, edad en años",
    Body.HEAD_GIRTH: "head, head circumference; Kopf, Kopfumfang, Kopfweite; "
    "tour de tête, circonférence de la tête, périmètre crânien; "
    "contorno de cabeza, contorno de la cabeza, perímetro cefálico",
    Body.NECK_GIRTH: "neck, neck circumference; Halsumfang, Halsweite; tour de cou, tour du cou; "
    "contorno de cuello, contorno del cuello",
    Body.CHEST_GIRTH: "chest, chest circumference, bust; Brustumfang, Oberweite; tour de poitrine; "
    "contorno de pecho, contorno del pecho, contorno de busto",
    Body.UPPER_ARM_GIRTH: "upper arm; Oberarmumfang, Oberarmweite; tour de bras, tour du bras; "
    "contorno de brazo, contorno del brazo",
    Body.WRIST_GIRTH: "wrist, wrist circumference; Handgelenkumfang, Handgelenksumfang; "
    "tour de poignet, tour du poignet; contorno de muñeca, contorno de la muñeca",
    Body.HAND_GIRTH: "hand, hand circumference; Handumfang; tour de main, tour de la main; "
    "contorno de mano, contorno de la mano",
    Body.SHOULDER_BREADTH: "shoulder width, cross back; Schulterbreite; "
    "largeur d'épaules, largeur des épaules; ancho de hombros, anchura de hombros",
    Body.CENTRE_BACK_NECK_TO_WRIST: "Nacken bis Handgelenk, Rückenmitte bis Handgelenk; nuque au poignet, "
    "milieu du dos au poignet; nuca a muñeca, centro de la espalda a la muñeca",
    Body.FOREARM_LENGTH: "Unterarmlänge; longueur d'avant-bras, longueur de l'avant-bras; "
    "largo de antebrazo, longitud del antebrazo",
    Body.ARMHOLE_DEPTH: "Armlochtiefe, Armausschnitttiefe; profondeur d'emmanchure; profundidad de sisa, "
    "profundidad de la sisa",
    Body.BACK_WAIST_LENGTH: "Rückenlänge; longueur du dos, longueur taille dos; largo de espalda, "
    "talle de espalda",
    Body.HEIGHT: "body height; Körpergröße, Körperhöhe, Körperlänge; stature, hauteur; estatura, altura",
    Body.NAPE_HEIGHT: "Nackenhöhe; hauteur de nuque, hauteur de la nuque; altura de la nuca",
    Body.WAIST_HEIGHT: "Taillenhöhe; hauteur de taille, hauteur de la taille; altura de la cintura",
    Body.HIP_HEIGHT: "Hüfthöhe; hauteur de hanche, hauteur des hanches; altura de la cadera",
    Body.KNEE_HEIGHT: "Kniehöhe; hauteur de genou, hauteur du genou; altura de la rodilla",
}
"""Names besides those of the program, by language."""

HEIGHT_OR_SIZE: Mapping[str, tuple[str, str]] = {
    "size": ("height", "age"),
    "Größe": ("Körpergröße", "Alter"),
    "taille": ("stature", "âge"),
    "talla": ("estatura", "edad"),
}
"""Names of the height or of a size of clothes, and what to call the height and the age instead."""
_IS_IT_HEIGHT = "is it the height? Then call it {}; of a size of clothes give the age, as {}"
_TAKEN_FOR_HEIGHT = "taken for the height; is it a size of clothes? Then give the age, as {1}, instead"
_BACK = "is it straight across the back, from the tip of one shoulder to that of the other? Then call it {}"
_ARM = "is it from the middle of the back of the neck to the wrist? Then call it {}"

AMBIGUOUS: Mapping[str, str] = {
    **{name: _IS_IT_HEIGHT.format(*instead) for name, instead in HEIGHT_OR_SIZE.items()},
    "Rückenbreite": _BACK.format("Schulterbreite"),
    "carrure, carrure dos": _BACK.format("largeur d'épaules"),
    "ancho de espalda, ancho de la espalda": _BACK.format("ancho de hombros"),
    "arm length": _ARM.format("centre_back_neck_to_wrist"),
    "Armlänge": _ARM.format("Nacken bis Handgelenk"),
    "longueur de bras, longueur du bras": _ARM.format("nuque au poignet"),
    "largo de brazo, largo del brazo": _ARM.format("nuca a muñeca"),
}
"""Names that may mean several things, and what is asked about them."""

_APART = re.compile(r"[^a-z0-9]+")
_LATIN = {"ä": "ae", "ö": "oe", "ü": "ue"}


def folded(title: str) -> str:
    """A name without what people write differently: capitals, accents, blanks and brackets.

    >>> folded(" Tour de Tête (cm)")
    'tour_de_tete_cm'
    """
    plain = unicodedata.normalize("NFKD", title.casefold())
    kept = "".join(sign for sign in plain if not unicodedata.combining(sign))
    return _APART.sub("_", kept).strip("_")


def named(key: str) -> Column | None:
    """What a column holds whose name is folded so; None if that is not known."""
    return _columns().get(key)


def asked_about(key: str) -> str | None:
    """What is asked about a column whose name, folded so, may mean several things; None for any other."""
    return _ambiguous().get(key)


def taken_for_height(key: str) -> str | None:
    """The note where a column whose name, folded so, may be the height is read as it; None of others."""
    return _heights().get(key)


def spelt_names() -> list[str]:
    """Every name that is known, as it is written; the program's own first."""
    return [*Body, *(name for names in OTHER_NAMES.values() for name in _split(names))]


@cache
def _columns() -> Mapping[str, Column]:
    columns: dict[str, Column] = {body.value: body for body in Body} | {NAME: NAME, AGE: AGE}
    for column, names in OTHER_NAMES.items():
        columns |= {key: column for name in _split(names) for key in _keys(name)}
    return columns


@cache
def _ambiguous() -> Mapping[str, str]:
    return {
        key: question
        for names, question in AMBIGUOUS.items()
        for name in _split(names)
        for key in _keys(name)
    }


@cache
def _heights() -> Mapping[str, str]:
    return {
        key: _TAKEN_FOR_HEIGHT.format(*instead)
        for name, instead in HEIGHT_OR_SIZE.items()
        for key in _keys(name)
    }


def _split(names: str) -> list[str]:
    return re.split(r"[,;] ", names)


def _keys(name: str) -> set[str]:
    """As it is folded, and as people fold it who have no umlauts."""
    return {folded(name), folded("".join(_LATIN.get(sign, sign) for sign in name.casefold()))}
