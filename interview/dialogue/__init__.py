"""The conversation: flows, agenda, machine, session, events, journal."""
