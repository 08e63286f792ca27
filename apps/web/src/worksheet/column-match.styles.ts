/** Styles of saying what the columns of a table are. */
import { css } from 'lit';

export const columnMatchStyles = css`
  /* As wide as the columns ask for, where the window has the room. */
  dialog {
    width: fit-content;
    min-width: min(46rem, calc(100vw - 1.5rem));
    max-width: calc(100vw - 1.5rem);
  }
  /* Room for the ring of the focus. */
  .scroll {
    padding: 0.3rem;
  }
  ul,
  ol {
    list-style: none;
    margin: 0;
    padding: 0;
  }
  /* Eight lines: what a column is, its name, and six cells; those of all columns in step. */
  .columns {
    display: grid;
    grid-auto-flow: column;
    grid-auto-columns: minmax(8.5rem, 13rem);
    grid-template-rows: repeat(8, auto);
    margin-top: 0.5rem;
  }
  .columns > li,
  .columns ul {
    display: grid;
    grid-template-rows: subgrid;
  }
  .columns > li {
    grid-row: span 8;
  }
  .columns ul {
    grid-row: span 6;
  }
  .ordinal {
    display: none;
  }
  select {
    width: calc(100% - 0.75rem);
  }
  .name,
  ul li {
    min-height: 2rem;
    padding: 0.3rem 0.75rem 0.3rem 0;
    border-bottom: 1px solid var(--rule);
    overflow-wrap: anywhere;
  }
  .name {
    border-bottom-color: var(--frame);
    font-size: 0.875rem;
    color: var(--quiet);
  }
  .name:empty {
    min-height: 0.5rem;
    padding: 0;
  }
  .out ul {
    color: var(--quiet);
  }
  /* On a phone the columns stand one under another, their cells in a line. */
  @media (max-width: 40rem) {
    .columns,
    .columns > li {
      display: block;
    }
    .columns > li {
      padding: 0.6rem 0;
      border-bottom: 1px solid var(--frame);
    }
    .ordinal,
    .name {
      display: block;
      font-size: 0.875rem;
      color: var(--quiet);
    }
    .ordinal {
      margin-bottom: 0.3rem;
    }
    select {
      width: 100%;
    }
    .columns ul {
      display: flex;
      flex-wrap: wrap;
      gap: 0 1rem;
    }
    .name,
    ul li {
      min-height: 0;
      padding: 0.2rem 0 0;
      border: 0;
    }
  }
`;
