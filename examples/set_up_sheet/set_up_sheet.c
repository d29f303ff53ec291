/* SPDX-License-Identifier: MIT */
/* One order from the command line: what to set and what to expect. See usage below. */
#include "arguments.h"

#include <stdio.h>
#include <string.h>

enum { DONE = 0, CANNOT_BE_CRIMPED = 1, ARGUMENTS_WRONG = 2 };

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
    "  gauge DIAMETER                    go gauge that has to pass the stem's bore\n"
    "\n"
    "Every length carries its unit: 12.7mm 0.5in \"1 1/4 in\" 1-1/4in; ratios: 20% or \"0.2 fraction\";\n"
    "pressures: 206GPa 280MPa 120bar; forces: 2000kN.\n"
    "\n"
    "Exit status: 0 done; 1 it cannot be crimped as it is (no die, dial or opening too small);\n"
    "2 an argument is wrong, and standard error names it, its value and the rule.\n";

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

static void print_found_ratio(const char *label, fer_found_ratio found, const char *behind)
{
    char text[FER_TEXT_CAPACITY];
    size_t written;
    if (found.status != FER_OK) {
        print_text(label, fer_status_sentence(found.status));
    } else if (fer_format_ratio(found.value, FER_UNIT_percent, 1, text, sizeof text, &written) == FER_OK) {
        printf("  %-42s %s%s\n", label, text, behind);
    }
}

/* ---- parts of the sheet ------------------------------------------------------------------------------- */

static void print_remarks(const fer_setup *setup)
{
    if (setup->remarks.bits != 0) {
        puts("CHECK FIRST");
    }
    for (int i = 0; i < FER_REMARK_COUNT; i++) {
        if (setup->remarks.bits >> i & 1u) {
            printf("  - %s\n", fer_remark_sentence((fer_remark)i));
        }
    }
}

static void print_what_to_buy(const fer_setup *setup)
{
    puts("SET");
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

static void print_what_to_set(const fer_setup *setup)
{
    puts("SET");
    print_adapter(&setup->die);
    print_length("die", setup->die.die.size, 2);
    if (setup->dial.status == FER_OK) {
        print_length("dial", setup->dial.value.setting, 3);
    } else {
        print_text("dial", fer_status_sentence(setup->dial.status));
    }
}

static void print_what_to_expect(const fer_setup *setup)
{
    puts("EXPECT");
    if (setup->dial.status == FER_OK) {
        print_length("crimp diameter", setup->dial.value.expected, 2);
    }
    print_found_range("accept", setup->limits);
    if (setup->shape.status == FER_OK) {
        print_length("lobe height", setup->shape.value.lobe_height, 3);
        print_length("gap between segments", setup->shape.value.gap, 2);
    }
    if (setup->die.found) {
        print_found_length("clearance in the open dies", setup->clearance, 2);
    }
}

static void print_why_target(const fer_setup *setup)
{
    puts("TARGET");
    print_length("target", setup->target, 2);
    print_text("target comes from",
               setup->source == FER_TARGET_PUBLISHED ? "published diameter" : "measurements");
    print_found_range("window", setup->window);
    if (setup->shares.status == FER_OK) {
        const fer_found_ratio inside = {setup->shares.value.inside, FER_OK};
        print_found_ratio("joints inside the range", inside, "");
    }
    if (setup->best_target.status == FER_OK) {
        print_length("best target", setup->best_target.value, 2);
    }
}

static void print_compression(const fer_setup *setup)
{
    puts("COMPRESSION AT THE TARGET");
    print_found_ratio("plain formula", setup->plain, "");
    if (setup->equivalent.status == FER_OK) {
        print_found_ratio("plain formula, lobes counted", setup->equivalent, "");
    }
    print_found_ratio("ferrule lengthens freely", setup->ends_free, "");
    print_found_ratio("ferrule cannot lengthen", setup->ends_fixed, "");
    print_found_ratio("standard uncertainty", setup->uncertainty, " points");
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

/* A correction of the press from finished crimps contains the springback already. */
static void print_metal(const fer_setup *setup)
{
    puts("METAL");
    print_computed_length("closing diameter of the dies", setup->closing);
    print_computed_length("springback, not added to the dial", setup->springback);
    print_computed_force("force", setup->force);
    print_computed_ratio("share of the press's capacity", setup->capacity_use);
    print_computed_length("bore reduction of the stem", setup->bore_reduction);
    print_computed_length("bore margin of the stem", setup->bore_margin);
}

static void print_why_dial(const fer_setup *setup)
{
    if (!setup->die.found) {
        return;
    }
    puts("DIAL");
    print_length("offset", setup->die.offset, 3);
    if (setup->dial.status == FER_OK) {
        print_length("dial before rounding", setup->dial.value.exact, 3);
        print_length("remainder", setup->dial.value.remainder, 3);
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

static int can_be_crimped(const fer_setup *setup)
{
    const fer_remark stops[] = {FER_REMARK_NO_DIE, FER_REMARK_DOES_NOT_PASS, FER_REMARK_DIAL_OUT_OF_RANGE,
                                FER_REMARK_FORCE_ABOVE_CAPACITY, FER_REMARK_CLOSES_BELOW_DIE};
    for (size_t i = 0; i < sizeof stops / sizeof *stops; i++) {
        if (setup->remarks.bits >> stops[i] & 1u) {
            return 0;
        }
    }
    return 1;
}

int main(int count, char **words)
{
    static arguments given;
    fer_setup setup;
    if (count < 2 || strcmp(words[1], "--help") == 0) {
        fputs(usage, stdout);
        return count < 2 ? ARGUMENTS_WRONG : DONE;
    }
    if (!read_arguments(count - 1, words + 1, &given)) {
        return ARGUMENTS_WRONG;
    }
    const fer_status status = fer_plan_setup(&given.order, &given.press, given.dies, given.die_count, &setup);
    if (status != FER_OK) {
        report_status(&given, status);
        return ARGUMENTS_WRONG;
    }
    print_remarks(&setup);
    if (setup.die.found) {
        print_what_to_set(&setup);
    } else {
        print_what_to_buy(&setup);
    }
    print_what_to_expect(&setup);
    print_why_target(&setup);
    print_compression(&setup);
    print_metal(&setup);
    print_why_dial(&setup);
    print_cautions(&setup);
    return can_be_crimped(&setup) ? DONE : CANNOT_BE_CRIMPED;
}
