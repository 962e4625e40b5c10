"""Many duties at once: a table of them to answers, and each to one line of results."""
