"""The parts of a machine that load a shaft, as a drawing gives them, to forces on the shaft with their steps."""
