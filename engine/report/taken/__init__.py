"""What the formulas take that stands nowhere else in a report, so that who has only it can redo the calculation."""
