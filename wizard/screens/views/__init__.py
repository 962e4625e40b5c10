"""Pictures that belong to a chapter of questions."""
