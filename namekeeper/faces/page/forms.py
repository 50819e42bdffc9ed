"""What forms bring back: where they came from, and nothing that is not ours."""

from __future__ import annotations

import re
from urllib.parse import urlsplit

from flask import request


def back(default: str = "/") -> str:
    """Where a form came from: a page of ours and nothing else."""
    wanted = request.form.get("back", "")
    parts = urlsplit(wanted) if wanted.isprintable() else urlsplit("")
    ours = re.match(r"/(?![/\\])", wanted) and not (parts.scheme or parts.netloc) and "\\" not in wanted
    return wanted if ours and wanted.isprintable() else default


def here() -> str:
    """The address of the page that is shown, to come back to."""
    return request.full_path.rstrip("?") if request.method == "GET" else back()
