"""Whatever the OpenAPI document allows, and much that it forbids, is answered as the document says, and never by a 500.

What requests and answers must look like is judged by schemathesis. It also wants every request that is valid by schema
to be accepted; ours may hold a text that is no design, so that one check is left out.
"""

from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
import schemathesis
from fastapi import APIRouter
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from schemathesis.generation import GenerationMode
from schemathesis.specs.openapi.checks import positive_data_acceptance

from asking import Asker, asker, demo
from braidwright.app.quick import Quick
from braidwright.app.solving import Solves
from braidwright.app.studio import Studio, open_studio
from braidwright.web.server import create_app
from library_kit import NOW

EXAMPLES = 25


def operations(document: Any) -> dict[str, Any]:
    """Every address of a document, by its name; one that is no valid OpenAPI raises."""
    found = [each.ok() for each in document.get_all_operations()]
    return {each.label: each for each in found}


DOCUMENT = schemathesis.openapi.from_dict(create_app(Studio(), port=1).openapi())
OPERATIONS = operations(DOCUMENT)


def test_the_document_has_every_address() -> None:
    assert len(OPERATIONS) == 45
    assert {"POST /api/read", "GET /api/catalogue", "POST /api/library/{design}/save"} <= set(OPERATIONS)


@pytest.fixture(scope="module")
def asked(tmp_path_factory: pytest.TempPathFactory) -> Any:
    folder: Path = tmp_path_factory.mktemp("library")
    with open_studio(folder, NOW) as studio:
        server = asker(replace(studio, solves=Solves(predictor=lambda watch: Quick())))
        server.post("/api/library", {"design": demo()})
        yield server


@pytest.mark.parametrize("label", OPERATIONS)
@pytest.mark.parametrize("mode", [GenerationMode.POSITIVE, GenerationMode.NEGATIVE])
def test_every_address_answers_as_documented(label: str, mode: GenerationMode, asked: Asker) -> None:
    operation = OPERATIONS[label]
    has_input = operation.body or operation.path_parameters or operation.query
    if mode == GenerationMode.NEGATIVE and not has_input:
        return

    @given(case=operation.as_strategy(generation_mode=mode), is_design=st.booleans())
    @settings(max_examples=EXAMPLES, suppress_health_check=list(HealthCheck))
    def answers(case: Any, is_design: bool) -> None:
        if is_design and isinstance(case.body, dict) and "design" in case.body:
            case.body["design"] = demo()
        if is_design and "design" in case.path_parameters:
            case.path_parameters["design"] = 1
        _check(asked, case)

    answers()


def test_the_check_can_fail() -> None:
    app = create_app(Studio(), port=8123)
    broken = APIRouter()

    @broken.get("/api/broken")
    def fails() -> str:
        raise ZeroDivisionError

    app.include_router(broken)
    operation = operations(schemathesis.openapi.from_dict(app.openapi()))["GET /api/broken"]

    @given(case=operation.as_strategy())
    @settings(max_examples=1)
    def answers(case: Any) -> None:
        _check(Asker(app=app), case)

    with pytest.raises(BaseException, match="Server error"):
        answers()


def _check(asked: Asker, case: Any) -> None:
    wanted = case.as_transport_kwargs(base_url="")
    wanted.pop("cookies", None)
    if isinstance(wanted.get("data"), bytes | str):
        wanted["content"] = wanted.pop("data")
    answer = asked.ask(wanted.pop("method"), wanted.pop("url"), **wanted)
    case.validate_response(answer, excluded_checks=[positive_data_acceptance])
