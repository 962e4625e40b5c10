"""The wizard on a catalogue of 2,000 invented assemblies: `python -m tests.benchmarks.large_wizard RECORD.toml`."""

import os
import sys

from wizard import terminal

ROWS, SEED = 2_000, 355


def main():
    can = terminal.abilities(os.environ)
    terminal.prepare(os.environ, can)
    from engine.catalogue.invention.invent import synthetic
    from wizard.app import Conewright
    from wizard.commands.open_session import record_or_new

    opened, _ = record_or_new(sys.argv[1])
    app = Conewright(opened, can, load=lambda: synthetic(ROWS, SEED))
    app.run(mouse=False)
    sys.exit(app.return_code)


if __name__ == "__main__":
    main()
