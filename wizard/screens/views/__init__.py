"""Screens that draw what the answers of a chapter come to, and lists to choose an answer from."""
