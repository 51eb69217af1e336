"""Lifting by the guideline filter, and ladders.

By hand: a man lifts at most 25 kg close to the body between elbow and knuckle height; twisting beyond 45° takes a tenth
off and one to two lifts a minute three tenths: 25 × 0.9 × 0.7 = 15.75 kg.
"""

import math
from fractions import Fraction

from splitpin.calculations.reading import Choice, Number, Reading, Result

# Guideline kg of the HSE filter (L23, INDG143) by where the hands are, top to bottom: close to the body, arms extended.
# From a public copy of its diagram, agreeing with memory; the official diagram was not seen.
ZONES = (
    "above-shoulder",
    "shoulder-to-elbow",
    "elbow-to-knuckle",
    "knuckle-to-mid-lower-leg",
    "below-mid-lower-leg",
)
FILTER_KG = {
    ("men", "close"): (10, 20, 25, 20, 10),
    ("men", "extended"): (5, 10, 15, 10, 5),
    ("women", "close"): (7, 13, 16, 13, 7),
    ("women", "extended"): (3, 7, 10, 7, 3),
}
TWIST = {"up-to-45": Fraction(1), "over-45": Fraction("0.9"), "over-90": Fraction("0.8")}
PACE = {"seldom": Fraction(1), "1-2": Fraction("0.7"), "5-8": Fraction("0.5"), "over-12": Fraction("0.2")}
UP_FOR_ONE_OUT = 4


def lifting_filter(
    *, figures: str, reach: str, hands_from: str, hands_to: str, twist: str, lifts_a_minute: str
) -> tuple[Fraction]:
    """Guideline mass (kg): the least of the zones that the hands pass through, after the cuts for twisting and pace."""
    first, last = sorted((ZONES.index(hands_from), ZONES.index(hands_to)))
    base = min(FILTER_KG[figures, reach][first : last + 1])
    return (base * TWIST[twist] * PACE[lifts_a_minute],)


def best_guideline_kg(figures: str) -> int:
    """The most that the filter gives one person anywhere, and so the most that any handling may leave to one."""
    return max(FILTER_KG[figures, "close"])


def ladder_foot(*, height_m: Fraction) -> tuple[Fraction, Fraction]:
    """How far out the foot stands (m), and the angle (°)."""
    return height_m / UP_FOR_ONE_OUT, Fraction(math.degrees(math.atan(UP_FOR_ONE_OUT)))


READINGS = (
    Reading(
        name="lifting-filter",
        title="Guideline mass for lifting by one person",
        inputs=(
            Choice("figures", "whose figures", ("men", "women")),
            Choice("reach", "how far out the hands are", ("close", "extended"), "close"),
            Choice("hands_from", "where the hands begin", ZONES, "elbow-to-knuckle"),
            Choice("hands_to", "where the hands end; the least figure on the way counts", ZONES, "elbow-to-knuckle"),
            Choice("twist", "twist of the trunk, degrees", tuple(TWIST), "up-to-45"),
            Choice("lifts_a_minute", "pace; between two bands take the faster", tuple(PACE), "seldom"),
        ),
        results=(Result("guideline", "guideline mass", "kg", 2),),
        formula="figure × (1, 0.9 over 45°, 0.8 over 90°) × (1, 0.7 at 1-2, 0.5 at 5-8, 0.2 over 12 a minute); "
        "figures from the shoulder down, close/extended: men 10/5, 20/10, 25/15, 20/10, 10/5 kg, "
        "women 7/3, 13/7, 16/10, 13/7, 7/3 kg",
        source="the HSE manual-handling filter (L23, INDG143): figures from a public copy of its diagram, cuts as "
        "reproduced in a training booklet; between bands: our own rule",
        note="A filter, not a limit: heavier, farther, cramped or kneeling work needs an assessment, a second person "
        "or an aid. Carry up to about 10 m.",
        compute=lifting_filter,
    ),
    Reading(
        name="ladder-foot",
        title="Foot of a leaning ladder",
        inputs=(Number("height_m", "height at which it leans", "m", "0.5", "12"),),
        results=(Result("out", "foot out from the wall", "m", 2), Result("angle", "angle to the ground", "°", 2)),
        formula="out = height / 4; angle = arctan 4",
        source="1 out for 4 up: a public page on ladder safety",
        note="Low risk and short duration only.",
        compute=ladder_foot,
    ),
)
