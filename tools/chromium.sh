#!/bin/sh
# Chromium for the tests in tests/studio: Debian's own, installed when no browser is there.
set -eu

for name in "${BRAIDWRIGHT_CHROMIUM:-}" chromium chromium-browser google-chrome; do
    [ -n "$name" ] && command -v "$name" >/dev/null 2>&1 && exit 0
done
stop() { printf 'braidwright setup: %s\n' "$*" >&2; exit 2; }
command -v apt-get >/dev/null 2>&1 ||
    stop "no Chromium was found, and there is no apt-get to get it with; install it, or name it in BRAIDWRIGHT_CHROMIUM."
as_root() { if [ "$(id -u)" = 0 ]; then "$@"; else sudo "$@"; fi; }
echo "Installing Chromium for the tests of the screen"
export DEBIAN_FRONTEND=noninteractive
packages="chromium fonts-dejavu-core libgl1-mesa-dri libegl-mesa0"
# shellcheck disable=SC2086  (several packages)
as_root apt-get install -y -qq --no-install-recommends $packages >/dev/null 2>&1 ||
    { as_root apt-get update -qq && as_root apt-get install -y -qq --no-install-recommends $packages >/dev/null; } ||
    stop "apt-get could not install Chromium; install it by hand, then run make test again."
