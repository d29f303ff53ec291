# SPDX-License-Identifier: MIT
"""Words that no public name may be, since a language that the library is called from keeps them for itself: the hard keywords of
C11, C++17, Python 3, Java, C#, JavaScript (strict), Ruby, Lua, R and Octave. Each list is the language's own, from its standard,
reference or manual. Words that are keywords in some places only (Python's `match`, C#'s `value`, SQL's) may be used."""

KEYWORDS = {
    "C": """auto break case char const continue default do double else enum extern float for goto if inline int long register
        restrict return short signed sizeof static struct switch typedef union unsigned void volatile while""",
    "C++": """alignas alignof and and_eq asm auto bitand bitor bool break case catch char char16_t char32_t class compl const
        constexpr const_cast continue decltype default delete do double dynamic_cast else enum explicit export extern false float
        for friend goto if inline int long mutable namespace new noexcept not not_eq nullptr operator or or_eq private protected
        public register reinterpret_cast return short signed sizeof static static_assert static_cast struct switch template this
        thread_local throw true try typedef typeid typename union unsigned using virtual void volatile wchar_t while xor xor_eq""",
    "Python": """False None True and as assert async await break class continue def del elif else except finally for from global
        if import in is lambda nonlocal not or pass raise return try while with yield""",
    "Java": """abstract assert boolean break byte case catch char class const continue default do double else enum extends final
        finally float for goto if implements import instanceof int interface long native new package private protected public
        return short static strictfp super switch synchronized this throw throws transient try void volatile while true false
        null _""",
    "C#": """abstract as base bool break byte case catch char checked class const continue decimal default delegate do double else
        enum event explicit extern false finally fixed float for foreach goto if implicit in int interface internal is lock long
        namespace new null object operator out override params private protected public readonly ref return sbyte sealed short
        sizeof stackalloc static string struct switch this throw true try typeof uint ulong unchecked unsafe ushort using virtual
        void volatile while""",
    "JavaScript": """await break case catch class const continue debugger default delete do else enum export extends false finally
        for function if implements import in instanceof interface let new null package private protected public return static
        super switch this throw true try typeof var void while with yield""",
    "Ruby": """BEGIN END alias and begin break case class def defined do else elsif end ensure false for if in module next nil not
        or redo rescue retry return self super then true undef unless until when while yield""",
    "Lua": """and break do else elseif end false for function goto if in local nil not or repeat return then true until while""",
    "R": """if else repeat while function for in next break TRUE FALSE NULL Inf NaN NA NA_integer_ NA_real_ NA_complex_
        NA_character_""",
    "Octave": """break case catch continue do else elseif end end_try_catch end_unwind_protect endclassdef endenumeration endevents
        endfor endfunction endif endmethods endparfor endproperties endswitch endwhile for function global if methods otherwise
        parfor persistent return switch try until unwind_protect unwind_protect_cleanup while""",
}
LANGUAGES = {}
for _language, _words in KEYWORDS.items():
    for _word in _words.split():
        LANGUAGES.setdefault(_word, []).append(_language)


def allowed(name):
    """The name, where it is no keyword; else the build ends."""
    if name in LANGUAGES:
        raise SystemExit(f"{name}: a public name must not be a keyword ({', '.join(LANGUAGES[name])}): bindings/api/keywords.py")
    return name
