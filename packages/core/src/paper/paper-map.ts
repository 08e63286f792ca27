/**
 * The map of a paper: which exposure scale and speed it has at each grade or filter setting, from
 * one strip for each, or from a published table where no strip was read.
 *
 *   between settings   ln S(p), x_t(p)   monotone Hermite pieces through the settings
 *   var ln S(p) = Σ_i (∂ ln S(p) / ∂ ln S_i)² var ln S_i        strips are independent
 *
 * S exposure scale, x_t log exposure that just darkens the paper, p position of the setting.
 *
 * Sources: [FB1984], [FC1980] the monotone pieces; [ISO6846] scale and threshold. Deviations: a
 * published band stands for its middle with the error of an even spread over the band.
 */
import { derivedBaseFog, type CharacteristicCurve } from '../curve/index.ts';
import { InvalidArgumentError } from '../errors.ts';
import type { Estimate } from '../estimate.ts';
import type { Provenance } from '../provenance.ts';
import { warning, type Warning } from '../warning.ts';
import type { GradeTable } from './grade-table.ts';
import { paperMeasures } from './paper-measures.ts';
import { settingName, settingPosition } from './setting-position.ts';

/** One strip of the paper, printed at one grade or filter setting. */
export interface SettingStrip {
  readonly setting: string;
  readonly curve: CharacteristicCurve;
}

/** What is known at one setting. */
export interface MappedSetting {
  readonly setting: string;
  /** Number of the setting, or its place in order of contrast where settings have no numbers. */
  readonly position: number;
  readonly exposureScale: Estimate;
  /** Log exposure of net 0.04 in the unit of the strips; null from a table. */
  readonly threshold: Estimate | null;
  /** Log exposure of net 0.60; null from a table, or where the strip does not reach it. */
  readonly speedPoint: Estimate | null;
  readonly whiteDensity: number | null;
  readonly curve: CharacteristicCurve | null;
}

/** A paper by its settings, positions ascending. Plain data. */
export interface PaperMap {
  readonly kind: 'strips' | 'published';
  /** Whether positions are the settings' own numbers. */
  readonly numbered: boolean;
  readonly settings: readonly MappedSetting[];
  /** Where a published map comes from; null for strips. */
  readonly provenance: Provenance | null;
  readonly warnings: readonly Warning[];
}

export type PaperMapResult =
  | { readonly status: 'ok'; readonly map: PaperMap }
  | {
      readonly status: 'not-determined';
      /** `settings-out-of-order`: a setting that should be harder is softer, beyond its error. */
      readonly reason: 'no-scale' | 'setting-twice' | 'settings-out-of-order';
      /** The settings that it concerns. */
      readonly settings: readonly string[];
      readonly warnings: readonly Warning[];
    };

/** Settings in the wrong order by more standard errors than this are refused. */
const MOST_ERRORS = 2;

/**
 * Map of a paper from its strips.
 *
 * @param strips - one for each setting, any order; log exposures of all in one unit
 * @returns the map, or why there is none and which settings it concerns
 * @throws InvalidArgumentError if there is no strip
 */
export function paperMap(strips: readonly SettingStrip[]): PaperMapResult {
  if (strips.length === 0)
    throw new InvalidArgumentError('paperMap', 'strips', strips, 'one or more');
  const warnings: Warning[] = [];
  const measured = strips.flatMap(({ setting, curve }): Omit<MappedSetting, 'position'>[] => {
    const { exposureScale, threshold, speedPoint } = paperMeasures(curve);
    if (exposureScale === null || threshold === null) {
      warnings.push(warning('setting-left-out', { setting }));
      return [];
    }
    return [
      {
        setting,
        exposureScale,
        threshold: threshold.logExposure,
        speedPoint: speedPoint?.logExposure ?? null,
        whiteDensity: derivedBaseFog(curve).value,
        curve,
      },
    ];
  });
  const fail = (
    reason: (PaperMapResult & { status: 'not-determined' })['reason'],
    settings: readonly string[],
  ): PaperMapResult => ({ status: 'not-determined', reason, settings, warnings });
  if (measured.length === 0)
    return fail(
      'no-scale',
      strips.map(({ setting }) => setting),
    );

  const numbers = measured.map(({ setting }) => settingPosition(setting));
  const numbered = numbers.every((number) => number !== null);
  const byScale = [...measured].sort((a, b) => b.exposureScale.value - a.exposureScale.value);
  const settings = measured
    .map((entry, i): MappedSetting => ({
      ...entry,
      position: numbered ? (numbers[i] ?? 0) : byScale.indexOf(entry) + 1,
    }))
    .sort((a, b) => a.position - b.position);
  if (!numbered && settings.length > 1) warnings.push(warning('settings-without-numbers'));
  for (const [i, entry] of settings.entries()) {
    const next = settings[i + 1];
    if (next?.position === entry.position)
      return fail('setting-twice', [entry.setting, next.setting]);
  }
  const disorder = outOfOrder(settings);
  if (disorder !== null) {
    const names = [disorder.first.setting, disorder.second.setting];
    if (disorder.errors > MOST_ERRORS) return fail('settings-out-of-order', names);
    warnings.push(warning('settings-alike', { first: names[0] ?? '', second: names[1] ?? '' }));
  }
  return { status: 'ok', map: { kind: 'strips', numbered, settings, provenance: null, warnings } };
}

/**
 * Map of grades that a table publishes, for a paper of which no strip was read.
 *
 * @param table - the grade bands
 * @returns a map marked `published`, without speeds or shapes
 */
export function paperMapFromGrades(table: GradeTable): PaperMap {
  return published(
    table.bands.map(({ grade, lower, upper }) => ({
      setting: settingName(grade),
      position: grade,
      scale: 0.5 * (lower + upper),
      spread: upper - lower,
    })),
    table.provenance,
    warning('paper-from-published-table', { table: table.name }),
  );
}

/**
 * Map of filter settings with the ISO ranges that a sheet publishes for one paper.
 *
 * @param sheet - settings with R, rounded to the nearest 10
 * @returns a map marked `published`, without speeds or shapes
 * @throws InvalidArgumentError if a setting has no number
 */
export function paperMapFromRanges(sheet: {
  readonly name: string;
  readonly settings: readonly { readonly setting: string; readonly isoRange: number }[];
  readonly provenance: Provenance;
}): PaperMap {
  return published(
    sheet.settings.map(({ setting, isoRange }) => {
      const position = settingPosition(setting);
      if (position === null) {
        throw new InvalidArgumentError('paperMapFromRanges', 'setting', setting, 'a numbered one');
      }
      return { setting, position, scale: isoRange / 100, spread: 0.1 };
    }),
    sheet.provenance,
    warning('paper-from-published-table', { table: sheet.name }),
  );
}

function published(
  entries: readonly {
    readonly setting: string;
    readonly position: number;
    readonly scale: number;
    /** Width of the interval that the statement allows. */
    readonly spread: number;
  }[],
  provenance: Provenance,
  notice: Warning,
): PaperMap {
  const settings = entries
    .map(({ setting, position, scale, spread }): MappedSetting => ({
      setting,
      position,
      // An even spread over an interval has a standard deviation of its width over √12.
      exposureScale: { value: scale, standardError: spread / Math.sqrt(12) },
      threshold: null,
      speedPoint: null,
      whiteDensity: null,
      curve: null,
    }))
    .sort((a, b) => a.position - b.position);
  return { kind: 'published', numbered: true, settings, provenance, warnings: [notice] };
}

/** The worst pair of neighbours against the trend of the whole; null where all are in order. */
function outOfOrder(
  settings: readonly MappedSetting[],
): { first: MappedSetting; second: MappedSetting; errors: number } | null {
  const [first, last] = [settings[0], settings.at(-1)];
  if (first === undefined || last === undefined) return null;
  const trend = Math.sign(last.exposureScale.value - first.exposureScale.value) || -1;
  let worst: { first: MappedSetting; second: MappedSetting; errors: number } | null = null;
  for (let i = 1; i < settings.length; i++) {
    const [a, b] = [settings[i - 1], settings[i]];
    if (a === undefined || b === undefined) continue;
    const against = -trend * (b.exposureScale.value - a.exposureScale.value);
    if (against < 0) continue;
    const error = Math.hypot(
      a.exposureScale.standardError ?? 0,
      b.exposureScale.standardError ?? 0,
    );
    const errors = against === 0 ? 0 : error > 0 ? against / error : Infinity;
    if (worst === null || errors > worst.errors) worst = { first: a, second: b, errors };
  }
  return worst;
}
