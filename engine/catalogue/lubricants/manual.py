"""The format of a lubricant file in words, made from its keys."""

import textwrap

from engine.catalogue.lubricants.keys import KEYS

_OPENING = """\
A lubricant file is TOML: one [[lubricant]] table for each oil or grease. Of a grease, viscosity, density and base are
those of its base oil. The viscosity is stated once: by iso_vg and vi, or by nu40_mm2_s and nu100_mm2_s. No two
lubricants have one name, and none has that of a built-in one (conewright lubricants list). A record keeps all figures
of the lubricant that it uses, so that it needs the file no more.
"""
_EXAMPLE = """\
[[lubricant]]
name = "gear oil of ours 320"
form = "oil"
base = "mineral"
nu40_mm2_s = 316.0
nu100_mm2_s = 24.1
density_15_kg_m3 = 897
ep = true
least_degC = -12
greatest_degC = 100
"""


def format_help() -> str:
    """Return what each key means, what it takes, whether it is needed, and an entry to start from."""
    lines = []
    for name, key in KEYS.items():
        need = "needed" if key.required else "may follow"
        said = f"{name:18}{key.means} ({need}): {key.accepted}"
        lines.append(textwrap.fill(said, 100, initial_indent="  ", subsequent_indent=" " * 20))
    return f"{_OPENING}\n" + "\n".join(lines) + f"\n\n{_EXAMPLE}"
