"""An independent numeric model of light in a tank: rays traced backwards from the animal to the lamp.

What it is: from each exact position, rays leave upwards in water, are reflected by four walls (each with its own
reflectance: clear sides reflect totally or by Fresnel's equations, times their cleanness; a back may be dark), cross a
flat surface by Snell and Fresnel, run through air and end on the lit rectangles of the lamp or not. Radiance over n^2
is kept along a ray, so PPFD = pi x (mean radiance over rays drawn by the cosine law). Efficacy, real power, beam,
lamp size and place, water, walls, surface, lid and position are drawn at random, as nobody knows them.
What it is not: it has no rock, waves, fish or scattering, and it takes the same ranges of photons per joule and beam
angle as the code under test, because those are statements about lamps and not a result.
"""

import numpy as np

from webapp.science.fixture import KINDS

N = 1.34
RAYS_EDGE = 40
GEOMETRIES = 24
SCALES = 40
PURE_WATER_PER_M = {"blue": 0.035, "blue_white": 0.068, "white": 0.117, "fluorescent": 0.12, "metal_halide": 0.156}
YELLOW_SHARE = {"blue": 0.76, "blue_white": 0.6, "white": 0.36, "fluorescent": 0.35, "metal_halide": 0.34}


def layout(fixture, box, length):
    """Columns and rows of lamps of `length` cm: end to end while they fit, else in rows."""
    rows = -(-fixture.count // max(1, int(box.length_cm / length)))
    return -(-fixture.count // rows), rows


def usual_size(fixture, box):
    """Length and width (cm) of one lamp as described, or as usual for its kind."""
    kind = KINDS[fixture.kind]
    length = kind.length_share * box.length_cm if kind.length_share else kind.length_cm
    return min(fixture.length_cm or length, box.length_cm), fixture.width_cm or kind.width_cm


def lit_rectangles(fixture, box, rng):
    """Centres and size (cm) of the lit rectangles as this tank really has them: not quite usual, not quite central."""
    length, width = usual_size(fixture, box)
    columns, rows = layout(fixture, box, length)
    if fixture.length_cm is None:
        length = min(length * rng.uniform(0.8, 1.1), box.length_cm / columns)
    if fixture.width_cm is None:
        width *= rng.uniform(0.75, 1.25)
    width = min(width * rows, box.width_cm)
    x, y = rng.uniform(-0.04, 0.04) * box.length_cm, (0.5 + rng.uniform(-0.06, 0.06)) * box.width_cm
    return [((i + 0.5) * box.length_cm / columns + x, y) for i in range(columns)], length, width


def position(fixture, box, place, rng):
    """An exact position within the place: below the most central lamp, or in the outer eighth along the sides."""
    if place == "middle":
        length, width = usual_size(fixture, box)
        columns, rows = layout(fixture, box, length)
        pitch = box.length_cm / columns
        if columns > 3:
            pitch, length = 0.0, box.length_cm - pitch + length
        x = box.length_cm / 2 + (0.0 if columns % 2 else pitch / 2) + rng.uniform(-0.5, 0.5) * length
        return x, box.width_cm / 2 + rng.uniform(-0.5, 0.5) * min(width * rows, box.width_cm)
    while True:
        x, y = rng.uniform(0.01, 0.99, 2)
        if min(x, 1 - x) < 0.125 or min(y, 1 - y) < 0.125:
            return x * box.length_cm, y * box.width_cm


def wall_crossings(end, length):
    """How often an unfolded straight path crosses the wall at 0 and the wall at `length`."""
    far = np.floor(end / length)
    n = np.abs(far)
    first_low = far < 0
    low = np.where(first_low, np.ceil(n / 2), np.floor(n / 2))
    return low, n - low


def side_reflectance(cos_normal, kind, cleanness):
    """Reflectance of one wall, seen from water, by the |cos| of a ray to its normal: clear glass, or a dark back."""
    if kind == "dark":
        return np.full_like(cos_normal, cleanness)
    sin_air = N * np.sqrt(np.clip(1 - cos_normal**2, 0, 1))
    cos_air = np.sqrt(np.clip(1 - sin_air**2, 0, 1))
    rs = ((N * cos_normal - cos_air) / (N * cos_normal + cos_air)) ** 2
    rp = ((N * cos_air - cos_normal) / (N * cos_air + cos_normal)) ** 2
    return cleanness * np.where(sin_air >= 1, 1.0, (rs + rp) / 2)


def draws(fixture, box, place, depth_cm, water, rng, geometries=GEOMETRIES, scales=SCALES, rays_edge=RAYS_EDGE):
    """PPFD at `geometries` x `scales` tanks that all fit the same description."""
    kind = KINDS[fixture.kind]
    clear = {"clear": (0.0, 0.12), "yellow": (0.2, 1.0), None: (0.0, 0.4)}[water]
    out = np.empty((geometries, scales))
    cells = (np.arange(rays_edge, dtype=np.float32)) / rays_edge
    for g in range(geometries):
        low, _, high = kind.beam_deg
        beam = rng.uniform(low, high) if fixture.beam_deg is None else fixture.beam_deg * rng.uniform(0.9, 1.1)
        m = -np.log(2) / np.log(np.cos(np.radians(min(beam, 165)) / 2))
        height = rng.uniform(kind.height_cm[0], kind.height_cm[2]) if fixture.height_cm is None else fixture.height_cm
        height = max(1.0, height + rng.uniform(-1, 1))
        centres, length, width = lit_rectangles(fixture, box, rng)
        x0, y0 = position(fixture, box, place, rng)
        walls = [("dark", rng.uniform(0.02, 0.4)) if rng.random() < 0.7 else ("clear", rng.uniform(0.5, 0.98))]
        walls += [("clear", rng.uniform(0.5, 0.98)) for _ in range(3)]
        jitter = rng.random((2, rays_edge, rays_edge), dtype=np.float32) / rays_edge
        sin2 = ((cells[:, None] + jitter[0]) / np.float32(N * N)).ravel()
        phi = ((cells[None, :] + jitter[1]) * np.float32(2 * np.pi)).ravel()
        sin_w, cos_w = np.sqrt(sin2), np.sqrt(1 - sin2)
        sin_a = sin_w * np.float32(N)
        cos_a = np.sqrt(np.clip(1 - sin_a**2, 1e-9, 1))
        ux, uy = np.cos(phi), np.sin(phi)
        reach = depth_cm * sin_w / cos_w
        xs, ys = x0 + reach * ux, y0 + reach * uy
        fold_x, fold_y = np.mod(xs, 2 * box.length_cm), np.mod(ys, 2 * box.width_cm)
        flip_x, flip_y = fold_x > box.length_cm, fold_y > box.width_cm
        at_x = np.where(flip_x, 2 * box.length_cm - fold_x, fold_x)
        at_y = np.where(flip_y, 2 * box.width_cm - fold_y, fold_y)
        run = height * sin_a / cos_a
        at_x = at_x + np.where(flip_x, -1, 1) * run * ux
        at_y = at_y + np.where(flip_y, -1, 1) * run * uy
        hit = np.zeros(at_x.shape, dtype=bool)
        for cx, cy in centres:
            hit |= (np.abs(at_x - cx) <= length / 2) & (np.abs(at_y - cy) <= width / 2)
        i = np.flatnonzero(hit)
        if not len(i):
            out[g] = 0.0
            continue
        ca, cw, sw = cos_a[i].astype(float), cos_w[i].astype(float), sin_w[i].astype(float)
        rs, rp = ((ca - N * cw) / (ca + N * cw)) ** 2, ((N * ca - cw) / (N * ca + cw)) ** 2
        weight = (1 - (rs + rp) / 2) * ca ** (m - 1)
        for axis, ends, size in ((ux, xs, box.length_cm), (uy, ys, box.width_cm)):
            low, high = wall_crossings(ends[i], size)
            cos_normal = np.abs(axis[i]) * sw
            pair = walls[:2] if axis is uy else walls[2:]
            weight *= side_reflectance(cos_normal, *pair[0]) ** low * side_reflectance(cos_normal, *pair[1]) ** high
        area_m2 = len(centres) * length * width / 1e4
        radiance = (m + 1) / (2 * np.pi * area_m2)  # of 1 µmol/s, straight down
        losses = rng.uniform(0.93, 1.0, scales)  # spray, film
        if fixture.lid or (fixture.lid is None and rng.random() < 0.4):
            losses *= rng.uniform(0.74, 0.92, scales)
        ppe = np.exp(rng.uniform(np.log(kind.ppe_umol_per_j[0]), np.log(kind.ppe_umol_per_j[2]), scales))
        watts = fixture.count * fixture.watts_each * rng.uniform(0.85, 1.12, scales)
        yellow = rng.uniform(*clear, scales) * YELLOW_SHARE[kind.colour]
        k = PURE_WATER_PER_M[kind.colour] + yellow + rng.uniform(0, 0.12, scales)
        paths = np.exp(-k[:, None] * (depth_cm / 100 / cw)[None, :])
        total = (paths * weight[None, :]).sum(axis=1) / (rays_edge * rays_edge)
        out[g] = np.pi * radiance * total * ppe * watts * losses  # n^2 of radiance and 1/n^2 of the cone cancel
    return out
