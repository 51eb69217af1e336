"""The general solver that referees our own methods: HiGHS, quiet, exact and on one thread.

All its models of a process share their threads, so a model that asks for another number than the first is refused.
"""

import highspy


def exact_solver(gap: float) -> highspy.Highs:
    """A solver that stops only where its answer is within `gap` of the best."""
    solver = highspy.Highs()
    solver.silent()
    solver.setOptionValue("threads", 1)
    solver.setOptionValue("mip_rel_gap", 0.0)
    solver.setOptionValue("mip_abs_gap", gap)
    return solver
