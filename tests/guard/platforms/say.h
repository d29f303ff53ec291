/* SPDX-License-Identifier: MIT */
/* What evaluate prints: one line per call, FUNCTION STATUS VALUE..., each double as the sixteen hexadecimal digits of its bits.
 *
 * A NaN is printed as nan, since which NaN it is differs between processors and means nothing. Only stdio's streams are
 * used, not its formats: they differ between the systems, and take memory on a microcontroller. */
#ifndef FER_TEST_SAY_H
#define FER_TEST_SAY_H

#include <ferrule/ferrule.h>
#include <stdio.h>
#include <string.h>

static void say(const char *text)
{
    fputs(text, stdout);
}

static void say_digits(uint64_t number, unsigned base, int minimum)
{
    char digits[24], *first = digits + sizeof digits - 1;
    *first = '\0';
    do {
        *--first = "0123456789abcdef"[number % base];
        number /= base;
        minimum--;
    } while (number > 0 || minimum > 0);
    say(first);
}

static void show_word(uint64_t number)
{
    say(" ");
    say_digits(number, 10, 1);
}

static void show_signed(int64_t number)
{
    say(number < 0 ? " -" : " ");
    say_digits(number < 0 ? 0 - (uint64_t)number : (uint64_t)number, 10, 1);
}

static void show_int(int number)
{
    show_signed(number);
}

static void show_size(size_t number)
{
    show_word(number);
}

static uint64_t bits_of(double number)
{
    uint64_t bits;
    memcpy(&bits, &number, sizeof bits);
    return bits;
}

static void show_double(double number)
{
    if (number != number) {
        say(" nan");
        return;
    }
    say(" ");
    say_digits(bits_of(number), 16, 16);
}

static void say_call(const char *function, fer_status status)
{
    say(function);
    say(" ");
    say(fer_status_name(status));
}

static void show_layout(const char *name, size_t size, size_t alignment)
{
    say(name);
    show_size(size);
    show_size(alignment);
    say("\n");
}

static void show_offset(const char *name, size_t offset)
{
    say(name);
    show_size(offset);
    say("\n");
}

/* One number for many: FNV-1a over the bits (Fowler, Noll, Vo; from memory). */
static uint64_t mixed(uint64_t sum, double number)
{
    return (sum ^ (number == number ? bits_of(number) : 0)) * UINT64_C(0x100000001b3);
}

#endif
