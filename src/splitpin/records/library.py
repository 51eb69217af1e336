"""Everything the files say, gathered: the catalogue, the procedures, one job and its firm."""

from dataclasses import dataclass, field

from splitpin.notices import NOWHERE, Place
from splitpin.records.assembly import Assembly
from splitpin.records.catalogue import (
    Boundary,
    Handling,
    Hardware,
    Kind,
    Licence,
    Medium,
    Part,
    Seal,
    Tool,
    UsualWork,
)
from splitpin.records.effort import Event, SiteFactor, TimeSpread
from splitpin.records.firm import FirmFile
from splitpin.records.job import JobFile
from splitpin.records.procedure import Caution, Condition, Emergency, Fact, JobTemplate, LimitsFile, Proof, Wording
from splitpin.records.round import RoundFile, RoundVisit, Stock, VanFile


@dataclass(frozen=True, slots=True)
class Library:
    """Rows by id, in the order of their ids. Handling rows are sorted by mass; limits files by jurisdiction."""

    assemblies: dict[str, Assembly] = field(default_factory=dict)
    kinds: dict[str, Kind] = field(default_factory=dict)
    hardware: dict[str, Hardware] = field(default_factory=dict)
    seals: dict[str, Seal] = field(default_factory=dict)
    tools: dict[str, Tool] = field(default_factory=dict)
    parts: dict[str, Part] = field(default_factory=dict)
    media: dict[str, Medium] = field(default_factory=dict)
    boundaries: dict[str, Boundary] = field(default_factory=dict)
    licences: dict[str, Licence] = field(default_factory=dict)
    handling: tuple[Handling, ...] = ()
    usual_work: dict[str, UsualWork] = field(default_factory=dict)
    time_spreads: dict[str, TimeSpread] = field(default_factory=dict)
    site_factors: dict[str, SiteFactor] = field(default_factory=dict)
    events: dict[str, Event] = field(default_factory=dict)
    conditions: dict[str, Condition] = field(default_factory=dict)
    proofs: dict[str, Proof] = field(default_factory=dict)
    cautions: dict[str, Caution] = field(default_factory=dict)
    emergencies: dict[str, Emergency] = field(default_factory=dict)
    wordings: dict[str, Wording] = field(default_factory=dict)
    facts: dict[str, Fact] = field(default_factory=dict)
    limits: dict[str, LimitsFile] = field(default_factory=dict)
    templates: dict[str, JobTemplate] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Visit:
    """One job with the firm that does it and everything it refers to."""

    job: JobFile
    firm: FirmFile
    library: Library
    place: Place = NOWHERE

    @property
    def assembly(self) -> Assembly:
        """The plant that the job is about; present, or reading would have refused the job."""
        return self.library.assemblies[self.job.job.assembly]


@dataclass(frozen=True, slots=True)
class Round:
    """One round with its van, its firm, its jobs in visiting order, and what lies in the van and in the store."""

    file: RoundFile
    van: VanFile
    firm: FirmFile
    visits: tuple[tuple[RoundVisit, Visit], ...]
    in_van: tuple[Stock, ...] = ()
    in_store: tuple[Stock, ...] = ()
