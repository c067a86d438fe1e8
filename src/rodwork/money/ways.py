"""One way of joining a job, costed: from the Rod that it gives to the four figures and every line behind them."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal

from rodwork.model.costing import Cannot, CostLine, LineKind, Seen, ToBuy, Way
from rodwork.model.finding import Finding
from rodwork.model.fixing import Joint
from rodwork.model.money import to_coin
from rodwork.model.nature import Nature
from rodwork.model.rod import Rod
from rodwork.money.rates import GLUE, Rates
from rodwork.money.seen import seen_of
from rodwork.money.work import Compared, Held, Work, work_of

SIXTY = Decimal(60)
TOLD_APART = ("bores-that-show",)  # a way says itself what the customer sees of it
TIMED: dict[LineKind, tuple[str, ...]] = {
    "settings": ("fetch_machine", "change_cutter", "set_fence", "set_depth", "first_off"),
    "machining": ("hold_board", "set_batten", "bore", "slot", "channel", "bore_in_place"),
    "assembly": ("fit_piece", "drive", "tighten", "spread_glue", "clamp"),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Candidate:
    """A way to be costed: the Rod it gives, where its joints stand that are compared, what the checks say of the Rod.

    `natures` by the name of the family.
    """

    name: str
    made_with: str
    as_written: bool
    rod: Rod
    places: frozenset[str]
    natures: Mapping[str, Nature]
    findings: tuple[Finding, ...]


def way_of(candidate: Candidate, rates: Rates) -> Way | Cannot:
    """The way with its money, minutes, accuracy, clamps, and what shows; or why it cannot make this job."""
    compared = Compared.of(candidate.rod, candidate.places)
    worst = _worst(candidate.findings, compared)
    if worst is not None and worst.severity == "fault":
        return Cannot(name=candidate.name, made_with=candidate.made_with, why=told(worst))
    of = [natures_of(joint, candidate.natures) for _, joint in compared.joints]
    used = [nature for natures in of for nature in natures]
    glued = any(joint.glued for _, joint in compared.joints)
    work = work_of(compared, lambda joint: held(natures_of(joint, candidate.natures)))
    machines = tuple(dict.fromkeys(rates.machine_for(tool) for tool in work.tools))
    to_buy = tuple(
        ToBuy(name=machine, price=rates.machine_price(machine).value)
        for machine in machines
        if not rates.owned(machine)
    )
    lines = (*_bought(work, rates), *_timed(work, rates))
    minutes = sum((line.minutes for line in lines if line.minutes is not None), Decimal(0))
    lines = (*lines, _labour(minutes, rates))
    running = _sum(lines)
    lines = (*lines, *_spread(to_buy, compared.rod, rates))
    return Way(
        name=candidate.name, made_with=candidate.made_with, as_written=candidate.as_written,
        money=_sum(lines), running=running, minutes=minutes,
        across_mm=min(n.demands_across_mm for n in used), along_mm=min(n.demands_along_mm for n in used),
        clamps=work.clamps,
        waits_min=rates.minutes("wait").value if glued and work.clamps else Decimal(0),
        demountable=not glued and all(n.apart for n in used), glue=glued,
        handled_at_once=all(any(n.at_once for n in natures) for natures in of),
        self_clamping=all(any(n.draws_up for n in natures) for natures in of),
        seen=_seen(compared), machines=machines, to_buy=to_buy, lines=lines,
        weakest=told(worst) if worst is not None else None,
        unpriced=tuple(line.what for line in lines if line.money is None and line.minutes is None)
        + tuple(m.name for m in to_buy if m.price is None),
    )  # fmt: skip


def _worst(findings: tuple[Finding, ...], compared: Compared) -> Finding | None:
    """The first finding (they come worst first) that is about one of the joints compared; what shows is told apart."""
    ids = {*compared.features, *((c.name, j.id) for c, j in compared.joints)}
    told_here = (f for f in findings if f.code not in TOLD_APART)
    return next((f for f in told_here if any((f.cabinet, where) in ids for where in f.where)), None)


def told(finding: Finding) -> str:
    """What a finding says, and of which cabinet."""
    return f"{finding.cabinet}: {finding.message}"


def natures_of(joint: Joint, natures: Mapping[str, Nature]) -> tuple[Nature, ...]:
    """The nature of each family in a joint, once."""
    return tuple(natures[name] for name in dict.fromkeys(f.family for f in joint.fixings))


def held(natures: tuple[Nature, ...]) -> Held:
    """What clamps a joint of these families needs: none where another family draws it up."""
    if all(n.clamps != "needed" or any(o.draws_up for o in natures if o is not n) for n in natures):
        return "none"
    return "one" if any(n.draws_up for n in natures) else "row"


def _bought(work: Work, rates: Rates) -> Iterator[CostLine]:
    """Fittings by the piece, and the glue."""
    for item, count in work.pieces.items():
        price = rates.price(item)
        yield CostLine(
            kind="fittings", what=item, count=Decimal(count), unit="", minutes=None, own=price.own,
            money=None if price.value is None else to_coin(price.value * count, rates.currency),
        )  # fmt: skip
    if work.glue_m2:
        litres, price = work.glue_m2 * rates.starting.litres_per_m2, rates.price(GLUE)
        yield CostLine(
            kind="glue", what=GLUE, count=litres, unit="litre", minutes=None, own=price.own,
            money=None if price.value is None else to_coin(price.value * litres, rates.currency),
        )  # fmt: skip


def _timed(work: Work, rates: Rates) -> Iterator[CostLine]:
    """Every kind of work that is timed, with its minutes."""
    done = {**work.set_up, **work.machining, **work.assembly}
    for kind, words in TIMED.items():
        for word in words:
            metres = work.metres.get(word)
            count = metres if metres is not None else Decimal(done.get(word, 0))
            if count:
                each = rates.minutes(word)
                yield CostLine(
                    kind=kind, what=word.replace("_", " "), count=count, unit="" if metres is None else "m",
                    minutes=count * each.value, money=None, own=each.own,
                )  # fmt: skip


def _labour(minutes: Decimal, rates: Rates) -> CostLine:
    """All minutes at the shop's hour, rounded once."""
    hour = rates.hour
    return CostLine(
        kind="labour", what="time at the bench", count=minutes / SIXTY, unit="h", minutes=None, own=hour.own,
        money=None if hour.value is None else to_coin(minutes * hour.value / SIXTY, rates.currency),
    )  # fmt: skip


def _spread(to_buy: tuple[ToBuy, ...], rod: Rod, rates: Rates) -> Iterator[CostLine]:
    """This job's share of what a machine costs: by cabinets, of those that the shop expects to make with it."""
    cabinets = sum(c.count for c in rod.boxes)
    for machine in to_buy:
        share = None if machine.price is None else machine.price * cabinets / rates.cabinets_to_come
        yield CostLine(
            kind="machine to buy", what=machine.name, count=Decimal(cabinets), unit="cabinets", minutes=None,
            money=None if share is None else to_coin(share, rates.currency),
            own=rates.machine_price(machine.name).own,
        )  # fmt: skip


def _sum(lines: tuple[CostLine, ...]) -> Decimal | None:
    """The money of all lines; None where one of them is not known."""
    amounts = [line.money for line in lines if line.minutes is None]
    return None if None in amounts else sum((a for a in amounts if a is not None), Decimal(0))


def _seen(compared: Compared) -> tuple[Seen, ...]:
    """What is seen of the joints, each kind once, as the first joint that has it shows it."""
    found: dict[tuple[str, str], Seen] = {}
    for cabinet, joint in compared.joints:
        for seen in seen_of(cabinet, joint, compared.features):
            found.setdefault((seen.what, seen.surface), seen)
    return tuple(found.values())
