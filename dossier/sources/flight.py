"""Sources of the air and of flight performance."""

from __future__ import annotations

from dossier.published_work import Source

FLIGHT: tuple[Source, ...] = (
    Source(
        "sfsu-220",
        "Physics 220, class exercise of 23 October",
        "San Francisco State University",
        "undated",
        "read",
    ),
    # flight
    Source(
        "iso-2533",
        "ISO 2533:1975, Standard Atmosphere (the same air as ICAO Doc 7488 and the US Standard Atmosphere "
        "1976)",
        "ISO",
        "1975",
        "read (secondary)",
        "rows of ICAO Doc 7488/3 read in the test table of the open package ambiance, rows of 1976 in a "
        "public table; "
        "the standards themselves were not opened",
    ),
    Source(
        "wmo-8",
        "Guide to Instruments and Methods of Observation (WMO-No. 8), vapour pressure over water",
        "World Meteorological Organization",
        "2018",
        "memory",
    ),
    Source(
        "cas",
        "Calibrated airspeed from impact pressure, encyclopaedia entry",
        "",
        "undated",
        "read (secondary)",
        "a_0 661.48 kt and p_0 1013.25 hPa read with the formula",
    ),
    Source(
        "fossee-anderson",
        "Scilab textbook companion to Introduction to Flight (Anderson), chapter 6",
        "FOSSEE project",
        "undated",
        "read",
    ),
    Source(
        "ceiling-handout",
        "Aerodynamics II, discussion 11: ceilings and time to climb",
        "university handout",
        "undated",
        "read",
    ),
    Source("momentum-theory", "Momentum theory of a propeller disc", "spinningwing.com", "undated", "read"),
    Source(
        "roll-friction",
        "Rolling friction on take-off, a textbook chapter in copy",
        "",
        "undated",
        "read (secondary)",
        "0.02 hard surface, 0.10 moderately tall grass; another copy goes to 0.3 for very soft ground",
    ),
)
