"""Kept answers as files of ``requests-cache``: one readable JSON file an answer. Its types are known here only.

Its filesystem backend has no database and no lock, so nothing can wait for another process. Its serializer is plain
JSON, never pickle: a file from elsewhere can at worst be wrong data. Importing this module loads the library, so
:mod:`namekeeper.sources.kept_answers` does that only once there is something to read or to keep.
"""

from __future__ import annotations

import json
from datetime import datetime
from pathlib import Path

from requests_cache.backends.filesystem import FileDict
from requests_cache.models.request import CachedRequest
from requests_cache.models.response import CachedResponse
from requests_cache.serializers import SerializerPipeline, Stage
from requests_cache.serializers.preconf import json_preconf_stage

from namekeeper.files.file_layer import write_own
from namekeeper.files.lenient_json import json_of, mapping_in
from namekeeper.sources.replies import Held, Marks

_JSON = {"Content-Type": "application/json"}


def _to_bytes(plain: object) -> bytes:
    try:
        return json.dumps(plain).encode()
    except RecursionError as error:
        raise ValueError(str(error)) from None


def _from_bytes(raw: bytes) -> object:
    """The plain form of a kept answer, also of one that version 0.1 wrote in the same place.

    :raises ValueError: if it does not tell when it came, for which the library would put now.
    """
    plain = mapping_in(json_of(raw))
    if plain.get("version") == 1:
        plain = {
            "_decoded_content": plain["document"],
            "created_at": plain["retrieved"],
            "headers": _JSON,
            "status_code": 200,
            "url": plain["question"],
        }
    if not plain.get("created_at"):
        what = "a kept answer without its date"
        raise ValueError(what)
    return plain


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

    def deserialize(self, key: str, value: bytes) -> CachedResponse | None:
        """None for a file that is no kept answer; the library would write that into a log, and let some errors out."""
        try:
            return _SERIALIZER.loads(value)
        except Exception:  # whatever the damage does to json, base64, attrs or cattrs
            return None

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
            response = self[key]
        except KeyError as error:  # how a backend says whatever happened to its file
            raise error.__cause__ if isinstance(error.__cause__, OSError) else OSError from None
        if response is None or response.url != address or not _is_aware(response.created_at):
            return None
        try:
            return Held(json_of(response.content), response.created_at, Marks.among(response.headers))
        except (ValueError, TypeError):
            return None


def _is_aware(moment: object) -> bool:
    return isinstance(moment, datetime) and moment.tzinfo is not None
