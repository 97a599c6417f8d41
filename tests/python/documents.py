"""The schemas of --json documents. They ask for what must be there and let everything else pass: the documents grow
only by addition."""

import json
import pathlib

import jsonschema
import referencing
from referencing.jsonschema import DRAFT202012

FOLDER = pathlib.Path(__file__).parent / "schemas"
SCHEMAS = {path.stem: json.loads(path.read_text()) for path in sorted(FOLDER.glob("*.json"))}
REGISTRY = referencing.Registry().with_resources(
    [(schema["$id"], referencing.Resource.from_contents(schema, DRAFT202012)) for schema in SCHEMAS.values()]
)


def faults(name, document):
    """What in a document is not as its schema says."""
    validator = jsonschema.Draft202012Validator(SCHEMAS[name], registry=REGISTRY)
    return [f"{fault.json_path}: {fault.message[:200]}" for fault in validator.iter_errors(document)]


def check(name, document):
    """The document, if it is as its schema says."""
    wrong = faults(name, document)
    assert not wrong, f"{name}: {len(wrong)} faults:\n" + "\n".join(wrong[:10])
    return document
