/* SPDX-License-Identifier: MIT */
/* Java's primitives of types.i: an argument and a result are a long[]. */
%{
#define FER_WORDS(array) words_of(jenv, array)
#define FER_FINISH result_of(jenv)
%}
%define TYPED_PASS(T)
%typemap(jni) T "jlongArray"
%typemap(jtype) T "long[]"
%typemap(jstype) T "long[]"
%typemap(javain) T "$javainput"
%typemap(javaout) T { return $jnicall; }
%typemap(ret, noblock=1) T { SWIG_fail; }
%enddef
%include "typed.i"
%{
static typed_words words_of(JNIEnv *env, jlongArray array)
{
    if (!array)
        return NULL;
    const jsize length = (*env)->GetArrayLength(env, array);
    int64_t *words = typed_memory(FER_HOST, (size_t)length);
    if (words)
        (*env)->GetLongArrayRegion(env, array, 0, length, (jlong *)words);
    return words;
}

/* NULL: Java has no memory for it, and throws. */
static jlongArray result_of(JNIEnv *env)
{
    size_t length;
    bind_host *call = FER_HOST;
    const typed_words words = typed_finish(call, &length);
    const jlongArray array = (*env)->NewLongArray(env, (jsize)length);
    if (array)
        (*env)->SetLongArrayRegion(env, array, 0, (jsize)length, (const jlong *)words);
    typed_forget(call);
    return array;
}
%}
%pragma(java) jniclassclassmodifiers="final class"
%pragma(java) moduleclassmodifiers="final class"
%pragma(java) jniclasscode=%{
  static {
    Library.load();
  }
%}
