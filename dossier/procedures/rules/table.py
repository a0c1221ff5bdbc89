"""Every named check, in the order in which a report counts them."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from dossier.procedures.fault import Fault
from dossier.procedures.listing import Listing
from dossier.procedures.rules import (
    checking,
    ending,
    energy,
    hands,
    hazards,
    lifting,
    limit_words,
    loose,
    means,
    numbers,
    order,
    remedies,
    structure,
    torque,
    ways,
    weaker,
    wording,
    words,
)
from dossier.procedures.run import Run
from dossier.procedures.system import System

RUN_RULES: tuple[Callable[[Run], Iterator[Fault]], ...] = (
    order.in_place,
    order.facts_in_order,
    order.parted_with_part,
    order.done_once,
    structure.structure_free,
    structure.dependents_free,
    structure.supported,
    order.pieces_at_hand,
    order.told_apart,
    energy.isolated,
    energy.propeller_clear,
    energy.hands_clear,
    energy.energised_last,
    lifting.light_enough,
    lifting.enough_people,
    hazards.warned_before,
    torque.in_range,
    torque.of_one_joint,
    torque.nut_suits,
    checking.visible,
    checking.two_people,
    checking.checks_by_two,
    checking.critical_steps,
    checking.checks_made,
    checking.checks_after,
    loose.numbers,
    loose.counted_out,
    ending.joined,
    ending.secured,
    ending.state_needs,
    ending.verified,
    ending.independent,
    ending.positive_check,
    ending.sense,
    ending.standing,
    loose.counted,
    loose.all_back,
)
"""Checks of one replay. Those on single steps come first: the first fault found is then the nearest to its
cause."""

STOP_RULES: tuple[Callable[[Run], Iterator[Fault]], ...] = (
    structure.supported,
    ending.secured,
    ending.verified,
    ending.independent,
    ending.standing,
)
"""Checks of a replay that ends at a stop point."""

MIDDLE_RULES: tuple[Callable[[Run], Iterator[Fault]], ...] = (
    order.in_place,
    order.facts_in_order,
    structure.structure_free,
    structure.dependents_free,
    structure.supported,
    order.pieces_at_hand,
    energy.isolated,
    energy.propeller_clear,
    energy.hands_clear,
    energy.energised_last,
    ending.secured,
    ending.verified,
    ending.independent,
    ending.standing,
)
"""Checks of a replay that begins at a stop point."""

WORD_RULES: tuple[Callable[[Listing, System], Iterator[Fault]], ...] = (
    words.same_side,
    words.same_thing,
    words.same_direction,
    words.acted_on,
    words.said_by_second,
    hands.surface_held,
    ways.ways_told,
    weaker.pull_told,
    weaker.more_than_a_look,
    weaker.called_critical,
    checking.marked,
    numbers.same_number,
    numbers.loose_numbers,
    words.same_people,
    means.remedy_named,
    means.tool_named,
    means.picture_shown,
    means.by_hand,
)
"""Checks of the words of a list against its acts."""

MODEL_RULES: tuple[Callable[[Listing, System], Iterator[Fault]], ...] = (
    hands.warned_in_words,
    ways.ways_right,
    limit_words.limits_fit,
)
"""Checks of the words of every list, replayed or not, against what the type and rigging.yaml say."""

TEXT_RULES: tuple[Callable[[Listing], Iterator[Fault]], ...] = (
    torque.written,
    torque.in_words,
    wording.one_action,
    wording.tools_listed,
    wording.answers_tell,
    wording.times_fit,
    wording.stops_named,
    hands.critical_seconded,
    hands.second_tries,
    hands.tools_counted,
    remedies.remedied,
    remedies.readings,
    weaker.torque_tool,
)
"""Checks of a list as a text, whether or not it is replayed."""

NAMES = (
    *(rule.__name__ for rule in (*RUN_RULES, *WORD_RULES, *MODEL_RULES, *TEXT_RULES)),
    "short_sentences",
    "references_exist",
    "preflight_covers",
    "has_its_objects",
    "ends_in_its_state",
    "leads_back_from_stops",
)
"""What a report lists as run."""

NAMES_WITHOUT_MODEL = (*(rule.__name__ for rule in TEXT_RULES), "references_exist")
"""What is run where there is no rigging.yaml."""

NAMES_OF_WORDS = (
    *(rule.__name__ for rule in (*WORD_RULES, *MODEL_RULES, *TEXT_RULES)),
    "short_sentences",
    "references_exist",
)
"""What is run on a list that is only read."""
