"""What is written: the estimate document, the page, the drawings. Computes nothing.

Everything here is a function of the estimate document, one plain dict: a number that is not in
it is not printed. Numbers are scaled to paper, rounded and given their unit, no more.
"""
