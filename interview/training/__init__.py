"""Scenario files and their replay."""
