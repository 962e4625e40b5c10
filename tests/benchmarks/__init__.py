"""How fast, how small: ratios to a floor that is measured in the same run, on the same machine, in turns.

Run alone: `python -m pytest -n 0 -m benchmark -s`. Each test prints one or more rows. What start-up, keys, bytes and
counts may come to stands in `recorded.py`, with what was measured when it was last looked at: a fifth more fails. What
the engine's own benchmarks hold themselves to stands in them, with its floor. Times that the project promises count by
the pace of the machine (`stopwatch.pace_now`).
"""
