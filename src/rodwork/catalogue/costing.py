"""Starting values of what joining costs: minutes, prices, machines. None of them is the shop's own; all are marked."""

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from functools import cache
from importlib.resources import files
from types import MappingProxyType


@dataclass(frozen=True, slots=True, kw_only=True)
class StartingTime:
    """Minutes for one thing that is done. `source` says where they are from, and how sure they are."""

    about: str
    minutes: Decimal
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class StartingPrice:
    """What one piece costs, in pounds; glue by the litre."""

    price: Decimal
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class StartingMachine:
    """A machine: what the settings list calls it, whether most shops have one, what one costs in pounds."""

    tools: tuple[str, ...]
    in_most_shops: bool
    price: Decimal
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class StartingValues:
    """The whole table. Money is in pounds."""

    hour: Decimal
    cabinets_to_come: int
    litres_per_m2: Decimal
    times: Mapping[str, StartingTime]
    prices: Mapping[str, StartingPrice]
    machines: Mapping[str, StartingMachine]


@cache
def starting_values() -> StartingValues:
    """The rows of data/costing.toml."""
    table = tomllib.loads(files("rodwork.catalogue").joinpath("data/costing.toml").read_text(encoding="utf-8"))
    return StartingValues(
        hour=Decimal(table["money"]["hour"]), cabinets_to_come=table["money"]["cabinets_to_come"],
        litres_per_m2=Decimal(table["glue"]["litres_per_m2"]),
        times=MappingProxyType({
            word: StartingTime(about=row["about"], minutes=Decimal(row["minutes"]), source=row["source"])
            for word, row in table["times"].items()
        }),
        prices=MappingProxyType({
            item: StartingPrice(price=Decimal(row["price"]), source=row["source"])
            for item, row in table["prices"].items()
        }),
        machines=MappingProxyType({
            name: StartingMachine(
                tools=tuple(row["tools"]), in_most_shops=row["in_most_shops"], price=Decimal(row["price"]),
                source=row["source"],
            )
            for name, row in table["machines"].items()
        }),
    )  # fmt: skip
