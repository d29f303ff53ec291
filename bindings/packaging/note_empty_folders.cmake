# SPDX-License-Identifier: MIT
# Runs before anything is installed: writes the folders at the prefix that are empty to install_empty_folders.txt in the
# build folder. A folder that only has such folders in it will never be emptied by uninstalling.
set(place "$ENV{DESTDIR}${CMAKE_INSTALL_PREFIX}")
set(depth)
while(NOT EXISTS "${place}")
    cmake_path(GET place PARENT_PATH place)
    set(depth -maxdepth 0)
endwhile()
execute_process(COMMAND find "${place}" -xdev ${depth} -type d -empty OUTPUT_VARIABLE empty ERROR_QUIET)
file(APPEND "${build}/install_empty_folders.txt" "${empty}")
