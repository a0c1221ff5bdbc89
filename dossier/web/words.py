"""Sentences that the frame of a page says, whatever the page."""

NOT_AN_APPROVAL = (
    "Computed by dossier from the builder's record. "
    "This document is not an approval and does not say that the aircraft is airworthy."
)
