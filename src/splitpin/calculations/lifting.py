"""The revised lifting equation: what may be lifted with two hands, standing, in a given place, and how near a load is.

RWL = LC HM VM DM AM FM CM, the load constant times six multipliers of at most 1; the index is load / RWL. By hand,
metric: close (H 25 cm), at knuckle height (V 75), moved 25 cm, not turned, seldom, good grip: every multiplier is 1 and
the weight 23 kg. Source: T. R. Waters, V. Putz-Anderson, A. Garg, Applications Manual for the Revised NIOSH Lifting
Equation, DHHS (NIOSH) Publication 94-110, revised 9/2021, public domain, read through a page-referenced transcription.

The method ends with its scope: kneeling, seated, cramped, one hand, an unstable load, carrying and more are answered
"outside the method", never with a figure. All arithmetic is exact; the manual's own examples round every multiplier to
two places and differ in the last digit.
"""

from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from splitpin.calculations.reading import Choice, Flag, Number, OutsideMethod, Reading, Result, Value
from splitpin.units import listed


@dataclass(frozen=True, slots=True)
class Constants:
    """One system of units: the two sets of the manual are not exact conversions of each other, so one is chosen."""

    load: Fraction  # LC
    reach: Fraction  # HM = reach / H; a shorter H counts as this
    knuckle: Fraction  # VM = 1 - slope |V - knuckle|; also where CM changes
    slope: Fraction
    travel: Fraction  # DM = 0.82 + travel / D
    least_travel: Fraction  # a shorter D counts as this
    most_reach: Fraction
    most_height: Fraction
    most_travel: Fraction


METRIC = Constants(*(Fraction(x) for x in ("23", "25", "75", "0.003", "4.5", "25", "63", "175", "175")))  # kg, cm
# The three greatest values of the second set are from memory.
US = Constants(*(Fraction(x) for x in ("51", "10", "30", "0.0075", "1.8", "10", "25", "70", "70")))  # lb, in
DM_BASE, AM_SLOPE, MOST_TURN = Fraction("0.82"), Fraction("0.0032"), 135

# FM, table 5: lifts a minute, then up to 1, 2 and 8 h, each with V below and from 75 cm (30 in) on.
HOURS = ("up-to-1", "up-to-2", "up-to-8")
FREQUENCY: tuple[tuple[Fraction, ...], ...] = tuple(
    tuple(Fraction(cell) for cell in row.split())
    for row in (
        "0.2 1    1    0.95 0.95 0.85 0.85",
        "0.5 0.97 0.97 0.92 0.92 0.81 0.81",
        "1   0.94 0.94 0.88 0.88 0.75 0.75",
        "2   0.91 0.91 0.84 0.84 0.65 0.65",
        "3   0.88 0.88 0.79 0.79 0.55 0.55",
        "4   0.84 0.84 0.72 0.72 0.45 0.45",
        "5   0.80 0.80 0.60 0.60 0.35 0.35",
        "6   0.75 0.75 0.50 0.50 0.27 0.27",
        "7   0.70 0.70 0.42 0.42 0.22 0.22",
        "8   0.60 0.60 0.35 0.35 0.18 0.18",
        "9   0.52 0.52 0.30 0.30 0    0.15",
        "10  0.45 0.45 0.26 0.26 0    0.13",
        "11  0.41 0.41 0    0.23 0    0",
        "12  0.37 0.37 0    0.21 0    0",
        "13  0    0.34 0    0    0    0",
        "14  0    0.31 0    0    0    0",
        "15  0    0.28 0    0    0    0",
    )
)
# CM, table 7: V below and from 75 cm (30 in) on.
COUPLING = {
    "good": (Fraction(1), Fraction(1)),
    "fair": (Fraction("0.95"), Fraction(1)),
    "poor": (Fraction("0.90"), Fraction("0.90")),
}
NOT_ALLOWED = "not allowed"


def frequency_multiplier(lifts_a_minute: Fraction, hours: str, *, from_knuckle: bool) -> Fraction:
    """FM; `from_knuckle`: the hands are at 75 cm (30 in) or higher where the lift begins. 0: not allowed.

    Between two rows it is interpolated. Towards a row of 0 the manual leaves it open: that counts as not allowed (our
    own rule). Below 0.2 a minute it is that of 0.2.
    """
    column = 1 + 2 * HOURS.index(hours) + from_knuckle
    if lifts_a_minute <= FREQUENCY[0][0]:
        return FREQUENCY[0][column]
    for low, high in pairwise(FREQUENCY):
        if low[0] < lifts_a_minute <= high[0]:
            if high[column] == 0:
                return Fraction(0)
            share = (lifts_a_minute - low[0]) / (high[0] - low[0])
            return low[column] + share * (high[column] - low[column])
    return Fraction(0)


def place_multipliers(
    units: Constants, *, h: Fraction, v: Fraction, d: Fraction, a: Fraction, coupling: str
) -> tuple[Fraction, Fraction, Fraction, Fraction, Fraction]:
    """HM, VM, DM, AM, CM at one end of a lift: `h` out from the ankles, `v` up, `d` up or down in all, `a` degrees."""
    zero = Fraction(0)
    reach, travel = max(h, units.reach), max(d, units.least_travel)
    return (
        zero if h > units.most_reach else units.reach / reach,
        zero if v > units.most_height else 1 - units.slope * abs(v - units.knuckle),
        zero if d > units.most_travel else DM_BASE + units.travel / travel,
        zero if a > MOST_TURN else 1 - AM_SLOPE * a,
        COUPLING[coupling][v >= units.knuckle],
    )


def recommended_weight(
    units: Constants,
    *,
    h: Fraction,
    v: Fraction,
    d: Fraction,
    a: Fraction,
    coupling: str,
    frequency: Fraction,
) -> Fraction:
    """RWL at one end in the weight unit of `units`; 0 where the lift is not allowed.

    `frequency` is FM: that of the height where the lift begins, at both ends (p. 15); the grip counts at the end that
    is reckoned (from example 4).
    """
    weight = units.load * frequency
    for multiplier in place_multipliers(units, h=h, v=v, d=d, a=a, coupling=coupling):
        weight *= multiplier
    return weight


def lifting_index(
    *,
    load_kg: Fraction,
    posture: str,
    hands: str,
    otherwise: str,
    h_origin_cm: Fraction,
    v_origin_cm: Fraction,
    a_origin_deg: Fraction,
    h_destination_cm: Fraction,
    v_destination_cm: Fraction,
    a_destination_deg: Fraction,
    control: bool,
    lifts_a_minute: Fraction,
    hours: str,
    coupling: str,
) -> tuple[Value, Value, Value]:
    """RWL at the origin and at the destination (kg), and the index of the end that allows less.

    Without control at the destination only the origin counts. Raises OutsideMethod for what the method leaves out.
    """
    outside = [word for word in (posture, hands, otherwise) if word not in ("standing", "two", "nothing")]
    if outside:
        said = listed(["one hand" if word == "one" else word.replace("-", " ") for word in outside])
        raise OutsideMethod(
            f"outside the method: {said}",
            "no figure can be given: assess this lift, take less, use an aid or a second person, make room to stand",
        )
    frequency = frequency_multiplier(lifts_a_minute, hours, from_knuckle=v_origin_cm >= METRIC.knuckle)
    travel = abs(v_destination_cm - v_origin_cm)
    ends = [(h_origin_cm, v_origin_cm, a_origin_deg), (h_destination_cm, v_destination_cm, a_destination_deg)]
    origin, destination = (
        recommended_weight(METRIC, h=h, v=v, d=travel, a=a, coupling=coupling, frequency=frequency) for h, v, a in ends
    )
    least = min(origin, destination) if control else origin
    return (
        origin or NOT_ALLOWED,
        (destination or NOT_ALLOWED) if control else "not counted",
        load_kg / least if least else NOT_ALLOWED,
    )


_OTHERWISE = (
    "nothing",
    "unstable-load",
    "carrying-or-pushing",
    "shovel-or-barrow",
    "fast-lifting",
    "slippery-floor",
    "over-8-hours",
    "hot-or-cold",
)

READINGS = (
    Reading(
        name="lifting-index",
        title="Lifting index of a load by the revised NIOSH lifting equation",
        inputs=(
            Number("load_kg", "what is lifted", "kg", "0.1", "500"),
            Choice("posture", "how one works", ("standing", "kneeling", "seated", "cramped")),
            Choice("hands", "hands on the load", ("two", "one")),
            Choice("otherwise", "what else the method leaves out", _OTHERWISE),
            Number("h_origin_cm", "hands out from the middle of the ankles, where it is lifted", "cm", "0", "200"),
            Number("v_origin_cm", "hands above the floor, where it is lifted", "cm", "0", "300"),
            Number(
                "a_origin_deg", "turn of the load away from straight ahead, where it is lifted", "°", "0", "180", "0"
            ),
            Number("h_destination_cm", "hands out from the middle of the ankles, where it is put", "cm", "0", "200"),
            Number("v_destination_cm", "hands above the floor, where it is put", "cm", "0", "300"),
            Number("a_destination_deg", "turn away from straight ahead, where it is put", "°", "0", "180", "0"),
            Flag("control", "it must be placed with care, so that the destination counts too", "yes"),
            Number("lifts_a_minute", "lifts a minute; fewer than 0.2 count as 0.2", "a minute", "0", "60"),
            Choice("hours", "hours of such lifting in the shift, with rest after", HOURS),
            Choice("coupling", "how good the grip is", tuple(COUPLING)),
        ),
        results=(
            Result("origin", "recommended weight where it is lifted", "kg", 2),
            Result("destination", "recommended weight where it is put", "kg", 2),
            Result("index", "lifting index", "ratio", 2, limit="lifting-index"),
        ),
        formula="RWL = 23 kg × 25/H × (1 - 0.003 |V - 75|) × (0.82 + 4.5/D) × (1 - 0.0032 A) × FM × CM; "
        "index = load / RWL; H and D at least 25 cm; above H 63, V 175, D 175 cm or A 135°: not allowed; FM by lifts, "
        "hours and V where it is lifted, table 5; CM by grip and V, table 7",
        source="DHHS (NIOSH) Publication 94-110, revised 9/2021, read through a page-referenced transcription",
        note="For two hands, standing, with room. Above the table of lifts: not allowed. Between a row that allows and "
        "one that does not: not allowed (our own rule).",
        compute=lifting_index,
    ),
)
