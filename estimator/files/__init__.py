"""Files that a row of the workbook names: where they may lie, and bytes to plain numbers.

No meaning, no geometry: triangles and lines as they stand in the file, with what cannot be read.
"""
