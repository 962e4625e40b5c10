"""The seats and the steel of the chosen pair, as figures and sentences."""
