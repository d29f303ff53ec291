/* SPDX-License-Identifier: MIT */
/** @file
 * Perl values for the runtime. */
#ifndef FERRULE_BINDINGS_PERL_HOST_H
#define FERRULE_BINDINGS_PERL_HOST_H

#include <EXTERN.h>
#include <perl.h>
#include <XSUB.h>

#include "script.h"

size_t bind_perl_arguments(SV **arguments, size_t given, bind_object *list, size_t maximum);
void bind_perl_count(bind_host *host, const char *usage, size_t given);

#endif
