import { emptyDocument, type Strip } from '@wedgebook/notebook';
import { describe, expect, it } from 'vitest';
import { applyWork, type WorkDocument } from '../state/work.ts';
import { blockCommands } from './block-commands.ts';
import { newStrip } from './new-entries.ts';
import { parseBlock } from './parse-block.ts';

const strip: Strip = { ...newStrip(emptyDocument(), null), id: 's' };
const document: WorkDocument = { ...emptyDocument(), strips: [strip] };

function paste(
  pasted: string,
  target = { row: 0, replicate: 0 },
): {
  after: WorkDocument;
  wrong: number;
} {
  const block = parseBlock(pasted, null)!;
  const result = blockCommands(strip, block, target, 'density');
  return { after: applyWork(document, result.command), wrong: result.wrong };
}
const densities = ({ strips }: WorkDocument) => strips[0]!.rows.map((row) => row.densities);

describe('pasting a block', () => {
  it('fills down and across from the cell, and changes nothing else', () => {
    const { after } = paste('0.12\t0.13\n0.15\t0.16', { row: 3, replicate: 1 });
    expect(densities(after).slice(3, 5)).toEqual([
      [null, 0.12, 0.13],
      [null, 0.15, 0.16],
    ]);
    expect(densities(after)[5]).toEqual([null]);
    expect(densities(document)[3]).toEqual([null]);
  });

  it('puts named steps where they belong, in any order', () => {
    const { after } = paste('3\t0.3\n2\t0.2\n1\t0.1');
    expect(densities(after).slice(0, 3)).toEqual([[0.1], [0.2], [0.3]]);
  });

  it('adds a step that the strip does not have', () => {
    const { after } = paste('step\tdensity\n21\t2.1\n22\t2.2');
    expect(after.strips[0]!.rows.at(-1)).toEqual({ step: 22, logExposure: null, densities: [2.2] });
  });

  it('keeps a cell that cannot be read, letter for letter, and reads the others', () => {
    const { after, wrong } = paste('0.12\nO.15\n0.31');
    expect(wrong).toBe(1);
    expect(densities(after).slice(0, 3)).toEqual([[0.12], [null], [0.31]]);
    expect(after.asTyped).toEqual({ 'strip/s/1/d0': 'O.15' });
  });

  it('takes the sheet’s own tablet densities as exposures of the rows', () => {
    const { after } = paste('tablet density\tdensity\n0.04\t1.5\n0.21\t1.3');
    expect(after.strips[0]!.rows.slice(0, 2)).toMatchObject([
      { logExposure: -0.04, densities: [1.5] },
      { logExposure: -0.21, densities: [1.3] },
    ]);
  });

  it('puts the row of base + fog where it belongs, however it is named', () => {
    for (const row of ['b+f\t0.23', 'Base + fog\t0.23', 'unexposed\t0,23', '\t0.23']) {
      const block = parseBlock(`step\tdensity\n1\t2.1\n2\t1.9\n${row}`, null)!;
      const result = blockCommands(strip, block, { row: 0, replicate: 0 }, 'density');
      const after = applyWork(document, result.command).strips[0]!;
      expect(after.unexposedDensities).toEqual([0.23]);
      expect(after.rows).toHaveLength(strip.rows.length);
      expect(result).toMatchObject({ base: 1, left: [], readings: 3 });
    }
  });

  it('takes a remark of fog at a numbered step for a remark', () => {
    const { after } = paste('step\tdensity\tremark\n20\t0.24\tfog\n21\t0.23\t');
    expect(after.strips[0]!.unexposedDensities).toEqual([]);
    expect(densities(after).slice(19)).toEqual([[0.24], [0.23]]);
  });

  it('puts a step that comes twice side by side, and loses neither', () => {
    const { after } = paste('step\tdensity\n3\t0.30\n4\t0.40\n3\t0.31\nfog\t0.1\nfog\t0.12');
    expect(densities(after).slice(2, 4)).toEqual([[0.3, 0.31], [0.4]]);
    expect(after.strips[0]!.unexposedDensities).toEqual([0.1, 0.12]);
  });

  it('leaves out a row that names no step, and says which', () => {
    const block = parseBlock('step\tdensity\n1\t2.1\nmean\t1.2\n2\t1.9', null)!;
    const result = blockCommands(strip, block, { row: 0, replicate: 0 }, 'density');
    expect(result.left).toEqual(['mean']);
    expect(densities(applyWork(document, result.command)).slice(0, 3)).toEqual([
      [2.1],
      [1.9],
      [null],
    ]);
  });

  it('reads steps as people write them', () => {
    const { after } = paste('step\tdensity\nStep 2\t0.2\n#1\t0.1\n3.\t0.3');
    expect(densities(after).slice(0, 3)).toEqual([[0.1], [0.2], [0.3]]);
  });

  it('changes no exposure where the block repeats the tablet, to the places given', () => {
    const block = parseBlock('tablet\tdensity\n0.05\t1.5\n0.21\t1.3\n0.4\t1.1', null)!;
    const known = [0.053, 0.2, 0.36];
    const result = blockCommands(strip, block, { row: 0, replicate: 0 }, 'density', null, known);
    expect(applyWork(document, result.command).strips[0]!.rows.slice(0, 3)).toMatchObject([
      { logExposure: null },
      { logExposure: -0.21 },
      { logExposure: null },
    ]);
  });

  it('lets a given log exposure stand before a tablet density', () => {
    const { after } = paste('log exposure\ttablet\tdensity\n-1.2\t0.05\t1.5\n\t0.2\t1.3');
    expect(after.strips[0]!.rows.slice(0, 2)).toMatchObject([
      { logExposure: -1.2 },
      { logExposure: -0.2 },
    ]);
  });
});
