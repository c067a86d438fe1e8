"""The shop's own prices and times: what the job file says of them, exactly as written."""

from collections.abc import Iterable, Mapping
from typing import Any

from rodwork.catalogue.costing import starting_values
from rodwork.job.faults import near, shown
from rodwork.job.tables import Reading, read_named, read_table
from rodwork.job.words import MachineWords, MoneyWords, PriceWords, TimesWords
from rodwork.model.costing import OwnMachine, PackPrice, ShopFigures
from rodwork.model.own_family import OwnFamily


def read_figures(tables: Mapping[str, Any], own: Iterable[OwnFamily], reading: Reading) -> ShopFigures:
    """[money], [prices], [times] and [machines] of a job file; the faults are noted.

    What the files of own families say of prices is the shop's own too; the job file goes before them.
    """
    money = read_table(MoneyWords, tables.get("money", {}), ("money",), "[money]", reading)
    if money.get("one_pound") == 0:
        reading.fault(("money", "one_pound"), "one_pound is 0, which is no rate", "Write one_pound = 1.17, say")
    times = read_table(TimesWords, tables.get("times", {}), ("times",), "[times]", reading)
    return ShopFigures(
        hour=money.get("hour"), cabinets_to_come=money.get("cabinets_to_come"), one_pound=money.get("one_pound"),
        minutes=dict(times.values),
        prices={**{i: p for f in own for i, p in f.prices.items()}, **_prices(tables.get("prices", {}), reading)},
        machines=_machines(tables.get("machines", {}), reading),
    )  # fmt: skip


def _prices(raw: Any, reading: Reading) -> dict[str, PackPrice]:
    found = {}
    for name, table in read_named("prices", raw, PriceWords, "price", reading).items():
        said = read_table(PriceWords, table, ("prices", name), f"the price of {shown(name)}", reading)
        if said.get("price") is not None:
            found[name] = PackPrice(price=said.get("price"), pieces=said.get("pieces", 1))
    return found


def _machines(raw: Any, reading: Reading) -> dict[str, OwnMachine]:
    found = {}
    for name, table in read_named("machines", raw, MachineWords, "machine", reading).items():
        known = starting_values().machines
        meant = near(name, known)
        if name not in known and meant is not None:
            reading.fault(("machines", name), f"there is no machine called {shown(name)}", f'Did you mean "{meant}"?')
        said = read_table(MachineWords, table, ("machines", name), f"the machine {shown(name)}", reading)
        found[name] = OwnMachine(owned=said.get("owned"), price=said.get("price"))
    return found
