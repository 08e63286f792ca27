/** What `times` is asked for, with the built-in numbers and their sources where nothing is. */
import { contrastForPaper, isContrastMeasure, type ContrastMeasure } from '@wedgebook/core';
import { developmentDefaults } from '@wedgebook/data';
import type { Arguments, OptionKinds } from '../input/arguments.ts';
import { markText } from '../output/provenance-text.ts';
import { USAGE } from '../text.ts';
import { TIMES_WORDS } from './times-words.ts';
import { UsageError } from '../usage-error.ts';

export const TIMES_OPTIONS = {
  measure: { type: 'string' },
  target: { type: 'string' },
  normal: { type: 'string' },
  scale: { type: 'string' },
  callier: { type: 'string' },
  flare: { type: 'string' },
  'subject-range': { type: 'string' },
  'shadow-density': { type: 'string' },
  span: { type: 'string' },
  celsius: { type: 'string' },
  'temperature-coefficient': { type: 'string' },
  family: { type: 'string' },
  film: { type: 'string' },
  zones: { type: 'boolean' },
  bath: { type: 'boolean' },
  'bath-gain': { type: 'string' },
  drift: { type: 'boolean' },
} as const satisfies OptionKinds;

/** How contrast is named in the columns and in words. */
export type NamedMeasure = ContrastMeasure;

export interface Order {
  readonly measure: NamedMeasure;
  /** Contrast of N; null where `normalMinutes` says it. */
  readonly target: { readonly value: number; readonly source: string } | null;
  /** Time of N, whose contrast is the target. */
  readonly normalMinutes: number | null;
  /** Exposure scale of the paper. */
  readonly scale: number | null;
  readonly callierFactor: number;
  readonly flareStops: { readonly value: number; readonly source: string };
  readonly subjectRangeStops: number;
  /** Stops of image that N fits to the paper: what N+n is reckoned by. */
  readonly texturalStops: number;
  readonly shadowDensity: number;
  /** n of the outermost N-n and N+n. */
  readonly span: number;
  /** Temperature of the plan, and others that it is repeated for. */
  readonly celsius: number;
  readonly otherCelsius: readonly number[];
  readonly coefficient: number;
  readonly coefficientSource: string;
  readonly family: 'automatic' | 'first-order' | 'log-linear';
  readonly zones: boolean;
  /** Greatest gain of a bath to compare with; null where none is asked for. */
  readonly bathGain: { readonly value: number | null } | null;
  readonly drift: boolean;
}

/** @throws {UsageError} for values out of range and options that contradict each other */
export function orderOf(given: Arguments): Order {
  const { temperatureCoefficient, texturalStops, flare } = developmentDefaults;
  const measure = given.text('measure')?.toLowerCase() ?? 'contrast-index';
  if (!isContrastMeasure(measure)) throw new UsageError(USAGE.measure(measure));
  const normalMinutes = given.number('normal', 0.1, 10_000) ?? null;
  const target = given.number('target', 0.05, 5);
  if (normalMinutes !== null && target !== undefined) throw new UsageError(USAGE.normalOrTarget);

  const scale = given.number('scale', 0.3, 3) ?? null;
  const subjectRangeStops = given.number('subject-range', 3, 15) ?? texturalStops.value;
  const ownFlare = given.number('flare', 0, 3);
  const byPaper = scale !== null && target === undefined && normalMinutes === null;
  // Flare plays a part where a paper sets the contrast, or where the user says so.
  const flareStops =
    ownFlare ?? (byPaper ? Math.round((100 * flare.value) / Math.log10(2)) / 100 : 0);
  const callierFactor = given.number('callier', 1, 2) ?? 1;
  const imageStops = subjectRangeStops - flareStops;
  if (!(imageStops > 3)) throw new UsageError(USAGE.flareSwallows);
  const paper = byPaper
    ? contrastForPaper({
        exposureScale: scale,
        subjectRangeStops,
        flareFactor: 2 ** flareStops,
        callierFactor,
      })
    : null;

  const [celsius = 20, ...otherCelsius] = temperaturesOf(given);
  const coefficient = given.number('temperature-coefficient', 1, 6);
  const span = given.number('span', 1, 3) ?? 2;
  if (!Number.isInteger(span)) throw new UsageError(USAGE.notWhole('span'));
  const ownGain = given.number('bath-gain', 1, 3);
  return {
    measure,
    target:
      normalMinutes !== null
        ? null
        : paper !== null
          ? { value: paper.contrast, source: TIMES_WORDS.fromPaper(scale ?? 0, subjectRangeStops) }
          : targetOf(target, measure),
    normalMinutes,
    scale,
    callierFactor,
    flareStops: {
      value: flareStops,
      source:
        ownFlare !== undefined
          ? TIMES_WORDS.given
          : byPaper
            ? `${flare.provenance.source} (${markText(flare.provenance)})`
            : TIMES_WORDS.noFlare,
    },
    subjectRangeStops,
    texturalStops: imageStops,
    shadowDensity: given.number('shadow-density', 0.02, 1) ?? 0.1,
    span,
    celsius,
    otherCelsius,
    coefficient: coefficient ?? temperatureCoefficient.value,
    coefficientSource:
      coefficient === undefined ? markText(temperatureCoefficient.provenance) : TIMES_WORDS.given,
    family: given.choice('family', ['automatic', 'first-order', 'log-linear']) ?? 'automatic',
    zones: given.flag('zones'),
    bathGain: given.flag('bath') || ownGain !== undefined ? { value: ownGain ?? null } : null,
    drift: given.flag('drift'),
  };
}

function targetOf(
  target: number | undefined,
  measure: NamedMeasure,
): { readonly value: number; readonly source: string } {
  if (target !== undefined) return { value: target, source: TIMES_WORDS.yourTarget };
  const { aims } = developmentDefaults;
  const own = aims.find((candidate) => candidate.measure === measure);
  // Zone practice serves any other chord, as it does that over 1.50.
  const aim = own ?? aims.find((candidate) => candidate.measure === 'gradient-1.50');
  if (aim === undefined) throw new UsageError(USAGE.needs('target', 'the contrast of N'));
  return { value: aim.value, source: `${aim.provenance.source} (${markText(aim.provenance)})` };
}

function temperaturesOf(given: Arguments): readonly number[] {
  const temperatures = given.numbers('celsius') ?? [];
  for (const celsius of temperatures) {
    if (!(celsius >= 0 && celsius <= 60)) {
      throw new UsageError(USAGE.outside('celsius', String(celsius), 0, 60));
    }
  }
  return temperatures;
}
