# SPDX-License-Identifier: MIT
# What `cmake --install` gives: headers and what they say as data, both libraries, a CMake package and a pkg-config file. Both files find
# everything relative to themselves, so that an installed folder can be moved.
include(CMakePackageConfigHelpers)
set(package_folder ${CMAKE_INSTALL_LIBDIR}/cmake/ferrule)

install(TARGETS ${FERRULE_LIBRARIES} EXPORT ferrule-targets
        LIBRARY DESTINATION ${CMAKE_INSTALL_LIBDIR}
        ARCHIVE DESTINATION ${CMAKE_INSTALL_LIBDIR}
        RUNTIME DESTINATION ${CMAKE_INSTALL_BINDIR})
install(DIRECTORY ${PROJECT_SOURCE_DIR}/include/ferrule DESTINATION ${CMAKE_INSTALL_INCLUDEDIR}
        FILES_MATCHING PATTERN "*.h")
# What stands in the headers, for programs that write forms or bindings.
install(FILES ${PROJECT_SOURCE_DIR}/bindings/api/api.json DESTINATION ${CMAKE_INSTALL_DATADIR}/ferrule)
install(EXPORT ferrule-targets NAMESPACE ferrule:: DESTINATION ${package_folder})

# Before 1.0 a minor version may break what the one before promised; see docs/dev/releases.md.
if(PROJECT_VERSION_MAJOR EQUAL 0)
    set(compatibility SameMinorVersion)
else()
    set(compatibility SameMajorVersion)
endif()
configure_package_config_file(${CMAKE_CURRENT_LIST_DIR}/ferrule-config.cmake.in
                              ${PROJECT_BINARY_DIR}/ferrule-config.cmake
                              INSTALL_DESTINATION ${package_folder})
write_basic_package_version_file(${PROJECT_BINARY_DIR}/ferrule-config-version.cmake COMPATIBILITY ${compatibility})
install(FILES ${PROJECT_BINARY_DIR}/ferrule-config.cmake ${PROJECT_BINARY_DIR}/ferrule-config-version.cmake
        DESTINATION ${package_folder})

file(RELATIVE_PATH pc_prefix ${CMAKE_INSTALL_FULL_LIBDIR}/pkgconfig ${CMAKE_INSTALL_PREFIX})
string(REGEX REPLACE "/$" "" pc_prefix ${pc_prefix})
file(RELATIVE_PATH pc_includedir ${CMAKE_INSTALL_PREFIX} ${CMAKE_INSTALL_FULL_INCLUDEDIR})
file(RELATIVE_PATH pc_libdir ${CMAKE_INSTALL_PREFIX} ${CMAKE_INSTALL_FULL_LIBDIR})
configure_file(${CMAKE_CURRENT_LIST_DIR}/ferrule.pc.in ${PROJECT_BINARY_DIR}/ferrule.pc @ONLY)
install(FILES ${PROJECT_BINARY_DIR}/ferrule.pc DESTINATION ${CMAKE_INSTALL_LIBDIR}/pkgconfig)

# Beside them: licence, what changed, what is promised, and a bill of materials where there is a Python to write it.
install(FILES ${PROJECT_SOURCE_DIR}/LICENSE ${PROJECT_SOURCE_DIR}/docs/CHANGELOG.md ${PROJECT_SOURCE_DIR}/docs/SECURITY.md
        DESTINATION ${CMAKE_INSTALL_DOCDIR})
find_package(Python3 QUIET COMPONENTS Interpreter)
if(Python3_Interpreter_FOUND AND PROJECT_IS_TOP_LEVEL)
    add_custom_target(ferrule_bill ALL COMMAND Python3::Interpreter ${CMAKE_CURRENT_LIST_DIR}/sbom.py
                      ${PROJECT_BINARY_DIR}/ferrule.spdx.json BYPRODUCTS ${PROJECT_BINARY_DIR}/ferrule.spdx.json VERBATIM)
    install(FILES ${PROJECT_BINARY_DIR}/ferrule.spdx.json DESTINATION ${CMAKE_INSTALL_DOCDIR} OPTIONAL)
endif()
