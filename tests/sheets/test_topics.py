"""What an answer can be about."""

from estimator.reference.factors import factors
from estimator.reference.library import Library
from estimator.sheets.columns import field_of
from estimator.sheets.facts import JOB_FACTS
from estimator.sheets.topics import ALSO_CALLED, MAKERS_OWN, TOPICS, Sets


def test_every_fact_is_the_engineers_or_the_makers():
    """Nothing that the job sheet asks is out of reach by accident."""
    answered = {topic.key for topic in TOPICS.values() if topic.sets is Sets.FACT}

    assert answered | set(MAKERS_OWN) == set(JOB_FACTS)
    assert not answered & set(MAKERS_OWN)


def test_shorter_names_lead_to_something_and_hide_nothing():
    """Each stands for a topic, and is not itself the name of another one."""
    named = {field_of(name) for name in TOPICS}

    assert set(ALSO_CALLED.values()) <= set(TOPICS)
    assert not named & {field_of(name) for name in ALSO_CALLED}


def test_an_answer_is_always_wanted_with_words_or_a_reason():
    """The register prints one of the two beside it."""
    for topic in TOPICS.values():
        assert topic.column.words or JOB_FACTS[topic.key].why


def test_a_factor_is_one_of_the_table():
    """What the combinations look up is what an answer sets."""
    known = factors(Library())

    assert {topic.key for topic in TOPICS.values() if topic.sets is Sets.FACTOR} <= set(known)
