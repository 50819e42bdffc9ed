"""Kept answers as files of ``requests-cache``: one readable JSON file an answer. Its types are known here only.

Its filesystem backend has no database and no lock, so nothing can wait for another process. Its serializer is plain
JSON, never pickle: a file from elsewhere can at worst be wrong data. Importing this module loads the library, so
:mod:`namekeeper.sources.kept_answers` does that only once there is something to read or to keep.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from datetime import datetime
from pathlib import Path
from typing import Any

from requests_cache.backends.filesystem import FileDict
from requests_cache.models.request import CachedRequest
from requests_cache.models.response import CachedResponse
from requests_cache.serializers import SerializerPipeline, Stage
from requests_cache.serializers.preconf import json_preconf_stage

from namekeeper.files.file_layer import write_own
from namekeeper.files.lenient_json import mapping_in
from namekeeper.sources.json_text import document_of
from namekeeper.sources.replies import Held, Marks

_JSON = {"Content-Type": "application/json"}


def _to_bytes(plain: object) -> bytes:
    try:
        return json.dumps(plain).encode()
    except RecursionError as error:
        raise ValueError(str(error)) from None


def _from_bytes(content: bytes) -> object:
    """:raises ValueError: for what could not have come from a service today, whatever was kept before."""
    return document_of(content.decode("utf-8"))


_SERIALIZER = SerializerPipeline(
    [json_preconf_stage, Stage(dumps=_to_bytes, loads=_from_bytes)], name="json", is_binary=True
)


class AnswerFiles(FileDict):
    """The backend over ``folder``, which it makes, except that a file is written whole or not at all.

    :raises OSError: if there can be no such folder.
    """

    def __init__(self, folder: Path) -> None:
        super().__init__(folder, serializer=_SERIALIZER, decode_content=True)

    def __setitem__(self, key: str, value: CachedResponse) -> None:
        write_own(self._key2path(key), self.serialize(value), lasting=False)

    def deserialize(self, key: str, value: bytes) -> Mapping[str, Any]:
        """The plain form of a response, empty for a damaged file.

        To make a whole response of it takes longer than to read it, and puts now where the date is missing.
        """
        try:
            return mapping_in(_from_bytes(value))
        except ValueError:
            return {}

    def keep(self, key: str, address: str, held: Held) -> None:
        """Keep the answer to a question put to ``address``, which holds nothing secret.

        :raises OSError: if it cannot be written; what was kept before is still there.
        :raises ValueError: for a document that cannot be written as JSON, such as one too deep.
        """
        response = CachedResponse(
            content=_to_bytes(held.document),
            created_at=held.retrieved,
            request=CachedRequest(method="GET", url=address),
            status_code=200,
            url=address,
        )
        response.headers.update(_JSON | held.marks.headers())
        self[key] = response

    def held(self, key: str, address: str) -> Held | None:
        """The kept answer, None if the file holds anything else.

        :raises OSError: if there is no such file or it cannot be read.
        """
        try:
            plain = self[key]
        except KeyError as error:  # how a backend says whatever happened to its file
            raise error.__cause__ if isinstance(error.__cause__, OSError) else OSError from None
        return _held_in(plain, address)


def _held_in(plain: Mapping[str, Any], address: str) -> Held | None:
    """Also what version 0.1 wrote in the same place."""
    names = ("url", "created_at", "_decoded_content")
    if plain.get("version") == 1:
        names = ("question", "retrieved", "document")
    url, created, document = (plain.get(name) for name in names)
    try:
        retrieved = datetime.fromisoformat(str(created))
    except ValueError:
        return None
    if url != address or document is None or retrieved.tzinfo is None:
        return None
    return Held(document, retrieved, Marks.among(mapping_in(plain.get("headers"))))
