"""Last chapter, choice: how to rank, the pair that was chosen, and what the report says of itself."""

from typing import Annotated

import msgspec

from engine.answers.measured import Measure
from engine.answers.question import Quantity
from engine.answers.worded import Choice, Option, Text
from engine.units import RATIO

#: A weight is felt against the others only, so that ten times the usual one is as much as anybody needs.
MOST_WEIGHT = 10.0


def _weight(of: str, why: str, default: float = 0.0, default_why: str = "not weighed") -> Measure:
    return Measure(
        label=f"Weight of {of}", why=why, dimension=RATIO, least=0.0, greatest=MOST_WEIGHT,
        default=Quantity(default), default_why=default_why, only_if=("rank_by", ("weights",)),
    )  # fmt: skip


def _paper(label: str, why: str) -> Text:
    return Text(label=label, why=why, default_why="left empty, to be written in by hand")


class Chosen(msgspec.Struct, frozen=True, kw_only=True):
    """Ranking, what counts how much in it, the designations of the chosen pair, and the head of the report."""

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
                Option("weights", "weights", "the best by several things at once, each weighed below"),
            ),
            default="mass", default_why="the lightest pair that does the work",
        ),
    ] = None  # fmt: skip
    weigh_margin: Annotated[
        Quantity | None,
        _weight("the utilisation", "How much of its capacity the governing check uses; less is better.", 1.0,
                "it and mass count alike"),
    ] = None  # fmt: skip
    weigh_mass: Annotated[
        Quantity | None,
        _weight(
            "the mass",
            "Both bearings together; each per cent more counts alike.",
            1.0,
            "utilisation and mass count alike",
        ),
    ] = None
    weigh_outside: Annotated[
        Quantity | None,
        _weight("the outside diameter", "Sum of both; each per cent more counts alike."),
    ] = None
    weigh_width: Annotated[
        Quantity | None,
        _weight("the width", "Sum of both; each per cent more counts alike."),
    ] = None
    weigh_friction: Annotated[
        Quantity | None,
        _weight("the friction loss", "Heat of both bearings, averaged over the running time."),
    ] = None
    weigh_cost: Annotated[
        Quantity | None,
        _weight("the cost", "Sum of both by the catalogue's relative cost; each per cent more counts alike."),
    ] = None
    weigh_availability: Annotated[
        Quantity | None,
        _weight("the availability", "Nothing where both are stocked, the whole weight where both are discontinued."),
    ] = None
    weigh_same: Annotated[
        Quantity | None,
        _weight("the same on both sides", "One spare part instead of two: the whole weight where they differ."),
    ] = None
    weigh_system: Annotated[
        Quantity | None,
        _weight("one system", "The whole weight where one is metric and the other inch."),
    ] = None
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
    customer: Annotated[str | None, _paper("Customer", "Stands at the head of the report.")] = None
    project: Annotated[str | None, _paper("Project", "Stands at the head of the report: plant, machine, order.")] = None
    reference: Annotated[
        str | None, _paper("Document number", "By which this calculation is filed; at the head of the report.")
    ] = None
    revision: Annotated[
        str | None, _paper("Revision", "Which state of the calculation this is; at the head of the report.")
    ] = None
    prepared_by: Annotated[str | None, _paper("Prepared by", "Who made the calculation, for the report.")] = None
    checked_by: Annotated[str | None, _paper("Checked by", "Who went through the calculation, for the report.")] = None
    dated: Annotated[
        str | None,
        _paper(
            "Date of the report",
            "As it is to stand there, such as 2026-03-02. The program puts no date of its own, so that a record "
            "computed again says the same.",
        ),
    ] = None


#: What stands at the head of a report, in its order.
PAPERS = ("customer", "project", "reference", "revision", "prepared_by", "checked_by", "dated")
