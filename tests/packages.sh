# SPDX-License-Identifier: MIT
# Which Debian packages the project needs, in one place, ring by ring. To be read by a script: . tests/packages.sh
# examples/run.sh installs packages_build and packages_examples; tests/run.sh packages_build and packages_first; tests/run.sh all the others too.
# To add one: put its name on a line of its own, under the first ring that needs it, and say what for.

# ---- unit: C alone ------------------------------------------------------------------------------------------------------
packages_unit='
    cmake
    make
    gcc
    libc6-dev
    pkg-config
    libcmocka-dev
'

# The library, the Python package, the SQL functions for SQLite, the examples.
packages_build="$packages_unit
    swig
    python3
    python3-dev
    libsqlite3-dev
    libjson-c-dev
    sqlite3
"

# What examples/run.sh installs besides: pictures.
packages_examples='
    python3-matplotlib
'

# ---- first: what `sh tests/run.sh` installs besides, on a machine that has nothing -------------------------------------------
# Tests of the Python package with its functions over arrays, and Lua.
packages_first='
    python3-pytest
    python3-hypothesis
    python3-numpy
    lua5.4
    liblua5.4-dev
'

# ---- all ----------------------------------------------------------------------------------------------------------------
# What all tests use: C++ for those who use the headers from there, a second compiler with its sanitizers, checkers of style and code,
# reference libraries, the manual, a browser without a screen.
packages_test='
    git
    g++
    clang
    libclang-rt-14-dev
    llvm-14
    clang-format
    clang-tidy
    cppcheck
    gcovr
    abigail-tools
    binutils
    doxygen
    libjs-mathjax
    python3-build
    python3-pip
    python3-setuptools
    python3-venv
    python3-wheel
    python3-matplotlib
    calculix-ccx
    gappa
    coinor-cbc
    python3-numpy
    python3-scipy
    python3-mpmath
    python3-pint
    python3-uncertainties
    python3-pandas
    python3-dask
    python3-erfa
    python3-hypothesis
    python3-tqdm
    jupyter-nbconvert
    python3-ipykernel
    python3-pytest
    mypy
    chromium
    chromium-driver
    python3-selenium
    poppler-utils
    fonts-dejavu-core
'

# Other machines, for the short form of tests/guard/platforms: musl's C library, 32-bit programs (gcc-multilib would do, but
# Debian's cross compilers cannot stand beside it).
packages_platforms='
    musl-tools
    libc6-dev-i386
    lib32gcc-12-dev
'

# The other languages: interpreter and headers of each, and a leak check.
# Java's compiler is the largest: 116 MB to load, 266 MB installed. C#'s, with what runs it: 25 MB installed.
packages_languages='
    lua5.4
    liblua5.4-dev
    tcl
    tcl-dev
    perl
    libperl-dev
    ruby
    ruby-dev
    default-jdk-headless
    mono-mcs
    mono-runtime
    valgrind
'

# Debian packages of our own, besides the above; the tools take 33 MB, with all the Perl modules that lintian needs. What
# makes a package of an assembly needs Mono's development packages: 46 MB to load, 205 MB installed.
packages_debian='
    doxygen
    dpkg-dev
    debhelper
    dh-python
    cli-common
    cli-common-dev
    lintian
'

# The SQL functions in PostgreSQL: a server, and what Python asks it with. tests/agree/sql/run.sh says where its headers come from.
packages_databases='
    postgresql-15
    python3-psycopg2
    python3-pytest
'

# The fuzzers, without the rest of the tests.
packages_fuzz='
    clang
    libclang-rt-14-dev
    llvm-14
    libpython3-dev
    python3-numpy
    libsqlite3-dev
    libjson-c-dev
'

# Frama-C for tests/release/proof/undefined, of the release ring alone: 862 MB.
packages_proof='
    gcc
    frama-c-base
'

# install_packages NAME...: installs what is not there yet; as another user than root by sudo. Nothing is asked.
install_packages() {
    packages_missing=
    for package in "$@"; do
        case $(dpkg-query -W -f='${Status}' "$package" 2>/dev/null) in
            'install ok installed') ;;
            *) packages_missing="$packages_missing $package" ;;
        esac
    done
    [ -n "$packages_missing" ] || return 0
    packages_as_root=
    if [ "$(id -u)" != 0 ]; then
        if ! command -v sudo >/dev/null; then
            echo "Not installed, and neither root nor sudo to do it:$packages_missing" >&2
            return 1
        fi
        packages_as_root=sudo
    fi
    echo "Installing:$packages_missing"
    $packages_as_root apt-get update -qq &&
        $packages_as_root env DEBIAN_FRONTEND=noninteractive \
            apt-get install -y -qq --no-install-recommends $packages_missing >/dev/null
}
