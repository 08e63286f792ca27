/** Whatever commands come, in whatever order: the notebook stays sound, and undo brings it back. */
import { InvalidArgumentError } from '@wedgebook/core';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { anyCommand } from '../../../../test/any-command.ts';
import { firstDoubleId, mendReferences } from '../saving/mend-references.ts';
import { firstFault } from '../saving/schema.ts';
import { DocumentStore } from '../store/document-store.ts';
import { applyCommand } from './apply-command.ts';
import type { Command } from './command.ts';
import type { NotebookDocument } from './document.ts';
import { SAMPLE } from './sample-document.ts';

describe('any commands', () => {
  it('keep the notebook sound, and undo brings back every step', () => {
    fc.assert(
      fc.property(fc.array(anyCommand, { maxLength: 25 }), (commands) => {
        const store = new DocumentStore<NotebookDocument, Command>(SAMPLE, applyCommand);
        const seen: NotebookDocument[] = [SAMPLE];
        for (const one of commands) {
          try {
            store.dispatch(one);
          } catch (error) {
            // A command that names what is not there changes nothing.
            expect(error).toBeInstanceOf(InvalidArgumentError);
            expect(store.state.document).toBe(seen.at(-1));
            continue;
          }
          const { document } = store.state;
          if (document !== seen.at(-1)) seen.push(document);
          expect(mendReferences(document).mended).toEqual([]);
          expect(firstDoubleId(document)).toBeNull();
          expect(firstFault(document)).toBeNull();
        }
        for (const before of seen.slice(0, -1).reverse()) {
          store.undo();
          expect(store.state.document).toBe(before);
        }
        expect(store.state.canUndo).toBe(false);
        for (const after of seen.slice(1)) {
          store.redo();
          expect(store.state.document).toBe(after);
        }
      }),
      { numRuns: 400 },
    );
  });
});
