"""What every layer may use: problems, sourced values, units. Imports nothing from above."""
