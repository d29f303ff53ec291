# SPDX-License-Identifier: MIT
"""Breaks each formula of the library once and looks whether a test fails.

    python3 tests/guard/breakage/break_formulas.py [MODULE...]
    python3 tests/guard/breakage/break_formulas.py --list      only looks whether each text still stands in its file once

Copies the sources into a folder of its own, applies one change at a time (a sign, a factor, two inputs swapped, a
check dropped), builds the C tests and runs those of the module and the shared tables. Prints a line for each change and
exits with 1 if one of them passed unnoticed. The tree itself is never touched.

A list by choice: the errors that somebody who writes a formula makes. A new function needs no line here; mutate.py changes every
file by rule.
"""
import pathlib
import shutil
import subprocess
import sys
import tempfile

ROOT = pathlib.Path(__file__).resolve().parents[3]

# module, what is broken, text that stands exactly once in MODULE.c of lib (or in the file named: of lib, or include/...), what it
# becomes
CHANGES = [
    ("joint", "fitted outside: stem not added", "fer_pair_product(stem, stem)", "fer_pair_product(stem, 0.0)",
     "crimp/joint_private.h"),
    ("joint", "hose inside above outside goes through", "fer_unless(wall > 0.0,", "fer_unless(wall > -1e9,"),
    ("joint", "stem bore not compared with the stem", "stem->bore.mm < stem->outside.mm", "stem->bore.mm < 1e9"),
    ("compression", "plain: one wall instead of two", "metal = 2.0 * wall;", "metal = 1.0 * wall;",
     "crimp/compression_private.h"),
    ("compression", "plain: 1 + c", "fer_pair_quick_difference(1.0, compression)", "fer_pair_quick_difference(1.0, -compression)", "crimp/compression_private.h"),
    ("compression", "plain: inside and outside swapped", "fer_pair_quick_difference(outside, inside)",
     "fer_pair_quick_difference(inside, outside)", "crimp/compression_private.h"),
    ("compression", "ends fixed: 4 becomes 2", "4.0);", "2.0);"),
    ("compression", "free: (1 - 2l)/(2 - l) becomes (1 - l)/(2 - l)",
     "share = (1.0 - 2.0 * lambda) / rest;\n    const double strain", "share = (1.0 - lambda) / rest;\n    const double strain"),
    ("compression", "free: strain with the wrong sign", "log1p((flow->mean_less - flow->direction * thicker) / mean)",
     "log1p((flow->mean_less + flow->direction * thicker) / mean)"),
    ("compression", "free: length by (1 - l)", "exp(point.strain * (1.0 + point.thinness)",
     "exp(point.strain * (1.0 - point.thinness)"),
    ("compression", "fitted wall: free wall instead", "basis == FER_BASIS_FITTED_WALL && joint->stem.outside.mm > joint->hose.inside.mm) {\n        return fer_pair_subtract",
     "0 && joint->stem.outside.mm > joint->hose.inside.mm) {\n        return fer_pair_subtract"),
    ("compression", "soft wall: reinforcement on one side only", "fer_pair_of(2.0 * joint->hose.reinforcement.mm)",
     "fer_pair_of(1.0 * joint->hose.reinforcement.mm)"),
    ("compression", "area: stem not taken off", "fer_pair_multiply(gap, fer_pair_add(bore, stem))",
     "fer_pair_multiply(bore, bore)"),
    ("compression", "slope against the hose inside: sign", "1.0 / soft, -left, left,", "1.0 / soft, left, left,"),
    ("compression", "slope of the bore with ends fixed against the wall", "-2.0 * (outside - 2.0 * wall) / bore",
     "-2.0 * (outside - wall) / bore"),
    ("compression", "slope of the free bore against the diameter", "1.0 + 2.0 * by_diameter / by_wall_after",
     "1.0 - 2.0 * by_diameter / by_wall_after"),
    ("compression", "not touching goes through", "FER_REQUIRE(touches(joint, *bore), FER_DIAMETER_WITHOUT_TOUCH);", ""),
    ("compression", "above the ferrule goes through",
     "FER_REQUIRE(ferrule->outside.mm == 0.0 || diameter <= ferrule->outside.mm, FER_DIAMETER_ABOVE_FERRULE);", ""),
    ("forming", "force twice as large", "fer_pair_multiply(face, fer_pi_pair())", "fer_pair_multiply(fer_pair_add(face, face), fer_pi_pair())"),
    ("forming", "resultant over the whole angle of a segment", "fer_sine_pair(half_angle)", "fer_sine_pair(fer_pair_scale(half_angle, 2.0))"),
    ("forming", "springback inwards", "tube.outer_pressure = -state->tube.outer_pressure;",
     "tube.outer_pressure = state->tube.outer_pressure;"),
    ("forming", "hose not added to the pressure of the dies", "state->tube.outer_pressure = s->hose + state->yield_strength",
     "state->tube.outer_pressure = state->yield_strength"),
    ("forming", "lengthening: root of 3 left out", "flow / (flow + root_three)", "flow / (flow + 1.0)"),
    ("forming", "restraint counted the other way", "return (1.0 - restraint) * with_free_ends", "return restraint * with_free_ends"),
    ("forming", "elastic volume: sign of Poisson's ratio", "(1.0 - 2.0 * tube->poisson) * (plane + axial)",
     "(1.0 + 2.0 * tube->poisson) * (plane + axial)"),
    ("forming", "hardening softens", "yield_strength = s->yield_strength + s->hardening * mean;", "yield_strength = s->yield_strength - s->hardening * mean;"),
    ("forming", "axial stress left out of the flow", "m * both / sum,", "0.0,"),
    ("forming", "hose at half its pressure on the way", "0.0 : s->hose * expm1(", "0.0 : 0.5 * s->hose * expm1("),
    ("forming", "smallest reduction on the radius", "fer_pair_of(0.5 * minimum_reduction)", "fer_pair_of(1.0 * minimum_reduction)"),
    ("forming", "yielding on release goes through",
     "fer_unless(x * x - x * z + z * z <= state->yield_strength * state->yield_strength,", "fer_unless(x == x,"),
    ("forming", "closing diameter above the crimp diameter", "closing.mm = crimp_diameter.mm - 2.0 *",
     "closing.mm = crimp_diameter.mm + 2.0 *"),
    ("forming", "elastic tube: sign of Poisson's ratio", "(1.0 - tube->poisson) * fer_tube_mean_stress(tube)",
     "(1.0 + tube->poisson) * fer_tube_mean_stress(tube)", "crimp/tube.h"),
    ("forming", "elastic tube: free stretch half as large", "return -2.0 * tube->poisson", "return -1.0 * tube->poisson",
     "crimp/tube.h"),
    ("forming", "stem: first yield twice as high", "0.5 * material->yield_strength.mpa * wall", "1.0 * material->yield_strength.mpa * wall"),
    ("forming", "stem: Poisson's ratio in the yielding", "sqrt(1.0 - poisson + poisson * poisson)",
     "sqrt(1.0 + poisson + poisson * poisson)"),
    ("forming", "stem: ends of a partly plastic stem", "4.0 * (1.0 - poisson * poisson) * shear", "4.0 * shear"),
    ("forming", "stem: pressure of the plastic zone", "return 2.0 * log(radius / stem->inside)",
     "return log(radius / stem->inside)"),
    ("forming", "stem: nothing springs back", "change->residual_reduction.mm = reduction - elastic;",
     "change->residual_reduction.mm = reduction;"),
    ("forming", "stem: elastic bore grows", "elastic = {{-2.0 * fer_tube_displacement(&tube, tube.inside)}",
     "elastic = {{2.0 * fer_tube_displacement(&tube, tube.inside)}"),
    ("forming", "bore margin: reduction added", "(stem->bore.mm - gauge.mm) - reduction.mm",
     "(stem->bore.mm - gauge.mm) + reduction.mm"),
    ("lobe", "lobe height twice as high", "fer_pair_multiply(die->offset, fer_pair_of(2.0 * die->arc))",
     "fer_pair_multiply(die->offset, fer_pair_of(4.0 * die->arc))"),
    ("lobe", "whole angle instead of half", "fer_pair_scale(half_angle, 0.5)",
     "fer_pair_scale(half_angle, 1.0)"),
    ("lobe", "tape: factor", "size + fer_pair_value(fer_pair_divide(gap,", "size + 0.5 * fer_pair_value(fer_pair_divide(gap,"),
    ("lobe", "chords: the die size once", "fer_pair_of(4.0 * die->arc)", "fer_pair_of(2.0 * die->arc)"),
    ("lobe", "arcs: sign", "fer_pair_add(round, gap)", "fer_pair_subtract(round, gap)"),
    ("lobe", "jaws, even: half the offset", "shape->jaws_minimum.mm = size + offset * angles->cosine;",
     "shape->jaws_minimum.mm = size + 0.5 * offset * angles->cosine;"),
    ("lobe", "jaws, odd: a middle faces a middle", "segments % 2 == 0 ? first : die.half_angle - first", "first"),
    ("lobe", "beyond the edge goes through", "FER_REQUIRE(fabs(angle) <= edge, FER_ANGLE_OUT_OF_RANGE);", ""),
    ("uncertainties", "budget: no correlation", "standard->value[j] * standard->correlation[i][j]",
     "standard->value[j] * (i == j)"),
    ("uncertainties", "rectangular: root of 6", "RECTANGULAR ? 3.0 : 6.0", "RECTANGULAR ? 6.0 : 3.0"),
    ("uncertainties", "Welch-Satterthwaite: square instead of fourth power", "share * share * share * share /", "share * share /"),
    ("uncertainties", "coverage one-sided", "const double tail = 0.5 * (1.0 - coverage)", "const double tail = (1.0 - coverage)"),
    ("uncertainties", "worst case: stem the other way", "moved.stem.outside.mm += tight", "moved.stem.outside.mm -= tight"),
    ("uncertainties", "share: wall counted once", "-2.0, 0.0, 1.0};\n    fer_limit_margin margin;", "-1.0, 0.0, 1.0};\n    fer_limit_margin margin;"),
    ("uncertainties", "share: limits swapped", "share_below(lower, diameter - lower->diameter",
     "share_below(lower, lower->diameter - diameter"),
    ("lobe", "the equivalent crimp's wall is that of another diameter", "fer_crimped_wall_checked(joint, shape->arcs_diameter, model.flow",
     "fer_crimped_wall_checked(joint, shape->jaws_maximum, model.flow"),
    ("chance", "a correlation with an exact input counts", "if (list[i].amount.mm == 0.0) { /* correlations", "if (0) { /* correlations",
     "crimp/uncertainties.c"),
    ("uncertainties", "worst case: the bore stays", "moved.stem.bore.mm = 0.0;\n    moved.ferrule", "moved.ferrule"),
    ("uncertainties", "second order: the bore stays", "moved.stem.bore.mm = 0.0;\n    FER_REQUIRE", "FER_REQUIRE"),
    ("window", "window: ends swapped", "window->lower = lower;\n    window->upper = upper;",
     "window->lower = upper;\n    window->upper = lower;"),
    ("window", "best target: sign under the root", "+ (ratio - 1.0) * variance * log_ratio",
     "- (ratio - 1.0) * variance * log_ratio"),
    ("window", "costs swapped", "log(cost_too_tight) - log(cost_too_loose)", "log(cost_too_loose) - log(cost_too_tight)"),
    ("die", "exactly size + reach is not taken", "target <= fer_die_end(die);", "target < fer_die_end(die);"),
    ("die", "smallest instead of largest", "return die->size.mm > best->size.mm;", "return die->size.mm < best->size.mm;"),
    ("die", "purchase by size instead of size + reach", "fer_die_end(&offers[i]) > fer_die_end(best)",
     "offers[i].size.mm > best->size.mm"),
    ("die", "what to buy: end and start swapped", "choice->buy.upper.mm = target;", "choice->buy.upper.mm = lower;"),
    ("die", "a short die is taken", "die->length.mm >= ferrule_length.mm", "1", "crimp/die_private.h"),
    ("rack", "margin upwards only", "die->size.mm <= demand->target.mm - demand->margin.mm", "die->size.mm <= demand->target.mm"),
    ("rack", "lobe at the target without its margin", "fer_lobe_height_checked(widest, die->size", "fer_lobe_height_checked(demand->target, die->size"),
    ("rack", "what a smaller die has counts twice", "- (is_held ? worth_of(task, before, i) : 0.0)", "- 0.0"),
    ("rack", "nested dies are taken", "return s->leave_nested &&", "return 0 &&"),
    ("rack", "prices from the smallest die on", "return ends[a].pair[1] > ends[b].pair[1];", "return ends[a].pair[1] < ends[b].pair[1];",
     "shop/rack_worth.c"),
    ("press", "correction subtracted", "fer_pair_of(press->correction.mm)", "fer_pair_of(-press->correction.mm)"),
    ("press", "halves go down", "0.5 + 1e-9", "0.5 - 1e-9", "base/value_private.h"),
    ("press", "remainder with the wrong sign", "fer_pair_subtract(fer_pair_of(setting), exact)",
     "fer_pair_subtract(exact, fer_pair_of(setting))"),
    ("press", "clearance: widest added", "fer_pair_of(-widest.mm)", "fer_pair_of(widest.mm)"),
    ("press", "the setting is checked before it is rounded", "FER_TRY(fer_check_setting(&scale, setting));\n    const fer_pair remainder",
     "FER_TRY(fer_check_setting(&scale, fer_pair_value(exact)));\n    const fer_pair remainder"),
    ("forming", "a stem yields through only where its ends are fixed", "load.hose_pressure.mpa < strength.full_yield_pressure.mpa",
     "tube.restraint != 1.0 || load.hose_pressure.mpa < strength.full_yield_pressure.mpa"),
    ("status", "a sentence has another correction", "press correction is not between -100 mm and 100 mm",
     "press correction is not between -10 mm and 10 mm", "include/ferrule/status.h"),
    ("status", "a sentence has another graduation", "nor between 0.0001 mm and 10 mm", "nor between 0.001 mm and 10 mm",
     "include/ferrule/status.h"),
    ("setup", "the remedy is the wrong die", "use a smaller die", "use a larger die", "include/ferrule/setup.h"),
    ("diagnosis", "a sentence takes the correction off", "minus die size plus correction", "minus die size minus correction",
     "include/ferrule/diagnosis.h"),
    ("diagnosis", "a sentence adds the die size", "target minus die size plus", "target plus die size plus", "include/ferrule/diagnosis.h"),
    ("text", "kN/mm2 is not understood", " kN/mm2 ", " kN/cm2 ", "include/ferrule/quantity.h"),
    ("setup", "published diameter not used", "*target = order->published;",
     "target->mm = 1.001 * order->published.mm;"),
    ("setup", "limits: tolerance on one side only", "setup->target.mm - tolerance;", "setup->target.mm;"),
    ("setup", "ends fixed and free swapped", "FER_FLOW_ENDS_FREE, &setup->ends_free", "FER_FLOW_ENDS_FIXED, &setup->ends_free"),
    ("setup", "a remark left out", "remark_if(setup, !choice->found, FER_REMARK_NO_DIE);", "", "crimp/remarks.c"),
    ("status", "a name without its first letter", "return words + places[i].name;",
     "return words + places[i].name + 1;", "base/words.c"),
    ("reading", "correction taken off instead of added",
     "return v->readings[i].diameter.mm + v->gauge.correction.mm",
     "return v->readings[i].diameter.mm - v->gauge.correction.mm"),
    ("reading", "resolution: half-width squared by 3 with the whole step",
     "step * step / 12.0;\n    const double variance",
     "step * step / 3.0;\n    const double variance"),
    ("reading", "taper the other way round", "last - first,", "first - last,"),
    ("reading", "outliers: one-sided level", "(2.0 * m), m - 2.0)", "(1.0 * m), m - 2.0)"),
    ("reading", "outliers: those that hide behind others", "outliers = named + 1;", "outliers++;"),
    ("reading", "over the lobes: the whole range",
     "fit->mean.mm + fit->lobe.mm / 2.0",
     "fit->mean.mm + fit->lobe.mm"),
    ("reading", "odd numbers of segments as even ones",
     "v->segments % 2 == 0 ? v->pitch / 2.0 : v->pitch / 4.0",
     "v->pitch / 2.0"),
    ("reading", "gaps: the other jaw does not count", "is_jaw_over_gap(v, reading->angle.rad + pi)", "0"),
    ("reading", "an angle that is not marked goes through",
     "FER_REQUIRE(reading->angle_known || reading->angle.rad == 0.0, FER_READING_ANGLE_NOT_MARKED);",
     ""),
    ("reading", "degrees of freedom: share not squared", "(n - 1.0) * share * share", "(n - 1.0) * share"),
    ("reading", "scatter by n", "(double)(squares->count - 1)", "(double)(squares->count)", "base/numeric/moments.c"),
    ("conformity", "guard band outside the limit", "b->accept_upper = q->upper - guard", "b->accept_upper = q->upper + guard",
     "base/numeric/zone.c"),
    ("conformity", "rejected at the limit", "b->reject_lower = q->lower - guard;\n        b->reject_upper = q->upper + guard;\n        b->by",
     "b->reject_lower = q->lower;\n        b->reject_upper = q->upper + guard;\n        b->by", "base/numeric/zone.c"),
    ("conformity", "narrow tolerance: 0.7 for 1.7", ": 1.7;", ": 0.7;", "base/numeric/zone.c"),
    ("conformity", "an empty zone that accepts the middle", "    b->accept_lower = q->upper;\n    b->accept_upper = q->lower;",
     "    b->accept_lower = q->lower;\n    b->accept_upper = q->upper;", "base/numeric/zone.c"),
    ("conformity", "shown zone rounded outwards", "steps_of(ceil(shown / step - 1e-6), step)",
     "steps_of(floor(shown / step - 1e-6), step)", "base/numeric/zone.c"),
    ("conformity", "shown zone: the correction added", "const double shown = upper - correction", "const double shown = upper + correction",
     "base/numeric/zone.c"),
    ("conformity", "drawn away from the process", "process->mean.mm - q->value", "q->value - process->mean.mm"),
    ("conformity", "uncertainty not narrowed by the process", "q->u *= process->standard_deviation.mm / both;", ""),
    ("conformity", "consumer's risk on one side only",
     "accepted_between(&p, -INFINITY, q->lower) + accepted_between(&p, q->upper, INFINITY)",
     "accepted_between(&p, -INFINITY, q->lower)"),
    ("inspection", "deviation from the middle of the limits", "summary.mean.mm - p->setup->target.mm",
     "summary.mean.mm - 0.5 * (inspection->limits.lower.mm + inspection->limits.upper.mm)"),
    ("inspection", "segments not those of the set-up", "p->marks.segments == 0 ? p->setup->segments", "p->marks.segments == 0 ? 8"),
    ("inspection", "never crimp twice is said of a rejected piece only", "fer_cautions cautions = fer_stage_cautions(FER_STAGE_TRIAL)",
     "fer_cautions cautions = {0}"),
    ("inspection", "cut up what is undecided", "fer_stage_cautions(FER_STAGE_HOLD)", "fer_stage_cautions(FER_STAGE_FAILURE)"),
    ("release", "the mean says which limit is missed", "inspection->worst.mm < inspection->limits.lower.mm", "0"),
    ("release", "a leaking rig passes", "passed == 3 && !proof->rig_leak", "passed == 3"),
    ("release", "a diameter by sample is the first piece's", "own.diameter.by_sample && own", "0 && own"),
    ("release", "what nobody did counts as passed", "outcome == FER_OUTCOME_NOT_DONE && needed", "0"),
    ("inspection", "an exact gauge accepts", "FER_FINDING_TOO_FEW_READINGS,    FER_FINDING_GAUGE_TAKEN_AS_EXACT,", "FER_FINDING_TOO_FEW_READINGS,"),
    ("inspection", "one reading accepts", "find(inspection, n < 2.0 &&", "find(inspection, n < 1.0 &&"),
    ("inspection", "a process gives an acceptance", "alone != FER_DECISION_ACCEPT || with.decision", "with.decision"),
    ("inspection", "the scatter has no degrees of freedom", "if (degrees > 0.0) {\n        guard", "if (0) {\n        guard"),
    ("inspection", "the scatter has no floor", "fmax(scatter, step) / sqrt(count)", "scatter / sqrt(count)"),
    ("inspection", "limits from measurements not narrowed", "*limits = narrowed->accept;", ";", "crimp/setup.c"),
    ("inspection", "readings over gaps judged", "fer_reading_counts(&p->readings[i], &p->marks) && margin", "margin"),
    ("adjust", "equal trials do not scatter", "fmax(k->floor, deviation_from_trials(trials, count, target, k->gain))",
     "deviation_from_trials(trials, count, target, k->gain)"),
    ("adjust", "points on a line do not scatter", "fmax(floor, fer_line_scatter(line))", "fer_line_scatter(line)"),
    ("diagnosis", "pieces that contradict each other are averaged", "count < 2 || squares <= squares_by_chance", "1 || squares <= squares_by_chance"),
    ("diagnosis", "looks that contradict each other are weighed", "c->look_count < 2 || 2.0 * lost", "1 || 2.0 * lost"),
    ("diagnosis", "two scatters in quadrature", "const double standard_deviation = fmax(a->standard_deviation, b->standard_deviation);", "const double standard_deviation = hypot(a->standard_deviation, b->standard_deviation);"),
    ("chance", "the ferrule's length is not among the die's needs", "q->order->joint.ferrule.length}", "{0.0}}"),
    ("chance", "the block error for random numbers, too", "count->sequence == FER_SEQUENCE_SOBOL && count->blocks > 9", "count->blocks > 9"),
    ("reading", "a gap is a quarter of the angle between two", "v->pitch / 8.0 : marks", "v->pitch / 4.0 : marks"),
    ("conformity", "a weight of the quadrature",
     "0.149595988816576732081",
     "0.149595988816576732081 + 1e-9",
     "base/numeric/quadrature.c"),
    ("adjust", "moves added instead of taken off",
     "- gain * (trials[i].setting.mm",
     "+ gain * (trials[i].setting.mm"),
    ("adjust", "what is known before is left out", "(double)count + k->ratio", "(double)count"),
    ("adjust", "gain the wrong way", "first - e.error / k->gain", "first - e.error * k->gain"),
    ("adjust", "next crimp: variance minus the estimate's", "sqrt(1.0 + share)", "sqrt(1.0 - share)"),
    ("adjust", "rounding: q/6", "fer_pair_of(12.0)", "fer_pair_of(6.0)"),
    ("adjust", "Fieller: sign", "slope * slope - half * half", "slope * slope + half * half"),
    ("adjust", "weights by u instead of its square", "1.0 / (u * u)", "1.0 / u"),
    ("adjust", "Student's t with n - 1", "(double)count - 2.0);", "(double)count - 1.0);"),
    ("adjust", "scatter of a line by n - 1", "line->count - 2", "line->count - 1", "base/numeric/line.c"),
    ("diagnosis", "the gauge does not count",
     "1.0 / weights + setting * setting + gauge * gauge",
     "1.0 / weights + setting * setting + 0.0 * gauge"),
    ("diagnosis", "correction the wrong way", "setting - correction)", "setting + correction)"),
    ("diagnosis", "inch of 2.54", "setting / 25.4)", "setting / 2.54)"),
    ("diagnosis", "adapter left in: sign", "1.0, -adapter", "1.0, adapter"),
    ("diagnosis", "readings above the uncrimped ferrule", "fmin(deviation, clearance)", "deviation"),
    ("diagnosis", "dial beyond its maximum", "(upper == 0.0 || setting <= upper)", "1"),
    ("diagnosis", "shares of a cause not shared", "h->prior * h->fit / h->share", "h->prior * h->fit"),
    ("diagnosis", "cover added instead of taken off", "outside - 2.0 * c->cover", "outside + 2.0 * c->cover"),
    ("diagnosis", "too tight is too loose", "(x - c->upper) / u), loose", "(c->upper - x) / u), loose"),
    ("diagnosis", "published and measured weighed the wrong way",
     "(middle * b + measured * a) / (a + b)",
     "(middle * a + measured * b) / (a + b)"),
    ("diagnosis", "the wrong check",
     "{FER_CHECK_READ_DIAL, FER_CAUSE_DIAL_ONE_STEP},",
     "{FER_CHECK_READ_DIE, FER_CAUSE_DIAL_ONE_STEP},"),
    ("diagnosis", "compressions integrated to one sigma",
     "const double reach = 8.0 * c->standard_deviation;",
     "const double reach = 1.0 * c->standard_deviation;"),
]

# What decided before, once more: one change for each decision that is another one now.
CHANGES += [
    ("inspection", "only the mean is judged, not the readings", "if (to == FER_APPLIES_TO_NOT_STATED || to == FER_APPLIES_TO_EVERY_READING) {", "if (0) {"),
    ("inspection", "only the mean is judged, not the sections", "} else if (to == FER_APPLIES_TO_SECTION_MEANS) {", "} else if (0) {"),
    ("inspection", "a process is used that contradicts the readings", "away > process_deviate *", "away > 1e9 *"),
    ("inspection", "the compression is not looked at beside the diameter", "find(inspection, found->value.fraction < FER_SHARE_WANTED,", "find(inspection, 0,"),
    ("adjust", "equal checks do not drift at all", "scatter = fmax(fer_usual_floor(gauge), fer_line_scatter(&line));", "scatter = fer_line_scatter(&line);"),
    ("adjust", "an outlook better than the gauge", "k->standard_deviation = crimp > 0.0 ? fmax(crimp, gauge_floor(&adjusting.gauge)) : 0.0;",
     "k->standard_deviation = crimp;"),
    ("diagnosis", "a look at a piece of wrong diameter is diagnosed", "FER_REQUIRE(!is_outside_limits(&setup->limits, diameter.mm), FER_DIAGNOSIS_DIAMETER_WRONG);", ""),
    ("setup", "the usual range with every model", "fer_unless(is_range_given(order) || fer_is_plain(order->model), FER_COMPRESSION_RANGE_MISSING)", "FER_OK"),
    ("setup", "the widest diameter given counts alone", "const fer_length widest = {fmax(order->widest.mm, order->joint.ferrule.outside.mm)};",
     "const fer_length widest = order->widest.mm > 0.0 ? order->widest : order->joint.ferrule.outside;"),
    ("setup", "no springback in what the dial gives", "setup->dial.value.expected.mm += setup->springback.value.mm;", ""),
    ("setup", "no correction measured is a correction of 0", "return press->correction_measured || press->correction.mm != 0.0;", "return 1;"),
    ("setup", "the first measurement has the largest part", "first = fabs(part[i]) > fabs(part[first]) ? i : first;", ""),
    ("setup", "without a window nothing is said of too much compression", ": c > setup->range.upper.fraction,", ": 0,", "crimp/remarks.c"),
    ("setup", "without a window nothing is said of too little compression", ": c < setup->range.lower.fraction,", ": 0,", "crimp/remarks.c"),
    ("setup", "a lobe is compared with an explicit tolerance only", "const double tolerance = 0.5 * (setup->limits.value.upper.mm - setup->limits.value.lower.mm),",
     "const double tolerance = order->tolerance.mm > 0.0 ? order->tolerance.mm : INFINITY,", "crimp/remarks.c"),
    ("setup", "the plain compression first, whatever is known of the metal", "formed.status = setup->springback.status == FER_OK && is_restrained(j->order)", "formed.status = 0"),
    ("setup", "a stem that yields through only yields", "!(pressure < facts->strength.full_yield_pressure.mpa)", "0", "crimp/remarks.c"),
    ("setup", "any uncertainty is allowed for", "fmin(2.0 * facts->plain_uncertainty, allowance_maximum)", "2.0 * facts->plain_uncertainty", "crimp/remarks.c"),
    ("setup", "growth of the wall reassures", "plain >= setup->range.lower.fraction &&\n                  plain <= upper && ", "", "crimp/remarks.c"),
    ("setup", "a zone whose limits are taken as exact", "*kind = fer_judging_limits(setup, order->guard, &limits, zone);", "limits = setup->limits.value;"),
    ("setup", "a confirmation holds with another die", "is_same(confirmation->die.mm, die_of(setup).mm) &&", "", "crimp/remarks.c"),
    ("setup", "a confirmation holds with another compression", "is_same(confirmation->compression.fraction, setup->plain.value.fraction)", "1",
     "crimp/remarks.c"),
]


def file_of(module, where):
    return where[0] if where else str(next((ROOT / "lib").glob(f"*/{module}.c")).relative_to(ROOT / "lib"))


def source(tree, name):
    """A file of the library, in whichever folder it stands; or a header, by its whole path."""
    if name.startswith("include/"):
        return tree / name
    found, = (tree / "lib").rglob(name)
    return found


def check_list():
    """A change whose text is gone would break nothing: it has to be brought up to date together with the code."""
    stale = 0
    for module, what, old, _, *where in CHANGES:
        times = source(ROOT, file_of(module, where)).read_text(encoding="utf-8").count(old)
        if times != 1:
            stale += 1
            print(f"stands {times} times in {file_of(module, where)}, not once: {module}: {what}")
    return 1 if stale else 0


def build(folder, modules):
    tests = [f"test_{module}" for module in modules]
    made = subprocess.run(["cmake", "--build", folder / "build", "-j", "2", "--target", *tests], capture_output=True,
                          text=True)
    return made.returncode == 0, made.stdout + made.stderr


def fails(folder, module):
    tests = f"^c_({module}|vectors|decisions)$"
    ran = subprocess.run(["ctest", "--test-dir", folder / "build", "-R", tests], capture_output=True, text=True)
    assert "No tests were found" not in ran.stdout
    return ran.returncode != 0


def prepare(folder):
    shutil.copytree(ROOT, folder, dirs_exist_ok=True, ignore=shutil.ignore_patterns("build", ".git", "node_modules"))
    options = ["-DFERRULE_PYTHON=OFF", "-DFERRULE_EXAMPLES=OFF", "-DFERRULE_TESTS=unit", "-DCMAKE_C_FLAGS=-w -Wno-error"]
    subprocess.run(["cmake", "-S", folder, "-B", folder / "build", *options], check=True, capture_output=True)
    good, log = build(folder, {change[0] for change in CHANGES} | {"vectors", "decisions"})
    assert good, log


def try_change(folder, module, old, new, name):
    path = source(folder, name)
    text = path.read_text(encoding="utf-8")
    if text.count(old) != 1:
        return f"stands {text.count(old)} times in {name}, not once"
    path.write_text(text.replace(old, new), encoding="utf-8")
    good, _ = build(folder, (module, "vectors", "decisions"))
    verdict = None if good and fails(folder, module) else "unnoticed" if good else "does not compile"
    path.write_text(text, encoding="utf-8")
    return verdict


def main(modules):
    trouble = tried = 0
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        prepare(folder)
        for module, what, old, new, *where in CHANGES:
            if modules and module not in modules:
                continue
            verdict = try_change(folder, module, old, new, file_of(module, where))
            tried += 1
            trouble += verdict is not None
            print(f"{'noticed' if verdict is None else verdict:12} {module}: {what}", flush=True)
    print(f"{tried} formulas broken, {tried - trouble} noticed")
    return 1 if trouble or not tried else 0


if __name__ == "__main__":
    sys.exit(check_list() if sys.argv[1:] == ["--list"] else main(sys.argv[1:]))
