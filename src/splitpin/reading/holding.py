"""What the joints of an assembly hold, and what travels with what."""

from splitpin.notices import Notice, Place
from splitpin.reading.cycles import Rule, circle_notice, circles
from splitpin.reading.document import Document
from splitpin.records.assembly import Assembly, Joint

Groups = dict[str, frozenset[str]]


def groups(assembly: Assembly) -> Groups:
    """For each component itself and all that it carries, however deep. Nothing carries itself."""
    carried: dict[str, list[str]] = {component.id: [] for component in assembly.component}
    for component in assembly.component:
        if component.carried_by is not None:
            carried[component.carried_by].append(component.id)
    found: Groups = {}
    for component in assembly.component:
        inside = [component.id]
        for name in inside:
            inside += carried[name]
        found[component.id] = frozenset(inside)
    return found


def holds(joint: Joint, group: frozenset[str]) -> bool:
    """Whether exactly one end of the joint is in the group."""
    return (joint.between[0] in group) != (joint.between[1] in group)


def circle_of_carriers(document: Document, assembly: Assembly) -> list[Notice]:
    """Components that carry each other."""
    waits: dict[str, list[tuple[str, Rule | None]]] = {component.id: [] for component in assembly.component}
    for index, component in enumerate(assembly.component):
        if component.carried_by is not None:
            place = document.toml.place("component", index, "carried_by")
            text = f"`{component.id}` is carried by `{component.carried_by}`"
            waits[component.id].append((component.carried_by, Rule(text, place)))
    return [circle_notice(circle) for _, circle in circles(waits)]


def holding_notices(document: Document, assembly: Assembly) -> list[Notice]:
    """Ways out that leave a joint made, and parts that include what they do not carry."""
    inside = groups(assembly)
    notices = []
    for index, component in enumerate(assembly.component):
        for number, way in enumerate(component.way):
            if way.ends == "out" and way.undoes is not None:
                place = document.toml.place("component", index, "way", number, "undoes")
                left = [j.id for j in assembly.joint if holds(j, inside[component.id]) and j.id not in way.undoes]
                notices += [_still_held(component.id, joint, place) for joint in left]
        for number, name in enumerate(component.part_includes):
            if name not in inside[component.id] or name == component.id:
                message = f"the part of `{component.id}` cannot include `{name}`, which it does not carry"
                place = document.toml.place("component", index, "part_includes", number)
                notices.append(Notice("not-carried", message, place, f'give `{name}` carried_by = "{component.id}"'))
    return notices


def _still_held(component: str, joint: str, place: Place) -> Notice:
    message = f"this way takes `{component}` right out, but leaves `{joint}` made, which holds it"
    return Notice("still-held", message, place, f'undo "{joint}" as well, or let the way end "aside"')
