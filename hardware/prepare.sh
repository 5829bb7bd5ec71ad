# What hardware/run, hardware/install and tests/run need of the machine: a Python new enough,
# packages of the distribution, and commands that stay quiet until they fail.
# Sourced, never run. The caller sets `here` to the root of the checkout, and `log` to a file.
# shellcheck shell=sh disable=SC2154

say() {
    printf 'headsweep: %s\n' "$*"
}

fail() {
    printf 'headsweep: %s\n' "$*" >&2
    exit 1
}

# Runs a command with its output kept in $log; shows the output only if it fails.
quietly() {
    "$@" >"$log" 2>&1 || {
        status=$?
        cat "$log" >&2
        return "$status"
    }
}

# One number for all that stands in these files and folders of the checkout.
fingerprint() {
    (cd "$here" && find "$@" -type f ! -path '*/__pycache__/*' -exec cksum {} + |
        LC_ALL=C sort | cksum)
}

new_enough() {
    "$1" -c 'import sys; sys.exit(sys.version_info < (3, 11))' 2>/dev/null
}

# Puts the first Python 3.11 or newer into `python`; leaves it empty if there is none.
find_python() {
    python=
    for candidate in python3 python3.14 python3.13 python3.12 python3.11; do
        if command -v "$candidate" >/dev/null 2>&1 && new_enough "$candidate"; then
            python=$(command -v "$candidate")
            return
        fi
    done
}

can_make_venv() {
    # Debian ships `venv` in python3 itself and what it needs in python3-venv.
    [ -n "$python" ] && "$python" -c 'import ensurepip, venv' 2>/dev/null
}

as_root() {
    if [ "$(id -u)" -eq 0 ]; then
        "$@"
    else
        sudo "$@"
    fi
}

# Root, or a sudo that asks nothing, or a person at the terminal whom sudo can ask.
may_install() {
    command -v apt-get >/dev/null 2>&1 || return 1
    [ "$(id -u)" -eq 0 ] && return
    command -v sudo >/dev/null 2>&1 || return 1
    sudo -n true 2>/dev/null || { [ -t 0 ] && sudo -v; }
}

# A first start-up may still be updating itself: wait for its lock rather than fail.
apt_get() {
    quietly as_root env DEBIAN_FRONTEND=noninteractive \
        apt-get -o DPkg::Lock::Timeout=300 "$@" </dev/null
}

# Installs the distribution's packages named, or says what root has to type and exits 1.
install_packages() {
    line="apt-get update && apt-get install -y --no-install-recommends $*"
    may_install || fail "this machine lacks: $*. As root, run: $line"
    say "installing from the distribution: $*"
    { apt_get update && apt_get install -y --no-install-recommends "$@"; } ||
        fail "could not install $*. The messages are above; as root, try: $line"
}

# Installs the checkout into the environment $1 with what hardware/locked/$2.txt names and nothing
# else, each file of the hash that stands there; further arguments are pip's.
install_locked() {
    into=$1/bin/python
    wants=$here/hardware/locked/$2.txt
    shift 2
    quietly "$into" -m pip install --disable-pip-version-check --quiet \
        --require-hashes -r "$wants" &&
        quietly "$into" -m pip install --disable-pip-version-check --quiet \
            --no-deps --no-build-isolation "$@" "$here"
}

# Exits 1 where there is a Python, and none that is new enough.
refuse_old_python() {
    if [ -z "$python" ] && command -v python3 >/dev/null 2>&1; then
        fail "found $(python3 --version 2>&1) at $(command -v python3); Python 3.11 or newer" \
            "is needed (Debian 12, Raspberry Pi OS 12 or newer have it)."
    fi
}

# Leaves in `python` a Python that can make virtual environments, or exits 1.
need_python() {
    find_python
    refuse_old_python
    if ! can_make_venv; then
        install_packages python3-venv
        find_python
        can_make_venv || fail "${python:-python3} still cannot make a virtual environment:" \
            "its modules venv and ensurepip are missing. Put the distribution's python3 first in PATH."
    fi
}
