"""`conewright catalog`: check a catalogue of one's own, choose the one to use from now on, print the format."""

from __future__ import annotations

import os
import sys
from collections.abc import Mapping
from pathlib import Path
from typing import Any, NoReturn

from engine.errors import Problem, Problems, plain
from wizard.exit_codes import Exit

_LARGEST_SETTINGS = 1_000_000


def check(path: Path, corrected: Path | None = None, out: Any = None) -> int:
    """Print what a catalogue file holds, and write a corrected copy where one is wanted; return the exit status.

    0: every row is sound; 1: rows are left out or contradict themselves. Raises Problems where the file cannot be
    used at all, or where the copy would replace it.
    """
    from engine.catalogue.intake import check as intake
    from engine.catalogue.intake.corrected import corrected as corrected_copy

    write = (out or sys.stdout).write
    if corrected is not None:
        _refuse_same(path, corrected)
    sheet, places, notes = intake.opened(path)
    found = intake.report(intake.judged(sheet, places, notes))
    write(str(found))
    if corrected is not None:
        from engine.record.write import write as write_file

        copy = corrected_copy(sheet, places)
        try:
            write_file(corrected, copy.content.decode())
        except (OSError, ValueError) as error:
            _stop(str(corrected), f"cannot be written ({plain(getattr(error, 'strerror', None) or error)})")
        mended = "".join(
            f"\n  corrected in every row: {plain(one.words)} ({', '.join(one.columns)})" for one in copy.corrections
        )
        rows = f"{copy.rows} row{'' if copy.rows == 1 else 's'}"
        write(f"\nCorrected copy in {plain(corrected)}: {rows}, {copy.left_out} left out.{mended}\n")
    return Exit.PASSES if found.clean else Exit.FAILS


def use(path: Path | None, environ: Mapping[str, str] = os.environ, out: Any = None) -> int:
    """Check a catalogue and use it from now on, or with None the built-in one again; return the exit status.

    Raises Problems, with the settings as they were, where no row of the file can be used.
    """
    write = (out or sys.stdout).write
    if path is None:
        _remember(None, environ)
        write("The built-in catalogue is used from now on.\n")
        return Exit.PASSES
    from engine.catalogue.intake import check as intake

    found = intake.check(path)
    if found.catalogue is None:
        raise Problems(found.left_out.listed, found.left_out.more)
    # a relative path would mean another file in another folder
    absolute = Path(os.path.abspath(path))
    _remember(absolute, environ)
    write(f"{found}\n{plain(absolute)} is used from now on (conewright catalog use --builtin goes back).\n")
    return Exit.PASSES if found.clean else Exit.FAILS


def show_format(out: Any = None) -> int:
    """Print the documentation of the format."""
    from engine.catalogue.intake.manual import format_help

    (out or sys.stdout).write(format_help())
    return Exit.PASSES


def active(environ: Mapping[str, str] = os.environ) -> Path | None:
    """Return the catalogue to use, None for the built-in one; raise Problems where the settings cannot be read."""
    chosen = _settings(settings_file(environ)).get("catalogue", {})
    path = chosen.get("path") if isinstance(chosen, dict) else None
    if path is None and chosen in ({}, None):
        return None
    if not isinstance(path, str) or not os.path.isabs(path):
        wrong = "names no file" if not isinstance(path, str) else f'"{plain(path)}" is no absolute path'
        accepted = "the absolute path of a catalogue, as conewright catalog use FILE.csv writes it"
        raise Problems([Problem(str(settings_file(environ)), None, "catalogue.path", wrong, accepted)])
    return Path(path)


def settings_file(environ: Mapping[str, str] = os.environ) -> Path:
    """Return where the settings stand; the file need not be there."""
    base = environ.get("XDG_CONFIG_HOME", "")
    if not os.path.isabs(base):
        base = os.path.join(environ.get("HOME") or os.path.expanduser("~"), ".config")
    return Path(base) / "conewright" / "settings.toml"


def _settings(path: Path) -> dict[str, Any]:
    try:
        with path.open("rb") as file:
            content = file.read(_LARGEST_SETTINGS)
    except FileNotFoundError:
        return {}
    except (OSError, ValueError) as error:
        _stop(str(path), f"cannot be read ({plain(getattr(error, 'strerror', None) or error)})")
    try:
        import tomllib  # where there are no settings, the first frame need not wait for it

        return tomllib.loads(content.decode())
    except (ValueError, RecursionError) as error:
        _stop(str(path), f"is not TOML ({plain(error)})", "the file mended or removed")


def _remember(path: Path | None, environ: Mapping[str, str]) -> None:
    """Keep the choice beside whatever else stands in the settings."""
    from engine.record.tables import to_toml
    from engine.record.write import write as write_file

    file = settings_file(environ)
    settings = _settings(file)
    settings.pop("catalogue", None)
    if path is not None:
        settings["catalogue"] = {"path": str(path)}
    try:
        file.parent.mkdir(parents=True, exist_ok=True)
        write_file(file, to_toml(settings))
    except (OSError, ValueError) as error:
        _stop(str(file), f"cannot be written ({plain(getattr(error, 'strerror', None) or error)})")


def _refuse_same(path: Path, corrected: Path) -> None:
    try:
        same = os.path.samefile(path, corrected)
    except (OSError, ValueError):
        same = os.path.abspath(path) == os.path.abspath(corrected)
    if same:
        _stop(str(corrected), "is the file that is checked, and that is never changed", "another name for the copy")


def _stop(path: str, wrong: str, accepted: str = "") -> NoReturn:
    raise Problems([Problem(path, None, "", wrong, accepted)])
