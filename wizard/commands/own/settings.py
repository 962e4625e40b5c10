"""The settings of the program: which files of one's own serve it from now on."""

from __future__ import annotations

import os
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any, NoReturn

from engine.errors import Problem, Problems, plain

_LARGEST = 1_000_000


@dataclass(frozen=True)
class Kept:
    """A table of the settings that names a file: its key, what the file is, and the command that writes it."""

    key: str
    of: str
    command: str


def settings_file(environ: Mapping[str, str] = os.environ) -> Path:
    """Return where the settings stand; the file need not be there."""
    base = environ.get("XDG_CONFIG_HOME", "")
    if not os.path.isabs(base):
        base = os.path.join(environ.get("HOME") or os.path.expanduser("~"), ".config")
    return Path(base) / "conewright" / "settings.toml"


def path_of(kept: Kept, environ: Mapping[str, str]) -> Path | None:
    """Return the file that a table names, None where there is no such table; raise Problems where it cannot be read."""
    chosen = _settings(settings_file(environ)).get(kept.key, {})
    path = chosen.get("path") if isinstance(chosen, dict) else None
    if path is None and chosen in ({}, None):
        return None
    if not isinstance(path, str) or not os.path.isabs(path):
        wrong = "names no file" if not isinstance(path, str) else f'"{plain(path)}" is no absolute path'
        accepted = f"the absolute path of {kept.of}, as {kept.command} writes it"
        raise Problems([Problem(str(settings_file(environ)), None, f"{kept.key}.path", wrong, accepted)])
    return Path(path)


def remember(kept: Kept, path: Path | None, environ: Mapping[str, str]) -> None:
    """Keep a choice, None for none, beside whatever else stands in the settings."""
    from engine.record.tables import to_toml
    from engine.record.write import write as write_file

    file = settings_file(environ)
    settings = _settings(file)
    settings.pop(kept.key, None)
    if path is not None:
        settings[kept.key] = {"path": str(path)}
    try:
        file.parent.mkdir(parents=True, exist_ok=True)
        write_file(file, to_toml(settings))
    except (OSError, ValueError) as error:
        stop(str(file), f"cannot be written ({plain(getattr(error, 'strerror', None) or error)})")


def _settings(path: Path) -> dict[str, Any]:
    try:
        with path.open("rb") as file:
            content = file.read(_LARGEST)
    except FileNotFoundError:
        return {}
    except (OSError, ValueError) as error:
        stop(str(path), f"cannot be read ({plain(getattr(error, 'strerror', None) or error)})")
    try:
        import tomllib  # where there are no settings, the first frame need not wait for it

        return tomllib.loads(content.decode())
    except (ValueError, RecursionError) as error:
        stop(str(path), f"is not TOML ({plain(error)})", "the file mended or removed")


def stop(path: str, wrong: str, accepted: str = "") -> NoReturn:
    """Raise Problems that name a file."""
    raise Problems([Problem(path, None, "", wrong, accepted)])
