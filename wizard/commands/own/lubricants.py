"""`conewright lubricants`: check a list of one's own, use it from now on, list what can be chosen, print the format."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any

from engine.errors import plain
from wizard.commands.own import settings
from wizard.commands.own.settings import Kept
from wizard.exit_codes import Exit

if TYPE_CHECKING:
    from engine.lubrication.lubricant import Lubricant

TABLE = Kept("lubricants", "a lubricant list", "conewright lubricants use FILE.toml")
_NAME = 54


def check(path: Path, out: Any = None) -> int:
    """Print what a list holds; return the exit status. Raises Problems, with all that is wrong, where anything is."""
    from engine.answers.lubricated.own import own

    found = own(path)
    write = (out or sys.stdout).write
    write(_table(one.lubricant for one in found))
    write(f"{plain(path)}: {_counted(len(found))}, all sound.\n")
    return Exit.PASSES


def use(path: Path | None, environ: Mapping[str, str] = os.environ, out: Any = None) -> int:
    """Offer the lubricants of a list from now on beside the built-in ones, or with None these alone again.

    Raises Problems, with the settings as they were, where anything is wrong with the file.
    """
    write = (out or sys.stdout).write
    if path is None:
        settings.remember(TABLE, None, environ)
        write("The built-in lubricants alone are offered from now on.\n")
        return Exit.PASSES
    from engine.answers.lubricated.own import own

    found = own(path)
    # a relative path would mean another file in another folder
    absolute = Path(os.path.abspath(path))
    settings.remember(TABLE, absolute, environ)
    back = "conewright lubricants use --builtin goes back"
    write(f"{plain(absolute)}: {_counted(len(found))}, offered from now on ({back}).\n")
    return Exit.PASSES


def show(path: Path | None = None, environ: Mapping[str, str] = os.environ, out: Any = None) -> int:
    """Print the lubricants of a file, or all that are offered: those of the list in use, then the built-in ones."""
    from engine.answers.lubricated.own import own
    from engine.catalogue.lubricants.read import builtin

    write = (out or sys.stdout).write
    file = path or active(environ)
    if file is not None:
        write(f"{plain(file)}:\n{_table(one.lubricant for one in own(file))}")
    if path is None:
        write(("\n" if file else "") + f"built-in:\n{_table(builtin())}")
    return Exit.PASSES


def show_format(out: Any = None) -> int:
    """Print the documentation of the format."""
    from engine.catalogue.lubricants.manual import format_help

    (out or sys.stdout).write(format_help())
    return Exit.PASSES


def active(environ: Mapping[str, str] = os.environ) -> Path | None:
    """Return the list of one's own that is offered, None for none; raise Problems where the settings are not sound."""
    return settings.path_of(TABLE, environ)


def _table(lubricants: Iterable[Lubricant]) -> str:
    lines = [f"{'name':{_NAME}} {'base':7} {'40 degC':>8} {'100 degC':>8}  {'degC':>9}"]
    for one in lubricants:
        limits = f"{one.T_least:.0f}..{one.T_greatest:.0f}"
        figures = f"{one.base:7} {one.nu40:8.4g} {one.nu100:8.4g}  {limits:>9}{'  EP' if one.ep else ''}"
        lines.append(f"{plain(one.name, _NAME):{_NAME}} {figures}")
    return "\n".join(lines) + "\n"


def _counted(count: int) -> str:
    return f"{count} lubricant{'' if count == 1 else 's'}"
