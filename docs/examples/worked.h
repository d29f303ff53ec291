/* SPDX-License-Identifier: MIT */
/* The worked joint: invented, not a real product. */
#include <ferrule/ferrule.h>

static const fer_joint worked = {
    .hose = {.inside = {12.7}, .outside = {19.9}},
    .stem = {.outside = {12.95}},
    .ferrule = {.wall = {2.4}, .outside = {25.6}},
};
