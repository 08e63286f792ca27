/**
 * A notebook as it is worked with: every figure that cannot be is replaced by the usual one, or by
 * none. A file may hold any finite number (see saving/schema.ts); the notebook keeps it, but no bath
 * has 1e300 degrees, and what follows from such a figure has no meaning.
 *
 * Sources: the limits are those within which core's functions are defined. Deviations: none.
 */
import { RESPONSE_BOUNDS, warning, type Warning } from '@wedgebook/core';
import type { Negative, NotebookDocument, Paper, Strip, WorkingBath } from './document.ts';
import { DEFAULT_PLAN, DEFAULT_PRINTING } from './empty-document.ts';
import { isPossibleDensity } from './possible-reading.ts';

/** A figure that took no part: where it stands, and what is written there. */
export interface ReplacedFigure {
  readonly path: string;
  readonly value: number;
}

export interface SoundFigures {
  /** The same object where every figure can be. */
  readonly document: NotebookDocument;
  readonly replaced: readonly ReplacedFigure[];
}

type Limits = Readonly<Record<string, readonly [number, number]>>;

const DENSITY: readonly [number, number] = [-0.5, 6];
const RANGE: readonly [number, number] = [0, 6];
const CELSIUS: readonly [number, number] = [0, 60];
const SECONDS: readonly [number, number] = [0, 86_400];
const MAGNIFICATION: readonly [number, number] = [0.01, 1000];
const MINUTES: readonly [number, number] = [0, 10_000];
const PARTS_WATER: readonly [number, number] = [0, 1000];

const PLAN: Limits = {
  targetGrade: [-10, 20],
  targetRange: RANGE,
  callierFactor: [1, 2],
  callierFactorError: [0, 0.5],
  partsWater: PARTS_WATER,
  minutes: MINUTES,
  celsius: CELSIUS,
  stain: [0, 5],
  stainKept: [0, 1],
  clearBaseDensity: DENSITY,
};
const PRINTING: Limits = {
  magnification: MAGNIFICATION,
  baseSeconds: SECONDS,
  softSeconds: SECONDS,
  hardSeconds: SECONDS,
  softAloneSeconds: SECONDS,
  hardAloneSeconds: SECONDS,
  shadowPrintDensity: DENSITY,
  highlightPrintDensity: DENSITY,
  cameraFlareFactor: [1, 8],
  enlargerFlare: [0, 1],
};
const AREA: Limits = { density: DENSITY, stops: [-20, 20] };
const DEVELOPMENT: Limits = { minutes: MINUTES, celsius: [-20, 100] };
const TREATMENT: Limits = { partsWater: PARTS_WATER, minutes: MINUTES, celsius: CELSIUS };
const NEGATIVE: Limits = { baseFog: DENSITY, densityRange: RANGE };
const SPOT: Limits = { density: DENSITY };
const PAPER: Limits = { dryDownPercent: [0, 90], safelightMinutes: [0, 100_000] };
const PAPER_STRIP: Limits = { softSeconds: SECONDS, hardSeconds: SECONDS };
const BATH: Limits = {
  volumeMillilitres: [0, 1e6],
  partsWater: PARTS_WATER,
  seleniumGramsPerLitre: [0, 1000],
};
const BATH_FILM: Limits = { areaSquareCentimetres: [0, 1e7], meanNetDensity: RANGE };

/** What is told of a paper by a single figure, and what is taken in the place of one that cannot be. */
const ISO_RANGE = { limits: { isoRange: [10, 300] }, usual: { isoRange: 100 } } as const;
const BAND = { limits: { band: [-10, 20] }, usual: { band: 2 } } as const;
const USUAL_CELSIUS = 20;
/** So many figures are named in a warning. */
const MOST_TOLD = 5;

/**
 * @param document - a notebook of sound form with any figures
 * @returns the notebook to work with, and the figures that were replaced; remembered for each entry,
 *   so that what was sound keeps its identity
 */
export function soundFigures(document: NotebookDocument): SoundFigures {
  const before = knownDocuments.get(document);
  if (before !== undefined) return before;
  const found = computed(document);
  knownDocuments.set(document, found);
  return found;
}

const knownDocuments = new WeakMap<NotebookDocument, SoundFigures>();

function computed(document: NotebookDocument): SoundFigures {
  const replaced: ReplacedFigure[] = [];
  const part = <T extends object>(value: T, path: string, mend: (value: T, to: To) => T): T => {
    const found = remembered(value, mend);
    replaced.push(...found.replaced.map((each) => ({ ...each, path: `${path}.${each.path}` })));
    return found.value;
  };
  const list = <T extends object>(
    entries: readonly T[],
    path: string,
    mend: (value: T, to: To) => T,
  ): readonly T[] => {
    const next = entries.map((entry, index) => part(entry, `${path}.${index}`, mend));
    return next.every((entry, index) => entry === entries[index]) ? entries : next;
  };
  const parts = {
    strips: list(document.strips, 'strips', soundStrip),
    papers: list(document.papers, 'papers', soundPaper),
    negatives: list(document.negatives, 'negatives', soundNegative),
    baths: list(document.baths, 'baths', soundBath),
    plan: part(document.plan, 'plan', soundPlan),
    printing: part(document.printing, 'printing', soundPrinting),
  };
  return replaced.length === 0
    ? { document, replaced }
    : { document: { ...document, ...parts }, replaced };
}

/** @param replaced - at least one figure */
export function figuresWarning(replaced: readonly ReplacedFigure[]): Warning {
  const figures = replaced
    .slice(0, MOST_TOLD)
    .map(({ path, value }) => `${path} ${value}`)
    .join(', ');
  return warning('figures-impossible', { count: replaced.length, figures });
}

type To = (figure: ReplacedFigure) => void;
interface Mended<T> {
  readonly value: T;
  readonly replaced: readonly ReplacedFigure[];
}

const known = new WeakMap<object, Mended<object>>();

function remembered<T extends object>(value: T, mend: (value: T, to: To) => T): Mended<T> {
  const before = known.get(value);
  // An entry is mended in one way only, as it is of one kind.
  if (before !== undefined) return before as Mended<T>;
  const replaced: ReplacedFigure[] = [];
  const found = { value: mend(value, (figure) => replaced.push(figure)), replaced };
  known.set(value, found);
  return found;
}

/** The same object where all its figures can be; others take the value of `usual`, or null. */
function within<T extends object>(
  value: T,
  limits: Limits,
  to: To,
  path = '',
  usual: Readonly<Record<string, unknown>> = {},
): T {
  const changes: Record<string, unknown> = {};
  for (const [key, [least, most]] of Object.entries(limits)) {
    const figure = (value as Record<string, unknown>)[key];
    if (typeof figure !== 'number' || (figure >= least && figure <= most)) continue;
    to({ path: `${path}${key}`, value: figure });
    changes[key] = usual[key] ?? null;
  }
  return Object.keys(changes).length === 0 ? value : { ...value, ...changes };
}

/** `within` for the value of a field, which may be null. */
function field<T extends object, K extends keyof T & string>(
  value: T,
  key: K,
  sound: (inner: NonNullable<T[K]>, path: string) => T[K],
): T {
  const inner = value[key];
  if (inner === null || inner === undefined) return value;
  const next = sound(inner, `${key}.`);
  return next === inner ? value : { ...value, [key]: next };
}

const soundDevelopment =
  (to: To) =>
  <T extends object>(development: T, path: string): T | null =>
    within(development, DEVELOPMENT, to, path) === development ? development : null;

function soundStrip(strip: Strip, to: To): Strip {
  const developed = field(strip, 'development', soundDevelopment(to));
  return field(developed, 'treatment', (treatment, path) => {
    const sound = within(treatment, TREATMENT, to, path, { celsius: USUAL_CELSIUS });
    // A bath of which one figure cannot be is not known.
    return sound === treatment ? treatment : { ...sound, partsWater: null, minutes: null };
  });
}

function soundNegative(negative: Negative, to: To): Negative {
  const developed = field(negative, 'development', soundDevelopment(to));
  const spotted = field(developed, 'spots', (spots, path) => {
    spots.forEach((spot, index) => within(spot, SPOT, to, `${path}${index}.`));
    const possible = spots.filter(({ density }) => isPossibleDensity(density));
    return possible.length === spots.length ? spots : possible;
  });
  return within(spotted, NEGATIVE, to);
}

function soundPaper(paper: Paper, to: To): Paper {
  const known = field(paper, 'source', (source, path): Paper['source'] => {
    if (source.kind === 'iso-range') {
      return within(source, ISO_RANGE.limits, to, path, ISO_RANGE.usual);
    }
    if (source.kind === 'grade-table') return within(source, BAND.limits, to, path, BAND.usual);
    if (source.kind === 'strip') return source;
    const strips = eachOf(source.strips, (strip, index) =>
      within(strip, PAPER_STRIP, to, `${path}strips.${index}.`),
    );
    return strips === source.strips ? source : { ...source, strips };
  });
  return within(known, PAPER, to);
}

function soundBath(bath: WorkingBath, to: To): WorkingBath {
  const films = eachOf(bath.films, (film, index) =>
    within(film, BATH_FILM, to, `films.${index}.`, {
      areaSquareCentimetres: 0,
      meanNetDensity: 0,
    }),
  );
  const own = films === bath.films ? bath : { ...bath, films };
  return within(own, BATH, to, '', { volumeMillilitres: 0, partsWater: DEFAULT_PLAN.partsWater });
}

function soundPlan(plan: NotebookDocument['plan'], to: To): NotebookDocument['plan'] {
  const held = field(plan, 'held', (values, path) => within(values, RESPONSE_BOUNDS, to, path));
  return within(held, PLAN, to, '', { ...DEFAULT_PLAN });
}

function soundPrinting(
  printing: NotebookDocument['printing'],
  to: To,
): NotebookDocument['printing'] {
  const areas = eachOf(printing.areas, (area, index) =>
    within(area, AREA, to, `areas.${index}.`, { stops: 0 }),
  );
  const own = areas === printing.areas ? printing : { ...printing, areas };
  return within(own, PRINTING, to, '', { ...DEFAULT_PRINTING });
}

function eachOf<T>(entries: readonly T[], sound: (entry: T, index: number) => T): readonly T[] {
  const next = entries.map(sound);
  return next.every((entry, index) => entry === entries[index]) ? entries : next;
}
