/* SPDX-License-Identifier: MIT */
#include "host.h"

#include <stdlib.h>
#include <string.h>

const bind_language host_language = {.first_place = 1,
                                     .maker = "ferrule.%s(%s)",
                                     .wanted = {"a %s: a table with ", ""},
                                     .style = &bind_plain_style};

static const char metatables; /* its address is the registry's key of the list of metatables */
static const char kind_key;   /* its address is each metatable's key of its kind */

static lua_State *state(bind_host *host)
{
    return (lua_State *)host;
}

static int place(bind_object object)
{
    return (int)(intptr_t)object;
}

static bind_object top(bind_host *host)
{
    return (bind_object)(intptr_t)lua_gettop(state(host));
}

/* ---- looking ---------------------------------------------------------------------------------------------- */

int host_is_nothing(bind_host *host, bind_object object)
{
    return lua_isnoneornil(state(host), place(object));
}

const bind_kind *host_kind(bind_host *host, bind_object object)
{
    lua_State *L = state(host);
    luaL_checkstack(L, 8, NULL);
    if (!lua_getmetatable(L, place(object)))
        return NULL;
    lua_rawgetp(L, -1, &kind_key);
    const bind_kind *kind = lua_touserdata(L, -1);
    lua_pop(L, 2);
    if (kind && lua_type(L, place(object)) != (kind->members ? LUA_TTABLE : LUA_TUSERDATA))
        return NULL;
    return kind;
}

int host_value(bind_host *host, const bind_kind *kind, bind_object object, void *to)
{
    if (kind->members || host_kind(host, object) != kind)
        return 0;
    memcpy(to, lua_touserdata(state(host), place(object)), kind->size);
    return 1;
}

const char *host_text(bind_host *host, bind_object object, size_t *length)
{
    if (lua_type(state(host), place(object)) != LUA_TSTRING)
        return NULL;
    return lua_tolstring(state(host), place(object), length);
}

int host_number(bind_host *host, bind_object object, double *number)
{
    if (lua_type(state(host), place(object)) != LUA_TNUMBER)
        return 0;
    *number = lua_tonumber(state(host), place(object));
    return 1;
}

int host_integer(bind_host *host, bind_object object, uint64_t *number)
{
    int is_whole = 0;
    double real;
    if (lua_type(state(host), place(object)) == LUA_TNUMBER)
        *number = (uint64_t)lua_tointegerx(state(host), place(object), &is_whole);
    if (is_whole || !host_number(host, object, &real))
        return is_whole;
    return real >= 0x1p63 || real < -0x1p63 ? -1 : 0;
}

int host_bool(bind_host *host, bind_object object, int *is_true)
{
    *is_true = lua_toboolean(state(host), place(object));
    return lua_isboolean(state(host), place(object));
}

/* A table of ours or with a name in it is no list. */
int host_list(bind_host *host, bind_object *whole, int is_struct, size_t *count)
{
    lua_State *L = state(host);
    int is_list = 1;
    (void)is_struct;
    if (!lua_istable(L, place(*whole)))
        return 0;
    *count = lua_rawlen(L, place(*whole));
    if (*count)
        return 1;
    luaL_checkstack(L, 8, NULL);
    lua_pushnil(L);
    if (lua_next(L, place(*whole))) {
        is_list = 0;
        lua_pop(L, 2);
    }
    return is_list;
}

bind_object host_item(bind_host *host, bind_object object, size_t i)
{
    luaL_checkstack(state(host), 8, NULL);
    lua_rawgeti(state(host), place(object), (lua_Integer)i + 1);
    return top(host);
}

int host_table(bind_host *host, bind_object object, const bind_kind *kind)
{
    (void)kind;
    return lua_istable(state(host), place(object)) && lua_rawlen(state(host), place(object)) == 0;
}

bind_object host_member(bind_host *host, bind_object object, const bind_kind *kind, size_t i)
{
    lua_State *L = state(host);
    luaL_checkstack(L, 8, NULL);
    lua_pushstring(L, kind->members[i].name);
    if (lua_rawget(L, place(object)) != LUA_TNIL)
        return top(host);
    lua_pop(L, 1);
    return NULL;
}

int host_stranger(bind_host *host, bind_object object, const bind_kind *kind, size_t found, char *name,
                  size_t capacity)
{
    (void)found;
    lua_State *L = state(host);
    int is_found = 0;
    lua_pushnil(L);
    while (!is_found && lua_next(L, place(object))) {
        size_t length = 0;
        const char *text = lua_type(L, -2) == LUA_TSTRING ? lua_tolstring(L, -2, &length) : NULL;
        is_found = !text || !bind_is_member(kind, text, length);
        if (is_found) {
            strncpy(name, text ? text : luaL_typename(L, -2), capacity - 1);
            name[capacity - 1] = 0;
        }
        lua_pop(L, is_found ? 2 : 1);
    }
    return is_found;
}

void host_drop(bind_host *host, bind_object object)
{
    lua_settop(state(host), place(object) - 1);
}

const char *host_type(bind_host *host, bind_object object)
{
    const int type = lua_type(state(host), place(object));
    if (type == LUA_TBOOLEAN)
        return lua_toboolean(state(host), place(object)) ? "true" : "false";
    return type == LUA_TTABLE ? "a table" : type == LUA_TNONE ? "nothing" : lua_typename(state(host), type);
}

/* ---- making ----------------------------------------------------------------------------------------------- */

static void set_metatable(lua_State *L, const bind_kind *kind)
{
    lua_rawgetp(L, LUA_REGISTRYINDEX, &metatables);
    lua_rawgeti(L, -1, kind - bind_kinds + 1);
    lua_setmetatable(L, -3);
    lua_pop(L, 1);
}

bind_object host_new_quantity(bind_host *host, const bind_kind *kind, double base)
{
    luaL_checkstack(state(host), 8, NULL);
    *(double *)lua_newuserdatauv(state(host), sizeof base, 0) = base;
    set_metatable(state(host), kind);
    return top(host);
}

bind_object host_new_number(bind_host *host, double number)
{
    luaL_checkstack(state(host), 8, NULL);
    lua_pushnumber(state(host), number);
    return top(host);
}

bind_object host_new_integer(bind_host *host, int64_t number)
{
    luaL_checkstack(state(host), 8, NULL);
    lua_pushinteger(state(host), number);
    return top(host);
}

bind_object host_new_unsigned(bind_host *host, uint64_t number)
{
    return host_new_integer(host, (int64_t)number);
}

bind_object host_new_bool(bind_host *host, int is_true)
{
    luaL_checkstack(state(host), 8, NULL);
    lua_pushboolean(state(host), is_true);
    return top(host);
}

bind_object host_new_text(bind_host *host, const char *text, size_t length)
{
    luaL_checkstack(state(host), 8, NULL);
    lua_pushlstring(state(host), text, length);
    return top(host);
}

bind_object host_new_word(bind_host *host, const bind_kind *kind, const char *name)
{
    (void)kind;
    return host_new_text(host, name, strlen(name));
}

bind_object host_new_list(bind_host *host)
{
    luaL_checkstack(state(host), 8, NULL);
    lua_newtable(state(host));
    return top(host);
}

void host_put_item(bind_host *host, bind_object list, bind_object item)
{
    (void)item; /* on top */
    lua_rawseti(state(host), place(list), (lua_Integer)lua_rawlen(state(host), place(list)) + 1);
}

bind_object host_new_table(bind_host *host, const bind_kind *kind)
{
    const bind_object table = host_new_list(host);
    if (kind)
        set_metatable(state(host), kind);
    return table;
}

void host_put_member(bind_host *host, bind_object table, const char *name, bind_object value)
{
    (void)value; /* on top */
    lua_pushstring(state(host), name);
    lua_insert(state(host), -2);
    lua_rawset(state(host), place(table));
}

void *host_memory(bind_host *host, size_t bytes)
{
    void *memory = malloc(bytes);
    if (!memory)
        lua_pushliteral(state(host), "not enough memory");
    return memory;
}

void host_give_back(bind_host *host, void *memory)
{
    (void)host;
    free(memory);
}

/* ---- errors, start ---------------------------------------------------------------------------------------- */

static void set_text(lua_State *L, const char *name, const char *text)
{
    lua_pushstring(L, text);
    lua_setfield(L, -2, name);
}

/* Where the library was called: not in ferrule.lua, nor in C. */
static void push_where(lua_State *L)
{
    lua_Debug at;
    for (int level = 1; lua_getstack(L, level, &at); level++) {
        lua_getinfo(L, "Sl", &at);
        const size_t length = strlen(at.source);
        if (at.currentline > 0 && (length < 11 || strcmp(at.source + length - 11, "ferrule.lua") != 0)) {
            lua_pushfstring(L, "%s:%d: ", at.short_src, at.currentline);
            return;
        }
    }
    lua_pushliteral(L, "");
}

/* {message=, where=, class=, name=, code=, call=, path=}; the wrapper raises it. */
void host_fail(bind_host *host, const bind_failure *failure)
{
    lua_State *L = state(host);
    char class[32];
    bind_error_class(failure, class, sizeof class);
    luaL_checkstack(L, 8, NULL);
    lua_newtable(L);
    push_where(L);
    lua_setfield(L, -2, "where");
    set_text(L, "message", failure->message);
    set_text(L, "class", class);
    set_text(L, "call", failure->function);
    if (failure->path[0])
        set_text(L, "path", failure->path);
    if (failure->status != FER_OK) {
        set_text(L, "name", bind_status_name(failure->status));
        lua_pushinteger(L, failure->status);
        lua_setfield(L, -2, "code");
    }
    lua_rawgetp(L, LUA_REGISTRYINDEX, &metatables);
    lua_rawgeti(L, -1, 0);
    lua_setmetatable(L, -3);
    lua_pop(L, 1);
}

size_t bind_lua_arguments(lua_State *L, bind_object *list, size_t maximum)
{
    const size_t count = (size_t)lua_gettop(L) < maximum ? (size_t)lua_gettop(L) : maximum;
    for (size_t i = 0; i < count; i++)
        list[i] = (bind_object)(intptr_t)(i + 1);
    return count;
}

/* module.metatables: one by the name of each kind, and "Error"; ferrule.lua gives them their methods. */
void bind_lua_start(lua_State *L)
{
    const int module = lua_gettop(L);
    lua_newtable(L); /* list, for the registry */
    lua_newtable(L); /* by name */
    for (const bind_kind *kind = bind_kinds; kind < bind_kinds + BIND_COUNT; kind++) {
        lua_newtable(L);
        set_text(L, "__name", kind->name);
        lua_pushlightuserdata(L, (void *)(uintptr_t)kind);
        lua_rawsetp(L, -2, &kind_key);
        lua_pushvalue(L, -1);
        lua_setfield(L, -3, kind->name);
        lua_rawseti(L, -3, kind - bind_kinds + 1);
    }
    lua_newtable(L);
    lua_pushvalue(L, -1);
    lua_setfield(L, -3, "Error");
    lua_rawseti(L, -3, 0);
    lua_setfield(L, module, "metatables");
    lua_rawsetp(L, LUA_REGISTRYINDEX, &metatables);
}
