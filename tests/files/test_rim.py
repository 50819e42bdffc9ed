"""Writing, reading, zip files, JSON and processes: what the one rim promises to every package."""

from __future__ import annotations

import io
import os
import subprocess
import sys
import threading
import zipfile
from pathlib import Path
from typing import Any, NoReturn

import pytest

from namekeeper.files.file_layer import DiskFiles, abandoned_parts, part_of, patiently, put_in_place, write_own
from namekeeper.files.headers import column_named, columns_guessed, header_key
from namekeeper.files.lenient_json import json_of, list_in, mapping_in, text_in
from namekeeper.files.processes import runs, start_of
from namekeeper.files.reading import read_named
from namekeeper.files.zipped import ZipLimits, ZipReader
from namekeeper.words.errors import FileError, InputError


class WinError(PermissionError):
    """A refusal as Windows gives it, with its own number."""

    def __init__(self, number: int) -> None:
        super().__init__(13, "held by another program")
        self.winerror = number


class TestReading:
    def test_a_file_is_read(self, tmp_path: Path) -> None:
        (tmp_path / "f").write_bytes(b"x\r\n\x1a")
        assert read_named(tmp_path / "f") == b"x\r\n\x1a"

    def test_what_is_no_file_is_refused_in_words(self, tmp_path: Path) -> None:
        for path, what in ((tmp_path / "none", "No such file"), (tmp_path, "Is a directory")):
            with pytest.raises(FileError, match=what) as refused:
                read_named(path)
            assert refused.value.remedy == "check the path"

    @pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="the system has no named pipes")
    def test_a_pipe_or_device_is_not_waited_for(self, tmp_path: Path) -> None:
        os.mkfifo(tmp_path / "pipe")
        for path in (tmp_path / "pipe", Path(os.devnull)):
            with pytest.raises(FileError, match="a pipe or device"):
                read_named(path)

    def test_a_file_beyond_the_limit_is_not_read(self, tmp_path: Path) -> None:
        (tmp_path / "f").write_bytes(b"x" * 11)
        assert len(read_named(tmp_path / "f", 11)) == 11
        with pytest.raises(FileError, match="larger than") as refused:
            read_named(tmp_path / "f", 10)
        assert "split it" in refused.value.remedy


class TestWriting:
    @pytest.mark.parametrize("lasting", [True, False])
    def test_a_file_of_our_own_is_whole(self, tmp_path: Path, lasting: bool) -> None:
        for content in (b"old", b"new"):
            write_own(tmp_path / "f", content, lasting=lasting)
            assert (tmp_path / "f").read_bytes() == content
        assert [path.name for path in tmp_path.iterdir()] == ["f"]

    def test_a_failure_leaves_the_old_and_no_part(self, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        write_own(tmp_path / "f", b"old")

        def fail(*_: object) -> None:
            raise OSError(28, "No space left on device")

        monkeypatch.setattr(os, "fsync", fail)
        with pytest.raises(OSError, match="No space"):
            write_own(tmp_path / "f", b"new")
        assert [path.name for path in tmp_path.iterdir()] == ["f"]
        assert (tmp_path / "f").read_bytes() == b"old"

    @pytest.mark.parametrize("held", [WinError(5), WinError(32), WinError(33), OSError(16, "Device or resource busy")])
    def test_a_file_that_another_program_holds_for_a_moment_is_tried_again(self, held: OSError) -> None:
        slept: list[float] = []
        attempts = iter([held, held, None])

        def act() -> None:
            if (refused := next(attempts)) is not None:
                raise refused

        patiently(act, slept.append)
        assert len(slept) == 2

    def test_a_file_that_stays_held_is_refused_after_about_a_second(self) -> None:
        slept: list[float] = []
        refusals: list[OSError] = []

        def act() -> None:
            refusals.append(WinError(32))
            raise refusals[-1]

        with pytest.raises(OSError, match="held") as refused:
            patiently(act, slept.append)
        assert 0.8 < sum(slept) < 1.5
        assert refused.value is refusals[-1]  # what is said is true when it is said

    def test_another_refusal_is_not_waited_for(self) -> None:
        def act() -> None:
            raise PermissionError(13, "Permission denied")

        with pytest.raises(PermissionError):
            patiently(act, lambda _seconds: pytest.fail("waited"))

    def test_what_is_replaced_and_removed_is_so_patiently(
        self, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        """A short lock of a scanner costs neither a written file nor a removal."""
        write_own(tmp_path / "f", b"old")
        refusals = {"replace": 2, "unlink": 2}
        for name, act in (("replace", Path.replace), ("unlink", Path.unlink)):

            def held(path: Path, *rest: Any, act: Any = act, name: str = name, **named: Any) -> object:
                if refusals[name]:
                    refusals[name] -= 1
                    raise WinError(32)
                return act(path, *rest, **named)

            monkeypatch.setattr(Path, name, held)
        write_own(tmp_path / "f", b"new", lasting=False)
        assert (tmp_path / "f").read_bytes() == b"new"
        DiskFiles().remove(tmp_path / "f")
        assert (list(tmp_path.iterdir()), refusals) == ([], {"replace": 0, "unlink": 0})

    def test_many_writers_at_once_leave_one_whole_file(self, tmp_path: Path) -> None:
        contents = [bytes([number]) * 50_000 for number in range(8)]
        threads = [threading.Thread(target=write_own, args=(tmp_path / "f", content)) for content in contents]
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join()
        assert (tmp_path / "f").read_bytes() in contents
        assert [path.name for path in tmp_path.iterdir()] == ["f"]

    def test_a_part_takes_the_place(self, tmp_path: Path) -> None:
        part = part_of(tmp_path / "f")
        assert part != part_of(tmp_path / "f")
        part.write_bytes(b"built")
        put_in_place(part, tmp_path / "f")
        assert (tmp_path / "f").read_bytes() == b"built"

    def test_parts_of_processes_that_are_gone_are_abandoned(self, tmp_path: Path) -> None:
        mine = part_of(tmp_path / "f")
        ended = subprocess.Popen([sys.executable, "-c", ""])
        ended.wait()
        others = [tmp_path / f".f.{process}.0a.part" for process in (ended.pid, 2**70, "x")]
        for path in (mine, *others, tmp_path / "f.part"):
            path.write_bytes(b"")
        assert sorted(abandoned_parts(tmp_path)) == sorted(others)


class TestZip:
    def refuse(self, what: str, cause: Exception | None) -> NoReturn:
        raise InputError(what) from cause

    def packed(self, **files: bytes) -> bytes:
        target = io.BytesIO()
        with zipfile.ZipFile(target, "w", zipfile.ZIP_DEFLATED) as archive:
            for name, content in files.items():
                archive.writestr(name, content)
        return target.getvalue()

    def test_members_are_read_up_to_a_limit(self, tmp_path: Path) -> None:
        content = self.packed(a=b"12345")
        (tmp_path / "z").write_bytes(content)
        for source in (content, tmp_path / "z"):
            with ZipReader(source, self.refuse) as archive:
                assert archive.members == ("a",)
                assert archive.read("a", 5) == b"12345"
                assert archive.read("a", 4) is None

    @pytest.mark.parametrize(
        ("limits", "what"),
        [
            (ZipLimits(members=1), "holds 2 files"),
            (ZipLimits(whole=10), "unpacked it would be larger"),
            (ZipLimits(small=100, growth=5), "grows 5 times"),
        ],
    )
    def test_what_is_unreasonable_is_refused(self, limits: ZipLimits, what: str) -> None:
        with pytest.raises(InputError, match=what):
            ZipReader(self.packed(a=b"1", b=b"2" * 10_000), self.refuse, limits)

    def test_what_is_no_zip_is_refused(self, tmp_path: Path) -> None:
        with pytest.raises(InputError, match="no whole zip archive"):
            ZipReader(b"PK\x03\x04 not", self.refuse)
        with pytest.raises(FileError, match="cannot be read"):
            ZipReader(tmp_path / "none", self.refuse)


def test_json_that_may_be_anything() -> None:
    assert json_of(b'{"a": [1]}') == {"a": [1]}
    for content in (b"{", b"\xff", b"[" * 100_000):
        with pytest.raises(ValueError, match=r"."):
            json_of(content)
    assert (mapping_in([1]), list_in({}), mapping_in({"a": 1})) == ({}, [], {"a": 1})
    node = {"text": "x", "number": 5, "truth": True, "none": None}
    assert [text_in(node, key) for key in (*node, "missing")] == ["x", "5", "", "", ""]


def test_processes() -> None:
    ended = subprocess.Popen([sys.executable, "-c", ""])
    ended.wait()
    assert runs(os.getpid())
    assert runs(os.getppid())
    assert not runs(ended.pid)
    assert not runs(2**70)
    if Path("/proc/self/stat").exists():
        assert start_of(os.getpid()).isdigit()
    assert start_of(2**40) == ""


def test_headers() -> None:
    keys = {"Nr.": "nr", "Züchter": "zuchter", "Sold  as": "soldas", "M/F": "mf", "Nº": "no"}
    assert {header: header_key(header) for header in keys} == keys
    headers = ("Name", "name ", "Sold as", "")
    found = {"Name": 0, "name ": 1, "NAME": 0, "soldas": 2, "": 3, "x": None, "-": None}
    assert {text: column_named(headers, text) for text in found} == found
    words = {"name": ("scientificname", "name"), "tag": ("name", "soldas")}
    assert columns_guessed(headers, words, {}) == {"name": 0, "tag": 1}
    assert columns_guessed(headers, words, {"note": 0}) == {"note": 0, "name": 1, "tag": 2}
