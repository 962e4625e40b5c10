"""The chapters in asking order: what is asked, each question on its own field."""
