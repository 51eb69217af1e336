"""In which order and in which stages the pieces of one joint are tightened.

A flat face is drawn down evenly: every piece is started by hand, then opposite pieces take turns. Four pieces,
numbered round the joint, by hand: 1, 3, 2, 4. The orders and stages are those of the usual cross pattern for flanges
(ASME PCC-1: 20 to 30 %, 50 to 70 %, 100 %, then round once), from memory.
"""

from typing import Literal

from splitpin import units

Pattern = Literal["cross", "even", "staged"]

STAGES: dict[Pattern, tuple[int, ...]] = {"cross": (30, 70, 100), "even": (50, 100), "staged": (30, 70, 100)}
HOW: dict[Pattern, str] = {"cross": "crosswise", "even": "in turn round the joint", "staged": "in turn"}
STAGE_WORDS = {30: "until they just bear", 50: "until they just bear", 70: "until half tight", 100: "until tight"}


def order(count: int, pattern: Pattern) -> tuple[int, ...]:
    """The turns of `count` >= 1 pieces numbered round the joint from 1; each once.

    Crosswise, an even number goes in opposite pairs, each pair far from the one before; an odd number strides round
    the joint by just under half of it. Any other pattern goes round.
    """
    if pattern != "cross" or count < 4:
        return tuple(range(1, count + 1))
    half = count // 2
    if count % 2:
        return tuple(turn * half % count + 1 for turn in range(count))
    width = max(half - 1, 1).bit_length()
    starts = sorted(range(half), key=lambda start: int(f"{start:0{width}b}"[::-1], 2))
    return tuple(piece + 1 for start in starts for piece in (start, start + half))


def refit_steps(count: int, one: str, many: str, pattern: Pattern | None, torque_nm: float | None) -> tuple[str, ...]:
    """The sentences that tighten a joint: all started by hand, then in stages, then once round where a torque is set.

    `one` and `many` name the piece; only the first sentence does, those after it speak of all of them. Without a
    torque the stages are words, never an invented figure.
    """
    full = f" to {units.number(torque_nm)} N·m" if torque_nm is not None else ""
    if count == 1:
        return (f"Start the {one} by hand and tighten it{full}.",)
    all_of = "both" if count == 2 else f"all {count}"
    steps = [f"Start {all_of} {many} by hand."]
    if pattern is None:
        return (*steps, f"Tighten {all_of}{full}.")
    how = "in turn" if count == 2 else HOW["even" if pattern == "cross" and count == 3 else pattern]
    turns = f" ({', '.join(str(piece) for piece in order(count, pattern))})" if pattern == "cross" and count > 3 else ""
    for percent in STAGES[pattern]:
        if torque_nm is None:
            aim = STAGE_WORDS[percent]
        else:
            part = units.number(round(torque_nm * percent / 100, 1))
            aim = f"to {part} N·m ({percent} %)" if percent < 100 else f"to {part} N·m"
        steps.append(f"Tighten {all_of} {how}{turns} {aim}.")
    if torque_nm is not None:
        steps.append(f"Go once round {all_of}{full}: none may turn further.")
    return tuple(steps)
