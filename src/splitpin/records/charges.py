"""What the firm charges, as `[charges]` of `firm.toml` says it. Money stands in quotes, so that it is read exactly."""

from decimal import Decimal
from typing import Annotated, Any, Literal

from pydantic import AfterValidator, BeforeValidator, Field
from pydantic_core import PydanticCustomError

from splitpin.records.base import Record, Text, Texts
from splitpin.units.currencies import CURRENCIES
from splitpin.units.money import Rounding, amount


def _amount(value: Any) -> Any:
    """Text in quotes or a whole number; a figure with a point but without quotes has already lost its exact value."""
    if isinstance(value, Decimal):
        return value
    if isinstance(value, int) and not isinstance(value, bool):
        value = str(value)
    read = amount(value) if isinstance(value, str) else None
    if read is None:
        raise PydanticCustomError("amount", "not an amount")
    return read


def _currency(code: str) -> str:
    if code not in CURRENCIES:
        raise PydanticCustomError(
            "literal_error", "unknown", {"expected": ", ".join(f"'{code}'" for code in CURRENCIES)}
        )
    return code


Amount = Annotated[Decimal, BeforeValidator(_amount), Field(ge=0)]
Percent = Annotated[Decimal, BeforeValidator(_amount), Field(ge=0, le=1000)]
Confidence = Annotated[int, Field(ge=50, le=99)]  # jobs of 100 that are done within the time that is sold
WholeMinutes = Annotated[int, Field(ge=0, le=1_440)]
CurrencyCode = Annotated[str, AfterValidator(_currency)]


class Labour(Record):
    """`[charges.labour]`: how time becomes money. Rates are for one person."""

    hour: Amount
    first_hour: Amount | None = None  # the rate during the first `first_min`
    first_min: Annotated[int, Field(ge=1, le=1_440)] | None = None
    clock: Literal["on-site", "hands-on"] = "on-site"
    minimum_min: WholeMinutes = 0
    step_min: Annotated[int, Field(ge=1, le=480)] | None = None
    direction: Literal["up", "nearest", "actual"]
    return_visit: Literal["as-any-visit", "minimum-waived"] = "as-any-visit"


class Travel(Record):
    """`[charges.travel]`: the way to site only, never back."""

    charge: Literal["none", "flat", "time"]
    flat: Amount | None = None  # for each visit
    hour: Amount | None = None  # for one person
    cap_min: WholeMinutes | None = None


class Goods(Record):
    """`[charges.parts]`: mark-up on cost or margin on price, and how things that are used up are charged."""

    markup_percent: Percent | None = None
    margin_percent: Annotated[Decimal, BeforeValidator(_amount), Field(ge=0, lt=100)] | None = None
    consumables: Literal["each", "flat", "included"] = "each"
    flat: Amount | None = None


class Tax(Record):
    """`[charges.tax]`: one rate on everything; without this table no tax is charged."""

    name: Text
    rate_percent: Percent
    level: Literal["line", "invoice"]
    rounding: Rounding
    step: Annotated[Decimal, BeforeValidator(_amount), Field(gt=0)] | None = None  # default: the currency's smallest
    never_nil: bool = False


class Charges(Record):
    """`[charges]`."""

    currency: CurrencyCode
    rounding: Rounding  # of the amount of every line
    at: Confidence = 80
    valid_days: Annotated[int, Field(ge=1, le=366)] | None = None
    included: Texts = ()
    excluded: Texts = ()
    terms: Texts = ()
    labour: Labour
    travel: Travel
    parts: Goods
    tax: Tax | None = None
