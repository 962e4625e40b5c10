"""The wizard in a browser on the same machine: an optional extra."""
