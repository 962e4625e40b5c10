"""What any screen may have: undo and redo, and a panel beside it on a wide terminal."""
