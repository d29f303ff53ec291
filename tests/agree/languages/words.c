/* SPDX-License-Identifier: MIT */
/* The compiled library of the C# package, called as the classes call it, so that valgrind can look at the code that it
 * shares with Java's: every way to be refused, results short and long, all of it given back.
 *
 * Usage: words LIBRARY COUNT   COUNT rounds; exit status 1 where something passes that must not */
#include <dlfcn.h>
#include <malloc.h>
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef const int64_t *(*call2)(const void *, const void *);
typedef const int64_t *(*call3)(const void *, const void *, const void *);
typedef const int64_t *(*call4)(const void *, const void *, const void *, const void *);

static void *library;
static int faults;

/* An object pointer as a function pointer, which C11 does not convert. */
#define FIND(call, name)                                                                                     \
    do {                                                                                                     \
        void *symbol = dlsym(library, "CSharp_Crimping_" name);                                              \
        if (!symbol)                                                                                         \
            exit(2);                                                                                         \
        memcpy(&(call), &symbol, sizeof symbol);                                                             \
    } while (0)

static int64_t word(double number)
{
    int64_t bits;
    memcpy(&bits, &number, sizeof bits);
    return bits;
}

static const int64_t *text(int64_t *buffer, const char *from, size_t length)
{
    memset(buffer, 0, 8 * (length / 8 + 2));
    buffer[0] = (int64_t)length;
    memcpy(buffer + 1, from, length);
    return buffer;
}

/* A result that has to be a failure (1) or not. */
static void expect(const int64_t *result, int is_failure, const char *what)
{
    if ((result[0] < 0) != is_failure) {
        fprintf(stderr, "%s: %lld\n", what, (long long)result[0]);
        faults++;
    }
}

static void refuse_diameters(void)
{
    const int64_t joint[] = {8, word(12.7), word(19.9), 0, word(12.95), 0, word(2.4), word(25.6), 0};
    const int64_t thick[] = {8, word(12.7), word(19.9), 0, word(19.9), 0, word(2.4), word(25.6), 0};
    const int64_t share[] = {1, word(0.2)}, none[] = {1, word(NAN)};
    const int64_t model[] = {2, 99, 0}, lower[] = {2, INT64_MIN, INT64_MAX};
    call3 diameter;
    FIND(diameter, "crimp_diameter");
    expect(diameter(joint, share, NULL), 0, "crimp_diameter");
    expect(diameter(NULL, share, NULL), 1, "no joint");
    expect(diameter(joint, NULL, NULL), 1, "no compression");
    expect(diameter(thick, share, NULL), 1, "rule");
    expect(diameter(joint, none, NULL), 1, "nan");
    expect(diameter(joint, share, model), 1, "unknown word");
    expect(diameter(joint, share, lower), 1, "unknown word, far out");
}

static void refuse_lists(void)
{
    const int64_t die[] = {4, word(16), 0, 0, 0}, empty[] = {0}, target[] = {1, word(25)};
    const int64_t bad_die[] = {8, word(16), 0, 0, 0, word(19), 0, INT64_MAX, 0};
    const int64_t key[] = {1, -1}, words[] = {4, 1, 2, 3, 4}, large[] = {4, 1, 2, INT64_C(1) << 32, 4};
    call3 purchases, summary;
    call2 random;
    FIND(purchases, "choose_purchases");
    FIND(summary, "summarise_readings");
    FIND(random, "find_random_words");
    expect(purchases(die, target, die), 1,
           "no die below"); /* the three lists and the module are there by then */
    expect(purchases(die, target, bad_die), 1, "third list");
    expect(purchases(die, NULL, die), 1, "no second list");
    expect(purchases(NULL, target, die), 1, "no list");
    expect(summary(empty, empty, NULL), 1, "empty list");
    expect(random(words, key), 0, "find_random_words");
    expect(random(large, key), 1, "too large");
}

static void refuse_texts(void)
{
    static const char long_text[2000] = "20";
    int64_t kind[4], function[4], argument[4], buffer[300];
    call4 read;
    call3 written;
    FIND(read, "read");
    FIND(written, "text");
    text(kind, "Ratio", 5);
    text(function, "crimp_diameter", 14);
    text(argument, "compression", 11);
    expect(read(kind, function, argument, text(buffer, "20 %", 4)), 0, "text");
    expect(read(kind, function, argument, NULL), 1, "no text");
    expect(read(kind, function, argument, text(buffer, "20", 2)), 1, "no unit");
    expect(read(kind, function, argument, text(buffer, "", 0)), 1, "empty text");
    expect(read(kind, function, argument, text(buffer, "20 \0%", 5)), 1, "zero byte");
    expect(read(kind, function, argument, text(buffer, long_text, sizeof long_text)), 1, "long text");
    expect(read(text(buffer, "Rat\0io", 6), function, argument, NULL), 1, "zero byte in a kind");
    expect(read(text(buffer, "Weight", 6), function, argument, NULL), 1, "no such kind");
    expect(read(NULL, function, argument, NULL), 1, "no kind");
    expect(written(kind, text(buffer, "", 0), NULL), 1, "no form");
}

static void take_long_results(void)
{
    int64_t dies[1 + 600 * 4] = {600 * 4};
    const int64_t over[] = {2, word(10), word(6000)};
    call2 gaps;
    void (*done)(void);
    FIND(gaps, "find_coverage_gaps");
    FIND(done, "done");
    for (int i = 0; i < 600; i++)
        dies[1 + 4 * i] = word(10.0 * (i + 1));
    const int64_t *result = gaps(dies, over);
    expect(result, 0, "find_coverage_gaps");
    if (result[0] < 1024 || result[0] != 1 + 2 * result[1])
        faults++;
    done();
}

int main(int count, char **arguments)
{
    if (count != 3 || !(library = dlopen(arguments[1], RTLD_NOW))) {
        fprintf(stderr, "%s\n", count == 3 ? dlerror() : "words LIBRARY COUNT");
        return 2;
    }
    size_t before = 0;
    const int rounds = atoi(arguments[2]);
    for (int i = 0; i < rounds; i++) {
        if (i == rounds / 2)
            before = mallinfo2().uordblks;
        refuse_diameters();
        refuse_lists();
        refuse_texts();
        take_long_results();
    }
    const size_t after = mallinfo2().uordblks;
    printf("%d rounds: %zu bytes in the middle, %zu at the end\n", rounds, before, after);
    return faults || after > before;
}
