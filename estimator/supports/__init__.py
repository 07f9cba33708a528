"""What holds an assembly up: combinations, sharing between brackets, arms, movers.

Pure functions of numbers. Nothing here knows a resistance of a wall or of an anchor.
"""
