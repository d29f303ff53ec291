// SPDX-License-Identifier: MIT
// The same as outside.c from C++.
#include <ferrule/ferrule.h>

#include <cstdio>

int main()
{
    fer_joint joint = fer_joint();
    joint.hose.inside = fer_mm(12.7);
    joint.hose.outside = fer_mm(19.9);
    joint.stem.outside = fer_mm(12.95);
    joint.ferrule.wall = fer_mm(2.4);
    fer_length diameter;
    const fer_status status = fer_crimp_diameter(&joint, fer_percent(20), fer_model(), &diameter);
    if (status != FER_OK) {
        std::printf("%s\n", fer_status_sentence(status));
        return 1;
    }
    std::printf("%.2f mm\n", fer_to_mm(diameter));
    return 0;
}
