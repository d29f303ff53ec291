/* SPDX-License-Identifier: MIT */
/** @file
 * The whole library: one header a room.
 */
#ifndef FERRULE_FERRULE_H
#define FERRULE_FERRULE_H

#include <ferrule/version.h>

#include <ferrule/status.h>
#include <ferrule/quantity.h>
#include <ferrule/text.h>
#include <ferrule/joint.h>
#include <ferrule/compression.h>
#include <ferrule/forming.h>
#include <ferrule/lobe.h>
#include <ferrule/spread.h>
#include <ferrule/window.h>
#include <ferrule/die.h>
#include <ferrule/press.h>
#include <ferrule/caution.h>
#include <ferrule/setup.h>
#include <ferrule/chance.h>
#include <ferrule/reading.h>
#include <ferrule/conformity.h>
#include <ferrule/inspection.h>
#include <ferrule/adjust.h>
#include <ferrule/diagnosis.h>
#include <ferrule/bulk.h>

#endif
