/* SPDX-License-Identifier: MIT */
/* Typemaps for every language, by the rules of the headers: a pointer to const is an input, any other pointer a
 * result, (const T *LIST, size_t COUNT) a list, (T *ROOM, size_t CAPACITY, size_t *FOUND) a list of results (text where
 * T is char), fer_status an exception. describe.py applies the lists to the names that the headers use.
 *
 * A language gives these primitives in its primitives.i; each of them that can fail jumps to `fail`:
 *   FER_TAKE(T, object, to, function, argument)              object into the C value *to
 *   FER_TAKE_LIST(T, object, list, count, function, argument)  into a new array
 *   FER_TAKE_TEXT(object, text, length, function, argument)  into UTF-8, valid as long as the object
 *   FER_IS_LEFT_OUT(object)                                  whether an argument with a default is not given
 *   FER_GIVE(T, from)                                        C value *from as a new object
 *   FER_GIVE_LIST(T, from, count), FER_GIVE_TEXT(text, length)
 *   FER_RETURN(result, object)                               the one result of a call that returns it
 *   FER_APPEND(results, object)                              one more result of a call
 *   FER_NOTHING(results)                                     no result yet
 *   FER_RAISE(status, function)                              the exception
 *   FER_MEMORY(T, list, count), FER_FREE(list)                 an array for results, and the end of it and of inputs
 *   FER_WORK(list, count)                                      working memory besides it, where FER_MEMORY has but one array
 * and, if it likes, FER_WARN_OLD(text): its warning of what will go.
 * FER_MAXIMUM_RESULTS is the capacity of such an array. FER_LONG_CALL(FUNCTION) is a macro of SWIG that says what happens round a
 * call that may run long. */

%define FER_KIND(T)
%typemap(in, noblock=1) T, const T { FER_TAKE(T, $input, &$1, "$symname", "$1_name"); }
%typemap(out, noblock=1) T { FER_RETURN($result, FER_GIVE(T, &$1)); }
%typemap(argout) const T * "";
%typemap(in, noblock=1) const T * (T taken) { FER_TAKE(T, $input, &taken, "$symname", "$1_name"); $1 = &taken; }
%typemap(in, numinputs=0, noblock=1) T * (T result) { $1 = &result; }
%typemap(argout, noblock=1) T * { FER_APPEND($result, FER_GIVE(T, $1)); }
%typemap(in, noblock=1) (const T *LIST, size_t COUNT) { FER_TAKE_LIST(T, $input, $1, $2, "$symname", "$1_name"); }
%typemap(freearg, noblock=1) (const T *LIST, size_t COUNT) { FER_FREE($1); }
%typemap(in, numinputs=0, noblock=1) (T *ROOM, size_t CAPACITY, size_t *FOUND) (size_t found = 0) {
    FER_MEMORY(T, $1, FER_MAXIMUM_RESULTS); $2 = FER_MAXIMUM_RESULTS; $3 = &found;
}
%typemap(argout, noblock=1) (T *ROOM, size_t CAPACITY, size_t *FOUND) { FER_APPEND($result, FER_GIVE_LIST(T, $1, *$3)); }
%typemap(freearg, noblock=1) (T *ROOM, size_t CAPACITY, size_t *FOUND) { FER_FREE($1); }
%enddef

/* A struct that may be left out: %apply T MAY_LACK { T NAME }; */
%define FER_MAY_LACK(T)
%typemap(default, noblock=1) T MAY_LACK { memset(&$1, 0, sizeof(T)); }
%typemap(in, noblock=1) T MAY_LACK { if (!FER_IS_LEFT_OUT($input)) FER_TAKE(T, $input, &$1, "$symname", "$1_name"); }
%enddef

/* Working memory, which other languages give by themselves. */
%{
#ifndef FER_WORK
#define FER_WORK(list, count) FER_MEMORY(fer_work, list, count)
#endif
%}
%typemap(in, numinputs=0, noblock=1) (fer_work *WORK, size_t WORDS) { FER_WORK($1, FER_WORK_USUAL); $2 = FER_WORK_USUAL; }
%typemap(freearg, noblock=1) (fer_work *WORK, size_t WORDS) { FER_FREE($1); }

%typemap(in, noblock=1) const char * { FER_TAKE_TEXT($input, $1, NULL, "$symname", "$1_name"); }
%typemap(freearg) const char * "";
%typemap(out, noblock=1) const char * { FER_RETURN($result, FER_GIVE_TEXT($1, strlen($1))); }
%typemap(in, noblock=1) (const char *LIST, size_t COUNT) { FER_TAKE_TEXT($input, $1, &$2, "$symname", "$1_name"); }
%typemap(in, numinputs=0, noblock=1) (char *ROOM, size_t CAPACITY, size_t *FOUND) (size_t length = 0) {
    FER_MEMORY(char, $1, FER_MAXIMUM_RESULTS); $2 = FER_MAXIMUM_RESULTS; $3 = &length;
}
%typemap(argout, noblock=1) (char *ROOM, size_t CAPACITY, size_t *FOUND) { FER_APPEND($result, FER_GIVE_TEXT($1, *$3)); }
%typemap(freearg, noblock=1) (char *ROOM, size_t CAPACITY, size_t *FOUND) { FER_FREE($1); }

/* A name that is old: the call works, and the language's own warning says what to use instead, where it has one. */
%{
#ifndef FER_WARN_OLD
#define FER_WARN_OLD(text) (void)0
#endif
%}
%define FER_OLD_CALL(FUNCTION, TEXT)
%exception FUNCTION {
    FER_WARN_OLD(TEXT);
    $action
}
%enddef

/* Last, so that it counts and not what FER_KIND(fer_status) says: a status that is returned is an exception. */
%define FER_STATUSES_ARE_EXCEPTIONS
%typemap(out, noblock=1) fer_status {
    if ($1 != FER_OK) { FER_RAISE($1, "$symname"); }
    FER_NOTHING($result);
}
%enddef
