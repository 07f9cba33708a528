"""Typed rows joined with table rows: resolved parts; an unknown name becomes a problem."""
