"""What every part of a record has in common: it is frozen, it refuses unknown keys, it knows its place."""

from __future__ import annotations

from typing import Any, Self

from pydantic import BaseModel, ConfigDict, ModelWrapValidatorHandler, PrivateAttr, model_validator

from dossier.findings import Place
from dossier.located import LocatedMapping, place_of


class Part(BaseModel):
    """A mapping in one of the builder's files."""

    model_config = ConfigDict(frozen=True, extra="forbid", use_attribute_docstrings=True)

    _place: Place | None = PrivateAttr(default=None)
    _key_places: dict[str, Place] = PrivateAttr(default_factory=dict)

    @model_validator(mode="wrap")
    @classmethod
    def _remember_place(cls, value: Any, handler: ModelWrapValidatorHandler[Self]) -> Self:
        part = handler(value)
        if isinstance(value, LocatedMapping):
            part._place = place_of(value)
            part._key_places = value.key_places
        return part

    @property
    def place(self) -> Place | None:
        """Where this mapping starts."""
        return self._place

    def place_of_key(self, key: str) -> Place | None:
        """Where one of its keys stands, or where the mapping starts."""
        return self._key_places.get(key, self._place)
