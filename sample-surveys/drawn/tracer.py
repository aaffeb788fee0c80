"""A very small ray tracer: enough to draw plain rooms in a believable light.

Lengths are inches; x runs to the right, y away from the first camera, z up.
Every ray of one pass starts at one point (the eye, or a lamp when shadows are cast), which keeps
the arithmetic short.  Nothing here is random: textures come from seeded noise.
Limits: no mirrors, no glass, hard shadows softened afterward, corner darkening is an estimate from depth.
"""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
from PIL import Image, ImageFilter

FAR = np.float32(1e9)


def lin(rgb) -> np.ndarray:
    """Turns an sRGB color of 0-255 into linear light of 0-1."""
    c = np.asarray(rgb, np.float32) / 255.0
    return np.where(c <= 0.04045, c / 12.92, ((c + 0.055) / 1.055) ** 2.4).astype(np.float32)


def unit(v):
    """Returns the vector with length 1."""
    v = np.asarray(v, np.float32)
    return v / np.linalg.norm(v)


_NOISE: dict = {}


def noise(u, v, scale=1.0, seed=0, power=1.6):
    """Smooth repeatable noise of about -1..1 at texture place (u, v) inches; `scale` is inches per repeat / 64."""
    key = (seed, power)
    if key not in _NOISE:
        n = 512
        rng = np.random.default_rng(1000 + seed)
        spec = np.fft.rfft2(rng.standard_normal((n, n)))
        f = np.hypot(np.fft.fftfreq(n)[:, None], np.fft.rfftfreq(n)[None, :])
        f[0, 0] = 1
        spec = spec / f**power
        spec[0, 0] = 0
        a = np.fft.irfft2(spec, (n, n))
        _NOISE[key] = (a / a.std() / 2.2).astype(np.float32)
    a = _NOISE[key]
    n = a.shape[0]
    x = np.asarray(u, np.float32) * (8.0 / scale) + 7.3 * seed
    y = np.asarray(v, np.float32) * (8.0 / scale) + 3.1 * seed
    x0 = np.floor(x).astype(np.int32)
    y0 = np.floor(y).astype(np.int32)
    fx = (x - x0).astype(np.float32)
    fy = (y - y0).astype(np.float32)
    x0 &= n - 1
    y0 &= n - 1
    x1 = (x0 + 1) & (n - 1)
    y1 = (y0 + 1) & (n - 1)
    return (a[y0, x0] * (1 - fx) + a[y0, x1] * fx) * (1 - fy) + (a[y1, x0] * (1 - fx) + a[y1, x1] * fx) * fy


@dataclass
class Mat:
    """A surface: sRGB color, shine, and an optional function (u, v, local place, face) -> linear color."""

    color: tuple = (200, 200, 200)
    spec: float = 0.0
    gloss: float = 30.0
    tex: object = None
    glow: float = 0.0


@dataclass
class Box:
    """A box by centre and full size, turned about z by `turn` degrees (and about its own x by `pitch`)."""

    center: tuple
    size: tuple
    mat: Mat
    turn: float = 0.0
    pitch: float = 0.0
    roll: float = 0.0

    def __post_init__(self):
        c, s = np.cos(np.radians(self.turn)), np.sin(np.radians(self.turn))
        cp, sp = np.cos(np.radians(self.pitch)), np.sin(np.radians(self.pitch))
        cr, sr = np.cos(np.radians(self.roll)), np.sin(np.radians(self.roll))
        rz = np.array([[c, -s, 0], [s, c, 0], [0, 0, 1]])
        rx = np.array([[1, 0, 0], [0, cp, -sp], [0, sp, cp]])
        ry = np.array([[cr, 0, sr], [0, 1, 0], [-sr, 0, cr]])
        self.rot = (rz @ rx @ ry).astype(np.float32)
        self.c = np.asarray(self.center, np.float32)
        self.h = np.asarray(self.size, np.float32) / 2
        self.bound = (self.c, float(np.linalg.norm(self.h)) * 1.001)

    def hit(self, o, d):
        lo = (o - self.c) @ self.rot
        ld = d @ self.rot
        with np.errstate(divide="ignore", invalid="ignore"):
            inv = 1.0 / np.where(np.abs(ld) < 1e-9, 1e-9, ld)
            t1 = (-self.h - lo) * inv
            t2 = (self.h - lo) * inv
        near = np.minimum(t1, t2).max(1)
        far = np.maximum(t1, t2).min(1)
        t = np.where(near > 1e-3, near, far)
        return np.where((near <= far) & (far > 1e-3), t, FAR)

    def surface(self, p):
        q = (p - self.c) @ self.rot
        face = np.abs(np.abs(q) / self.h - 1).argmin(1)
        n = np.zeros_like(q)
        i = np.arange(len(q))
        n[i, face] = np.sign(q[i, face])
        u = np.where(face == 0, q[:, 1], q[:, 0])
        v = np.where(face == 2, q[:, 1], q[:, 2])
        return n @ self.rot.T, u, v, q, face * 2 + (n[i, face] > 0)


@dataclass
class Cyl:
    """A closed cylinder from a to b."""

    a: tuple
    b: tuple
    r: float
    mat: Mat

    def __post_init__(self):
        self.pa = np.asarray(self.a, np.float32)
        ax = np.asarray(self.b, np.float32) - self.pa
        self.len = float(np.linalg.norm(ax))
        w = ax / self.len
        u = unit(np.cross(w, [0.31, 0.2, 1] if abs(w[2]) < 0.9 else [1, 0.2, 0.1]))
        self.rot = np.stack([u, np.cross(w, u), w], 1).astype(np.float32)
        self.bound = (self.pa + ax / 2, float(np.hypot(self.len / 2, self.r)) * 1.001)

    def hit(self, o, d):
        lo = (o - self.pa) @ self.rot
        ld = d @ self.rot
        a = ld[:, 0] ** 2 + ld[:, 1] ** 2
        a = np.maximum(a, 1e-9)
        b = lo[0] * ld[:, 0] + lo[1] * ld[:, 1]
        c = lo[0] ** 2 + lo[1] ** 2 - self.r**2
        disc = b * b - a * c
        root = np.sqrt(np.maximum(disc, 0))
        best = np.full(len(d), FAR, np.float32)
        for t in ((-b - root) / a, (-b + root) / a):
            z = lo[2] + t * ld[:, 2]
            ok = (disc > 0) & (t > 1e-3) & (z >= 0) & (z <= self.len)
            best = np.where(ok & (t < best), t, best)
        for z in (0.0, self.len):
            dz = np.where(np.abs(ld[:, 2]) < 1e-9, 1e-9, ld[:, 2])
            t = (z - lo[2]) / dz
            x = lo[0] + t * ld[:, 0]
            y = lo[1] + t * ld[:, 1]
            ok = (t > 1e-3) & (x * x + y * y <= self.r**2)
            best = np.where(ok & (t < best), t, best)
        return best

    def surface(self, p):
        q = (p - self.pa) @ self.rot
        n = np.zeros_like(q)
        e = 1e-3 * max(self.len, 1) + 1e-3
        r = np.hypot(q[:, 0], q[:, 1])
        cap = (r < self.r * 0.995) & ((q[:, 2] < e) | (q[:, 2] > self.len - e))
        n[:, 0] = np.where(cap, 0, q[:, 0])
        n[:, 1] = np.where(cap, 0, q[:, 1])
        n[:, 2] = np.where(cap, np.where(q[:, 2] < self.len / 2, -1, 1), 0)
        n /= np.maximum(np.linalg.norm(n, axis=1, keepdims=True), 1e-6)
        return n @ self.rot.T, np.arctan2(q[:, 1], q[:, 0]) * self.r, q[:, 2], q, cap.astype(int)


@dataclass
class Ball:
    """A sphere."""

    center: tuple
    r: float
    mat: Mat

    def __post_init__(self):
        self.c = np.asarray(self.center, np.float32)
        self.bound = (self.c, self.r * 1.001)

    def hit(self, o, d):
        m = o - self.c
        b = d @ m
        disc = b * b - (m @ m - self.r**2)
        root = np.sqrt(np.maximum(disc, 0))
        t = np.where(-b - root > 1e-3, -b - root, -b + root)
        return np.where((disc > 0) & (t > 1e-3), t, FAR)

    def surface(self, p):
        q = p - self.c
        n = q / self.r
        return n, np.arctan2(n[:, 1], n[:, 0]) * self.r, n[:, 2] * self.r, q, np.zeros(len(p), int)


@dataclass
class Sheet:
    """A flat rectangle: corner, and the two edge vectors u and v; `image` (a Pillow picture) fills it, top row at v = 1."""

    corner: tuple
    u: tuple
    v: tuple
    mat: Mat
    image: object = None

    def __post_init__(self):
        self.o = np.asarray(self.corner, np.float32)
        self.eu = np.asarray(self.u, np.float32)
        self.ev = np.asarray(self.v, np.float32)
        self.n = unit(np.cross(self.eu, self.ev))
        self.lu = float(np.linalg.norm(self.eu))
        self.lv = float(np.linalg.norm(self.ev))
        m = self.o + self.eu / 2 + self.ev / 2
        self.bound = (m, np.hypot(self.lu, self.lv) / 2 * 1.01)
        if self.image is not None:
            self.pix = np.asarray(self.image.convert("RGBA"), np.float32)

    def _uv(self, p):
        q = p - self.o
        return q @ self.eu / self.lu**2, q @ self.ev / self.lv**2

    def hit(self, o, d):
        den = d @ self.n
        t = ((self.o - o) @ self.n) / np.where(np.abs(den) < 1e-9, 1e-9, den)
        a, b = self._uv(o + d * t[:, None])
        ok = (t > 1e-3) & (a >= 0) & (a <= 1) & (b >= 0) & (b <= 1)
        if self.image is not None and ok.any():
            h, w = self.pix.shape[:2]
            i = np.clip(((1 - b) * h).astype(int), 0, h - 1)
            j = np.clip((a * w).astype(int), 0, w - 1)
            ok &= self.pix[i, j, 3] > 127
        return np.where(ok, t, FAR)

    def surface(self, p):
        a, b = self._uv(p)
        n = np.broadcast_to(self.n, p.shape)
        return n, a * self.lu, b * self.lv, np.stack([a, b, 0 * a], 1), np.zeros(len(p), int)

    def paint(self, q):
        h, w = self.pix.shape[:2]
        i = np.clip(((1 - q[:, 1]) * h).astype(int), 0, h - 1)
        j = np.clip((q[:, 0] * w).astype(int), 0, w - 1)
        return lin(self.pix[i, j, :3])


@dataclass
class Scene:
    """What is drawn, from where, in which light."""

    eye: tuple
    look: tuple
    fov: float = 60.0
    tilt: float = 0.0
    things: list = field(default_factory=list)
    lamps: list = field(default_factory=list)  # (place, sRGB color, strength, reach)
    ambient: tuple = (150, 150, 160)
    ambient_power: float = 0.35
    flash: float = 1.0
    flash_reach: float = 40.0
    sky: tuple = (20, 20, 24)
    exposure: float = 1.0
    ao: float = 0.9

    def add(self, *things):
        """Puts things, or lists of things, into the scene."""
        for t in things:
            if isinstance(t, (list, tuple)):
                self.add(*t)
            else:
                self.things.append(t)
        return self

    def trace(self, o, d, dist=None):
        """Nearest hit of rays from one origin; with `dist`, only says which rays are stopped before it."""
        best = np.full(len(d), FAR, np.float32)
        who = np.full(len(d), -1, np.int32)
        for i in self._near_beam(o, d):
            t = self.things[i]
            if dist is not None and t.mat.glow:
                continue
            c, r = t.bound
            m = c - o
            b = d @ m.astype(np.float32)
            far2 = float(m @ m)
            idx = np.nonzero((far2 - b * b < r * r) & ((b > 0) | (far2 < r * r)))[0]
            if not len(idx):
                continue
            th = t.hit(o, d[idx]).astype(np.float32)
            closer = th < best[idx]
            idx = idx[closer]
            best[idx] = th[closer]
            who[idx] = i
        return (best < dist - 0.03) if dist is not None else (best, who)

    def _near_beam(self, o, d):
        """Numbers of the things that the cone around these rays can touch at all."""
        axis = d.mean(0)
        axis = axis / max(np.linalg.norm(axis), 1e-6)
        spread = np.arccos(np.clip((d @ axis).min(), -1, 1)) + 1e-3
        m = self._centers - o
        far = np.maximum(np.linalg.norm(m, axis=1), 1e-6)
        reach = np.where(far > self._radii, np.arcsin(np.clip(self._radii / far, 0, 1)), np.pi)
        off = np.arccos(np.clip(m @ axis / far, -1, 1))
        return np.nonzero(off <= spread + reach)[0]

    def render(self, w, h, fine=True):
        """Draws the scene; returns linear light (h, w, 3)."""
        eye = np.asarray(self.eye, np.float32)
        f = unit(np.asarray(self.look, np.float32) - eye)
        right = unit(np.cross(f, [0, 0, 1] if abs(f[2]) < 0.995 else [0, 1, 0]))
        up = np.cross(right, f)
        a = np.radians(self.tilt)
        right, up = right * np.cos(a) + up * np.sin(a), up * np.cos(a) - right * np.sin(a)
        lamps = list(self.lamps)
        if self.flash:
            lamps.append((eye + right * 1.2 + up * 2.2, (255, 250, 240), self.flash, self.flash_reach))
        self._centers = np.array([t.bound[0] for t in self.things], np.float32)
        self._radii = np.array([t.bound[1] for t in self.things], np.float32)
        k = np.tan(np.radians(self.fov) / 2) / max(w, h) * 2

        def rays(px, py):
            d = f + (((px + 0.5 - w / 2) * k)[:, None]) * right + (((h / 2 - 0.5 - py) * k)[:, None]) * up
            return (d / np.linalg.norm(d, axis=1, keepdims=True)).astype(np.float32)

        out = np.zeros((h, w, 3), np.float32)
        depth = np.zeros((h, w), np.float32)
        who = np.zeros((h, w), np.int32)
        tile = 128
        corners = [(y, x) for y in range(0, h, tile) for x in range(0, w, tile)]
        for y0, x0 in corners:
            y1, x1 = min(h, y0 + tile), min(w, x0 + tile)
            px, py = np.meshgrid(np.arange(x0, x1), np.arange(y0, y1))
            col, t, hit = self._shade(eye, rays(px.ravel(), py.ravel()), lamps)
            out[y0:y1, x0:x1] = col.reshape(y1 - y0, x1 - x0, 3)
            depth[y0:y1, x0:x1] = np.minimum(t, 2000).reshape(y1 - y0, x1 - x0)
            who[y0:y1, x0:x1] = hit.reshape(y1 - y0, x1 - x0)
        if fine:
            rough_spot = self._edges(out, who)
            steps = np.array([-0.375, -0.125, 0.125, 0.375])
            jitter = [(steps[i], steps[j]) for i, j in ((0, 1), (1, 3), (2, 0), (3, 2))]
            for y0, x0 in corners:
                y, x = np.nonzero(rough_spot[y0 : y0 + tile, x0 : x0 + tile])
                if not len(y):
                    continue
                y, x = y + y0, x + x0
                more = [self._shade(eye, rays(x + a, y + b), lamps)[0] for a, b in jitter]
                out[y, x] = np.mean(more, 0)
        return out * self._corners(depth)[..., None] * self.exposure

    @staticmethod
    def _edges(out, who):
        """Pixels that stand at the edge of a thing, of a shadow or of a marking: these get four rays more."""
        s = np.sqrt(np.clip(out.max(2), 0, 1))
        mark = np.zeros(who.shape, bool)
        for axis in (0, 1):
            step = (np.diff(who, axis=axis) != 0) | (np.abs(np.diff(s, axis=axis)) > 0.045)
            a, b = (
                (slice(None, -1), slice(1, None)) if axis == 0 else ((slice(None), slice(None, -1)), (slice(None), slice(1, None)))
            )
            mark[a] |= step
            mark[b] |= step
        return mark

    def _shade(self, eye, d, lamps):
        """Linear light, distance and thing met, for each ray from the eye."""
        t, who = self.trace(eye, d)
        col = np.empty_like(d)
        col[:] = lin(self.sky) * (0.75 + 0.5 * np.clip(d[:, 2:3], 0, 1))
        p = eye + d * t[:, None]
        nrm = np.zeros_like(d)
        alb = np.zeros_like(d)
        spec = np.zeros(len(d), np.float32)
        gloss = np.ones(len(d), np.float32)
        glow = np.zeros(len(d), np.float32)
        for i in np.unique(who[who >= 0]):
            idx = np.nonzero(who == i)[0]
            th = self.things[i]
            n, u, v, q, face = th.surface(p[idx])
            m = th.mat
            if getattr(th, "image", None) is not None:
                c = th.paint(q)
            elif m.tex is not None:
                c = m.tex(u, v, q, face)
                if isinstance(c, tuple):
                    c, bump = c
                    n = n + bump
                    n = n / np.linalg.norm(n, axis=1, keepdims=True)
            else:
                c = lin(m.color)
            nrm[idx], alb[idx] = n, c
            spec[idx], gloss[idx], glow[idx] = m.spec, m.gloss, m.glow
        nrm[(nrm * d).sum(1) > 0] *= -1
        light = lin(self.ambient) * self.ambient_power * (0.72 + 0.28 * nrm[:, 2:3])
        shine = np.zeros_like(col)
        ps = np.nonzero(who >= 0)[0]
        for pos, color, power, reach in lamps if len(ps) else ():
            pos = np.asarray(pos, np.float32)
            v = p[ps] - pos
            dist = np.linalg.norm(v, axis=1)
            v /= dist[:, None]
            lit = ~self.trace(pos, v, dist)
            cos = np.clip(-(v * nrm[ps]).sum(1), 0, 1)
            e = power / (1 + (dist / reach) ** 2) * lit
            light[ps] += (cos * e)[:, None] * lin(color)
            half = -(v + d[ps])
            half /= np.maximum(np.linalg.norm(half, axis=1, keepdims=True), 1e-6)
            sp = np.clip((half * nrm[ps]).sum(1), 0, 1) ** gloss[ps] * spec[ps] * e
            shine[ps] += sp[:, None] * lin(color)
        col[ps] = alb[ps] * light[ps] + shine[ps] + alb[ps] * glow[ps, None]
        return np.minimum(col, 1.6), t, who

    def _corners(self, depth):
        """Darkens corners and the far side of edges: a place lying deeper than its neighbours gets less light."""
        if not self.ao:
            return np.ones_like(depth)
        h, w = depth.shape
        z = np.log(depth)
        lo, hi = z.min(), max(z.max(), z.min() + 1e-3)
        img = Image.fromarray(((z - lo) / (hi - lo)).astype(np.float32))
        total = np.ones_like(depth)
        for r in (0.008, 0.03, 0.09):
            blur = _blur(np.asarray(img), r * max(w, h)) * (hi - lo) + lo
            total *= 1 - np.clip((z - blur) * 1.5 * self.ao, -0.04, 0.33)
        return total


def _blur(a, radius):
    """Gaussian blur of a float plane (three box passes; Pillow blurs 8-bit pictures only)."""
    r = max(1, int(radius * 0.8))
    a = a.astype(np.float64)
    for axis in (0, 1, 0, 1, 0, 1):
        pad = [(0, 0), (0, 0)]
        pad[axis] = (r + 1, r)
        c = np.cumsum(np.pad(a, pad, mode="edge"), axis)
        a = (np.take(c, range(2 * r + 1, c.shape[axis]), axis) - np.take(c, range(0, c.shape[axis] - 2 * r - 1), axis)) / (
            2 * r + 1
        )
    return a.astype(np.float32)


def photograph(light, seed, warm=1.0, blur=0.55, grain=0.016, vignette=0.42, bow=(0.0, 0.0)):
    """Turns linear light into an 8-bit picture as a plain phone would: tone curve, color cast, vignette, grain."""
    h, w, _ = light.shape
    rng = np.random.default_rng(seed)
    y, x = np.mgrid[0:h, 0:w]
    rr = ((x / w - 0.5 - bow[0]) ** 2 + (y / h - 0.5 - bow[1]) ** 2) * 2
    a = light * (1 - vignette * rr[..., None] * 1.25)
    a = a * np.array([warm, 1.0, 1.0 / warm**1.3], np.float32)
    a = a * (1.06 + 0.25 * a) / (1 + 0.62 * a)
    a = np.clip(a, 0, 1)
    s = np.where(a <= 0.0031308, a * 12.92, 1.055 * a ** (1 / 2.4) - 0.055)
    g = rng.standard_normal((h, w, 1)) * grain + rng.standard_normal((h, w, 3)) * grain * 0.3
    g = np.stack([_blur(g[..., i], 1.3) * 2.2 for i in range(3)], 2)
    s = s + g * (1.25 - 0.8 * s)
    img = Image.fromarray((np.clip(s, 0, 1) * 255 + 0.5).astype(np.uint8), "RGB")
    return img.filter(ImageFilter.GaussianBlur(blur)) if blur else img
