/* SPDX-License-Identifier: MIT */
/* Runs the checks of a fuzzer over inputs, with any compiler and without a fuzzer: over the lines of a list in base64
 * (tests/guard/fuzz/corpus/TARGET.txt), or over single files. */
#include "mutate.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Not every target has one. */
int LLVMFuzzerInitialize(int *count, char ***arguments) __attribute__((weak));

static size_t done;

/* In a block of just its size, so that a sanitizer sees where it ends. */
static void play(const uint8_t *data, size_t size)
{
    uint8_t *const block = malloc(size > 0 ? size : 1);
    if (!block) {
        exit(2);
    }
    memcpy(block, data, size);
    (void)LLVMFuzzerTestOneInput(block, size);
    free(block);
    done++;
}

/* A line of base64; bytes in place of the text. */
static size_t decode(char *line)
{
    static const char letters[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    uint32_t bits = 0;
    int count = 0;
    size_t size = 0;
    for (const char *at = line; *at && strchr(letters, *at); at++) {
        bits = bits << 6 | (uint32_t)(strchr(letters, *at) - letters);
        count += 6;
        if (count >= 8) {
            count -= 8;
            line[size++] = (char)(bits >> count & 0xFF);
        }
    }
    return size;
}

static void play_file(const char *path)
{
    static char data[1 << 20];
    const size_t length = strlen(path);
    FILE *const file = fopen(path, "rb");
    if (!file) {
        (void)fprintf(stderr, "cannot read %s\n", path);
        exit(2);
    }
    if (length > 4 && strcmp(path + length - 4, ".txt") == 0) {
        while (fgets(data, sizeof data, file)) {
            play((const uint8_t *)data, decode(data));
        }
    } else {
        play((const uint8_t *)data, fread(data, 1, sizeof data, file));
    }
    (void)fclose(file);
}

int main(int count, char **arguments)
{
    if (LLVMFuzzerInitialize) {
        (void)LLVMFuzzerInitialize(&count, &arguments);
    }
    for (int i = 1; i < count; i++) {
        play_file(arguments[i]);
    }
    (void)printf("%zu inputs\n", done);
    return done > 0 ? 0 : 1;
}
