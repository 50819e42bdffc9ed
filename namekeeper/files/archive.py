"""A zip archive of tables: its members by name, its descriptions in XML and YAML."""

from __future__ import annotations

import re
from pathlib import Path, PurePosixPath
from typing import Any, NoReturn

from namekeeper.files.zipped import ZipReader
from namekeeper.words.errors import NOWHERE, InputError, Place

#: For members that are read at once (descriptions, not tables).
_DESCRIPTION = 4 * 1024 * 1024
_TABLES = frozenset({".csv", ".tsv", ".tab", ".txt", ".psv"})
#: What systems and packers leave beside the files, and pages that tell about them.
_LEFTOVER = re.compile(r"__MACOSX/|(?:^|/)\.|(?:^|/)(?:readme|licen[cs]e|citations?|rights|about)[^/]*$", re.IGNORECASE)
NOT_SOUND = "ask where the archive came from for a sound one"


class Archive(ZipReader):
    """A zip archive of tables, by its path or its bytes; all errors are :class:`InputError` with the archive as place.

    :param path: where it lies, for errors; None for bytes whose place is told elsewhere.
    :raises FileError: if it cannot be read.
    """

    def __init__(self, source: Path | bytes) -> None:
        self.path = source if isinstance(source, Path) else None
        super().__init__(source, self.refuse)

    def find(self, name: str) -> str | None:
        """The member of that file name, at the top or in the one folder that holds all."""
        fitting = [member for member in self.members if PurePosixPath(member).name == name]
        return min(fitting, key=lambda member: member.count("/"), default=None)

    def beside(self, member: str, location: str) -> str:
        """The member that ``member`` names by a relative location.

        :raises InputError: if it is missing or the location leads out of the archive.
        """
        wanted = self.named(member, location)
        if wanted not in self.members:
            self.refuse(f"{member} names {location!r}, which is not in the archive")
        return wanted

    def named(self, member: str, location: str) -> str:
        """The member that ``member`` names by a relative location, whether it is there or not.

        :raises InputError: if the location leads out of the archive.
        """
        parts = PurePosixPath(location.replace("\\", "/")).parts
        if not parts or parts[0] == "/" or ".." in parts or ":" in parts[0]:
            self.refuse(f"{member} names a file outside of the archive: {location!r}")
        return str(PurePosixPath(member).parent.joinpath(*parts))

    def lone_table(self) -> str | None:
        """The one member that may be a plain table; None if there is none or more, leftovers of packing left out."""
        tables = [
            member
            for member in self.members
            if PurePosixPath(member).suffix.lower() in _TABLES and not _LEFTOVER.search(member)
        ]
        return tables[0] if len(tables) == 1 else None

    def description(self, member: str) -> bytes:
        """A small member at once.

        :raises InputError: if it is larger than a description may be.
        """
        content = self.read(member, _DESCRIPTION)
        if content is None:
            self.refuse(f"{member} is too large for a description")
        return content

    def xml(self, member: str) -> Any:
        """The root element of an XML member; document types and entities are refused, harmless or not.

        :raises InputError: if it is not well-formed or tries anything.
        """
        from xml.etree.ElementTree import ParseError

        from defusedxml import DefusedXmlException
        from defusedxml.ElementTree import fromstring

        try:
            return fromstring(self.description(member), forbid_dtd=True)
        except DefusedXmlException as error:
            self.refuse(f"{member} holds a document type or entities, which no metafile needs", error)
        except (ParseError, LookupError, ValueError) as error:
            self.refuse(f"{member} is not well-formed: {error}", error)

    def yaml(self, member: str) -> dict[object, Any]:
        """A YAML member as texts, lists and mappings; empty if it is no mapping.

        :raises InputError: if it is no YAML.
        """
        import yaml

        loader = getattr(yaml, "CBaseLoader", yaml.BaseLoader)  # the same, many times as fast, where it was built
        try:
            said = yaml.load(self.description(member).decode("utf-8"), Loader=loader)  # noqa: S506 - text only
        except (yaml.YAMLError, UnicodeError, RecursionError, ValueError) as error:
            self.refuse(f"{member} is no sound YAML", error)
        return said if isinstance(said, dict) else {}

    def refuse(self, what: str, cause: Exception | None = None) -> NoReturn:
        """Give the archive up.

        :raises InputError: always, with the archive as place.
        """
        raise InputError(what, remedy=NOT_SOUND, place=Place(str(self.path)) if self.path else NOWHERE) from cause
