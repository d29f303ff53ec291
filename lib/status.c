/* SPDX-License-Identifier: MIT */
#include <ferrule/status.h>

const char *fer_status_name(fer_status status)
{
    switch (status) {
#define FER_STATUS_NAME(name, number, sentence)                                                              \
    case FER_##name:                                                                                         \
        return #name;
        FER_STATUS_LIST(FER_STATUS_NAME)
#undef FER_STATUS_NAME
    }
    return "UNKNOWN";
}

const char *fer_status_sentence(fer_status status)
{
    switch (status) {
#define FER_STATUS_SENTENCE(name, number, sentence)                                                          \
    case FER_##name:                                                                                         \
        return sentence;
        FER_STATUS_LIST(FER_STATUS_SENTENCE)
#undef FER_STATUS_SENTENCE
    }
    return "this number is not a status of this library";
}
