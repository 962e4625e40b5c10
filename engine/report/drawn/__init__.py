"""Drawings of a report: sections and shaft to scale, curves and bars, as shapes that any format can write."""
