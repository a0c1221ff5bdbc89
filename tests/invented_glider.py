"""An invented aircraft for tests of flight performance: CD0 0.0165, e 0.86, 12.6 m, 11.2 m², CLmax 1.42."""

from __future__ import annotations

from dossier.compute.glide import Polar
from dossier.compute.polar import aspect_ratio, induced_drag_factor

SPAN, AREA, ZERO_LIFT, OSWALD, LIFT = 12.6, 11.2, 0.0165, 0.86, 1.42
POLAR = Polar(ZERO_LIFT, induced_drag_factor(OSWALD, aspect_ratio(SPAN, AREA)), AREA, LIFT)
RHO = 1.225
KNOT, FOOT, POUND, HORSEPOWER = 1852 / 3600, 0.3048, 0.45359237, 745.6998715822702
