"""What becomes of each answer: the formulas that it enters, and the other words by which a question is looked for."""
