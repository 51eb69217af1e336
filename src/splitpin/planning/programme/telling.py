"""Who is told what goes off before it goes, and what is back when it is: each people once, whatever takes it away.

By hand: the supply off and the heat source held off both take the heating from whoever uses the plant; one step before
the first of them, one after everything is proved.
"""

from __future__ import annotations

from splitpin.planning.plant.doings import Doings, Make
from splitpin.planning.plant.elements import TELL_S
from splitpin.planning.plant.plant import Plant
from splitpin.planning.programme.acts import Act, Line, Tell
from splitpin.records.plan_rows import StepAct

THE_PLANT = "the plant"


def tellings(doings: Doings, plant: Plant, *, back: bool) -> list[Tell]:
    """One for each people and service. Before: for what this visit makes. When it is back: for what it releases."""
    found: dict[tuple[str, str], list[Make]] = {}
    for doing in doings:
        if not isinstance(doing, Make) or doing.condition.tells is None:
            continue
        tells = doing.condition.tells
        if doing.condition.release if back else not doing.already:
            loses = tells.loses or plant.assembly.assembly.service or THE_PLANT
            found.setdefault((tells.who, loses), []).append(doing)
    return [Tell(who, loses, tuple(made), back) for (who, loses), made in found.items()]


def tell_act(tell: Tell) -> Act:
    """The one step of it."""
    now = "is back" if tell.back else "goes off now"
    text = f"Tell {tell.who} what {now}: {tell.loses}."
    line = Line("tell", text, TELL_S, acts=(StepAct(act="tell", thing=tell.who),))
    return Act(tell, "hand-over" if tell.back else "make-safe", (line,))
