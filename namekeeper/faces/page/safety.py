"""Who may use the page: one browser of this machine, by the start link; everybody else is refused before any work.

Other users of the machine reach the loopback too, and so does any site that the browser shows (DNS rebinding, forms of
foreign sites, frames). So nothing answers without the cookie, the address must be the one that was opened, and every
change carries a token besides.
"""

from __future__ import annotations

import hmac
import re
import secrets
import threading
from dataclasses import dataclass, field
from types import MappingProxyType
from urllib.parse import urlsplit

from flask import Flask, Response, abort, redirect, request, session
from flask_wtf.csrf import CSRFProtect
from werkzeug.wrappers import Response as AnyResponse

LOOPBACK = "127.0.0.1"
START = "/start/"
#: A page of the browser, not a part of a page of others (W3C Fetch Metadata, "Sec-Fetch-Dest").
_FRAMES = frozenset({"iframe", "frame", "embed", "object", "fencedframe"})
_FOR_ALL = ("start", "static")  # our own style and script say nothing of any collection
_OURSELVES = ("same-origin", "none")  # "none": typed, or opened by the terminal
#: CSP Level 3; no-referrer: W3C Referrer Policy. What is shown comes from here, and nothing runs that is no file.
HEADERS = MappingProxyType(
    {
        "Content-Security-Policy": (
            "default-src 'none'; style-src 'self'; script-src 'self'; img-src 'self'; font-src 'self'; "
            "connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
        ),
        "Referrer-Policy": "no-referrer",
        "X-Content-Type-Options": "nosniff",
        "X-Frame-Options": "DENY",
        "Cross-Origin-Opener-Policy": "same-origin",
        "Cross-Origin-Resource-Policy": "same-origin",
        "Permissions-Policy": "camera=(), microphone=(), geolocation=()",
    }
)


@dataclass(slots=True)
class Guard:
    """Lets in who opened the start link; its token is good for one time."""

    port: int
    _token: str = field(default_factory=lambda: secrets.token_urlsafe(32))
    _lock: threading.Lock = field(default_factory=threading.Lock)

    @property
    def host(self) -> str:
        """The one address by which the page is reached."""
        return f"{LOOPBACK}:{self.port}"

    @property
    def start_link(self) -> str:
        """The address that opens the page, once."""
        return f"http://{self.host}{START}{self._token}"

    def protect(self, app: Flask) -> None:
        """Put the guard before every answer of ``app``."""
        app.config.update(
            SECRET_KEY=secrets.token_bytes(32),  # sessions end with the server
            SESSION_COOKIE_NAME=f"namekeeper-{self.port}",
            SESSION_COOKIE_HTTPONLY=True,
            SESSION_COOKIE_SAMESITE="Strict",
            WTF_CSRF_TIME_LIMIT=None,  # a page may stay open all day; the token ends with the server
        )
        app.before_request(self._check)
        CSRFProtect(app)
        app.add_url_rule(f"{START}<token>", "start", self._start)
        app.after_request(_with_headers)

    def _check(self) -> None:
        if request.host != self.host:
            abort(421)
        if request.headers.get("Sec-Fetch-Site", "none") not in _OURSELVES or not self._from_here():
            abort(403)
        if request.headers.get("Sec-Fetch-Dest") in _FRAMES:
            abort(403)
        if request.endpoint not in _FOR_ALL and not session.get("here"):
            abort(401)

    def _from_here(self) -> bool:
        """Whether ``Origin`` is ours; under no-referrer a form of ours says "null" (Fetch, "Origin header")."""
        origin = request.headers.get("Origin")
        if origin is None or origin == f"http://{self.host}":
            return True
        return origin == "null" and request.headers.get("Sec-Fetch-Site") == "same-origin"

    def _start(self, token: str) -> AnyResponse:
        if session.get("here"):
            return redirect("/", 303)
        with self._lock:
            if not hmac.compare_digest(token.encode(), self._token.encode()):
                abort(401)
            self._token = secrets.token_urlsafe(32)  # whoever comes next with the old one is not the keeper
        session["here"] = True
        return redirect("/", 303)


def _with_headers(response: Response) -> Response:
    for name, value in HEADERS.items():
        response.headers[name] = value
    response.headers.setdefault("Cache-Control", "no-store")
    return response


def back(default: str = "/") -> str:
    """Where a form came from: a page of ours and nothing else."""
    wanted = request.form.get("back", "")
    parts = urlsplit(wanted) if wanted.isprintable() else urlsplit("")
    ours = re.match(r"/(?![/\\])", wanted) and not (parts.scheme or parts.netloc) and "\\" not in wanted
    return wanted if ours and wanted.isprintable() else default


def here() -> str:
    """The address of the page that is shown, to come back to."""
    return request.full_path.rstrip("?") if request.method == "GET" else back()
