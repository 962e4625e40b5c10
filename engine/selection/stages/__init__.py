"""The pieces of a search: parts on a side, bounds over partners, the first of very many."""
