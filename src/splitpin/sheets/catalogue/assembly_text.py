"""What an assembly is made of, as plain text."""

from splitpin.planning.asked.expand import offered
from splitpin.records.assembly import Assembly, Component, Joint


def assembly_text(assembly: Assembly) -> str:
    """Circuits, components, joints and symptoms with their ids, and which tasks the components offer."""
    return "\n".join(_lines(assembly))


def _lines(assembly: Assembly) -> list[str]:
    head = assembly.assembly
    lines = [head.id, f"  {head.title}", f"  positions: {', '.join(head.positions)}"]
    lines += ["", "Circuits"]
    for circuit in assembly.circuit:
        ways = " or ".join(f"{way.by} (makes {way.makes})" for way in circuit.isolate) or "not isolated by itself"
        lines.append(f"  {circuit.id}: {circuit.medium}; {ways}")
    lines += ["", "Components"]
    for component in assembly.component:
        lines += _component(component)
    lines += ["", "Joints"]
    lines += [_joint(joint) for joint in assembly.joint]
    if assembly.symptom:
        lines += ["", "Symptoms"]
    for symptom in assembly.symptom:
        lines.append(f"  {symptom.id}: {symptom.title}")
        lines += [f"      {s.likelihood:.0%} {s.task} {s.component}" for s in symptom.suspects]
    return lines


def _component(component: Component) -> list[str]:
    mass = f", {component.mass_kg:g} kg" if component.mass_kg else ""
    lines = [f"  {component.id}: {component.title} ({component.role}{mass}, {component.position})"]
    behind = {" or ".join(" + ".join(names) for names in way.behind if names): way.ends for way in component.ways}
    lines += [f"      {ends} once clear: {names}" for names, ends in behind.items() if names]
    if component.carried_by:
        lines.append(f"      travels with: {component.carried_by}")
    if component.closed_to:
        lines.append(f"      closed to all but: {component.closed_to}")
    tasks = offered(component)
    if tasks:
        lines.append(f"      tasks: {', '.join(tasks)}")
    return lines


def _joint(joint: Joint) -> str:
    seal = f", seal {joint.seal}" if joint.seal else ""
    circuit = f", on {joint.circuit}" if joint.circuit else ""
    return f"  {joint.id}: {joint.between[0]} - {joint.between[1]}: {joint.count} x {joint.hardware}{seal}{circuit}"
