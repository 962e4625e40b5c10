"""What a file keeps when the record is written into it again: comments, and keys of a newer version."""
