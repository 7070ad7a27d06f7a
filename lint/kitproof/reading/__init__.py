"""Text to document: entries, fields and values, each with its place in the text. No meaning beyond the line.

`read` is in `entries`, what it gives in `document`, bytes to text in `decoding`. Nothing is imported here. Lark is
loaded when the first value is read that is not known from before, pint when the first unusual unit is.
"""
