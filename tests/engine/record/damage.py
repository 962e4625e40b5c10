"""Records with something wrong in them: mutations of bytes, lines and values, from a seed."""

import random
import tomllib

from engine.record.tables import to_toml

_NASTY = (
    b"\x00", b"\x1b[2J", b"\xff", b"\xe2\x80\xae", b'"""', b"'''", b"[[[", b"]", b"=", b"\r", b"\n\n", b"{", b"9" * 400,
    b"1e999", b"nan", b"-inf", b"1979-05-27T07:32:00Z", b"0x", b"# \xc3\x28", b"a.b.c = 1\n",
    b"[answers]\n", b'"\\u0000"',
)  # fmt: skip
_VALUES = (
    None, True, -1, 0, 1e300, float("nan"), float("inf"), 10**300, "", "x" * 5000, "\u202e\ufeff", "6 in", "1e999 mm",
    [], [[]], [1, "a"], {}, {"a": {"b": 1}}, [{}], [{}, {"x": 1}],
)  # fmt: skip


def mutated(data: bytes, seed: int) -> bytes:
    """Return the record with one to four things wrong, on the level of bytes or of values."""
    rng = random.Random(seed)
    for _ in range(rng.randint(1, 4)):
        data = rng.choice((_cut, _flip, _insert, _drop_line, _swap_lines, _repeat, _value))(data, rng)
    return data


def _cut(data: bytes, rng: random.Random) -> bytes:
    return data[: rng.randrange(len(data) + 1)]


def _flip(data: bytes, rng: random.Random) -> bytes:
    changed = bytearray(data)
    for _ in range(rng.randint(1, 5)):
        if changed:
            changed[rng.randrange(len(changed))] = rng.randrange(256)
    return bytes(changed)


def _insert(data: bytes, rng: random.Random) -> bytes:
    at = rng.randrange(len(data) + 1)
    return data[:at] + rng.choice(_NASTY) + data[at:]


def _drop_line(data: bytes, rng: random.Random) -> bytes:
    lines = data.split(b"\n")
    lines.pop(rng.randrange(len(lines)))
    return b"\n".join(lines)


def _swap_lines(data: bytes, rng: random.Random) -> bytes:
    lines = data.split(b"\n")
    a, b = rng.randrange(len(lines)), rng.randrange(len(lines))
    lines[a], lines[b] = lines[b], lines[a]
    return b"\n".join(lines)


def _repeat(data: bytes, rng: random.Random) -> bytes:
    at = rng.randrange(len(data) + 1)
    return data[:at] + data[at : at + rng.randint(1, 200)] * rng.randint(2, 5) + data[at:]


def _value(data: bytes, rng: random.Random) -> bytes:
    """Replace, rename or remove one key anywhere, so that the file stays TOML and only its content is wrong."""
    try:
        tables = tomllib.loads(data.decode())
    except ValueError:
        return data
    places = list(_places(tables))
    if not places:
        return data
    table, key = rng.choice(places)
    value = rng.choice(_VALUES)
    if value is None:
        del table[key]
    elif rng.random() < 0.3:
        table[f"{key[:-1]}{rng.choice('xyz')}"] = table.pop(key)
    else:
        table[key] = value
    try:
        return to_toml(tables).encode()
    except (UnicodeEncodeError, ValueError):
        return data


def _places(value):
    """Yield every table with every key of it."""
    if isinstance(value, dict):
        for key, item in value.items():
            yield value, key
            yield from _places(item)
    elif isinstance(value, list):
        for item in value:
            yield from _places(item)
