"""Which sentence belongs to which reason? One table a verdict and one for remarks; `wording` fills them in."""

from __future__ import annotations

from collections.abc import Mapping

from interview.selection.finding import Verdict

FITS: Mapping[str, str] = {
    "working_pressure": "the working pressure {need} is within its rating {have}",
    "surge_pressure": "the highest spike {need}{rests} is within its rating {have}",
    "relief_setting": "the relief setting {need} is within its rating {have}",
    "rod_side": "{need}, which a throttled rod side makes of the setting, is within its rating {have}",
    "vacuum": "the vacuum {need} is within its vacuum rating {have}",
    "fluid_hot": "the fluid at {need} is within its limit {have}",
    "fluid_cold": "the fluid at {need} is within its cold limit {have}",
    "ambient_hot": "air at {need} is within its limit {have}",
    "ambient_cold": "air at {need} is within its cold limit {have}",
    "fluid_limit": "{fluid} at {need} is within the fluid's own limit {have}",
    "medium_listed": "{standard} lists {fluid}",
    "maker_statement": "the hose maker states it for {fluid} ({statement}); it holds for that hose only",
    "fluid_statement": "{part}: the fluid maker states {material} for {fluid} ({statement})",
    "ptfe_suits": "PTFE stands {fluid}",
    "non_conductive_marked": "the hose itself is marked non-conductive by its maker",
    "medium_mineral": "{fluid} is mineral-base; {standard} covers mineral-base hydraulic fluids and does not name it",
    "velocity": "the oil runs at {need}, within {have}",
    "velocity_above_guide": "the oil runs at {need}: above the guide of {guide} m/s for a {line} line, within the upper bound "
    "of {have}; expect some heat and noise",
    "bore_proven": "the machine ran well on this bore",
    "bore_given": "not smaller than the bore given, {need}",
    "inlet": "the pump's inlet gets {have} at {at}, above the {need} that {limit_by} asks for",
    "inlet_gauge": "by the vacuum gauge the inlet gets {have}, above the {need} the pump needs",
    "loss": "it loses {need} at {at}, within the {have} allowed",
    "cycles": "{test}; {need} are wanted",
    "cycles_near": "{test}; {need} are wanted, and the low end of that spread does not reach them: inspect early, think of "
    "spiral",
    "cycles_beyond": "{test}; {need} are wanted, more than that figure and only within the top of its spread: do not count on "
    "the wanted life, inspect early, think of spiral",
    "static_conductive": "its conductive tube drains the charge",
    "end_rating": "{part} stands {have}, enough for {need}",
    "material_suits": "{material} suits {fluid}",
    "mates": "{part}: it belongs on what it goes onto: {text}",
    "bend": "it bends to {need}; there is room for {have}",
    "u_bend": "{have} is long enough for the loop: it needs at least {need} and the exposed length of the ends",
    "right_angle": "{have} is long enough round the corner: it needs at least {need} when it shortens by {shrink:g} %",
    "offset": "{have} is long enough for the offset: it needs at least {need} when it shortens by {shrink:g} %",
    "between_ports": "{have} reaches from port to port, which takes at least {need} when it shortens by {shrink:g} %",
    "straight_run": "{have} is long enough: it needs at least {need} when it shortens by {shrink:g} %",
}
FAILS: Mapping[str, str] = {
    "working_pressure": "the working pressure {need} is above its rating {have}",
    "surge_pressure": "the highest spike {need}{rests} is above its rating {have}",
    "relief_setting": "the line can stand at the relief setting {need}, above its rating {have}",
    "rod_side": "a throttled rod side makes {need} of the setting, above its rating {have}",
    "no_vacuum_rating": "it has no vacuum rating, and a line that pulls needs one",
    "vacuum": "the vacuum {need} is deeper than its vacuum rating {have}",
    "fluid_hot": "the fluid at {need} is above its limit {have}",
    "fluid_cold": "the fluid at {need} is below its cold limit {have}",
    "ambient_hot": "air at {need} is above its limit {have}",
    "ambient_cold": "air at {need} is below its cold limit {have}",
    "fluid_limit": "{fluid} is not to be run at {need}; its own limit is {have}",
    "ptfe_unsuited": "PTFE does not stand {fluid} at this temperature",
    "medium_excluded": "{by} excludes {fluid}; only the hose maker's written statement could overrule it",
    "velocity": "the oil would run at {need}, above the upper bound of {have} for a {line} line",
    "bore_given": "smaller than the bore it must have, {need}",
    "inlet": "the pump's inlet would get only {have} at {at}; {limit_by} asks for {need}",
    "inlet_gauge": "by the vacuum gauge the inlet gets only {have}, and the pump needs {need}",
    "loss": "it loses {need} at {at}, more than the {have} allowed",
    "cycles": "{test}; {need} are wanted, beyond even the top of that spread",
    "conducts": "it conducts electricity, and a live line is near",
    "static_charge": "its tube does not drain static charge; this fluid needs the conductive type",
    "end_rating": "{part} stands only {have}, and {need} is needed",
    "mates": "{part} must not go onto that: {text}",
    "material_not_suitable": "{part}: {material} does not stand {fluid}",
    "material_hot": "{part}: {material} in {fluid} stands only {have}, and it gets {need}",
    "seal_cold": "{part}: a seal of {material} is good down to {have}, and it gets {need}",
    "seal_hot": "{part}: a seal of {material} is good up to {have}, and it gets {need}",
    "bend": "it needs {need} of bend radius, and there is only {have}",
    "corner_too_tight": "one leg of the corner is {have}, and this hose needs {need} at least, straight part and bend; elbows, or a "
    "hose that bends tighter",
    "offset_too_short": "the ports are {have} apart along their axes, and this hose needs {need} at least for the offset",
    "u_too_narrow": "the ports are {have} apart, and this hose bends back over {need} at least; elbows, or a hose that bends tighter",
}
OPEN: Mapping[str, str] = {
    "pressure_unknown": "the pressure is not known",
    "working_pressure": "its rating {have} may or may not cover it: the pressure is known only as {need}",
    "surge_pressure": "its rating {have} may or may not cover it: the pressure is known only as {need}",
    "relief_setting": "its rating {have} may or may not cover it: the pressure is known only as {need}",
    "rod_side": "its rating {have} may or may not cover it: the pressure is known only as {need}",
    "ptfe_heat_unsure": "PTFE stands {fluid} up to {limit:g} °C; the hottest fluid is not known well enough",
    "ptfe_derating": "PTFE hose loses rating with heat; the maker's curve must say what is left of {have}",
    "vacuum": "the vacuum at the inlet is not known; its vacuum rating is {have}",
    "no_vacuum_rating": "it has no vacuum rating; whether the line pulls is known only as {need}",
    "fluid_hot": "the hottest fluid is not known well enough; its limit is {have}",
    "fluid_cold": "the coldest fluid is not known well enough; its cold limit is {have}",
    "ambient_hot": "the hottest air is not known well enough; its limit is {have}",
    "ambient_cold": "the coldest air is not known well enough; its cold limit is {have}",
    "fluid_limit": "{fluid} has a limit of its own, {have}; the hottest fluid is not known well enough",
    "no_window": "the standard's limit for this kind of fluid is not in the tables; the hose maker must state it",
    "medium_unknown": "the fluid is not known",
    "medium_not_listed": "{standard} does not list {fluid}: the hose maker's written statement is needed",
    "flow_unknown": "the flow is not known",
    "line_unknown": "what the line does is not known",
    "velocity": "the flow is not known well enough: {need} against an upper bound of {have}",
    "bore_given": "the bore is said to be {need}",
    "inlet": "the inlet gets {have} at {at}, and {limit_by} asks for {need}: not known well enough",
    "inlet_gauge": "the inlet gets {have}, and the pump needs {need}: not known well enough",
    "inlet_unknown": "the inlet pressure cannot be worked out: lift, length, oil grade, coldest start and flow are needed",
    "inlet_limit_unknown": "the lowest inlet pressure the pump allows is not known",
    "loss": "it loses {need} at {at}; {have} is allowed: not known well enough",
    "loss_unknown": "the loss cannot be worked out: flow, oil grade and length are needed; {have} is allowed",
    "flame_resistant": "no standard row states flame resistance: the hose maker's document is needed",
    "non_conductive_if_marked": "only if the hose itself is marked non-conductive by its maker",
    "end_rating": "{part} stands {have}; the pressure is known only as {need}",
    "material_no_data": "{part}: the table has nothing on {material} in {fluid}; its maker must confirm it",
    "material_hot": "{part}: {material} in {fluid} stands {have}; the hottest fluid is known only as {need}",
    "seal_cold": "{part}: a seal of {material} is good down to {have}; the coldest air is known only as {need}",
    "seal_hot": "{part}: a seal of {material} is good up to {have}; the hottest fluid is known only as {need}",
    "bend": "it needs {need} of bend radius; the room is not known well enough",
    "readings_against": "{part}: the readings do not fit the connection named; they fit {could}",
    "no_outside": "the table has no bend radius or outside diameter for it; the hose maker must state both before it is bent here",
    "u_too_narrow": "it bends back over {need} at least; the distance of the ports is not known well enough",
    "corner_too_tight": "each leg of the corner must be {need} at least; the distances are not known well enough",
    "offset_too_short": "it needs {need} along the axes at least; the distance is not known well enough",
    "mates": "{part}, and what it goes onto: {text}",
    "bend_no_row": "the table has no bend radius for it; the hose maker must state it",
}
REMARKS: Mapping[str, str] = {
    "fluid_limit_advice": "the oil itself ages fast above {limit:g} °C; the hose stands more than the oil does",
    "impulse_not_known": "the tables have no impulse test for it; with many strokes ask the hose maker",
    "wear_rubbing": "re-route or clamp it clear first, then a sleeve; a tough cover alone only delays",
    "wear_was": "the old hose rubbed through: find what it rubbed on and clear it before this one goes there",
    "wear_severe": "guard it against cutting, crushing and traffic; no cover stands that",
    "exposure": "cover and plating meet {exposure}: choose cover and plating for it and inspect more often",
    "exposure_fire": "with {exposure} about: shield it or run tube through the hot zone; a fire sleeve delays, it does not "
    "raise the rating",
    "power_line_unknown": "this hose conducts; it must not come near a live line, and nobody has said whether one is near",
    "two_planes": "it must bend in one plane only: clamp it between the planes, or fit a swivel joint where it twists",
    "shelf": "on the shelf: {item}{more_of_it}",
    "shelf_left": "on the shelf: {item}, {left} left{more_of_it}",
    "shelf_short": "shelf item {item} is too short: {left} left, {asked} asked for in all",
    "shelf_aged": "shelf item {item} is of {date}, older than the {limit:g} years that hose may have at build: not to be built "
    "from",
    "shelf_unproven": "shelf item {item} is entered with {claimed}; without the maker's document and its date the standard's "
    "row governs, {borne}",
    "moves": "it is {motion}: keep the bend in one plane, the bend radius in every position, and slack at both extremes",
    "motion_how_unknown": "it moves, and nobody knows how: cycle the machine by hand at zero pressure and watch, for the room, the "
    "plane and the length it takes",
    "motion_unknown": "nobody knows whether it moves; cycle the machine by hand at zero pressure and watch before fitting",
    "guard": "people within a metre: guard it so that a jet is turned away (above {pressure:g} bar or {temperature:g} °C; "
    "{source})",
    "heat_source": "something hot within {distance:.2g} m: shield or re-route; measure the cover after heat soak",
    "vibration": "vibration: no clamp on the first bend, elbows supported, few adapters",
    "loop_mid_stroke": "the loop is reckoned with its fixed end opposite the middle of the travel; opposite one end of it the hose "
    "has to be {more} longer",
    "couples": "metals that must not be paired where it gets wet: {text}",
    "could_be": "{text}: an end not identified is not built",
    "lookalike": "beware of look-alikes: {text}",
    "seal_choice": "soft seals of {seal} by house rule ({source})",
    "seal_choice_cold": "soft seals of {seal} are good down to {low} and the air goes to {cold}: ask for a low-temperature seal",
    "length_too_short": "{asked} is too short: made at its short tolerance and {shrink:g} % shorter under pressure it must still "
    "be {least}; the record gives the length to order",
    "clamps": "a long run: clamp it at least every {spacing}, clear of the bends, with clamps that hold and do not squeeze",
    "hangs": "a long run: clamp it at least every {spacing}, clear of the bends, with clamps that hold and do not squeeze; "
    "where it hangs free, a grip carries its weight, not the fitting (common practice, no source)",
    "bow": "the slack of the straight run bows up to {radius} aside: keep that much clear of edges and heat",
    "bend_unknown": "keep at least {radius} of bend radius, inside of the bend, in every position: nobody measured the room",
    "spike_below_steady": "a spike of {below} below a steady pressure of {above} cannot be: one of the two is old or misread; "
    "until it is settled the spike counts as not known",
    "fluid_reversed": "a hottest fluid of {below} below a coldest of {above} cannot be: until it is settled both count for both",
    "relief_below_steady": "a relief setting of {below} below a steady pressure of {above} cannot be: the valve would stand open; one "
    "of the two is old or misread",
    "rod_wider": "a rod of {above} in a bore of {below} cannot be: measure both",
    "shorter_than_ports": "a hose of {below} does not reach between ports {above} apart: one of the two is misread, or the route "
    "has to be said",
    "air_reversed": "a hottest air of {below} below a coldest of {above} cannot be: until it is settled both count for both",
    "end_bore": "{part} is a {size} and the hose a -{bore:g}: such a pair is hardly made (common practice, no source); read "
    "both again",
    "cold_start": "at {at} the oil has up to {thick:,.0f} mm²/s, and pumps commonly start on {allowed:,.0f} to {most:,.0f} at "
    "most (common practice, no source): a thinner grade, a heater or a warm tank, by the pump maker's figure",
    "date_in_future": "{date} has not come yet: read the date again; until then the hose counts as one without a date",
    "old_hose_aged": "the print says {date}, about {age:.1f} years ago, and the house builds from hose up to {limit:g} years "
    "({source}): the new one from fresh hose, and others of that age on the machine are due",
    "stock_hose_aged": "the print says {date}, about {age:.1f} years ago: too old to build from by the house rule of "
    "{limit:g} years ({source})",
    "built_from_aged": "the old assembly was made from hose up to {age:.1f} years old, beyond the house rule of {limit:g} "
    "({source}): look at others of that batch",
    "stored_long": "the old assembly lay up to {age:.1f} years before it was fitted, beyond the house rule of {limit:g} "
    "({source})",
    "served_long": "the old assembly is about {age:.1f} years old, beyond the house rule of {limit:g} years in service "
    "({source}): others of its age are due",
    "sample_unproven": "nobody knows whether the sample was right for the machine: it proves its own shape and nothing else",
    "sample_wrong": "the sample was not right for the machine: not its kind, not its size and not its length are copied "
    "without asking why",
    "old_length_wrong": "the old hose was tight, kinked or too long in its place: its length is no measure, the distance "
    "between the ports is",
    "legacy_marking": "hose marked {type} before the standard was raised may carry {older} at this size where today's row "
    "has {row}: the mark alone does not tell which",
    "print_above_row": "{printed} on the print is above the standard's row for {type}, {row}: the row governs until the hose "
    "maker's document for it is here",
    "dash_is_a_tube": "on {type} the printed dash is the tube the hose mates with: if -{dash:g} was read off the print, the "
    "bore is {true:g} mm; measure it in a fresh square cut",
    "old_bend_failed": "the old {type} gave way at its bend and needs {old} there; this one needs {radius}, no less: widen the "
    "bend or take a hose that bends tighter",
    "bend_declined": "no tight bend, it was said; keep at least {radius} of bend radius, inside of the bend",
}
# How far the type test carries: a figure of one or two digits, never more than the line can bear.
TYPE_TEST = (
    "the type test speaks for {tested} strokes at {percent:g} % of the rating; the line of SAE J1927 (restated) carries that to "
    "{have} at this peak, give or take a factor of {spread:g}"
)
# What is to be looked at on a shelf item before it is cut.
OF_AN_ITEM = {
    "document": "; its rating is the hose maker's by {document}, {dated}: see that it covers this hose and its date, its "
    "temperatures, its bend and these ends",
    "marked": "; listed as non-conductive: see the marking on the hose itself",
    "undated": "; its date is not listed: read it on the hose before it is cut",
}
STATED_FOR = ", extrapolated: that line is stated for "
SEVERAL = {Verdict.FITS: FITS, Verdict.FAILS: FAILS, Verdict.OPEN: OPEN}
