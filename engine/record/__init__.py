"""What is handed over: the design record, written, read and computed again."""
