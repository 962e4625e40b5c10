"""How a pair is set: the load distribution over the setting, from the fitter's bench to the life in service."""
