"""What the catalogue's parts are made of, read from files that anyone can replace."""
