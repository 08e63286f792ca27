/** The user's own variable-contrast paper for split exposures: fitted once to its lit strips. */
import {
  fitVariableContrast,
  type SplitLights,
  type VariableContrastReading,
} from '@wedgebook/core';
import type { Paper } from '@wedgebook/notebook';
import type { Derive } from './derive.ts';
import { memoList } from './memo.ts';
import type { WorkDocument } from './work.ts';

/** Steps of one strip under its lights; the name tells which. */
export interface LitStrip {
  readonly name: string;
  readonly readings: readonly VariableContrastReading[];
}

type Readings = ReturnType<Derive['fit']>['readings'];

interface Lit {
  readonly name: string;
  readonly readings: Readings;
  readonly softSeconds: number | null;
  readonly hardSeconds: number | null;
}

/**
 * Strips of a paper with their lights.
 *
 * @param paper - null for none
 */
export function litStrips(
  paper: Paper | null,
  document: WorkDocument,
  derive: Derive,
): readonly LitStrip[] {
  return litOf(paper, document, derive).map((lit) => ({
    name: lit.name,
    readings: exposuresOf(lit),
  }));
}

/**
 * Selector of the own paper that splits are reckoned on: that of the plan where it has lit strips,
 * else the first paper of the notebook that has; null where none can be fitted. Exposures count in
 * seconds of each filter, so that the light without a filter is not known.
 */
export function ownSplitOf(): (document: WorkDocument, derive: Derive) => SplitLights | null {
  const fitted = memoList((parts: readonly unknown[]): SplitLights | null => {
    const readings: VariableContrastReading[] = [];
    for (let i = 0; i < parts.length; i += 3) {
      const [own, softSeconds, hardSeconds] = parts.slice(i, i + 3) as [
        Readings,
        number | null,
        number | null,
      ];
      readings.push(...exposuresOf({ name: '', readings: own, softSeconds, hardSeconds }));
    }
    const paper = readings.length === 0 ? null : fitVariableContrast(readings).paper;
    return paper && { paper, origin: 'own', softFactor: null, hardFactor: null };
  });
  return (document, derive) => {
    const { papers, plan } = document;
    const planned = papers.filter(({ id }) => id === plan.paperId);
    const found = [...planned, ...papers]
      .map((paper) => litOf(paper, document, derive))
      .find((lit) => lit.length >= 2);
    return fitted(
      (found ?? []).flatMap(({ readings, softSeconds, hardSeconds }) => [
        readings,
        softSeconds,
        hardSeconds,
      ]),
    );
  };
}

function litOf(paper: Paper | null, document: WorkDocument, derive: Derive): Lit[] {
  const strips = paper?.source.kind === 'strips' ? paper.source.strips : [];
  return strips.flatMap(({ stripId, setting, softSeconds, hardSeconds }): Lit[] => {
    const strip = derive.stripOf(document, stripId);
    if (strip === null || (softSeconds === null && hardSeconds === null)) return [];
    const { readings } = derive.fit(document, strip, document.plan.curveFamily);
    return [{ name: setting === '' ? strip.name : setting, readings, softSeconds, hardSeconds }];
  });
}

type Steps = readonly VariableContrastReading[];
/** Steps by the readings that they were made of, so that unchanged strips keep theirs. */
const made = new WeakMap<
  Readings,
  { readonly soft: number | null; readonly hard: number | null; readonly steps: Steps }
>();

function exposuresOf(lit: Lit): Steps {
  const { readings, softSeconds, hardSeconds } = lit;
  const known = made.get(readings);
  if (known?.soft === softSeconds && known.hard === hardSeconds) return known.steps;
  const steps = stepsOf(lit);
  made.set(readings, { soft: softSeconds, hard: hardSeconds, steps });
  return steps;
}

function stepsOf({ readings, softSeconds, hardSeconds }: Lit): VariableContrastReading[] {
  const light = (seconds: number | null, logExposure: number): number =>
    seconds === null || !(seconds > 0) ? -Infinity : Math.log10(seconds) + logExposure;
  return readings.logExposures.map((logExposure, i) => ({
    softLogExposure: light(softSeconds, logExposure),
    hardLogExposure: light(hardSeconds, logExposure),
    density: readings.densities[i] ?? 0,
  }));
}
