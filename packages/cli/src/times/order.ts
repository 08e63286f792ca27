/** What `times` is asked for, with the built-in numbers and their sources where nothing is. */
import {
  contrastForPaper,
  isContrastMeasure,
  NAMED_BATH,
  type ContrastMeasure,
  type Provenance,
} from '@wedgebook/core';
import { developmentDefaults } from '@wedgebook/data';
import type { Arguments, OptionKinds } from '../input/arguments.ts';
import { ownCallier } from '../input/negative.ts';
import { partsOfDilution } from '../treatment/plan-order.ts';
import { estimateText } from '../output/figures.ts';
import { markText } from '../output/provenance-text.ts';
import { USAGE } from '../text.ts';
import { paperOfScale, type PaperForTimes } from './paper-for-times.ts';
import { TIMES_WORDS } from './times-words.ts';
import { UsageError } from '../usage-error.ts';

export const TIMES_OPTIONS = {
  measure: { type: 'string' },
  target: { type: 'string' },
  normal: { type: 'string' },
  scale: { type: 'string' },
  paper: { type: 'string' },
  'paper-strip': { type: 'string' },
  'density-basis': { type: 'string' },
  callier: { type: 'string' },
  'callier-error': { type: 'string' },
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
  dilution: { type: 'string' },
  'bath-celsius': { type: 'string' },
  drift: { type: 'boolean' },
} as const satisfies OptionKinds;

/** How contrast is named in the columns and in words. */
type NamedMeasure = ContrastMeasure;

export interface Order {
  readonly measure: NamedMeasure;
  /** Contrast of N; null where `normalMinutes` says it. */
  readonly target: {
    readonly value: number;
    /** Standard error; 0 where the contrast is no measured one. */
    readonly error: number;
    readonly source: string;
  } | null;
  /** Time of N, whose contrast is the target. */
  readonly normalMinutes: number | null;
  readonly paper: PaperForTimes | null;
  readonly callierFactor: number;
  /** Standard error of the factor; null where none is told. */
  readonly callierFactorError: number | null;
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
  /** Factor of speed for 10 °C where the strips do not tell it; without provenance the user's own. */
  readonly coefficient: { readonly value: number; readonly provenance: Provenance | null };
  readonly family: 'automatic' | 'first-order' | 'log-linear';
  readonly zones: boolean;
  /** A bath to compare with; null where none is asked for. */
  readonly bath: {
    /** Greatest gain of a bath of the user's own, of which nothing else is known; null for selenium. */
    readonly ownGain: number | null;
    readonly partsWater: number;
    readonly celsius: number;
  } | null;
  readonly drift: boolean;
}

/**
 * @param found - the paper of a file; without, that of `--scale`
 * @throws {UsageError} for values out of range and options that contradict each other
 */
export function orderOf(given: Arguments, found: PaperForTimes | null = null): Order {
  const { temperatureCoefficient, texturalStops, flare } = developmentDefaults;
  const measure = given.text('measure')?.toLowerCase() ?? 'contrast-index';
  if (!isContrastMeasure(measure)) throw new UsageError(USAGE.measure(measure));
  const normalMinutes = given.number('normal', 0.1, 10_000) ?? null;
  const target = given.number('target', 0.05, 5);
  if (normalMinutes !== null && target !== undefined) throw new UsageError(USAGE.normalOrTarget);

  const scale = given.number('scale', 0.3, 3) ?? null;
  if (scale !== null && given.has('paper')) throw new UsageError(USAGE.scaleOrPaper);
  if (given.has('paper-strip') && !given.has('paper')) {
    throw new UsageError(USAGE.needs('paper', 'the file that holds the strip'));
  }
  const paper = found ?? (scale === null ? null : paperOfScale(scale));
  const subjectRangeStops = given.number('subject-range', 3, 15) ?? texturalStops.value;
  const ownFlare = given.number('flare', 0, 3);
  const byPaper = paper !== null && target === undefined && normalMinutes === null;
  // Flare plays a part where a paper sets the contrast, or where the user says so.
  const flareStops =
    ownFlare ?? (byPaper ? Math.round((100 * flare.value) / Math.log10(2)) / 100 : 0);
  const { callierFactor, callierFactorError } = ownCallier(given) ?? {
    callierFactor: 1,
    callierFactorError: null,
  };
  const imageStops = subjectRangeStops - flareStops;
  if (!(imageStops > 3)) throw new UsageError(USAGE.flareSwallows);
  const scene = byPaper
    ? contrastForPaper({
        exposureScale: paper.exposureScale.value,
        exposureScaleError: paper.exposureScale.standardError,
        subjectRangeStops,
        flareFactor: 2 ** flareStops,
        callierFactor,
        callierFactorError,
      })
    : null;

  const [celsius = 20, ...otherCelsius] = temperaturesOf(given);
  const coefficient = given.number('temperature-coefficient', 1, 6);
  const span = given.number('span', 1, 3) ?? 2;
  if (!Number.isInteger(span)) throw new UsageError(USAGE.notWhole('span'));
  const ownGain = given.number('bath-gain', 1, 3);
  const dilution = given.text('dilution');
  return {
    measure,
    target:
      normalMinutes !== null
        ? null
        : byPaper && scene !== null
          ? {
              value: scene.contrast,
              error: scene.contrastError ?? 0,
              source: TIMES_WORDS.fromPaper(
                estimateText(paper.exposureScale, 2),
                paper.name,
                subjectRangeStops,
              ),
            }
          : targetOf(target, measure),
    normalMinutes,
    paper,
    callierFactor,
    callierFactorError,
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
    coefficient:
      coefficient === undefined ? temperatureCoefficient : { value: coefficient, provenance: null },
    family: given.choice('family', ['automatic', 'first-order', 'log-linear']) ?? 'automatic',
    zones: given.flag('zones'),
    bath:
      given.flag('bath') || ownGain !== undefined
        ? {
            ownGain: ownGain ?? null,
            partsWater: dilution === undefined ? NAMED_BATH.partsWater : partsOfDilution(dilution),
            celsius: given.number('bath-celsius', 0, 60) ?? NAMED_BATH.celsius,
          }
        : null,
    drift: given.flag('drift'),
  };
}

function targetOf(target: number | undefined, measure: NamedMeasure): NonNullable<Order['target']> {
  if (target !== undefined) return { value: target, error: 0, source: TIMES_WORDS.yourTarget };
  const { aims } = developmentDefaults;
  const own = aims.find((candidate) => candidate.measure === measure);
  // Zone practice serves any other chord, as it does that over 1.50.
  const aim = own ?? aims.find((candidate) => candidate.measure === 'gradient-1.50');
  if (aim === undefined) throw new UsageError(USAGE.needs('target', 'the contrast of N'));
  const source = `${aim.provenance.source} (${markText(aim.provenance)})`;
  return { value: aim.value, error: 0, source };
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
