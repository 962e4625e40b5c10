"""What can be bought: assemblies as columns, read from CSV, checked, or invented."""
