"""The drawn section of an assembly: where rollers, ribs and load line lie, its chamfers, and what the rings weigh.

Along z from the cone back face (at the large roller ends, z = 0) stand: the cone from 0 to B, the cup from T - C to
T, its raceway falling towards the small roller ends at the angle alpha. Rollers, cone raceway and cup raceway are
cones of one apex, so that they roll: the roller half angle nu follows from the sizes, the roller axis lies at
alpha - nu and the cone raceway at alpha - 2 nu. The middle of the contact at the cup lies at the middle of the cup.
"""
