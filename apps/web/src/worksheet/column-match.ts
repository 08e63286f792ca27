/**
 * Asks what the columns of a table are: its first rows, and above each column a list with the guess
 * chosen. Fetched when a guess is not sure, or the user wants to look.
 */
import { html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import { dialogStyles } from '../dialogs/dialog.styles.ts';
import { choiceOnly } from '../parts/fields.ts';
import { sharedStyles } from '../parts/styles.ts';
import { columns as t } from '../text/columns.ts';
import { columnMatchStyles } from './column-match.styles.ts';

export interface ColumnQuestion<Role extends string> {
  readonly heads: readonly string[];
  readonly rows: readonly (readonly string[])[];
  /** The guess. */
  readonly roles: readonly Role[];
  /** The roles there are, with their words. */
  readonly words: Readonly<Record<Role, string>>;
  /** Why roles do not do, in a sentence, or null. */
  readonly fault: (roles: readonly Role[]) => string | null;
}

const ROWS_SHOWN = 6;

@customElement('wb-column-match')
export class ColumnMatch extends LitElement {
  static override styles = [sharedStyles, dialogStyles, columnMatchStyles];

  @property({ attribute: false }) question!: ColumnQuestion<string>;
  @property({ attribute: false }) answer: (roles: readonly string[] | null) => void = () =>
    undefined;
  @state() private roles: readonly string[] = [];
  @query('dialog') private readonly dialog!: HTMLDialogElement;

  override connectedCallback(): void {
    super.connectedCallback();
    this.roles = this.question.roles;
  }

  protected override firstUpdated(): void {
    this.dialog.showModal();
  }

  protected override render(): TemplateResult {
    const { heads, rows, fault } = this.question;
    const why = fault(this.roles);
    return html`<dialog
      aria-labelledby="ask"
      @close=${() => {
        this.answer(null);
      }}
    >
      <h2 id="ask">${t.title}</h2>
      <p>${t.intro(rows.length, ROWS_SHOWN)}</p>
      <div class="scroll">
        <ol class="columns">
          ${this.roles.map((role, column) => this.columnTemplate(role, column))}
        </ol>
      </div>
      <div role="status">${why === null ? nothing : html`<p class="wrong">${why}</p>`}</div>
      ${heads.length === 0 ? nothing : html`<p class="quiet small">${t.remembered}</p>`}
      <div class="choices">
        <button
          class="primary"
          ?disabled=${why !== null}
          @click=${() => {
            this.answer(this.roles);
          }}
        >
          ${t.take}
        </button>
        <button
          @click=${() => {
            this.dialog.close();
          }}
        >
          ${t.cancel}
        </button>
      </div>
    </dialog>`;
  }

  /** What a column is, its name, and its first cells: one under another, or in a line on a phone. */
  private columnTemplate(role: string, column: number): TemplateResult {
    const { heads, rows, words } = this.question;
    return html`<li class=${role === 'ignored' ? 'out' : ''}>
      <span class="ordinal" aria-hidden="true">${t.ordinal(column + 1)}</span>
      ${choiceOnly({
        id: `column-${column}`,
        label: t.column(column + 1),
        selected: role,
        options: Object.entries(words),
        onChoose: (chosen) => {
          this.roles = this.roles.with(column, chosen);
        },
      })}
      <span class="name">${heads.length === 0 ? nothing : headOf(heads, column)}</span>
      <ul>
        ${rows.slice(0, ROWS_SHOWN).map((row) => html`<li>${(row[column] ?? '') === '' ? '–' : row[column]}</li>`)}
      </ul>
    </li>`;
  }
}

const headOf = (heads: readonly string[], column: number): string => {
  const head = heads[column] ?? '';
  return head === '' ? t.unnamed : head;
};

/**
 * Shows the question over the page.
 *
 * @returns the roles as the user has them, or null where nothing shall be taken
 */
export async function askColumns<Role extends string>(
  question: ColumnQuestion<Role>,
): Promise<readonly Role[] | null> {
  const element = new ColumnMatch();
  const { roles, fault } = question;
  const known = Object.keys(question.words) as Role[];
  const checked = (given: readonly string[]): Role[] =>
    given.flatMap((role) => known.find((each) => each === role) ?? []);
  const answer = await new Promise<readonly string[] | null>((resolve) => {
    element.question = { ...question, roles, fault: (given) => fault(checked(given)) };
    element.answer = resolve;
    document.body.append(element);
  });
  element.remove();
  return answer === null ? null : checked(answer);
}

declare global {
  interface HTMLElementTagNameMap {
    'wb-column-match': ColumnMatch;
  }
}
