"""How sure masses are, damp timber, scale readings in the place of sums: pure, numbers only."""
