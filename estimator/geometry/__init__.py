"""Shapes, bodies, silhouettes and blanks: pure functions on numbers and arrays.

No files, no units library, no data frames; every array of three is (across, up, out).
"""
