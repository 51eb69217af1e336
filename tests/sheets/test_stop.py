"""The stop page: one page, the same words on paper and terminal, nothing of a plan."""

from dataclasses import replace

from tests.sheets.circulator import FIRM, JOB, PLAN

from splitpin.records.plan import PlanStop, Times
from splitpin.sheets.step_sheet.sheet import step_sheet
from splitpin.sheets.step_sheet.terminal import plan_text

STOP = PlanStop(
    id="gas-escape",
    title="Smell of gas",
    question="Does anybody smell gas?",
    words="smell of <gas>",
    where="the report",
    do=("Use no flame.", "Get everybody out."),
    call="enter your gas emergency number in firm.toml",
    origin="common practice",
)
STOPPED = replace(
    PLAN,
    status="impossible",
    stops=(STOP,),
    steps=(),
    proofs=(),
    tools=(),
    parts=(),
    conditions=(),
    cautions=(),
    tasks=(),
    times=Times(hands_on_s=0, waiting_s=0, elapsed_s=0),
)


def test_the_page_says_what_to_do_in_order_and_whom_to_call() -> None:
    page = step_sheet(STOPPED, JOB, FIRM)
    places = [
        page.index(words)
        for words in (
            "Stop: no work is planned</h1>",
            "The report says \u201csmell of &lt;gas&gt;\u201d.",
            "<li>Use no flame.</li>",
            "<li>Get everybody out.</li>",
            "Enter your gas emergency number in firm.toml.",
            "Advice: common practice",
            "[asked]",
        )
    ]
    assert places == sorted(places)


def test_the_page_has_nothing_of_a_step_sheet() -> None:
    page = step_sheet(STOPPED, JOB, FIRM)
    assert "<table" not in page and "Close-out" not in page and "Tools" not in page


def test_the_terminal_says_the_same() -> None:
    text = " ".join(plan_text(STOPPED).split())
    assert "STOP: NO WORK IS PLANNED" in text
    assert "1 Use no flame. 2 Get everybody out. Enter your gas emergency number in firm.toml." in text
    assert all(len(line) <= 80 for line in plan_text(STOPPED).splitlines())


def test_a_question_that_is_still_to_be_asked_stands_with_what_to_say_at_a_yes() -> None:
    unasked = replace(STOPPED, stops=(replace(STOP, words="", where=""),), ruled_out="the office: no to fire")
    page = step_sheet(unasked, JOB, FIRM)
    places = [
        page.index(words)
        for words in (
            "Ask first: no work is planned</h1>",
            "Does anybody smell gas?",
            "At a yes, or where the caller is not sure",
            "<li>Use no flame.</li>",
            "the office: no to fire",
        )
    ]
    assert places == sorted(places) and "says" not in page[places[1] : places[2]]
    text = " ".join(plan_text(unasked).split())
    assert "ASK FIRST: NO WORK IS PLANNED" in text and "Ruled out: the office: no to fire" in text
