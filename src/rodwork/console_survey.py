"""What readings off a level line come to, on a terminal: walls, the largest upright box, gaps, scribes, feet."""

from collections.abc import Iterator

from rich.console import Console
from rich.markup import escape
from rich.table import Table

from rodwork.console import wide_console
from rodwork.documents.alcove_words import GAP_COLUMNS, gap_rows, height_text, held, order, service_text, verdict
from rodwork.documents.figures import size_text
from rodwork.model.alcove import Alcove, Surveyed
from rodwork.model.finding import PRINTED
from rodwork.model.rod import Rod
from rodwork.model.survey import Survey


def print_surveys(rod: Rod, found: tuple[Surveyed, ...]) -> None:
    """Print every survey with what stands in it, and what is wrong with that."""
    console = wide_console()
    console.print(f"[bold]{escape(rod.job)}[/bold]   off the level line; heights up from it, or down (-)")
    if not found:
        console.print("Nothing is surveyed. Write a table such as \\[surveys.alcove].")
    for one in found:
        console.print(f"\n[bold]{escape(one.survey.name)}[/bold]")
        for text in _walls(one.survey):
            console.print(escape(text))
        for name, alcove in one.units.items():
            marks = {p.name: p.marks[0] for p in rod.cabinet[name].parts if p.role == "scribe"}
            console.print(f"\n[bold]{escape(name)}[/bold]   {escape(verdict(alcove, rod.step))}")
            _print_unit(console, alcove, one.survey, marks, rod.step)
        if one.empty is not None:
            w, h, d = (size_text(v) for v in one.empty.size)
            console.print(f"The largest unit that would stand there, scribed both sides: {w} wide, {h} high, {d} deep.")
            console.print(escape(held(one.empty, rod.step)))
    for f in (f for one in found for f in one.findings):
        console.print(f"\n[bold]{PRINTED[f.severity]}[/bold]  {escape(f.cabinet)}: {escape(f.message)}")
        console.print(f"       {escape(f.mend)}")


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
    table = Table(box=None, pad_edge=False, header_style="dim")
    for n, title in enumerate(GAP_COLUMNS):
        table.add_column(title, justify="right" if n else "left")
    for row in gap_rows(alcove, step):
        table.add_row(*row)
    console.print(table)
    for n, text in enumerate(order(alcove, survey, marks, step), 1):
        console.print(escape(f"{n}. {text}"))
    console.print(escape(held(alcove, step)))
