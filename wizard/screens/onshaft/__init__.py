"""The shaft as the wizard shows it: a strip under the questions, and a screen with every force."""
