"""The ways of joining a job side by side: which the maker wants, in what order, and from when a machine pays."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from decimal import Decimal
from math import ceil

from rodwork.model.costing import Cannot, Comparison, ShopFigures, Way
from rodwork.money.rates import Rates

WANTS: dict[str, tuple[Callable[[Way], bool], str]] = {
    "demountable": (lambda way: way.demountable, "it does not come apart again"),
    "nothing shows": (lambda way: not way.seen, "it shows"),
    "no glue on site": (lambda way: not way.glue, "it is glued"),
    "tools I own": (lambda way: not way.to_buy, "it wants a machine that is not there"),
}
SORTS = ("money", "minutes", "accuracy", "clamps")
FAR = Decimal("Infinity")


def comparison(
    job: str,
    cabinets: int,
    judged: Sequence[Way | Cannot],
    figures: ShopFigures,
    currency: str,
    wants: Iterable[str] = (),
    sort: str = "money",
) -> Comparison:
    """All ways that can and are wanted, the cheapest first; those that cannot, with the reason.

    `job` is its name; `wants` are keys of WANTS; `sort` is one of SORTS.
    """
    rates = Rates(figures, currency)
    ways = [way for way in judged if isinstance(way, Way)]
    wants = tuple(wants)
    left_out = [(way, why) for way in ways if (why := _not_wanted(way, wants)) is not None]
    kept = sorted((way for way in ways if _not_wanted(way, wants) is None), key=lambda way: _place(way, sort))
    at_hand = tuple(way for way in kept if not way.to_buy)
    baseline = _baseline(at_hand)
    return Comparison(
        job=job, currency=currency, cabinets=cabinets, cabinets_to_come=rates.cabinets_to_come, ways=at_hand,
        with_machine=tuple(replace(w, pays_from=_pays_from(w, baseline, cabinets)) for w in kept if w.to_buy),
        against=baseline.name if baseline is not None else None,
        cannot=tuple(way for way in judged if isinstance(way, Cannot)),
        left_out=tuple(Cannot(name=way.name, made_with=way.made_with, why=why) for way, why in left_out),
        starting=_starting(ways), unused=_unused(ways, figures),
    )  # fmt: skip


def _not_wanted(way: Way, wants: Iterable[str]) -> str | None:
    """Why a way is not what the maker asked for, or None."""
    reasons = [why for want, (has, why) in WANTS.items() if want in wants and not has(way)]
    return ", and ".join(reasons) or None


def _place(way: Way, sort: str) -> tuple[object, ...]:
    """Where a way stands in the list; what is not priced comes last, equals go by money and name."""
    money = FAR if way.money is None else way.money
    first = {
        "money": money, "minutes": way.minutes, "clamps": way.clamps,
        "accuracy": -(way.across_mm if way.across_mm is not None else 100.0),
    }[sort]  # fmt: skip
    return (first, money, way.minutes, way.name)


def _baseline(at_hand: tuple[Way, ...]) -> Way | None:
    """What a machine has to beat: the job as it is, where that needs nothing to be bought; else the cheapest way."""
    priced = [way for way in at_hand if way.running is not None]
    as_written = [way for way in priced if way.as_written]
    return min(as_written or priced, key=lambda way: way.running or Decimal(0), default=None)


def _pays_from(way: Way, baseline: Way | None, cabinets: int) -> int | None:
    """The cabinet with which a machine is earned back: its price over what each cabinet is cheaper by, rounded up."""
    prices = [m.price for m in way.to_buy]
    beaten = baseline.running if baseline is not None else None
    if beaten is None or way.running is None or None in prices or way.running >= beaten:
        return None
    price = sum((p for p in prices if p is not None), Decimal(0))
    return max(1, ceil(price * cabinets / (beaten - way.running)))


def _starting(ways: Iterable[Way]) -> tuple[str, ...]:
    """What of the figures is a starting value, each once."""
    return tuple(dict.fromkeys(line.what for way in ways for line in way.lines if not line.own))


def _unused(ways: Iterable[Way], figures: ShopFigures) -> tuple[str, ...]:
    """Prices entered for things that no way here uses: likely a slip in the name."""
    used = {line.what for way in ways for line in way.lines}
    return tuple(item for item in figures.prices if item not in used)
