# ruff: noqa
# Kept as it was written, apart from the house style: it checks layouts by code that shares nothing with ours.
"""Independent checker for deck layouts.  Pure Python 3.10+, no third-party imports, no solver code.

    python validator.py problem.json layout.json          -> prints a JSON report, exit 0 if ok else 1
    from validator import validate;  report = validate(problem, layout)

All lengths are whole millimetres.  x runs ACROSS the joists (boards' long edges run along x),
y runs ALONG the joists.

PROBLEM  {"format": "deck-layout-problem/1", "id": str,
  "deck":   {"outer": [[x,y],...], "keepouts": [{"id","kind","poly": [[x,y],...]}, ...]}
            simple polygons, any orientation; outline = finished board edge (perimeter gap already taken off)
  "joists": {"x": [..ascending centre lines..]}
  "rows":   {"y0": y}             lower edge of row 0; row r is the band y0+r*w .. y0+(r+1)*w, w = cover_width
  "product":{"id","cover_length","cover_width","thickness","ends":"tg|square","sides":"tg|square",
             "price_pence": int, "pack_size": int}
  "rules":  {"kerf": saw kerf,
             "gap_tol": largest gap left at a joint or at the end of a run,
             "joint_tol": how far a joint may sit from a joist centre line,
             "min_piece": shortest piece (a piece that fills a whole run is exempt),
             "min_strip": (survey preparation only, not checked here),
             "min_supports": joists (or edge bearers) under each piece,
             "max_overhang": free end further than this from its nearest joist needs an edge bearer,
             "min_stagger": joints in adjacent rows must be on joists at least this far apart,
             "end_joint": "butt" (any ends may meet on a joist) | "tg" (factory ends only, on a joist)}
  "pedestals": {"max_spacing","merge","box"}   (used only by pedestal_grid) }

LAYOUT   {"format": "deck-layout/1", "problem": id, "boards": N bought,
  "pieces": [{"id", "row": r, "x0","x1","y0","y1": placed rectangle,
              "board": 1..N, "bx","by": where the piece lies in its board}],
  "lower_bound": optional, {"boards": n, "certificate": {...}}   see check_bound,
  "pedestals": optional [[x,y],...] }
  bx = 0 is the board's left factory end, bx+length = cover_length its right factory end.
  by = 0 is the long GROOVE edge (faces -y), by+height = cover_width the long TONGUE edge (faces +y).
  Boards are never turned round.  A piece is the rectangle before notching; it is notched to the deck outline.

RULES CHECKED (error codes)
  FORMAT   fields, types, ids, board numbers
  ROW      piece lies inside its row band and inside one run of its row; pieces of a row do not overlap in x
  USELESS  piece meets no deck
  COVER    every part of the deck is under a piece, except gaps <= gap_tol wide (1 mm slack on slanted edges);
           no piece is more than gap_tol shorter than its span from joint line to joint line
  JOINT    ends that meet do so on a joist (+-joint_tol), gap <= gap_tol
  FACTORY  end_joint "tg": both ends at a joint are factory ends
  STAGGER  joints of adjacent rows are on joists >= min_stagger apart
  SHORT    span >= min_piece unless the piece fills its run
  SUPPORT  joists (+ edge bearers) under the piece >= min_supports
  EDGE     sides "tg": a piece meeting deck in the row below keeps its groove, in the row above its tongue
  BOARD    piece inside its board; pieces of a board are a kerf apart and separable by guillotine cuts
  COUNT    boards bought >= boards used
  BOUND    claimed lower bound is proved by its certificate
"""

from __future__ import annotations
import json
import math
import sys

# =============================================================== plane geometry


def _edges(poly):
    return [(poly[i], poly[(i + 1) % len(poly)]) for i in range(len(poly))]


def _cut_at(poly, x):
    """y-intervals of a simple polygon on the line x (x must not be a vertex)."""
    ys = sorted(
        ay + (by - ay) * (x - ax) / (bx - ax) for (ax, ay), (bx, by) in _edges(poly) if (ax < x) != (bx < x)
    )
    return list(zip(ys[0::2], ys[1::2]))


def _minus(ivs, cuts):
    for c, d in cuts:
        nxt = []
        for a, b in ivs:
            if d <= a or c >= b:
                nxt.append((a, b))
            else:
                if a < c:
                    nxt.append((a, c))
                if d < b:
                    nxt.append((d, b))
        ivs = nxt
    return ivs


class Deck:
    """the region to board, seen row by row"""

    def __init__(self, prob):
        self.outer = [tuple(p) for p in prob["deck"]["outer"]]
        self.holes = [[tuple(p) for p in k["poly"]] for k in prob["deck"].get("keepouts", [])]
        self.w = prob["product"]["cover_width"]
        self.y0 = prob["rows"]["y0"]
        top = max(p[1] for p in self.outer)
        self.nrows = math.ceil((top - self.y0) / self.w - 1e-9)
        self.segs = [e for p in [self.outer] + self.holes for e in _edges(p)]
        self._base = self._crossings()
        self.slabs = [self._slabs(r) for r in range(self.nrows)]
        self.runs = [self._runs(r) for r in range(self.nrows)]

    def band(self, r):
        return self.y0 + r * self.w, self.y0 + (r + 1) * self.w

    def section(self, x):
        ivs = _cut_at(self.outer, x)
        for h in self.holes:
            ivs = _minus(ivs, _cut_at(h, x))
        return sorted(ivs)

    def _crossings(self):
        xs = {p[0] for e in self.segs for p in e}
        for i, ((ax, ay), (bx, by)) in enumerate(self.segs):
            for (cx, cy), (dx, dy) in self.segs[:i]:
                den = (bx - ax) * (dy - cy) - (by - ay) * (dx - cx)
                if den == 0:
                    continue
                t = ((cx - ax) * (dy - cy) - (cy - ay) * (dx - cx)) / den
                u = ((cx - ax) * (by - ay) - (cy - ay) * (bx - ax)) / den
                if 0 < t < 1 and 0 < u < 1:
                    xs.add(ax + t * (bx - ax))
        return xs

    def events(self, r, extra=()):
        xs = set(self._base) | set(extra)
        for Y in self.band(r):
            for (ax, ay), (bx, by) in self.segs:
                if min(ay, by) < Y < max(ay, by):
                    xs.add(ax + (bx - ax) * (Y - ay) / (by - ay))
        return sorted(xs)

    def in_band(self, r, x):
        lo, hi = self.band(r)
        return [(max(a, lo), min(b, hi)) for a, b in self.section(x) if min(b, hi) - max(a, lo) > 0.02]

    def _slabs(self, r):
        """[(xa, xb, lo, hi, full)] x-slabs of the row that meet the deck, with the y-hull of the deck in each"""
        lo_b, hi_b = self.band(r)
        out = []
        xs = self.events(r)
        for a, b in zip(xs, xs[1:]):
            if b - a < 1e-7:
                continue
            lo, hi, full, hit = math.inf, -math.inf, True, False
            for x in (a + (b - a) * 1e-4, (a + b) / 2, b - (b - a) * 1e-4):
                iv = self.in_band(r, x)
                if iv:
                    hit = True
                    lo, hi = min(lo, iv[0][0]), max(hi, iv[-1][1])
                if len(iv) != 1 or iv[0][0] > lo_b + 1 or iv[0][1] < hi_b - 1:
                    full = False
            if hit:
                out.append((a, b, lo, hi, full))
        return out

    def _runs(self, r):
        runs = []
        for a, b, *_ in self.slabs[r]:
            if runs and a - runs[-1][1] < 1e-6:
                runs[-1][1] = b
            else:
                runs.append([a, b])
        return [(math.floor(a + 1e-6), math.ceil(b - 1e-6)) for a, b in runs]

    def hull(self, r, a, b):
        hit = [s for s in self.slabs[r] if s[1] > a + 1e-6 and s[0] < b - 1e-6]
        if not hit:
            return None
        return min(s[2] for s in hit), max(s[3] for s in hit)

    def touches(self, r, a, b, top):
        """does row r have deck reaching its top (or bottom) seam somewhere in a..b?"""
        if not 0 <= r < self.nrows:
            return False
        lo, hi = self.band(r)
        for xa, xb, l, h, _ in self.slabs[r]:
            if min(b, xb) - max(a, xa) > 1 and (h >= hi - 1 if top else l <= lo + 1):
                return True
        return False

    def kind(self, r, a, b):
        """what a piece covering a..b of row r must be: ('F'|'G'|'T'|'M', height)
        F full width, G ripped keeping groove, T ripped keeping tongue, M ripped keeping neither"""
        lo, hi = self.hull(r, a, b)
        y0, y1 = self.band(r)
        if hi - lo >= self.w - 1:
            return "F", self.w
        g = lo <= y0 + 1 and self.touches(r - 1, a, b, True)
        t = hi >= y1 - 1 and self.touches(r + 1, a, b, False)
        if g and t:
            return "F", self.w
        return ("G" if g else "T" if t else "M"), round(hi) - round(lo)

    def area(self):
        xs = sorted(self._base)
        tot = 0.0
        for a, b in zip(xs, xs[1:]):
            for g in (0.21132486540518713, 0.7886751345948129):
                tot += sum(d - c for c, d in self.section(a + (b - a) * g)) * (b - a) / 2
        return tot


# =============================================================== boards


def guillotine(rects, kerf):
    """can the rectangles (x0,y0,x1,y1) be separated by straight full cuts at least a kerf wide?"""
    if len(rects) <= 1:
        return True
    for ax in (0, 1):
        rs = sorted(rects, key=lambda r: r[ax])
        end = rs[0][ax + 2]
        for i in range(1, len(rs)):
            if rs[i][ax] >= end + kerf:
                return guillotine(rs[:i], kerf) and guillotine(rs[i:], kerf)
            end = max(end, rs[i][ax + 2])
    return False


def cut_list(rects, L, W, kerf):
    """greedy count of saw cuts and the offcut rectangles left, for a guillotine pattern"""

    def rec(x0, y0, x1, y1, rs):
        if not rs:
            return 0, [(x1 - x0, y1 - y0)]
        if len(rs) == 1:
            a, b, c, d = rs[0]
            cuts, off = 0, []
            if a > x0:
                cuts += 1
                off.append((a - kerf - x0, y1 - y0))
            if c < x1:
                cuts += 1
                off.append((x1 - c - kerf, y1 - y0))
            if b > y0:
                cuts += 1
                off.append((c - a, b - kerf - y0))
            if d < y1:
                cuts += 1
                off.append((c - a, y1 - d - kerf))
            return cuts, [o for o in off if min(o) > 0]
        for ax in (0, 1):
            s = sorted(rs, key=lambda r: r[ax])
            end = s[0][ax + 2]
            for i in range(1, len(s)):
                if s[i][ax] >= end + kerf:
                    if ax == 0:
                        c1, o1 = rec(x0, y0, end, y1, s[:i])
                        c2, o2 = rec(end + kerf, y0, x1, y1, s[i:])
                    else:
                        c1, o1 = rec(x0, y0, x1, end, s[:i])
                        c2, o2 = rec(x0, end + kerf, x1, y1, s[i:])
                    return c1 + c2 + 1, o1 + o2
                end = max(end, s[i][ax + 2])
        return 0, []

    return rec(0, 0, L, W, rects)


# =============================================================== the check


def validate(prob, lay):
    err, warn = [], []

    def bad(code, msg):
        err.append({"code": code, "msg": msg})

    P, R = prob["product"], prob["rules"]
    L, W, kerf, g, tol = P["cover_length"], P["cover_width"], R["kerf"], R["gap_tol"], R["joint_tol"]
    js = prob["joists"]["x"]
    deck = Deck(prob)
    if lay.get("problem") != prob["id"]:
        bad("FORMAT", f"layout is for {lay.get('problem')!r}, not {prob['id']!r}")
    pieces = lay.get("pieces", [])
    N = lay.get("boards")
    if not isinstance(N, int):
        bad("FORMAT", "boards must be an integer")
        return _report(err, warn, {})
    seen = set()
    for p in pieces:
        for k in ("id", "row", "x0", "x1", "y0", "y1", "board", "bx", "by"):
            if not isinstance(p.get(k), int):
                bad("FORMAT", f"piece {p.get('id')}: {k} must be an integer")
        if p.get("id") in seen:
            bad("FORMAT", f"piece id {p.get('id')} twice")
        seen.add(p.get("id"))
    if err:
        return _report(err, warn, {})
    by_row = {}
    for p in pieces:
        by_row.setdefault(p["row"], []).append(p)
        if not 0 <= p["row"] < deck.nrows:
            bad("ROW", f"piece {p['id']}: no row {p['row']}")
            return _report(err, warn, {})
        lo, hi = deck.band(p["row"])
        if p["x1"] <= p["x0"] or p["y1"] <= p["y0"] or p["y0"] < lo or p["y1"] > hi:
            bad("ROW", f"piece {p['id']}: rectangle not inside row band {lo}..{hi}")
    if err:
        return _report(err, warn, {})

    # ---- cover, run ends, joints
    joints = {}  # row -> list of (joist index or None, x)
    n_joint = n_bearer = few = notch = 0
    for r in range(deck.nrows):
        ps = sorted(by_row.get(r, []), key=lambda p: p["x0"])
        for a, b in zip(ps, ps[1:]):
            if b["x0"] < a["x1"]:
                bad("ROW", f"row {r}: pieces {a['id']} and {b['id']} overlap in x")
        xs = deck.events(r, [x for p in ps for x in (p["x0"], p["x1"])])
        gap = None
        gaps = []
        for a, b in zip(xs, xs[1:]):
            if b - a < 1e-7:
                continue
            mid = (a + b) / 2
            on = [(p["y0"], p["y1"]) for p in ps if p["x0"] <= mid <= p["x1"]]
            open_ = False
            for x in (a + (b - a) * 1e-4, mid, b - (b - a) * 1e-4):
                left = _minus(deck.in_band(r, x), on)
                if any(d - c > 1.0 for c, d in left):
                    open_ = True
            if open_:
                if gap and abs(gap[1] - a) < 1e-6:
                    gap[1] = b
                else:
                    gap = [a, b]
                    gaps.append(gap)
        for a, b in gaps:
            if b - a > g + 1e-6:
                bad("COVER", f"row {r}: deck not covered x {a:.0f}..{b:.0f} (gap {b - a:.1f} > {g})")
        for a, b in deck.runs[r]:
            _spans(
                deck, r, a, b, [p for p in ps if p["x1"] > a and p["x0"] < b], js, g, tol, R["min_piece"], bad
            )
        for i, p in enumerate(ps):
            h = deck.hull(r, p["x0"], p["x1"])
            if h is None:
                bad("USELESS", f"piece {p['id']} meets no deck")
                continue
            k, ht = deck.kind(r, p["x0"], p["x1"])
            full_cover = all(
                s[4] or (abs(s[2] - p["y0"]) <= 1 and abs(s[3] - p["y1"]) <= 1)
                for s in deck.slabs[r]
                if s[1] > p["x0"] + 1e-6 and s[0] < p["x1"] - 1e-6
            )
            notch += not full_cover
            if P["sides"] == "tg":
                # p is cut somewhere: which factory long edges does it keep?
                has_g, has_t = p["by"] == 0, p["by"] + (p["y1"] - p["y0"]) == W
                if h[0] <= deck.band(r)[0] + 1 and deck.touches(r - 1, p["x0"], p["x1"], True) and not has_g:
                    bad("EDGE", f"piece {p['id']} needs its groove edge (row below)")
                if h[1] >= deck.band(r)[1] - 1 and deck.touches(r + 1, p["x0"], p["x1"], False) and not has_t:
                    bad("EDGE", f"piece {p['id']} needs its tongue edge (row above)")
            left = ps[i - 1] if i and p["x0"] - ps[i - 1]["x1"] <= g else None
            right = ps[i + 1] if i + 1 < len(ps) and ps[i + 1]["x0"] - p["x1"] <= g else None
            # two pieces either side of a thin full-height keep-out are not a joint
            left = left if left and _same_run(deck, r, left, p) else None
            right = right if right and _same_run(deck, r, p, right) else None
            if right:
                n_joint += 1
                j = _on_joist(js, p["x1"], right["x0"], tol)
                if j is None:
                    bad(
                        "JOINT",
                        f"row {r}: joint at {p['x1']}..{right['x0']} (pieces {p['id']},{right['id']}) is not on a joist",
                    )
                else:
                    joints.setdefault(r, []).append((j, p["x1"]))
                if R["end_joint"] == "tg":
                    if p["bx"] + p["x1"] - p["x0"] != L or right["bx"] != 0:
                        bad("FACTORY", f"row {r}: joint at {p['x1']} has a cut end")
            sup = [x for x in js if p["x0"] - g - tol <= x <= p["x1"] + g + tol]
            c = len(sup)
            if not left and (not sup or sup[0] - p["x0"] > R["max_overhang"] + g):
                c += 1
                n_bearer += 1
            if not right and (not sup or p["x1"] - sup[-1] > R["max_overhang"] + g):
                c += 1
                n_bearer += 1
            if c < R["min_supports"]:
                bad("SUPPORT", f"piece {p['id']} has {c} supports")
            few += c < 3

    # ---- stagger
    for r in range(deck.nrows - 1):
        for j, xa in joints.get(r, []):
            for k, xb in joints.get(r + 1, []):
                if abs(js[j] - js[k]) < R["min_stagger"] or j == k:
                    bad("STAGGER", f"rows {r},{r + 1}: joints at {xa} and {xb}")

    # ---- boards
    boards = {}
    for p in pieces:
        boards.setdefault(p["board"], []).append(p)
    cuts, offcuts, used_area = 0, [], 0
    for b, ps in sorted(boards.items()):
        if not 1 <= b <= N:
            bad("COUNT", f"board {b} is not among the {N} bought")
        rects = []
        for p in ps:
            ln, ht = p["x1"] - p["x0"], p["y1"] - p["y0"]
            x0, y0 = p["bx"], p["by"]
            if x0 < 0 or y0 < 0 or x0 + ln > L or y0 + ht > W:
                bad("BOARD", f"piece {p['id']} does not fit in board {b}")
            rects.append((x0, y0, x0 + ln, y0 + ht))
            used_area += ln * ht
        for i, a in enumerate(rects):
            for c in rects[:i]:
                if not (
                    a[0] >= c[2] + kerf or c[0] >= a[2] + kerf or a[1] >= c[3] + kerf or c[1] >= a[3] + kerf
                ):
                    bad("BOARD", f"board {b}: pieces closer than a kerf")
        if not guillotine(rects, kerf):
            bad("BOARD", f"board {b}: not separable by straight cuts")
        else:
            c, off = cut_list(rects, L, W, kerf)
            cuts += c
            offcuts += [(b, *o) for o in off]
    if len(boards) > N:
        bad("COUNT", f"{len(boards)} boards used, {N} bought")

    packs = math.ceil(N / P.get("pack_size", 1))
    stats = {
        "boards": N,
        "boards_used": len(boards),
        "packs": packs,
        "cost_pence": packs * P.get("pack_size", 1) * P.get("price_pence", 0),
        "deck_area_m2": round(deck.area() / 1e6, 3),
        "waste_pct": round(100 * (1 - deck.area() / (N * L * W)), 2) if N else None,
        "pieces": len(pieces),
        "joints": n_joint,
        "cuts": cuts,
        "notched_pieces": notch,
        "edge_bearers": n_bearer,
        "pieces_on_fewer_than_3": few,
        "offcuts_reusable": sorted(
            [o for o in offcuts if o[1] >= R["min_piece"] and o[2] >= R.get("min_strip", 80)],
            key=lambda o: -o[1],
        ),
    }
    if lay.get("lower_bound"):
        n, msg = check_bound(prob, lay["lower_bound"].get("certificate"), deck)
        stats["lower_bound_proved"] = n
        if n < lay["lower_bound"].get("boards", 0):
            bad("BOUND", f"certificate proves {n}, claim is {lay['lower_bound'].get('boards')} ({msg})")
        stats["proved_optimal"] = n >= N
    return _report(err, warn, stats)


def _spans(deck, r, a, b, ps, js, g, tol, min_piece, bad):
    """nominal joint lines p0=a < p1 < ... < pm=b exist (each within tol of a joist and inside its gap) such that every
    piece is at most gap_tol shorter than its nominal span, and no span is under min_piece unless it is the whole run"""
    if not ps:
        return
    for p in ps:
        if p["x0"] < a - 1 or p["x1"] > b + 1:
            bad("ROW", f"row {r}: piece {p['id']} runs past the end of its run {a}..{b}")
            return
    line = a
    spans = []
    for i, p in enumerate(ps):
        if i + 1 < len(ps):
            q = ps[i + 1]
            j = _on_joist(js, p["x1"], q["x0"], tol)
            lo, hi = (
                (p["x1"], q["x0"]) if j is None else (max(p["x1"], js[j] - tol), min(q["x0"], js[j] + tol))
            )
        else:
            lo = hi = b
        nxt = min(hi, line + p["x1"] - p["x0"] + g)
        if nxt < lo:
            bad("COVER", f"row {r}: piece {p['id']} is more than {g} shorter than its span {line}..{lo}")
            return
        spans.append((nxt - line, p))
        line = nxt
    for d, p in spans:
        if d < min_piece and len(ps) > 1:
            bad("SHORT", f"piece {p['id']} spans {d} < {min_piece}")


def _same_run(deck, r, a, b):
    return any(
        s - 1e-6 <= a["x1"] and b["x0"] <= e + 1e-6 and a["x0"] < e and b["x1"] > s for s, e in deck.runs[r]
    )


def _on_joist(js, xa, xb, tol):
    best = None
    for j, x in enumerate(js):
        d = max(0, xa - x, x - xb)
        if d <= tol and (best is None or d < best[0]):
            best = (d, j)
    return None if best is None else best[1]


def _report(err, warn, stats):
    return {"ok": not err, "errors": err, "warnings": warn, "stats": stats}


# =============================================================== lower bound certificates


def check_bound(prob, cert, deck=None):
    """Certificate: {"D": int, "F": [[e,price],...], "G": [...], "T": [...], "joist": {"j": mult}}

    A piece of span d needs at least e = d - gap_tol + kerf of a board whose capacity is C = cover_length + kerf.
    price tables are step functions of e (largest listed e' <= e; 0 below the first), integers:
      F  piece of full width, or ripped piece that cannot share a board's width with any other ripped piece
      G  ripped piece keeping the groove, T ripped piece keeping the tongue;  ripped pieces keeping neither cost 0
    1. no board is worth more than D:   max over c of F(c) + G(C-c) + T(C-c) <= D, each a knapsack
       (full-width and groove pieces of a board are disjoint along it, so are full-width and tongue pieces)
    2. however row r is laid it is worth at least s_r; a joint on joist j costs "joist"[j] more
    3. adjacent rows cannot both use joist j, so at most cap_j rows do
    => boards >= ceil((sum s_r - sum mult_j * cap_j) / D)
    """
    deck = deck or Deck(prob)
    if not cert:
        return 0, "no certificate"
    P, R = prob["product"], prob["rules"]
    C, g, kerf, tol = P["cover_length"] + R["kerf"], R["gap_tol"], R["kerf"], R["joint_tol"]
    js = prob["joists"]["x"]
    D = cert["D"]
    tab = {k: sorted(map(tuple, cert.get(k, []))) for k in "FGT"}
    mult = {int(k): v for k, v in cert.get("joist", {}).items()}
    if any(v < 0 for v in mult.values()) or any(p < 0 for t in tab.values() for _, p in t):
        return 0, "negative price"

    def knap(t):
        items = [(e, p) for e, p in t if p > 0 and e <= C]
        if any(e <= 0 for e, _ in items):
            return [math.inf] * (C + 1)
        V = [0] * (C + 1)
        if items:
            best = {}
            for e, p in items:
                best[e] = max(best.get(e, 0), p)
            items = sorted(best.items())
            for c in range(1, C + 1):
                m = V[c - 1]
                for e, p in items:
                    if e > c:
                        break
                    v = V[c - e] + p
                    if v > m:
                        m = v
                V[c] = m
        return V

    VF, VG, VT = knap(tab["F"]), knap(tab["G"]), knap(tab["T"])
    worth = max(VF[c] + VG[C - c] + VT[C - c] for c in range(C + 1))
    if worth > D:
        return 0, f"a board can be worth {worth} > {D}"

    import bisect

    def price(k, e):
        t = tab[k]
        i = bisect.bisect_right(t, (e, math.inf)) - 1
        if i < 0:
            return 0
        return max(p for _, p in t[: i + 1]) if i < 64 else pm(k)[i]

    _pm = {}

    def pm(k):
        if k not in _pm:
            o, m = [], 0
            for _, p in tab[k]:
                m = max(m, p)
                o.append(m)
            _pm[k] = o
        return _pm[k]

    # ripped kinds that occur, to decide which can share a board's width
    offs = range(-tol, tol + 1) if tol else (0,)
    graphs = {}
    kinds = set()
    cand_rows = {}
    for r in range(deck.nrows):
        for a, b in deck.runs[r]:
            G = _graph(prob, deck, r, a, b, offs)
            graphs[(r, a, b)] = G
            for p, outs in G["out"].items():
                for q, k, h in outs:
                    if k != "F":
                        kinds.add((k, h))
            for x, j in G["joist"].items():
                cand_rows.setdefault(j, set()).add(r)

    def shared(k, h):
        return any(
            h + kerf + h2 - 2 <= P["cover_width"] for k2, h2 in kinds if k2 != k or k == "M"
        )  # 2 mm slack

    share = {kh: shared(*kh) for kh in kinds}
    total = 0
    cache = {}
    for (r, a, b), G in graphs.items():
        key = (a, b, tuple((p, tuple(o)) for p, o in sorted(G["out"].items())))
        if key not in cache:
            dist = {a: 0}
            for p in G["nodes"]:
                if p not in dist:
                    continue
                for q, k, h in G["out"].get(p, ()):
                    e = max(q - p - g + kerf, kerf + 1)
                    if k == "F" or not share[(k, h)]:
                        c = price("F", e)
                    elif k == "M":
                        c = 0
                    else:
                        c = price(k, e)
                    c += dist[p] + (mult.get(G["joist"][q], 0) if q in G["joist"] else 0)
                    if c < dist.get(q, math.inf):
                        dist[q] = c
            cache[key] = dist.get(b, math.inf)
        total += cache[key]
    if total == math.inf:
        return 10**9, "no legal layout exists"
    for j, m in mult.items():
        rs = sorted(cand_rows.get(j, ()))
        cap = run = 0
        for i, r in enumerate(rs):
            run = run + 1 if i and r == rs[i - 1] + 1 else 1
            cap += run % 2  # ceil(run/2) accumulated
        total -= m * cap
    return max(0, -(-total // D)), f"worth {total} / {D}"


def _graph(prob, deck, r, a, b, offs):
    """all legal pieces of one run; joists x offsets are the candidate joints"""
    P, R = prob["product"], prob["rules"]
    L, g, tol = P["cover_length"], R["gap_tol"], R["joint_tol"]
    js = prob["joists"]["x"]
    joist = {}
    for j, x in enumerate(js):
        for o in offs:
            # a joint may leave up to gap_tol open, so it may start that much earlier: nominal line is enough
            if a + R["min_piece"] <= x + o <= b - R["min_piece"]:
                joist[x + o] = j
    nodes = [a] + sorted(joist) + [b]
    out = {}
    for relax in (0, 1, 2):
        out = {}
        for i, p in enumerate(nodes):
            for q in nodes[i + 1 :]:
                d = q - p
                if d > L + g:
                    break
                if p in joist and q in joist and joist[p] == joist[q]:
                    continue
                whole = p == a and q == b
                if d < R["min_piece"] and not whole and relax < 2:
                    continue
                if relax < 1:
                    sup = [x for x in js if p - g - tol <= x <= q + g + tol]
                    c = len(sup)
                    if p == a and (not sup or sup[0] - p > R["max_overhang"]):
                        c += 1
                    if q == b and (not sup or q - sup[-1] > R["max_overhang"]):
                        c += 1
                    if c < R["min_supports"]:
                        continue
                if R["end_joint"] == "tg" and not whole and p != a and q != b and d < L - g:
                    continue
                k, h = deck.kind(r, p, q)
                out.setdefault(p, []).append((q, k, h))
        reach = {a}
        for p in nodes:
            if p in reach:
                reach.update(q for q, *_ in out.get(p, ()))
        if b in reach:
            break
    return {"nodes": nodes, "joist": joist, "out": out}


# =============================================================== pedestals


def pedestal_grid(prob, joist_step=1):
    """Deterministic pedestal positions: on every (joist_step-th) joist, along each stretch of joist under the deck:
    both ends of the stretch, every row seam inside it, and extra points so that no spacing exceeds max_spacing.
    Seams closer than `merge` to an end are served by the end pedestal.  Returns (points, boxes)."""
    ped = prob.get("pedestals", {})
    mx, merge, box = ped.get("max_spacing", 600), ped.get("merge", 75), ped.get("box", 12)
    deck = Deck(prob)
    pts = []
    for x in prob["joists"]["x"][::joist_step]:
        xq = x + 1e-3 if x in deck._base else x
        ivs = deck.section(xq)
        for a, b in ivs:
            seams = [deck.band(r)[0] for r in range(1, deck.nrows) if a + merge < deck.band(r)[0] < b - merge]
            line = [a] + seams + ([b] if b - a > merge else [])
            for p, q in zip(line, line[1:]):
                n = max(1, math.ceil((q - p) / mx - 1e-9))
                pts += [(x, round(p + (q - p) * i / n)) for i in range(n)]
            pts.append((x, round(line[-1])))
    return pts, math.ceil(len(pts) / box)


if __name__ == "__main__":
    if len(sys.argv) != 3:
        sys.exit(__doc__)
    with open(sys.argv[1]) as f1, open(sys.argv[2]) as f2:
        pr, la = json.load(f1), json.load(f2)
    rep = validate(pr.get("problem_data", pr), la)
    print(json.dumps(rep, indent=1))
    sys.exit(0 if rep["ok"] else 1)
