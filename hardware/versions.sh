# The versions of headsweep under /opt: how one is named, made, tried and taken away.
# Sourced by hardware/install, never run; it sets what is used here.
# shellcheck shell=sh disable=SC2154

# A version's folder bears its number and a digest of all it is made of, its Python among it.
name_version() {
    version=$(sed -n 's/^version = "\(.*\)"$/\1/p' "$here/pyproject.toml")
    made_of=$(print_of_goods)
    name=$version-$(printf '%s' "$made_of" | sha256sum | cut -c 1-8)
}

print_of_goods() {
    [ -z "$python" ] || "$python" -c 'import sys; print(sys.version_info[:2], sys.prefix)'
    # shellcheck disable=SC2086 # several of them
    fingerprint $goods
}

in_use() {
    readlink "$opt/current" || true
}

# --- made

build() {
    [ ! -e "$opt/$name/headsweep.stamp" ] || return 0
    step "install the program into /opt/headsweep/$name (a minute or two)" make_version
}

make_version() {
    rm -rf "${opt:?}/$name"
    make_venv "$opt/$name"
    export TMPDIR="$scratch" PIP_NO_CACHE_DIR=1
    offline
    install_locked "$opt/$name" run || fail "the installation failed; the messages are above." \
        "Is the network up? Nothing was put in use: run this again."
    share=$opt/$name/share/headsweep
    mkdir -p "$share/examples"
    cp -R "$here/hardware/systemd" "$here/hardware/udev" "$share"
    (cd "$here/config" &&
        find . -name '*.toml' ! -name 'practice*' -exec cp --parents {} "$share/examples" \;)
    [ "$(print_of_goods)" = "$made_of" ] || {
        rm -rf "${opt:?}/$name"
        fail "$here was changed meanwhile. Nothing was put in use: run this again."
    }
    # The stamp is written last, and after all else is on the disk: without it this is half made.
    sync -f "$opt/$name"
    : >"$opt/$name/headsweep.stamp"
    sync -f "$opt/$name"
}

make_venv() {
    if can_make_venv; then
        quietly "$python" -m venv "$1" || fail "could not make $1"
        return
    fi
    # Without the package python3-venv pip comes from the folder as well.
    pip=$(find "$wheels" -name 'pip-*.whl' | head -n 1)
    [ -n "$pip" ] || fail "this computer lacks python3-venv, and $wheels holds no pip"
    quietly "$python" -m venv --without-pip "$1" || fail "could not make $1"
    quietly "$1/bin/python" "$pip/pip" install --no-index --quiet "$pip" || fail "could not make $1"
}

# pip looks into the folder of wheels alone, by a name without blanks.
offline() {
    [ -n "$wheels" ] || return 0
    ln -sfn "$wheels" "$scratch/wheels"
    export PIP_NO_INDEX=1 PIP_FIND_LINKS="$scratch/wheels"
}

# Every package for Debian 12 and 13, on a 64-bit Arm computer and on this one; pip with them.
gather() {
    need_python
    mkdir -p "$1"
    quietly "$python" -m venv "$scratch/venv" || fail "could not make a virtual environment"
    say "fetching packages into $1"
    quietly "$scratch/venv/bin/python" "$here/hardware/lock.py" --gather "$1" "$(uname -m)" ||
        fail "they could not be fetched; the messages are above. Is the network up?"
    say "Carry that folder and this project to the other computer, and there:" \
        "sudo sh hardware/install --wheels FOLDER"
}

# --- tried

as_user() {
    runuser -u "$user" -- env -u TMPDIR "$@"
}

# Whether a version can read a record, to its last row.
reads() { # version, folder
    as_user "$opt/$1/bin/headsweep" records --data "$2" >"$log"
}

# Before another version is let near the record it reads a copy of it; the copy is kept.
try_on_a_copy() {
    before=$(in_use)
    if [ -z "$before" ] || [ "$before" = "$name" ] || [ ! -e "$top$data/ledger.db" ]; then
        return 0
    fi
    step "copy the record to $data/before-upgrade, and have the new version read it" copy_and_read
}

copy_and_read() {
    copy=$top$data/before-upgrade
    rm -rf "$copy.new"
    goes_on="why is said above. $before goes on, nothing was changed."
    as_user "$opt/$before/bin/headsweep" ledger backup --data "$top$data" --to "$copy.new" \
        >"$log" || fail "the record could not be copied; $goes_on"
    began=$(uptime_s)
    reads "$name" "$copy.new" || fail "$name cannot read the record; $goes_on"
    # Of a new version every row is read as it starts: a long record, on a slow computer, takes long.
    given_s=$((given_s + 3 * ($(uptime_s) - began)))
    rm -rf "$copy"
    mv -T "$copy.new" "$copy"
}

# What each gauge was learned from is decoded by the new version; where a number differs it is said,
# and what then is to be done is a person's to decide.
try_on_gauges() {
    if [ "$(in_use)" = "$name" ] ||
        [ -z "$(find "$etc/headsweep/gauges" -name '*.cap' 2>/dev/null | head -n 1)" ]; then
        return 0
    fi
    step "decode again what gauges were learned from" decode_again
}

decode_again() {
    as_user "$opt/$name/bin/headsweep" gauge test --config "$etc/headsweep" >"$log" 2>&1 ||
        say "LOOK HERE before anything is measured: $(cat "$log")"
}

# --- taken away

# The one in use and the one before stay.
clear_away() {
    for each in "$opt"/*/; do
        each=$(basename "$each")
        case $each in
        current | previous | "$(in_use)" | "$(readlink "$opt/previous" || true)") ;;
        *) step "remove /opt/headsweep/$each" rm -rf "${opt:?}/$each" ;;
        esac
    done
}
