"""What the screen of questions does beside showing them: lists of items, and going through the options of a choice."""
