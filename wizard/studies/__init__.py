"""What is computed behind the screens and takes its time."""
