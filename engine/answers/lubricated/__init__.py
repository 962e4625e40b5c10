"""Lubrication in the answers: kinds of question of its own, and the answers made complete."""
