"""The OpenAPI 3.1 document and the JSON Schemas, made from the marshmallow schemas by apispec."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from apispec import APISpec
from apispec.ext.marshmallow import MarshmallowPlugin
from marshmallow import Schema

from borewright import __version__
from borewright.contract.fields.composites import ObjectSchema, ReplySchema
from borewright.contract.fields.strict import StrictField, describe
from borewright.contract.problem_help import HELP

from . import any_detail, shared_words
from . import reply_schemas as shown
from .endpoints import ENDPOINTS, TAGS, Endpoint
from .endpoints_compare import COMPARISONS
from .endpoints_operations import OPERATIONS
from .endpoints_parts import PARTS
from .endpoints_rework import REWORKED
from .endpoints_shop import SHOP
from .published_schemas import PUBLISHED
from .references import gather, renamed

Json = dict[str, Any]

DIALECT = "https://json-schema.org/draft/2020-12/schema"
SCHEMA_HOME = "https://borewright.invalid/schemas/"

_ABOUT = """\
From a thread callout to the complete specification of a tapped hole, for planning systems that write routings.

Requests are strict: an unknown field, a wrong type or an impossible value is refused with a problem that points at the
field, never guessed. `unit_system` sets the unit of bare numbers in the request and of every number in the reply; its
default is the unit of the thread's own standard. A quantity may also be text, a number and a unit out of
`GET /v1/catalog/units`: `"0.0003 in"`, `"3/8 in"`, `"1-1/4 in"`, `"8 um"`. Every reply says what it assumed, what to
look out for, and where each figure comes from and how well it is known. Clients must bear fields they do not know.

Within v1 nothing is renamed or taken away. What is to go in a later version is marked `deprecated` here, and its
replies carry `Deprecation` (RFC 9745) and `Sunset` (RFC 8594) for at least a year before. Lists by pages carry `Link`
(RFC 8288); behind the delivered balancer replies tell how many requests a caller may have under way
(`RateLimit-Policy`).

The figures support a planner; they do not replace the drawing, the standards it calls up, local codes, or the judgement
of a qualified person. Pressure, lifting and flight hardware need review by whoever is authorised for it."""

_OF_EVERY_CALL = {
    "400": "BadRequest",
    "401": "Unauthorized",
    "406": "NotAcceptable",
    "422": "Invalid",
    "429": "TooManyRequests",
    "503": "Draining",
}
_OF_BODY = {"408": "TooSlow", "413": "TooLarge", "415": "UnsupportedMediaType"}
#: What balancers ask, with the statuses of a refusal: no key is asked for, and no place of the bounded ones is taken.
_OPEN = {"/health/live": ("406", "422"), "/health/ready": ("406", "422", "503")}
#: Header of a response that is no 200, by status.
_HEADER_OF_STATUS = {401: "WWW-Authenticate", 429: "Retry-After", 503: "Retry-After"}
_KEY_TEXT = "An API key. A service that has a file of keys asks for one; any other ignores it."
_SCHEMES: dict[str, Json] = {
    "bearerKey": {"type": "http", "scheme": "bearer", "description": _KEY_TEXT},
    "browserKey": {
        "type": "http",
        "scheme": "basic",
        "description": f"{_KEY_TEXT} It is the password; any name will do.",
    },
    "headerKey": {"type": "apiKey", "in": "header", "name": "X-Api-Key", "description": _KEY_TEXT},
}
_RESPONSES = {
    "BadRequest": ("The body or the request cannot be read.", "json_unreadable", 400),
    "Unauthorized": (
        "The service asks for an API key, and the request has none that it knows.",
        "key_missing_or_unknown",
        401,
    ),
    "NotFound": ("Nothing is at this address.", "route_unknown", 404),
    "NotAcceptable": ("No media type that the request accepts can be made.", "media_type_not_acceptable", 406),
    "TooSlow": ("The rest of the request did not come in time.", "request_too_slow", 408),
    "TooLarge": ("The body is larger than the limit, which the detail tells.", "body_too_large", 413),
    "UnsupportedMediaType": ("The body is not application/json.", "media_type_unsupported", 415),
    "Invalid": ("Readable, but invalid or impossible to make.", "callout_ambiguous", 422),
    "TooManyRequests": (
        "As many requests are answered as may be at once; ask again after `Retry-After`.",
        "too_many_at_once",
        429,
    ),
    "Draining": ("The service is stopping; ask again after `Retry-After`.", "draining", 503),
    "Problem": ("Any other problem.", "internal_error", 500),
}


def document() -> Json:
    """The OpenAPI 3.1 document of the service, in one schema what comes in several details."""
    made, known = _exact()
    any_detail.join(made, known)
    return _sorted(made)


def exact_document() -> Json:
    """The document with what comes in several details as alternatives, each of them exact."""
    return _sorted(_exact()[0])


def _exact() -> tuple[Json, dict[str, type[Schema]]]:
    """The document and the classes of its schemas, by name."""
    spec, plugin = _new_spec()
    for endpoint in (*ENDPOINTS, *COMPARISONS, *OPERATIONS, *PARTS, *REWORKED, *SHOP):
        spec.path(path=endpoint.path, operations={endpoint.method: _operation(endpoint, plugin)})
    _describe_problems(spec)
    made: Json = spec.to_dict()
    known = _finish_schemas(made["components"]["schemas"])
    shared_words.share(made)
    return made, known


def _sorted(made: Json) -> Json:
    made["components"]["schemas"] = dict(sorted(made["components"]["schemas"].items()))
    return {"openapi": made.pop("openapi"), **made}


def schemas() -> dict[str, Json]:
    """Every published JSON Schema by name, complete in itself."""
    spec, plugin = _new_spec()
    assert plugin.converter is not None
    for schema in PUBLISHED.values():
        plugin.converter.resolve_nested_schema(schema)  # type: ignore[no-untyped-call]
    parts: Json = spec.to_dict()["components"]["schemas"]
    _finish_schemas(parts)
    return {name: _standalone(name, schema.__name__, parts) for name, schema in PUBLISHED.items()}


def _new_spec() -> tuple[APISpec, MarshmallowPlugin]:
    plugin = MarshmallowPlugin(schema_name_resolver=_name)
    spec = APISpec(
        title="Borewright",
        version=__version__,
        openapi_version="3.1.0",
        plugins=[plugin],
        info={
            "summary": "From a thread callout to the complete specification of a tapped hole",
            "description": _ABOUT,
            "license": {"name": "Apache-2.0", "identifier": "Apache-2.0"},
        },
        servers=[{"url": "/", "description": "This service"}],
        tags=[{"name": name, "description": text} for name, text in TAGS.items()],
        security=[{}, *({name: []} for name in _SCHEMES)],
    )
    assert plugin.converter is not None
    plugin.converter.add_attribute_function(_field_schema)  # type: ignore[no-untyped-call]
    return spec, plugin


def _name(schema: type[Schema] | Schema) -> str:
    return schema.__name__ if isinstance(schema, type) else type(schema).__name__


def _field_schema(self: Any, field: StrictField, **_: Any) -> Json:
    """Let our own fields speak for themselves; apispec calls it as a method of its converter."""
    return describe(field, self)


def _finish_schemas(found: Json) -> dict[str, type[Schema]]:
    """Add what apispec does not take from a schema class, its description and that it needs a field; the classes."""
    known = {schema.__name__: schema for schema in _classes(ObjectSchema, ReplySchema)}
    for name, made in found.items():
        schema = known[name]
        made["description"] = " ".join((schema.__doc__ or "").split())
        if issubclass(schema, ObjectSchema) and schema.needs_a_field and "required" not in made:
            made["minProperties"] = 1
    return known


def _classes(*bases: type[Schema]) -> Iterator[type[Schema]]:
    for base in bases:
        for found in base.__subclasses__():
            yield found
            yield from _classes(found)


def _standalone(name: str, root: str, parts: Json) -> Json:
    needed: Json = {}
    gather(parts[root], parts, needed)
    body = renamed(parts[root], _local)
    made = {"$schema": DIALECT, "$id": f"{SCHEMA_HOME}{name}.schema.json", "title": name, **body}
    if needed:
        made["$defs"] = {part: renamed(needed[part], _local) for part in sorted(needed)}
    return made


def _local(name: str) -> str:
    return f"#/$defs/{name}"


# --- operations --------------------------------------------------------------------------------------


def _operation(endpoint: Endpoint, plugin: MarshmallowPlugin) -> Json:
    made: Json = {
        "operationId": endpoint.operation_id,
        "tags": [endpoint.tag],
        "summary": endpoint.summary,
        "description": endpoint.text,
        "parameters": [*_parameters(endpoint, plugin), "RequestId"],
    }
    bodies = _bodies(endpoint)
    if bodies:
        made["requestBody"] = {"required": True, "description": "The request.", "content": bodies}
    if endpoint.path in _OPEN:
        made["security"] = []
    made["responses"] = _responses(endpoint)
    return made


def _parameters(endpoint: Endpoint, plugin: MarshmallowPlugin) -> Iterator[Json]:
    if endpoint.path_parameter is not None:
        name, text, words = endpoint.path_parameter
        schema: Json = {"type": "string", **({"enum": list(words)} if words else {"pattern": "^[a-z0-9_-]{1,60}$"})}
        yield {"name": name, "in": "path", "required": True, "description": text, "schema": schema}
    for name, field in endpoint.query._declared_fields.items() if endpoint.query is not None else ():
        assert isinstance(field, StrictField)
        yield {
            "name": field.data_key or name,
            "in": "query",
            "required": field.required,
            "description": field.metadata["description"],
            "schema": field.json_schema(plugin.converter),
        }


def _bodies(endpoint: Endpoint) -> Json:
    """What can be sent, by media type."""
    bodies: Json = {}
    if endpoint.request is not None:
        examples = {name: {"value": body} for name, body in (endpoint.request_examples or {}).items()}
        bodies["application/json"] = {"schema": endpoint.request, "examples": examples}
    for media_type, example in endpoint.other_requests.items():
        bodies[media_type] = {"schema": {"type": "string", "format": "binary"}, "example": example}
    for media_type in endpoint.binary_requests:
        bodies[media_type] = {"schema": {"type": "string", "format": "binary"}}
    return bodies


def _responses(endpoint: Endpoint) -> Json:
    ok: Json = {"description": endpoint.reply_text, "headers": {"X-Request-Id": _header("RequestId")}}
    other = {"type": "object" if endpoint.media_type == "application/json" else "string"}
    content: Json = {"schema": {"anyOf": list(endpoint.details)} if endpoint.details else endpoint.reply or other}
    if endpoint.reply_example is not None:
        content["example"] = endpoint.reply_example()
    ok["content"] = {endpoint.media_type: content}
    for media_type, example in endpoint.other_replies.items():
        ok["content"][media_type] = {"schema": {"type": "string"}, "example": example()}
    for media_type in endpoint.binary_replies:
        ok["content"][media_type] = {"schema": {"type": "string", "format": "binary"}}
    made: Json = {"200": ok}
    if endpoint.method == "get" and endpoint.tag != "health":
        ok["headers"] |= {"ETag": _header("EntityTag"), "Cache-Control": _header("CacheControl")}
        made["304"] = {"description": "The caller's copy is still right."}
    if endpoint.path_parameter is not None:
        made["404"] = {"$ref": "#/components/responses/NotFound"}
    refused = _OF_EVERY_CALL | (_OF_BODY if endpoint.request is not None or endpoint.other_requests else {})
    if endpoint.request is None and endpoint.query is None:
        refused = {status: name for status, name in refused.items() if status != "400"}
    if endpoint.path in _OPEN:
        refused = {status: refused[status] for status in _OPEN[endpoint.path]}
    made.update((status, {"$ref": f"#/components/responses/{name}"}) for status, name in sorted(refused.items()))
    made["default"] = {"$ref": "#/components/responses/Problem"}
    return made


def _header(name: str) -> Json:
    return {"$ref": f"#/components/headers/{name}"}


def _describe_problems(spec: APISpec) -> None:
    request_id = {"type": "string", "pattern": "^[A-Za-z0-9._:-]{1,128}$"}
    spec.components.parameter(
        "RequestId",
        "header",
        {
            "name": "X-Request-Id",
            "required": False,
            "description": "Name of the request in the log, made where it is missing; it comes back in the answer.",
            "schema": {"type": "string"},
        },
    )
    spec.components.header("RequestId", {"description": "Name of the request in the log.", "schema": request_id})
    spec.components.header("EntityTag", {"description": "Tag for If-None-Match.", "schema": {"type": "string"}})
    spec.components.header("CacheControl", {"description": "How long a copy is good.", "schema": {"type": "string"}})
    spec.components.header(
        "RetryAfter", {"description": "Time to wait, in seconds.", "schema": {"type": "integer", "minimum": 0}}
    )
    spec.components.header("WWWAuthenticate", {"description": "How a key is sent.", "schema": {"type": "string"}})
    for name, scheme in _SCHEMES.items():
        spec.components.security_scheme(name, scheme)
    for name, (text, code, status) in _RESPONSES.items():
        response: Json = {
            "description": text,
            "headers": {"X-Request-Id": _header("RequestId")},
            "content": {"application/problem+json": {"schema": shown.Problem, "example": _problem(code, status, text)}},
        }
        if status in _HEADER_OF_STATUS:
            header = _HEADER_OF_STATUS[status]
            response["headers"][header] = _header(header.replace("-", ""))
        spec.components.response(name, response)


def _problem(code: str, status: int, text: str) -> Json:
    faults: list[Json] = []
    if code == "callout_ambiguous":
        faults = [{"pointer": "/thread", "code": code, "detail": text, "did_you_mean": ["1/4-20 UNC", "1/4-28 UNF"]}]
    return {
        "type": f"/problems/{code}",
        "title": text,
        "status": status,
        "detail": text,
        "remedy": HELP[code].remedy,
        "instance": "/v1/hole-specs",
        "code": code,
        "request_id": "krp-night-run-0017",
        "errors": faults,
    }
