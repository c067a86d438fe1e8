"""What is printed of a comparison, the same words on paper and on a terminal.

A further column is one row of COLUMNS and one field of a Way.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal

from rodwork.documents.load_words import times_text
from rodwork.model.costing import Comparison, Way
from rodwork.model.money import to_coin

NOT_PRICED = "?"
NOTHING_INSIDE = "-"
NAMED_AT_MOST = 6
LEAST_TENTHS = Decimal("0.1")


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """One column of the comparison: its heading, whether it holds a figure, what it says of a way."""

    title: str
    figure: bool
    says: Callable[[Way, Comparison], str]


def money_text(amount: Decimal | None, currency: str) -> str:
    """An amount to the penny; a question mark where a price is not known."""
    return NOT_PRICED if amount is None else f"{to_coin(amount, currency)}"


def a_cabinet(amount: Decimal | None, compared: Comparison) -> Decimal | None:
    """A job's money shared between its cabinets."""
    return None if amount is None else amount / compared.cabinets


def _minutes(way: Way, compared: Comparison) -> str:
    return f"{(way.minutes / compared.cabinets).quantize(Decimal(1), rounding=ROUND_HALF_UP)}"


def _tenths(way: Way, compared: Comparison) -> str:
    """How true the halves must be across the thickness, in tenths of a millimetre."""
    return f"{round(10 * way.across_mm, 1):g}"


def _yes(value: bool) -> str:
    return "yes" if value else "no"


def _load(way: Way, _: Comparison) -> str:
    """How many times over its weakest joint bears what stands inside: a dash where nothing does."""
    return times_text(way.times_over) if way.loaded else NOTHING_INSIDE


COLUMNS = (
    Told(title="money a cabinet", figure=True, says=lambda w, c: money_text(a_cabinet(w.money, c), c.currency)),
    Told(title="minutes a cabinet", figure=True, says=_minutes),
    Told(title="how true, tenths", figure=True, says=_tenths),
    Told(title="clamps", figure=True, says=lambda way, _: str(way.clamps)),
    Told(title="apart again?", figure=False, says=lambda way, _: _yes(way.demountable)),
    Told(title="handled at once?", figure=False, says=lambda way, _: _yes(way.handled_at_once)),
    Told(title="load, times over", figure=False, says=_load),
    Told(title="glue?", figure=False, says=lambda way, _: _yes(way.glue)),
)


def _fits(way: Way, _: Comparison) -> str:
    """How many of a hundred go together: whole ones, for no more is known."""
    return NOTHING_INSIDE if way.goes_together is None else f"{100 * way.goes_together:.0f}"


FITS = Told(title="fits, of 100", figure=False, says=_fits)


def columns(compared: Comparison) -> tuple[Told, ...]:
    """What is told of every way; how often it goes together only where that was asked for."""
    return (*COLUMNS, FITS) if any(way.goes_together is not None for way in compared.all) else COLUMNS


def name_text(way: Way) -> str:
    """The name of a way, and whether the job file has it so."""
    return f"{way.name} (your job as it is)" if way.as_written and way.name != "as written" else way.name


def shows_text(way: Way) -> str:
    """What the customer sees."""
    return f"shows {way.shows}" if way.seen else "nothing shows"


def pays_text(way: Way, compared: Comparison) -> str:
    """From when a machine that is to be bought pays, in words."""
    bought = " and ".join(
        f"{m.name} {money_text(m.price, compared.currency)}" if m.price is not None else f"{m.name}, price not known"
        for m in way.to_buy
    )
    if way.pays_from is None:
        return f"{bought}: does not pay here" + (f" against {compared.against}" if compared.against else "")
    return f"{bought}: pays from the {ordinal(way.pays_from)} cabinet, against {compared.against}"


def ordinal(number: int) -> str:
    """1st, 2nd, 3rd, 4th, 11th, 21st."""
    endings = {1: "st", 2: "nd", 3: "rd"}
    return f"{number}{'th' if number % 100 in (11, 12, 13) else endings.get(number % 10, 'th')}"


def behind(way: Way, compared: Comparison) -> Iterator[tuple[str, str, str, str, str]]:
    """(kind, what, how many, minutes, money) of every line behind a way; a star marks a starting value."""
    before = ""
    for line in way.lines:
        kind = "" if line.kind == before else line.kind
        before = line.kind
        count = line.count.quantize(Decimal("0.01") if line.unit else Decimal(1), rounding=ROUND_HALF_UP)
        yield (
            kind, line.what + ("" if line.own else " *"), f"{count} {line.unit}".strip(),
            "" if line.minutes is None else f"{line.minutes.quantize(LEAST_TENTHS, rounding=ROUND_HALF_UP)}",
            "" if line.minutes is not None else money_text(line.money, compared.currency),
        )  # fmt: skip


def facts_text(way: Way, compared: Comparison) -> Iterator[str]:
    """What stands behind the words of a way, and not behind its money."""
    yield f"What shows: {way.shows}."
    yield (
        f"How true it must be: {way.across_mm:g} mm across the board, {way.along_mm:g} mm along the joint. "
        f"{'It draws itself up.' if way.self_clamping else 'It is drawn up with clamps.'}"
    )
    if way.waits_min:
        yield f"In clamps for {way.waits_min:f} minutes, {way.clamps} of them for one cabinet at a time."
    at_hand = [name for name in way.machines if name not in {machine.name for machine in way.to_buy}]
    if at_hand:
        yield f"Machines at hand: {', '.join(at_hand)}."
    yield f"Its weakest point: {way.weakest or 'nothing that the checks speak of'}"
    if way.to_buy:
        yield f"To buy: {pays_text(way, compared)}."


def starting_text(compared: Comparison) -> Iterator[str]:
    """What a reader must know of the figures: which are not the shop's, which prices are not used or not known."""
    if compared.starting:
        named = ", ".join(compared.starting[:NAMED_AT_MOST])
        rest = len(compared.starting) - NAMED_AT_MOST
        more = f" and {rest} more, starred where they stand behind a line" if rest > 0 else ""
        yield f"Starting values, not yours: {named}{more}. Write your own under [money], [prices], [times], [machines]."
    unpriced = list(dict.fromkeys(what for way in compared.all for what in way.unpriced))
    if unpriced:
        yield f"No price is known for: {', '.join(unpriced)}. Write one and the ways with a {NOT_PRICED} are priced."
    if compared.unused:
        yield f"Prices that nothing here uses: {', '.join(compared.unused)}. Is the name right?"
