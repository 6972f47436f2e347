# Sourced by service/run, service/try and service/quickstart: makes .venv with both distributions and the locked packages,
# unless it is up to date.
# Needs Python 3.11 or later and, on Debian, installs python3-venv when it is missing and it is allowed to.

root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)

step() { # step N/M WHAT: says what comes now
    echo "$1 $2 ..." >&2
}

quietly() { # COMMAND...: what it says is shown only where it fails
    local said
    said=$("$@" 2>&1) || { echo "$said" >&2; return 1; }
}

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
    quietly "$1/bin/pip" install --quiet --disable-pip-version-check "${@:2}"
}

install_of_debian() { # PACKAGE...
    quietly apt-get update -qq || true
    DEBIAN_FRONTEND=noninteractive quietly apt-get install -y -qq --no-install-recommends "$@"
}

make_venv() { # make_venv FOLDER
    local python
    [ -x "$1/bin/pip" ] && return
    python=$(find_python) || return 1
    if ! "$python" -c 'import ensurepip' 2>/dev/null; then
        if [ "$(id -u)" = 0 ] && command -v apt-get >/dev/null 2>&1; then
            install_of_debian "$(basename "$(readlink -f "$(command -v "$python")")")-venv" || return 1
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
    [ -x "$venv/bin/pip" ] || step 1/3 "Python and its environment, .venv"
    make_venv "$venv" || return 1
    if [ ! -e "$stamp" ] || [ -n "$(find "$root/service" "$root/client" "$root/pyproject.toml" -newer "$stamp" \
        -type f ! -name '*.pyc' -print -quit)" ]; then
        step 2/3 "what Borewright needs"
        install_in "$venv" --require-hashes -r "$root/docker/build.lock" -r "$root/docker/run.lock" || return 1
        step 3/3 "Borewright"
        install_in "$venv" --no-deps --no-build-isolation "$root" "$root/client" || return 1
        touch "$stamp"
    fi
}
