import { describe, expect, it } from 'vitest';
import { nominalTablet } from '@wedgebook/core';
import { parseBlock } from './parse-block.ts';

const tablet = nominalTablet({ steps: 21, increment: 0.15 });
const columns = (pasted: string) => parseBlock(pasted, tablet)?.columns;
const rows = (pasted: string) => parseBlock(pasted, tablet)?.rows;

describe('parseBlock', () => {
  it('leaves a single cell to the field', () => {
    expect(parseBlock('0.52', tablet)).toBeNull();
    expect(parseBlock('0,52\n', tablet)).toBeNull();
    expect(parseBlock('', tablet)).toBeNull();
  });

  it.each([
    ['tabs', '1\t0.12\n2\t0.15\n3\t0.31'],
    ['semicolons and decimal commas', '1;0,12\n2;0,15\n3;0,31'],
    ['commas', '1,0.12\n2,0.15\n3,0.31'],
    ['spaces', '1  0.12\n2  0.15\n3  0.31'],
    ['Windows line ends', '1\t0.12\r\n2\t0.15\r\n3\t0.31\r\n'],
    ['a byte order mark and quotes', '\uFEFF"1"\t"0.12"\n"2"\t"0.15"\n"3"\t"0.31"'],
  ])('takes a counting first column as steps, with %s', (_, pasted) => {
    expect(columns(pasted)).toEqual(['step', 'reading']);
    expect(rows(pasted)).toHaveLength(3);
  });

  it('reads one column of decimal commas as one column', () => {
    const block = parseBlock('0,12\n0,15\n0,31\n0,52', tablet);
    expect(block?.columns).toEqual(['reading']);
    expect(block?.rows.map(([cell]) => cell)).toEqual(['0,12', '0,15', '0,31', '0,52']);
  });

  it('reads heads, whatever their order', () => {
    const block = parseBlock('Density\tStep\tRemark\n0.12\t1\tclear\n0.15\t2\t', tablet);
    expect(block).toMatchObject({
      columns: ['reading', 'step', 'ignored'],
      heads: ['Density', 'Step', 'Remark'],
    });
    expect(block?.rows).toHaveLength(2);
  });

  it('leaves out the lines above a table, and says which', () => {
    const titled =
      '\tFilm test 3, roll B\t\n\tread on Monday\t\n\tStep\tDensity\n\t1\t0.12\n\t2\t0.15';
    expect(parseBlock(titled, tablet)).toMatchObject({
      titles: ['Film test 3, roll B', 'read on Monday'],
      heads: ['Step', 'Density'],
      columns: ['step', 'reading'],
    });
    expect(parseBlock('roll B\n1;0,12\n2;0,15', tablet)).toMatchObject({
      titles: ['roll B'],
      heads: [],
      columns: ['step', 'reading'],
    });
  });

  it('keeps words that may be readings gone wrong', () => {
    expect(parseBlock('smudge\nblot\n0.12\n0.15', tablet)?.rows).toHaveLength(4);
    expect(parseBlock('1;smudge\n2;0,15\n3;0,31', tablet)?.rows).toHaveLength(3);
  });

  it('turns a block that runs across', () => {
    const across = 'step\t1\t2\t3\t4\t5\ndensity\t0.12\t0.15\t0.31\t0.52\t0.80';
    const block = parseBlock(across, tablet);
    expect(block).toMatchObject({ turned: true, columns: ['step', 'reading'] });
    expect(block?.rows).toEqual([
      ['1', '0.12'],
      ['2', '0.15'],
      ['3', '0.31'],
      ['4', '0.52'],
      ['5', '0.80'],
    ]);
    expect(parseBlock('0.12\t0.15\t0.31\t0.52', tablet)).toMatchObject({ turned: true });
  });

  it('takes replicates side by side', () => {
    expect(columns('0.12\t0.13\n0.15\t0.15\n0.31\t0.30')).toEqual(['reading', 'reading']);
  });

  it('knows the tablet’s own column again', () => {
    const pasted = tablet.map((d, i) => `${i + 1}\t${d.toFixed(2)}\t${(1.6 - d / 2).toFixed(2)}`);
    expect(columns(pasted.join('\n'))).toEqual(['step', 'tablet-density', 'reading']);
  });

  it('knows the tablet’s column though a step was not read and base + fog stands below', () => {
    const pasted = tablet.map(
      (d, i) => `${i + 1};${d.toFixed(2)};${i === 8 ? '' : (1.6 - d / 2).toFixed(2)};`,
    );
    const block = parseBlock(
      ['Stufe;Keil D;Dichte;Bemerkung', ...pasted, 'b+f;;0,23;'].join('\n'),
      tablet,
    );
    expect(block).toMatchObject({
      columns: ['step', 'tablet-density', 'reading', 'ignored'],
      certain: true,
    });
    const bare = parseBlock([...pasted, 'b+f;;0,23;'].join('\n'), tablet);
    expect(bare?.columns).toEqual(['step', 'tablet-density', 'reading']);
  });

  it('says that steps run from the last to the first', () => {
    expect(parseBlock('3;0,31\n2;0,15\n1;0,12', tablet)?.reversed).toBe(true);
    expect(parseBlock('1;0,12\n2;0,15\n3;0,31', tablet)?.reversed).toBe(false);
  });

  it.each([
    ['with steps', '1,0,12\n2,0,15\n3,1,31', ['step', 'reading']],
    ['with names', 'step,density\n1,0,12\n2,0,15\nb+f,0,10', ['step', 'reading']],
    ['with replicates', '1,0,12,0,13\n2,0,15,0,15\n3,0,31,0,30', ['step', 'reading', 'reading']],
  ])('puts decimal commas between commas together again and asks, %s', (_, pasted, expected) => {
    const block = parseBlock(pasted, tablet);
    expect(block?.columns).toEqual(expected);
    expect(block?.rows[0]?.[1]).toBe('0,12');
    expect(block?.certain).toBe(false);
  });

  it('leaves commas alone where points stand in the numbers', () => {
    expect(parseBlock('1,0.12,3\n2,0.15,3\n3,0.31,3', tablet)?.rows[0]).toEqual(['1', '0.12', '3']);
  });

  it('drops empty edge columns and empty lines, and keeps words in cells', () => {
    const block = parseBlock('\t0.12\t\n\n\tO.15\t\n\t0.31\t', tablet);
    expect(block?.rows).toEqual([['0.12'], ['O.15'], ['0.31']]);
  });
});

describe('the certainty of a block', () => {
  it.each([
    ['a column alone', '0.12\n0.15\n0.31', true],
    ['steps and readings', '1\t0.12\n2\t0.15\n3\t0.31', true],
    ['replicates that are alike', '0.12\t0.13\n0.15\t0.15\n0.31\t0.30\n0.80\t0.82', true],
    ['a named reading', 'Density\tStep\tRemark\n0.12\t1\tclear\n0.15\t2\t', true],
    ['two columns that are nothing like', '1.40\t0.12\n0.95\t0.15\n0.50\t0.31', false],
    ['names that say nothing', 'a\tb\tc\n1\t0.12\t0.95\n2\t0.15\t0.90', false],
    ['a remark beside readings', '1\t0.12\tclear\n2\t0.15\tok\n3\t0.31\tok', true],
    ['no reading', 'step\tlog H\n1\t0.05\n2\t0.20', false],
    ['two columns of steps', 'step\tno.\td\n1\t1\t0.12\n2\t2\t0.20', false],
  ])('%s', (_, pasted, certain) => {
    expect(parseBlock(pasted, tablet)?.certain).toBe(certain);
  });
});
