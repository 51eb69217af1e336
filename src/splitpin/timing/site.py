"""What the site does to the time of each kind of element, and what it costs once a visit."""

from typing import NamedTuple

from splitpin.records.effort import ElementKind, SiteFactor
from splitpin.records.library import Visit
from splitpin.timing.elements import Element, log_sd, three_point
from splitpin.units import SECONDS_PER_MINUTE


class Site(NamedTuple):
    """The factors that hold on one visit, those of the plant's state first, then the job's in its order."""

    rows: tuple[SiteFactor, ...]

    def factor(self, kind: ElementKind) -> float:
        """All factors on one kind of element, multiplied."""
        product = 1.0
        for row in self.rows:
            product *= float(getattr(row, kind))
        return product

    def applied(self, element: Element) -> Element:
        """The element as it is on this site."""
        return element._replace(seconds=element.seconds * self.factor(element.kind))

    def once(self) -> tuple[Element, ...]:
        """What the site costs once, before the first step (number 0): carrying up, lighting, boards."""
        found = []
        for row in self.rows:
            if row.min is not None:
                mean, sd = three_point(row.min.low, row.min.mode, row.min.high)
                seconds = mean * SECONDS_PER_MINUTE
                found.append(Element(0, "move", row.id, seconds, log_sd(mean, sd), f"site:{row.id}"))
        return tuple(found)


def site_of(visit: Visit) -> Site:
    """The site of a visit: rows for the plant's state and rows that the job names, each once."""
    rows, job = visit.library.site_factors, visit.job.job
    by_state = [row for row in rows.values() if row.plant == job.plant]
    named = [rows[name] for name in dict.fromkeys(job.site_factors)]
    return Site((*by_state, *(row for row in named if row not in by_state)))
