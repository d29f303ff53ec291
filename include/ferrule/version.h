/* SPDX-License-Identifier: MIT */
/** @file
 * Version of the library: the one place where it is written.
 */
#ifndef FERRULE_VERSION_H
#define FERRULE_VERSION_H

/** @name Version of these headers
 * Read by the build, too: the shared library, the packages and the manual carry the same number. @{ */
#define FER_VERSION_MAJOR 0 /**< changes where something that worked no longer does */
#define FER_VERSION_MINOR 2 /**< changes where something is added, before 1.0 also as the major number */
#define FER_VERSION_PATCH 0 /**< changes where something is put right */
/** @} */

/** Number in the soname of the shared library: one more where a program built against the version before no longer runs. */
#define FER_VERSION_ABI 1

#endif
