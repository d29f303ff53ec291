/* SPDX-License-Identifier: MIT */
/* For components.py: what is left of words where the texts are left out. */
#include <ferrule/caution.h>

#include <string.h>

int main(void)
{
    const int names =
        strcmp(fer_status_name(FER_HOSE_INSIDE_OUT_OF_RANGE), "HOSE_INSIDE_OUT_OF_RANGE") == 0 &&
        strcmp(fer_caution_name(FER_CAUTION_CLOSING_DIES), "CLOSING_DIES") == 0;
    const int empty = fer_status_sentence(FER_HOSE_INSIDE_OUT_OF_RANGE)[0] == '\0' &&
                      fer_status_sentence((fer_status)4242)[0] == '\0' &&
                      fer_caution_text(FER_CAUTION_CLOSING_DIES)[0] == '\0';
    return names && empty ? 0 : 1;
}
