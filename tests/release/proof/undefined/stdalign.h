/* SPDX-License-Identifier: MIT */
/* stdalign.h for Eva, which does not know _Alignof: the alignment of a type as the layout of a struct shows it. */
#ifndef PROOF_STDALIGN_H
#define PROOF_STDALIGN_H
#define alignof(type)                                                                                        \
    ((unsigned long)&((struct {                                                                              \
         char before;                                                                                        \
         type asked;                                                                                         \
     } *)0)                                                                                                  \
         ->asked)
#endif
