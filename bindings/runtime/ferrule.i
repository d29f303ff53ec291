/* SPDX-License-Identifier: MIT */
/* The one SWIG interface. Functions are wrapped by SWIG; structs, enums and quantities are values of the language
 * that its primitives make, so SWIG sees none of them. */
#if defined(SWIGPERL)
%module(package="Ferrule") Ferrule
#elif defined(SWIGRUBY)
%module "ferrule::core"
#else
%module(package="ferrule") ferrule
#endif

%{
#include <ferrule/ferrule.h>
#include "kinds.h"
%}
%include "primitives.i"
%include "types.i"

%rename("%(regex:/^(?:fer_|FER_)(.*)/\\1/)s") "";
%rename("$ignore", %$isclass) "";
%rename("$ignore", %$isenum) "";
%rename("$ignore", %$isenumitem) "";
/* What a quantity does by itself: text and numbers in its units. */
%rename("$ignore", regextarget=1) "^(fer_(to|parse|format)_|FER_(SHORTEST|TEXT_CAPACITY)$)";
#pragma SWIG nowarn=314 /* the name of a result may be a word of the language */

#define FER_API
%include "api.i"
