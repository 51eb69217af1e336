"""Every notice code, its severity and what it means; `docs/notices.md` explains each at length."""

from dataclasses import dataclass
from typing import Literal


@dataclass(frozen=True, slots=True)
class Code:
    """One kind of finding."""

    severity: Literal["error", "warning", "note"]
    meaning: str


CODES: dict[str, Code] = {
    # the file itself
    "file-missing": Code("error", "there is no such file"),
    "file-unreadable": Code("error", "the file cannot be read"),
    "file-not-utf8": Code("error", "the file is not UTF-8 text"),
    "json-syntax": Code("error", "the file is not JSON"),
    "toml-syntax": Code("error", "the file is not TOML 1.0"),
    "csv-syntax": Code("error", "the file is no table of cells parted by commas"),
    "file-kind": Code("error", "nothing in the file says what it describes, or it describes two kinds of thing"),
    "file-name": Code("error", "a file of the catalogue or the procedures that is not called as its id"),
    "format-unknown": Code("error", "`format` is missing or is not a number this version reads"),
    # one value
    "unknown-key": Code("error", "a key that does not belong there"),
    "missing-key": Code("error", "a key that must be there is not"),
    "wrong-kind": Code("error", "a value of the wrong kind: text where a number belongs, and so on"),
    "wrong-unit": Code("error", "a quantity under a key of another unit"),
    "out-of-range": Code("error", "a number, or the length of a text or list, outside what is possible"),
    "not-a-choice": Code("error", "a word that is not one of those allowed"),
    "bad-id": Code("error", "an id that is not lower-kebab"),
    "one-of": Code("error", "keys of one table of which exactly one may be given"),
    "check-digit": Code("error", "an article number whose check digit does not fit"),
    "no-source": Code("error", "a figure with neither `source` nor `basis`"),
    "bad-designation": Code("error", "a standard designation that cannot be read"),
    # references
    "duplicate-id": Code("error", "the same id declared twice"),
    "unknown-id": Code("error", "a name that nothing declares"),
    "assembly-missing": Code("error", "the job names an assembly that is not in the catalogue"),
    "not-carried": Code("error", "a part said to include a component that it does not carry"),
    "point-misfit": Code("error", "a point, or the words of one, that does not fit where it is named"),
    "not-said": Code("note", "what a law of plans needs to know of a plant, and its file does not say"),
    "part-unknown": Code("note", "a row about a part that the catalogue does not have"),
    # rules that contradict each other
    "cycle": Code("error", "things that wait for each other in a circle"),
    "joint-holds-nothing": Code("error", "a joint whose two ends are one thing"),
    "never-free": Code("error", "a component that no sequence of openings ever frees"),
    "still-held": Code("error", "a way right out that leaves a joint made"),
    "conditions-clash": Code("error", "two conditions needed together exclude each other"),
    "proof-never-runs": Code("error", "a proof whose stage or requirements can never come about"),
    "no-isolation": Code("error", "a circuit that has no way to be isolated and does not say why"),
    "limit-unit": Code("error", "a limit, or a calculated result, in another unit than the reading it is for"),
    "proof-misfit": Code("error", "a proof that is made for other plant than brings it"),
    # the job
    "task-not-offered": Code("error", "a task that the component does not offer"),
    "closed-to": Code("error", "a task that only a certified person may do"),
    "no-way": Code("error", "the job rules out every way to do what it asks"),
    "emergency-not-asked": Code("error", "the job comes from a caller whom nobody asked about emergencies"),
    "emergency-reported": Code("error", "the job speaks of an emergency: nothing is planned"),
    "emergency-ruled-out": Code("warning", "the job speaks of an emergency and says who ruled it out"),
    "bad-reading": Code("error", "a calculated reading that there is not, or an input that it cannot take"),
    "outside-method": Code("warning", "inputs of a calculated reading that its method does not cover together"),
    "other-job": Code("error", "a visit as it was that belongs to another job or plant"),
    "no-symptom": Code("error", "a diagnosis is asked for and the job names no symptom"),
    "nothing-to-do": Code("error", "the job asks for nothing"),
    "role-not-fitted": Code("note", "a role of a job template that this assembly does not have"),
    "already-held": Code("note", "the job says a condition holds; the plan has it confirmed, not made"),
    "hidden-joint": Code("warning", "a joint must be proved with a cover in front of it"),
    "limit-not-set": Code("warning", "a reading has no limit here: it must come from the user's own standard"),
    "two-people": Code("note", "a lift that needs a second person or a lifting aid"),
    "no-handling": Code("warning", "a lift that is heavier than every row of handling"),
    "too-few-people": Code("warning", "a lift needs more people than the job has"),
    "not-proved": Code("warning", "the order is the best found, not proved best"),
    "refused-by-own-check": Code("error", "an answer that its own check refuses: a fault of this program"),
    "tool-not-owned": Code("warning", "a tool that the firm's list does not have"),
    "driver-too-weak": Code("warning", "a torque above the limit of the driver that is used"),
    "no-torque-tool": Code("warning", "a torque that no tool of the catalogue sets"),
    # the quote
    "price-missing": Code("warning", "a line of the quote without a price that can be used"),
    "travel-missing": Code("warning", "travel is charged by time, and the job does not say how long it takes"),
    "not-quoted": Code("error", "a job that cannot be done as asked has no price"),
    # the van
    "not-planned": Code("warning", "a job of the round that no load can finish"),
    "van-overloaded": Code("warning", "a van that is over its payload before anything is drawn"),
    "licence-missing": Code("warning", "a licence that the round needs and nobody aboard holds"),
    "mass-unknown": Code("note", "parts of which the mass or the volume is not known"),
    "stock-unknown": Code("note", "what lies in the van or in the store is not known"),
    "no-supply": Code("note", "what a return visit costs is not known"),
}
