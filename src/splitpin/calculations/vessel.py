"""Expansion vessels: gas charge, cold fill, and the size by each of the forms in use.

By hand: 6 m of water above the vessel stand at 0.6 bar; with 0.3 bar on top the charge is 0.9 bar. A vessel gives up
the share 1 - (p0 + 1)/(pe + 1) of its volume between the gauge pressures p0 and pe (Boyle).
"""

from fractions import Fraction

from splitpin.calculations.reading import Choice, Flag, Number, OutsideMethod, Reading, Result, Value, words

BAR_PER_METRE = Fraction("0.1")  # 1 bar to 10 m of water
ABOVE_STATIC = Fraction("0.3")
ATMOSPHERE = 1
UNDER_RELIEF = Fraction("0.5")  # final pressure below the setting of the relief valve
PERCENT = 100
SMALL_EXPANSION_L = 15
COOLER = Fraction("0.8")

# litres of vessel for a litre of system, by relief valve and initial pressure
FACTORS = {
    ("2.0", "0.5"): Fraction("0.113"),
    ("2.0", "1.0"): Fraction("0.207"),
    ("2.5", "0.5"): Fraction("0.094"),
    ("2.5", "1.0"): Fraction("0.134"),
    ("2.5", "1.5"): Fraction("0.237"),
    ("3.0", "0.5"): Fraction("0.0833"),
    ("3.0", "1.0"): Fraction("0.109"),
    ("3.0", "1.5"): Fraction("0.156"),
}


def vessel_precharge(*, static_m: Fraction, rule: str) -> tuple[Fraction, Fraction]:
    """Gas charge and cold fill pressure (bar). Raises OutsideMethod where the rule of 1 bar ends, at 10 m."""
    if rule == "one-bar" and static_m > 10:
        raise OutsideMethod("the rule of 1 bar ends at 10 m of static height", "take rule=static-plus")
    charge = Fraction(1) if rule == "one-bar" else static_m * BAR_PER_METRE + ABOVE_STATIC
    return charge, charge + ABOVE_STATIC


def vessel_by_acceptance(
    *, system_l: Fraction, expansion_percent: Fraction, acceptance: Fraction
) -> tuple[Fraction, Fraction]:
    """Expansion and least vessel (l), the share of the vessel that takes water being known."""
    expansion = system_l * expansion_percent / PERCENT
    return expansion, expansion / acceptance


def vessel_by_pressures(
    *, system_l: Fraction, expansion_percent: Fraction, initial_bar: Fraction, final_bar: Fraction
) -> tuple[Fraction, Fraction, Fraction]:
    """Expansion (l), acceptance, and least vessel (l) between two gauge pressures."""
    acceptance = 1 - (initial_bar + ATMOSPHERE) / (_above(final_bar, initial_bar) + ATMOSPHERE)
    expansion = system_l * expansion_percent / PERCENT
    return expansion, acceptance, expansion / acceptance


def vessel_unvented(
    *, cylinder_l: Fraction, expansion_percent: Fraction, charge_bar: Fraction, relief_bar: Fraction
) -> tuple[Fraction, Fraction, Fraction]:
    """The same for stored hot water: charged to the reducing valve, final 0.5 bar below the expansion relief valve."""
    return vessel_by_pressures(
        system_l=cylinder_l,
        expansion_percent=expansion_percent,
        initial_bar=charge_bar,
        final_bar=relief_bar - UNDER_RELIEF,
    )


def reserve(system_l: Fraction, expansion_l: Fraction, rule: str) -> Fraction:
    """Water (l) that stands in the vessel cold: a fifth of an expansion below 15 l (rule `share` only), else 0.5 % of
    the system and at least 3 l.
    """
    if rule == "share" and expansion_l < SMALL_EXPANSION_L:
        return expansion_l / 5
    return max(Fraction(3), system_l / 200)


def vessel_with_reserve(
    *, system_l: Fraction, expansion_percent: Fraction, static_m: Fraction, relief_bar: Fraction, reserve_rule: str
) -> tuple[Fraction, Fraction, Fraction, Fraction, Fraction]:
    """Expansion, reserve (l), charge, final pressure (bar), least vessel (l)."""
    expansion, kept, charge, final = _duty(system_l, expansion_percent, static_m, relief_bar, reserve_rule)
    return expansion, kept, charge, final, (expansion + kept) * (final + ATMOSPHERE) / (final - charge)


def vessel_fill_range(
    *,
    vessel_l: Fraction,
    system_l: Fraction,
    expansion_percent: Fraction,
    static_m: Fraction,
    relief_bar: Fraction,
    reserve_rule: str,
) -> tuple[Value, ...]:
    """Least and greatest cold fill pressure (bar) of a given vessel, and in words whether it is large enough."""
    expansion, kept, charge, final = _duty(system_l, expansion_percent, static_m, relief_bar, reserve_rule)
    if vessel_l <= kept:
        raise OutsideMethod(
            f"the reserve of {words(kept, 1)} l fills the whole vessel",
            "it is far too small: size it by vessel-reserve",
        )
    gas = vessel_l * (charge + ATMOSPHERE)
    least = gas / (vessel_l - kept) - ATMOSPHERE
    most = (final + ATMOSPHERE) / (1 + expansion * (final + ATMOSPHERE) / gas) - ATMOSPHERE
    fits = "large enough" if least <= most else "too small: the least cold fill is above the greatest"
    return least, most, fits


def vessel_table(*, system_l: Fraction, relief_bar: str, initial_bar: str, below_88: bool) -> tuple[Fraction]:
    """Least vessel (l) by the table of factors. Raises OutsideMethod for the pair the table leaves empty."""
    factor = FACTORS.get((relief_bar, initial_bar))
    if factor is None:
        raise OutsideMethod(
            f"the table has no vessel for {initial_bar} bar under a relief valve of {relief_bar} bar",
            "take a lower initial pressure or size it by vessel-pressures",
        )
    return (system_l * factor * (COOLER if below_88 else 1),)


def _duty(
    system_l: Fraction, expansion_percent: Fraction, static_m: Fraction, relief_bar: Fraction, rule: str
) -> tuple[Fraction, Fraction, Fraction, Fraction]:
    expansion = system_l * expansion_percent / PERCENT
    charge = static_m * BAR_PER_METRE + ABOVE_STATIC
    final = _above(relief_bar - UNDER_RELIEF, charge)
    return expansion, reserve(system_l, expansion, rule), charge, final


def _above(final: Fraction, initial: Fraction) -> Fraction:
    if final <= initial:
        raise OutsideMethod(
            f"the final pressure of {words(final, 2)} bar is not above the initial {words(initial, 2)} bar: "
            "no vessel is large enough",
            "check the static height and the setting of the relief valve",
        )
    return final


_SYSTEM = Number("system_l", "water in the system", "l", "1", "100000")
_AT_80 = Number("expansion_percent", "expansion of the water; 2.81 when heated to 80 °C", "%", "0.1", "10", "2.81")
_STATIC = Number("static_m", "height of water above the vessel", "m", "0", "60")
_RELIEF = Number("relief_bar", "setting of the relief valve, at most 5 bar", "bar", "1", "5", "3.0")
_RESERVE = Choice("reserve_rule", "reserve: share of a small expansion, or always at least 3 l", ("share", "3-litres"))
_EXPANSION = Result("expansion", "expansion of the water", "l", 2)
_VESSEL = Result("vessel", "vessel, at least", "l", 1)
_NEXT = "Take the next size up that is made."
_E80 = "2.81 % at 80 °C from a public calculator page"

READINGS = (
    Reading(
        name="vessel-precharge",
        title="Gas charge and cold fill pressure of an expansion vessel",
        inputs=(
            _STATIC,
            Choice(
                "rule", "static height plus 0.3 bar, or 1 bar up to 10 m", ("static-plus", "one-bar"), "static-plus"
            ),
        ),
        results=(
            Result("charge", "gas charge, water side at zero", "bar", 2, limit="vessel-precharge"),
            Result("fill", "cold fill pressure", "bar", 2, limit="cold-fill-pressure"),
        ),
        formula="charge = static / 10 + 0.3 (or 1.0 up to 10 m); fill = charge + 0.3",
        source="a public trade encyclopaedia; 1 bar to 10 m of water from an appliance handbook (10.2 m)",
        note="Charge and read the gas only with the water side at zero. The maker's figure comes first.",
        compute=vessel_precharge,
    ),
    Reading(
        name="vessel-simple",
        title="Heating vessel from its acceptance",
        inputs=(
            _SYSTEM,
            Number("expansion_percent", "expansion of the water", "%", "0.1", "10", "4"),
            Number("acceptance", "share of the vessel that takes water", "(no unit)", "0.05", "0.95", "0.5"),
        ),
        results=(_EXPANSION, _VESSEL),
        formula="expansion = system × percent / 100; vessel = expansion / acceptance",
        source="a trade-training page, worked example",
        note=_NEXT,
        compute=vessel_by_acceptance,
    ),
    Reading(
        name="vessel-pressures",
        title="Vessel between two pressures",
        inputs=(
            _SYSTEM,
            Number("expansion_percent", "expansion of the water", "%", "0.1", "10", "3.5"),
            Number("initial_bar", "cold pressure on the gauge", "bar", "0", "10"),
            Number("final_bar", "hot pressure on the gauge", "bar", "0.1", "16"),
        ),
        results=(_EXPANSION, Result("acceptance", "acceptance", "ratio", 3), _VESSEL),
        formula="vessel = expansion / (1 - (initial + 1)/(final + 1))",
        source="formula and inputs in a boiler handbook; Boyle's law",
        note=_NEXT,
        compute=vessel_by_pressures,
    ),
    Reading(
        name="vessel-unvented",
        title="Vessel of an unvented hot-water store",
        inputs=(
            Number("cylinder_l", "stored water", "l", "5", "5000"),
            Number("expansion_percent", "expansion of the water", "%", "0.1", "10", "2"),
            Number("charge_bar", "gas charge: setting of the reducing valve", "bar", "0.5", "8", "3"),
            Number("relief_bar", "setting of the expansion relief valve", "bar", "1", "10", "6"),
        ),
        results=(_EXPANSION, Result("acceptance", "acceptance", "ratio", 3), _VESSEL),
        formula="vessel = expansion / (1 - (charge + 1)/(relief - 0.5 + 1))",
        source="a trade-training page, worked example",
        note=_NEXT,
        compute=vessel_unvented,
    ),
    Reading(
        name="vessel-reserve",
        title="Heating vessel with a water reserve",
        inputs=(_SYSTEM, _AT_80, _STATIC, _RELIEF, _RESERVE),
        results=(
            _EXPANSION,
            Result("reserve", "reserve", "l", 2),
            Result("charge", "gas charge p0", "bar", 2),
            Result("final", "final pressure pe", "bar", 2),
            _VESSEL,
        ),
        formula="p0 = static / 10 + 0.3; pe = relief - 0.5; vessel = (expansion + reserve)(pe + 1)/(pe - p0); "
        "reserve = 0.5 % of the system, at least 3 l (share: 20 % of an expansion below 15 l)",
        source=f"form of EN 12828 from memory; reserve rule from a public calculator page; {_E80}",
        note=f"The form is from memory: read the standard before you rely on it. {_NEXT}",
        compute=vessel_with_reserve,
    ),
    Reading(
        name="vessel-fill-range",
        title="Cold fill pressures that suit a vessel that is there",
        inputs=(
            Number("vessel_l", "the vessel", "l", "1", "20000"),
            _SYSTEM,
            _AT_80,
            _STATIC,
            _RELIEF,
            _RESERVE,
        ),
        results=(
            Result("least", "least cold fill", "bar", 2),
            Result("most", "greatest cold fill", "bar", 2),
            Result("fits", "the vessel is"),
        ),
        formula="least = vessel (p0 + 1)/(vessel - reserve) - 1; most = (pe + 1)/(1 + expansion (pe + 1)/(vessel "
        "(p0 + 1))) - 1; p0, pe, reserve as for vessel-reserve",
        source=f"form of EN 12828 from memory; reserve rule from a public calculator page; {_E80}",
        note="The form is from memory: read the standard before you rely on it.",
        compute=vessel_fill_range,
    ),
    Reading(
        name="vessel-table",
        title="Heating vessel by the table of factors",
        inputs=(
            _SYSTEM,
            Choice("relief_bar", "setting of the relief valve, bar", ("2.0", "2.5", "3.0"), unit="bar"),
            Choice("initial_bar", "charge and initial pressure, bar", ("0.5", "1.0", "1.5"), unit="bar"),
            Flag("below_88", "the flow stays below 88 °C: 0.8 of the vessel will do", "no"),
        ),
        results=(_VESSEL,),
        formula="vessel = factor × system [× 0.8]; factor by relief valve / initial pressure: "
        + "; ".join(f"{relief}/{initial} {float(factor):g}" for (relief, initial), factor in FACTORS.items()),
        source="table carried alike by several boiler handbooks, after BS 5449 and BS 7074",
        note=_NEXT,
        compute=vessel_table,
    ),
)
