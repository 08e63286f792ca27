/**
 * The scene of the demonstration, drawn by the program: a small ferry at a wooden landing stage in
 * river fog. Invented from end to end: its luminances, in candelas per square metre, are set so that
 * they span a wide subject, from the gaps between the planks to a lamp in the fog.
 *
 *   luminance through fog of transmission t:  t L + (1 - t) L_fog
 */

/** Sides of the scene, pixels: two million. */
export const SCENE_WIDTH = 1632;
export const SCENE_HEIGHT = 1224;

/** Height of the scene where its width is 1. */
const TALL = SCENE_HEIGHT / SCENE_WIDTH;
const HORIZON = 0.3;
const WATERLINE = 0.455;
const FOG = 950;
const SUN = { u: 0.7, v: 0.1 };

const BANKS = [
  { base: HORIZON + 0.002, rise: 0.05, seed: 11, transmission: 0.1, from: -0.2, to: 1.2 },
  { base: HORIZON + 0.014, rise: 0.085, seed: 12, transmission: 0.3, from: -0.2, to: 0.42 },
];

const PILES = [
  { at: 0.405, half: 0.0115, top: 0.452, foot: 0.6 },
  { at: 0.495, half: 0.016, top: 0.49, foot: TALL },
  { at: 0.06, half: 0.012, top: 0.44, foot: 0.57 },
];

/** log10 of the luminance of every pixel, row by row. */
export function demoScene(width = SCENE_WIDTH, height = SCENE_HEIGHT): Float32Array {
  const pixels = new Float32Array(width * height);
  drawRows(pixels, width, height, 0, height);
  return pixels;
}

/** Draws some rows of the scene, so that whoever draws it can do other work in between. */
export function drawRows(
  pixels: Float32Array,
  width: number,
  height: number,
  from: number,
  to: number,
): void {
  const pixel = 1 / width;
  for (let y = from; y < Math.min(to, height); y++) {
    for (let x = 0; x < width; x++) {
      const luminance = luminanceAt((x + 0.5) / width, ((y + 0.5) / height) * TALL, pixel);
      pixels[y * width + x] = Math.log10(Math.max(luminance, 0.5));
    }
  }
}

function luminanceAt(u: number, v: number, pixel: number): number {
  let light = v < HORIZON ? sky(u, v) : water(u, v);
  // Each layer is asked only where it lies: a scene of two million pixels is drawn while one waits.
  if (v > 0.17 && v < 0.4) light = banks(u, v, pixel, light);
  if (v > 0.1 && v < 0.66 && u > 0.38 && u < 0.93) light = ferry(u, v, pixel, light);
  return v > 0.4 && u < 0.68 ? stage(u, v, pixel, light) : light;
}

function sky(u: number, v: number): number {
  const far = Math.hypot(u - SUN.u, v - SUN.v);
  const veil = 0.9 + 0.2 * noise(3 * u, 7 * v, 1);
  return veil * (620 + 400 * (v / HORIZON)) + 5200 * bell(far, 0.028) + 1300 * bell(far, 0.13);
}

/** Sky mirrored, broken by ripples that grow towards the viewer; glints under the sun. */
function water(u: number, v: number): number {
  const depth = Math.max(0.004, v - HORIZON);
  const near = depth / (TALL - HORIZON);
  const scale = 0.035 / depth;
  const wave =
    noise(u * 9 * scale, 46 * scale, 2) +
    0.6 * noise(u * 26 * scale, 110 * scale, 3) +
    0.35 * noise(u * 70 * scale, 260 * scale, 4) -
    0.95;
  const mirrored = sky(u + 0.012 * wave * near, Math.max(0, 2 * HORIZON - v + 0.1 * wave * near));
  const share = 0.82 - 0.62 * near + 0.22 * wave * (0.35 + near);
  const column = bell(u - SUN.u - 0.03 * wave, 0.02 + 0.06 * near);
  const glint = column * Math.max(0, wave - 0.28) ** 2 * 16000;
  const fog = Math.exp(-6 * near);
  const own = Math.max(0.06, share) * mirrored + glint;
  return own * (1 - 0.6 * fog) + FOG * 0.6 * fog;
}

/** Two wooded banks, the farther one all but lost in the fog. */
function banks(u: number, v: number, pixel: number, behind: number): number {
  let light = behind;
  for (const { base, rise, seed, transmission, from, to } of BANKS) {
    const fade = smooth((to - u) / 0.14) * smooth((u - from) / 0.1);
    const crown =
      0.55 * noise(6 * u, 0, seed) + 0.3 * noise(23 * u, 1, seed) + 0.15 * noise(90 * u, 2, seed);
    const top = base - rise * fade * (0.35 + 0.9 * crown);
    const leaf = 40 * (0.5 + noise(150 * u, 150 * v, seed));
    const inside = cover(Math.max(top - v, v - base), pixel);
    light = over(light, throughFog(leaf, transmission), inside);
    const reflected = cover(Math.max(base - v, v - base - 0.55 * (base - top)), 6 * pixel);
    light = over(light, light * 0.72, reflected * 0.8);
  }
  return light;
}

function ferry(u: number, v: number, pixel: number, behind: number): number {
  // Below the waterline the same shapes lie upside down and swayed by the ripples.
  const mirror = v > WATERLINE;
  const depth = v - WATERLINE;
  const sway = mirror
    ? 0.004 * (noise(18 * u, 160 * v, 21) - 0.5) + 0.007 * (noise(5 * u, 70 * v, 22) - 0.5)
    : 0;
  const y = mirror ? WATERLINE - depth * 1.05 : v;
  const x = u + sway;
  const transmission = 0.8;
  let light = behind;
  const blur = mirror ? 5 * pixel : pixel;
  const put = (distance: number, luminance: number): void => {
    const part = cover(distance, blur) * (mirror ? 0.62 * Math.exp(-7 * depth) : 1);
    light = over(light, throughFog(luminance, transmission), part);
  };
  const box = (left: number, top: number, right: number, bottom: number): number =>
    Math.max(left - x, x - right, top - y, y - bottom);
  // Hull: a flat deck, raked ends, a pale strake.
  const rake = 0.9 * (y - (WATERLINE - 0.045));
  put(
    Math.max(0.46 + rake - x, x - (0.86 - rake), WATERLINE - 0.045 - y, y - WATERLINE),
    26 + 18 * noise(60 * x, 300 * y, 23),
  );
  put(box(0.462, WATERLINE - 0.047, 0.858, WATERLINE - 0.041), 420);
  // Ramps at both ends.
  put(
    Math.abs(y - (WATERLINE - 0.05 - 0.5 * (0.462 - x))) -
      0.0035 +
      (x > 0.462 || x < 0.425 ? 1 : 0),
    60,
  );
  put(
    Math.abs(y - (WATERLINE - 0.05 - 0.5 * (x - 0.858))) -
      0.0035 +
      (x < 0.858 || x > 0.895 ? 1 : 0),
    60,
  );
  // Deck house with windows, wheelhouse above it.
  put(box(0.56, WATERLINE - 0.115, 0.76, WATERLINE - 0.046), 330 + 30 * noise(40 * x, 40 * y, 24));
  const pane = (x - 0.572) % 0.031;
  if (x > 0.572 && x < 0.75)
    put(Math.max(box(0.572, WATERLINE - 0.1, 0.75, WATERLINE - 0.076), pane - 0.02), 16);
  put(box(0.553, WATERLINE - 0.122, 0.767, WATERLINE - 0.114), 120);
  put(box(0.625, WATERLINE - 0.165, 0.695, WATERLINE - 0.121), 390);
  put(box(0.632, WATERLINE - 0.155, 0.688, WATERLINE - 0.136), 22);
  put(box(0.618, WATERLINE - 0.172, 0.702, WATERLINE - 0.164), 110);
  // Funnel, mast, rail.
  put(box(0.722, WATERLINE - 0.172, 0.742, WATERLINE - 0.121), 34);
  put(box(0.722, WATERLINE - 0.162, 0.742, WATERLINE - 0.154), 360);
  put(box(0.6585, WATERLINE - 0.26, 0.6615, WATERLINE - 0.17), 55);
  const post = Math.abs(((x - 0.465) % 0.0165) - 0.008) - 0.0009;
  if (x > 0.466 && x < 0.556)
    put(Math.max(box(0.466, WATERLINE - 0.075, 0.556, WATERLINE - 0.046), post), 48);
  if (x > 0.765 && x < 0.856)
    put(Math.max(box(0.765, WATERLINE - 0.075, 0.856, WATERLINE - 0.046), post), 48);
  put(box(0.466, WATERLINE - 0.077, 0.556, WATERLINE - 0.074), 60);
  put(box(0.765, WATERLINE - 0.077, 0.856, WATERLINE - 0.074), 60);
  const lamp = Math.hypot(x - 0.66, y - (WATERLINE - 0.262));
  const strength = mirror ? 0.18 * Math.exp(-7 * depth) : 1;
  return (
    light +
    strength * (26000 * bell(lamp, 0.0035) + 900 * bell(lamp, 0.022) + 160 * bell(lamp, 0.07))
  );
}

/** The landing stage in front: wet planks, piles, a mooring rope, a waiting figure. */
function stage(u: number, v: number, pixel: number, behind: number): number {
  let light = behind;
  const put = (distance: number, luminance: number): void => {
    light = over(light, luminance, cover(distance, pixel));
  };
  const far = 0.545;
  const slope = (v - far) / (TALL - far);
  const right = 0.4 + 0.24 * slope;
  // The dark under the stage, and its cross beams.
  const edge = right + 0.004;
  put(Math.max(far - 0.004 - v, u - edge - 0.012, v - TALL), 3.2 + 2.4 * noise(30 * u, 60 * v, 31));
  // Planks run across; perspective narrows the far ones.
  const along = 1 / (0.1 + 0.9 * Math.max(0, slope));
  const plank = along * 5.6;
  const part = plank - Math.floor(plank);
  const wide = Math.floor(plank);
  const grain =
    0.55 * noise(u * 7 + 13 * wide, part * 3, 32) +
    0.3 * noise(u * 40 + 7 * wide, part * 14, 33) +
    0.15 * noise(u * 240, plank * 40, 34);
  const wet = smooth((noise(3.1 * u + 5 * wide, 0.4 * plank, 35) - 0.52) / 0.16);
  const wood =
    (16 + 46 * hash(wide, 7) + 60 * grain) * (1 - 0.55 * wet) + 330 * wet * (0.45 + 0.55 * grain);
  const gap = Math.min(part, 1 - part) / Math.max(plank * 0.32, 0.6);
  const deck = Math.max(far - v, u - right + 0.008 * (hash(wide, 9) - 0.5), v - TALL);
  put(deck, over(3, wood, smooth((gap - 0.012) / 0.018)));
  // Piles: round, lit from the side of the sun.
  for (const { at, half, top, foot } of PILES) {
    const across = (u - at) / half;
    const round = Math.sqrt(Math.max(0, 1 - across * across));
    const bark = 0.6 + 0.8 * noise(90 * u, 14 * v, 36);
    const lit = (7 + 70 * smooth((across - 0.1) / 0.9) + 12 * round) * bark;
    put(Math.max(Math.abs(u - at) - half, top + 0.004 * across * across - v, v - foot), lit);
    put(Math.hypot((u - at) / half, (v - top) / (0.3 * half)) * half - half, 210 * bark);
  }
  // Rope from pile to pile.
  const sag = 0.515 + 0.9 * ((u - 0.45) ** 2 - 0.045 ** 2) - 0.02;
  put(Math.abs(v - sag) - 0.002 + (u < 0.405 || u > 0.495 ? 1 : 0), 95);
  // A figure in a dark coat, with a pale collar.
  const x = u - 0.205;
  const y = v - 0.575;
  put(Math.hypot(x / 0.011, (y + 0.148) / 0.013) * 0.011 - 0.011, 120 + 240 * smooth(x / 0.011));
  put(Math.max(Math.abs(x) - 0.012, Math.abs(y + 0.16) - 0.004), 9);
  const coat = 0.012 + 0.1 * (y + 0.135);
  put(
    Math.max(Math.abs(x) - Math.min(0.027, coat + 0.006), -0.134 - y, y + 0.03),
    6 + 16 * smooth(x / 0.02) + 5 * noise(160 * u, 60 * v, 37),
  );
  put(Math.max(Math.abs(Math.abs(x) - 0.009) - 0.006, -0.032 - y, y), 5);
  put(Math.max(Math.abs(x - 0.002) - 0.005, Math.abs(y + 0.131) - 0.003), 420);
  return light;
}

function throughFog(luminance: number, transmission: number): number {
  return transmission * luminance + (1 - transmission) * FOG;
}
function over(under: number, above: number, part: number): number {
  return under + (above - under) * part;
}
/** 1 inside, 0 outside, half at a distance of 0; soft over a pixel. */
function cover(distance: number, pixel: number): number {
  return Math.min(1, Math.max(0, 0.5 - distance / pixel));
}
function smooth(t: number): number {
  const held = Math.min(1, Math.max(0, t));
  return held * held * (3 - 2 * held);
}
function bell(distance: number, width: number): number {
  const at = distance / width;
  return Math.exp(-at * at);
}
/** A repeatable number in [0, 1) for a place of a grid. */
function hash(x: number, y: number, seed = 0): number {
  let h = Math.imul(x, 374761393) ^ Math.imul(y, 668265263) ^ Math.imul(seed, 974634777);
  h = Math.imul(h ^ (h >>> 13), 1274126177);
  return ((h ^ (h >>> 16)) >>> 0) / 4294967296;
}
/** Smooth noise in [0, 1]. */
function noise(x: number, y: number, seed: number): number {
  const left = Math.floor(x);
  const top = Math.floor(y);
  const s = smooth(x - left);
  const t = smooth(y - top);
  const upper = over(hash(left, top, seed), hash(left + 1, top, seed), s);
  const lower = over(hash(left, top + 1, seed), hash(left + 1, top + 1, seed), s);
  return over(upper, lower, t);
}
