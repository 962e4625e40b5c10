"""The contact of rollers with raceways and rib: sizes, speeds, loads, film."""
