"""Text to document: entries, fields and values, each with its place in the text. No meaning beyond the line."""
