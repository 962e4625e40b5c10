"""How fast, how small: ratios to a floor that is measured in the same run, on the same machine, in turns.

Run alone: `python -m pytest -n 0 -m benchmark -s`. Each test prints one or more rows; the ceilings are generous, so
that they catch what went wrong and not which machine it is. The only absolute times are those the project promises:
an answer shows its count within 100 ms (median of a round, the quietest of three), and the figures of the search.

| measured                              | floor in the same run                                 | ceiling       |
|---------------------------------------|-------------------------------------------------------|---------------|
| start to first full frame, in a pty   | `python -c "import textual.app"` in a pty             | 2.0 x         |
| start to first count                  | start to first full frame                             | 5.0 x         |
| import of the command line            | `python -c pass`                                      | 5.0 x         |
| answer to count, 2,000 a side, pty    | the search alone with the same answers                | median 100 ms |
| screening of 2,000 x 2,000 pairs      | every pair computed by numpy (a sample, scaled up)    | 0.5 x, 2 s    |
| screening of 2,000 x 2,000 pairs      | every pair in a Python loop (a sample, scaled up)     | 0.01 x        |
| screening of 2,000 x 2,000 pairs      | the numpy powers that it takes, bare                  | 40 x          |
| counted and listed, bores fixed       | 20 cases                                              | 100 ms        |
| first 20 rows                         | 20 cases                                              | 150 ms        |
| changed answer to first rows, in a pty| 20 cases; the engine's own first rows                 | 150 ms        |
| 100 rows by weights                   | the screening before                                  | 4 x           |
| 8,000 x 8,000, the pairs that are left| the same of 2,000 x 2,000                             | 16 x          |
| peak memory of a screening            | 20 cases, and 1,000                                   | 500 MiB       |
| a load case among 1,000               | 20 cases take 1/50 of it                              | 100 ms        |
| peak memory of a running wizard       | a process that imports textual.app and numpy          | 150 MiB       |
| bytes for a typed character           | 1, the echo of a bare terminal                        | 340           |
| bytes for a row move                  | 160, two rows of 80 columns                           | 700           |
| bytes for a change of chapter         | 1,920, all cells of the screen                        | 7,500         |
| heat, kappa, film: a pair, 20 cases   | a scipy loop over the heat balance                    | 0.5 x, 20 ms  |
| heat, kappa, film: 10,000 pairs       | a scipy loop over the heat balance                    | 0.5 x, 3 s    |
| bytes while nobody types              | 0                                                     | 0             |
"""
