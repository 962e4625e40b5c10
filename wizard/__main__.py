"""`python -m wizard` is the `conewright` command."""

import sys

from wizard.cli import main

if __name__ == "__main__":
    sys.exit(main())
