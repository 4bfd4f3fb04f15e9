#!/bin/sh
# Install the Khronos validator beside this file, from its lock. Called by the Makefile, which made .venv before:
# node and npm come from there, so that the machine needs neither.
set -eu
cd "$(dirname "$0")"

stop() { printf 'braidwright setup: %s\n' "$*" >&2; exit 2; }

# A company's own certificates are in the system's store, where node does not look unless it is told to.
export NODE_USE_SYSTEM_CA=1

echo "Installing the validator of 3D models into tools/validator"
../../.venv/bin/npm ci --silent --ignore-scripts --no-audit --no-fund ||
    stop "npm could not install the validator of 3D models, which the tests need. Is this machine connected?" \
        "To see what npm says: cd tools/validator && ../../.venv/bin/npm ci"
