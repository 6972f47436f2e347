"""The ten lines of openapi/README.md in C#: they compile and ask the real service."""

from __future__ import annotations

import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from made_clients import DOCUMENT, lines, options, what_they_say

pytestmark = pytest.mark.long

JSON = Path(
    sys.prefix, "node", "node_modules", "jillejr.newtonsoft.json-for-unity", "Plugins", "Newtonsoft.Json Editor"
)
ASSEMBLIES = [
    f"-r:System.{name}" for name in ("Net.Http", "Web", "ComponentModel.DataAnnotations", "Runtime.Serialization")
]


def ran(*command: object, folder: Path, fine: bool = True) -> str:
    done = subprocess.run([*map(str, command)], capture_output=True, text=True, timeout=600, check=False, cwd=folder)
    assert (done.returncode == 0) == fine, done.stdout + done.stderr
    return done.stdout + done.stderr


@pytest.fixture(scope="module")
def compiled(tmp_path_factory) -> Path:
    """A folder with the compiled client that the generator makes of the committed document."""
    missing = [name for name in ("java", "mcs", "mono") if shutil.which(name) is None]
    missing += [str(path) for path in [JSON / "Newtonsoft.Json.dll"] if not path.exists()]
    assert not missing, f"`bash tests/run long` installs what C# needs: {missing}"
    folder = tmp_path_factory.mktemp("csharp")
    shutil.copy(JSON / "Newtonsoft.Json.dll", folder)
    generator = Path(sys.prefix) / "bin" / "openapi-generator-cli"
    ran(
        generator,
        "generate",
        "-i",
        DOCUMENT,
        "-o",
        folder,
        *options("openapi-generator-cli", "-g csharp"),
        folder=folder,
    )
    library = ["-langversion:latest", "-target:library", f"-recurse:{folder}/src/Shop/*.cs", "-out:Shop.dll"]
    ran("mcs", *library, "-r:Newtonsoft.Json.dll", *ASSEMBLIES, folder=folder)
    return folder


def test_the_lines_of_the_page_ask_the_service(compiled, service_url):
    source = compiled / "Ask.cs"
    source.write_text(lines("csharp", service_url), "utf-8")
    ran("mcs", "-r:Shop.dll", *ASSEMBLIES, source, folder=compiled)
    assert ran("mono", "Ask.exe", folder=compiled).strip() == what_they_say(service_url)

    source.write_text(lines("csharp", service_url).replace("spec.Drill", "spec.Dril"), "utf-8")
    assert "does not contain a definition for `Dril'" in ran(
        "mcs", "-r:Shop.dll", *ASSEMBLIES, source, folder=compiled, fine=False
    )
