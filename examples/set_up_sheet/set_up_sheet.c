/* SPDX-License-Identifier: MIT */
/* One order from the command line: what to set and what to expect. See usage below. */
#include "arguments.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { DONE = 0, NOT_READY = 1, ARGUMENTS_WRONG = 2, AFTER_CONFIRMING = 3 };

static const char usage[] =
    "set_up_sheet: what to set on a crimping press for one hose and one coupling, and what to expect.\n"
    "\n"
    "  set_up_sheet hose 12.7mm 19.9mm stem 12.95mm ferrule 2.4mm 25.6mm dies 16,19,22,25mm\n"
    "\n"
    "Words in any order; what stands in [ ] may be left out, or written as - where more follows:\n"
    "  hose INSIDE OUTSIDE               as it goes into the ferrule\n"
    "  stem OUTSIDE [BORE]               the part of the coupling that goes into the hose\n"
    "  ferrule WALL [OUTSIDE [LENGTH]]   before crimping\n"
    "  published DIAMETER [TOLERANCE]    crimp diameter that the coupling's manufacturer publishes\n"
    "  tolerance LENGTH                  allowed deviation either way\n"
    "  range LOWER UPPER                 compression allowed; usual: range 15% 25%\n"
    "  aim RATIO                         compression to aim at; usual: the middle of the range\n"
    "  widest LENGTH                     widest diameter that has to pass the open dies\n"
    "  known HOSE_INSIDE HOSE_OUTSIDE STEM_OUTSIDE FERRULE_WALL FERRULE_OUTSIDE CRIMP_DIAMETER\n"
    "                                    standard uncertainty of each measurement\n"
    "  dies SIZE... [reach LENGTH] [adapter NUMBER] [long LENGTH]\n"
    "                                    sizes apart or as a list such as 16,19,22mm; may come again,\n"
    "                                    for dies with another reach, adapter or length\n"
    "  mounted NUMBER                    adapter set that is in the press; usual: none\n"
    "  dial GRADUATION [CORRECTION [GREATEST]]\n"
    "  opening LENGTH                    how far the circle of a die opens\n"
    "  segments NUMBER                   usual: 8\n"
    "  capacity FORCE                    that the press is rated for: sum of its segments' radial forces\n"
    "  ferrule-metal MODULUS POISSON YIELD [HARDENING]\n"
    "  stem-metal MODULUS POISSON YIELD [HARDENING]\n"
    "                                    elastic modulus, Poisson's ratio, yield strength, its rise by "
    "strain\n"
    "  restraint RATIO                   how far the ferrule's ends are kept from moving; usual: 0%, free\n"
    "  squeeze PRESSURE                  of the squeezed hose on stem and ferrule\n"
    "  go-gauge DIAMETER                 that has to pass the stem's bore\n"
    "  gauge UNCERTAINTY [STEP [CORRECTION]]   standard uncertainty of the gauge in hand\n"
    "  approval approved|not-approved    whether the manufacturers approve hose, coupling, ferrule together\n"
    "  applies-to every-reading|section-means|mean   what the limits apply to\n"
    "  insertion DEPTH                   to which the hose is pushed in\n"
    "  skive OUTSIDE [INSIDE]            length of hose that is skived\n"
    "  lobe HEIGHT                       greatest lobe height that is taken without being asked\n"
    "  confirmed REMARK NAME TARGET TOLERANCE DIE COMPRESSION\n"
    "                                    a remark under CONFIRM, who answers for it, and the figures that\n"
    "                                    were looked at; where one of them is another it is void; may come "
    "again\n"
    "\n"
    "Every length carries its unit: 12.7mm 0.5in \"1 1/4 in\" 1-1/4in; ratios: 20% or \"0.2 fraction\";\n"
    "pressures: 206GPa 280MPa 120bar; forces: 2000kN.\n"
    "\n"
    "Exit status: 0 READY: crimp one piece and check it; 1 NOT READY: not to be crimped, and there is\n"
    "nothing to set; 3 AFTER CONFIRMING: not to be crimped before somebody has confirmed; 2 an argument\n"
    "is wrong, and standard error names it, its value and the rule.\n";

/* ---- lines -------------------------------------------------------------------------------------------- */

static void print_text(const char *label, const char *text)
{
    printf("  %-42s %s\n", label, text);
}

/* Without the sign of what rounds to zero. */
static const char *plain_zero(const char *text)
{
    return text[0] == '-' && !strpbrk(text, "123456789") ? text + 1 : text;
}

/* Both say nothing where a length cannot be written, which a set-up never holds together with FER_OK. */
static void print_length(const char *label, fer_length length, int decimals)
{
    char text[FER_TEXT_CAPACITY];
    size_t written;
    if (fer_format_length(length, FER_UNIT_mm, decimals, text, sizeof text, &written) == FER_OK) {
        print_text(label, plain_zero(text));
    }
}

static void print_range(const char *label, fer_length_range range)
{
    char lower[FER_TEXT_CAPACITY], upper[FER_TEXT_CAPACITY];
    size_t written;
    if (fer_format_length(range.lower, FER_UNIT_mm, 2, lower, sizeof lower, &written) == FER_OK &&
        fer_format_length(range.upper, FER_UNIT_mm, 2, upper, sizeof upper, &written) == FER_OK) {
        printf("  %-42s %s to %s\n", label, lower, upper);
    }
}

static void print_found_length(const char *label, fer_found_length found, int decimals)
{
    if (found.status == FER_OK) {
        print_length(label, found.value, decimals);
    } else {
        print_text(label, fer_status_sentence(found.status));
    }
}

static void print_found_range(const char *label, fer_found_range found)
{
    if (found.status == FER_OK) {
        print_range(label, found.value);
    } else {
        print_text(label, fer_status_sentence(found.status));
    }
}

static void print_ratio(const char *label, fer_found_ratio found, int decimals, const char *behind)
{
    char text[FER_TEXT_CAPACITY];
    size_t written;
    if (found.status != FER_OK) {
        print_text(label, fer_status_sentence(found.status));
    } else if (fer_format_ratio(found.value, FER_UNIT_percent, decimals, text, sizeof text, &written) ==
               FER_OK) {
        printf("  %-42s %s%s\n", label, plain_zero(text), behind);
    }
}

static void print_found_ratio(const char *label, fer_found_ratio found, const char *behind)
{
    print_ratio(label, found, 1, behind);
}

/* ---- parts of the sheet ------------------------------------------------------------------------------- */

static void print_readiness(const fer_setup *setup)
{
    static const char *const first[] = {"[X] NOT READY", "[?] AFTER CONFIRMING", "[OK] READY"};
    printf("%s: %s\n", first[setup->readiness], fer_readiness_sentence(setup->readiness));
}

/* Who confirmed a remark; NULL: nobody, or for other figures. */
static const char *confirmed_by(const arguments *given, const fer_setup *setup, fer_remark remark)
{
    for (size_t i = 0; i < given->confirmation_count; i++) {
        if (given->confirmations[i].remark == remark && (setup->confirmed.bits >> remark & 1u)) {
            return given->names[i];
        }
    }
    return NULL;
}

static void print_remark(const arguments *given, const fer_setup *setup, fer_remark remark)
{
    const char *by = confirmed_by(given, setup, remark);
    if (fer_remark_severity(remark) != FER_SEVERITY_CONFIRM) {
        printf("  - %s\n", fer_remark_sentence(remark));
    } else if (by) {
        printf("  - confirmed by %s: %s\n", by, fer_remark_sentence(remark));
    } else {
        printf("  - not confirmed: %s\n", fer_remark_sentence(remark));
    }
}

static void print_remarks(const arguments *given, const fer_setup *setup)
{
    static const char *const headings[] = {"STOP", "CONFIRM", "DO FIRST", "GOOD TO KNOW"};
    int last = -1;
    for (int i = 0; i < FER_REMARK_COUNT; i++) {
        const int severity = (int)fer_remark_severity((fer_remark)i);
        if (setup->remarks.bits >> i & 1u) {
            if (severity != last) {
                puts(headings[severity]);
            }
            last = severity;
            print_remark(given, setup, (fer_remark)i);
        }
    }
}

/* What a confirmation names. */
static void print_what_to_confirm(const fer_setup *setup)
{
    puts("TO CONFIRM");
    print_length("target looked at", setup->target, 4);
    if (setup->tolerance.mm > 0.0) {
        print_length("tolerance looked at", setup->tolerance, 4);
    } else {
        print_text("tolerance looked at", "-");
    }
    print_length("die looked at", setup->die.die.size, 4);
    print_ratio("compression looked at", setup->plain, 2, "");
}

static void print_what_to_buy(const fer_setup *setup)
{
    puts("TO GET");
    print_text("die", fer_status_sentence(FER_DIE_NONE_NEAR_ENOUGH));
    print_range("buy or borrow a die of", setup->die.buy);
    if (setup->die.nearest_found) {
        print_length("the nearest die misses the target by", setup->die.nearest_distance, 2);
    }
}

static void print_adapter(const fer_die_choice *choice)
{
    const int number = choice->die.adapter;
    char text[60];
    snprintf(text, sizeof text, "set %d%s", number, choice->adapter_change ? ": put it in first" : "");
    if (number == 0) {
        print_text("adapter", choice->adapter_change ? "none: take out the set in the press" : "none");
    } else {
        print_text("adapter", text);
    }
}

/* As many as the graduation shows, at most four; three on a stepless dial. */
static int dial_decimals(fer_length graduation)
{
    double steps = graduation.mm;
    int decimals = 0;
    if (!(steps > 0.0)) {
        return 3;
    }
    while (decimals < 4 && (steps < 0.5 || fabs(steps - round(steps)) > 1e-6)) {
        steps *= 10.0;
        decimals++;
    }
    return decimals;
}

/* The one to use: with the springback taken off where no correction of the press was measured. */
static const fer_found_dial *dial_to_use(const fer_setup *setup)
{
    return setup->springback_dial.status == FER_OK ? &setup->springback_dial : &setup->dial;
}

static void print_dial(const fer_setup *setup, fer_length graduation)
{
    const fer_found_dial *dial = dial_to_use(setup);
    char text[FER_TEXT_CAPACITY + 30];
    size_t written;
    if (dial->status != FER_OK) {
        print_text("dial", fer_status_sentence(dial->status));
    } else if (fer_format_length(dial->value.setting, FER_UNIT_mm, dial_decimals(graduation), text,
                                 FER_TEXT_CAPACITY, &written) == FER_OK) {
        if (dial == &setup->springback_dial) {
            strcat(text, ", springback taken off");
        }
        print_text("dial", plain_zero(text));
    }
}

static void print_what_to_set(const arguments *given, const fer_setup *setup)
{
    puts("SET");
    print_adapter(&setup->die);
    print_length("die", setup->die.die.size, 2);
    print_dial(setup, given->press.graduation);
    if (setup->insertion.mm > 0.0) {
        print_length("insertion depth", setup->insertion, 1);
    } else {
        print_text("insertion depth", "not given");
    }
    if (setup->skive_outside.mm > 0.0) {
        print_length("skive outside", setup->skive_outside, 1);
    }
    if (setup->skive_inside.mm > 0.0) {
        print_length("skive inside", setup->skive_inside, 1);
    }
}

/* Of a zone that can accept something: otherwise the set-up is not ready. Rounded inwards, where the gauge has no steps. */
static void print_zone_ends(fer_length_range accept, int decimals)
{
    const double steps = pow(10.0, decimals);
    const fer_length first = {ceil(accept.lower.mm * steps - 1e-6) / steps},
                     last = {floor(accept.upper.mm * steps + 1e-6) / steps};
    char lower[FER_TEXT_CAPACITY], upper[FER_TEXT_CAPACITY];
    size_t written;
    if (fer_format_length(first, FER_UNIT_mm, decimals, lower, sizeof lower, &written) == FER_OK &&
        fer_format_length(last, FER_UNIT_mm, decimals, upper, sizeof upper, &written) == FER_OK) {
        printf("  %-42s %s to %s, as the gauge shows it\n", "accept", lower, upper);
    }
}

static void print_zone(const arguments *given, const fer_setup *setup)
{
    if (setup->zone.status != FER_OK) {
        printf("  %-42s nothing yet: %s\n", "accept", fer_status_sentence(setup->zone.status));
    } else if (setup->remarks.bits >> FER_REMARK_GAUGE_TAKEN_AS_EXACT & 1u) {
        printf("  %-42s nothing yet: %s\n", "accept", fer_remark_sentence(FER_REMARK_GAUGE_TAKEN_AS_EXACT));
    } else {
        const int decimals = dial_decimals(given->order.gauge.resolution);
        print_zone_ends(setup->zone.value.accept, decimals < 2 ? 2 : decimals);
    }
}

static void print_what_to_expect(const arguments *given, const fer_setup *setup)
{
    puts("EXPECT");
    print_length("crimp diameter", dial_to_use(setup)->value.expected, 2);
    print_zone(given, setup);
    if (setup->shape.status == FER_OK) {
        print_length("lobe height", setup->shape.value.lobe_height, 3);
        print_length("gap between segments", setup->shape.value.gap, 2);
    }
    print_found_length("clearance in the open dies", setup->clearance, 2);
}

/* What is nearly sure or nearly impossible is not printed as if it were known exactly. */
static void print_probability(const char *label, fer_ratio share)
{
    const double percent = fer_to_percent(share);
    if (percent > 99.9) {
        print_text(label, "> 99.9 %");
    } else if (percent < 0.1) {
        print_text(label, "< 0.1 %");
    } else {
        printf("  %-42s %.1f %%\n", label, percent);
    }
}

static void print_why_target(const fer_setup *setup)
{
    static const char *const applies_to[] = {"not stated", "every reading", "section means", "mean"};
    puts("TARGET");
    print_length("target", setup->target, 2);
    print_text("target comes from",
               setup->source == FER_TARGET_PUBLISHED ? "published diameter" : "measurements");
    print_found_range("tolerance limits", setup->limits);
    print_text("they apply to", applies_to[setup->applies_to]);
    print_found_range("window", setup->window);
    if (setup->shares.status == FER_OK) {
        print_probability("joints inside the range", setup->shares.value.inside);
    }
    if (setup->best_target.status == FER_OK && setup->source == FER_TARGET_COMPUTED) {
        print_length("best target", setup->best_target.value, 2);
    }
}

static void print_best_compression(const fer_setup *setup)
{
    static const char *const by[] = {" by the plain formula", " by the order's model",
                                     " of the bore that the ferrule's metal leaves"};
    static const char *const measurements[] = {"hose inside",  "hose outside",    "stem outside",
                                               "ferrule wall", "ferrule outside", "crimp diameter"};
    print_found_ratio("look at first", setup->compression.value, by[setup->compression.source]);
    print_found_ratio("standard uncertainty", setup->compression.standard_uncertainty, " points");
    if (setup->largest.status == FER_OK) {
        printf("  %-42s %s, %.0f %%\n", "largest part in it", measurements[setup->largest.value.measurement],
               fer_to_percent(setup->largest.value.share));
    }
}

static void print_compression(const fer_setup *setup)
{
    puts("COMPRESSION AT THE TARGET");
    print_best_compression(setup);
    printf("  %-42s %.1f %% to %.1f %% by the plain formula\n", "range allowed",
           fer_to_percent(setup->range.lower), fer_to_percent(setup->range.upper));
    print_found_ratio("plain formula", setup->plain, "");
    if (setup->equivalent.status == FER_OK && setup->readiness != FER_READINESS_NOT_READY) {
        print_found_ratio("plain formula, lobes counted", setup->equivalent, "");
    }
    print_found_ratio("ferrule lengthens freely", setup->ends_free, "");
    print_found_ratio("ferrule cannot lengthen", setup->ends_fixed, "");
}

/* A figure of the metal: its text where it could be written, otherwise why it is not there. */
static void print_computed(const char *label, fer_status found, const char *text)
{
    if (found == FER_OK) {
        print_text(label, plain_zero(text));
    } else {
        printf("  %-42s not computed: %s\n", label, fer_status_sentence(found));
    }
}

static void print_computed_length(const char *label, fer_found_length found)
{
    char text[FER_TEXT_CAPACITY] = "";
    size_t written;
    if (found.status == FER_OK) {
        found.status = fer_format_length(found.value, FER_UNIT_mm, 3, text, sizeof text, &written);
    }
    print_computed(label, found.status, text);
}

static void print_computed_ratio(const char *label, fer_found_ratio found)
{
    char text[FER_TEXT_CAPACITY] = "";
    size_t written;
    if (found.status == FER_OK) {
        found.status = fer_format_ratio(found.value, FER_UNIT_percent, 1, text, sizeof text, &written);
    }
    print_computed(label, found.status, text);
}

static void print_computed_force(const char *label, fer_found_force found)
{
    char text[FER_TEXT_CAPACITY] = "";
    size_t written;
    if (found.status == FER_OK) {
        found.status = fer_format_force(found.value, FER_UNIT_kn, 0, text, sizeof text, &written);
    }
    print_computed(label, found.status, text);
}

/* What a limit means that has no figure; NULL: something is not known. */
static const char *squeeze_in_words(fer_status status)
{
    switch (status) {
    case FER_HOSE_PRESSURE_ABOVE_LIMIT:
        return "more than is computed";
    case FER_FORCE_BELOW_METAL:
        return "none: the ferrule alone may need more force";
    case FER_BORE_REDUCTION_OUT_OF_RANGE:
        return "none: the bore is too small as it is";
    case FER_BORE_REDUCTION_ABOVE_FULL_YIELD:
    case FER_STEM_YIELDS_ENDS_NOT_FIXED:
    case FER_STEM_YIELDS_TOO_DEEP:
        return "the stem yields first";
    default:
        return NULL;
    }
}

/* Rounded down: it is a limit. */
static void print_computed_squeeze(const char *label, fer_found_pressure found)
{
    char text[FER_TEXT_CAPACITY] = "";
    size_t written;
    if (found.status == FER_OK) {
        const fer_pressure whole = {floor(found.value.mpa + 1e-9)};
        found.status = fer_format_pressure(whole, FER_UNIT_mpa, 0, text, sizeof text, &written);
    }
    if (squeeze_in_words(found.status)) {
        print_text(label, squeeze_in_words(found.status));
    } else {
        print_computed(label, found.status, text);
    }
}

/* How much the hose may press, whether it is known what it presses or not. */
static void print_squeeze(const fer_hose_limits *limits)
{
    static const char *const labels[] = {"squeeze of the hose allowed", "squeeze of the hose allowed (press)",
                                         "squeeze of the hose allowed (go gauge)",
                                         "squeeze of the hose allowed (stem)",
                                         "squeeze of the hose allowed (as computed)"};
    print_computed_squeeze("squeeze of the hose: press allows", limits->capacity);
    print_computed_squeeze("squeeze of the hose: go gauge allows", limits->bore);
    print_computed_squeeze("squeeze of the hose: stem allows", limits->stem);
    print_computed_squeeze("squeeze of the hose: computed up to", limits->formula);
    print_computed_squeeze(labels[limits->which], limits->smallest);
}

/* A correction of the press from finished crimps contains the springback already. */
static void print_metal(const fer_setup *setup)
{
    puts("METAL");
    print_computed_length("closing diameter of the dies", setup->closing);
    print_computed_length("springback", setup->springback);
    print_computed_force(setup->force_at_least ? "force, at least" : "force", setup->force);
    print_computed_ratio(setup->force_at_least ? "share of the press's capacity, at least"
                                               : "share of the press's capacity",
                         setup->capacity_use);
    print_computed_length("bore reduction of the stem", setup->bore_reduction);
    print_computed_length("bore margin of the stem", setup->bore_margin);
    print_squeeze(&setup->hose_limits);
}

static void print_why_dial(const fer_setup *setup)
{
    const fer_found_dial *dial = dial_to_use(setup);
    puts("DIAL");
    print_length("offset", setup->die.offset, 3);
    if (dial->status == FER_OK) {
        print_length("dial before rounding", dial->value.exact, 3);
        print_length("remainder", dial->value.remainder, 3);
    }
}

static void print_cautions(const fer_setup *setup)
{
    puts("TAKE CARE");
    for (int i = 0; i < FER_CAUTION_COUNT; i++) {
        if (setup->cautions.bits >> i & 1u) {
            printf("  - %s\n", fer_caution_text((fer_caution)i));
        }
    }
}

/* ---- the order ---------------------------------------------------------------------------------------- */

static fer_status plan(const arguments *given, fer_setup *setup)
{
    const fer_status status =
        fer_plan_setup(&given->order, &given->press, given->dies, given->die_count, setup);
    return status == FER_OK ? fer_confirm_setup(setup, given->confirmations, given->confirmation_count, setup)
                            : status;
}

/* While it is not ready there is nothing to set, and nothing to expect. */
static void print_work(const arguments *given, const fer_setup *setup)
{
    if (setup->readiness == FER_READINESS_AFTER_CONFIRMING) {
        print_what_to_confirm(setup);
    }
    if (setup->readiness != FER_READINESS_NOT_READY) {
        print_what_to_set(given, setup);
        print_what_to_expect(given, setup);
    } else if (!setup->die.found) {
        print_what_to_buy(setup);
    }
}

int main(int count, char **words)
{
    static const int ends[] = {NOT_READY, AFTER_CONFIRMING, DONE};
    static arguments given;
    fer_setup setup;
    if (count < 2 || strcmp(words[1], "--help") == 0) {
        fputs(usage, stdout);
        return count < 2 ? ARGUMENTS_WRONG : DONE;
    }
    if (!read_arguments(count - 1, words + 1, &given)) {
        return ARGUMENTS_WRONG;
    }
    const fer_status status = plan(&given, &setup);
    if (status != FER_OK) {
        report_status(&given, status);
        return ARGUMENTS_WRONG;
    }
    print_readiness(&setup);
    print_remarks(&given, &setup);
    print_work(&given, &setup);
    print_why_target(&setup);
    print_compression(&setup);
    print_metal(&setup);
    if (setup.readiness != FER_READINESS_NOT_READY) {
        print_why_dial(&setup);
    }
    print_cautions(&setup);
    return ends[setup.readiness];
}
