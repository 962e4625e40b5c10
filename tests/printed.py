"""Values as printed: typed as text, compared with half a unit of the last printed digit as tolerance."""

from decimal import Decimal

import numpy as np


class Printed:
    """A number as it stands in a table or worked example."""

    def __init__(self, text: str) -> None:
        self.text = text
        number = Decimal(text.replace(" ", ""))
        exponent = number.as_tuple().exponent
        assert isinstance(exponent, int)
        self.value = float(number)
        self.half_digit = 0.5 * 10.0**exponent

    def __eq__(self, other: object) -> bool:
        # the last term only absorbs the binary representation of a value that lies exactly on the half digit
        return bool(np.all(np.abs(np.asarray(other) - self.value) <= self.half_digit * (1 + 1e-9)))

    #: Keeps numpy from comparing element by element when the array stands on the left.
    __array_ufunc__ = None
    __hash__ = None  # type: ignore[assignment]

    def __repr__(self) -> str:
        return f"printed({self.text!r})"


def printed(text: str) -> Printed:
    """Return a printed value to compare with `==`, for instance `printed` of the text 0.64."""
    return Printed(text)
