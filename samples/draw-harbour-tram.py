#!/usr/bin/env python3
"""Draws harbour-tram.svg: side, front and plan of the harbour tram on one sheet, 1:10, sizes in metres.

    python3 draw-harbour-tram.py > harbour-tram.svg

Everything is of our own invention. The same script always writes the same bytes.
"""

SHEET = (940, 680)  # mm
TEN = 100           # mm on the sheet for one metre: 1:10
SIDE = (75, 400)    # mm on the sheet: rear end at the ground line
FRONT = (775, 400)  # middle at the ground line
PLAN = (75, 555)    # rear end on the middle line
LENGTH, WIDTH = 5.2, 2.0

LINE = 'fill="none" stroke="#222233" stroke-linejoin="round" stroke-linecap="round" stroke-width='
WORDS = 'font-family="sans-serif" fill="#222233" font-size='
INK = {  # written out on every element, as not every program reads style sheets
    "line": LINE + '"0.35"',
    "outline": LINE + '"0.7"',
    "frame": LINE + '"0.7"',
    "ground": LINE + '"0.5"',
    "thin": LINE + '"0.18"',
    "middle": LINE + '"0.18" stroke-dasharray="8 2 1 2"',
    "name": WORDS + '"6"',
    "title": WORDS + '"9"',
    "note": WORDS + '"5"',
    "size": WORDS + '"5" text-anchor="middle"',
}
ink = []


def number(v):
    words = f"{v:.3f}".rstrip("0").rstrip(".")
    return "0" if words == "-0" else words


class View:
    """Metres of the subject (right, up) to the sheet."""

    def __init__(self, origin):
        self.origin = origin

    def at(self, p):
        return f"{number(self.origin[0] + TEN * p[0])} {number(self.origin[1] - TEN * p[1])}"

    def path(self, parts, name="", kind="line"):
        words = []
        for part in parts:
            if part == "Z":
                words.append("Z")
                continue
            letter, values = part
            if letter == "A":  # radius, large, rightward turn on the sheet, end
                radius, large, sweep, end = values
                words.append(f"A {number(TEN * radius)} {number(TEN * radius)} 0 {large} {sweep} {self.at(end)}")
            else:
                words.append(letter + " " + " ".join(self.at(p) for p in values))
        label = f' id="{name}"' if name else ""
        ink.append(f'<path{label} {INK[kind]} d="{" ".join(words)}"/>')

    def line(self, a, b, kind="line"):
        self.path([("M", [a]), ("L", [b])], "", kind)

    def box(self, low, high, name="", kind="line"):
        self.path([("M", [low]), ("L", [(high[0], low[1]), high, (low[0], high[1])]), "Z"], name, kind)

    def round_box(self, low, high, r, kind="line"):
        (a, b), (c, d) = low, high
        self.path([("M", [(a + r, b)]), ("L", [(c - r, b)]), ("A", (r, 0, 0, (c, b + r))), ("L", [(c, d - r)]),
                   ("A", (r, 0, 0, (c - r, d))), ("L", [(a + r, d)]), ("A", (r, 0, 0, (a, d - r))),
                   ("L", [(a, b + r)]), ("A", (r, 0, 0, (a + r, b))), "Z"], "", kind)

    def circle(self, middle, radius, name="", kind="line"):
        x, y = self.at(middle).split()
        label = f' id="{name}"' if name else ""
        ink.append(f'<circle{label} {INK[kind]} cx="{x}" cy="{y}" r="{number(TEN * radius)}"/>')

    def size(self, a, b, words, off=(0, 0)):
        """A dimension line with ticks, its words in the middle."""
        a2, b2 = (a[0] + off[0], a[1] + off[1]), (b[0] + off[0], b[1] + off[1])
        if off != (0, 0):
            self.line(a, a2, "thin")
            self.line(b, b2, "thin")
        self.line(a2, b2, "thin")
        for p in (a2, b2):
            self.line((p[0] - 0.02, p[1] - 0.02), (p[0] + 0.02, p[1] + 0.02), "line")
        upright = abs(a[0] - b[0]) < 1e-9
        x, y = (float(v) for v in self.at(((a2[0] + b2[0]) / 2, (a2[1] + b2[1]) / 2)).split())
        turn = f' transform="rotate(-90 {number(x - 1.5)} {number(y)})"' if upright else ""
        x, y = (x - 1.5, y) if upright else (x, y - 1.5)
        ink.append(f'<text {INK["size"]} x="{number(x)}" y="{number(y)}"{turn}>{words}</text>')

    def words(self, p, text, kind="name"):
        x, y = self.at(p).split()
        ink.append(f'<text {INK[kind]} x="{x}" y="{y}">{text}</text>')


# The half of the body's side view, from the floor's middle forward and up to the roof's middle.
FLOOR, ROOF = 0.36, 2.82
APRON = (4.82, FLOOR)      # the floor ends, an arc that stands 0.03 off its chord begins
STEP = (5.02, 0.66)        # it ends, the dash begins
DASH = [STEP, (5.15, 1.05), (5.12, 1.5)]  # a smooth line through these
BROW = (4.98, 2.4)         # the windscreen ends, the dome begins
CORNER = (4.915, ROOF)     # where the dome's end tangents meet
DOME = (4.35, ROOF)
LANTERN = (0.9, 4.3)       # its ends
WALL, CROWN = 3.0, 3.12    # heights of its walls and of the middle of its roof
FENDER = (0.72, 0.84)
WINDOWS = (0.95, 1.65, 3.55, 4.25)


def mirrored(p):
    return (LENGTH - p[0], p[1])


def arc_radius(chord, rise):
    """Of the arc that stands so far off the middle of its chord."""
    return ((chord[0] ** 2 + chord[1] ** 2) / 4 + rise ** 2) / (2 * rise)


def natural_spline(points):
    """Cubic pieces (as four Bezier points) of the natural spline with centripetal parameters."""
    knots = [0.0]
    for a, b in zip(points, points[1:]):
        knots.append(knots[-1] + ((b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2) ** 0.25)
    n = len(points)
    slopes = []
    for axis in (0, 1):
        # Tridiagonal system for the first derivatives.
        low, mid, up, right = [0.0] * n, [0.0] * n, [0.0] * n, [0.0] * n
        y = [p[axis] for p in points]
        h = [knots[i + 1] - knots[i] for i in range(n - 1)]
        mid[0], up[0], right[0] = 2, 1, 3 * (y[1] - y[0]) / h[0]
        for i in range(1, n - 1):
            low[i], mid[i], up[i] = 1 / h[i - 1], 2 * (1 / h[i - 1] + 1 / h[i]), 1 / h[i]
            right[i] = 3 * ((y[i] - y[i - 1]) / h[i - 1] ** 2 + (y[i + 1] - y[i]) / h[i] ** 2)
        low[n - 1], mid[n - 1], right[n - 1] = 1, 2, 3 * (y[n - 1] - y[n - 2]) / h[n - 2]
        for i in range(1, n):
            w = low[i] / mid[i - 1]
            mid[i] -= w * up[i - 1]
            right[i] -= w * right[i - 1]
        d = [0.0] * n
        d[n - 1] = right[n - 1] / mid[n - 1]
        for i in range(n - 2, -1, -1):
            d[i] = (right[i] - up[i] * d[i + 1]) / mid[i]
        slopes.append(d)
    pieces = []
    for i in range(n - 1):
        h = knots[i + 1] - knots[i]
        a, b = points[i], points[i + 1]
        pieces.append([a, tuple(a[k] + h * slopes[k][i] / 3 for k in (0, 1)),
                       tuple(b[k] - h * slopes[k][i + 1] / 3 for k in (0, 1)), b])
    return pieces


def ellipse_quarter(start, meet, end):
    """Four Bezier points of the affine image of a quarter circle, within 0.03 % of its radius."""
    k = 0.5522847498
    return [start, tuple(start[i] + k * (meet[i] - start[i]) for i in (0, 1)),
            tuple(end[i] + k * (meet[i] - end[i]) for i in (0, 1)), end]


def side_view():
    v = View(SIDE)
    dash, dome = natural_spline(DASH), ellipse_quarter(BROW, CORNER, DOME)
    turn = arc_radius((STEP[0] - APRON[0], STEP[1] - APRON[1]), 0.03)
    parts = [("M", [mirrored(APRON)]), ("L", [APRON]), ("A", (turn, 0, 0, STEP))]
    parts += [("C", piece[1:]) for piece in dash]
    parts += [("L", [BROW]), ("C", dome[1:]), ("L", [mirrored(DOME)])]
    parts += [("C", [mirrored(p) for p in dome[::-1]][1:]), ("L", [mirrored(DASH[-1])])]
    parts += [("C", [mirrored(p) for p in piece[::-1]][1:]) for piece in dash[::-1]]
    parts += [("A", (turn, 0, 0, mirrored(APRON))), "Z"]
    v.path(parts, "side-body", "outline")
    a, b = LANTERN
    v.box((a, ROOF), (b, CROWN), "side-lantern", "outline")
    v.line((a, WALL), (b, WALL), "thin")
    for i in range(6):
        x = a + 0.25 + i * 0.5
        v.box((x, ROOF + 0.04), (x + 0.4, WALL - 0.03), "", "thin")
    for x in WINDOWS:
        v.round_box((x - 0.3, 1.56), (x + 0.3, 2.3), 0.08)
    v.round_box((2.05, 0.5), (3.15, 2.3), 0.12)
    v.line((2.18, 1.2), (2.18, 1.4))
    v.line((0.06, 1.46), (2.05, 1.46), "thin")
    v.line((3.15, 1.46), (LENGTH - 0.06, 1.46), "thin")
    for low, high in ((LENGTH - 0.25, LENGTH + 0.12), (-0.12, 0.25)):
        v.box((low, FENDER[0]), (high, FENDER[1]), "side-fender" if low > 1 else "")
    for x in (1.35, 3.85):
        v.circle((x, 0.3), 0.3)
        v.circle((x, 0.3), 0.25, "", "thin")
        v.circle((x, 0.3), 0.06)
    v.path([("M", [(2.68, CROWN)]), ("L", [(2.52, CROWN), (0.7, 3.62), (0.71, 3.66)]), "Z"])
    v.line((-0.45, 0), (LENGTH + 0.45, 0), "ground")
    v.size((0, -0.02), (LENGTH, -0.02), "5.20", (0, -0.16))
    v.size((LENGTH + 0.16, 0), (LENGTH + 0.16, ROOF), "2.82", (0.16, 0))
    v.size((-0.16, 0), (-0.16, CROWN), "3.12", (-0.16, 0))
    v.words((0, 3.75), "Side, forward to the right")


def front_view():
    v = View(FRONT)
    half, rise = 0.6, CROWN - WALL
    v.box((-1.0, FLOOR), (1.0, ROOF), "front-body", "outline")
    v.path([("M", [(-half, ROOF)]), ("L", [(half, ROOF), (half, WALL)]),
            ("A", (arc_radius((2 * half, 0), rise), 0, 0, (-half, WALL))), "Z"], "front-lantern", "outline")
    v.round_box((-0.75, 1.62), (0.75, 2.26), 0.1)
    for z in (0.66, 1.5, 2.4):
        v.line((-1.0, z), (1.0, z), "thin")
    v.circle((0, 1.29), 0.1)
    v.circle((0, 1.29), 0.07, "", "thin")
    v.box((-0.8, FENDER[0]), (0.8, FENDER[1]), "front-fender")
    for side in (-1, 1):
        v.box((side * 0.72 - 0.06, 0), (side * 0.72 + 0.06, FLOOR))
    v.line((0, -0.1), (0, 3.3), "middle")
    v.line((-1.35, 0), (1.45, 0), "ground")
    v.size((-1.0, -0.02), (1.0, -0.02), "2.00", (0, -0.16))
    v.size((-half, 3.18), (half, 3.18), "1.20", (0, 0.12))
    v.words((-1.0, 3.75), "Front, from ahead")


def plan():
    v = View(PLAN)
    v.box((0.05, -1.0), (LENGTH - 0.05, 1.0), "", "thin")
    for p in (DASH[2], BROW, DOME):
        for x in (p[0], LENGTH - p[0]):
            v.line((x, -1.0), (x, 1.0), "thin")
    v.box((LANTERN[0], -0.6), (LANTERN[1], 0.6), "plan-lantern", "outline")
    half, rise, root = 0.8, 0.17, LENGTH - 0.05
    radius = arc_radius((2 * half, 0), rise)
    v.path([("M", [(root, -half)]), ("A", (radius, 0, 0, (root, half)))], "plan-fender", "outline")
    v.path([("M", [(LENGTH - root, half)]), ("A", (radius, 0, 0, (LENGTH - root, -half)))], "", "outline")
    v.path([("M", [(2.6, 0.03)]), ("L", [(0.7, 0.02), (0.7, -0.02), (2.6, -0.03)]), "Z"])
    v.line((-0.45, 0), (LENGTH + 0.45, 0), "middle")
    v.size((LANTERN[0], 0.6), (LANTERN[1], 0.6), "3.40", (0, -0.3))
    v.words((0, 1.08), "Plan, from above")


def sheet():
    w, h = SHEET
    ink.append(f'<rect {INK["frame"]} x="10" y="10" width="{w - 20}" height="{h - 20}"/>')
    ink.append(f'<rect {INK["line"]} x="682" y="602" width="248" height="68"/>')
    for y, text, kind in ((620, "Harbour tram of the Lantern Quay line", "title"),
                          (636, "Side, front and plan, 1:10, sizes in metres", "note"),
                          (648, "Both ends are alike; wheels and trolley pole are no part of the body", "note"),
                          (660, "Drawn by draw-harbour-tram.py", "note")):
        ink.append(f'<text {INK[kind]} x="690" y="{y}">{text}</text>')
    for x in (675, 875):  # two metres, to measure by
        ink.append(f'<path {INK["line"]} d="M {x - 4} 560 L {x + 4} 560 M {x} 556 L {x} 564"/>')
    ink.append(f'<path {INK["thin"]} d="M 675 560 L 875 560"/>')
    ink.append(f'<text {INK["size"]} x="775" y="557">2 m</text>')


def main():
    side_view()
    front_view()
    plan()
    sheet()
    w, h = SHEET
    print(f'<svg xmlns="http://www.w3.org/2000/svg" width="{w}mm" height="{h}mm" viewBox="0 0 {w} {h}">')
    print("<title>Harbour tram, side, front and plan, 1:10</title>")
    print('<rect x="0" y="0" width="940" height="680" fill="#fdfcf8"/>')
    print("\n".join(ink))
    print("</svg>")


if __name__ == "__main__":
    main()
