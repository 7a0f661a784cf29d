"""The hang on cloth beside the plane model: hem and knee, hem and waist, neck edge and shoulders.

Of both models the more cautious decides. Lengths of the hem are taken down from the nape.
"""

from __future__ import annotations

from dataclasses import dataclass
from operator import itemgetter

from schematics.checks.finding import Case, Explanation, Finding, Severity, Topic
from schematics.checks.rules.hang import KNEE_CURE, shorten_words
from schematics.checks.wording import sentence_case
from schematics.crochet.fabric import BENDING_LENGTH_HOW
from schematics.design.limits import COMMON
from schematics.units import Grain, figure
from schematics.wearer.body import Stage

KNEE, WAIST, NECK = "DRAPE-KNEE", "DRAPE-WAIST", "DRAPE-NECK"
PLANE, CLOTH = "plane model", "cloth"


@dataclass(frozen=True, slots=True)
class ClothLength:
    """A length on cloth in cm: of the usual fabric, and its ends over stiffness and friction."""

    low_cm: float
    usual_cm: float
    high_cm: float


@dataclass(frozen=True, slots=True)
class TwoModels:
    """One length by both models, in cm; ``plane_cm`` or ``cloth`` is None where that model has no answer."""

    plane_cm: float | None
    cloth: ClothLength | None

    @property
    def most(self) -> tuple[float, str]:
        """The largest of both models, and whose it is; the plane model where they agree."""
        cloth = None if self.cloth is None else self.cloth.high_cm
        return max(_lengths_by_model(self.plane_cm, cloth), key=itemgetter(0))

    @property
    def least(self) -> tuple[float, str]:
        """The smallest of both models, and whose it is; the plane model where they agree."""
        cloth = None if self.cloth is None else self.cloth.low_cm
        return min(_lengths_by_model(self.plane_cm, cloth), key=itemgetter(0))


def _lengths_by_model(plane_cm: float | None, cloth_cm: float | None) -> list[tuple[float, str]]:
    return [(cm, model) for cm, model in ((plane_cm, PLANE), (cloth_cm, CLOTH)) if cm is not None]


@dataclass(frozen=True, slots=True, kw_only=True)
class HangLengths:
    """How a size hangs, in cm.

    Arms down: ``back``, ``side``, ``front`` and ``lowest`` of the hem below the nape. Arms level: the same at
    the centre, ``level_back`` and ``level_front``. Arms down again: the neck edge's ``neck_back`` below the
    nape, and ``neck_beside`` how far it lies from the middle where it is widest. ``knee_cm`` and ``waist_cm``
    are below the nape, ``shoulder_cm`` is from the middle to the shoulder tip.
    """

    back: TwoModels
    side: TwoModels
    front: TwoModels
    lowest: TwoModels
    level_back: TwoModels
    level_front: TwoModels
    neck_back: TwoModels
    neck_beside: TwoModels
    knee_cm: float
    waist_cm: float
    shoulder_cm: float

    @property
    def level_higher(self) -> tuple[str, TwoModels]:
        """Which of centre back and centre front comes higher, arms level, and how far below the nape."""
        back, front = self.level_back, self.level_front
        return ("front", front) if front.least[0] < back.least[0] else ("back", back)


@dataclass(frozen=True, slots=True)
class DecidedFinding:
    """A finding, and which model decides it."""

    finding: Finding
    decides: str


def cloth_findings(case: Case, lengths: HangLengths) -> tuple[DecidedFinding, ...]:
    """The three findings on a size."""
    return tuple(each(case, lengths) for each in (_knee, _waist, _neck))


def _knee(case: Case, lengths: HangLengths) -> DecidedFinding:
    worn, model = lengths.lowest.most
    asked = case.limits.knee_clearance_cm
    room = lengths.knee_cm - worn
    adult = case.wearer.stage is Stage.ADULT
    short = Severity.MIND if adult else Severity.STOP
    severity = short if room < asked else Severity.GOOD
    cure = ""
    if severity is not Severity.GOOD:
        sags = model == PLANE
        shorter = case.tape.at_least((asked - room) / (1 + case.limits.hem_sag_fraction * sags))
        trips = "" if adult else ", where a child trips"
        cure = f"{trips}: {shorten_words(case.limits, shorter, sags=sags)}"
    end = "" if adult or case.wearer.person else " at the worst end of the size"
    verb = "stays" if severity is Severity.GOOD else "can come"
    sentence = (
        f"Arms down, the hem's lowest place {verb} {_beside(case, room, 'knee')}{end}{cure}. "
        f"{_length_words(case, lengths.lowest, 'below the nape')} {_why(model, lengths.lowest, 'lower')}"
    )
    return _decided(case, KNEE, severity, sentence, lengths.lowest, model, room)


def _waist(case: Case, lengths: HangLengths) -> DecidedFinding:
    where, higher = lengths.level_higher
    hangs, model = higher.least
    room = hangs - lengths.waist_cm
    minded = -room > case.limits.short_above_waist_cm
    sentence = (
        f"Arms level, the hem at the centre {where} {'rises to' if minded else 'stays'} "
        f"{_beside(case, room, 'waist', below=True)}. "
        f"{_length_words(case, higher, 'below the nape')} {_why(model, higher, 'higher')}"
    )
    return _decided(case, WAIST, Severity.MIND if minded else Severity.GOOD, sentence, higher, model, room)


def _neck(case: Case, lengths: HangLengths) -> DecidedFinding:
    beside, model = lengths.neck_beside.most
    room = lengths.shoulder_cm - beside
    off = room < 0
    rest = lengths.neck_back.cloth
    where = f" comes to rest at the back {_range(case, rest)} below the nape, and" if rest else ""
    does, side = ("can slide off", "beyond") if off else ("stays on", "inside")
    sentence = (
        f"The neck edge{where} {does} the shoulders: at its widest it is {case.tape.length(abs(room))} "
        f"{side} the shoulder tips. {_length_words(case, lengths.neck_beside, 'from the middle')} "
        f"{_why(model, lengths.neck_beside, 'wider')}"
    )
    severity = Severity.MIND if off else Severity.GOOD
    return _decided(case, NECK, severity, sentence, lengths.neck_beside, model, room, place="neck")


def _decided(
    case: Case,
    code: str,
    severity: Severity,
    sentence: str,
    length: TwoModels,
    model: str,
    room: float,
    place: str = "hem",
) -> DecidedFinding:
    figures = {"room_cm": room}
    if length.plane_cm is not None:
        figures["plane_cm"] = length.plane_cm
    if length.cloth is not None:
        figures |= {
            "cloth_low_cm": length.cloth.low_cm,
            "cloth_cm": length.cloth.usual_cm,
            "cloth_high_cm": length.cloth.high_cm,
        }
    return DecidedFinding(case.finding(code, severity, place, sentence.strip(), **figures), model)


def _beside(case: Case, room: float, level: str, *, below: bool = False) -> str:
    """Such as ``3 cm above the knee``; ``below`` says that room is kept below the level, not above it."""
    side = "below" if (room < 0) != below else "above"
    return f"{case.tape.length(abs(room))} {side} the {level}"


def _length_words(case: Case, length: TwoModels, where: str) -> str:
    """Such as ``On cloth it is 38.8 cm (37.9 to 39.4 cm) below the nape, by the plane model 40.5 cm.``."""
    plane = "" if length.plane_cm is None else f"by the plane model {case.tape.length(length.plane_cm)}"
    if length.cloth is None:
        return f"By the plane model it is {case.tape.length(length.most[0])} {where}."
    cloth = f"on cloth it is {_range(case, length.cloth)} {where}"
    return f"{sentence_case(', '.join(filter(None, (cloth, plane))))}."


def _range(case: Case, span: ClothLength) -> str:
    """Such as ``38.8 cm (37.9 to 39.4 cm)``."""
    low = figure(span.low_cm, case.design.unit, Grain.USUAL)
    return f"{case.tape.length(span.usual_cm)} ({low} to {case.tape.length(span.high_cm)})"


def _why(model: str, length: TwoModels, more: str) -> str:
    """Which model decides and why; nothing where there is only one."""
    if length.cloth is None or length.plane_cm is None:
        return ""
    what = "by it the neck edge may lie" if more == "wider" else "by it the hem may hang"
    return f"The {model} decides, being the more cautious: {what} {more}."


_RANGES = (
    "On cloth the seamed pieces hang from a solid body of the size's typical measurements, as heavy and as "
    "stretchy as the swatches; how stiff the fabric is and how it rubs on clothes is told as a range. A "
    f"bending length narrows it: {BENDING_LENGTH_HOW}, as bending_length of the swatch."
)

TOPIC = Topic(
    name="the hang on cloth (schematics hang)",
    explanations=(
        Explanation(
            code=KNEE,
            title="On cloth, too, the hem stays above the knee",
            meaning=(
                "A hem below the knee catches the feet: a child trips. Held against the knee at the worst "
                "end of the size is the lowest place of the hem, arms down: by the plane model the farthest "
                "from the neck, its sag added, and on cloth the lowest over all of its range. The longer of "
                f"the two decides, for a hem that is too long does harm. {_RANGES}"
            ),
            cure=KNEE_CURE,
            origin=COMMON,
            limits=("knee_clearance_cm", "hem_sag_fraction"),
        ),
        Explanation(
            code=WAIST,
            title="With the arms level the hem covers the waist",
            meaning=(
                "Raised arms lift the hem: at the back, where the fabric slides up, by far more than the "
                "plane model shows. Held against the waist is the hem at the centre, back or front, "
                "whichever comes higher; towards the arms it always rises. The higher of the two models "
                f"decides. It is for you to say whether that is meant. {_RANGES}"
            ),
            cure="Work more body rows; or more stitches at the hem, so that raised arms lift less of it.",
            origin=COMMON,
            limits=("short_above_waist_cm",),
            severities=(Severity.MIND, Severity.GOOD),
        ),
        Explanation(
            code=NECK,
            title="The neck edge comes to rest on the shoulders",
            meaning=(
                "On cloth the neck edge slides down the back until the front holds it. It is off the "
                "shoulders where it lies beyond a shoulder tip; the plane model lays the neck flat, and half "
                "of that is then held against the same. The wider of the two decides. NECK-SLIP asks for "
                f"more room than this. {_RANGES}"
            ),
            cure="Work fewer stitches at the neck, or a firmer band, as far as the head still goes through.",
            origin=COMMON,
            severities=(Severity.MIND, Severity.GOOD),
        ),
    ),
)
