"""Gas: heat input from the meter's dial, energy as billed, the volume of an installation and of its purge.

By hand: 0.040 m³ in 120 s is 1.2 m³/h; at 39.0 MJ/m³ that is 1.2 × 39.0 / 3.6 = 13.0 kW gross.
"""

from fractions import Fraction

from splitpin.calculations.reading import Choice, Flag, Number, OutsideMethod, Reading, Result, words

CORRECTION = Fraction("1.02264")  # volume at the meter to standard pressure and temperature, as on gas bills
CUBIC_FOOT_M3 = Fraction("0.3048") ** 3  # exact: the foot is 0.3048 m
MJ_PER_KWH = Fraction("3.6")

METER_M3 = {"g4": Fraction("0.008"), "u6": Fraction("0.008"), "u16": Fraction("0.025"), "none": Fraction(0)}
COPPER_M3_PER_M = {15: Fraction("0.00014"), 22: Fraction("0.00032"), 28: Fraction("0.00054"), 35: Fraction("0.00084")}
FITTINGS = Fraction("1.1")  # a tenth of the pipe for its fittings
PURGE = Fraction("1.5")
SMALL_M3 = Fraction("0.035")


def gas_rate_metric(
    *, volume_m3: Fraction, seconds: Fraction, cv_mj_m3: Fraction, corrected: bool, net_divisor: Fraction
) -> tuple[Fraction, Fraction, Fraction]:
    """Gas rate as read (m³/h), heat input gross and net (kW). `corrected` multiplies the heat by 1.02264."""
    rate = volume_m3 * 3600 / seconds
    gross = rate * cv_mj_m3 / MJ_PER_KWH * (CORRECTION if corrected else 1)
    return rate, gross, gross / net_divisor


def gas_rate_imperial(
    *, volume_ft3: Fraction, seconds: Fraction, cv_mj_m3: Fraction, corrected: bool, net_divisor: Fraction
) -> tuple[Fraction, Fraction, Fraction]:
    """The same from a dial in cubic feet."""
    return gas_rate_metric(
        volume_m3=volume_ft3 * CUBIC_FOOT_M3,
        seconds=seconds,
        cv_mj_m3=cv_mj_m3,
        corrected=corrected,
        net_divisor=net_divisor,
    )


def gas_energy(*, volume_m3: Fraction, cv_mj_m3: Fraction, corrected: bool) -> tuple[Fraction]:
    """Energy in kWh, gross."""
    return (volume_m3 * (CORRECTION if corrected else 1) * cv_mj_m3 / MJ_PER_KWH,)


def installation_volume(
    *,
    meter: str,
    copper_15_m: Fraction,
    copper_22_m: Fraction,
    copper_28_m: Fraction,
    copper_35_m: Fraction,
    other_m3: Fraction,
) -> tuple[Fraction, Fraction]:
    """Installation and purge volume (m³). Raises OutsideMethod above 0.035 m³, where the small procedure ends."""
    lengths = {15: copper_15_m, 22: copper_22_m, 28: copper_28_m, 35: copper_35_m}
    pipe = sum((length * COPPER_M3_PER_M[size] for size, length in lengths.items()), Fraction(0))
    volume = METER_M3[meter] + other_m3 + FITTINGS * pipe
    if volume > SMALL_M3:
        raise OutsideMethod(
            f"the installation volume of {words(volume, 6)} m³ is above 0.035 m³, where the small procedure ends",
            "use the gas standard for larger installations; check the lengths",
        )
    return volume, PURGE * volume


_SECONDS = Number("seconds", "time on the stop-watch", "s", "1", "3600")
_CV = Number("cv_mj_m3", "gross calorific value of the natural gas", "MJ/m³", "37.5", "43.0", "39.5")
_CORRECTED = Flag("corrected", "multiply by 1.02264 for temperature and pressure", "no")
_NET = Number("net_divisor", "gross divided by net", "(no unit)", "1.10", "1.11", "1.11")
_RATE = (
    Result("rate", "gas rate as read", "m³/h", 3),
    Result("gross", "heat input, gross", "kW", 2),
    Result("net", "heat input, net (gross ÷ net_divisor)", "kW", 2, limit="heat-input"),
)
_RATE_SOURCE = (
    "worked examples of trade-training pages; calorific value 37.5 to 43.0 MJ/m³ from a public page on gas conversion; "
    "pages differ on the divisor (1.10 or 1.11) and on the correction, so both are inputs"
)
_RATE_NOTE = "Turn off every other gas appliance first. Compare gross with gross and net with net: see the data plate."
_FORMULA = "gross = volume × 3600 / seconds × cv / 3.6 [× 1.02264]; net = gross / net_divisor"

READINGS = (
    Reading(
        name="gas-rate-metric",
        title="Gas rate and heat input, meter in cubic metres",
        inputs=(
            Number("volume_m3", "gas that passed", "m³", "0.001", "100"),
            _SECONDS,
            _CV,
            _CORRECTED,
            _NET,
        ),
        results=_RATE,
        formula=_FORMULA,
        source=_RATE_SOURCE,
        note=_RATE_NOTE,
        compute=gas_rate_metric,
    ),
    Reading(
        name="gas-rate-imperial",
        title="Gas rate and heat input, meter in cubic feet",
        inputs=(
            Number("volume_ft3", "gas that passed", "ft³", "0.1", "3500"),
            _SECONDS,
            _CV,
            _CORRECTED,
            _NET,
        ),
        results=_RATE,
        formula="1 ft³ = 0.028316846592 m³ (exact); " + _FORMULA,
        source=_RATE_SOURCE,
        note=_RATE_NOTE,
        compute=gas_rate_imperial,
    ),
    Reading(
        name="gas-energy",
        title="Energy of a metered volume of gas",
        inputs=(
            Number("volume_m3", "gas that passed", "m³", "0.001", "1000000"),
            _CV,
            Flag("corrected", "multiply by 1.02264 for temperature and pressure, as bills do", "yes"),
        ),
        results=(Result("energy", "energy, gross", "kWh", 1),),
        formula="energy = volume [× 1.02264] × cv / 3.6",
        source="a public page on gas conversion, with a worked example",
        compute=gas_energy,
    ),
    Reading(
        name="installation-volume",
        title="Installation and purge volume of a small gas installation",
        inputs=(
            Choice("meter", "the meter", tuple(METER_M3)),
            *(Number(f"copper_{mm}_m", f"copper pipe of {mm} mm", "m", "0", "300", "0") for mm in COPPER_M3_PER_M),
            Number("other_m3", "any other volume, taken as it is", "m³", "0", "0.035", "0"),
        ),
        results=(
            Result("installation", "installation volume", "m³", 6),
            Result("purge", "purge volume", "m³", 6),
        ),
        formula="installation = meter + other + 1.1 × Σ(length × volume of a metre); purge = 1.5 × installation; "
        "a metre of copper: 15 mm 0.00014, 22 mm 0.00032, 28 mm 0.00054, 35 mm 0.00084 m³; "
        "meters: G4 and U6 0.008, U16 0.025 m³",
        source="a published pocket guide to tightness testing (rule, 0.035 m³ ceiling, G4 and U6); a trade forum "
        "(metres of copper, U16)",
        note="The permissible fall of the tightness test follows from the meter, the pipes or this volume, as the "
        "edition in force says. Above 0.02 m³ ignite the purge at an open burner as soon as possible.",
        decides="tightness-drop",
        compute=installation_volume,
    ),
)
