"""How the rings hold on the shaft and in the housing."""
