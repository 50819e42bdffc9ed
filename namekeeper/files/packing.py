"""What a file is packed by where it is not unpacked here: told by name, so that nobody takes it for damaged."""

from __future__ import annotations

from types import MappingProxyType

from namekeeper.words.errors import InputError, Place

#: Methods within a zip archive beyond the usual two (PKWARE APPNOTE.TXT 6.3.10, 4.4.5); some Pythons have libraries for
#: some of them.
METHODS = MappingProxyType({9: "Deflate64", 12: "bzip2", 14: "LZMA", 93: "zstd", 95: "xz", 97: "WavPack", 98: "PPMd"})
#: Bytes of a file that are enough to tell.
HEAD = 10
#: First bytes of whole files (RFC 1952, 2.3.1; RFC 8878, 3.1.1; the xz file format 1.2.1, 2.1.1.1; 7-Zip's
#: 7zFormat.txt; those of bzip2 and RAR are stated from memory).
_SIGNS = MappingProxyType(
    {
        b"\x1f\x8b": "gzip",
        b"\x28\xb5\x2f\xfd": "zstd",
        b"\xfd7zXZ\x00": "xz",
        b"7z\xbc\xaf\x27\x1c": "7z",
        b"Rar!\x1a\x07": "RAR",
    }
)
_BZIP2 = b"1AY&SY"  # from the fifth byte on


def refuse_packed(head: bytes, place: Place) -> None:
    """Refuse a file that begins so, if it is packed as a whole; a zip archive is for others.

    :raises InputError: with the name of the packer.
    """
    packer = next((name for sign, name in _SIGNS.items() if head.startswith(sign)), None)
    packer = packer or ("bzip2" if head[4:10] == _BZIP2 else None)
    if packer:
        what = f"this is packed by {packer}, which is not unpacked here"
        raise InputError(what, remedy="unpack it first, and give the file that is in it", place=place)
