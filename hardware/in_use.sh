# How a version is put in use and gone back from: the link, the units, the start, a look at it.
# Sourced by hardware/install, never run; it sets what is used here.
# shellcheck shell=sh disable=SC2154

# Asks whether the service is well: no answer, or one of another status than 200, is no.
ask='import sys, urllib.request as web
web.build_opener(web.ProxyHandler({})).open(sys.argv[1], timeout=2)'
given_s=60 # to become well in

# Whichever version $1 is, a cut leaves the link as it was or as it is to be.
point() { # link, version
    ln -sfn "$2" "$opt/.$1"
    mv -T "$opt/.$1" "$opt/$1"
    sync -f "$opt"
}

put_in_use() {
    changed=
    before=$(in_use)
    if [ "$before" != "$name" ]; then
        changed=yes
        if [ -n "$before" ]; then step "stop headsweep $before" change_from "$before"; fi
        step "put headsweep $name in use" point current "$name"
    fi
    of=$opt/$name/share/headsweep
    if [ -n "$dry" ]; then of=$here/hardware; fi
    place
    come_up
    has_systemd || return 0
    run_it || come_back
    if [ -n "$dry" ]; then return; fi
    [ -e "$opt/$name/headsweep.proven" ] || : >"$opt/$name/headsweep.proven"
    with_it
    clear_away
}

change_from() {
    ctl stop headsweep.service
    point previous "$1"
}

ctl() {
    ! has_systemd || quietly systemctl "$@"
}

is_unit() {
    case $1 in *.service | *.timer | *.path | *.socket | *.target | *.mount) ;; *) return 1 ;; esac
}

# Every unit, rule and drop-in of the version whose share is $of, and none of another's.
place() {
    for file in "$of"/systemd/*.*; do
        if is_unit "$file"; then put "$file" /etc/systemd/system; fi
    done
    for file in "$of"/systemd/journald/*.conf; do put "$file" /etc/systemd/journald.conf.d; done
    for file in "$of"/udev/*.rules; do put "$file" /etc/udev/rules.d; done
    for unit in "$etc"/systemd/system/headsweep*.*; do
        if [ -f "$unit" ] && [ ! -e "$of/systemd/$(basename "$unit")" ]; then
            changed=yes
            step "stop and remove $(basename "$unit")" drop_unit "$unit"
        fi
    done
    [ -z "$changed" ] || also reload
}

put() { # file, folder
    to=$2/$(basename "$1")
    if [ ! -e "$1" ] || cmp -s "$1" "$top$to"; then return 0; fi
    changed=yes
    step "write $to" put_file "$1" "$top$to"
}

put_file() {
    mkdir -p "$(dirname "$2")"
    cp "$1" "$2.part"
    mv -T "$2.part" "$2"
}

drop_unit() {
    if command -v systemctl >/dev/null 2>&1; then
        if has_systemd; then quietly systemctl stop "$(basename "$1")" || true; fi
        quietly systemctl disable "$(basename "$1")" || true
    fi
    rm -f "$1"
}

reload() {
    has_systemd || return 0
    quietly systemctl daemon-reload
    quietly systemctl try-restart systemd-journald.service || true
    if command -v udevadm >/dev/null 2>&1; then
        for job in "control --reload" "trigger --action=add --subsystem-match=usb-serial" \
            "trigger --action=change --subsystem-match=tty --subsystem-match=gpio"; do
            # shellcheck disable=SC2086 # a word each
            udevadm $job >/dev/null 2>&1 || true
        done
    fi
}

# Each unit that can be enabled comes up with the computer; one that is masked stays so, and the
# wall's does only where it is wanted.
enabled() {
    for file in "$of"/systemd/*.*; do
        unit=$(basename "$file")
        if ! is_unit "$unit" || ! grep -q '^\[Install\]' "$file"; then continue; fi
        if [ "$unit" = headsweep-wall.service ] && ! wants_wall; then continue; fi
        echo "$unit"
    done
}

come_up() {
    command -v systemctl >/dev/null 2>&1 || return 0
    if [ "$wall" = --no-wall ] &&
        systemctl is-enabled --quiet headsweep-wall.service 2>/dev/null; then
        step "leave this computer's screen alone" ctl disable --now headsweep-wall.service
    fi
    for unit in $(enabled); do
        case $(systemctl is-enabled "$unit" 2>/dev/null || true) in
        enabled | masked) ;;
        *) step "start $unit with the computer" quietly systemctl enable "$unit" ;;
        esac
    done
}

run_it() {
    if [ -z "$changed" ] && systemctl is-active --quiet headsweep.service; then
        healthy
        return
    fi
    step "start headsweep, and wait until it is well" start
}

start() {
    ctl restart --no-block headsweep.service && healthy
}

# Three looks in a row are to find one and the same process well, before the time given is over.
healthy() {
    until_s=$(($(uptime_s) + given_s)) well=0 one=
    while [ "$well" -lt 3 ]; do
        [ "$(uptime_s)" -lt "$until_s" ] || return 1
        sleep 1
        pid=$(systemctl show --property MainPID --value headsweep.service)
        if [ "$pid" = "$one" ] && [ "$pid" != 0 ] && asked; then
            well=$((well + 1))
        else
            well=0 one=$pid
        fi
    done
}

uptime_s() {
    cut -d . -f 1 /proc/uptime
}

listening() {
    at=$(sed -n 's/^HEADSWEEP_LISTEN=//p' "$options" 2>/dev/null | tail -n 1 | tr -d "\"'")
    echo "${at:-0.0.0.0:8642}"
}

listen_port() {
    at=$(listening)
    echo "${at##*:}"
}

asked() {
    at=$(listening)
    host=${at%:*}
    case $host in 0.0.0.0 | '[::]' | '') host=127.0.0.1 ;; esac
    "$opt/current/bin/python" -c "$ask" "http://$host:${at##*:}/healthz" >"$log" 2>&1
}

# The other units, of the version that is in use now.
with_it() {
    for unit in $(enabled); do
        [ "$unit" != headsweep.service ] || continue
        ctl "${changed:+re}start" --no-block "$unit" || true
    done
}

# --- gone back from

come_back() {
    journalctl --unit headsweep.service --lines 20 --no-pager >&2 2>/dev/null || true
    old=$(readlink "$opt/previous" || true)
    if [ -e "$opt/$name/headsweep.proven" ] || [ -z "$old" ] || [ "$old" = "$name" ]; then
        fail "headsweep $name is not well after $given_s s; its last words are above, all of" \
            "them in: journalctl -u headsweep. It goes on trying. Once that is mended, run this again."
    fi
    say "headsweep $name is not well after $given_s s: going back to $old"
    quietly systemctl stop headsweep.service || true
    point current "$old"
    of=$opt/$old/share/headsweep changed=yes
    place
    come_up
    # What the newer one wrote meanwhile may be more than the older one can read.
    [ ! -e "$top$data/ledger.db" ] || reads "$old" "$top$data" || {
        ctl start --no-block headsweep.service # its pages say why there is no record
        at_a_loss "cannot read what $name wrote into the record; why is said above."
    }
    start || at_a_loss "is not well, either: journalctl -u headsweep says why."
    with_it
    fail "headsweep $old runs as before, with all that is on record. What $name said is above," \
        "and in: journalctl -u headsweep"
}

at_a_loss() {
    fail "headsweep $old $1 Nothing that is on record was lost or altered. Install a version that" \
        "is well, or go on with the record as it was before this: $data/before-upgrade; README" \
        "tells how."
}
