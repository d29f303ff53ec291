/* SPDX-License-Identifier: MIT */
/** @file
 * Ruby values for the runtime. Ruby's false is 0, which the runtime takes for none, so it goes as another constant. */
#ifndef FERRULE_BINDINGS_RUBY_HOST_H
#define FERRULE_BINDINGS_RUBY_HOST_H

#include <ruby.h>
#include <ruby/encoding.h>

#include "script.h"

static inline bind_object bind_ruby_object(VALUE value)
{
    return (bind_object)(value == Qfalse ? (VALUE)Qundef : value);
}

static inline VALUE bind_ruby_value(bind_object object)
{
    return (VALUE)object == (VALUE)Qundef ? (VALUE)Qfalse : (VALUE)object;
}

void bind_ruby_start(void);
size_t bind_ruby_arguments(int argc, const VALUE *argv, bind_object *list, size_t maximum);
VALUE bind_ruby_append(VALUE results, int *count, VALUE result);
void bind_ruby_free(VALUE hold);

#endif
