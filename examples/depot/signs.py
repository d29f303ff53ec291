# SPDX-License-Identifier: MIT
"""Signs of a readiness, as inline SVG: three outlines with three marks, so that no colour is needed to distinguish them."""

# An octagon with a cross, a diamond with a bar over a dot, a circle with a tick.
SHAPES = {
    "NOT_READY": ("M11 3h14l8 8v14l-8 8H11l-8-8V11z", "M11 11L25 25M25 11L11 25"),
    "AFTER_CONFIRMING": ("M18 1L35 18L18 35L1 18z", "M18 9v11M18 25v2.5"),
    "READY": ("M18 2a16 16 0 1 0 .01 0z", "M10 18.5l6 6.5L27 11"),
}


def draw(readiness):
    """The sign; what it means stands beside it in words."""
    outline, mark = SHAPES[readiness.name]
    return (f'<svg class="sign" viewBox="0 0 36 36" aria-hidden="true" data-sign="{readiness.name}"><path d="{outline}" fill="none" '
            f'stroke="#111" stroke-width="2.4"/><path d="{mark}" fill="none" stroke="#111" stroke-width="4"/></svg>')
