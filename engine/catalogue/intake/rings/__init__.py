"""Rows that are cones or cups: joined to the assemblies that they form."""
