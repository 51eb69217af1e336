"""How many plans of single tasks each law refuses: `python -m tests.planning.refusals [--reasons N] [ASSEMBLY ...]`.

A count, not a test: it says what the planner has yet to learn, law by law. With `--reasons` the commonest messages of
that law stand below, the names of things left out.
"""

import argparse
import re
from collections import Counter

from tests.bundled import LIBRARY
from tests.planning.test_every_task import tasks_of, visit_for

from splitpin.planning import plan_visit
from splitpin.planning.check import ALL_LAWS, check_plan

_NAME = re.compile(r"\b[a-z0-9]+(-[a-z0-9]+)+\b")


def main() -> None:
    """Print the plans that each law refuses, in each assembly and in all."""
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("assembly", nargs="*", default=sorted(LIBRARY.assemblies))
    options.add_argument("--reasons", type=int, metavar="LAW")
    asked = options.parse_args()
    refused: dict[str, Counter[int]] = {}
    reasons: Counter[str] = Counter()
    plans: dict[str, int] = {}
    for name in asked.assembly:
        refused[name], plans[name] = Counter(), 0
        for task in tasks_of(LIBRARY.assemblies[name]):
            visit = visit_for(name, task)
            plan = plan_visit(visit).plan
            if not plan.steps:
                continue
            plans[name] += 1
            faults = [fault for fault in check_plan(plan, visit, ALL_LAWS) if fault.rule.startswith("law-")]
            refused[name].update({int(fault.rule.removeprefix("law-")) for fault in faults})
            reasons.update(
                {_NAME.sub("...", fault.message) for fault in faults if fault.rule == f"law-{asked.reasons}"}
            )
    print(f"{'':64}" + "".join(f"{name[:14]:>15}" for name in refused) + f"{'all':>8}")
    print(f"{'plans':64}" + "".join(f"{plans[name]:>15}" for name in refused) + f"{sum(plans.values()):>8}")
    for law in ALL_LAWS:
        counts = [refused[name][law.number] for name in refused]
        print(f"{law.number:>3} {law.title:60}" + "".join(f"{count:>15}" for count in counts) + f"{sum(counts):>8}")
    for message, count in reasons.most_common(12):
        print(f"{count:>6}  {message}")


if __name__ == "__main__":
    main()
