"""A report in its formats: Markdown, HTML, PDF."""
