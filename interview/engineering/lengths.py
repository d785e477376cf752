"""What length is ordered, cut and accepted: overall, cut, tolerance band, and the old hose that was too tight?

The tolerance tables themselves are reference data; here is only what is done with a row of them.
"""

from __future__ import annotations

from interview.engineering.errors import HUGE, TINY, EngineeringError, negative, not_positive, outside, shown


def overall_length(free: float, end_a: float, end_b: float) -> float:
    """Overall length, m: free hose plus the exposed length of each end up to its measuring point (derived).

    >>> round(overall_length(0.800, 0.045, 0.062), 3)
    0.907
    """
    if not TINY <= free <= HUGE:
        raise not_positive("free length of hose", free, "m")
    for end in (end_a, end_b):
        if not 0.0 <= end <= HUGE:
            raise negative("length of an end", end, "m")
    return free + end_a + end_b


def cut_length(overall: float, *cut_off: float) -> float:
    """Length to cut the hose to, m: overall length less the cut-off figure of each end.

    The method of NAVEDTRA 14018 table 5-2 (handbook); the figures themselves belong to the fitting and are given by
    its maker.

    >>> round(cut_length(0.9144, 0.0206, 0.0206), 4)
    0.8732
    """
    if not TINY <= overall <= HUGE:
        raise not_positive("overall length", overall, "m")
    for figure in cut_off:
        if not 0.0 <= figure <= HUGE:
            raise negative("cut-off figure of an end", figure, "m")
    cut = overall - sum(cut_off)
    if cut < TINY:
        raise EngineeringError(
            f"the ends take up {shown(sum(cut_off), 'm')} of an overall length of {shown(overall, 'm')}; "
            "no hose is left between them, so one of these figures must be wrong"
        )
    return cut


def length_band(length: float, plus: float, minus: float, relative: bool = False) -> tuple[float, float]:
    """Shortest and longest acceptable length, m, from a tolerance row: plus and minus in m, or as shares of the length.

    `minus` may be written with or without its sign, as tables do either.

    >>> [round(x, 4) for x in length_band(3.0, 0.015, -0.005, relative=True)]
    [2.985, 3.045]
    """
    if not TINY <= length <= HUGE:
        raise not_positive("length", length, "m")
    if not 0.0 <= plus <= HUGE:
        raise negative("tolerance upwards", plus, "m")
    if not -HUGE <= minus <= HUGE:
        raise negative("tolerance downwards", minus, "m")
    down = abs(minus)
    up = plus * length if relative else plus
    down = down * length if relative else down
    if down >= length:
        raise EngineeringError(f"a tolerance of {shown(down, 'm')} downwards takes up the whole {shown(length, 'm')}")
    return length - down, length + up


def within_band(measured: float, band: tuple[float, float]) -> bool:
    """Whether a measured length is accepted; both ends of the band count as accepted.

    >>> within_band(3.045, (2.985, 3.045))
    True
    """
    if not TINY <= measured <= HUGE:
        raise not_positive("measured length", measured, "m")
    slip = 1e-9 * measured  # a length typed in mm must not miss its band by a rounding of the last digit
    return band[0] - slip <= measured <= band[1] + slip


def length_for_tight_hose(old_length: float, slack_low: float = 0.05, slack_high: float = 0.08) -> tuple[float, float]:
    """Range to replace a hose that was pulled tight, m: 5 to 8 % more (NAVEDTRA 14105, FAA-H-8083-30, handbook).

    >>> [round(x, 3) for x in length_for_tight_hose(1.0668)]
    [1.12, 1.152]
    """
    if not TINY <= old_length <= HUGE:
        raise not_positive("length of the old hose", old_length, "m")
    if not 0.0 <= slack_low <= slack_high <= 1.0:
        raise EngineeringError("the slack runs from a smaller to a larger share between 0 and 1, as 0.05 to 0.08")
    return old_length * (1.0 + slack_low), old_length * (1.0 + slack_high)


def length_under_pressure(length: float, contraction: float = 0.04, elongation: float = 0.02) -> tuple[float, float]:
    """Shortest and longest a hose gets under pressure, m (EN 854 6.1.2: -4 % to +2 %, standard).

    >>> [round(x, 3) for x in length_under_pressure(1.0)]
    [0.96, 1.02]
    """
    if not TINY <= length <= HUGE:
        raise not_positive("length of hose", length, "m")
    if not 0.0 <= contraction <= 0.5:
        raise outside("shortening under pressure", contraction, "", 0.0, 0.5, "a share, 0.04 for 4 %")
    if not 0.0 <= elongation <= 0.5:
        raise outside("lengthening under pressure", elongation, "", 0.0, 0.5, "a share, 0.02 for 2 %")
    return length * (1.0 - contraction), length * (1.0 + elongation)


def side_clearance(gap: float, bow: float, od: float) -> float:
    """Room left between a bowed hose and a neighbour, m: gap from the port axis less bow and half the hose (derived).

    Below zero they touch.

    >>> round(side_clearance(0.200, 0.138, 0.022), 3)
    0.051
    """
    for what, value in (("gap beside the hose", gap), ("bow of the hose", bow), ("outside diameter of the hose", od)):
        if not 0.0 <= value <= HUGE:
            raise negative(what, value, "m")
    return gap - bow - od / 2.0


def slack_share(overall: float, distance: float, end_a: float, end_b: float, contraction: float = 0.04) -> float:
    """Slack left over a straight run under pressure, as a share of the free distance; below zero it pulls (derived).

    >>> round(slack_share(1.15, 1.10, 0.05, 0.05), 4)
    0.008
    """
    for what, value in (("overall length", overall), ("distance between the ports", distance)):
        if not TINY <= value <= HUGE:
            raise not_positive(what, value, "m")
    for end in (end_a, end_b):
        if not 0.0 <= end <= HUGE:
            raise negative("length of an end", end, "m")
    ends = end_a + end_b
    if distance - ends < TINY or overall - ends < TINY:
        raise EngineeringError(
            f"the two ends are {shown(ends, 'm')} long together; no hose is left in "
            f"{shown(min(distance, overall), 'm')}"
        )
    shortest, _ = length_under_pressure(overall - ends, contraction)
    return shortest / (distance - ends) - 1.0
