"""Screens that draw what a chapter answers, and lists to choose an answer from."""
