"""What becomes of the answers on space and choice: they leave pairs out or put them in order, and enter no formula."""

from engine.answers.uses.use import Use, use


def _sides(name: str, what: str, words: str) -> dict[str, Use]:
    does = f"Enters no formula: bearings whose {what} lies outside are left out."
    return {f"envelope.{name}_{side}": use(does, words=words) for side in "ab"}


def _weighed(penalty: str, words: str) -> Use:
    does = f"Enters no published formula: its weight times {penalty} is added to the score that pairs are ranked by."
    return use(does, words=f"weighing priority criterion ranking {words}")


_ENVELOPE = {
    "envelope.system": use("Enters no formula: bearings of the other system are left out.",
                           words="metric inch imperial units"),
    "envelope.same_on_both_sides": use("Enters no formula: pairs of two different bearings are left out.",
                                       words="identical equal spare"),
    **_sides("bore", "bore d", "shaft diameter inner diameter ID seat"),
    **_sides("outside", "outside diameter D", "OD outer diameter housing bore"),
    **_sides("width", "width T", "T assembled width length"),
    "envelope.mass": use("Enters no formula: the sum of both masses is held against it.", words="weight kg light"),
    "envelope.availability": use("Enters no formula: bearings that cannot be had are left out.",
                                 words="stock delivery discontinued lead time"),
    "envelope.cost": use("Enters no formula: the sum of both relative costs is held against it.",
                         words="price money cheap budget"),
    "envelope.formed": use("Enters no formula: without it only sets that the catalogue lists are looked at.",
                           words="cone cup combination assembly"),
}  # fmt: skip

_HEAD = "Enters no formula: it stands at the head of the report."
_CHOICE = {
    "rank_by": use("Enters no formula: it puts the pairs that pass in order.", words="sort order best lightest"),
    "weigh_margin": _weighed("the utilisation of the governing check", "safety utilisation"),
    "weigh_mass": _weighed("the logarithm of the mass", "weight kg"),
    "weigh_outside": _weighed("the logarithm of the sum of the outside diameters", "OD size"),
    "weigh_width": _weighed("the logarithm of the sum of the widths", "size length"),
    "weigh_friction": use("Its weight times the logarithm of the friction loss is added to the score that pairs are "
                          "ranked by; the loss is computed.", "lubrication.friction:load_independent_M0",
                          "lubrication.friction:load_dependent_M1", "lubrication.friction:friction_power",
                          words="weighing priority criterion ranking energy power efficiency"),
    "weigh_cost": _weighed("the logarithm of the relative cost", "price money"),
    "weigh_availability": _weighed("how far both are from being stocked", "stock delivery"),
    "weigh_same": _weighed("1 where both differ", "identical spare"),
    "weigh_system": _weighed("1 where one is metric and the other inch", "metric inch"),
    "bearing_a": use("Enters no formula itself: it names the row of the catalogue that the checks are made for.",
                     words="chosen designation part number"),
    "bearing_b": use("Enters no formula itself: it names the row of the catalogue that the checks are made for.",
                     words="chosen designation part number"),
    "catalogue": use("Enters no formula: it names the file that the bearings are taken from.",
                     words="catalog csv file supplier"),
    "customer": use(_HEAD, words="client company name"),
    "project": use(_HEAD, words="machine order job"),
    "reference": use(_HEAD, words="document number drawing"),
    "revision": use(_HEAD, words="version issue index"),
    "prepared_by": use(_HEAD, words="author engineer name"),
    "checked_by": use(_HEAD, words="reviewer approved name"),
    "dated": use(_HEAD, words="day issued"),
}  # fmt: skip

USES = {**_ENVELOPE, **{f"choice.{name}": one for name, one in _CHOICE.items()}}
