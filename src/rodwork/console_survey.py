"""What readings off a level line come to, on a terminal: walls, the largest upright box, gaps, scribes, feet."""

from collections.abc import Iterator

from rich.console import Console

from rodwork.documents.alcove_words import GAP_COLUMNS, gap_rows, height_text, held, order, service_text, verdict
from rodwork.documents.figures import size_text
from rodwork.model.alcove import Alcove, Surveyed
from rodwork.model.rod import Rod
from rodwork.model.survey import Survey
from rodwork.terminal import print_findings, print_table, say, wide_console


def print_surveys(rod: Rod, found: tuple[Surveyed, ...]) -> None:
    """Print every survey with what stands in it, and what is wrong with that."""
    console = wide_console()
    say(console, "off the level line; heights up from it, or down (-)", f"{rod.job}   ", lead_style="bold")
    if not found:
        say(console, "Nothing is surveyed. Write a table such as [surveys.alcove].")
    for one in found:
        console.print()
        say(console, one.survey.name, style="bold")
        for text in _walls(one.survey):
            say(console, text)
        for name, alcove in one.units.items():
            marks = {p.name: p.marks[0] for p in rod.cabinet[name].parts if p.role == "scribe"}
            console.print()
            say(console, verdict(alcove, rod.step), f"{name}   ", lead_style="bold")
            _print_unit(console, alcove, one.survey, marks, rod.step)
        if one.empty is not None:
            w, h, d = (size_text(v) for v in one.empty.size)
            say(console, f"The largest unit that would stand there, scribed both sides: {w} wide, {h} high, {d} deep.")
            say(console, held(one.empty, rod.step))
    print_findings(console, (f for one in found for f in one.findings))


def _walls(survey: Survey) -> Iterator[str]:
    """The readings in words."""
    each = "; ".join(
        f"{height_text(z)} {size_text(survey.length_at(z))}"
        + (f" (back {size_text(survey.length_at(z, survey.deep))})" if survey.deep else "")
        for z in survey.heights
    )
    yield f"Wall to wall: {each}."
    floor = ", ".join(height_text(z) for z in survey.floor)
    yield f"Floor: {floor} from left to right; its highest point {height_text(survey.high_point)}."
    if survey.lowest_ceiling is not None:
        yield f"Floor to ceiling at the least: {size_text(survey.lowest_ceiling - survey.high_point)}."
    yield from map(service_text, survey.services)
    for taken in survey.taken:
        yield f"Taken for granted: {taken}."


def _print_unit(console: Console, alcove: Alcove, survey: Survey, marks: dict[str, str], step: float) -> None:
    headings = [(title, n > 0) for n, title in enumerate(GAP_COLUMNS)]
    print_table(console, "", headings, gap_rows(alcove, step), ruled=False)
    for n, text in enumerate(order(alcove, survey, marks, step), 1):
        say(console, text, f"{n}. ")
    say(console, held(alcove, step))
