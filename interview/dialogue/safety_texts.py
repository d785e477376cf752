"""Which words of safety are there? Cautions, the emergency text, where to go instead, as the flows folder has them."""

from __future__ import annotations

from functools import cache

from pydantic import BaseModel, ConfigDict

from interview.resources import shipped
from interview.yaml_file import read_yaml, validated


class Caution(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True)
    id: str
    text: str
    source: str


class Referral(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True)
    why: str
    where: str


class SafetyTexts(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True)
    cautions: tuple[Caution, ...]
    emergency: str
    regulated: dict[str, Referral]


@cache
def safety_texts() -> SafetyTexts:
    """The words of cautions, emergency and referrals. Raises FileError with file and line."""
    return validated(read_yaml(shipped("flows") / "cautions.yaml"), SafetyTexts)


def caution_text(caution: str) -> str:
    return next(c.text for c in safety_texts().cautions if c.id == caution)
