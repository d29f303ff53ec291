# SPDX-License-Identifier: MIT
"""Draws the arguments of a row, calls the library, and compares with the row's formula at 200 bits."""
import functools
import importlib
import keyword
import types

import ferrule as f
from mpmath import mp, mpf

from . import domains, rows

mp.prec = 200
CASES = []  # function, measure, bound, share of the samples, what gives results out of random numbers


def case(function, measure, bound, share=1.0):
    """Registers a function that draws arguments by itself and calls the library. It returns {result: (what the library says,
    exact value[, scale])}, or None where there is nothing to compare. Without a scale the error counts against the exact value.
    share: of the samples, for slow ones."""
    def register(draw):
        CASES.append((function, measure, bound, share, draw))
        return draw
    return register


def exact(measure, bound, share=1.0):
    """Registers the formula of the function with the same name: it takes the arguments at 200 bits, structs with their members,
    and returns the result, or {result or member: value or (value, scale)}; behind a comma a key may say more."""
    def register(formula):
        name = f"fer_{formula.__name__.rstrip('_')}"

        @functools.wraps(formula)
        def draw(rng):
            drawn = draw_arguments(name, rng)
            wanted = formula(**{key: at_200_bits(value) for key, value in drawn.items()})
            wanted = wanted if isinstance(wanted, dict) else {"result": wanted}
            found = call(name, drawn)
            return {key: (result_in(name, found, key), *(value if isinstance(value, tuple) else (value,))) for key, value in wanted.items()}
        CASES.append((name, measure, bound, share, draw))
        return formula
    return register


def cases():
    """Those of all modules, in the order of the headers."""
    for module in rows.modules():
        importlib.import_module(f"catalogue.{module}")
    return CASES


# ---- arguments ---------------------------------------------------------------------------------------------------------

def draw_arguments(name, rng):
    """{argument: number, word, {member: ...} or list of them}."""
    if name not in rows.rows():
        raise SystemExit(f"{name} has a formula, but no row")
    domain = rows.rows()[name].arguments
    kinds = {p.name: p.kind for p in rows.inputs(name)}
    if set(domain) - set(kinds):
        raise SystemExit(f"{name} has no argument {', '.join(set(domain) - set(kinds))}")
    return draw_members({}, kinds, domain, rng, [])


def draw_members(drawn, kinds, domain, rng, scopes):
    """Draws into `drawn`, which is there for paths before it is complete."""
    for member, inner in domain.items():
        if isinstance(inner, dict):
            drawn[member] = {}
            draw_members(drawn[member], members_of(kinds[member]), inner, rng, [*scopes, drawn])
        else:
            drawn[member] = draw_value(kinds[member], inner, rng, [*scopes, drawn])
    return drawn


def members_of(kind):
    return {member: inner for inner, member, _ in rows.structs()[kind]}


def draw_value(kind, domain, rng, scopes):
    if isinstance(domain, dict):
        return draw_members({}, members_of(kind), domain, rng, scopes)
    if isinstance(domain, list):
        return [draw_value(kind, inner, rng, scopes) for inner in domain]
    number = draw_number(kind, domain, rng, scopes)
    return float(number) if kind == "double" or rows.unit_of(kind) else number


def draw_number(kind, domain, rng, scopes):
    """A number, or a word of an enum."""
    if isinstance(domain, domains.plus):
        return sum(found_in(scopes, other) for other in domain[:-2]) + rng.uniform(*domain[-2:])
    if not isinstance(domain, tuple):
        return domain
    if hasattr(domain, "draw"):
        return domain.draw(rng)
    if kind in rows.WHOLE:
        return rng.randint(*domain)
    return rng.choice(domain) if rng.random() < 0.05 else rng.uniform(*domain)


def found_in(scopes, path):
    """What has been drawn under a path, beginning in the innermost struct that has its first word."""
    first, *rest = path.split(".")
    value = next((scope[first] for scope in reversed(scopes) if first in scope), None)
    if value is None:
        raise SystemExit(f"no {path} is drawn before it is needed")
    for member in rest:
        value = value[member]
    return value


def at_200_bits(value):
    if isinstance(value, dict):
        return types.SimpleNamespace(**{key: at_200_bits(inner) for key, inner in value.items()})
    if isinstance(value, list):
        return [at_200_bits(inner) for inner in value]
    return mpf(value) if isinstance(value, float) else value


# ---- calls -------------------------------------------------------------------------------------------------------------

def python_name(name):
    return name + "_" if keyword.iskeyword(name) else name


def as_python(kind, value):
    """A drawn value as the Python package takes it."""
    if isinstance(value, list):
        return [as_python(kind, inner) for inner in value]
    if rows.unit_of(kind):
        return getattr(f, rows.unit_of(kind))(value)
    if isinstance(value, dict):
        kinds = members_of(kind)
        name = "".join(part.capitalize() for part in kind.removeprefix("fer_").split("_"))
        return getattr(f, name)(**{python_name(member): as_python(kinds[member], inner) for member, inner in value.items()})
    return value


def call(name, drawn):
    kinds = {p.name: p.kind for p in rows.inputs(name)}
    function = getattr(f, python_name(name.removeprefix("fer_")))
    return function(**{python_name(key): as_python(kinds[key], value) for key, value in drawn.items()})


def result_in(name, found, key):
    """The number of a result, or of the member that the key names up to its comma."""
    path = key.partition(",")[0].split(".")
    results = [p.name for p in rows.outputs(name)]
    if len(results) > 1:
        found = found[results.index(path.pop(0))]
    for member in path:
        found = found if is_number(found) else getattr(found, python_name(member))
    return found if isinstance(found, (int, float)) else getattr(found, unit_of(found))


def unit_of(found):
    return next((unit for unit in ("mm", "mm2", "newton", "mpa", "rad", "fraction", "celsius", "per_mm") if hasattr(found, unit)), None)


def is_number(found):
    return isinstance(found, (int, float)) or unit_of(found)
