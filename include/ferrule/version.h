/* SPDX-License-Identifier: MIT */
/** @file
 * Version of the library: the one place where it is written.
 */
#ifndef FERRULE_VERSION_H
#define FERRULE_VERSION_H

/** @name Version of these headers
 * Read by the build, too: the shared library, the packages and the manual carry the same number. @{ */
#define FER_VERSION_MAJOR 0
#define FER_VERSION_MINOR 1
#define FER_VERSION_PATCH 0
/** @} */

#endif
