"""What an answer of the engineer can be about, as data: how it is read, and what it sets.

Every fact of the job can be answered, by its own heading; those of the title block and of the
price are the maker's own, and are typed on the `job` sheet.
"""

from collections.abc import Mapping
from dataclasses import replace
from enum import StrEnum
from typing import NamedTuple

from estimator.sheets.columns import Column, Reads
from estimator.sheets.facts import JOB_FACTS


class Sets(StrEnum):
    """What an answer takes the place of."""

    FACT = "fact"
    """A fact of the job, by its key."""
    COEFFICIENT = "coefficient"
    """The wind coefficient of an assembly."""
    ZONE = "zone"
    """Nothing: it adds a zone of the wall that no fixing may go into."""
    FACTOR = "factor"
    """A factor of the combinations, by its key."""
    DRIFT = "drift"
    """How far mass or middle may move from an issue before the engineer is told."""
    NOTHING = "nothing"
    """Nothing: it is kept in the register only."""


class Topic(NamedTuple):
    """Something that can be answered.

    Attributes:
        column: What it is called, what its answer is read as, and the note on it.
        sets: What its answer takes the place of.
        key: Of the fact or the factor that it sets.
        which: What `which` must name; blank where it is about the job as a whole.
    """

    column: Column
    sets: Sets
    key: str = ""
    which: str = ""

    @property
    def name(self) -> str:
        """Return what is typed under `about`."""
        return self.column.heading


MAKERS_OWN = (
    "title", "client", "site", "issue", "date", "option_shown", "currency", "show_units", "paper",
    "overhead", "contingency", "mark_up", "margin", "tax", "quotation_validity",
)  # fmt: skip
"""Facts that no engineer answers."""
ALSO_CALLED: Mapping[str, str] = {
    "pressure": "stated pressure",
    "wind pressure": "stated pressure",
    "pressure by direction": "stated pressure by direction",
    "pressure kind": "stated pressure kind",
    "wall give": "wall stiffness pull",
    "moisture of the timber": "timber moisture",
    "allowance for what is not listed yet": "not listed yet",
    "allowance": "not listed yet",
    "allowance not listed": "not listed yet",
    "not listed": "not listed yet",
    "stiffness ratio": "wall stiffness ratio",
    "sag": "sag limit",
    "no fixing zone": "zone not to fix in",
    "zones not to fix in": "zone not to fix in",
    "drift": "agreed drift",
}
"""Shorter names of what can be answered."""
_MOST_FACTOR = 3.0


def _factor(name: str, key: str, words: str) -> Topic:
    column = Column(name, Reads.NUMBER, words, at_least=0.0, at_most=_MOST_FACTOR)
    return Topic(column, Sets.FACTOR, key)


_FACTORS = (
    _factor("partial factor weight unfavourable", "gamma_g_sup", "On weight that makes it worse"),
    _factor("partial factor weight favourable", "gamma_g_inf", "On weight that helps"),
    _factor("partial factor variable", "gamma_q", "On wind, ice, snow and people"),
    _factor("equilibrium factor weight unfavourable", "gamma_g_sup_equ",
            "On weight that makes it worse, against tipping"),
    _factor("equilibrium factor weight favourable", "gamma_g_inf_equ",
            "On weight that helps, against tipping"),
    _factor("equilibrium factor variable", "gamma_q_equ", "On wind and the rest, against tipping"),
    *(
        _factor(f"combination factor {action}", f"psi0 {action}",
                f"On {action} that stands beside a larger action")
        for action in ("wind", "snow", "ice", "wind on ice", "person")
    ),
)  # fmt: skip
"""By their symbols in the table `psi_and_gamma`."""
_OTHERS = (
    Topic(
        Column("coefficient", Reads.NUMBER, "Wind force coefficient of the assembly under `which`",
               at_least=0.0, at_most=5.0),
        Sets.COEFFICIENT, which="assembly",
    ),
    Topic(
        Column("zone not to fix in", Reads.TEXT,
               "A rectangle on the wall face, from the datum: across -300 to 300 mm, up 0 to "
               "400 mm; `which` may say what is there"),
        Sets.ZONE,
    ),
    Topic(
        Column("agreed drift", Reads.AMOUNT,
               "How far the mass (5 %) or its middle (30 mm) may move from what was issued before "
               "the engineer is told; a row for each", ("percent", "length"), at_least=0.0),
        Sets.DRIFT,
    ),
)  # fmt: skip

TOPICS: Mapping[str, Topic] = {
    topic.name: topic
    for topic in (
        *_OTHERS,
        *_FACTORS,
        *(
            Topic(replace(fact.column, needed=False), Sets.FACT, key)
            for key, fact in JOB_FACTS.items()
            if key not in MAKERS_OWN
        ),
    )
}
"""Everything that can be answered, by what is typed under `about`."""
