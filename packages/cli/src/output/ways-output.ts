/** The ways out, as JSON and for reading. */
import { exactly, type WayOut } from '@wedgebook/core';
import { wayNotes } from '@wedgebook/data';
import { WAY_NAMES, wayDetail, wayHazards, wayLoses } from '@wedgebook/notebook';
import type { ShownWays } from '../treatment/ways-of.ts';
import { alignedTable } from './aligned-table.ts';
import { estimateText, fixed } from './figures.ts';
import { gradeText } from './paper-text.ts';
import { WAYS } from './treat-words.ts';
import { shownWarnings } from './warnings.ts';
import { wrapped } from './wrapped.ts';

const NOTES = new Map(wayNotes.map((note) => [note.id, note]));

export function waysJson({ ways, order }: ShownWays): object {
  return {
    order,
    ways: ways.map((way) => {
      const { negative, paper } = way;
      const note = NOTES.get(way.id);
      return {
        way: way.id,
        name: WAY_NAMES[way.id],
        detail: wayDetail(way),
        densityRange: negative.densityRange,
        printingRange: negative.printingRange,
        paperGrade: negative.paperGrade,
        gradesWithin: negative.gradesWithin,
        plausiblePrintingRange: way.plausibleRange,
        gain: exactly(way.gain),
        bathMinutes: way.minutes === null ? null : exactly(way.minutes),
        densityTaken: way.taken === null ? null : exactly(way.taken),
        redevelopedPart: way.redevelopedPart,
        nextRoll:
          way.nextRoll === null
            ? null
            : {
                developmentChange: way.nextRoll.developmentChange,
                basis: way.nextRoll.basis,
                fromMinutes: way.nextRoll.fromMinutes,
                celsius: way.nextRoll.celsius,
                minutes: way.nextRoll.minutes,
                timeFactor: way.nextRoll.timeFactor,
                plausibleTimeFactor: way.nextRoll.plausibleFactor,
              },
        split: way.split,
        printedOn: { kind: paper.kind, exposureScale: paper.exposureScale, grade: way.paperGrade },
        highlightSeparation: exactly(way.highlightSeparation),
        shadowSeparation: exactly(way.shadowSeparation),
        exposureChangeStops: way.exposureStops === null ? null : exactly(way.exposureStops),
        graininess: {
          negative: exactly(way.graininess.negative),
          print: exactly(way.graininess.print),
        },
        limit: way.limit,
        loses:
          note === undefined
            ? null
            : {
                reversible: note.reversible,
                stain: note.stain,
                keeping: note.keeping,
                text: note.lost,
                source: note.provenance.source,
              },
        hazards: note?.hazards ?? [],
        warnings: shownWarnings(way.warnings),
      };
    }),
    assumptions: WAYS.assumptions,
  };
}

/** A table, and under it what each way is, loses and what can hurt in it. */
export function waysText({ ways, order }: ShownWays): string {
  const table = alignedTable(
    WAYS.columns.map((title, index) => ({ title, align: index === 0 ? 'left' : 'right' }) as const),
    ways.map((way) => [
      WAY_NAMES[way.id],
      estimateText(way.negative.printingRange, 2),
      gradeText(way.negative.paperGrade),
      fixed(way.highlightSeparation, 2),
      fixed(way.shadowSeparation, 2),
      signed(way.exposureStops),
      `${fixed(way.graininess.negative, 2)} / ${fixed(way.graininess.print, 2)}`,
    ]),
    '  ',
  );
  const notes = ways.flatMap((way) => wrapped(noteOf(way), 96, '    '));
  return `${WAYS.title(order)}\n${table}${notes.join('')}${wrapped(WAYS.assumptions, 96, '  ')}`;
}

function noteOf(way: WayOut): string {
  const detail = wayDetail(way);
  const head = detail === '' ? WAY_NAMES[way.id] : `${WAY_NAMES[way.id]}: ${detail}`;
  return `${head}. ${WAYS.loses}: ${wayLoses(way.id)}. ${WAYS.hazards}: ${wayHazards(way.id)}.`;
}

function signed(stops: number | null): string {
  if (stops === null) return '-';
  const text = fixed(stops, 1);
  return stops > 0 && Number(text) !== 0 ? `+${text}` : text;
}
