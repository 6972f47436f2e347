# Sourced by service/run, service/try and service/quickstart: makes .venv with both distributions and the locked packages,
# unless it is up to date.
# Needs Python 3.11 or later and, on Debian, installs python3-venv when it is missing and it is allowed to.

root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)

find_python() {
    local name
    for name in python3.13 python3.12 python3.11 python3; do
        if command -v "$name" >/dev/null 2>&1 &&
            "$name" -c 'import sys; sys.exit(sys.version_info < (3, 11))' 2>/dev/null; then
            echo "$name"
            return
        fi
    done
    echo "Python 3.11 or later is needed (Debian: apt-get install python3 python3-venv)" >&2
    return 1
}

install_in() { # FOLDER WHAT...
    "$1/bin/pip" install --quiet --disable-pip-version-check "${@:2}"
}

make_venv() { # make_venv FOLDER
    local python
    [ -x "$1/bin/pip" ] && return
    python=$(find_python) || return 1
    if ! "$python" -c 'import ensurepip' 2>/dev/null; then
        if [ "$(id -u)" = 0 ] && command -v apt-get >/dev/null 2>&1; then
            apt-get update -qq && apt-get install -y -qq "$(basename "$(readlink -f "$(command -v "$python")")")-venv" >&2
        else
            echo "the venv module is missing (Debian: apt-get install python3-venv)" >&2
            return 1
        fi
    fi
    rm -rf "$1"
    "$python" -m venv "$1" && install_in "$1" --require-hashes -r "$root/docker/build.lock"
}

make_environment() {
    local venv="$root/.venv" stamp="$root/.venv/installed"
    make_venv "$venv" || return 1
    if [ ! -e "$stamp" ] || [ -n "$(find "$root/service" "$root/client" "$root/pyproject.toml" -newer "$stamp" \
        -type f ! -name '*.pyc' -print -quit)" ]; then
        echo "installing Borewright into .venv ..." >&2
        install_in "$venv" --require-hashes -r "$root/docker/build.lock" -r "$root/docker/run.lock" || return 1
        install_in "$venv" --no-deps --no-build-isolation "$root" "$root/client" || return 1
        touch "$stamp"
    fi
}
