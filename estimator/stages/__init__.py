"""One module per step of the run: pairs resolved rows with formulas. No formula lives here."""
