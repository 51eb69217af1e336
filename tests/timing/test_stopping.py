"""A limit bounds the whole report: what it compares with is planned as far as the time goes."""

from tests.examples import JOBS, job

from splitpin.timing.report import time_report

SERVICE = next(path for path in JOBS if path.stem == "circulator-complete")


def test_once_the_time_is_up_no_other_task_is_planned() -> None:
    asked = 0

    def stop() -> bool:
        nonlocal asked
        asked += 1
        return True

    report = time_report(job(SERVICE), while_there=True, stop=stop)
    assert report.while_there == () and report.savings == () and asked == 2


def test_tasks_are_planned_until_the_time_is_up() -> None:
    planned = job(SERVICE)
    whole = time_report(planned, while_there=True, stop=lambda: False).while_there
    left = 5

    def stop() -> bool:
        nonlocal left
        left -= 1
        return left < 0

    part = time_report(planned, while_there=True, stop=stop).while_there
    assert whole is not None and part is not None and len(part) < len(whole)
