/* SPDX-License-Identifier: MIT */
/* Whether this processor has wider vectors than the compiler may count on. Asked anew each time: nothing is kept, and a
 * virtual machine takes microseconds for the answer. */
#ifndef FER_NUMERIC_PROCESSOR_H
#define FER_NUMERIC_PROCESSOR_H

#if defined(__x86_64__) && defined(__GNUC__)

#include <cpuid.h>

/* Bits of leaf 7 (ebx), and what of the registers the operating system has to save (XCR0): bits 1 and 2 for 256-bit
 * vectors, 5 to 7 too for 512-bit ones. */
#define FER_VECTORS_256 (1u << 5) /* AVX2 */
#define FER_SAVED_256   0x06u
#define FER_VECTORS_512 (1u << 16 | 1u << 17) /* AVX-512 F, DQ */
#define FER_SAVED_512   0xe6u

static inline unsigned fer_saved_registers(void)
{
    unsigned low, high;
    /* NOLINTNEXTLINE(hicpp-no-assembler): no builtin for it without a compiler's flag */
    __asm__("xgetbv" : "=a"(low), "=d"(high) : "c"(0));
    (void)high;
    return low;
}

static inline int fer_processor_has(unsigned vectors, unsigned saved)
{
    const unsigned first =
        1u << 27 | 1u << 12; /* the system says what it saves; FMA, which goes with all of these */
    unsigned a, b, c, d;
    /* GCOVR_EXCL_BR_START: the processor that runs the tests has the vectors or it has not */
    return __get_cpuid(1, &a, &b, &c, &d) && (c & first) == first &&
           __get_cpuid_count(7, 0, &a, &b, &c, &d) && (fer_saved_registers() & saved) == saved &&
           (b & vectors) == vectors;
    /* GCOVR_EXCL_BR_STOP */
}

#endif

#endif
