"""Money is decimal, in the job's own currency, and rounded to its smallest coin: here and nowhere else."""

from decimal import ROUND_HALF_UP, Decimal

NO_PENCE = frozenset(
    ["BIF", "CLP", "DJF", "GNF", "ISK", "JPY", "KMF", "KRW", "PYG", "RWF", "UGX", "VND", "VUV", "XAF", "XOF", "XPF"]
)  # ISO 4217: no minor unit


def smallest_coin(currency: str) -> Decimal:
    """A hundredth, or one where the currency has no minor unit."""
    return Decimal(1) if currency in NO_PENCE else Decimal("0.01")


def to_coin(amount: Decimal, currency: str) -> Decimal:
    """An amount to the smallest coin, halves up."""
    return amount.quantize(smallest_coin(currency), rounding=ROUND_HALF_UP)
