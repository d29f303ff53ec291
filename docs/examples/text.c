/* SPDX-License-Identifier: MIT */
#include <ferrule/ferrule.h>

#include <stdio.h>
#include <string.h>

/* The same text where somebody says that its decimal sign is the comma. */
static void show_comma(const char *text)
{
    fer_length length;
    size_t stop, written;
    char out[FER_TEXT_CAPACITY];
    if (fer_parse_comma_length(text, strlen(text), &length, &stop) == FER_OK &&
        fer_format_length(length, FER_UNIT_inch, FER_FRACTION(64), out, sizeof out, &written) == FER_OK) {
        printf("%-10s nearest 64th: %s\n", text, out);
    }
}

static void show(const char *text)
{
    fer_length length;
    size_t stop, written;
    char out[FER_TEXT_CAPACITY];
    const fer_status status = fer_parse_length(text, strlen(text), &length, &stop);
    if (status != FER_OK) {
        printf("%-10s byte %zu: %s\n", text, stop, fer_status_sentence(status));
        return;
    }
    if (fer_format_length(length, FER_UNIT_mm, FER_SHORTEST, out, sizeof out, &written) == FER_OK) {
        printf("%-10s %s\n", text, out);
    }
}

int main(void)
{
    show("12.7 mm");
    show("1 1/4 in");
    show("0.925\"");
    show("12.7");
    show("12.7 bar");
    show("12,7 mm");
    show_comma("12,7 mm");
    return 0;
}
