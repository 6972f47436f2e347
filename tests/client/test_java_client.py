"""The ten lines of openapi/README.md in Java: they compile and ask the real service."""

from __future__ import annotations

import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from made_clients import DOCUMENT, lines, options, what_they_say

pytestmark = pytest.mark.long

ANNOTATIONS = Path("/usr/share/java/jakarta-annotation-api.jar")


def ran(*command: object, fine: bool = True) -> str:
    done = subprocess.run([*map(str, command)], capture_output=True, text=True, timeout=600, check=False)
    assert (done.returncode == 0) == fine, done.stdout + done.stderr
    return done.stdout + done.stderr


@pytest.fixture(scope="module")
def libraries() -> str:
    """The class path of what a generated client needs: the generator's own file has all but the annotations."""
    import openapi_generator_cli

    generator = Path(openapi_generator_cli.__file__).parent / "openapi-generator.jar"
    missing = [name for name in ("java", "javac") if shutil.which(name) is None]
    missing += [str(path) for path in (generator, ANNOTATIONS) if not path.exists()]
    assert not missing, f"`bash tests/run long` installs what Java needs: {missing}"
    return f"{generator}:{ANNOTATIONS}"


@pytest.fixture(scope="module")
def compiled(libraries, tmp_path_factory) -> Path:
    """A folder with the compiled client that the generator makes of the committed document."""
    made, classes = tmp_path_factory.mktemp("java"), tmp_path_factory.mktemp("classes")
    generator = Path(sys.prefix) / "bin" / "openapi-generator-cli"
    ran(generator, "generate", "-i", DOCUMENT, "-o", made, *options("openapi-generator-cli", "-g java"))
    sources = sorted((made / "src" / "main" / "java").rglob("*.java"))
    ran("javac", "-nowarn", "-proc:none", "-cp", libraries, "-d", classes, *sources)
    return classes


def test_the_lines_of_the_page_ask_the_service(compiled, libraries, service_url, tmp_path):
    source, path = tmp_path / "Shop.java", f"{compiled}:{libraries}"
    source.write_text(lines("java", service_url), "utf-8")
    ran("javac", "-proc:none", "-cp", path, "-d", tmp_path, source)
    assert ran("java", "-cp", f"{tmp_path}:{path}", "Shop").strip() == what_they_say(service_url)

    source.write_text(lines("java", service_url).replace("getDrill()", "getDril()"), "utf-8")
    assert "cannot find symbol" in ran("javac", "-proc:none", "-cp", path, "-d", tmp_path, source, fine=False)
