"""The lookup tables: where they are, reading, overriding, and finding a row by what was typed."""
