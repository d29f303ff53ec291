/* SPDX-License-Identifier: MIT */
/* Every public function through raw bytes. The first two bytes choose it, the rest are its arguments. FUZZ_PART says
 * which functions: 0 structs, 1 lists and columns, 2 those that simulate or diagnose. Together they are all of them. */
#include "frame.h"
#include "mutate.h"

static int takes_lists(const fuzz_call *call)
{
    for (const fuzz_parameter *p = call->parameters; p->role; p++) {
        if (p->role == FUZZ_LIST || p->role == FUZZ_ROWS) {
            return 1;
        }
    }
    return 0;
}

static int part_of(const fuzz_call *call)
{
    return call->is_slow ? 2 : takes_lists(call);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    fuzz_stream stream = {data, size, 0, {0.0}, 0, 0};
    const unsigned high = fuzz_byte(&stream);
    const fuzz_call *call = fuzz_choose(high << 8 | fuzz_byte(&stream));
    while (part_of(call) != FUZZ_PART) {
        call = call + 1 < fuzz_calls + fuzz_call_count ? call + 1 : fuzz_calls;
    }
    fuzz_check_call(&stream, call);
    return 0;
}
