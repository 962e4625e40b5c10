"""Write the pictures of the README anew, with the kept screens of the same names: `python -m tests.screens`."""

import os
import sys

import pytest

from tests.house.tree import ROOT
from tests.screens.pictures import SHOWN

if __name__ == "__main__":
    os.environ["UPDATE_SCREENS"] = "1"
    sys.exit(
        pytest.main(
            [
                "-n",
                "0",
                str(ROOT / "tests/screens/test_screens.py"),
                "-k",
                " or ".join(f"[{name}-80x24]" for name in sorted(SHOWN)),
            ]
        )
    )
