"""The job workbook: cells without meaning, headings, typed rows. Knows nothing of materials."""
