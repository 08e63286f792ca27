/**
 * CGATS.17 text that we write, read by another: Debian's liblcms2, by its IT8 functions. Values are
 * compared, not bytes. `npm test` installs the library and Python where it may (tools/lcms2.mjs).
 */
import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { readCgats, readReadings, writeCgats, type ReadingsStrip } from '@wedgebook/notebook';

/** Prints the tables that liblcms2 finds in the text on standard input, as JSON. */
const READER = `
import ctypes, json, sys
cms = ctypes.CDLL('liblcms2.so.2')
cms.cmsIT8LoadFromMem.restype = ctypes.c_void_p
cms.cmsIT8LoadFromMem.argtypes = [ctypes.c_void_p, ctypes.c_char_p, ctypes.c_uint32]
cms.cmsIT8EnumDataFormat.argtypes = [ctypes.c_void_p, ctypes.POINTER(ctypes.POINTER(ctypes.c_char_p))]
cms.cmsIT8GetDataRowCol.restype = ctypes.c_char_p
cms.cmsIT8GetDataRowCol.argtypes = [ctypes.c_void_p, ctypes.c_int, ctypes.c_int]
cms.cmsIT8GetPropertyDbl.restype = ctypes.c_double
cms.cmsIT8GetPropertyDbl.argtypes = [ctypes.c_void_p, ctypes.c_char_p]
text = sys.stdin.buffer.read()
if text == b'': sys.exit(0)
table = cms.cmsIT8LoadFromMem(None, text, len(text))
if not table: sys.exit('liblcms2 refuses the text')
cms.cmsIT8GetProperty.restype = ctypes.c_char_p
cms.cmsIT8GetProperty.argtypes = [ctypes.c_void_p, ctypes.c_char_p]
cms.cmsIT8TableCount.argtypes = [ctypes.c_void_p]
cms.cmsIT8SetTable.argtypes = [ctypes.c_void_p, ctypes.c_uint32]
tables = []
for index in range(cms.cmsIT8TableCount(table)):
  cms.cmsIT8SetTable(table, index)
  names = ctypes.POINTER(ctypes.c_char_p)()
  columns = cms.cmsIT8EnumDataFormat(table, ctypes.byref(names))
  rows = int(cms.cmsIT8GetPropertyDbl(table, b'NUMBER_OF_SETS'))
  cell = lambda row, column: (cms.cmsIT8GetDataRowCol(table, row, column) or b'').decode()
  tables.append({
    'strip': (cms.cmsIT8GetProperty(table, b'STRIP') or b'').decode(),
    'unexposed': (cms.cmsIT8GetProperty(table, b'UNEXPOSED_DENSITIES') or b'').decode(),
    'columns': [names[i].decode() for i in range(columns)],
    'rows': [[cell(r, c) for c in range(columns)] for r in range(rows)],
  })
print(json.dumps(tables))
`;

interface Table {
  readonly strip: string;
  readonly unexposed: string;
  readonly columns: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

const run = (text: string) =>
  spawnSync('python3', ['-c', READER], { input: text, encoding: 'utf8', maxBuffer: 1 << 28 });

function readByLcms2(text: string): readonly Table[] {
  const { status, stdout, stderr } = run(text);
  if (status !== 0) throw new Error(stderr);
  return JSON.parse(stdout) as readonly Table[];
}

const demo = (name: string): readonly ReadingsStrip[] =>
  readReadings(readFileSync(new URL(`../../data/demo/${name}`, import.meta.url), 'utf8')).strips;

describe('[liblcms2] CGATS.17 that we write', () => {
  beforeAll(() => {
    if (run('').status === 0) return;
    throw new Error(
      'liblcms2, or python3 to call it, is missing (Debian: sudo apt-get install python3 liblcms2-2)',
    );
  });

  it.each(['film-strips.csv', 'treatment.csv', 'paper.csv'])(
    'of %s is read alike',
    { timeout: 60_000 },
    (name) => {
      const strips = demo(name);
      const text = writeCgats(strips, { created: '2026-11-26' });
      const tables = readByLcms2(text);
      expect(tables.map(({ strip }) => strip)).toEqual(strips.map(({ name: each }) => each));
      tables.forEach(({ columns, rows, unexposed }, index) => {
        const strip = strips[index];
        const at = (column: RegExp) => {
          const found = columns.findIndex((each) => column.test(each));
          expect(found, String(column)).toBeGreaterThanOrEqual(0);
          return rows.map((row) => Number(row[found]));
        };
        const read = strip?.readings.filter(({ density }) => density !== null) ?? [];
        expect(at(/^D_/)).toEqual(read.map(({ density }) => density));
        expect(at(/^SAMPLE_ID$/)).toEqual(read.map(({ step }) => step));
        const exposures = read.map((reading) => reading.logExposure ?? reading.tabletDensity);
        expect(at(/^(LOG_EXPOSURE|TABLET_DENSITY)$/)).toEqual(exposures);
        expect(unexposed.split(' ').filter(Boolean).map(Number)).toEqual(strip?.unexposedDensities);
      });
      // And by ourselves, row by row.
      const again = readCgats(text, name).strips;
      expect(again.map(({ name: each }) => each)).toEqual(strips.map(({ name: each }) => each));
    },
  );
});
