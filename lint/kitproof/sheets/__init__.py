"""Sheets that people send: bytes of a CSV file or a workbook to rows, columns known by their headings, and lists."""
