"""Wind rules, one module per standard, and force coefficients: pure functions of numbers.

A rule module reads like the standard: one function per expression, the clause beside it.
"""
