"""The shop's own figure where there is one, else a starting value: every figure says which it is."""

from dataclasses import dataclass
from decimal import Decimal

from rodwork.catalogue.costing import StartingValues, starting_values
from rodwork.model.costing import ShopFigures

STARTING_CURRENCY = "GBP"
GLUE = "glue"


@dataclass(frozen=True, slots=True, kw_only=True)
class Rate:
    """One figure and its standing: the shop's own, or a starting value. None: nobody knows it."""

    value: Decimal | None
    own: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Minutes:
    """Minutes of one thing and their standing."""

    value: Decimal
    own: bool


@dataclass(frozen=True, slots=True)
class Rates:
    """What the shop says, over the starting values. Those are pounds: in another currency they need a rate."""

    own: ShopFigures
    currency: str

    @property
    def starting(self) -> StartingValues:
        """The table of starting values."""
        return starting_values()

    @property
    def pound(self) -> Decimal | None:
        """What a pound of the starting prices is in the job's currency, or None where nobody says."""
        if self.own.one_pound is not None:
            return self.own.one_pound
        return Decimal(1) if self.currency == STARTING_CURRENCY else None

    @property
    def hour(self) -> Rate:
        """An hour at the bench."""
        return self._money(self.own.hour, self.starting.hour)

    @property
    def cabinets_to_come(self) -> int:
        """Over how many cabinets a machine that is bought is spread."""
        own = self.own.cabinets_to_come
        return self.starting.cabinets_to_come if own is None else own

    def minutes(self, word: str) -> Minutes:
        """Minutes of one thing that is done."""
        own = self.own.minutes.get(word)
        return Minutes(value=self.starting.times[word].minutes if own is None else own, own=own is not None)

    def price(self, item: str) -> Rate:
        """What one piece costs: the shop's price of just this, else the starting price whose first words fit best."""
        own = self.own.prices.get(item)
        if own is not None:
            return Rate(value=own.each, own=True)
        fits = [name for name in self.starting.prices if item == name or item.startswith((f"{name} ", f"{name},"))]
        return self._money(None, self.starting.prices[max(fits, key=len)].price if fits else None)

    def machine_for(self, tool: str) -> str:
        """The machine that a setting's tool is, by the name its price stands under."""
        return next((name for name, row in self.starting.machines.items() if tool in row.tools), tool)

    def owned(self, machine: str) -> bool:
        """Whether the shop has it: as it says, else as most shops have."""
        own = self.own.machines.get(machine)
        if own is not None and own.owned is not None:
            return own.owned
        row = self.starting.machines.get(machine)
        return row.in_most_shops if row is not None else False

    def machine_price(self, machine: str) -> Rate:
        """What a machine costs to buy."""
        own, row = self.own.machines.get(machine), self.starting.machines.get(machine)
        return self._money(own.price if own is not None else None, row.price if row is not None else None)

    def _money(self, own: Decimal | None, pounds: Decimal | None) -> Rate:
        if own is not None:
            return Rate(value=own, own=True)
        known = pounds is not None and self.pound is not None
        return Rate(value=pounds * self.pound if known else None, own=False)  # type: ignore[operator]
