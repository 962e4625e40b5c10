"""What was asked and answered: the chapters, and one path to every answer."""
