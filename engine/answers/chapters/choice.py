"""Last chapter, choice: how to rank, and the pair that was chosen."""

from typing import Annotated

import msgspec

from engine.answers.worded import Choice, Option, Text


class Chosen(msgspec.Struct, frozen=True, kw_only=True):
    """Ranking and the designations of the chosen pair."""

    rank_by: Annotated[
        str | None,
        Choice(
            label="Rank the shortlist by",
            why="What matters most to the customer; every pair listed passes its checks.",
            options=(
                Option("mass", "mass", "lightest first"),
                Option("size", "size", "smallest outside diameters first, then widths"),
                Option("life", "life margin", "longest life over the required one first"),
                Option("cost", "cost", "cheapest first, by the catalogue's relative cost; unstated cost last"),
            ),
            default="mass", default_why="the lightest pair that does the work",
        ),
    ] = None  # fmt: skip
    bearing_a: Annotated[
        str | None,
        Text(label="Bearing at A", why="Designation in the catalogue; pick it in the shortlist.", longest=64),
    ] = None
    bearing_b: Annotated[
        str | None,
        Text(label="Bearing at B", why="Designation in the catalogue; pick it in the shortlist.", longest=64),
    ] = None
    catalogue: Annotated[
        str | None,
        Text(
            label="Catalogue file",
            why="A CSV of your own, seen from the record's folder; `conewright catalog check FILE.csv` explains it.",
            default_why="the one chosen with `conewright catalog use`, else the built-in one",
            longest=300,
        ),
    ] = None  # fmt: skip
