/** What a chosen notebook would change, before it is merged or takes the place of the open one. */
import {
  compareDocuments,
  LIST_OF,
  mergeDocuments,
  type DocumentComparison,
  type EntryKind,
  type ListComparison,
  type NotebookDocument,
} from '@wedgebook/notebook';
import { html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property, query } from 'lit/decorators.js';
import type { Keeper } from '../keeping/keeper.ts';
import { sharedStyles } from '../parts/styles.ts';
import { AppController } from '../state/app-controller.ts';
import { firstStripId } from '../state/start.ts';
import { text } from '../text.ts';
import { newId } from '../worksheet/new-entries.ts';
import { dialogStyles } from './dialog.styles.ts';

/** Names shown of one list before the rest is counted. */
const MOST_NAMES = 12;

@customElement('wb-import-dialog')
export class ImportDialog extends LitElement {
  static override styles = [sharedStyles, dialogStyles];

  @property({ attribute: false }) incoming!: NotebookDocument;
  /** References of the file that led nowhere. */
  @property({ attribute: false }) mended = 0;
  @property({ attribute: false }) keeper!: Keeper;
  @query('dialog') readonly dialog!: HTMLDialogElement | null;

  private readonly app = new AppController(this, ({ document }) => ({ document }));

  protected override render(): TemplateResult | typeof nothing {
    if (this.app.value === undefined) return nothing;
    // As it is kept, with figures that cannot be: the file is compared with what would be changed.
    const mine = this.app.app.store.state.document;
    const t = text.keeping;
    const comparison = compareDocuments(mine, this.incoming);
    const { lists, settings, alike } = comparison;
    const twice = total(lists, 'changed');
    const close = () => this.dialog?.close();
    return html`<dialog
      aria-labelledby="title"
      @close=${() => this.dispatchEvent(new CustomEvent('wb-closed'))}
    >
      <h2 id="title">${t.incoming(this.incoming.title)}</h2>
      ${
        alike
          ? html`<p>${t.incomingAlike}</p>`
          : html`${this.tableTemplate(lists)} ${this.namesTemplate(mine, comparison)}
            ${settings.length === 0 ? nothing : html`<p>${t.differs(settings)}</p>`}`
      }
      ${this.mended > 0 ? html`<p>${t.mended(this.mended)}</p>` : nothing}
      ${
        alike
          ? nothing
          : html`<p>${t.mergeSays(twice)}</p>
              <p>${t.replaceSays(total(lists, 'missing'))}</p>
              <p class="quiet">${t.undoSays}</p>`
      }
      <div class="choices">
        ${
          alike
            ? nothing
            : html`<button class="primary" @click=${this.merge}>${t.merge}</button>
                <button @click=${this.replace}>${t.replace}</button>`
        }
        <button @click=${close}>${alike ? t.close : t.keepPresent}</button>
      </div>
    </dialog>`;
  }

  private tableTemplate(lists: readonly ListComparison[]): TemplateResult {
    const t = text.keeping;
    const columns = ['added', 'changed', 'same', 'missing'] as const;
    const filled = lists.filter((list) => columns.some((column) => list[column].length > 0));
    return html`<table>
      <thead>
        <tr>
          <th scope="col">${t.list}</th>
          ${columns.map((column) => html`<th scope="col" class="number">${t[column]}</th>`)}
        </tr>
      </thead>
      <tbody>
        ${filled.map(
          (list) =>
            html`<tr>
              <th scope="row">${t.lists[list.kind]}</th>
              ${columns.map((column) => html`<td class="number">${list[column].length || text.none}</td>`)}
            </tr>`,
        )}
      </tbody>
    </table>`;
  }

  private namesTemplate(
    mine: NotebookDocument,
    { lists }: DocumentComparison,
  ): TemplateResult | typeof nothing {
    const t = text.keeping;
    const lines = lists.flatMap(({ kind, added, changed }) => [
      ...(added.length === 0 ? [] : [t.newOnes(kind, namesOf(this.incoming, kind, added))]),
      ...(changed.length === 0 ? [] : [t.differing(kind, namesOf(mine, kind, changed))]),
    ]);
    if (lines.length === 0) return nothing;
    return html`<details>
      <summary>${t.names}</summary>
      <ul>
        ${lines.map((line) => html`<li>${line}</li>`)}
      </ul>
    </details>`;
  }

  private readonly merge = (): void => {
    const mine = this.app.app.store.state.document;
    const { document, taken, keptBoth } = mergeDocuments(mine, this.incoming, {
      makeId: newId,
      copyName: text.keeping.fileName,
    });
    void this.keeper.takeSnapshot('before-merging');
    const { title } = this.incoming;
    this.load(document, text.keeping.mergedFile(title, taken.length, keptBoth.length));
  };

  private readonly replace = (): void => {
    void this.keeper.takeSnapshot('before-replacing');
    this.load(this.incoming, text.keeping.replaced(this.incoming.title));
  };

  private load(document: NotebookDocument, says: string): void {
    const { store, session } = this.app.app;
    store.dispatch({ type: 'document/load', document });
    const { stripId } = session.value;
    const stays = document.strips.some(({ id }) => id === stripId);
    session.set({ stripId: stays ? stripId : firstStripId(document), announcement: { says } });
    this.dialog?.close();
  }
}

function total(lists: readonly ListComparison[], column: 'changed' | 'missing'): number {
  return lists.reduce((sum, list) => sum + list[column].length, 0);
}

/** A diary entry goes by its first words. */
function namesOf(
  document: NotebookDocument,
  kind: EntryKind,
  ids: readonly string[],
): readonly string[] {
  const wanted = new Set(ids.slice(0, MOST_NAMES));
  const names = document[LIST_OF[kind]]
    .filter(({ id }) => wanted.has(id))
    .map(
      (entry) => ('name' in entry ? entry.name : entry.text.slice(0, 40)) || text.keeping.untitled,
    );
  return ids.length > MOST_NAMES ? [...names, text.keeping.more(ids.length - MOST_NAMES)] : names;
}

declare global {
  interface HTMLElementTagNameMap {
    'wb-import-dialog': ImportDialog;
  }
}
