"""The engine of Conewright, in the order in which an engineer works.

answers -> duty -> (catalogue) -> pair -> rating, lubrication, seat, steel -> operating point
        -> checks -> selection -> record -> report

Answers say what is known of the shaft; duty makes load cases of them; the catalogue says what can be bought; pair
balances two bearings against each other; rating, lubrication, seat and steel hold one formula a function, each with
its source; the operating point computes them for many pairs at once; checks hold demand against capacity; selection
keeps and ranks the pairs that pass; the record is what is handed over; the report is what is printed.

`api` is the public face for programs of your own: answers in, a computed pair with every figure and check out. What
stands elsewhere may change from one version to the next; what stands there does not without being said.

Nothing here knows of a screen. Units: N, mm, MPa, rpm, deg C, h, mm2/s, rad.
"""

__version__ = "0.2.0"
