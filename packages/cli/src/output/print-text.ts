/** What `print --paper` worked out, for reading and for JSON. */
import type { Bounded, DarkroomStep, SplitTone, TestStripPatch } from '@wedgebook/core';
import type { PrintOnPaper } from '../printing/print-on-paper.ts';
import { PRINT_WORDS as W } from '../text.ts';
import { alignedTable, factList } from './aligned-table.ts';
import { estimateText, fixed } from './figures.ts';

/** The keys of JSON; parts that were not asked for are null. */
export function printOnPaperJson(print: PrintOnPaper): object {
  const { wanted, match, setting, baseSeconds, split, three, ladder, burn, testPlan, table } =
    print;
  return { wanted, match, setting, baseSeconds, split, three, ladder, burn, testPlan, table };
}

/** Facts, then the tables that there are. */
export function printOnPaperText(print: PrintOnPaper): string {
  const { wanted, match, setting, baseSeconds, split, three, ladder, burn, testPlan } = print;
  const facts: (readonly string[])[] = [
    [
      W.wanted[0],
      `${fixed(wanted.highlight.printDensity, 2)} and ${fixed(wanted.shadow.printDensity, 2)}`,
      W.wanted[1],
    ],
  ];
  if (match?.status === 'ok') {
    facts.push(
      [W.range[0], estimateText(match.printingRange), W.range[1]],
      [W.exact[0], withLimits(match.position, 2), W.exact[1]],
      [W.scale[0], estimateText(match.exposureScale), W.scale[1]],
    );
  }
  if (setting !== null) {
    facts.push([W.setting[0], setting.setting, W.setting[1](fixed(setting.shadowPrintDensity, 2))]);
    if (baseSeconds !== null) facts.push([W.base[0], secondsText(baseSeconds), W.base[1]]);
    else if (setting.logExposure !== null) {
      facts.push([W.light[0], estimateText(setting.logExposure), W.light[1]]);
    }
  }
  if (split?.status === 'ok') {
    facts.push(
      [W.soft[0], secondsText(split.softSeconds), W.soft[1]],
      [W.hard[0], secondsText(split.hardSeconds), W.hard[1]],
      [W.ratio[0], withLimits(split.hardOverSoftStops, 2), W.ratio[1]],
      [W.mixture[0], fixed(split.exposureScale, 3), W.mixture[1]],
    );
  }
  return [
    factList(facts),
    ladder.length === 0 ? '' : `\n${W.ladderTitle}\n${ladderTable(ladder)}`,
    three === null
      ? ''
      : `\n${W.three(fixed(10 ** three.softLogExposure, 1), fixed(10 ** three.hardLogExposure, 1))}\n${table(
          W.threeColumns,
          three.tones.map(({ negativeDensity, wanted: aim, printDensity, residual }) =>
            [negativeDensity, aim, printDensity, residual].map((value) => fixed(value, 2)),
          ),
        )}`,
    burn === null
      ? ''
      : `\n${W.burnTitle}\n${table(
          W.burnColumns,
          burn.tones.map(({ negativeDensity, before, after }) => [
            fixed(negativeDensity, 2),
            fixed(before.printDensity, 2),
            fixed(after.printDensity, 2),
            fixed(before.lightness, 1),
            fixed(after.lightness, 1),
          ]),
        )}`,
    testPlan === null
      ? ''
      : `\n${W.testSoft}\n${patchTable(testPlan.soft)}\n${W.testHard(
          fixed(testPlan.hard.softSeconds, 1),
        )}\n${patchTable(testPlan.hard.patches)}`,
    print.table.length === 0 ? '' : `\n${W.tableTitle}\n${stepTable(print.table)}`,
  ].join('');
}

const table = (titles: readonly string[], rows: readonly (readonly string[])[]): string =>
  alignedTable(
    titles.map((title) => ({ title, align: 'right' }) as const),
    rows,
    '  ',
  );

const ladderTable = (tones: readonly SplitTone[]): string =>
  table(
    W.ladderColumns,
    tones.map(({ negativeDensity, printDensity, lightness, perStop }) => [
      fixed(negativeDensity, 2),
      fixed(printDensity, 2),
      fixed(lightness, 1),
      fixed(perStop.soft, 3),
      fixed(perStop.hard, 3),
    ]),
  );

/** Patches of a test strip: seconds in all, and to add before the next part is covered. */
export const patchTable = (patches: readonly TestStripPatch[]): string =>
  table(
    W.stripColumns,
    patches.map((patch, index) => [
      String(index + 1),
      fixed(patch.totalSeconds, 2),
      fixed(patch.additionalSeconds, 2),
    ]),
  );

const stepTable = (steps: readonly DarkroomStep[]): string =>
  alignedTable(
    W.tableColumns.map((title, i) => ({ title, align: i < 3 ? 'left' : 'right' }) as const),
    steps.map((step) => [
      W.step[step.kind],
      step.light,
      step.area,
      step.stops === null ? '' : fixed(step.stops, 2),
      fixed(step.timerSeconds, 2),
      fixed(step.totalSeconds, 2),
      fixed(step.cumulativeSeconds, 2),
    ]),
    '  ',
  );

const withLimits = ({ value, interval }: Bounded, decimals: number): string =>
  interval === null
    ? fixed(value, decimals)
    : `${fixed(value, decimals)} (${fixed(interval[0], decimals)} to ${fixed(interval[1], decimals)})`;

const secondsText = (seconds: Bounded): string => `${withLimits(seconds, 1)} s`;
