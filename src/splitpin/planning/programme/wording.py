"""The sentences of the sheet: one imperative for one action."""

from __future__ import annotations

from typing import TYPE_CHECKING

from splitpin import units
from splitpin.hardware.fixing import CLASS_04, Fixing
from splitpin.hardware.pattern import refit_steps
from splitpin.planning.asked.expand import REPLACE, Wanted
from splitpin.planning.plant.plant import Plant

if TYPE_CHECKING:
    from splitpin.notices import Place
    from splitpin.records.assembly import Component, Joint, Way
    from splitpin.records.catalogue import Seal


def cite(sentence: str, place: Place) -> str:
    """The sentence with the place of its rule."""
    return f"{sentence} ({place})" if place.line else sentence


def pieces(joint: Joint, fixing: Fixing) -> str:
    """`1 spring clip`, `4 hexagon socket screws M6 × 25 (head screws)`."""
    counted = units.counted(joint.count, fixing.title, fixing.plural)
    return f"{counted} ({joint.title})" if joint.title else counted


def undo(joint: Joint, plant: Plant) -> str:
    """The sentence that opens a joint."""
    fixing = plant.fixing(joint)
    return _at_joint(plant.library.kinds[fixing.kind].undo, joint, pieces(joint, fixing), plant)


def remake(joint: Joint, plant: Plant) -> str:
    """The sentence that closes a joint."""
    fixing = plant.fixing(joint)
    return _at_joint(plant.library.kinds[fixing.kind].remake, joint, pieces(joint, fixing), plant)


def _at_joint(verb: str, joint: Joint, counted: str, plant: Plant) -> str:
    return f"{verb} {counted}: {plant.ends(joint)}."


def sized(seal: Seal) -> str:
    """The seal's title, with inside diameter × section where it names the size of its ring."""
    if seal.size is None:
        return seal.title
    from splitpin.hardware.oring import ORing, of_size  # few seals name a size: a plan starts sooner without

    ring = of_size(seal.size)
    return f"{seal.title} {ring.measure}" if isinstance(ring, ORing) else seal.title


def new_seal(joint: Joint, plant: Plant) -> str:
    """The sentence that renews (or looks at) the seal of a joint."""
    assert joint.seal is not None
    seal = plant.library.seals[joint.seal]
    title = sized(seal)
    where = joint.title or plant.ends(joint)
    if seal.policy == "renew":
        what = f"a new {title}" if joint.seal_count == 1 else f"{joint.seal_count} new seals ({title})"
        return f"Clean both faces and put in {what}: {where}."
    return f"Look at the {title} ({where}): renew it if hard, flat, cracked or torn."


def take(component: Component, way: Way, people: int, plant: Plant) -> str:
    """The sentence that moves a component out or aside."""
    text = way.off_text or component.off_text
    if text is None and way.ends == "aside":
        text = f"Move the {component.title} aside; it stays connected."
    return _lifted(text or f"Take out the {component.title}.", people)


def take_at_bench(component: Component, way: Way, plant: Plant) -> str:
    """The sentence that takes a carried component off its carrier once that is out."""
    assert component.carried_by is not None
    own = way.off_text or component.off_text
    if own is not None:
        return f"At the bench: {_lower(own)}"
    if way.ends == "aside":
        return f"At the bench, move the {component.title} aside; it stays connected."
    return f"At the bench, take the {component.title} off the {plant.component(component.carried_by).title}."


def fit(component: Component, way: Way, people: int, *, new: bool) -> str:
    """The sentence that puts a component back, or a new one in."""
    text = way.on_text or component.on_text
    if new:
        text = f"Fit the new {component.title}." if text is None else f"Take the new {component.title}: {_lower(text)}"
    elif text is None and way.ends == "aside":
        text = f"Bring the {component.title} back into place."
    return _lifted(text or f"Refit the {component.title}.", people)


def fit_at_bench(component: Component, way: Way, plant: Plant, *, new: bool, new_carrier: bool) -> str:
    """The sentence that puts a carried component on its carrier, still at the bench."""
    assert component.carried_by is not None
    own = way.on_text or component.on_text
    if own is not None:
        return f"At the bench, {f'take the new {component.title}: ' * new}{_lower(own)}"
    if way.ends == "aside":
        return f"At the bench, bring the {component.title} back into place."
    carrier = plant.component(component.carried_by).title
    return f"At the bench, put the {'new ' * new}{component.title} on the {'new ' * new_carrier}{carrier}."


def _lifted(text: str, people: int) -> str:
    return text if people == 1 else f"With {people} people or a lifting aid: {text}"


def _lower(text: str) -> str:
    return text[0].lower() + text[1:]


def tighten(joint: Joint, torque_nm: float | None, plant: Plant) -> tuple[str, ...]:
    """The sentences that tighten a joint of several pieces in its pattern; the first names the joint."""
    fixing = plant.fixing(joint)
    many = f"{fixing.plural} ({joint.title})" if joint.title else fixing.plural
    first, *stages = refit_steps(joint.count, fixing.title, many, joint.pattern, torque_nm)
    return (f"{first.removesuffix('.')}: {plant.ends(joint)}.", *stages)


def measure(joint: Joint, least_nm: float, plant: Plant) -> str:
    """The sentence that measures self-locking nuts before they go back."""
    nut = "the nut" if joint.count == 1 else "each nut"
    limit = f"{units.number(least_nm)} N·m ({CLASS_04})"
    return f"Measure the torque of {nut} as it runs on ({plant.ends(joint)}); renew it below {limit}."


def work(wanted: Wanted) -> tuple[str, ...]:
    """The sentences of a task: the catalogue's, or the task itself as one."""
    if wanted.work.steps:
        return wanted.work.steps
    if wanted.do == REPLACE:
        title = wanted.component.title if wanted.component else "part"
        return (f"Lay the new {title} beside the old one: connections, seals and fixings must match.",)
    return (wanted.phrase[0].upper() + wanted.phrase[1:] + ".",)
