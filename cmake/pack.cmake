# SPDX-License-Identifier: MIT
# `cpack` in the build folder packs what `cmake --install` gives: a .tar.gz, or with -G RPM a package for systems that use
# those. Debian's packages are made by bindings/debian/build.sh.
set(CPACK_GENERATOR TGZ)
set(CPACK_PACKAGE_VENDOR "ferrule developers")
set(CPACK_PACKAGE_CONTACT "ferrule developers <ferrule@example.invalid>")
set(CPACK_PACKAGE_CHECKSUM SHA256)
set(CPACK_RESOURCE_FILE_LICENSE ${PROJECT_SOURCE_DIR}/LICENSE)
set(CPACK_STRIP_FILES ON)
set(CPACK_RPM_PACKAGE_LICENSE MIT)
set(CPACK_RPM_FILE_NAME RPM-DEFAULT)
include(CPack)
