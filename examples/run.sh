#!/bin/sh
# SPDX-License-Identifier: MIT
# Runs a day at the depot, from nothing: installs what is missing, builds the library and its Python package, plans
# the orders, judges the crimps and a batch of them, writes the pages. For Debian 12, as root or with sudo.
set -eu
cd "$(dirname "$0")/.."
. tests/packages.sh
install_packages $packages_build $packages_examples

build=build/release
log=build/examples/build.log
page=$PWD/build/examples/day.html
mkdir -p build/examples
echo "Building into $build"
if ! { cmake --preset release -DFERRULE_SQLITE=ON && cmake --build "$build" --parallel 2 --target first; } >"$log" 2>&1; then
    cat "$log" >&2
    exit 1
fi

# Debian's interpreter, which the package was built for.
left=0
PYTHONPATH=$build/python PYTHONDONTWRITEBYTECODE=1 /usr/bin/python3 examples/depot/day.py --page "$page" || left=$?
PYTHONPATH=$build/python PYTHONDONTWRITEBYTECODE=1 /usr/bin/python3 examples/trial_crimps/morning.py
printf '\nA twin crimp on the depot'"'"'s press\n\n'
PYTHONPATH=$build/python PYTHONDONTWRITEBYTECODE=1 /usr/bin/python3 examples/hose_squeeze/hose_squeeze.py
printf '\nDies to buy, and the order of a day\n\n'
PYTHONPATH=$build/python PYTHONDONTWRITEBYTECODE=1 /usr/bin/python3 examples/shop/shop.py --page "${page%day.html}shop.html"
printf '\nHoselines of the day, and their records made again\n\n'
hoselines=0
rm -f "${page%day.html}hoselines.jsonl"
PYTHONPATH=$build/python PYTHONDONTWRITEBYTECODE=1 /usr/bin/python3 examples/hoselines/hoselines.py --page "${page%day.html}hoselines.html" \
    --records "${page%day.html}hoselines.jsonl" || hoselines=$?
[ "$hoselines" -le 1 ] || exit "$hoselines"
PYTHONPATH=$build/python PYTHONDONTWRITEBYTECODE=1 /usr/bin/python3 -m ferrule replay "${page%day.html}hoselines.jsonl"
printf '\nA batch of crimps\n\n'
batch=0
PYTHONPATH=$build/python PYTHONDONTWRITEBYTECODE=1 /usr/bin/python3 examples/quality/quality.py --page "${page%day.html}batch.html" || batch=$?
[ "$batch" -le 1 ] || exit "$batch"
printf '\nThe same batch in a database\n\n'
sh examples/quality/run.sh "$build/sqlite/mod_ferrule"
printf '\nThe same depot in a database\n\n'
sh examples/erp/run.sh "$build/sqlite/mod_ferrule"
[ "$batch" = 0 ] || echo "The batch is not accepted as it is: its exit status is 1. It was meant to be."
case $left in
0) echo "Everything was done." ;;
1) echo "The day's own exit status is 1, since something was left: see NOT DONE above. It was meant to be." ;;
*) exit "$left" ;;
esac
echo "Open them in a browser, or print them: file://$page (A4), file://${page%day.html}cards.html (A5), file://${page%day.html}batch.html (A4), file://${page%day.html}hoselines.html (A4), file://${page%day.html}shop.html"
