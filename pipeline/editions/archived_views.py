"""Settings of an edition as the views of today's stages."""

from __future__ import annotations

from pathlib import Path
from typing import Any, TypeVar

from pydantic import ValidationError

from pipeline.config.views import BriefView, SignificanceView, View
from pipeline.contracts.editions import Merged
from pipeline.editions.reading import VERIFY
from pipeline.errors import Problem, UserError

Kind = TypeVar("Kind", bound=View)


def brief_view(settings: Merged, folder: Path) -> BriefView:
    """What the pages were made with; `folder` is the edition's data/, to be named in errors."""
    return _view(BriefView, settings.brief, folder, "brief")


def significance_view(settings: Merged, folder: Path) -> SignificanceView:
    """What the findings were made with."""
    return _view(SignificanceView, settings.significance, folder, "significance")


def _view(kind: type[Kind], plain: dict[str, Any], folder: Path, stage: str) -> Kind:
    try:
        return kind.model_validate(plain)
    except ValidationError as error:
        path = folder / "config" / "merged.json"
        raise UserError(
            Problem(
                str(path),
                f"{found['msg'].removeprefix('Value error, ')}; {VERIFY}",
                where=".".join(map(str, (stage, *found["loc"]))),
            )
            for found in error.errors()
        ) from None
