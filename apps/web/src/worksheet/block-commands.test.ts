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
});
