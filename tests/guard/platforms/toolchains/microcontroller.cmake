# SPDX-License-Identifier: MIT
# Bare Arm microcontrollers with Debian's gcc-arm-none-eabi and newlib: -DFERRULE_CPU=cortex-m4 and so on, with what the
# core's floating-point unit needs in -DFERRULE_FPU. The library is built as for any other target; what is special are
# start.c and memory.ld, which belong to the test program.
set(CMAKE_SYSTEM_NAME Generic)
set(CMAKE_SYSTEM_PROCESSOR ${FERRULE_CPU})
set(CMAKE_C_COMPILER arm-none-eabi-gcc)
list(APPEND CMAKE_TRY_COMPILE_PLATFORM_VARIABLES FERRULE_CPU FERRULE_FPU FERRULE_MORE_FLAGS)
set(CMAKE_TRY_COMPILE_TARGET_TYPE STATIC_LIBRARY)
set(CMAKE_C_FLAGS_INIT
    "-mcpu=${FERRULE_CPU} -mthumb ${FERRULE_FPU} -ffreestanding -ffunction-sections -fdata-sections ${FERRULE_MORE_FLAGS}")
set(CMAKE_EXE_LINKER_FLAGS_INIT "--specs=rdimon.specs -T ${CMAKE_CURRENT_LIST_DIR}/../memory.ld -Wl,--gc-sections")
set(CMAKE_FIND_ROOT_PATH_MODE_PROGRAM NEVER)
