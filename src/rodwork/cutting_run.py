"""One run of the cutting plan from the command: a clock, Ctrl-C and a line of progress around a pure search."""

import json
import signal
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import replace
from typing import Any

from rodwork.model.cutting import CuttingPlan
from rodwork.model.plain import from_plain
from rodwork.model.rod import Rod
from rodwork.model.sawing import Saw, SawKind, usual_saw
from rodwork.pipeline import cutting

ANY_NUMBER = 10**9
BAR = 20


def saw_of(rod: Rod, kind: str | None, kerf: float | None) -> Saw:
    """The job's saw, or another kind as most shops have it; with another kerf where one is given."""
    saw = rod.sawing.saw
    kinds: dict[str, SawKind] = {"track saw": "track saw", "panel saw": "panel saw", "router": "router"}
    if kind is not None and kinds[kind] != saw.kind:
        saw = replace(usual_saw(kinds[kind]), trim=saw.trim)
    return saw if kerf is None else replace(saw, kerf=kerf)


def begun_plan(content: bytes) -> CuttingPlan:
    """A plan as it was written. Raises ValueError."""
    try:
        data = json.loads(content)
    except (UnicodeDecodeError, json.JSONDecodeError):
        raise ValueError("it is not the data that --json writes") from None
    plan: CuttingPlan = from_plain(CuttingPlan, data)
    return plan


def search(rod: Rod, saw: Saw, seconds: float, seed: int, say: Callable[[str], None]) -> CuttingPlan:
    """The plan that is found in so many seconds, shared among the boards; Ctrl-C ends it with the best so far."""
    start = time.monotonic()
    with _stopped_by_hand() as stopped:

        def go_on(number: int, of: int) -> bool:
            gone = time.monotonic() - start
            done = min(1.0, gone / seconds)
            say(f"[{'#' * int(BAR * done):<{BAR}}] board {number} of {of}, {found.get(number, '')} Ctrl-C: enough")
            return not stopped() and gone < seconds * number / of

        found: dict[int, str] = {}

        def tell(progress: Any) -> None:
            found[progress.number] = f"{progress.board}: {progress.sheets} sheets."

        plan = cutting(rod, saw, ANY_NUMBER, seed, go_on, tell)
    say("")
    return plan


@contextmanager
def _stopped_by_hand() -> Iterator[Callable[[], bool]]:
    """Whether Ctrl-C was pressed; a second time it ends the programme as it does anywhere."""
    pressed: list[bool] = []

    def note(number: int, frame: Any) -> None:
        if pressed:
            raise KeyboardInterrupt
        pressed.append(True)

    before = signal.signal(signal.SIGINT, note)
    try:
        yield lambda: bool(pressed)
    finally:
        signal.signal(signal.SIGINT, before)
