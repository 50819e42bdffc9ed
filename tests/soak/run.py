"""A soak from its first to its last step."""

from __future__ import annotations

import os
import signal
from pathlib import Path
from random import Random

from tests.services.local_server import serving
from tests.soak.report import Report
from tests.soak.services import Moody
from tests.soak.soaking import Soak


def soak(root: Path, seconds: float, seed: int) -> Report:
    """Use a collection below ``root`` for so long; what is found is in the report."""
    signal.signal(signal.SIGINT, signal.default_int_handler)  # a shell's background ignores it, and so would all others
    random, report = Random(seed), Report(seed)
    moody = Moody(random)
    with serving(moody) as server:
        ours = os.pathsep.join(filter(None, [str(Path.cwd()), os.environ.get("PYTHONPATH")]))
        environ = {**os.environ, "PYTHONPATH": ours, "NAMEKEEPER_HOME": str(root / "home")}
        soaked = Soak(root, server, environ, random, moody, report)
        try:
            soaked.run(seconds)
        finally:
            if soaked.page.process.poll() is None:
                soaked.page.kill()
            if soaked.asker.running is not None:
                soaked.asker.running.process.kill()
    report.counts.update({f"questions to services that are {mood}": number for mood, number in moody.met.items()})
    report.judge(seconds)
    return report
