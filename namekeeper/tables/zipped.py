"""The parts of a zipped table, with limits, and the same file with some parts replaced."""

from __future__ import annotations

import io
import zipfile
import zlib
from collections.abc import Mapping
from dataclasses import dataclass

from namekeeper.words.errors import InputError

_LARGEST_PART = 400 * 1024 * 1024  # bytes unpacked; a sheet of a million rows takes about a tenth
_REMEDY = "open the table, save it again and try once more"


@dataclass(frozen=True, slots=True)
class Zipped:
    """A zipped table by its bytes."""

    content: bytes

    def names(self) -> tuple[str, ...]:
        """Names of the parts.

        :raises InputError: if it is no zip file.
        """
        with self._open() as archive:
            return tuple(archive.namelist())

    def part(self, name: str) -> bytes:
        """One part unpacked.

        :raises InputError: if it is missing, damaged, locked with a password or unreasonably large.
        """
        with self._open() as archive:
            try:
                if archive.getinfo(name).file_size > _LARGEST_PART:
                    what = f"{name} unpacks to more than {_LARGEST_PART >> 20} MB"
                    raise InputError(what, remedy="split the table")
                return archive.read(name)
            except KeyError:
                what = f"the table lacks its part {name}"
                raise InputError(what, remedy=_REMEDY) from None
            except (zipfile.BadZipFile, zlib.error, RuntimeError, ValueError, OSError, EOFError):
                what = f"the part {name} of the table cannot be unpacked"
                raise InputError(what, remedy="take its password off, or save it again") from None

    def with_parts(self, parts: Mapping[str, bytes]) -> bytes:
        """The same file with some parts replaced; order, dates, comments and the other parts' content stay."""
        target = io.BytesIO()
        with self._open() as archive, zipfile.ZipFile(target, "w") as made:
            made.comment = archive.comment
            for info in archive.infolist():
                made.writestr(info, parts.get(info.filename) or self.part(info.filename), info.compress_type)
        return target.getvalue()

    def _open(self) -> zipfile.ZipFile:
        try:
            return zipfile.ZipFile(io.BytesIO(self.content))
        except (zipfile.BadZipFile, RuntimeError, ValueError, OSError, EOFError):
            raise InputError("the table is no readable XLSX or ODS file", remedy=_REMEDY) from None
