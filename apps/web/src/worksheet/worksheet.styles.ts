/** Styles of the typing sheet: large cells, figures aligned, the head quiet. */
import { css } from 'lit';

export const worksheetStyles = css`
  :host {
    container-type: inline-size;
  }
  table {
    width: auto;
  }
  th,
  td {
    padding: 0.1rem 0.35rem 0.1rem 0;
    border-bottom: 0;
    vertical-align: middle;
  }
  thead th {
    vertical-align: bottom;
    line-height: 1.2;
    padding-bottom: 0.35rem;
    text-align: end;
    padding-inline-end: 0.75rem;
  }
  thead th span {
    font-size: 0.8125rem;
  }
  th.step {
    text-align: end;
    padding-inline-end: 0.6rem;
    font-weight: 400;
    white-space: nowrap;
  }
  tr.base th.step {
    white-space: normal;
    max-width: 4rem;
    line-height: 1.1;
    font-size: 0.875rem;
  }
  tr.base td,
  tr.base th {
    padding-bottom: 0.6rem;
  }
  /* Rows and cells are laid out and painted each on its own, so that typing stays quick. */
  tr {
    isolation: isolate;
  }
  /* A row's form only ties its fields together. */
  form {
    display: none;
  }
  input {
    contain: strict;
    width: 5.5rem;
    height: 2.75rem;
    text-align: end;
  }
  .cell {
    position: relative;
    display: block;
    width: max-content;
  }
  .cell input {
    display: block;
  }
  .doubtful input {
    border: 2px dashed var(--wrong);
  }
  .cell .mark {
    position: absolute;
    inset-inline-start: 0.5rem;
    top: 50%;
    translate: 0 -50%;
    color: var(--wrong);
    font-weight: 700;
    pointer-events: none;
  }
  .doubt {
    max-width: 34rem;
    font-size: 0.875rem;
  }
  .doubt::before {
    content: '? ';
    color: var(--wrong);
    font-weight: 700;
  }
  .again {
    margin-top: 0.5rem;
  }
  .exposure input {
    border-color: transparent;
    background: transparent;
  }
  .exposure input:hover,
  .exposure input:focus {
    border-color: var(--frame);
    background: var(--surface);
  }
  .exposure input::placeholder {
    color: var(--quiet);
    opacity: 1;
  }
  td.exposure.quiet {
    font-size: 0.8125rem;
    text-align: end;
    padding-inline-end: 0.75rem;
  }
  .off {
    text-align: end;
    font-size: 0.875rem;
    min-width: 3.6rem;
    white-space: nowrap;
  }
  thead th.off {
    padding-inline-end: 0.35rem;
  }
  .fault td {
    padding-bottom: 0.5rem;
  }
  @container (max-width: 26rem) {
    input {
      width: 4.4rem;
      padding-inline: 0.35rem;
    }
    .exposure input {
      width: 4rem;
      font-size: 0.875rem;
      padding-inline: 0.2rem;
    }
    thead th {
      padding-inline-end: 0.4rem;
    }
    th.step {
      padding-inline-end: 0.3rem;
    }
    tr.base th.step {
      max-width: 3rem;
    }
  }
  @container (max-width: 20.5rem) {
    .off {
      display: none;
    }
  }
`;
