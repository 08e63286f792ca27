/** Styles of reading a strip from a picture. */
import { css } from 'lit';

export const scanReaderStyles = css`
  :host {
    container-type: inline-size;
    padding-bottom: 0.5rem;
  }
  .row,
  .actions {
    display: flex;
    flex-wrap: wrap;
    gap: 0.5rem 1rem;
    align-items: center;
    margin: 0.6rem 0;
  }
  fieldset {
    border: 0;
    padding: 0;
    margin: 0.8rem 0 0;
  }
  label.check {
    display: inline-flex;
    gap: 0.5rem;
    align-items: center;
    min-height: 2.75rem;
    margin: 0;
  }
  h3 {
    margin: 0.6rem 0 0.3rem;
    font-size: 1rem;
    font-weight: 600;
  }
  .places {
    --field-width: 5rem;
  }
  .results {
    display: grid;
    gap: 1rem 2rem;
    grid-template-columns: minmax(0, 1fr);
    margin-top: 0.8rem;
  }
  @container (min-width: 48rem) {
    .results {
      grid-template-columns: minmax(18rem, 1fr) minmax(0, 1.6fr);
    }
  }
  .tall {
    max-height: 24rem;
    overflow: auto;
  }
`;
