import { describe, expect, it } from 'vitest';
import { rememberedRoles, rememberRoles } from './remembered-columns.ts';

const known = ['step', 'reading', 'ignored'] as const;
const newStore = (text: string | null = null) => {
  const kept = { text };
  const store = {
    getItem: () => kept.text,
    setItem: (_: string, value: string) => {
      kept.text = value;
    },
  };
  return () => store;
};

describe('roles kept by the names of columns', () => {
  it('come back for the same names, whatever their case, and for the same use only', () => {
    const store = newStore();
    rememberRoles('sheet', ['No', 'Value'], ['step', 'reading'], store);
    expect(rememberedRoles('sheet', ['no ', 'VALUE'], known, store)).toEqual(['step', 'reading']);
    expect(rememberedRoles('file', ['No', 'Value'], known, store)).toBeNull();
    expect(rememberedRoles('sheet', ['Value', 'No'], known, store)).toBeNull();
    rememberRoles('sheet', ['No', 'Value'], ['ignored', 'reading'], store);
    expect(rememberedRoles('sheet', ['No', 'Value'], known, store)).toEqual(['ignored', 'reading']);
  });
  it('are not kept for a table without names, and only for the newest tables', () => {
    const store = newStore();
    rememberRoles('sheet', [], [], store);
    rememberRoles('sheet', ['', ''], ['step', 'reading'], store);
    expect(rememberedRoles('sheet', ['', ''], known, store)).toBeNull();
    for (let i = 0; i < 50; i++) rememberRoles('sheet', [`t${i}`], ['reading'], store);
    expect(rememberedRoles('sheet', ['t9'], known, store)).toBeNull();
    expect(rememberedRoles('sheet', ['t10'], known, store)).toEqual(['reading']);
  });
  it.each(['{', '{}', '[1,["x"],["y",2]]', '[["[\\"sheet\\",\\"a\\"]",["gone"]]]'])(
    'are none where %s is kept',
    (text) => {
      expect(rememberedRoles('sheet', ['a'], known, newStore(text))).toBeNull();
    },
  );
});
