"""Which checks are there? One module a topic; this list is their order on every face and record."""

from __future__ import annotations

from interview.selection.checks import (
    application,
    contradiction,
    ends,
    history,
    joints,
    medium,
    pressure,
    routing,
    shelf,
    size,
    temperature,
)
from interview.selection.checks.base import Check

CHECKS: tuple[Check, ...] = (
    *pressure.CHECKS,
    *contradiction.CHECKS,
    *temperature.CHECKS,
    *medium.CHECKS,
    *size.CHECKS,
    *application.CHECKS,
    *ends.CHECKS,
    *joints.CHECKS,
    *routing.CHECKS,
    *history.CHECKS,
    *shelf.CHECKS,
)
