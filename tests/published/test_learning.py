"""Learning from visits against published and independently computed cases. Distributions are refereed by SciPy."""

import datetime
import json
import math
from pathlib import Path
from typing import Any

import pytest
from scipy import stats
from tests.history.made import visit

from splitpin.faults.likelihood import dirichlet_means
from splitpin.timing import learning
from splitpin.timing.conjugate import NormalInverseGamma
from splitpin.timing.learning import Experience, kinds_of
from splitpin.timing.pace import Pace

MINUTES = (52, 47, 55, 49)


@pytest.fixture(scope="module")
def times(reference: Path) -> dict[str, Any]:
    found: dict[str, Any] = json.loads((reference / "data" / "learning_times.json").read_text(encoding="utf-8"))
    return found


def one_mean(prior: float, prior_sd: float, spread: float, values: list[float]) -> tuple[float, float]:
    rows = [[1.0]] * len(values)
    mean, covariance = learning._posterior(rows, [v - prior for v in values], [spread**2] * len(values), [prior_sd])
    return prior + mean[0], math.sqrt(covariance[0][0])


def test_a_normal_mean_with_known_spread(times: dict[str, Any]) -> None:
    """Constructed case, computed with SciPy: prior 40 +- 10, spread 8, four visits."""
    case = times["LT1_normal_known_sd"]
    mean, sd = one_mean(40, 10, 8, list(MINUTES))
    assert mean == pytest.approx(case["post_mean"]) and sd == pytest.approx(case["post_sd"])
    ahead = math.hypot(sd, 8)
    assert ahead == pytest.approx(case["predictive_sd"])
    assert stats.norm(mean, ahead).ppf(0.9) == pytest.approx(case["q90_next"])
    assert stats.norm(mean, ahead).sf(60) == pytest.approx(case["P_next_over_60"])


def test_a_normal_mean_with_unknown_spread(times: dict[str, Any]) -> None:
    """Constructed case, computed with SciPy; one by one gives the same four numbers."""
    case = times["LT2_normal_inverse_gamma"]
    known = NormalInverseGamma(40, 2, 3, 128)
    after = known.after(MINUTES)
    assert after == pytest.approx((case["mu_n"], case["kappa_n"], case["alpha_n"], case["beta_n"]))
    assert after.variance == pytest.approx(case["E_variance"])
    for minutes in MINUTES:
        known = known.after([minutes])
    assert known == pytest.approx(after)
    assert after.after([]) == after


def test_a_lognormal_time_with_known_spread(times: dict[str, Any]) -> None:
    case = times["LT3_lognormal_known_log_sd"]
    mean, sd = one_mean(math.log(40), 0.2, 0.25, [math.log(value) for value in MINUTES])
    assert (mean, sd) == pytest.approx((case["post_log_mean"], case["post_log_sd"]))
    ahead = Pace(mean, math.hypot(sd, 0.25))
    assert math.exp(ahead.log_mean) == pytest.approx(case["median"])
    assert ahead.mean == pytest.approx(case["mean"])
    assert stats.lognorm(ahead.log_sd, scale=math.exp(mean)).ppf(0.9) == pytest.approx(case["q90"])


def test_a_lognormal_time_with_unknown_spread(times: dict[str, Any]) -> None:
    case = times["LT4_lognormal_NIG"]
    after = NormalInverseGamma(math.log(40), 2, 3, 0.12).after([math.log(value) for value in MINUTES])
    assert (after.mean, after.rate) == pytest.approx((case["mu_n"], case["beta_n"]))


def groups(values: list[float], errors: list[float], tau: float) -> tuple[float, list[float]]:
    """The common mean and each group's own, by the same linear model as the pace; the common mean has a flat prior."""
    size = len(values)
    rows = [[1.0, *(1.0 if i == j else 0.0 for j in range(size))] for i in range(size)]
    mean, _ = learning._posterior(rows, values, [error**2 for error in errors], [1e6, *[tau] * size])
    return mean[0], [mean[0] + own for own in mean[1:]]


def test_rates_are_drawn_together_as_published(times: dict[str, Any]) -> None:
    """B. Efron and C. Morris, Scientific American 236 (1977) 119-127: grand mean .265, factor .212."""
    case = times["LT5_James_Stein_published"]
    rates = case["first_rates"]
    grand = sum(rates) / len(rates)
    error = math.sqrt(grand * (1 - grand) / case["n_each"])
    factor = 1 - (len(rates) - 3) * error**2 / sum((rate - grand) ** 2 for rate in rates)
    assert grand == pytest.approx(0.265, abs=5e-4) and factor == pytest.approx(0.212, abs=5e-4)
    _, drawn = groups(rates, [error] * len(rates), error * math.sqrt(factor / (1 - factor)))
    assert (drawn[0], drawn[-1]) == pytest.approx((case["shrunk_first"], case["shrunk_last"]))
    wrong = [sum((a - b) ** 2 for a, b in zip(case["later_rates"], found, strict=True)) for found in (rates, drawn)]
    assert wrong[0] / wrong[1] == pytest.approx(case["ratio"], abs=1e-3)


def test_eight_groups_with_known_errors(times: dict[str, Any]) -> None:
    """A. Gelman and others, Bayesian Data Analysis, 3rd edition, Table 5.2; pooled figures computed apart."""
    case = times["LT6_eight_groups_published"]
    pooled, _ = groups(case["y"], case["se"], 1e-6)
    assert pooled == pytest.approx(case["pooled"], rel=1e-6)
    mean, drawn = groups(case["y"], case["se"], 5)
    assert mean == pytest.approx(case["at_tau_5"]["mu"], rel=1e-6)
    assert drawn == pytest.approx(case["at_tau_5"]["shrunk"], abs=1e-4)


# Small samples: the shares of causes, by symptom. The marginal of a Dirichlet share is a Beta.
def test_shares_of_causes_after_visits() -> None:
    """Constructed case, exact: weights 2, 1, 1, 1 and counts 6, 3, 0, 1."""
    causes = [("a", "x"), ("b", "x"), ("c", "x"), ("d", "x")]
    means = dirichlet_means(dict(zip(causes, (2, 1, 1, 1), strict=True)), dict(zip(causes, (6, 3, 0, 1), strict=True)))
    assert list(means.values()) == pytest.approx([8 / 15, 4 / 15, 1 / 15, 2 / 15])


@pytest.mark.parametrize(
    ("prior", "seen", "mean"),
    [
        ((1, 1), (437, 543), 0.44602851),  # 437 of 980, public course notes on Bayesian Data Analysis
        ((1, 1), (0, 12), 1 / 14),  # none of twelve; exact
        ((0.5, 0.5), (0, 12), 0.03846154),  # the same under Jeffreys' prior; exact
        ((2, 18), (5, 15), 0.175),  # constructed; exact
    ],
)
def test_the_share_of_one_cause(prior: tuple[float, float], seen: tuple[int, int], mean: float) -> None:
    causes = (("it", "x"), ("another", "x"))
    means = dirichlet_means(dict(zip(causes, prior, strict=True)), dict(zip(causes, seen, strict=True)))
    assert means[causes[0]] == pytest.approx(mean)
    assert means[causes[0]] == pytest.approx(stats.beta(prior[0] + seen[0], prior[1] + seen[1]).mean())


USUAL = Pace(-0.02, 0.2)


def past(n: int, ratio: float, assembly: str = "circulator-set", task: str = "replace") -> list[Any]:
    day = datetime.date(2026, 1, 1)
    return [
        visit(
            f"{assembly}-{task}-{k}",
            date=day,
            assembly=assembly,
            planned_s=1000.0,
            taken_s=1000.0 * ratio,
            tasks=(("c", task),),
        )
        for k in range(n)
    ]


def test_slow_visits_slow_the_pace_and_more_of_them_more() -> None:
    paces = [Experience(past(n, 1.5), USUAL).pace("circulator-set", ["replace"]) for n in (1, 3, 10, 40)]
    means = [pace.mean for pace in paces]
    assert 1 < means[0] < means[1] < means[2] < means[3] < 1.6
    assert means[3] == pytest.approx(1.5, rel=0.03)
    assert [pace.visits for pace in paces] == [1, 3, 10, 40]
    assert [pace.log_sd for pace in paces] == sorted((pace.log_sd for pace in paces), reverse=True)


def test_what_one_plant_teaches_reaches_another_less() -> None:
    learnt = Experience(past(10, 1.5), USUAL)
    same, other = learnt.pace("circulator-set", ["replace"]), learnt.pace("roof-extract-fan", ["clean"])
    assert 1 < other.mean < same.mean and other.log_sd > same.log_sd and other.visits == 0


def test_among_visits_of_one_length_only_one_far_out_is_flagged() -> None:
    """The median distance is 0 here; our own least distance of 5 % stands in for it."""
    same = [v for k in range(5) for v in past(1, 1.0, task=f"t{k}")]
    for ratio, far in ((1.02, False), (1.25, False), (1.5, True), (0.6, True)):
        odd = past(1, ratio, task="odd")
        assert Experience(same + odd, USUAL).outliers() == ({(odd[0].job, "2026-01-01")} if far else set())


def test_a_visit_far_out_is_flagged_and_kept() -> None:
    visits = [v for k, ratio in enumerate((0.9, 1.0, 1.05, 1.1, 0.95)) for v in past(1, ratio, task=f"t{k}")]
    far = past(1, 9.0, task="far")
    learnt = Experience(visits + far, USUAL)
    assert learnt.outliers() == {(far[0].job, "2026-01-01")}
    assert len(learnt.visits) == 6
    assert kinds_of(far[0]) == ("far",)
