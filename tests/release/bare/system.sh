# SPDX-License-Identifier: MIT
# Bare Debian systems to try things in. To be read by a script: . tests/release/bare/system.sh
# Everything that is mounted belongs to the caller's own mount namespace: it starts itself anew by `unshare --mount`.

# own_mounts "$0" "$@": the script again, as root (by sudo) in a mount namespace of its own; comes back in there. It comes
# back without one where that is forbidden: then nothing can be mounted, and the caller leaves out what needs it.
own_mounts() {
    [ -z "${OWN_MOUNTS:-}" ] || return 0
    own_root=
    [ "$(id -u)" = 0 ] || own_root=sudo
    if $own_root unshare --mount --propagation private true; then
        exec $own_root env OWN_MOUNTS=yes unshare --mount --propagation private sh "$@"
    fi
}

# bare_system FOLDER: lays a minimal Debian 12 with git into FOLDER. It is made once with debootstrap from the mirror that
# this system uses itself, and kept in build/bare/system.tar.
bare_system() {
    [ "${OWN_MOUNTS:-}" ] || {
        echo "A system of its own needs the right to mount." >&2
        return 1
    }
    bare_kept=build/bare/system.tar
    mkdir -p build/bare "$1"
    if [ ! -s "$bare_kept" ]; then
        bare_new=$(mktemp -d "$PWD/build/bare/new.XXXXXX")
        bare_mirror=$(cat /etc/apt/sources.list.d/* /etc/apt/sources.list 2>/dev/null |
            awk '($1 == "URIs:" || $1 == "deb") && $2 ~ /\/debian\/?$/ {print $2; exit}')
        debootstrap --variant=minbase --include=ca-certificates,git bookworm "$bare_new" "$bare_mirror" \
            >build/bare/debootstrap.txt 2>&1 || return 1
        # Sources, their keys and the way to them are this system's own.
        rm -f "$bare_new/etc/apt/sources.list"
        cp -a /etc/apt/sources.list.d /etc/apt/apt.conf.d "$bare_new/etc/apt/"
        [ ! -e /etc/apt/sources.list ] || cp -a /etc/apt/sources.list "$bare_new/etc/apt/"
        rm -f "$bare_new"/etc/apt/apt.conf.d/docker-* "$bare_new"/etc/apt/apt.conf.d/20packagekit \
            "$bare_new"/etc/apt/apt.conf.d/50appstream
        tar -C "$bare_new" -cf "$bare_kept.part" . && mv "$bare_kept.part" "$bare_kept"
        rm -rf --one-file-system "$bare_new"
    fi
    tar -C "$1" -xf "$bare_kept"
    # Other users than root look into it, too.
    chmod 755 "$1"
    cp /etc/resolv.conf /etc/hosts "$1/etc/"
    # Packages of servers start none: it would outlive the trial.
    printf '#!/bin/sh\nexit 101\n' >"$1/usr/sbin/policy-rc.d"
    chmod +x "$1/usr/sbin/policy-rc.d"
}

# enter FOLDER: what a program expects to find mounted.
enter() {
    mount --bind /dev "$1/dev" && mount -t proc proc "$1/proc" 2>/dev/null || mount --bind /proc "$1/proc"
}

# layer FOLDER LOWER: mounts a copy of the system LOWER at FOLDER/system; what is changed there lands in FOLDER/changed.
# Fails where this kind of mount is forbidden.
layer() {
    [ "${OWN_MOUNTS:-}" ] || return 1
    mkdir -p "$1"
    mount -t tmpfs none "$1" && mkdir "$1/system" "$1/changed" "$1/work" &&
        mount -t overlay overlay -o "lowerdir=$2,upperdir=$1/changed,workdir=$1/work" "$1/system"
}

# inside FOLDER COMMAND...: runs a command in the system there, without this system's environment.
inside() {
    inside_root=$1
    shift
    env -i PATH=/usr/local/sbin:/usr/local/bin:/usr/sbin:/usr/bin:/sbin:/bin HOME=/root LANG=C.UTF-8 \
        DEBIAN_FRONTEND=noninteractive chroot "$inside_root" "$@" </dev/null
}

# changes FOLDER LOWER: what a layer added to the system below, or took from it, but for what a package manager writes down.
changes() {
    (cd "$1/changed" && find . -mindepth 1) | sed 's/^\.//' | sort | while read -r changes_name; do
        case $changes_name in /var/log/* | /var/cache/* | /var/lib/dpkg/* | /var/lib/apt/* | /tmp/* | /root/*) continue ;; esac
        if [ -c "$1/changed$changes_name" ]; then
            echo "taken: $changes_name"
        elif [ ! -e "$2$changes_name" ] && [ ! -L "$2$changes_name" ]; then
            echo "added: $changes_name"
        fi
    done
}
