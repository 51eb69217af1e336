"""One job to be priced: two people, a part, three washers, two consumables and a seal that an inspection decides on."""

import datetime
import math
from dataclasses import dataclass
from decimal import Decimal
from statistics import NormalDist
from typing import Any

from splitpin.planning import Planned
from splitpin.pricing import quote
from splitpin.records.catalogue import Part
from splitpin.records.charges import Charges
from splitpin.records.firm import FirmFile, FirmHead, FirmTimes
from splitpin.records.job import JobFile, JobHead, Site
from splitpin.records.library import Library, Visit
from splitpin.records.plan import Plan, PlanPart, Step, Times
from splitpin.records.prices import Price
from splitpin.records.quote import Quote
from splitpin.timing import PossibleEvent


@dataclass(frozen=True)
class LogNormal:
    """A log-normal time, for the tests alone: the standard library's normal distribution of its logarithm."""

    median: float
    log_sd: float

    @property
    def mean(self) -> float:
        return self.median * math.exp(self.log_sd**2 / 2)

    @property
    def sd(self) -> float:
        return self.mean * math.sqrt(math.expm1(self.log_sd**2))

    def percentile(self, p: float) -> float:
        return self.median * math.exp(self.log_sd * NormalDist().inv_cdf(p / 100))

    def chance_over(self, seconds: float) -> float:
        return 1 - NormalDist().cdf(math.log(seconds / self.median) / self.log_sd) if seconds > 0 else 1.0

    def expected_over(self, seconds: float) -> float:
        if seconds <= 0:
            return self.mean - seconds
        late = math.log(self.median / seconds) / self.log_sd
        return max(0.0, self.mean * NormalDist().cdf(late + self.log_sd) - seconds * NormalDist().cdf(late))

    def times(self, factor: float) -> "LogNormal":
        return LogNormal(self.median * factor, self.log_sd)


@dataclass(frozen=True)
class Known:
    """An estimate of which nothing but this is known."""

    elapsed: LogNormal
    hands_on: LogNormal
    events: tuple[PossibleEvent, ...] = ()
    visits: int = 0


HOUR_AND_A_HALF = LogNormal(median=5400, log_sd=0.2)
HOUR = LogNormal(median=3600, log_sd=0.1)
ESTIMATE = Known(elapsed=HOUR_AND_A_HALF, hands_on=HOUR)

PARTS = (
    PlanPart(part="head", title="circulator head", quantity=1, kind="replace", certain=True),
    PlanPart(part="washer", title="union washer", quantity=3, kind="seal", certain=True, pack=10),
    PlanPart(part="gasket", title="cover gasket", quantity=1, kind="seal", certain=False),
    PlanPart(part="cloth", title="lint-free cloth", quantity=1, kind="consumable", certain=True),
    PlanPart(part="grease", title="silicone grease", quantity=1, kind="consumable", certain=True),
)
PRICES = {
    "head": Price(part="head", cost=Decimal("84.20")),
    "washer": Price(part="washer", cost=Decimal("3.25"), pack=10),
    "gasket": Price(part="gasket", cost=Decimal("2.30")),
    "cloth": Price(part="cloth", cost=Decimal("0.40")),
    "grease": Price(part="grease", cost=Decimal("1.10")),
}


def plan(parts: tuple[PlanPart, ...] = PARTS, people: int = 2, **keys: Any) -> Plan:
    step = Step(n=1, phase="work", action="work", text="Change the head.", seconds=5400, start_s=0)
    given: dict[str, Any] = {"status": "proved", "gap_s": 0, "steps": (step,), **keys}
    return Plan(
        splitpin="0",
        job="J-7",
        title="Head stuck",
        assembly="circulator-set",
        assembly_title="circulator between service valves",
        times=Times(hands_on_s=5400, waiting_s=0, elapsed_s=5400),
        people=people,
        parts=parts,
        **given,
    )


def visit(**keys: Any) -> Visit:
    """A job with these keys beside those that must be there; half an hour away unless they say otherwise."""
    head = JobHead.model_validate(
        {"reference": "J-7", "title": "Head stuck", "assembly": "circulator-set", "travel_min": 40, **keys}
    )
    firm = FirmFile(
        format=1,
        firm=FirmHead(id="f", title="Fellside Heating", jurisdiction="gb", phone="01632 960 101"),
        times=FirmTimes(pickup_s=5, move_s=8, basis="from memory"),
    )
    parts = {
        "clip": Part(id="clip", title="spring clip", kind="fixing"),
        "oil": Part(id="oil", title="releasing oil", kind="consumable"),
        "washer": Part(id="washer", title="union washer", kind="seal"),
    }
    return Visit(JobFile(format=1, job=head, site=Site(name="Mill House")), firm, Library(parts=parts))


def charges(**tables: Any) -> Charges:
    """Rates that are easy to reckon with; a table that is given stands in for the one here, None leaves it out."""
    given = {
        "currency": "GBP",
        "rounding": "half-up",
        "labour": {
            "hour": "40.00",
            "first_hour": "60.00",
            "first_min": 60,
            "minimum_min": 60,
            "step_min": 15,
            "direction": "up",
        },
        "travel": {"charge": "time", "hour": "30.00", "cap_min": 30},
        "parts": {"markup_percent": "20", "consumables": "each"},
        "tax": {"name": "VAT", "rate_percent": "20", "level": "invoice", "rounding": "half-up"},
        **tables,
    }
    return Charges.model_validate({key: table for key, table in given.items() if table is not None})


def quoted(
    plan: Plan,
    charges: Charges,
    prices: dict[str, Price] = PRICES,
    job: Visit | None = None,
    estimate: Known = ESTIMATE,
    **keys: Any,
) -> Quote:
    return quote(Planned(job or visit(), plan, None), charges, prices, estimate, **keys)


CLIP_BREAKS = PossibleEvent("clip-breaks", "broken clip", 0.126, 40.0, 320.0, ("clip", "oil"), (3,), "from memory")
WEEPS = PossibleEvent("weeps", "joint that weeps", 0.02, 18.0, 900.0, ("washer", "clip"), (9,), "from memory")
RARE = PossibleEvent("rare", "thread that spoils", 0.0099, 8.0, 800.0, ("nut",), (9,), "from memory")

# Everything that a quote can show: tax by line to a tenth of a penny, a line without a price, events, dates, terms.
EVERYTHING = quoted(
    plan(tasks=("replace the motor head",)),
    charges(
        tax={"name": "VAT", "rate_percent": "17.5", "level": "line", "rounding": "down", "step": "0.001"},
        included=["taking away the old head"],
        excluded=["making good of decoration"],
        terms=["payment within 14 days of the invoice"],
    ),
    {
        **{name: price for name, price in PRICES.items() if name != "grease"},
        "clip": Price(part="clip", cost=Decimal(2)),
    },
    estimate=Known(HOUR_AND_A_HALF, HOUR, events=(CLIP_BREAKS, WEEPS, RARE), visits=4),
    date=datetime.date(2026, 11, 25),
    valid_until=datetime.date(2026, 12, 24),
)
