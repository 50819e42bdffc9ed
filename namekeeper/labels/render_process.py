"""One process of its own that renders, for callers that could ask at once: the layout engine is not thread-safe."""

from __future__ import annotations

from concurrent.futures import ProcessPoolExecutor
from concurrent.futures import TimeoutError as TooLate
from concurrent.futures.process import BrokenProcessPool
from multiprocessing import get_context
from types import TracebackType

from namekeeper.labels.render import RenderJob, render_pdf
from namekeeper.words.errors import NamekeeperError

SECONDS = 120.0


class RenderProcess:
    """Renders one job after the other; closed with its ``with`` block.

    The process is spawned, not forked: the engine crashes in a fork of a process that has used it.
    """

    def __init__(self, seconds: float = SECONDS) -> None:
        self._seconds = seconds
        self._pool = self._new()

    def __enter__(self) -> RenderProcess:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self._pool.shutdown(wait=False, cancel_futures=True)

    def render(self, job: RenderJob) -> bytes:
        """The PDF of a job.

        :raises NamekeeperError: what :func:`render_pdf` raises; also if the process died or took too long.
        """
        try:
            return self._pool.submit(render_pdf, job).result(self._seconds)
        except (BrokenProcessPool, TooLate):
            self._pool.shutdown(wait=False, cancel_futures=True)
            self._pool = self._new()
            what = f"the page could not be drawn within {self._seconds:.0f} seconds"
            raise NamekeeperError(what, remedy="try fewer labels") from None

    @staticmethod
    def _new() -> ProcessPoolExecutor:
        return ProcessPoolExecutor(max_workers=1, mp_context=get_context("spawn"))
