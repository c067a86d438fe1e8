"""Frozen values to plain data and back, by their own fields: one rule for the whole Rod.

A field's metadata may say `key` (its name in the data) and `leave_out` (not written when None).
"""

from collections.abc import Callable, Hashable
from dataclasses import MISSING, Field, fields, is_dataclass
from decimal import Decimal, InvalidOperation
from functools import cache
from types import NoneType, UnionType
from typing import Any, Literal, Union, cast, get_args, get_origin, get_type_hints

from rodwork.model.feature import KINDS, Feature


def _key(f: "Field[Any]") -> str:
    return str(f.metadata.get("key", f.name))


@cache
def _layout(cls: type) -> tuple[tuple[str, str, bool], ...]:
    return tuple((f.name, _key(f), bool(f.metadata.get("leave_out"))) for f in fields(cls))


def to_plain(value: Any) -> Any:
    """A value as dicts, lists, strings and numbers."""
    cls = type(value)
    if cls in (float, int, str, bool) or value is None:
        return value
    if cls is Decimal:
        return f"{value:f}"
    if cls is tuple or cls is list:
        return [to_plain(v) for v in value]
    if cls is dict:
        return {k: to_plain(v) for k, v in value.items()}
    if not is_dataclass(cls):
        raise TypeError(f"no plain form for {cls.__name__}")
    out: dict[str, Any] = {}
    kind = getattr(value, "kind", None)
    for name, key, leave_out in _layout(cls):
        v = getattr(value, name)
        if v is None and leave_out:
            continue
        out[key] = to_plain(v)
        if kind is not None and key == "id" and isinstance(value, Feature):
            out["kind"] = kind
    return out


def from_plain(cls: Any, data: Any, place: str = "rod") -> Any:
    """The reverse of to_plain. Raises ValueError that names the place."""
    return _reader(cls)(data, place)


@cache
def _reader(tp: Hashable) -> Callable[[Any, str], Any]:
    origin = get_origin(tp)
    if tp is Any:
        return lambda data, place: data
    if tp is Feature:
        return _read_feature
    if is_dataclass(tp) and isinstance(tp, type):
        return _dataclass_reader(tp)
    if origin in (Union, UnionType):
        return _union_reader(get_args(tp))
    if origin is tuple:
        return _tuple_reader(get_args(tp))
    if origin is dict:
        return _dict_reader(get_args(tp)[1])
    if origin is Literal:
        return _literal_reader(get_args(tp))
    if tp is Decimal:
        return _read_decimal
    if tp in (float, int, str, bool, NoneType):
        return _scalar_reader(tp)
    raise TypeError(f"no reader for {tp}")


def _read_feature(data: Any, place: str) -> Any:
    kind = data.get("kind") if isinstance(data, dict) else None
    if kind not in KINDS:
        raise ValueError(f"{place}: unknown kind of machining {kind!r}")
    reader = _reader(cast(Hashable, KINDS[kind]))
    return reader({k: v for k, v in data.items() if k != "kind"}, place)


def _read_decimal(data: Any, place: str) -> Decimal:
    try:
        return Decimal(data)
    except (InvalidOperation, TypeError, ValueError):
        raise ValueError(f"{place}: {data!r} is no amount") from None


def _dataclass_reader(cls: type) -> Callable[[Any, str], Any]:
    hints = get_type_hints(cls)
    table = {_key(f): (f.name, hints[f.name]) for f in fields(cls)}
    needed = [_key(f) for f in fields(cls) if f.default is MISSING and f.default_factory is MISSING]

    def read(data: Any, place: str) -> Any:
        if not isinstance(data, dict):
            raise ValueError(f"{place}: a table was expected")
        missing = [k for k in needed if k not in data]
        if missing:
            raise ValueError(f"{place}: {missing[0]} is missing")
        named = {table[k][0]: _reader(table[k][1])(v, f"{place}.{k}") for k, v in data.items() if k in table}
        try:
            return cls(**named)
        except ValueError as problem:
            raise ValueError(f"{place}: {problem}") from None

    return read


def _union_reader(options: tuple[Any, ...]) -> Callable[[Any, str], Any]:
    def read(data: Any, place: str) -> Any:
        if data is None and NoneType in options:
            return None
        problem: ValueError | None = None
        for option in options:
            if option is NoneType:
                continue
            try:
                return _reader(option)(data, place)
            except ValueError as error:
                problem = error
        raise problem or ValueError(f"{place}: nothing fits")

    return read


def _tuple_reader(args: tuple[Any, ...]) -> Callable[[Any, str], Any]:
    endless = len(args) == 2 and args[1] is Ellipsis

    def read(data: Any, place: str) -> Any:
        if not isinstance(data, list | tuple):
            raise ValueError(f"{place}: a list was expected")
        if endless:
            each = _reader(args[0])
            return tuple(each(v, f"{place}[{i}]") for i, v in enumerate(data))
        if len(data) != len(args):
            raise ValueError(f"{place}: {len(args)} values were expected")
        return tuple(_reader(a)(v, f"{place}[{i}]") for i, (a, v) in enumerate(zip(args, data, strict=True)))

    return read


def _dict_reader(value_type: Any) -> Callable[[Any, str], Any]:
    def read(data: Any, place: str) -> Any:
        if not isinstance(data, dict):
            raise ValueError(f"{place}: a table was expected")
        return {k: _reader(value_type)(v, f"{place}.{k}") for k, v in data.items()}

    return read


def _literal_reader(allowed: tuple[Any, ...]) -> Callable[[Any, str], Any]:
    def read(data: Any, place: str) -> Any:
        if data not in allowed:
            raise ValueError(f"{place}: {data!r} is none of {', '.join(map(str, allowed))}")
        return data

    return read


def _scalar_reader(tp: Any) -> Callable[[Any, str], Any]:
    def read(data: Any, place: str) -> Any:
        if tp is float and isinstance(data, int) and not isinstance(data, bool):
            return float(data)
        if not isinstance(data, tp) or (tp is int and isinstance(data, bool)):
            raise ValueError(f"{place}: {data!r} is no {tp.__name__}")
        return data

    return read
