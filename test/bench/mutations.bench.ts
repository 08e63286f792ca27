/**
 * Damaged files: `npm run bench -- mutations [count] [seed]`, 100000 and 1 unless given. Valid
 * notebooks, CSV and CGATS.17 files are damaged by fast-check and read; see test/survives.ts for
 * what must hold. One in `MEASURED` notebooks that open is also worked through as the screen does.
 *
 * Prints how many of each kind were read and refused, and for what; stops at the first that did harm,
 * shrunk to the least damage that does it.
 */
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import {
  isCgats,
  notebookFromText,
  readReadings,
  stripsFromDocument,
  writeCgats,
  writeReadings,
} from '@wedgebook/notebook';
import { SAMPLE } from '../../packages/notebook/src/document/sample-document.ts';
import { notebookToText } from '../../packages/notebook/src/saving/save-notebook.ts';
import { jsonTextEdits, mutated, textEdits } from '../mutations.ts';
import { survives } from '../survives.ts';
import { worker } from '../worked-through.ts';

const MEASURED = 25;
const CREATED = { created: '2026-11-26' };

const demo = (name: string): string =>
  readFileSync(new URL(`../../data/demo/${name}`, import.meta.url), 'utf8');
const strips = ['film-strips.csv', 'treatment.csv', 'paper.csv'].map(
  (name) => readReadings(demo(name)).strips,
);

const KINDS = {
  notebook: {
    files: [notebookToText(SAMPLE), demo('notebook.json')],
    edits: jsonTextEdits,
  },
  csv: {
    files: [
      ...['film-strips.csv', 'treatment.csv', 'paper.csv'].map(demo),
      ...strips.map((each) => writeReadings(each, { delimiter: ';', decimalComma: true })),
      writeReadings(stripsFromDocument(SAMPLE).strips, { delimiter: '\t' }),
    ],
    edits: textEdits,
  },
  cgats: {
    files: [
      ...strips.map((each) => writeCgats(each, CREATED)),
      writeCgats(stripsFromDocument(SAMPLE).strips, CREATED),
    ],
    edits: textEdits,
  },
} as const;

export function main([count = '100000', seed = '1']: readonly string[]): void {
  const runs = Math.ceil(Number(count) / Object.keys(KINDS).length);
  for (const [kind, { files, edits }] of Object.entries(KINDS)) {
    const endings = new Map<string, number>();
    let slowest = 0;
    let opened = 0;
    let measured = 0;
    const begun = performance.now();
    const file = fc.nat(files.length - 1);
    const details = fc.check(
      fc.property(file, edits, (index, damage) => {
        const text = mutated(files[index] ?? '', damage);
        const from = performance.now();
        const ending = survives(text, SAMPLE);
        slowest = Math.max(slowest, performance.now() - from);
        endings.set(ending, (endings.get(ending) ?? 0) + 1);
        if (ending !== 'read' || kind !== 'notebook' || isCgats(text)) return;
        opened += 1;
        if (opened % MEASURED !== 0) return;
        worker()(notebookFromText(text).document);
        measured += 1;
      }),
      { numRuns: runs, seed: Number(seed) },
    );
    const seconds = (performance.now() - begun) / 1000;
    console.log(
      `${kind}: ${details.numRuns} damaged files in ${seconds.toFixed(0)} s, the slowest ${slowest.toFixed(0)} ms` +
        (measured > 0 ? `; ${measured} worked through` : ''),
    );
    for (const [ending, times] of [...endings].toSorted((a, b) => b[1] - a[1])) {
      console.log(`  ${ending.padEnd(24)} ${String(times).padStart(7)}`);
    }
    if (details.failed) {
      console.log(fc.defaultReportMessage(details)?.slice(0, 4000));
      console.log(details.errorInstance);
      process.exitCode = 1;
    }
  }
}
