"""``python -m namekeeper``."""

from __future__ import annotations

import sys

from namekeeper.faces.cli.main import main

if __name__ == "__main__":
    sys.exit(main())
