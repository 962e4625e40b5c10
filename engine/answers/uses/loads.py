"""What becomes of the answers on duty and shaft: the loads on both bearings, and the life that is asked of them."""

from engine.answers.uses.use import use

_REACTIONS, _RESULTANT = "duty.statics:reactions", "duty.statics:radial_load"
_THRUST = "pair.equilibrium:axial_loads"
_CENTRES = "pair.arrangement:load_centres"
_S0, _LIFE = "rating.static:static_safety_s0", "rating.life:life_in_hours"
_LNM = "rating.life:modified_life_Lnm"
_FT, _HELICAL, _SPIRAL = "duty.mesh:tangential_force", "duty.mesh:helical_forces", "duty.mesh:spiral_bevel_forces"
_BEVEL, _SPUR = "duty.mesh:straight_bevel_forces", "duty.mesh:spur_radial_force"
_WORM, _WHEEL = "duty.mesh:worm_forces", "duty.mesh:worm_wheel_forces"
_RADIAL_THRUST, _AXIAL_THRUST = "duty.fluid:impeller_radial_thrust", "duty.fluid:impeller_axial_thrust"
_RAM, _SCREW = "duty.fluid:pressure_thrust", "duty.fluid:screw_thrust"
_STRANDS, _KA = "duty.drives:pull_of_strands", "rating.application:application_factor_KA"
_BENDING, _STIFFNESS = "duty.deflection:bending", "duty.deflection:bending_stiffness"

_DUTY = {
    "duty.job": use("Enters no formula: it heads the record and the report.",
                    words="project title customer client machine"),
    "duty.arrangement": use("The side to which the load lines lean sets the spread and who takes the thrust.",
                            _CENTRES, _THRUST, words="O X DB DF direct indirect mounting"),
    "duty.distance": use("The lever by which forces are shared out.", _CENTRES, _REACTIONS,
                         words="span spacing centre centres between bearings"),
    "duty.distance_between": use("Sets how far inside its reference plane each load centre lies.", _CENTRES,
                                 words="datum reference plane"),
    "duty.life": use("The life that is reached, in hours, is held against it.", "checks.loads:LIFE", _LIFE,
                     words="lifetime L10 L10h hours durability endurance"),
    "duty.reliability": use("It sets a1.", "rating.reliability:reliability_factor_a1", _LNM,
                            words="probability survival failure a1 L10 L5 L1"),
    "duty.life_of": use("With the pair as a system both lives are joined; else the shorter one counts.",
                        "rating.system:system_life", words="system life"),
    "duty.static_safety": use("The least s0 over the cases is held against it.", _S0, "checks.loads:STATIC",
                              words="safety factor S0 fs dents brinelling overload"),
    "duty.locating": use("A unit takes all thrust; its rows are rated together.", "pair.paired:located_loads",
                         "pair.paired:unit_load_centre", "rating.double_row:unit_dynamic_rating",
                         words="fixed floating double row locating arrangement"),
    "duty.driver": use("Row of the table of application factors; the factor multiplies the forces.", _KA,
                       words="motor engine turbine KA service factor"),
    "duty.driven": use("Column of the table of application factors; the factor multiplies the forces.", _KA,
                       words="machine crusher fan conveyor mill pump KA service factor"),
}  # fmt: skip

_CASES = {
    "name": use("Enters no formula: it names the case in lists and in the report.", words="load case title"),
    "share": use("The weight q of the case in the sum of damage.", "rating.life:spectrum_life",
                 words="time share duration percentage duty cycle miner damage"),
    "speed": use("n of the life in hours and of the viscosity that the film asks for.", _LIFE,
                 "lubrication.viscosity_ratio:reference_viscosity_nu1", words="rpm revolutions rotation n rev/min"),
    "radial_y": use("A force F of the reactions in plane y.", _REACTIONS, _RESULTANT,
                    words="load radial Fr vertical force"),
    "radial_z": use("A force F of the reactions in plane z.", _REACTIONS, _RESULTANT,
                    words="load radial Fr horizontal force"),
    "position": use("x of the force in the sum of moments.", _REACTIONS, words="overhung lever place"),
    "axial": use("The thrust K on the pair; the induced loads S come with it.", _THRUST,
                 "pair.equilibrium:induced_axial_load_S", words="thrust load Fa axial external"),
    "axial_towards": use("With the arrangement it names the bearing that the thrust loads.",
                         "pair.arrangement:loaded_by_positive_thrust", _THRUST, words="thrust direction side"),
    "load_level": use("Multiplies the forces F before the reactions, weights apart.", _REACTIONS,
                      words="part load percentage scale"),
    "rotation": use("Turns round the tangential force and with it the thrust of teeth.", _FT, _HELICAL,
                    words="reverse backwards direction reversal"),
    "application_factor": use("Multiplies the forces before the reactions; it takes the place of the table's factor.",
                              _KA, _REACTIONS, words="KA service factor"),
    "shock_factor": use("Multiplies P0 of the case.", _S0, words="peak overload impact"),
    "histogram": use("Each bin is one term of the sum of damage.", "rating.life:spectrum_life",
                     words="load spectrum csv measured rainflow bins file collective"),
    "temperature": use("T of the viscosity in this case.", "lubrication.viscosity:kinematic_viscosity_full",
                       "lubrication.viscosity_ratio:viscosity_ratio_kappa", words="heat warm"),
}  # fmt: skip

_SHAFT = {
    "shaft.rotation": use("The sense in which Ft acts at the circumference, and with it the thrust of teeth.", _FT,
                          _HELICAL, words="direction of rotation clockwise"),
    "shaft.tilt": use("tilt of the weights.", "duty.masses:weight_forces",
                      words="inclination inclined vertical shaft horizontal upright"),
    "shaft.lower": use("The end that the weights' G_a points to.", "duty.masses:weight_forces", words="vertical"),
    "shaft.start": use("Where the first step lies along x in the bending line.", _BENDING, words="shaft end origin"),
    "shaft.modulus": use("E of the shaft.", _STIFFNESS, words="elastic modulus stiffness E"),
}  # fmt: skip

_ELEMENTS = {
    "kind": use("Enters no formula itself: it chooses those that the element's forces follow.",
                words="gear pinion belt pulley chain sprocket worm fan rotor impeller wheel"),
    "name": use("Enters no formula: it names the element in drawings and reports.", words="element title"),
    "position": use("x of the element's forces in the sum of moments.", _REACTIONS, words="place along shaft overhung"),
    "angle": use("Parts the element's forces into the planes y and z before the reactions.", _REACTIONS, _RESULTANT,
                 words="direction mesh angle"),
    "flow": use("The sign of Ft.", _FT, words="driving driven power flow input output"),
    "power": use("P of the torque.", "duty.mesh:torque_of_power", _FT, words="kW hp horsepower"),
    "torque": use("T of the tangential force, of a screw's thrust.", _FT, _SCREW, words="moment Nm"),
    "diameter": use("d of the tangential force; D2 of an impeller, D of a ram, d_m of a screw.", _FT, _RADIAL_THRUST,
                    _RAM, _SCREW, words="pitch circle reference diameter pulley"),
    "pressure_angle": use("alpha_n of the teeth.", _SPUR, _HELICAL, _BEVEL, _WORM, words="tooth flank"),
    "helix_angle": use("beta of the teeth.", _HELICAL, _SPIRAL, words="helical spiral"),
    "lead_angle": use("gamma_m of the worm.", _WORM, _WHEEL, words="worm lead pitch"),
    "hand": use("The sign of the thrust; sigma of spiral bevel teeth.", _HELICAL, _SPIRAL, _WORM,
                words="left right handed thread"),
    "cone_angle": use("delta of the bevel gear.", _BEVEL, _SPIRAL, words="bevel pitch angle"),
    "apex": use("The side to which Fa of the bevel gear points.", _BEVEL, _SPIRAL, words="bevel side"),
    "friction": use("mu of the worm or of the thread.", _WORM, _WHEEL, _SCREW, words="friction mu"),
    "pull_factor": use("k of the pull.", "duty.drives:pull_by_factor", words="belt tension chain pull"),
    "tension_ratio": use("The ratio of the strands.", "duty.drives:strand_tensions", _STRANDS,
                         words="belt tight slack strand"),
    "wrap_angle": use("theta of the pull.", _STRANDS, words="belt arc contact"),
    "mass": use("m of a weight or of what turns out of balance.", "duty.masses:weight_forces",
                "duty.masses:unbalance_force", words="weight kg rotor"),
    "eccentricity": use("e of the unbalance.", "duty.masses:unbalance_force", words="unbalance imbalance"),
    "balance_grade": use("G, which permits an eccentricity.", "duty.masses:permissible_eccentricity",
                         "duty.masses:unbalance_force", words="unbalance imbalance vibration"),
    "force": use("A force F of the reactions.", _REACTIONS, _RESULTANT, words="radial load"),
    "axial": use("Thrust on the pair; at its diameter it also makes a moment.", _REACTIONS, _THRUST,
                 words="thrust load"),
    "moment": use("A moment M of the reactions.", _REACTIONS, words="bending couple"),
    "offset": use("The lever of the wheel's load: it adds a moment M.", _REACTIONS, words="scrub radius sheave"),
    "pressure": use("dp of the impeller, p on the face.", _RADIAL_THRUST, _AXIAL_THRUST, _RAM, words="bar head"),
    "width": use("b2 of the impeller.", _RADIAL_THRUST, words="impeller outlet"),
    "flow_ratio": use("q of the radial thrust.", _RADIAL_THRUST, words="pump best efficiency point"),
    "ring_diameter": use("D_ring of the axial thrust.", _AXIAL_THRUST, words="pump wear ring"),
    "seal_diameter": use("d_shaft of the axial thrust.", _AXIAL_THRUST, words="pump seal"),
    "lead": use("lead of the thread.", _SCREW, words="pitch thread screw"),
    "thrust": use("The side to which the thrust of impeller or ram points.", _AXIAL_THRUST, _RAM,
                  words="thrust direction"),
}  # fmt: skip

_SECTIONS = {
    "length": use("Where the stiffness changes along x.", _BENDING, words="shaft step section shoulder"),
    "diameter": use("d_o of the step.", _STIFFNESS, words="shaft step section stepped"),
    "bore": use("d_i of the step.", _STIFFNESS, words="hollow shaft step section"),
}  # fmt: skip

USES = {
    **_DUTY,
    **{f"duty.cases[].{name}": one for name, one in _CASES.items()},
    **_SHAFT,
    **{f"shaft.elements[].{name}": one for name, one in _ELEMENTS.items()},
    **{f"shaft.sections[].{name}": one for name, one in _SECTIONS.items()},
}
