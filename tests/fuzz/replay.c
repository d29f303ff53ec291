/* SPDX-License-Identifier: MIT */
/* Runs the checks of a fuzzer over the files of a folder, or over single files: with any compiler, without a fuzzer. */
#include "mutate.h"

#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static size_t done;

static void play(const char *path)
{
    static uint8_t data[1 << 20];
    FILE *const file = fopen(path, "rb");
    if (!file) {
        (void)fprintf(stderr, "cannot read %s\n", path);
        exit(2);
    }
    const size_t size = fread(data, 1, sizeof data, file);
    (void)fclose(file);
    uint8_t *const block = malloc(size > 0 ? size : 1);
    if (!block) {
        exit(2);
    }
    memcpy(block, data, size);
    (void)LLVMFuzzerTestOneInput(block, size);
    free(block);
    done++;
}

static void play_all(const char *path)
{
    DIR *const folder = opendir(path);
    char inner[4096];
    if (!folder) {
        play(path);
        return;
    }
    for (const struct dirent *entry = readdir(folder); entry; entry = readdir(folder)) {
        if (entry->d_name[0] != '.' &&
            snprintf(inner, sizeof inner, "%s/%s", path, entry->d_name) < (int)sizeof inner) {
            play(inner);
        }
    }
    (void)closedir(folder);
}

int main(int count, char **arguments)
{
    for (int i = 1; i < count; i++) {
        play_all(arguments[i]);
    }
    (void)printf("%zu inputs\n", done);
    return done > 0 ? 0 : 1;
}
