/* SPDX-License-Identifier: MIT */
#include <ferrule/ferrule.h>

#include <stdio.h>

/* A year's work, dies on offer with prices: invented. */
static const fer_demand demands[] = {{.target = {23.51}, .weight = 600},
                                     {.target = {27.30}, .weight = 400},
                                     {.target = {15.32}, .weight = 1000},
                                     {.target = {29.60}, .weight = 200},
                                     {.target = {48.56}, .weight = 150}};
static const fer_offer offers[] = {{{.size = {13}, .reach = {4}}, 180},
                                   {{.size = {22}}, 210},
                                   {{.size = {25}}, 210},
                                   {{.size = {28}}, 240},
                                   {{.size = {46}}, 390}};
static fer_work work[4096];

int main(void)
{
    fer_rack points[8], rack;
    size_t count = 0, purchases[5], bought = 0;
    const fer_rack_aim budget = {.price_maximum = 500};
    if (fer_find_rack_curve(NULL, 0, demands, 5, offers, 5, NULL, 0, (fer_rack_aim){0}, work, 4096, points, 8,
                            &count) != FER_OK) {
        return 1;
    }
    for (size_t i = 0; i < count; i++) {
        printf("%5.0f: %.0f %% of the pieces, %zu dies\n", points[i].price, 100 * points[i].reached.fraction,
               points[i].bought);
    }
    if (fer_choose_rack(NULL, 0, demands, 5, offers, 5, NULL, 0, budget, work, 4096, purchases, 5, &bought,
                        &rack) != FER_OK) {
        return 1;
    }
    printf("for 500 at most:");
    for (size_t i = 0; i < bought; i++) {
        printf(" %g mm", offers[purchases[i]].die.size.mm);
    }
    printf("%s\n", rack.optimal ? "; nothing better for this price" : "");
    return 0;
}
