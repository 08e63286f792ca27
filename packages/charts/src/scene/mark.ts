/**
 * The vocabulary of a drawing: every layout returns a Scene of a few kinds of marks in pixels, and
 * every renderer (the screen, the command's plot, the export) maps the same marks.
 */

/** What a colour is for. A palette gives each ink a value; hue alone never carries a meaning. */
export type Ink =
  | 'text' // labels
  | 'quiet' // axis labels, notes
  | 'rule' // grid lines and hairlines
  | 'frame' // axis lines
  | 'before' // the untreated negative
  | 'after' // the negative after the bath
  | 'paper' // the paper's scale
  | 'other' // neighbouring strips, drawn back
  | 'alert' // surplus and shortfall
  | 'ground'; // the sheet itself, for halos

export interface PathMark {
  readonly kind: 'path';
  /** SVG path data. */
  readonly d: string;
  readonly stroke: Ink | null;
  readonly fill: Ink | null;
  /** Stroke width in pixels. */
  readonly width: number;
  /** SVG dash array, absent for a solid line. */
  readonly dash?: string;
  readonly opacity?: number;
  /**
   * A grey of the screen, 0 to 255, in place of the fill's ink: the tone of a print as it would
   * look, not a sign. No theme changes it, so that a layout leaves it out where no grey may shine.
   */
  readonly grey?: number;
  /** Name for tests and style hooks, e.g. `curve-before`. */
  readonly name?: string;
}

export interface TextMark {
  readonly kind: 'text';
  /** Anchor point of the base line. */
  readonly x: number;
  readonly y: number;
  readonly text: string;
  readonly anchor: 'start' | 'middle' | 'end';
  /** Font size in pixels. */
  readonly size: number;
  readonly ink: Ink;
  readonly bold?: boolean;
  /** Drawn with an outline in the ground colour, for labels over lines. */
  readonly halo?: boolean;
  /** Degrees clockwise about (x, y). */
  readonly rotate?: number;
  readonly name?: string;
}

export type Mark = PathMark | TextMark;

/** A drawing, ready for any renderer. */
export interface Scene {
  readonly width: number;
  readonly height: number;
  /** Short name of the drawing. */
  readonly title: string;
  /** One or two sentences that say what the drawing shows, for those who cannot see it. */
  readonly description: string;
  readonly marks: readonly Mark[];
  /**
   * So many of the first marks stay while a reading is typed anew: the ground, which a screen may
   * keep painted. None by default.
   */
  readonly still?: number;
  /** The same figures as a table. */
  readonly table: SceneTable;
}

export interface SceneTable {
  readonly caption: string;
  /** Column heads with their units. */
  readonly columns: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

/** A stroke without fill. */
export function stroke(
  d: string,
  ink: Ink,
  width: number,
  extra: Partial<Pick<PathMark, 'dash' | 'opacity' | 'name'>> = {},
): PathMark {
  return { kind: 'path', d, stroke: ink, fill: null, width, ...extra };
}

/** A filled area without stroke. */
export function area(
  d: string,
  ink: Ink,
  extra: Partial<Pick<PathMark, 'opacity' | 'grey' | 'name'>> = {},
): PathMark {
  return { kind: 'path', d, stroke: null, fill: ink, width: 0, ...extra };
}

/** Straight segment as path data. */
export function segment(x1: number, y1: number, x2: number, y2: number): string {
  return `M${px(x1)},${px(y1)}L${px(x2)},${px(y2)}`;
}

/** Closed rectangle as path data; a negative width or height is turned round. */
export function box(x: number, y: number, width: number, height: number): string {
  const left = Math.min(x, x + width);
  const top = Math.min(y, y + height);
  return `M${px(left)},${px(top)}h${px(Math.abs(width))}v${px(Math.abs(height))}h${px(-Math.abs(width))}Z`;
}

/** A grey of the screen as a colour, from 0 to 255. */
export function greyColour(grey: number): string {
  const level = Math.min(255, Math.max(0, Math.round(grey)));
  return `#${level.toString(16).padStart(2, '0').repeat(3)}`;
}

/** Pixels with one decimal, as short as may be: less cannot be seen, on a print neither. */
export function px(value: number): string {
  return String(Math.round(value * 10) / 10);
}
