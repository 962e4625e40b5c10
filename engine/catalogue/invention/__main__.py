"""Runs the generator: `python -m engine.catalogue.invention`."""

from engine.catalogue.invention.invent import main

if __name__ == "__main__":
    main()
