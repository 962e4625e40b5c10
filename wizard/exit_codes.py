"""What each exit code means, once."""

from enum import IntEnum


class Exit(IntEnum):
    """Exit status of every command."""

    PASSES = 0  # done; for `calc`, every check passes; for `verify` and `diff`, nothing differs
    FAILS = 1  # a check fails, or the duty is incomplete; a figure moved; two records differ
    BAD_INPUT = 2  # a record, an argument or the terminal cannot be used
    NOT_USED = 3  # as 0, but a record holds keys that no question has: what they say was not computed
    NOT_SAVED = 74  # answers are not where they belong, or lost at the user's word; sysexits.h: an error on output
    ERROR_INSIDE = 70  # an error of the program itself, as sysexits.h numbers it; the answers are saved
