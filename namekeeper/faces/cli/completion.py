"""``namekeeper completion``: what makes a shell finish words of namekeeper with the tab key."""

from __future__ import annotations

import argparse
from types import MappingProxyType

from namekeeper import resources
from namekeeper.faces.terminal import Terminal
from namekeeper.outside import Outside

#: The line that installs it, by shell.
INSTALL = MappingProxyType(
    {
        "bash": "echo 'source <(namekeeper completion bash)' >> ~/.bashrc",
        "zsh": "echo 'source <(namekeeper completion zsh)' >> ~/.zshrc",
        "fish": "echo 'namekeeper completion fish | source' >> ~/.config/fish/config.fish",
    }
)


def options(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("shell", metavar="SHELL", choices=list(INSTALL), help=", ".join(INSTALL))


def run(args: argparse.Namespace, outside: Outside, terminal: Terminal) -> int:
    """Print the script; on a terminal also the line that installs it, since a script alone does nothing there."""
    console = terminal.console
    console.out.write((resources.data("completion") / args.shell).read_text(encoding="utf-8"))
    if console.out.isatty():
        console.say("To install it, type this line once and open a new terminal:")
        console.say(INSTALL[args.shell])
    return 0
