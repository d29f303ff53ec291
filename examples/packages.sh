# SPDX-License-Identifier: MIT
# Debian packages that the project needs, and how they are installed: the one place for both. Sourced, not run.

# The library, the Python package, the examples.
packages_to_build="cmake ninja-build gcc g++ libc6-dev swig doxygen python3 python3-dev"

# Everything in tests/, on top.
packages_to_test="pkg-config libcmocka-dev clang python3-pytest python3-hypothesis python3-selenium
    chromium chromium-driver poppler-utils"

# Packages of a list that are not installed.
missing_packages() {
    for package in "$@"; do
        case $(dpkg-query -W -f='${db:Status-Status}' "$package" 2>/dev/null) in
        installed) ;;
        *) printf '%s ' "$package" ;;
        esac
    done
}

# Install what is missing of a list; says nothing where nothing is.
install_packages() {
    missing=$(missing_packages "$@")
    [ -n "$missing" ] || return 0
    if [ "$(id -u)" -eq 0 ]; then
        as_root=
    elif command -v sudo >/dev/null; then
        as_root=sudo
    else
        echo "These packages are missing, and only root can install them: $missing" >&2
        return 1
    fi
    echo "Installing: $missing"
    log=$(mktemp)
    if $as_root apt-get update -qq >"$log" 2>&1 &&
        $as_root env DEBIAN_FRONTEND=noninteractive \
            apt-get install -qq -y --no-install-recommends $missing >>"$log" 2>&1; then
        rm -f "$log"
    else
        cat "$log" >&2
        rm -f "$log"
        return 1
    fi
}
