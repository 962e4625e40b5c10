"""How fast, how small: ratios to a floor that is measured in the same run, on the same machine, in turns.

Run alone: `python -m pytest -n 0 -m benchmark -s`. Each test prints one or more rows; the ceilings are generous, so that
they catch what went wrong and not which machine it is. The only absolute time is the one the project promises: an answer
shows its count within 100 ms (median).

| measured                                   | floor in the same run                                   | ceiling          |
|--------------------------------------------|---------------------------------------------------------|------------------|
| start to first full frame, in a pty        | `python -c "import textual.app"` in a pty               | 2.0 x            |
| import of the command line                 | `python -c pass`                                        | 4.0 x            |
| answer to new count, 2,000 a side, pty     | the search alone, same answers; promise of 100 ms       | median 100 ms    |
| screening of 2,000 x 2,000 pairs           | every pair computed (a sample, scaled up)               | 0.5 x            |
| screening of 2,000 x 2,000 pairs           | one bare numpy power for each pair                      | printed          |
| peak memory of a running wizard            | `import textual.app, numpy`, printed; limit 150 MiB     | 150 MiB          |
| bytes for a typed character                | 1 (echo of a bare terminal)                             | 340              |
| bytes for a row move, list or shortlist    | 160 (two rows of 80 columns)                            | 700              |
| bytes for a change of chapter              | 1,920 (24 rows of 80 columns)                           | 7,500            |
"""
