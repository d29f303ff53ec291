/* SPDX-License-Identifier: MIT */
/* Checks that serve two callers: one that wants the first fault, and one that wants all of them. A check takes a visitor; without
 * one (NULL) the first broken rule ends it with its status, with one it visits each broken rule and ends with FER_OK. */
#ifndef FER_FAULTS_H
#define FER_FAULTS_H

#include "base/value_private.h"

typedef struct fer_fault_visitor fer_fault_visitor;

struct fer_fault_visitor {
    /* Members are bytes from the beginning of the whole: the one at fault, then two that its rule compares it with. */
    void (*visit)(fer_fault_visitor *visitor, fer_status status, size_t member, size_t second, size_t third);
    size_t base; /* where the struct that is checked begins in the whole */
};

static inline fer_status fer_visit(fer_fault_visitor *visitor, fer_status status, size_t member,
                                   size_t second, size_t third)
{
    FER_REQUIRE(visitor, status);
    visitor->visit(visitor, status, visitor->base + member, visitor->base + second, visitor->base + third);
    return FER_OK;
}

/* A rule about a member of the struct `type`, as the status of that member; in a function that returns a status. */
#define FER_RULE(visitor, type, member, status)                                                              \
    FER_RULE_BETWEEN(visitor, type, member, member, member, status)

/* One that compares a member with others: it is broken only where they keep to their own rules. */
#define FER_RULE_BETWEEN(visitor, type, member, second, third, status)                                       \
    do {                                                                                                     \
        const fer_status fer_rule_status = (status);                                                         \
        if (fer_rule_status != FER_OK) {                                                                     \
            FER_TRY(fer_visit(visitor, fer_rule_status, offsetof(type, member), offsetof(type, second),      \
                              offsetof(type, third)));                                                       \
        }                                                                                                    \
    } while (0)

/* The rules of a struct that begins so many bytes inside the one that is checked. */
#define FER_RULES_INSIDE(visitor, bytes, call)                                                               \
    do {                                                                                                     \
        fer_shift(visitor, bytes);                                                                           \
        FER_TRY(call);                                                                                       \
        fer_shift_back(visitor, bytes);                                                                      \
    } while (0)

static inline void fer_shift(fer_fault_visitor *visitor, size_t bytes)
{
    if (visitor) {
        visitor->base += bytes;
    }
}

static inline void fer_shift_back(fer_fault_visitor *visitor, size_t bytes)
{
    if (visitor) {
        visitor->base -= bytes;
    }
}

/* The status of a rule that is a condition. */
static inline fer_status fer_unless(int is_kept, fer_status status)
{
    return is_kept ? FER_OK : status;
}

#endif
