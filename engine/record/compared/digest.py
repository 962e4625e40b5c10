"""Hashes that tell whether answers or a result are still what they were when the result was computed.

They find accidents and careless edits. They are no signature: whoever changes a record on purpose can compute them
anew, and then only the computation itself tells.
"""

import hashlib
import json
from collections.abc import Mapping
from typing import Any

from engine.answers.document import CHAPTERS, Answers
from engine.answers.plain import to_plain

#: The key under which a result holds its seal.
SEAL = "sha256"
#: The key under which it holds the hashes of the answers it was computed from.
ANSWERS = "answers_sha256"


def digest(value: Any) -> str:
    """Return the SHA-256 of plain tables, the same whatever the order of their keys and the layout of the file."""
    text = json.dumps(value, sort_keys=True, separators=(",", ":"), ensure_ascii=True, default=str)
    return hashlib.sha256(text.encode()).hexdigest()


def of_answers(answers: Answers) -> dict[str, str]:
    """Return the hash of each chapter's answers."""
    plain = to_plain(answers)
    return {chapter.field: digest(plain.get(chapter.field, {})) for chapter in CHAPTERS}


def seal(made_with: Mapping[str, Any], result: Mapping[str, Any]) -> str:
    """Return the hash of a result together with what it says of its making, the seal itself left out."""
    return digest([dict(made_with), {key: value for key, value in result.items() if key != SEAL}])
