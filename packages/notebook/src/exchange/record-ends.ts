/**
 * Where the records of a delimited text end: at a line ending outside quotation marks. A mark
 * opens a quoted field only at the start of a field, as RFC 4180 has it.
 *
 * Sources: [RFC4180] section 2. Deviations: a lone CR ends a record too.
 */

/**
 * @param text - begins at a record
 * @param final - whether no more text follows
 * @returns the index after the first record and its line ending; 0 where it is not complete
 */
export function firstRecordEnd(text: string, final: boolean): number {
  return recordEnds(text, ',;\t', final, 'first');
}

/**
 * @param text - begins at a record
 * @param delimiter - between fields
 * @param final - whether no more text follows
 * @returns the index after the last complete record and its line ending; 0 where there is none
 */
export function lastRecordEnd(text: string, delimiter: string, final: boolean): number {
  if (text.includes('"')) return recordEnds(text, delimiter, final, 'last');
  if (final) return text.length;
  const lineFeed = text.lastIndexOf('\n');
  // A CR at the end of a piece may be half of CRLF: left for the next piece.
  return lineFeed >= 0 ? lineFeed + 1 : text.lastIndexOf('\r', text.length - 2) + 1;
}

function recordEnds(
  text: string,
  delimiters: string,
  final: boolean,
  which: 'first' | 'last',
): number {
  let quoted = false;
  let atFieldStart = true;
  let end = 0;
  for (let i = 0; i < text.length; i += 1) {
    const character = text.charAt(i);
    if (quoted) {
      if (character !== '"') continue;
      if (text.charAt(i + 1) === '"') i += 1;
      else if (i + 1 < text.length || final) quoted = false;
    } else if (character === '\n' || character === '\r') {
      if (character === '\r') {
        if (i + 1 === text.length && !final) break;
        if (text.charAt(i + 1) === '\n') i += 1;
      }
      end = i + 1;
      if (which === 'first') return end;
      atFieldStart = true;
    } else {
      quoted = atFieldStart && character === '"';
      atFieldStart = delimiters.includes(character);
    }
  }
  return final && !quoted ? text.length : end;
}
