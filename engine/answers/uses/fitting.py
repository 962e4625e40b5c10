"""What becomes of the answers on steel, fits and setting."""

from engine.answers.uses.use import use

_SHAFT_CLASS, _HOUSING_CLASS = "seat.recommend:shaft_class", "seat.recommend:housing_class"
_SHAFT_LIMITS, _HOLE_LIMITS = "seat.iso286:shaft_limits", "seat.iso286:hole_limits"
_OVERLAP, _PRESSURE = "seat.interference:interference_limits", "seat.pressure:joint_pressure"
_THERMAL, _SMOOTHED = "seat.interference:thermal_change", "seat.interference:smoothed"
_GROWN, _LOST = "distribution.setting_chain:play_lost_to_growth", "distribution.setting_chain:play_lost"
_SURVIVAL = "distribution.scatter:survival"

_STEEL = {
    "steel.allowed": use("Enters no formula: bearings of the other heat treatment are left out.",
                         words="case carburized through hardened heat treatment material"),
    "steel.shock": use("Factor and floor of the toughness asked for; it also sets s0 where that is open.",
                       "steel.toughness:toughness_demand", "rating.static:static_safety_s0",
                       words="impact hammering toughness crack"),
    "steel.heavy_interference": use("While a shaft fit is open, yes takes r6; its limits give the tension.",
                                    _SHAFT_LIMITS, "seat.pressure:hoop_at_bore", words="press fit tight hoop stress"),
    "steel.hollow_shaft": use("d_i of the joint: half the seat where its bore is open.", _PRESSURE,
                              words="tube tubular"),
    "steel.dirt": use("Held against the place of the steel; of grease also a factor on its interval.",
                      "checks.fits:DIRT", "lubrication.grease.interval:regreasing_interval",
                      words="abrasive particles wear contamination"),
    "steel.peak_temperature": use("Held against what the steel of the catalogue stands.", "checks.part:HEAT",
                                  words="hot maximum temperature stabilised growth"),
}  # fmt: skip

_FITS = {
    "level": use("Light, normal or heavy in the tables of recommended classes.", "seat.recommend:load_level",
                 _SHAFT_CLASS, _HOUSING_CLASS, words="P/C load level fit"),
    "shaft_fit_a": use("es and ei of the shaft; less the bore they are the interference.", _SHAFT_LIMITS, _OVERLAP,
                       words="tolerance class m6 k6 seat interference"),
    "shaft_fit_b": use("es and ei of the shaft; less the bore they are the interference.", _SHAFT_LIMITS, _OVERLAP,
                       words="tolerance class m6 k6 seat interference"),
    "housing_fit_a": use("ES and EI of the housing; the outside diameter less these is the interference.",
                         _HOLE_LIMITS, _OVERLAP, words="tolerance class H7 N7 seat interference"),
    "housing_fit_b": use("ES and EI of the housing; the outside diameter less these is the interference.",
                         _HOLE_LIMITS, _OVERLAP, words="tolerance class H7 N7 seat interference"),
    "adjusted": use("The ring that slides gets a loose class.", _SHAFT_CLASS, _HOUSING_CLASS,
                    words="adjusting slide loose floating"),
    "shaft_bore": use("d_i of the joint of cone and shaft.", _PRESSURE, words="hollow tube wall"),
    "shaft_material": use("E, nu and alpha of the shaft.", _PRESSURE, _THERMAL, words="steel iron aluminium"),
    "shaft_roughness": use("Rz of the inner part.", _SMOOTHED, words="surface finish Rz"),
    "housing_material": use("E, nu and alpha of the housing.", _PRESSURE, _THERMAL,
                            words="cast iron aluminium aluminum steel"),
    "housing_wall": use("d_o of the joint of cup and housing.", _PRESSURE, words="thickness thin wall hub"),
    "split_housing": use("A split housing gets H7 where the cup has a point load.", _HOUSING_CLASS,
                         words="two-piece halves plummer"),
    "housing_roughness": use("Rz of the outer part.", _SMOOTHED, words="surface finish Rz"),
    "cone_hotter": use("T of the cone over that of the shaft.", _THERMAL,
                       words="temperature difference inner ring gradient"),
    "cup_hotter": use("T of the cup over that of the housing.", _THERMAL,
                      words="temperature difference outer ring gradient"),
    "mounting": use("Heated: the temperature at which the cone slides on is held against 120 degC.",
                    "seat.mounting:heating_temperature", "checks.fits:HEATING",
                    words="assembly heating press induction"),
    "creeping": use("What the load asks of the fit is held against what is left of it; this says what follows.",
                    "seat.creep:interference_against_creep", words="creep slip fretting turning rotating wander"),
}  # fmt: skip

_SETTING = {
    "method": use("Whether the fits still take play after it was measured.", _LOST,
                  words="adjustment nut shim spacer locknut"),
    "aim": use("Where the chain from the bench into service begins; as computed it ends in the middle of the band.",
               _LOST, _GROWN, "checks.setting:BAND", words="end play preload clearance axial adjustment"),
    "amount": use("The first link of the chain from the bench into service.", _LOST, _GROWN,
                  words="end play preload clearance axial dial indicator"),
    "tolerance": use("The half width of the bench setting among the draws.", "checks.setting:RANGE",
                     words="scatter accuracy fitter"),
    "cone_over_cup": use("T of cone and cup, half of it to each side of the bearing's.", _GROWN,
                         words="temperature difference ring gradient"),
    "temperatures_within": use("The half width of four temperatures among the draws.", _GROWN, _SURVIVAL,
                               words="uncertainty scatter"),
    "misalignment": use("Tilt of the cups in the approach of each roller slice.",
                        "distribution.contact:roller_load", words="tilt alignment skew bores shoulder"),
    "keeps": use("Sets the ends of the band of settings.", "checks.setting:BAND", words="life share band"),
    "load_within": use("The half width of the factor on the loads among the draws.", _SURVIVAL,
                       words="uncertainty load scatter accuracy"),
    "chance": use("The chance over the draws is held against it.", _SURVIVAL, "checks.setting:CHANCE",
                  words="probability monte carlo reliability"),
}  # fmt: skip

USES = {
    **_STEEL,
    **{f"fits.{name}": one for name, one in _FITS.items()},
    **{f"setting.{name}": one for name, one in _SETTING.items()},
}
