"""Fields that take a value in one form only, so that both sides read the same bytes alike.

marshmallow's own fields are kinder than a record for years should be: its UUID takes capitals and
braces, its Boolean takes "yes" and 1, its strict Integer takes `true`.
"""

from __future__ import annotations

from typing import Any

from marshmallow import ValidationError, fields, validate

#: A UUID as RFC 9562, 4 prints it: lower-case hexadecimal digits with hyphens.
UUID_TEXT = r"^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}\Z"


class Id(fields.String):
    """A UUID in lower case with hyphens."""

    def __init__(self, **more: Any) -> None:
        check = validate.Regexp(UUID_TEXT, error="Not a UUID in lower case with hyphens.")
        super().__init__(validate=check, **more)


class Whole(fields.Integer):
    """A whole number, written as a JSON number."""

    def __init__(self, **more: Any) -> None:
        super().__init__(strict=True, **more)

    def _deserialize(self, value: Any, attr: Any, data: Any, **more: Any) -> int:
        if isinstance(value, bool):
            raise ValidationError("Not a whole number.")
        return int(super()._deserialize(value, attr, data, **more) or 0)


class YesNo(fields.Boolean):
    """true or false, and nothing that only looks like it."""

    def _deserialize(self, value: Any, attr: Any, data: Any, **more: Any) -> bool:
        if not isinstance(value, bool):
            raise ValidationError("Neither true nor false.")
        return value
