/** `print --paper`: setting, seconds, split and tones of a negative on one's own paper. */
import {
  burnIn,
  darkroomTable,
  matchTones,
  nearestSplit,
  paperAtSetting,
  secondsFromLog,
  settingPosition,
  SHADOW_FRACTION,
  splitForPrint,
  splitTestPlan,
  splitTones,
  THRESHOLD_NET_DENSITY,
  warning,
  type AreaChange,
  type BurntArea,
  type DarkroomStep,
  type LightExposures,
  type NearestSplit,
  type PaperMap,
  type SplitForPrint,
  type SplitTestPlan,
  type SplitTone,
  type ToneMatch,
  type ToneSetting,
  type Warning,
  type WantedTones,
} from '@wedgebook/core';
import { inputFault } from '@wedgebook/notebook';
import type { Arguments } from '../input/arguments.ts';
import { givenLight } from '../input/negative.ts';
import { fileName } from '../input/read-file.ts';
import { USAGE } from '../text.ts';
import { UsageError } from '../usage-error.ts';
import { paperOfStrips } from './paper-of-strips.ts';
import type { MeasuredPaper } from '../verbs/paper.ts';

/** What was worked out; parts that were not asked for, or that the paper cannot tell, are null. */
export interface PrintOnPaper {
  readonly wanted: WantedTones;
  readonly match: ToneMatch | null;
  /** The whole setting that is used. */
  readonly setting: ToneSetting | null;
  readonly baseSeconds: ReturnType<typeof secondsFromLog> | null;
  readonly split: SplitForPrint | null;
  readonly three: NearestSplit | null;
  readonly ladder: readonly SplitTone[];
  readonly burn: BurntArea | null;
  readonly testPlan: SplitTestPlan | null;
  readonly table: readonly DarkroomStep[];
  readonly warnings: readonly Warning[];
}

/**
 * @throws {InputError} where the tones cannot be had, with the reason and what is nearest
 * @throws {UsageError} where options are missing
 */
export function printOnPaper(
  given: Arguments,
  papers: readonly MeasuredPaper[],
  paperFile: string,
): PrintOnPaper {
  const file = fileName(paperFile);
  const { map, layers } = paperOfStrips(papers, file);
  const wanted = wantedTones(given, papers);
  const warnings: Warning[] = [...(map?.warnings ?? [])];
  const timeFactor = timeFactorOf(given);
  const light = givenLight(given);
  if (light.builtIn !== null && !light.builtIn.verified) {
    warnings.push(warning('value-unverified', { what: `Callier factor of ${light.builtIn.name}` }));
  }

  const match = map === null || layers?.paper ? null : matchTones(map, wanted);
  if (match?.status === 'refused') throw inputFault.tonesRefused({ file }, match);
  if (match?.status === 'not-reachable') {
    const { nearest, reason } = match;
    throw inputFault.settingNotReachable({ file }, reason, nearest);
  }
  const setting = match === null || map === null ? null : chosenSetting(given, map, match, wanted);
  const stripSeconds = given.number('strip-seconds', 0.01, 100_000);
  const baseSeconds =
    setting?.logExposure && stripSeconds !== undefined
      ? secondsFromLog({
          ...setting.logExposure,
          value: setting.logExposure.value + Math.log10(stripSeconds * timeFactor),
        })
      : null;

  const split = layers?.paper ? splitForPrint(layers, wanted, { timeFactor }) : null;
  if (split?.status === 'refused') throw inputFault.tonesRefused({ file }, split);
  if (split?.status === 'not-reachable') {
    throw inputFault.splitNotReachable({ file }, split.reason, split.nearestShadowDensity);
  }
  if (map === null && split?.status !== 'ok') throw inputFault.paperNotFitted({ file });
  const paper = layers?.paper ?? null;
  const ok = split?.status === 'ok' ? split : null;
  const densities = [wanted.shadow, wanted.highlight].map(
    ({ negativeDensity }) => negativeDensity.value,
  );
  const middle = middleTone(given);
  const three =
    paper !== null && middle !== null
      ? nearestSplit(paper, [
          ...[wanted.shadow, wanted.highlight].map(({ negativeDensity, printDensity }) => ({
            negativeDensity: negativeDensity.value,
            printDensity,
          })),
          middle,
        ])
      : null;
  const lights: LightExposures | null = ok?.lights ?? null;
  const [low = 0, high = 1] = densities;
  const between = [0, 0.25, 0.5, 0.75, 1].map((part) => low + part * (high - low));
  const burnStops = {
    softStops: given.number('burn-soft', -5, 5) ?? 0,
    hardStops: given.number('burn-hard', -5, 5) ?? 0,
  };
  const burns = burnStops.softStops !== 0 || burnStops.hardStops !== 0;
  if (burns && lights === null) throw new UsageError(USAGE.burnNeedsSplit);
  const patches = given.number('test-strip', 3, 29);
  const step = given.number('step', 0.01, 5) ?? 1 / 3;
  if (patches !== undefined && patches % 2 !== 1) throw new UsageError(USAGE.oddPatches);
  return {
    wanted,
    match,
    setting,
    baseSeconds,
    split,
    three,
    ladder: paper !== null && lights !== null ? splitTones(paper, lights, between) : [],
    burn:
      burns && paper !== null && lights !== null ? burnIn(paper, lights, burnStops, between) : null,
    testPlan:
      ok !== null && patches !== undefined
        ? splitTestPlan(ok.softSeconds.value, ok.hardSeconds.value, step, patches)
        : null,
    table: tableOf(given, ok, setting, baseSeconds?.value ?? null),
    warnings,
  };
}

function wantedTones(given: Arguments, papers: readonly MeasuredPaper[]): WantedTones {
  const shadow = given.number('shadow', -0.5, 6);
  const highlight = given.number('highlight', -0.5, 6);
  if (shadow === undefined || highlight === undefined) throw new UsageError(USAGE.spotsNeeded);
  const { callierFactor, callierFactorError } = givenLight(given);
  const stain = given.number('stain', 0, 5) ?? 0;
  const factor = (callierFactor + stain) / (1 + stain);
  const baseFog = given.number('base-fog', 0, 2) ?? 0;
  const error = given.number('reading-error', 0, 0.5);
  const seen = (density: number) => ({
    value: baseFog + factor * (density - baseFog),
    standardError: error === undefined ? null : factor * error,
  });
  const shared = (density: number) =>
    callierFactorError === null ? null : (callierFactorError * (density - baseFog)) / (1 + stain);
  const white = papers[0]?.measures?.densityMin.value ?? 0.06;
  const black = Math.min(...papers.flatMap(({ measures }) => measures?.densityMax.value ?? []));
  // Unless others are asked for, the tones print at the ends of the paper's scale.
  const usualShadow = white + SHADOW_FRACTION * ((Number.isFinite(black) ? black : 2) - white);
  return {
    shadow: {
      negativeDensity: seen(shadow),
      sharedError: shared(shadow),
      printDensity: given.number('print-shadow', 0, 4) ?? usualShadow,
    },
    highlight: {
      negativeDensity: seen(highlight),
      sharedError: shared(highlight),
      printDensity: given.number('print-highlight', 0, 4) ?? white + THRESHOLD_NET_DENSITY,
    },
  };
}

/** Size, aperture and dry-down as one factor on every time. */
function timeFactorOf(given: Arguments): number {
  const pair = (what: string, lowest: number, highest: number): readonly [number, number] => {
    const from = given.number(`from-${what}`, lowest, highest);
    const to = given.number(`to-${what}`, lowest, highest);
    if ((from === undefined) !== (to === undefined)) throw new UsageError(USAGE.bothOf(what));
    return [from ?? 1, to ?? 1];
  };
  const [m1, m2] = pair('magnification', 0.01, 100);
  const [n1, n2] = pair('aperture', 0.5, 128);
  const percent = given.number('dry-down', 0, 50) ?? 0;
  return ((m2 + 1) / (m1 + 1)) ** 2 * (n2 / n1) ** 2 * (1 - percent / 100);
}

/** The setting that was asked for, else the nearest whole one. */
function chosenSetting(
  given: Arguments,
  map: PaperMap,
  match: ToneMatch & { status: 'ok' },
  wanted: WantedTones,
): ToneSetting {
  const asked = given.text('setting');
  if (asked === undefined) return match.nearest;
  const position =
    map.settings.find(({ setting }) => setting === asked)?.position ?? settingPosition(asked);
  const [first, last] = [map.settings[0]?.position ?? 0, map.settings.at(-1)?.position ?? 0];
  if (position === null || !(position >= first && position <= last)) {
    throw new UsageError(
      USAGE.settingOutside(
        asked,
        map.settings.map(({ setting }) => setting),
      ),
    );
  }
  return toneSetting(map, position, wanted);
}

function toneSetting(map: PaperMap, position: number, wanted: WantedTones): ToneSetting {
  const { setting, exposureScale } = paperAtSetting(map, position);
  // A map of this one setting has it as its nearest, and holds the highlight there.
  const one = matchTones(map, wanted, { position });
  return one.status === 'refused'
    ? {
        setting,
        position,
        exposureScale,
        highlightPrintDensity: wanted.highlight.printDensity,
        shadowPrintDensity: wanted.shadow.printDensity,
        logExposure: null,
      }
    : one.nearest;
}

/** `--middle N:D`: a third tone, density of the negative and of the print. */
function middleTone(
  given: Arguments,
): { readonly negativeDensity: number; readonly printDensity: number } | null {
  const text = given.text('middle');
  if (text === undefined) return null;
  const [negativeDensity = NaN, printDensity = NaN, ...rest] = text.split(':').map(Number);
  if (!Number.isFinite(negativeDensity) || !Number.isFinite(printDensity) || rest.length > 0) {
    throw new UsageError(USAGE.middle(text));
  }
  return { negativeDensity, printDensity };
}

/** `--areas sky:hard:1/2,face:soft:-1/3`: areas burnt in or dodged. */
function areasOf(given: Arguments, lights: readonly string[]): AreaChange[] {
  const text = given.text('areas');
  if (text === undefined) return [];
  return text.split(',').map((entry) => {
    const parts = entry.split(':').map((part) => part.trim());
    const [area = '', second = '', third] = parts;
    const light = third === undefined ? (lights[0] ?? '') : second;
    const [, sign, above, below] = /^([+-]?)(\d*\.?\d+)(?:\/(\d+))?$/.exec(third ?? second) ?? [];
    const stops = (sign === '-' ? -1 : 1) * (Number(above) / Number(below ?? 1));
    if (area === '' || !Number.isFinite(stops) || Math.abs(stops) > 10 || !lights.includes(light)) {
      throw new UsageError(USAGE.areas(entry, lights));
    }
    return { area, light, stops };
  });
}

function tableOf(
  given: Arguments,
  split: (SplitForPrint & { status: 'ok' }) | null,
  setting: ToneSetting | null,
  baseSeconds: number | null,
): readonly DarkroomStep[] {
  const exposures =
    split !== null
      ? [
          { light: 'soft', seconds: split.softSeconds.value },
          { light: 'hard', seconds: split.hardSeconds.value },
        ]
      : baseSeconds !== null && setting !== null
        ? [{ light: setting.setting, seconds: baseSeconds }]
        : [];
  const areas = areasOf(
    given,
    exposures.map(({ light }) => light),
  );
  const timer = given.number('timer', 0.01, 10) ?? 0.1;
  return exposures.length === 0 ? [] : darkroomTable(exposures, areas, timer);
}
