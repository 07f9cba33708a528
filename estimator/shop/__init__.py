"""The workshop side: bars, sheets, three-point estimates, price. Pure functions of numbers."""
