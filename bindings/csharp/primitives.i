/* SPDX-License-Identifier: MIT */
/* C#'s primitives of types.i: an argument is a long[], a result points to words that the thread's next call overwrites. */
%{
#define FER_WORDS(words) ((typed_words)(words))
#define FER_FINISH ((void *)typed_finish(FER_HOST, NULL))
%}
%define TYPED_PASS(T)
%typemap(ctype) T "void *"
%typemap(imtype, out="global::System.IntPtr") T "long[]"
%typemap(cstype, out="global::System.IntPtr") T "long[]"
%typemap(csin) T "$csinput"
%typemap(csout) T { return $imcall; }
%typemap(ret, noblock=1) T { SWIG_fail; }
%enddef
%include "typed.i"
%typemap(ctype) void "void"
%typemap(imtype) void "void"
%pragma(csharp) imclassclassmodifiers="internal class"
%pragma(csharp) moduleclassmodifiers="internal static class"
%typemap(ret) void "";
%inline %{
/* Gives back a long result at once. */
static void done(void)
{
    typed_forget(typed_host());
}
%}
