"""What becomes of the answers on speed and lubrication: fits by the turning ring, film, heat, dirt and grease."""

from engine.answers.uses.use import use

_NU, _KAPPA = "lubrication.viscosity:kinematic_viscosity_full", "lubrication.viscosity_ratio:viscosity_ratio_kappa"
_POINTS, _INDEX = "lubrication.two_points:at_40_and_100", "lubrication.viscosity_index:nu100_of_index"
_CARRIED, _SETTLE, _LOSSES = "lubrication.cooling:carried", "lubrication.heat:settle", "lubrication.heat:losses"
_E_C, _WORDS = "lubrication.contamination:e_C_of", "lubrication.cleanliness:level_in_words"
_INTERVAL, _GREASE = "lubrication.grease.interval:regreasing_interval", "checks.lubrication:GREASE"
_SHAFT_CLASS, _HOUSING_CLASS = "seat.recommend:shaft_class", "seat.recommend:housing_class"

_SPEED = {
    "speed.rotating_ring": use("Which ring has a circumferential load, and so the fit recommended for it.",
                               _SHAFT_CLASS, _HOUSING_CLASS, words="inner outer ring rotating hub wheel"),
    "speed.load_direction": use("Point load or circumferential load of each ring, and so the fit recommended for it.",
                                _SHAFT_CLASS, _HOUSING_CLASS, words="point load circumferential stationary rotating"),
    "speed.overspeed": use("Held against the limiting speed; it also widens the turning ring on its seat.",
                           "checks.part:SPEED", "seat.interference:centrifugal_loss",
                           words="maximum max rpm limiting speed runaway"),
}  # fmt: skip

_LUBRICANT = {
    "supply": use("Chooses the line of the contamination factor and f0 of the friction.", _E_C,
                  "lubrication.friction:f0_with_supply", words="lubrication method oil grease splash jet"),
    "lubricant": use("Brings nu40 and nu100, density and the kind of its base oil.", _NU,
                     "lubrication.oil:pressure_viscosity_alpha_p", words="oil grease product NLGI brand thickener"),
    "viscosity_by": use("Says which figures of a data sheet are given; two points are brought to 40 and 100 degC.",
                        _POINTS, words="data sheet viscosity"),
    "grade": use("nu40 of the oil.", "lubrication.viscosity:nu40_of_grade", _NU, words="viscosity grade ISO VG oil"),
    "vi": use("VI, from which nu100 follows.", _INDEX, _NU, words="VI index oil"),
    "nu40": use("nu40 of the oil.", _NU, _KAPPA, words="kinematic viscosity cSt oil"),
    "nu100": use("nu100 of the oil.", _NU, _KAPPA, words="kinematic viscosity cSt oil"),
    "point_1_temperature": use("T of one point of the line.", _POINTS, words="data sheet oil"),
    "point_1_viscosity": use("nu of one point of the line.", _POINTS, words="data sheet oil cSt"),
    "point_2_temperature": use("T of the other point of the line.", _POINTS, words="data sheet oil"),
    "point_2_viscosity": use("nu of the other point of the line.", _POINTS, words="data sheet oil cSt"),
    "roughness": use("Rq of the film ratio.", "lubrication.contact.film:film_ratio_lambda",
                     words="surface finish Rq Ra lambda"),
    "own_film": use("Enters no formula itself: yes opens the questions on base oil, density and roughness.",
                    words="lambda film thickness"),
    "base": use("k and s of the pressure viscosity.", "lubrication.oil:pressure_viscosity_alpha_p",
                words="synthetic mineral oil type"),
    "density": use("rho15, from which the density at temperature follows.", "lubrication.oil:density",
                   "lubrication.oil:dynamic_viscosity_eta", words="specific gravity oil"),
    "ep_additive": use("Whether the raised a_ISO may be taken.", "rating.modified_life:a_iso_with_ep",
                       words="EP AW extreme pressure additive"),
    "kappa_wanted": use("kappa at which the advice on the grade aims.", "lubrication.advice:grade_for_kappa",
                        words="film viscosity ratio"),
}  # fmt: skip

_HEAT = {
    "temperature_by": use("Settled: each pair's temperature is where losses and cooling are equal.", _SETTLE,
                          words="heat balance thermal"),
    "temperature": use("T of the viscosity.", _NU, _KAPPA, words="heat warm bearing temperature"),
    "housing": use("Whether the losses of both bearings are added up in one balance.", _SETTLE,
                   words="casing pedestal plummer gearbox"),
    "ambient": use("Ta of the heat carried away.", _CARRIED, words="room outside temperature surroundings"),
    "area": use("A of the heat carried away.", _CARRIED, words="cooling surface casing"),
    "air_speed": use("The air along the housing, for h_forced.", "lubrication.cooling:moved_air_h", _CARRIED,
                     words="fan wind ventilation cooling"),
    "other_heat": use("The part `other` of the losses.", _LOSSES, words="external heat gear seal"),
    "oil_flow": use("V of the heat carried away.", _CARRIED, words="circulation pump litres cooling"),
    "oil_inlet": use("T_in of the oil.", _CARRIED, words="supply inlet cooler"),
    "oil_hold": use("T at which the flow needed is worked out.", "lubrication.heat:oil_flow_needed",
                    words="cooling outlet"),
}  # fmt: skip

_DIRT = {
    "cleanliness_by": use("Says how the level is known; code and words are made a level.",
                          "lubrication.cleanliness:level_of_code", _WORDS, words="contamination"),
    "cleanliness": use("c1 and c2 of the contamination factor.", _E_C,
                       "lubrication.contamination:contamination_factor_e_C",
                       words="contamination dirt particles eC pollution"),
    "code": use("Its last two numbers name the level.", "lubrication.cleanliness:numbers_of_code",
                "lubrication.cleanliness:level_of_code", words="contamination oil analysis particles"),
    "filter": use("Where the level begins.", _WORDS, words="filtration beta micron contamination"),
    "seals": use("A step of the level.", _WORDS, words="sealing shield lip contamination"),
    "breather": use("A step of the level.", _WORDS, words="vent contamination"),
    "air": use("A step of the level.", _WORDS, words="dust environment surroundings contamination"),
    "moisture": use("F_moisture of the interval.", _INTERVAL, words="water humidity grease"),
    "vibration": use("F_vibration of the interval.", _INTERVAL, words="shaking grease"),
    "regreasing": use("Whether the interval or the whole life is asked of the grease, and how much is refilled.",
                      _GREASE, "lubrication.grease.fill:refill", words="relubrication grease lubricator"),
    "interval": use("The computed interval is held against it.", _GREASE, _INTERVAL,
                    words="relubrication grease hours"),
    "coldest": use("T_start of the consistency.", "lubrication.grease.fill:consistency",
                   words="cold start low temperature NLGI"),
}  # fmt: skip

USES = {**_SPEED, **{f"lubrication.{name}": one for name, one in (_LUBRICANT | _HEAT | _DIRT).items()}}
