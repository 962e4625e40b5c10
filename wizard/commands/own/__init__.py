"""Commands on files of the user's own, and the settings that name them."""
