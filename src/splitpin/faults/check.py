"""The expected time of a sequence of checks, straight from its definition; shares no code with the search."""

from fractions import Fraction

from splitpin.faults.problem import CheckProblem


def expected_seconds(problem: CheckProblem, order: tuple[int, ...]) -> Fraction:
    """Sum over the suspects of likelihood times the time at which the check of that suspect ends.

    Raises ValueError unless `order` holds every suspect once. Takes time in proportion to suspects times openings.
    """
    if sorted(order) != list(range(len(problem.weights))):
        raise ValueError("every suspect must be checked once")
    total = sum(problem.weights)
    expected = Fraction(0)
    clock = 0
    opened: list[int] = []
    for suspect in order:
        for opening in problem.behind[suspect]:
            if opening not in opened:
                opened.append(opening)
                clock += problem.opening_seconds[opening]
        clock += problem.seconds[suspect]
        if problem.again and any(opening in problem.dead for opening in opened):
            clock += problem.again[suspect]
        expected += Fraction(problem.weights[suspect], total) * clock
    return expected
