"""Completion in a real bash on a real terminal: the script that the command prints, the TAB key."""

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


@pytest.fixture
def complete(on_terminal, command, borewright, tmp_path):
    script = tmp_path / "borewright.bash"
    script.write_text(borewright("--completion", "bash"))
    (tmp_path / "holes_of_krp.csv").write_text("id,thread\n")

    ready = f"PS1='{PROMPT}'; PATH={command.parent}:$PATH; cd {tmp_path}; source {script}"

    def press_tab(line: str) -> str:
        """What stands on the line after TAB."""
        typed = [
            ("$ ", ready + "\r"),
            (f"\n{PROMPT}", f"{line}\t\x01echo \r"),  # goes to the start of the line and shows what it has become
            (f"\n{PROMPT}", "exit\r"),
        ]
        shown = on_terminal(shutil.which("bash"), "--norc", "--noprofile", "-i", typed=typed, PS1="$ ", TERM="dumb").out
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
