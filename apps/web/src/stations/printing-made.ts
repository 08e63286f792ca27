/** Prints that were made: the exposure as it stands is noted with negative, paper and day. */
import type { Print } from '@wedgebook/notebook';
import { html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement } from 'lit/decorators.js';
import { repeat } from 'lit/directives/repeat.js';
import { noteEntry, textEntry } from '../parts/fields.ts';
import { focusAfter } from '../parts/focus-after.ts';
import { sharedStyles } from '../parts/styles.ts';
import { AppController } from '../state/app-controller.ts';
import { localDay } from '../state/local-day.ts';
import type { WorkDocument } from '../state/work.ts';
import { text } from '../text.ts';
import { wall as words } from '../text/wall.ts';
import { freshName, newId } from '../worksheet/new-entries.ts';

@customElement('wb-prints-made')
export class PrintsMade extends LitElement {
  static override styles = [sharedStyles];

  private readonly app = new AppController(this, ({ document }) => ({
    document,
    prints: document.prints,
  }));

  protected override render(): TemplateResult | typeof nothing {
    const now = this.app.value;
    if (now === undefined) return nothing;
    const { document, prints } = now;
    return html`<h3>${words.prints}</h3>
      ${prints.length === 0 ? html`<p class="quiet">${words.noneMade}</p>` : nothing}
      ${repeat(
        prints,
        ({ id }) => id,
        (print) => this.printTemplate(print, document),
      )}
      <p><button id="note-print" @click=${this.note}>${words.note}</button></p>`;
  }

  private printTemplate(print: Print, document: WorkDocument): TemplateResult {
    const negative = document.negatives.find(({ id }) => id === print.negativeId)?.name ?? '';
    const paper = document.papers.find(({ id }) => id === print.paperId)?.name ?? '';
    const on = [paper, print.setting ?? ''].filter((part) => part !== '').join(', ');
    const exposure = words.seconds(print.seconds, print.softSeconds, print.hardSeconds);
    const change = (changes: Partial<Print>, gesture: string) => {
      this.app.app.store.dispatch({
        type: 'print/change',
        id: print.id,
        changes,
        mergeKey: `${print.id} ${gesture}`,
      });
    };
    return html`<details data-print=${print.id}>
      <summary>
        ${[print.name, print.day ?? '', negative, on, exposure].filter((part) => part !== '').join(' · ')}
      </summary>
      ${textEntry({
        id: `name-${print.id}`,
        label: words.name,
        value: print.name,
        onType: (name) => {
          change({ name }, 'name');
        },
      })}
      ${noteEntry({
        id: `note-${print.id}`,
        label: words.notes,
        value: print.note,
        onType: (note) => {
          change({ note }, 'note');
        },
      })}
      <button
        class="remove"
        aria-label=${words.removePrint(print.name)}
        @click=${({ currentTarget }: Event) => {
          const { store } = this.app.app;
          store.dispatch({ type: 'print/remove', id: print.id });
          this.app.say(text.match.removed(print.name));
          void focusAfter(this, currentTarget, 'details[open] .remove', '#note-print');
        }}
      >
        ${words.remove}
      </button>
    </details>`;
  }

  private readonly note = (): void => {
    const { store } = this.app.app;
    const { document } = store.state;
    const { plan, printing } = document;
    const split = printing.softSeconds !== null && printing.hardSeconds !== null;
    const entry: Print = {
      id: newId(),
      name: freshName(words.print, document.prints),
      day: localDay(),
      negativeId: plan.negativeId,
      paperId: plan.paperId,
      setting: printing.setting,
      seconds: split ? null : printing.baseSeconds,
      softSeconds: split ? printing.softSeconds : null,
      hardSeconds: split ? printing.hardSeconds : null,
      magnification: printing.magnification,
      note: '',
    };
    store.dispatch({ type: 'print/add', entry });
    this.app.say(words.noted(entry.name));
  };
}

declare global {
  interface HTMLElementTagNameMap {
    'wb-prints-made': PrintsMade;
  }
}
