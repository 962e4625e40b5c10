"""What does a shorter shaft cost? The lightest pair that passes, for each distance between the bearings.

Run it in the environment of conewright: python span_and_mass.py
"""

from engine import api

DUTY = {
    "duty.arrangement": "back_to_back", "duty.life": "15 000 h", "duty.distance_between": "back_faces",
    "duty.cases[0].speed": "320 rpm", "duty.cases[0].radial_y": "9 kN", "duty.cases[0].position": "-60 mm",
    "duty.cases[0].axial": "2 kN", "duty.cases[0].application_factor": "1.3",
    "envelope.bore_a": "45..70", "envelope.bore_b": "35..70", "lubrication.supply": "oil bath",
}  # fmt: skip

for distance in range(60, 241, 30):
    answers = api.answered(DUTY | {"duty.distance": f"{distance} mm"})
    best = api.shortlist(answers, rank_by="mass", most=1)
    if not best:
        print(f"{distance:>4} mm  no pair passes")
        continue
    pair = api.compute(answers, best[0])
    mass = api.value(pair, "bearings.mass", "A") + api.value(pair, "bearings.mass", "B")
    print(f"{distance:>4} mm  {best[0][0]} and {best[0][1]}, {mass:.2f} kg")
