"""The wizard: command line, session, and the screens of Conewright."""
