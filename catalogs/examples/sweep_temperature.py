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
    life, worst = api.value(pair, "pair.Lnmh_system"), max(api.utilisation(pair).values())
    print(f"{temperature:>4} degC  life of the pair {life:>9,.0f} h  {pair.result.verdict:<7} worst {worst:.2f}")
