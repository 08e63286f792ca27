/** What the paper strips of a file make together: the map of settings, and the layers of mixed light. */
import {
  fitVariableContrast,
  leaveOneOut,
  paperMap,
  type CharacteristicCurve,
  type LeftOutError,
  type PaperMap,
  type VariableContrastFit,
  type VariableContrastReading,
  type VariableContrastStrip,
} from '@wedgebook/core';
import { inputFault } from '@wedgebook/notebook';
import type { MeasuredPaper } from '../verbs/paper.ts';

export interface PaperOfStrips {
  /** Null where no strip has a setting or a scale. */
  readonly map: PaperMap | null;
  /** Null where no strip tells its lights. */
  readonly layers: VariableContrastFit | null;
  readonly leftOut: readonly LeftOutError[];
}

/**
 * @param file - named in messages
 * @throws {InputError} where settings stand in the wrong order or twice, or the soft strip is harder
 *   than the hard one
 */
export function paperOfStrips(papers: readonly MeasuredPaper[], file: string): PaperOfStrips {
  const curved = papers.flatMap(({ fitted, measures }) =>
    fitted.curve === null ? [] : [{ ...fitted, curve: fitted.curve, measures }],
  );
  const lit = curved.filter(({ strip }) => hasLights(strip));
  const graded = curved.filter(({ strip }) => !hasLights(strip) || strip.setting !== undefined);
  checkLights(lit, file);
  const strips = lit.map(({ strip, readings }): VariableContrastStrip => {
    const [soft, hard] = [strip.softSeconds, strip.hardSeconds].map((seconds) =>
      seconds === null || seconds === undefined || seconds === 0 ? -Infinity : Math.log10(seconds),
    );
    return {
      name: strip.name,
      readings: readings.logExposures.map((x, i): VariableContrastReading => ({
        softLogExposure: x + (soft ?? -Infinity),
        hardLogExposure: x + (hard ?? -Infinity),
        density: readings.densities[i] ?? 0,
      })),
    };
  });
  return {
    map: mapOf(
      graded.map(({ strip, curve }) => ({ setting: strip.setting ?? strip.name, curve })),
      file,
    ),
    layers: strips.length === 0 ? null : fitVariableContrast(strips.flatMap((one) => one.readings)),
    leftOut: strips.length < 2 ? [] : leaveOneOut(strips),
  };
}

type Strip = MeasuredPaper['fitted']['strip'];

const hasLights = ({ softSeconds, hardSeconds }: Strip): boolean =>
  (softSeconds ?? 0) > 0 || (hardSeconds ?? 0) > 0;

function mapOf(
  strips: readonly { readonly setting: string; readonly curve: CharacteristicCurve }[],
  file: string,
): PaperMap | null {
  if (strips.length === 0) return null;
  const result = paperMap(strips);
  if (result.status === 'ok') return result.map;
  const [first = '', second = ''] = result.settings;
  if (result.reason === 'setting-twice') throw inputFault.settingTwice({ file }, first);
  if (result.reason === 'settings-out-of-order') {
    throw inputFault.settingsOutOfOrder({ file }, first, second);
  }
  return null;
}

/** The strip by soft light alone must be softer than the one by hard light alone. */
function checkLights(
  strips: readonly { readonly strip: Strip; readonly measures: MeasuredPaper['measures'] }[],
  file: string,
): void {
  const alone = (off: 'softSeconds' | 'hardSeconds') =>
    strips.find(({ strip }) => (strip[off] ?? 0) === 0);
  const [soft, hard] = [alone('hardSeconds'), alone('softSeconds')];
  const [a, b] = [soft?.measures?.exposureScale, hard?.measures?.exposureScale];
  if (!soft || !hard || !a || !b) return;
  const error = Math.hypot(a.standardError ?? 0, b.standardError ?? 0);
  if (b.value - a.value > 2 * error) {
    throw inputFault.settingsOutOfOrder({ file }, soft.strip.name, hard.strip.name);
  }
}
