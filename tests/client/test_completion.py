"""Completion in real shells on a real terminal: the script that the command prints, the TAB key."""

from __future__ import annotations

import re
import runpy
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

PROMPT = "ready> "
MAN = Path(__file__).parents[2] / "client" / "man"


#: How each shell is started without a person's own settings, and what makes it complete.
SHELLS = {
    "bash": (("--norc", "--noprofile", "-i"), "source"),
    "zsh": (
        ("-f", "-i"),
        "unsetopt zle_bracketed_paste prompt_cr prompt_sp; autoload -Uz compinit; compinit -u; source",
    ),
}


@pytest.fixture
def complete(on_terminal, command, borewright, tmp_path):
    (tmp_path / "holes_of_krp.csv").write_text("id,thread\n")

    def press_tab(line: str, shell: str = "bash") -> str:
        """What stands on the line after TAB."""
        script = tmp_path / f"borewright.{shell}"
        script.write_text(borewright("--completion", shell))
        options, load = SHELLS[shell]
        typed = [
            ("$ ", f"PS1='{PROMPT}'; PATH={command.parent}:$PATH; cd {tmp_path}; {load} {script}\r"),
            (f"\n{PROMPT}", f"{line}\t\x01echo \r"),  # goes to the start of the line and shows what it has become
            (f"\n{PROMPT}", "exit\r"),
        ]
        shown = on_terminal(shutil.which(shell), *options, typed=typed, PS1="$ ", TERM="dumb").out
        lines = re.sub(r"\x1b\[[0-9;?]*[a-zA-Z]", "", shown).splitlines()
        return next(text for text in reversed(lines) if text.startswith("borewright")).rstrip()

    return press_tab


@pytest.mark.parametrize(
    ("typed", "completed"),
    [
        ("borewright al", "borewright allowance"),
        ("borewright spec M8 --draw", "borewright spec M8 --drawing"),
        ("borewright spec M8 --objective ac", "borewright spec M8 --objective acceptance"),
        ("borewright catalog thread-", "borewright catalog thread-systems"),
        ("borewright batch holes_", "borewright batch holes_of_krp.csv"),
        ("borewright batch x.csv --output holes_", "borewright batch x.csv --output holes_of_krp.csv"),
    ],
)
def test_bash_completes(complete, typed, completed):
    assert complete(typed) == completed


def needs(shell):
    if shutil.which(shell) is None:
        pytest.skip(f"NO {shell.upper()}: Debian's {shell} is missing; `bash tests/run long` installs it")


@pytest.mark.long
def test_zsh_completes(complete):
    needs("zsh")
    for typed, completed in (
        ("borewright al", "borewright allowance"),
        ("borewright spec M8 --objective ac", "borewright spec M8 --objective acceptance"),
        ("borewright batch holes_", "borewright batch holes_of_krp.csv"),
    ):
        assert complete(typed, "zsh") == completed


@pytest.mark.long
def test_fish_completes(command, borewright, tmp_path):
    """``complete -C`` is fish's own completion of a line, without a terminal."""
    needs("fish")
    script = tmp_path / "borewright.fish"
    script.write_text(borewright("--completion", "fish"))
    (tmp_path / "holes_of_krp.csv").write_text("id,thread\n")
    for typed, completed in (
        ("borewright al", "allowance"),
        ("borewright spec M8 --draw", "--drawing"),
        ("borewright spec M8 --objective ac", "acceptance"),
        ("borewright batch holes_", "holes_of_krp.csv"),
    ):
        ask = f"set -x PATH {command.parent} $PATH; cd {tmp_path}; source {script}; complete -C '{typed}'"
        done = subprocess.run(["fish", "--no-config", "-c", ask], capture_output=True, text=True, check=True)
        assert [line.partition("\t")[0] for line in done.stdout.splitlines()] == [completed], typed


@pytest.mark.parametrize("shell", ["bash", "zsh", "fish", "powershell"])
def test_each_shell_has_its_script(borewright, shell):
    assert f"{shell}_complete" in borewright("--completion", shell)


def test_the_manual_page_is_that_of_the_command():
    """Made anew by ``python client/man/make.py``."""
    made = runpy.run_path(str(MAN / "make.py"))["page"]()
    assert (MAN / "borewright.1").read_text(encoding="utf-8") == made


def test_the_command_alone_needs_its_extra():
    """Without click the client is imported and the command says what it needs."""
    program = (
        "import sys; sys.modules['click'] = None; import borewright_client; from borewright_client.cli import main;"
        "sys.exit(main(['thread', 'M8']))"
    )
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=False)
    assert done.returncode == 2
    assert "borewright-client[cli]" in done.stderr
