/** What every dialog of the page looks like. */
import { css } from 'lit';

export const dialogStyles = css`
  dialog {
    border: 1px solid var(--frame);
    border-radius: 0.5rem;
    background: var(--surface);
    color: var(--text);
    padding: 1.5rem;
    width: min(46rem, calc(100vw - 1.5rem));
    max-height: calc(100vh - 1.5rem);
    overflow: auto;
  }
  dialog::backdrop {
    background: rgb(0 0 0 / 60%);
  }
  .choices {
    display: flex;
    flex-wrap: wrap;
    gap: 0.75rem;
    margin-top: 1.25rem;
  }
  .wrong {
    color: var(--wrong);
    font-weight: 600;
  }
  table {
    width: 100%;
    border-collapse: collapse;
    margin: 0.75rem 0;
  }
  th,
  td {
    text-align: start;
    vertical-align: top;
    padding: 0.4rem 0.5rem 0.4rem 0;
    border-bottom: 1px solid var(--rule);
  }
  th {
    font-weight: 600;
  }
  .number {
    text-align: end;
    font-variant-numeric: tabular-nums;
    padding-inline-end: 0.75rem;
  }
  /* A table of five columns must fit a telephone: what is cut off is not read. */
  @media (max-width: 30rem) {
    dialog {
      padding: 1rem;
    }
    table {
      font-size: 0.875rem;
    }
    .number {
      padding-inline-end: 0.4rem;
    }
    .number:last-child {
      padding-inline-end: 0;
    }
  }
`;
