"""The schema of estimate.json."""

import json

import jsonschema
import pytest

from estimator.reports.document import schema


@pytest.fixture(scope="module")
def validator():
    """Return a validator for the schema, itself checked against its own draft."""
    jsonschema.Draft202012Validator.check_schema(schema())
    return jsonschema.Draft202012Validator(schema())


def test_the_sample_keeps_the_schema(validator, document):
    """Also after a trip through JSON."""
    validator.validate(json.loads(json.dumps(document)))


def objects(node, path="schema"):
    """Return every object the schema describes, with its path."""
    if isinstance(node, dict):
        if node.get("type") == "object":
            yield path, node
        for key, value in node.items():
            yield from objects(value, f"{path}/{key}")


def test_no_object_takes_keys_it_does_not_know():
    """Every object lists its keys, needs all of them and refuses or describes any other."""
    for path, node in objects(schema()):
        others = node["additionalProperties"]
        assert others is False or "$ref" in others or others["type"] == "object", path
        assert set(node.get("required", [])) == set(node.get("properties", {})), path


@pytest.mark.parametrize(
    ("where", "key", "value"),
    [
        ((), "extra", 1),
        (("mass",), "likely_kg", "446"),
        (("mass",), "cg_m", [0.0, 0.0]),
        (("job", "title"), "origin", "guessed"),
        (("rows", "parts"), "read", -1),
        (("views", "front"), "box_m", [0.0]),
        (("wind",), "wind", {}),
        ((), "inputs_sha256", "9f2c"),
    ],
)
def test_a_document_that_breaks_the_contract_is_refused(validator, document, where, key, value):
    """A key nobody knows, text for a number, two coordinates, an unknown word."""
    record = document
    for step in where:
        record = record[step]
    record[key] = value

    assert not validator.is_valid(document)
