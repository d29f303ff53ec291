/* SPDX-License-Identifier: MIT */
/* Where a microcontroller under QEMU begins. Its loader has put code and data in place; newlib does the rest. */
#include <stdint.h>

extern char __stack[];
_Noreturn void _start(void);
_Noreturn void start(void);
static void stop(void);

/* The floating-point unit is off at first; a core without one has nothing at this address. */
_Noreturn void start(void)
{
#if defined(__ARM_FP)
    volatile uint32_t *const coprocessors = (volatile uint32_t *)0xe000ed88u;
    *coprocessors |= 0xfu << 20;
    __asm__ volatile("dsb\n isb");
#endif
    _start();
}

/* A fault ends the program with an error: SYS_EXIT with another reason than the usual. */
static void stop(void)
{
    __asm__ volatile("mov r0, #0x18\n movs r1, #0\n bkpt 0xab");
    for (;;) {
    }
}

typedef union {
    void *stack;
    void (*handler)(void);
} vector;

__attribute__((section(".vectors"), used)) static const vector vectors[16] = {
    {__stack},         {.handler = start}, {.handler = stop}, {.handler = stop},
    {.handler = stop}, {.handler = stop},  {.handler = stop}};
