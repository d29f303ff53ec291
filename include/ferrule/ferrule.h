/* SPDX-License-Identifier: MIT */
/** @file
 * The whole library, one header per module, in the order to read them. Each uses only headers above it.
 */
#ifndef FERRULE_FERRULE_H
#define FERRULE_FERRULE_H

#include <ferrule/version.h>

/* Start here: quantities with their units, a joint, and everything for its crimp in one call, fer_plan_setup(). */
#include <ferrule/status.h>
#include <ferrule/quantity.h>
#include <ferrule/text.h>
#include <ferrule/value.h>
#include <ferrule/caution.h>
#include <ferrule/joint.h>
#include <ferrule/compression.h>
#include <ferrule/forming.h>
#include <ferrule/hose.h>
#include <ferrule/lobe.h>
#include <ferrule/uncertainties.h>
#include <ferrule/window.h>
#include <ferrule/die.h>
#include <ferrule/press.h>
#include <ferrule/setup.h>

/* Judge what was measured, correct the dial, find what went wrong. */
#include <ferrule/reading.h>
#include <ferrule/conformity.h>
#include <ferrule/adjust.h>
#include <ferrule/inspection.h>
#include <ferrule/diagnosis.h>
#include <ferrule/release.h>

/* Batches: is the gauge good enough, and what does a sample show? */
#include <ferrule/gauge.h>
#include <ferrule/chart.h>
#include <ferrule/capability.h>
#include <ferrule/sampling.h>
#include <ferrule/batch.h>

/* The shop: which dies to own; the assembly as a whole. */
#include <ferrule/rack.h>
#include <ferrule/schedule.h>
#include <ferrule/hoseline.h>

/* Simulate what has no closed formula. */
#include <ferrule/chance.h>

/* Many rows at once. */
#include <ferrule/bulk.h>

#endif
