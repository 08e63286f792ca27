/** Templates of labelled choices and texts, so that each station states only what differs. */
import { html, nothing, type TemplateResult } from 'lit';
import { live } from 'lit/directives/live.js';

export interface Choice {
  readonly id: string;
  readonly label: string;
  readonly selected: string;
  /** Value and what is shown. */
  readonly options: readonly (readonly [string, string])[];
  readonly onChoose: (value: string) => void;
}

/** A labelled list to choose from. */
export function choice({ id, label, selected, options, onChoose }: Choice): TemplateResult {
  return html`<div class="field">
    <label for=${id}>${label}</label>
    ${choiceOnly({ id, selected, options, onChoose })}
  </div>`;
}

/** The list alone; `label`, where given, names it to those who do not see its place. */
export function choiceOnly({
  id,
  label = '',
  selected,
  options,
  onChoose,
}: Omit<Choice, 'label'> & { readonly label?: string }): TemplateResult {
  const onChange = (event: Event) => {
    onChoose((event.target as HTMLSelectElement).value);
  };
  // live: the list shows what the notebook holds, also after undo.
  return html`<select
    id=${id}
    aria-label=${label === '' ? nothing : label}
    .value=${live(selected)}
    @change=${onChange}
  >
    ${options.map(([value, shown]) => html`<option value=${value} ?selected=${value === selected}>${shown}</option>`)}
  </select>`;
}

export interface TextEntry {
  readonly id: string;
  readonly label: string;
  readonly value: string;
  readonly onType: (value: string) => void;
}

/** A labelled line of text. */
export function textEntry({ id, label, value, onType }: TextEntry): TemplateResult {
  const onInput = (event: Event) => {
    onType((event.target as HTMLInputElement).value);
  };
  return html`<div class="field">
    <label for=${id}>${label}</label>
    <input id=${id} .value=${live(value)} @input=${onInput} />
  </div>`;
}

/** A labelled note of several lines. */
export function noteEntry({ id, label, value, onType }: TextEntry): TemplateResult {
  const onInput = (event: Event) => {
    onType((event.target as HTMLTextAreaElement).value);
  };
  return html`<div class="field note">
    <label for=${id}>${label}</label>
    <textarea id=${id} rows="2" .value=${live(value)} @input=${onInput}></textarea>
  </div>`;
}

/** A labelled day; null while none is given. */
export function dayEntry(
  id: string,
  label: string,
  value: string | null,
  onDay: (day: string | null) => void,
): TemplateResult {
  return html`<div class="field">
    <label for=${id}>${label}</label>
    <input
      id=${id}
      type="date"
      .value=${value ?? ''}
      @change=${(event: Event) => {
        const day = (event.target as HTMLInputElement).value;
        onDay(day === '' ? null : day);
      }}
    />
  </div>`;
}
