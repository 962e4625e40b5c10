"""Small files of one's own, as data sheets and spreadsheets leave them, and what goes wrong with them."""

import random

from engine.catalogue.intake.manual import SAMPLE

_NAMES = "designation d_mm D_mm T_mm B_mm C_mm Cr_N C0r_N e Y alpha_deg a_mm mass_kg n_grease_rpm n_oil_rpm"
HEADER = _NAMES.split()
#: Boundary dimensions of ISO 355, ratings by ISO 281 and ISO 76 of rollers that fill them. The rows agree with
#: themselves: e = 1.5 tan(alpha), Y = 0.4 cot(alpha), a from the drawn load line.
ROWS = tuple(
    line.split()
    for line in (
        "P1 40 80 19.75 18 16 67000 79700 0.375 1.6 14.0361 3.8 0.409 4200 6700",
        "P2 50 90 21.75 20 17 78200 102000 0.42 1.43 15.6422 3.2 0.526 3600 5700",
        "P3 60 110 29.75 28 24 130400 179500 0.405 1.48 15.1094 5.8 1.091 2900 4700",
    )
)


def content(changes=(), header=HEADER, rows=ROWS) -> str:
    """Return a sound file with (column, row or None for every row, new cell or function of the old one) changed."""
    cells = [list(row) for row in rows]
    for name, row, change in changes:
        place = [one.rpartition("_")[0] or one for one in header].index(name)
        for one in cells if row is None else [cells[row]]:
            one[place] = change(one[place]) if callable(change) else change
    return "\n".join(",".join(row) for row in [list(header), *cells]) + "\n"


_NASTY = (
    b"\x00", b"\x1b[2J\x1b]0;owned\x07", b"\xff\xfe", b"\xef\xbb\xbf", b"\xe2\x80\xae", b'"', b'""', b";", b",", b"\t",
    b"\r", b"\n\n", b"=1+cmd|' /C calc'!A0", b"@SUM(1)", b"nan", b"NaN", b"inf", b"-inf", b"1e999", b"-0", b"9" * 400,
    b"[bold red]x[/]", b"<script>", b"#", b"sep=;\n", b"1,234", b"1.234", b"1/0", b"\xc2\x85", b"\xf0\x9f\x92\xa9",
    b"\x9b31m", b"\x81", b"0x10", b"1_000", b"\xd9\xa1\xd9\xa2",
)  # fmt: skip
STARTS = (SAMPLE.encode(), content().encode(), content().encode("utf-16"), SAMPLE.replace(";", "\t").encode())


def mutated(seed: int) -> bytes:
    """Return a file with one to five things wrong, from a seed."""
    rng = random.Random(seed)
    data = rng.choice(STARTS)
    for _ in range(rng.randint(1, 5)):
        data = rng.choice((_cut, _flip, _insert, _cell, _line, _swap, _repeat, _noise))(data, rng)
    return data


def _cut(data, rng):
    return data[: rng.randrange(len(data) + 1)]


def _flip(data, rng):
    changed = bytearray(data)
    for _ in range(rng.randint(1, 6)):
        if changed:
            changed[rng.randrange(len(changed))] = rng.randrange(256)
    return bytes(changed)


def _insert(data, rng):
    at = rng.randrange(len(data) + 1)
    return data[:at] + rng.choice(_NASTY) + data[at:]


def _cell(data, rng):
    """Put something else into one cell."""
    sign = b";" if data.count(b";") > data.count(b",") else b","
    cells = data.split(sign)
    cells[rng.randrange(len(cells))] = rng.choice(_NASTY)
    return sign.join(cells)


def _line(data, rng):
    lines = data.split(b"\n")
    if rng.random() < 0.5:
        lines.pop(rng.randrange(len(lines)))
    else:
        lines.insert(rng.randrange(len(lines) + 1), rng.choice(lines))
    return b"\n".join(lines)


def _swap(data, rng):
    lines = data.split(b"\n")
    one, other = rng.randrange(len(lines)), rng.randrange(len(lines))
    lines[one], lines[other] = lines[other], lines[one]
    return b"\n".join(lines)


def _repeat(data, rng):
    at = rng.randrange(len(data) + 1)
    return data[:at] + data[at : at + rng.randint(1, 100)] * rng.randint(2, 50) + data[at:]


def _noise(data, rng):
    return data if rng.random() < 0.9 else rng.randbytes(rng.randint(0, 400))
