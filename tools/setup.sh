#!/bin/sh
# Make .venv and install one lock into it. Called by the Makefile: tools/setup.sh LOCK
#
# It has to work where only python3.11, git and make were installed by hand. On Debian that python has no
# ensurepip, so no venv of its own can get pip: the package python3-venv brings it.
set -eu

lock=$1
venv=.venv

say() { printf '%s\n' "$*"; }
stop() { printf 'braidwright setup: %s\n' "$*" >&2; exit 2; }

new_enough() { "$1" -c 'import sys; sys.exit(sys.version_info < (3, 11))' >/dev/null 2>&1; }

find_python() {
    for candidate in ${PYTHON:-python3.11 python3.12 python3.13 python3.14 python3}; do
        if new_enough "$candidate"; then
            command -v "$candidate"
            return
        fi
    done
    stop "no Python 3.11 or later was found${PYTHON:+ under the name $PYTHON}." \
        "Install it (on Debian: apt-get install python3), or say where it is: make PYTHON=/path/to/python3.11 ..."
}

as_root() {
    if [ "$(id -u)" = 0 ]; then
        "$@"
    else
        sudo "$@"
    fi
}

# The package named after the interpreter's own version first: python3-venv follows Debian's default python.
install_ensurepip() {
    python=$1
    version=$("$python" -c 'import sys; print("%d.%d" % sys.version_info[:2])')
    advice="Install the package python$version-venv (or python3-venv) by hand, then run make again."
    command -v apt-get >/dev/null 2>&1 || stop "$python cannot make a virtual environment (it has no ensurepip)," \
        "and there is no apt-get here to get it with. Install your system's venv package for Python $version, then run make again."
    [ "$(id -u)" = 0 ] || command -v sudo >/dev/null 2>&1 || stop \
        "$python cannot make a virtual environment (it has no ensurepip), and installing it needs root or sudo. $advice"
    say "This Python has no ensurepip; installing python$version-venv with apt-get."
    export DEBIAN_FRONTEND=noninteractive
    as_root apt-get install -y -q --no-install-recommends "python$version-venv" ||
        { as_root apt-get update -q &&
            as_root apt-get install -y -q --no-install-recommends "python$version-venv"; } ||
        { as_root apt-get install -y -q --no-install-recommends python3-venv; } ||
        stop "apt-get could not install python$version-venv (its words are above). $advice"
    has_ensurepip "$python" || stop "$python still has no ensurepip after installing python$version-venv." \
        "Say which Python to use: make PYTHON=/usr/bin/python3 ..."
}

has_ensurepip() { "$1" -c 'import ensurepip, venv' >/dev/null 2>&1; }

# A venv that was moved or half made has no working pip; it is made again from nothing.
if ! "$venv/bin/python" -m pip --version >/dev/null 2>&1; then
    python=$(find_python)
    has_ensurepip "$python" || install_ensurepip "$python"
    say "Making $venv with $python"
    "$python" -m venv --clear "$venv" || stop "$python could not make $venv (its words are above)."
fi

say "Installing $lock into $venv (about a minute the first time)"
"$venv/bin/python" -m pip install --quiet --disable-pip-version-check --require-hashes -r "$lock" ||
    stop "pip could not install $lock (its words are above). Is this machine connected?"
"$venv/bin/python" -m pip install --quiet --disable-pip-version-check --no-build-isolation --no-deps --editable . ||
    stop "pip could not install Braidwright itself (its words are above)."
