import { describe, expect, it } from 'vitest';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { nominalTablet, RESPONSE_PARAMETERS, WAY_IDS, type Provenance } from '@wedgebook/core';
import {
  builtInSplit,
  cautions,
  cautionsFor,
  developmentDefaults,
  enlargerLights,
  filterFactorsProvenance,
  filterSettings,
  gradeTableById,
  gradeTables,
  nominalTablets,
  printingDefaults,
  processDefaults,
  references,
  safelightSteps,
  seleniumDefaults,
  seleniumSteps,
  standardSeries,
  wayNotes,
  type BuiltInNumber,
} from './index.ts';

const ROOT = path.resolve(import.meta.dirname, '..');

/** Every provenance with the place it stands at. */
const provenances: [string, Provenance | undefined][] = [
  ...nominalTablets.map((t): [string, Provenance] => [`tablet ${t.id}`, t.provenance]),
  ...gradeTables.map((t): [string, Provenance] => [`grades ${t.id}`, t.provenance]),
  ...enlargerLights.map((l): [string, Provenance] => [`light ${l.id}`, l.provenance]),
  ['filter settings', filterSettings.provenance],
  ['variable-contrast paper', builtInSplit.provenance],
  ['filter factors', filterFactorsProvenance],
  ...RESPONSE_PARAMETERS.map((name): [string, Provenance] => [
    `selenium ${name}`,
    seleniumDefaults.parameters[name].provenance,
  ]),
  ['selenium practice', seleniumDefaults.practice.provenance],
  ['selenium bound', seleniumDefaults.bounds.maximumGain.provenance],
  ...cautions.map((c): [string, Provenance] => [`caution ${c.id}`, c.provenance]),
  ...Object.entries(processDefaults).map(([name, entry]): [string, Provenance] => [
    `process ${name}`,
    (entry as BuiltInNumber).provenance,
  ]),
  ...Object.entries(printingDefaults).map(([name, entry]): [string, Provenance] => [
    `printing ${name}`,
    (entry as BuiltInNumber).provenance,
  ]),
  ...safelightSteps.map((s): [string, Provenance] => [`safelight step ${s.id}`, s.provenance]),
  ...seleniumSteps.map((s): [string, Provenance] => [`step ${s.id}`, s.provenance]),
  ...wayNotes.map((w): [string, Provenance] => [`way ${w.id}`, w.provenance]),
  ...Object.entries(developmentDefaults).flatMap(([name, entry]): [string, Provenance][] =>
    Array.isArray(entry)
      ? developmentDefaults.aims.map((aim) => [`aim ${aim.measure}`, aim.provenance])
      : [[`development ${name}`, (entry as BuiltInNumber).provenance]],
  ),
  ['film speed series', standardSeries.isoFilmSpeed.provenance],
  ['paper speed series', standardSeries.isoPaperSpeed.provenance],
];

describe('every built-in number has a source', () => {
  it.each(provenances)('%s', (_, provenance) => {
    expect(provenance).toBeDefined();
    const { source, references: keys, known, verified } = provenance!;
    expect(source.length).toBeGreaterThan(15);
    expect(['published', 'derived', 'practice', 'memory']).toContain(known);
    expect(typeof verified).toBe('boolean');
    for (const key of keys) expect(references, key).toHaveProperty(key);
    // What nobody published or derived must carry the mark.
    if (known === 'memory' || known === 'practice') expect(verified).toBe(false);
    if (known === 'published') expect(keys.length).toBeGreaterThan(0);
  });

  it('no JSON file of data holds an entry that the list above does not know', () => {
    const files = ['tablets', 'papers', 'treatments', 'standards', 'development'].flatMap(
      (folder) =>
        readdirSync(path.join(ROOT, 'data', folder)).map((file) => path.join(folder, file)),
    );
    const written = files
      .filter((file) => file.endsWith('.json'))
      .map((file) => readFileSync(path.join(ROOT, 'data', file), 'utf8'))
      .join('\n')
      .match(/"provenance": \{/g);
    expect(written).toHaveLength(provenances.length);
  });
});

describe('references are checked both ways', () => {
  const cited = new Map<string, string>();
  for (const [place, provenance] of provenances) {
    for (const key of provenance?.references ?? []) cited.set(key, place);
  }
  for (const file of sourceFiles()) {
    // Citations stand in comments and in test titles: [Key2000], or capitals alone.
    for (const line of readFileSync(file, 'utf8').split('\n')) {
      if (!/^\s*(\/?\*|\/\/)|\/\/ |['"`]\[/.test(line)) continue;
      for (const [, key] of line.matchAll(/\[([A-Z][A-Za-z-]*\d*)\]/g)) {
        if (key !== undefined && looksLikeKey(key)) cited.set(key, path.relative(ROOT, file));
      }
    }
  }

  it('every key that a source file cites is in the list', () => {
    const missing = [...cited].filter(([key]) => !Object.hasOwn(references, key));
    expect(missing).toEqual([]);
  });

  it('every reference of the list is cited somewhere', () => {
    const idle = Object.keys(references).filter((key) => !cited.has(key));
    expect(idle).toEqual([]);
  });

  it.each(Object.entries(references))(
    '%s names authors, title, year and how it is known',
    (_, r) => {
      expect(r.authors.length).toBeGreaterThan(3);
      expect(r.title.length).toBeGreaterThan(5);
      expect(r.year).toBeGreaterThan(1800);
      expect(['published', 'derived', 'practice', 'memory']).toContain(r.known);
    },
  );
});

describe('tablets and tables', () => {
  it('nominal tablets make steps from 0.05', () => {
    for (const { steps, increment, firstDensity } of nominalTablets) {
      const densities = nominalTablet({ steps, increment, firstDensity });
      expect(densities).toHaveLength(steps);
      expect(densities[0]).toBe(0.05);
    }
  });

  it('grade bands touch one another from soft to hard', () => {
    for (const { bands } of gradeTables) {
      bands.forEach((band, i) => {
        expect(band.lower).toBeLessThan(band.upper);
        const harder = bands[i + 1];
        if (harder) {
          expect(harder.upper).toBe(band.lower);
          expect(harder.grade).toBe(band.grade + 1);
        }
      });
    }
  });

  it('an unknown grade table is an error', () => {
    expect(() => gradeTableById('none')).toThrow(RangeError);
  });

  it('built-in values lie inside their ranges', () => {
    for (const name of RESPONSE_PARAMETERS) {
      const { value, range } = seleniumDefaults.parameters[name];
      expect(value).toBeGreaterThanOrEqual(range[0]);
      expect(value).toBeLessThanOrEqual(range[1]);
    }
  });
});

describe('cautions for the selenium bath', () => {
  const shown = cautionsFor('selenium');
  const words = shown.map(({ text }) => text).join(' ');

  it('put dangers to people first', () => {
    const kinds = shown.map(({ severity }) => severity);
    expect(kinds.lastIndexOf('danger')).toBeLessThan(kinds.indexOf('loss'));
  });

  it.each([
    'acid',
    'hydrogen selenide',
    'ammonia',
    'gloves',
    'ventilation',
    'drain',
    'safety data sheet',
    'local code',
    'cannot be undone',
  ])('speak of: %s', (word) => {
    expect(words.toLowerCase()).toContain(word);
  });
});

describe('cautions of every process', () => {
  const PUBLIC_BODIES = ['OSHA', 'NIOSH', 'ACGIH', 'TCLP', 'HAZCOM', 'NAVY'];

  it('every danger cites a public body, or says that it is practice and quotes no figure', () => {
    const dangers = cautions.filter(({ severity }) => severity === 'danger');
    for (const { id, text, provenance } of dangers) {
      const bodies = provenance.references.filter((key) => PUBLIC_BODIES.includes(key));
      const plainPractice = provenance.known === 'practice' && !/\d/.test(text);
      expect(bodies.length > 0 || plainPractice, id).toBe(true);
    }
    // A process that can hurt carries at least one danger that a public body stands behind.
    for (const process of new Set(cautions.map(({ applies }) => applies))) {
      const own = dangers.filter(({ applies }) => applies === process);
      expect(
        own.some(({ provenance }) =>
          provenance.references.some((key) => PUBLIC_BODIES.includes(key)),
        ),
        process,
      ).toBe(true);
    }
  });

  it('every danger with a number cites a public body', () => {
    const quoted = cautions.filter(
      ({ severity, text }) => severity === 'danger' && /\d (ppm|mg|µg)/.test(text),
    );
    expect(quoted.length).toBeGreaterThanOrEqual(8);
    for (const { id, provenance } of quoted) {
      expect(PUBLIC_BODIES, id).toEqual(expect.arrayContaining([...provenance.references]));
      expect(provenance.references.length, id).toBeGreaterThan(0);
      expect(provenance.verified, id).toBe(true);
    }
  });

  it.each([
    ['chromium', ['carcinogen', '5 µg/m³', '5.0 mg/L', 'acid into water', 'stain', 'undone']],
    ['reducer', ['safety data sheet', 'silver', 'for good']],
  ] as const)('%s: what can hurt or be lost is said', (process, words) => {
    const own = cautions.filter(({ applies }) => applies === process);
    const said = own.map(({ text }) => text).join(' ');
    for (const word of words) expect(said).toContain(word);
    expect(new Set(own.map(({ severity }) => severity))).toEqual(new Set(['danger', 'loss']));
  });

  it('every caution that a step names is there, and steps stand in their order', () => {
    const ids = new Set(cautions.map(({ id }) => id));
    const named = seleniumSteps.flatMap(({ caution }) => caution ?? []);
    for (const id of named) expect(ids).toContain(id);
    expect(named).toContain('selenium-no-acid');
    expect(named).toContain('selenium-waste');
    const order = seleniumSteps.map(({ when }) => ['before', 'during', 'after'].indexOf(when));
    expect(order).toEqual([...order].sort());
  });

  it('every way with chemistry has cautions, and both baths together have both', () => {
    expect(wayNotes.map(({ id }) => id)).toEqual([...WAY_IDS]);
    for (const { process } of wayNotes) {
      if (process === null) continue;
      expect(
        cautions.some(({ applies, severity }) => applies === process && severity === 'danger'),
      ).toBe(true);
    }
    for (const { id, process, hazards, reversible } of wayNotes) {
      // Chemistry cannot be undone here, and what can hurt in it is a danger among the cautions.
      expect(reversible, id).toBe(process === null);
      expect(hazards.length > 0, id).toBe(process !== null);
      for (const hazard of hazards) {
        const caution = cautions.find((each) => each.id === hazard);
        expect(caution?.severity, `${id}: ${hazard}`).toBe('danger');
        expect(caution!.short, hazard).toMatch(/\w/);
        expect(caution!.provenance.references.length, hazard).toBeGreaterThan(0);
      }
    }
    const both = new Set(cautionsFor('chromium', 'selenium').map(({ applies }) => applies));
    expect(both).toEqual(new Set(['any', 'chromium', 'selenium']));
  });
});

/** Keys end in a number or stand in capitals; other bracketed words are prose or types. */
function looksLikeKey(key: string): boolean {
  return key.length > 3 && (/\d$/.test(key) || /^[A-Z-]+$/.test(key));
}

function sourceFiles(): string[] {
  const folders = ['packages', 'data', 'apps', 'test', 'tools'].map((name) =>
    path.join(ROOT, name),
  );
  const found: string[] = [];
  for (const folder of folders) {
    if (!existsSync(folder)) continue;
    for (const entry of readdirSync(folder, { recursive: true, withFileTypes: true })) {
      const file = path.join(entry.parentPath, entry.name);
      if (/\.(ts|js|mjs)$/.test(file) && !/node_modules|[\\/]dist[\\/]/.test(file))
        found.push(file);
    }
  }
  return found.filter((file) => file !== import.meta.filename);
}
