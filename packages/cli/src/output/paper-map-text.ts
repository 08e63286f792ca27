/** The map of a paper and its layers, for reading and for JSON. */
import {
  paperAtSetting,
  settingForScale,
  settingPosition,
  type PaperMap,
  type PaperSetting,
  type SettingForScale,
} from '@wedgebook/core';
import type { Arguments } from '../input/arguments.ts';
import type { PaperOfStrips } from '../printing/paper-of-strips.ts';
import { PAPER_MAP_WORDS as W, USAGE } from '../text.ts';
import { UsageError } from '../usage-error.ts';
import { alignedTable } from './aligned-table.ts';
import { estimateText, fixed } from './figures.ts';
import { shownWarnings, warningLines } from './warnings.ts';

export interface LookedUp {
  readonly atSetting?: Omit<PaperSetting, 'paper'>;
  readonly forScale?: SettingForScale;
}

/**
 * What `--setting` and `--scale` ask the map for.
 *
 * @throws {UsageError} where there is no map, or the setting lies outside it
 */
export function lookedUp(given: Arguments, map: PaperMap | null): LookedUp {
  const asked = given.text('setting');
  const scale = given.number('scale', 0.1, 4);
  if (asked === undefined && scale === undefined) return {};
  if (map === null) throw new UsageError(USAGE.noMap);
  const position =
    asked === undefined
      ? null
      : (map.settings.find(({ setting }) => setting === asked)?.position ?? settingPosition(asked));
  const [first, last] = [map.settings[0]?.position ?? 0, map.settings.at(-1)?.position ?? 0];
  if (asked !== undefined && !(position !== null && position >= first && position <= last)) {
    throw new UsageError(
      USAGE.settingOutside(
        asked,
        map.settings.map(({ setting }) => setting),
      ),
    );
  }
  return {
    ...(position !== null && { atSetting: withoutPaper(paperAtSetting(map, position)) }),
    ...(scale !== undefined && {
      forScale: settingForScale(map, { value: scale, standardError: null }),
    }),
  };
}

function withoutPaper(at: PaperSetting): Omit<PaperSetting, 'paper'> {
  const { setting, position, exposureScale, threshold, speedPoint } = at;
  return { setting, position, exposureScale, threshold, speedPoint };
}

export function paperMapJson({ map, layers, leftOut }: PaperOfStrips): object {
  return {
    settings:
      map?.settings.map(({ setting, position, exposureScale, threshold, speedPoint }) => ({
        setting,
        position,
        exposureScale,
        threshold,
        speedPoint,
      })) ?? null,
    variableContrast: layers && {
      status: layers.status,
      reason: layers.reason,
      parameters: layers.parameters,
      residualStandardDeviation: layers.residualStandardDeviation,
      degreesOfFreedom: layers.degreesOfFreedom,
      leftOut,
    },
    mapWarnings: shownWarnings(map?.warnings ?? []),
  };
}

export function paperMapText(
  { map, layers, leftOut }: PaperOfStrips,
  looked: LookedUp | null,
): string {
  const right = (titles: readonly string[]) =>
    titles.map((title, i) => ({ title, align: i === 0 ? 'left' : 'right' }) as const);
  const { atSetting, forScale } = looked ?? {};
  return [
    map === null
      ? ''
      : `${W.title}\n${alignedTable(
          right(W.columns),
          [...map.settings, ...(atSetting === undefined ? [] : [atSetting])].map((entry) => [
            entry.setting,
            estimateText(entry.exposureScale),
            estimateText(entry.threshold),
            estimateText(entry.speedPoint),
          ]),
          '  ',
        )}${warningLines(shownWarnings(map.warnings))}`,
    forScale === undefined
      ? ''
      : forScale.status === 'ok'
        ? `  ${W.forScale(estimateText(forScale.position, 2), forScale.nearest.setting)}\n`
        : `  ${W.notReachable[forScale.reason](forScale.nearest.setting, fixed(forScale.nearest.exposureScale.value, 2))}\n`,
    layers === null
      ? ''
      : `${W.layers[layers.status]}\n${alignedTable(
          right(W.parameterColumns),
          layers.parameters.map(({ name, value, standardError }) => [
            name,
            fixed(value, 3),
            standardError === null ? '-' : fixed(standardError, 3),
          ]),
          '  ',
        )}`,
    leftOut.length === 0
      ? ''
      : `${W.leftOut}\n${alignedTable(
          right(W.leftOutColumns),
          leftOut.map(({ name, rootMeanSquare, greatest }) => [
            name,
            rootMeanSquare === null ? W.notPossible : fixed(rootMeanSquare, 3),
            greatest === null ? '' : fixed(greatest, 3),
          ]),
          '  ',
        )}`,
  ].join('');
}
