/**
 * The end points of an average gradient, as the name of the measure says them.
 *
 *   gradient-L               from net 0.10 over L log exposure, such as gradient-1.30
 *   gradient-L-from-N        from net N over L
 *   gradient-net-A-to-B      from net density A to net density B
 *
 * Sources: none; the names are the project's own. Deviations: none.
 */
import { SPEED_POINT_DENSITY } from './film-measures.ts';

/** End points of a chord; densities are net, above base + fog. */
export type Chord =
  | { readonly kind: 'over'; readonly fromNet: number; readonly length: number }
  | { readonly kind: 'between'; readonly fromNet: number; readonly toNet: number };

/** What each end point can be. */
export const CHORD_LIMITS = {
  /** Log exposure that a chord covers. */
  length: [0.3, 3],
  fromNet: [0.02, 2],
  toNet: [0.12, 2.99],
} as const;
/** Net densities nearer than this to each other make no chord. */
const LEAST_RISE = 0.1;

const NUMBER = String.raw`(\d(?:\.\d{1,2})?)`;
const OVER = new RegExp(`^gradient-${NUMBER}(?:-from-${NUMBER})?$`);
const BETWEEN = new RegExp(`^gradient-net-${NUMBER}-to-${NUMBER}$`);

/**
 * End points of a chord.
 *
 * @param name - of a measure
 * @returns null where the name is not one of a chord, or its end points cannot be
 */
export function chordOf(name: string): Chord | null {
  const [, length, from] = OVER.exec(name) ?? [];
  if (length !== undefined) {
    const fromNet = from === undefined ? SPEED_POINT_DENSITY : Number(from);
    const chord = { kind: 'over', fromNet, length: Number(length) } as const;
    return within(chord.length, 'length') && within(fromNet, 'fromNet') ? chord : null;
  }
  const [, lower, upper] = BETWEEN.exec(name) ?? [];
  if (lower === undefined || upper === undefined) return null;
  const chord = { kind: 'between', fromNet: Number(lower), toNet: Number(upper) } as const;
  const rises = chord.toNet - chord.fromNet > LEAST_RISE - 1e-9;
  return rises && within(chord.fromNet, 'fromNet') && within(chord.toNet, 'toNet') ? chord : null;
}

/**
 * Name of the measure with these end points, to hundredths.
 *
 * @example
 * chordName({ kind: 'over', fromNet: 0.2, length: 1.2 }); // => 'gradient-1.20-from-0.20'
 */
export function chordName(chord: Chord): `gradient-${string}` {
  const from = chord.fromNet.toFixed(2);
  if (chord.kind === 'between') return `gradient-net-${from}-to-${chord.toNet.toFixed(2)}`;
  const length = chord.length.toFixed(2);
  return chord.fromNet === SPEED_POINT_DENSITY
    ? `gradient-${length}`
    : `gradient-${length}-from-${from}`;
}

function within(value: number, name: keyof typeof CHORD_LIMITS): boolean {
  const [least, most] = CHORD_LIMITS[name];
  return value >= least && value <= most;
}
