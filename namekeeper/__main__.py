"""``python -m namekeeper`` and the installed command."""

from __future__ import annotations

import gc
import sys


def main() -> int:
    """Entry point of the installed command."""
    # Start-up makes many lasting objects; looking for garbage among them takes a tenth of a short command.
    gc.set_threshold(50_000, 20, 20)
    from namekeeper.faces.cli.main import main as run

    code = run()
    # The end of a process looks for garbage several times among objects that go anyway: a twelfth of a short command.
    gc.freeze()
    return code


if __name__ == "__main__":
    sys.exit(main())
