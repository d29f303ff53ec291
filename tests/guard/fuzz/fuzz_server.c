/* SPDX-License-Identifier: MIT */
/* Loaded into the process of a PostgreSQL server for the fuzzer: every piece of memory that the server takes is a block of
 * malloc of just its size, so that the address sanitizer sees where it ends and when it is given back; and SQL functions that
 * tell how much memory is taken and what of the extension's code has been reached. */
#define _GNU_SOURCE /* dladdr() */

#include <postgres.h>

#include <fmgr.h>
#include <nodes/memnodes.h>
#include <utils/builtins.h>
#include <utils/memutils.h>

#include <dlfcn.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <unistd.h>

#if PG_VERSION_NUM >= 160000
#error "from PostgreSQL 16 on, what stands before a piece of memory is something else"
#endif

PG_MODULE_MAGIC;

void _PG_init(void);
size_t __sanitizer_get_current_allocated_bytes(void) __attribute__((weak));

/* ---- memory ----------------------------------------------------------------------------------------------- */

/* In front of each block; PostgreSQL looks for the context just before what it was given. The server's own blocks have an even
 * number in the place of mark. */
typedef struct piece {
    struct piece *before, *after;
    Size mark;
    MemoryContext context;
} piece;

enum { LISTS = 4096 };

static piece lists[LISTS]; /* heads; of the contexts whose address ends in their number */
static MemoryContextMethods servers;

static piece *list_of(MemoryContext context)
{
    piece *const list = &lists[(uintptr_t)context / 16 % LISTS];
    if (!list->after)
        list->before = list->after = list;
    return list;
}

static piece *ours(void *pointer)
{
    piece *const p = (piece *)pointer - 1;
    return p->mark & 1 ? p : NULL;
}

static Size size_of(const piece *p)
{
    return p->mark >> 1;
}

static void *take(MemoryContext context, Size size)
{
    piece *const list = list_of(context), *const p = malloc(sizeof *p + size);
    if (!p)
        return NULL;
    *p = (piece){list, list->after, size << 1 | 1, context};
    list->after->before = p;
    list->after = p;
    return p + 1;
}

static void drop(piece *p)
{
    p->before->after = p->after;
    p->after->before = p->before;
    free(p);
}

static void give_back(MemoryContext context, void *pointer)
{
    if (ours(pointer))
        drop(ours(pointer));
    else
        servers.free_p(context, pointer);
}

static void *change(MemoryContext context, void *pointer, Size size)
{
    piece *const p = ours(pointer);
    if (!p)
        return servers.realloc(context, pointer, size);
    void *const made = take(context, size);
    if (made) {
        memcpy(made, pointer, size < size_of(p) ? size : size_of(p));
        drop(p);
    }
    return made;
}

static void drop_all(MemoryContext context)
{
    piece *const list = list_of(context);
    for (piece *p = list->after, *next; p != list; p = next) {
        next = p->after;
        if (p->context == context)
            drop(p);
    }
}

static void reset(MemoryContext context)
{
    drop_all(context);
    servers.reset(context);
}

static void delete_context(MemoryContext context)
{
    drop_all(context);
    servers.delete_context(context);
}

static Size space(MemoryContext context, void *pointer)
{
    const piece *const p = ours(pointer);
    return p ? sizeof *p + size_of(p) : servers.get_chunk_space(context, pointer);
}

/* The server's own table of functions for the usual kind of context, in this process alone. */
void _PG_init(void)
{
    MemoryContextMethods *const methods = (MemoryContextMethods *)(uintptr_t)TopMemoryContext->methods;
    const uintptr_t page = (uintptr_t)sysconf(_SC_PAGESIZE), start = (uintptr_t)methods / page * page;
    if (mprotect((void *)start, (uintptr_t)(methods + 1) - start, PROT_READ | PROT_WRITE) != 0)
        elog(ERROR, "the table of functions cannot be changed");
    servers = *methods;
    methods->alloc = take;
    methods->free_p = give_back;
    methods->realloc = change;
    methods->reset = reset;
    methods->delete_context = delete_context;
    methods->get_chunk_space = space;
}

/* fuzz_taken() RETURNS bigint: bytes that are taken, NULL without a sanitizer that knows. */
PG_FUNCTION_INFO_V1(fuzz_taken);
Datum fuzz_taken(PG_FUNCTION_ARGS);
Datum fuzz_taken(PG_FUNCTION_ARGS)
{
    if (!__sanitizer_get_current_allocated_bytes)
        PG_RETURN_NULL();
    PG_RETURN_INT64((int64)__sanitizer_get_current_allocated_bytes());
}

/* ---- what has been reached -------------------------------------------------------------------------------- */

static uint8_t *counters;
static size_t counter_count;
static uint8_t *seen; /* bits of how often */

/* fuzz_watch(module text, symbol text, place bigint, size bigint): the counters lie at that place of a module. */
PG_FUNCTION_INFO_V1(fuzz_watch);
Datum fuzz_watch(PG_FUNCTION_ARGS);
Datum fuzz_watch(PG_FUNCTION_ARGS)
{
    Dl_info about;
    char *const module = text_to_cstring(PG_GETARG_TEXT_PP(0)), *const symbol =
                                                                    text_to_cstring(PG_GETARG_TEXT_PP(1));
    void *const function = (void *)(uintptr_t)load_external_function(module, symbol, true, NULL);
    if (!dladdr(function, &about))
        elog(ERROR, "%s is not to be found", module);
    counters = (uint8_t *)about.dli_fbase + PG_GETARG_INT64(2);
    counter_count = (size_t)PG_GETARG_INT64(3);
    seen = calloc(counter_count, 1);
    PG_RETURN_VOID();
}

static uint8_t often(uint8_t times)
{
    static const uint8_t minimum[] = {128, 32, 16, 8, 4, 3, 2};
    for (int i = 0; i < 7; i++)
        if (times >= minimum[i])
            return (uint8_t)(128 >> i);
    return 1;
}

/* fuzz_reached() RETURNS bigint: how many places were reached as often as never before, since the last time. */
PG_FUNCTION_INFO_V1(fuzz_reached);
Datum fuzz_reached(PG_FUNCTION_ARGS);
Datum fuzz_reached(PG_FUNCTION_ARGS)
{
    int64 fresh = 0;
    (void)fcinfo;
    for (size_t i = 0; seen && i < counter_count; i++) {
        if (counters[i] && !(seen[i] & often(counters[i]))) {
            seen[i] |= often(counters[i]);
            fresh++;
        }
        counters[i] = 0;
    }
    PG_RETURN_INT64(fresh);
}

/* fuzz_places(), fuzz_features() RETURNS bigint: all that has been reached, and how often counted apart. */
PG_FUNCTION_INFO_V1(fuzz_places);
Datum fuzz_places(PG_FUNCTION_ARGS);
Datum fuzz_places(PG_FUNCTION_ARGS)
{
    int64 places = 0;
    (void)fcinfo;
    for (size_t i = 0; seen && i < counter_count; i++)
        places += seen[i] != 0;
    PG_RETURN_INT64(places);
}

PG_FUNCTION_INFO_V1(fuzz_features);
Datum fuzz_features(PG_FUNCTION_ARGS);
Datum fuzz_features(PG_FUNCTION_ARGS)
{
    int64 features = 0;
    (void)fcinfo;
    for (size_t i = 0; seen && i < counter_count; i++)
        features += __builtin_popcount(seen[i]);
    PG_RETURN_INT64(features);
}
