# SPDX-License-Identifier: MIT
"""The machines and compilers that are compared: what each needs, how it is built, how its programs are run."""
import dataclasses
import pathlib

HERE = pathlib.Path(__file__).resolve().parent
REFERENCE = "gcc"


@dataclasses.dataclass
class Target:
    name: str
    about: str                     # machine and compiler, for the table
    packages: str = ""             # Debian packages besides tests/packages.sh
    settings: tuple = ()           # for CMake
    run: str = ""                  # what runs the program; {} is the program if it does not come last
    like: str = ""                 # another target's build, run in another way
    environment: dict = dataclasses.field(default_factory=dict)
    program: str = ""              # ending of the program's name
    refused: str = ""              # this compiler has to refuse every source that computes
    ci: bool = False               # part of tests/run.sh
    compiler: str = "gcc"          # asked for its version


def flags(text, kind="Plain"):
    """A build in which only the flags given here set the level, not those of the release build."""
    return (f"-DCMAKE_BUILD_TYPE={kind}", f"-DCMAKE_C_FLAGS={text}")


def clang(text="", kind="Plain"):
    return ("-DCMAKE_C_COMPILER=clang", *(flags(text, kind) if text else ()))


def linux(triple, name, packages, emulator, about, *settings):
    return Target(name, about, f"gcc-{triple} {packages} qemu-user",
                  (f"-DCMAKE_TOOLCHAIN_FILE={HERE}/toolchains/linux.cmake", f"-DFERRULE_TRIPLE={triple}", *settings),
                  f"{emulator} -L /usr/{triple}", compiler=f"{triple}-gcc")


def microcontroller(name, cpu, fpu, board, about, *settings):
    return Target(name, about, "gcc-arm-none-eabi libnewlib-arm-none-eabi qemu-system-arm",
                  (f"-DCMAKE_TOOLCHAIN_FILE={HERE}/toolchains/microcontroller.cmake", f"-DFERRULE_CPU={cpu}",
                   f"-DFERRULE_FPU={fpu}", f"-DFERRULE_START={HERE}/start.c", *settings),
                  f"qemu-system-arm -M {board} -display none -serial none -monitor none -kernel {{}} "
                  "-semihosting-config enable=on,target=native,arg=evaluate",
                  compiler="arm-none-eabi-gcc")


i386 = "libc6-dev-i386 lib32gcc-12-dev"
TARGETS = [
    Target(REFERENCE, "x86-64, gcc, release build: the reference", ci=True),
    Target("gcc-O0", "x86-64, gcc -O0", settings=flags("-O0"), ci=True),
    Target("gcc-Os", "x86-64, gcc -Os", settings=flags("-Os")),
    Target("gcc-O2", "x86-64, gcc -O2", settings=flags("-O2")),
    Target("gcc-O3", "x86-64, gcc -O3", settings=flags("-O3")),
    Target("gcc-lto", "x86-64, gcc -O2 -flto", settings=flags("-O2 -flto")),
    Target("gcc-native", "x86-64, gcc -O3 -march=native (fused multiply-add, AVX-512 where it is there)",
           settings=flags("-O3 -march=native")),
    Target("gcc-narrow", "x86-64, gcc, without the rows for wide vectors", settings=("-DCMAKE_C_FLAGS=-DFER_NARROW",)),
    Target("no-avx", "the reference's program on an x86-64 without AVX and FMA (QEMU: Nehalem)", "qemu-user", like=REFERENCE,
           run="qemu-x86_64 -cpu Nehalem"),
    Target("avx2", "the reference's program on an x86-64 with AVX2 and FMA, without AVX-512 (QEMU: Haswell)", "qemu-user",
           like=REFERENCE, run="qemu-x86_64 -cpu Haswell"),
    Target("no-fma", "the reference's program with the C library's functions for processors without FMA", like=REFERENCE,
           environment={"GLIBC_TUNABLES": "glibc.cpu.hwcaps=-FMA,-FMA_Usable,-AVX2,-AVX2_Usable,-FMA4"}, ci=True),
    Target("clang", "x86-64, clang, release build", settings=clang(), compiler="clang"),
    Target("clang-O0", "x86-64, clang -O0", settings=clang("-O0"), compiler="clang"),
    Target("clang-Os", "x86-64, clang -Os", settings=clang("-Os"), compiler="clang"),
    Target("clang-O2", "x86-64, clang -O2", settings=clang("-O2"), compiler="clang"),
    Target("clang-O3", "x86-64, clang -O3", settings=clang("-O3"), compiler="clang"),
    Target("clang-native", "x86-64, clang -O3 -march=native", settings=clang("-O3 -march=native"), compiler="clang", ci=True),
    Target("musl", "x86-64, gcc, musl's C library", "musl-tools",
           ("-DCMAKE_C_COMPILER=musl-gcc", "-DCMAKE_EXE_LINKER_FLAGS=-static"), ci=True),
    Target("i386", "i386, gcc, SSE2 (set by the library's own build)", i386, ("-DCMAKE_C_FLAGS=-m32",), ci=True),
    Target("i386-clang", "i386, clang, SSE2", i386, (*clang(), "-DCMAKE_C_FLAGS=-m32"), compiler="clang"),
    Target("i386-x87", "i386, gcc, extended precision (-mfpmath=387)", refused="gcc -m32 -mfpmath=387", ci=True),
    Target("by-hand", "x86-64, gcc -O3 -march=native, sources without the library's own flags",
           settings=(*flags("-O3 -march=native"), "-DFERRULE_BY_HAND=ON"), ci=True),
    Target("by-hand-clang", "x86-64, clang -O3 -march=native, sources without the library's own flags",
           settings=(*clang("-O3 -march=native"), "-DFERRULE_BY_HAND=ON"), compiler="clang"),
    linux("aarch64-linux-gnu", "aarch64", "libc6-dev-arm64-cross", "qemu-aarch64", "aarch64, gcc (QEMU)"),
    linux("aarch64-linux-gnu", "aarch64-by-hand", "libc6-dev-arm64-cross", "qemu-aarch64",
          "aarch64, gcc -O2 (QEMU), sources without the library's own flags", *flags("-O2"), "-DFERRULE_BY_HAND=ON"),
    linux("arm-linux-gnueabihf", "arm", "libc6-dev-armhf-cross", "qemu-arm", "ARM 32-bit with hard float, gcc (QEMU)"),
    linux("riscv64-linux-gnu", "riscv64", "libc6-dev-riscv64-cross", "qemu-riscv64", "RISC-V 64-bit, gcc (QEMU)"),
    linux("s390x-linux-gnu", "s390x", "libc6-dev-s390x-cross", "qemu-s390x", "s390x: big-endian, gcc (QEMU)"),
    linux("powerpc64-linux-gnu", "powerpc64", "libc6-dev-ppc64-cross", "qemu-ppc64", "PowerPC 64-bit: big-endian, gcc (QEMU)"),
    Target("windows", "Windows 64-bit, gcc (mingw-w64, Wine)", "gcc-mingw-w64-x86-64-win32 wine64",
           (f"-DCMAKE_TOOLCHAIN_FILE={HERE}/toolchains/windows.cmake",), "/usr/lib/wine/wine64",
           environment={"WINEDEBUG": "-all"}, program=".exe", compiler="x86_64-w64-mingw32-gcc"),
    Target("wasm", "WebAssembly, clang (Emscripten, Node)", "emscripten nodejs node-acorn",
           ("-DCMAKE_TOOLCHAIN_FILE=/usr/share/emscripten/cmake/Modules/Platform/Emscripten.cmake",
            "-DCMAKE_EXE_LINKER_FLAGS=-sNODERAWFS=1 -sALLOW_MEMORY_GROWTH=1 -sSINGLE_FILE=1 -sEXIT_RUNTIME=1"),
           "node", program=".js", compiler="emcc",
           environment={"NODE_PATH": "/usr/share/nodejs"}),  # for a Node that is not Debian's
    microcontroller("cortex-m0", "cortex-m0", "-mfloat-abi=soft", "mps2-an386", "Cortex-M0, gcc, no floating-point unit (QEMU)"),
    microcontroller("cortex-m4", "cortex-m4", "-mfpu=fpv4-sp-d16 -mfloat-abi=hard", "mps2-an386",
                    "Cortex-M4F, gcc, unit for single precision (QEMU)", "-DFERRULE_EXACT_SUM=ON"),
    microcontroller("cortex-m7", "cortex-m7", "-mfpu=fpv5-d16 -mfloat-abi=hard", "mps2-an500",
                    "Cortex-M7, gcc, unit for double precision (QEMU)"),
]
BY_NAME = {target.name: target for target in TARGETS}
