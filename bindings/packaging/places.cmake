# SPDX-License-Identifier: MIT
# Where things are installed, and how they are removed again. Read before anything is to be installed.

# ferrule_interpreter_folder(VARIABLE COMMAND...): where an interpreter looks for packages, relative to the prefix. The
# command prints the folder of the system's packages and that of local ones; the prefix /usr/local takes the second.
function(ferrule_interpreter_folder variable)
    execute_process(COMMAND ${ARGN} OUTPUT_VARIABLE folders OUTPUT_STRIP_TRAILING_WHITESPACE COMMAND_ERROR_IS_FATAL ANY)
    separate_arguments(folders)
    list(GET folders 0 folder)
    if(CMAKE_INSTALL_PREFIX STREQUAL "/usr/local")
        list(GET folders 1 folder)
    endif()
    string(REGEX REPLACE "^/usr/(local/)?" "" folder "${folder}")
    set(${variable} ${folder} PARENT_SCOPE)
endfunction()

# Installing first notes which folders are empty: the target uninstall leaves those alone.
if(PROJECT_IS_TOP_LEVEL)
    install(CODE "
        set(build \"${PROJECT_BINARY_DIR}\")
        include(\"${CMAKE_CURRENT_LIST_DIR}/note_empty_folders.cmake\")"
        ALL_COMPONENTS)
    add_custom_target(uninstall
        COMMAND ${CMAKE_COMMAND} -D build=${PROJECT_BINARY_DIR} -P ${CMAKE_CURRENT_LIST_DIR}/uninstall.cmake VERBATIM)
endif()
