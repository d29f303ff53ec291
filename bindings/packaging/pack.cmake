# SPDX-License-Identifier: MIT
# `cpack` in the build folder packs what `cmake --install` gives: a .tar.gz, or with -G RPM a package for systems that use
# those. Debian's packages are made by bindings/packaging/debian/build.sh.
set(CPACK_GENERATOR TGZ)
set(CPACK_PACKAGE_VENDOR "ferrule developers")
set(CPACK_PACKAGE_CONTACT "ferrule developers <ferrule@example.invalid>")
set(CPACK_PACKAGE_CHECKSUM SHA256)
set(CPACK_RESOURCE_FILE_LICENSE ${PROJECT_SOURCE_DIR}/LICENSE)
set(CPACK_STRIP_FILES ON)
set(CPACK_RPM_PACKAGE_LICENSE MIT)
set(CPACK_RPM_PACKAGE_DESCRIPTION "Compression, crimp diameter, window, die, dial and judgement for hose couplings that a press crimps.
A computed diameter is a starting point: a trial crimp and a proof test must confirm it.")
set(CPACK_RPM_FILE_NAME RPM-DEFAULT)
include(CPack)
