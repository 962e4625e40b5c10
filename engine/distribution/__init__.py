"""How the load of a pair is shared out over its rollers, and what the setting of the two bearings does to it."""
