/** A paragraph broken into lines at blanks. */

/** @returns lines of at most `width` characters, each after `indent`, each ended */
export function wrapped(text: string, width: number, indent: string): string {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ')) {
    if (line !== '' && indent.length + line.length + 1 + word.length > width) {
      lines.push(line);
      line = word;
    } else {
      line = line === '' ? word : `${line} ${word}`;
    }
  }
  return [...lines, line].map((one) => `${indent}${one}\n`).join('');
}
