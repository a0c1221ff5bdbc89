"""From located data to a typed record, with every problem told at once and in the author's words."""

from __future__ import annotations

import types
from collections.abc import Iterator
from dataclasses import replace
from difflib import SequenceMatcher, get_close_matches
from typing import Any, TypeVar, Union, get_args, get_origin

from pydantic import BaseModel, RootModel, ValidationError
from pydantic_core import ErrorDetails

from dossier.findings import Finding, Place, Rejected
from dossier.located import LocatedMapping, place_of

Model = TypeVar("Model", bound=BaseModel)


def validate(model: type[Model], data: LocatedMapping) -> Model:
    """Make a typed record from the data of one file.

    Raises:
        Rejected: with a finding for each problem.
    """
    try:
        return model.model_validate(data)
    except ValidationError as error:
        raise Rejected(_findings(model, data, error.errors(include_url=False))) from None


def _findings(model: type[BaseModel], data: LocatedMapping, details: list[ErrorDetails]) -> Iterator[Finding]:
    """Tell each problem once: a missing key that stands there misspelt is told where it is misspelt."""
    misspelt = dict(_misspelt(model, data, details))
    for detail in details:
        loc = detail["loc"]
        if detail["type"] == "missing" and loc in misspelt.values():
            continue
        finding = _finding(model, data, detail)
        wanted = misspelt.get(loc) if detail["type"] == "extra_forbidden" else None
        if wanted:
            finding = replace(finding, message=_both(str(loc[-1]), str(wanted[-1])))
        yield finding


def _both(written: str, wanted: str) -> str:
    return f"the key {written!r} is not known here, and the key {wanted!r} is missing"


def _misspelt(
    model: type[BaseModel], data: LocatedMapping, details: list[ErrorDetails]
) -> Iterator[tuple[tuple[Any, ...], tuple[Any, ...]]]:
    """Pair each unknown key with the missing key at the same place that it most resembles, each once."""
    missing = {detail["loc"] for detail in details if detail["type"] == "missing"}
    unknown = (detail["loc"] for detail in details if detail["type"] == "extra_forbidden")
    alike = [
        (SequenceMatcher(None, str(near[0]), str(loc[-1])).ratio(), loc, (*loc[:-1], near[0]))
        for loc in unknown
        for _, near in [_near(model, data, loc)]
        if near and (*loc[:-1], near[0]) in missing
    ]
    for _, loc, wanted in sorted(alike, key=lambda pair: -pair[0]):
        if wanted in missing:
            missing.discard(wanted)
            yield loc, wanted


def _finding(model: type[BaseModel], data: LocatedMapping, detail: ErrorDetails) -> Finding:
    path = tuple(_real_path(data, detail["loc"]))
    kind = detail["type"]
    context = detail.get("ctx", {})
    if kind == "dossier":
        place = _key_place(data, path) if "[key]" in detail["loc"] else _place(data, path)
        return Finding(context["code"], context["message"], context["help"], place)
    if kind == "missing":
        return _missing(model, data, path, detail["loc"])
    if kind == "extra_forbidden":
        return _unknown(model, data, path, detail["loc"])
    if kind in ("union_tag_invalid", "union_tag_not_found"):
        return _tag(data, path, context)
    due = "a list" if kind == "list_type" else "a mapping"
    found = detail["input"]
    if isinstance(found, LocatedMapping):
        found_words = "a mapping"
    else:
        other = "a list" if isinstance(found, list) else f"the text {str(found)!r}"
        found_words = "nothing" if found is None else other
    remedy = (
        "start each item on its own line with  - "
        if due == "a list"
        else "put its keys on the lines below, indented"
    )
    return Finding("M014", f"{found_words} stands where {due} is due", remedy, _place(data, path))


def _missing(
    model: type[BaseModel], data: LocatedMapping, path: tuple[Any, ...], loc: tuple[Any, ...]
) -> Finding:
    key = path[-1]
    owner = _model_at(model, loc[:-1])
    meaning = ""
    if owner is not None and key in owner.model_fields:
        meaning = owner.model_fields[key].description or ""
    inside = f" in {_words(path[:-1])}" if path[:-1] else ""
    remedy = f"add the line  {key}: ..." + (f"  ({meaning.splitlines()[0]})" if meaning else "")
    return Finding("M001", f"the key {key!r} is missing{inside}", remedy, _place(data, path[:-1]))


def _unknown(
    model: type[BaseModel], data: LocatedMapping, path: tuple[Any, ...], loc: tuple[Any, ...]
) -> Finding:
    known, near = _near(model, data, loc)
    hint = f"did you mean {near[0]!r}? " if near else ""
    return Finding(
        "M002",
        f"the key {str(path[-1])!r} is not known here",
        f"{hint}known keys: {', '.join(known)}",
        _key_place(data, path),
    )


def _near(model: type[BaseModel], data: LocatedMapping, loc: tuple[Any, ...]) -> tuple[list[str], list[str]]:
    """Return the keys that are known at the place of an unknown one, and the one it resembles, if any."""
    owner = _model_at(model, loc[:-1])
    known = list(owner.model_fields) if owner is not None else []
    path = tuple(_real_path(data, loc))
    present, word = _at(data, path[:-1]), str(path[-1])
    free = [key for key in known if not (isinstance(present, dict) and key in present)]
    near, any_near = (get_close_matches(word, among, n=1, cutoff=0.6) for among in (free, known))
    return known, near or any_near


def _tag(data: LocatedMapping, path: tuple[Any, ...], context: dict[str, Any]) -> Finding:
    key = str(context["discriminator"]).strip("'")
    mapping = _at(data, path)
    if "tag" not in context:
        return _no_tag(key, mapping, data, path)
    known = [tag.strip(" '") for tag in context["expected_tags"].split(",")]
    near = get_close_matches(context["tag"], known, n=1, cutoff=0.5)
    hint = f"did you mean {near[0]!r}? " if near else ""
    return Finding(
        "M012",
        f"{context['tag']!r} is not known here",
        f"{hint}write one of: {', '.join(known)}",
        place_of(mapping.get(key)) if isinstance(mapping, dict) else _place(data, path),
    )


def _no_tag(key: str, mapping: Any, data: LocatedMapping, path: tuple[Any, ...]) -> Finding:
    """The key that says which kind it is stands there misspelt, or not at all."""
    near = get_close_matches(key, list(mapping), n=1, cutoff=0.75) if isinstance(mapping, dict) else []
    if near:
        return Finding(
            "M002", _both(near[0], key), f"did you mean {key!r}?", _key_place(data, (*path, near[0]))
        )
    message = f"the key {key!r} is missing in {_words(path)}"
    return Finding("M001", message, f"say which kind it is:  {key}: ...", _place(data, path))


def _real_path(data: Any, loc: tuple[Any, ...]) -> Iterator[Any]:
    """Leave out what pydantic adds to a path: tags of unions, and ``[key]`` for a wrong key."""
    here = data
    for index, part in enumerate(loc):
        last = index == len(loc) - 1
        if part == "[key]":
            continue
        an_item = isinstance(here, list) and isinstance(part, int) and part < len(here)
        if an_item or (isinstance(here, dict) and part in here):
            here = here[part]
        elif not last:
            continue
        yield part


def _at(data: Any, path: tuple[Any, ...]) -> Any:
    here = data
    for part in path:
        if isinstance(here, dict):
            here = here.get(part)
        elif isinstance(here, list) and isinstance(part, int):
            here = here[part] if part < len(here) else None
    return here


def _place(data: LocatedMapping, path: tuple[Any, ...]) -> Place | None:
    """Return the place of a value, else of its key, else of what holds it."""
    for length in range(len(path), -1, -1):
        found = place_of(_at(data, path[:length])) or (_key_place(data, path[:length]) if length else None)
        if found:
            return found
    return None


def _key_place(data: LocatedMapping, path: tuple[Any, ...]) -> Place | None:
    holder = _at(data, path[:-1])
    return holder.key_places.get(str(path[-1])) if isinstance(holder, LocatedMapping) else place_of(holder)


def _words(path: tuple[Any, ...]) -> str:
    text = "".join(f"[{part}]" if isinstance(part, int) else f".{part}" for part in path)
    return text.removeprefix(".")


def _model_at(model: type[BaseModel] | None, loc: tuple[Any, ...]) -> type[BaseModel] | None:
    """Follow a pydantic path through the models, to know which keys a mapping may have."""
    here: Any = model
    for part in loc:
        here = _inside(here, part)
    return here if isinstance(here, type) and issubclass(here, BaseModel) else None


def _inside(here: Any, part: Any) -> Any:
    if isinstance(here, type) and issubclass(here, RootModel):
        here = _bare(here.model_fields["root"].annotation)
    if isinstance(here, type) and issubclass(here, BaseModel):
        field = here.model_fields.get(str(part))
        return _bare(field.annotation) if field else None
    if get_origin(here) is list:
        return _bare(get_args(here)[0])
    if get_origin(here) is dict:
        return _bare(get_args(here)[1])
    if get_origin(here) in (Union, types.UnionType):
        return next((one for one in get_args(here) if _tag_of(one) == part), None)
    return None


def _bare(annotation: Any) -> Any:
    """Take off ``Annotated`` and ``| None``."""
    while hasattr(annotation, "__metadata__"):
        annotation = get_args(annotation)[0]
    if get_origin(annotation) in (Union, types.UnionType):
        rest = [one for one in get_args(annotation) if one is not type(None)]
        if len(rest) == 1:
            return _bare(rest[0])
    return annotation


def _tag_of(model: Any) -> str | None:
    field = getattr(model, "model_fields", {}).get("event")
    return get_args(field.annotation)[0] if field else None
