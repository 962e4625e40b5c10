"""How hot may it run? Sweep the temperature of a record and see the life of its pair fall.

Run it in the environment of conewright: python sweep_temperature.py [RECORD.toml]
"""

import sys
from pathlib import Path

from engine import api

path = sys.argv[1] if len(sys.argv) > 1 else Path(__file__).with_name("peat_harvester_bevel_drive.toml")
record = api.read(path)
for temperature in range(40, 121, 10):
    hotter = api.answered({"lubrication.temperature": f"{temperature} degC"}, record.answers)
    pair = api.compute(hotter)
    life, near = api.value(pair, "pair.Lnmh_system"), pair.result.governing()
    said = f"{near.name}, {near.utilisation:.2f}" if near else "not computed"
    print(f"{temperature:>4} degC  life of the pair {life:>7,.0f} h  {pair.result.verdict:<7} least room: {said}")
