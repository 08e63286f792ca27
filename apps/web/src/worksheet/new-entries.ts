/** New entries of the notebook, each a command that carries its ids. */
import {
  tabletLookup,
  type Negative,
  type Paper,
  type Strip,
  type StripRow,
} from '@wedgebook/notebook';
import { text } from '../text.ts';
import type { WorkDocument } from '../state/work.ts';

const DEFAULT_TABLET = 'nominal-21';

/** An id of 128 random bits; `crypto.randomUUID` needs a secure page. */
export function newId(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('');
}

/** Unread rows for every step of a tablet. */
export function unreadRows(densities: readonly number[]): StripRow[] {
  return densities.map((_, index) => ({ step: index + 1, logExposure: null, densities: [null] }));
}

/** A name that no entry has yet: `strip 7`. */
export function freshName(stem: string, taken: readonly { readonly name: string }[]): string {
  const names = new Set(taken.map(({ name }) => name));
  let number = taken.length + 1;
  while (names.has(`${stem} ${number}`)) number += 1;
  return `${stem} ${number}`;
}

/** An unread strip that takes tablet, film, exposure and development from another. */
export function newStrip(
  document: WorkDocument,
  like: Strip | null,
  material: Strip['material'] = like?.material ?? 'film',
): Strip {
  const same = like?.material === material ? like : null;
  const tabletId = like?.tabletId ?? DEFAULT_TABLET;
  const densities = tabletLookup(document)(tabletId) ?? [];
  const rows =
    same !== null && same.tabletId === null
      ? same.rows.map((row) => ({ ...row, densities: [null] }))
      : unreadRows(densities);
  return {
    id: newId(),
    name: freshName(
      material === 'film' ? text.names.strip : text.names.paperStrip,
      document.strips,
    ),
    material,
    filmId: material === 'film' ? (same?.filmId ?? document.films[0]?.id ?? null) : null,
    channel: same?.channel ?? 'visual',
    tabletId,
    exposure: same?.exposure ?? { kind: 'relative' },
    rows,
    unexposedDensities: [],
    development: same?.development ?? null,
    processedOn: null,
    control: false,
    treatment: null,
    note: '',
  };
}

/** An unread strip of the same exposure, to be read after the bath of the plan. */
export function newTreatedStrip(document: WorkDocument, untreated: Strip): Strip {
  const { partsWater, minutes, celsius, process } = document.plan;
  const name = text.trials.toned(untreated.name);
  const isTaken = document.strips.some((strip) => strip.name === name);
  return {
    ...newStrip(document, untreated),
    name:
      isTaken || untreated.name === '' ? freshName(text.names.tonedStrip, document.strips) : name,
    rows: untreated.rows.map((row) => ({ ...row, densities: [null] })),
    treatment: { process, partsWater, minutes, celsius, untreatedStripId: untreated.id },
  };
}

/** A negative without readings, developed like a strip; no bath has toned it yet. */
export function newNegative(document: WorkDocument, like: Strip | null): Negative {
  return {
    id: newId(),
    name: freshName(text.names.negative, document.negatives),
    filmId: like?.filmId ?? null,
    stripId: like?.treatment === null ? like.id : (like?.treatment.untreatedStripId ?? null),
    baseFog: null,
    spots: [],
    note: '',
  };
}

/** A paper known by its ISO range. */
export function newPaper(document: WorkDocument, source: Paper['source']): Paper {
  return {
    id: newId(),
    name: freshName(text.names.paper, document.papers),
    source,
    dryDownPercent: null,
    safelightMinutes: null,
    note: '',
  };
}
