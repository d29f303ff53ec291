/* SPDX-License-Identifier: MIT */
/** @file
 * Lua values for the runtime. A value is named by its place on the stack, so what host_item() and host_member() push
 * is dropped in the opposite order. */
#ifndef FERRULE_BINDINGS_LUA_HOST_H
#define FERRULE_BINDINGS_LUA_HOST_H

#include <lua.h>
#include <lauxlib.h>

#include "script.h"

void bind_lua_start(lua_State *L); /* the module is on top of the stack */
size_t bind_lua_arguments(lua_State *L, bind_object *list, size_t maximum);

#endif
