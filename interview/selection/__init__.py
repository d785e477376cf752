"""Needs, checks, candidates, the assembly and the choice."""
