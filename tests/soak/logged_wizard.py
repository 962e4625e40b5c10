"""The wizard, with a log of every answer that it took: `python -m tests.soak.logged_wizard LOG [RECORD.toml]`.

A line of the log says which answers a session holds from now on and in which file they belong; a second one, with the
same answers, that they were said to be saved there. It is written before anything else can happen, so whoever reads
both log and file after a kill knows what must be in the file.
"""

import json
import os
import sys

from engine.answers.plain import to_plain
from wizard import cli
from wizard.session import Session


def tables(answers):
    """Return answers as a text that is the same for the same answers."""
    return json.dumps(to_plain(answers), sort_keys=True, default=str)


def logged(file):
    """Let every change of a session be logged, before and after it is saved."""
    changed = Session._stale

    def note(session, saved):
        line = {"file": str(session.path.absolute()), "saved": saved, "answers": tables(session.answers)}
        os.write(file, (json.dumps(line) + "\n").encode())

    def stale(session):
        note(session, saved=False)
        changed(session)
        if not session.trouble:
            note(session, saved=True)

    Session._stale = stale


if __name__ == "__main__":
    logged(os.open(sys.argv[1], os.O_WRONLY | os.O_CREAT | os.O_APPEND, 0o600))
    sys.exit(cli.main(sys.argv[2:]))
