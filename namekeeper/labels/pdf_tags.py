"""The tree of tags of a PDF: a section a label, a paragraph a block, a figure a QR code (ISO 32000-2, 14.7, 14.8)."""

from __future__ import annotations

from typing import Any

import pydyf


class _Plain(pydyf.Object):  # type: ignore[misc]
    """An object by its bytes: thousands of them take little room."""

    __slots__ = ("_content",)

    def __init__(self, content: bytes = b"") -> None:
        super().__init__()
        self._content = content

    @property
    def data(self) -> bytes:
        return self._content

    def fill(self, text: str) -> None:
        self._content = text.encode("ascii")


class TagTree:
    """Grows with the pages as they are drawn, in the order of reading."""

    def __init__(self, pdf: Any) -> None:
        self._pdf = pdf
        self._root = self._added(_Plain())
        self._document = self._added(_Plain())
        self._sections: list[int] = []
        self._parents: list[_Plain] = []  # by page: whose content its marks are
        self._marks: list[int] = []
        self._page = 0
        self._section = self._root
        self._parts: list[int] = []

    def begin_page(self, page: Any) -> None:
        """What follows stands on that page."""
        self._end_page()
        page["StructParents"] = len(self._parents)
        page["Tabs"] = "/S"
        self._parents.append(self._added(_Plain()))
        self._page = page.number

    def begin_label(self) -> None:
        self._section = self._added(_Plain())
        self._sections.append(self._section.number)
        self._parts = []

    def paragraph(self, language: str = "") -> int:
        """A paragraph of the label, in a language other than the document's; the number its content is marked by."""
        return self._part("/P", f"/Lang{pydyf.String(language).data.decode('latin-1')}" if language else "")

    def figure(self, payload: str) -> int:
        """A QR code, which stands for its payload; the number its content is marked by."""
        return self._part("/Figure", f"/Alt{pydyf.String(f'QR: {payload}').data.decode('latin-1')}")

    def end_label(self) -> None:
        kids = _references(self._parts)
        self._section.fill(f"<</Type/StructElem/S/Sect/P {self._document.number} 0 R/K[{kids}]>>")

    def finished(self) -> Any:
        """The root of the tree, with all there is in it."""
        self._end_page()
        self._document.fill(
            f"<</Type/StructElem/S/Document/P {self._root.number} 0 R/K[{_references(self._sections)}]>>"
        )
        numbers = "".join(f"{page} {one.number} 0 R " for page, one in enumerate(self._parents))
        self._root.fill(
            f"<</Type/StructTreeRoot/K {self._document.number} 0 R/ParentTree<</Nums[{numbers}]>>"
            f"/ParentTreeNextKey {len(self._parents)}>>"
        )
        return self._root

    def _part(self, tag: str, extra: str) -> int:
        mark = len(self._marks)
        text = f"<</Type/StructElem/S{tag}/P {self._section.number} 0 R/Pg {self._page} 0 R/K {mark}{extra}>>"
        made = self._added(_Plain(text.encode("latin-1")))
        self._parts.append(made.number)
        self._marks.append(made.number)
        return mark

    def _end_page(self) -> None:
        if self._parents:
            self._parents[-1].fill(f"[{_references(self._marks)}]")
        self._marks = []

    def _added(self, made: _Plain) -> _Plain:
        self._pdf.add_object(made)
        return made


def _references(numbers: list[int]) -> str:
    return " ".join(f"{number} 0 R" for number in numbers)
