/** The day where the user is, such as 2026-11-25; by Greenwich it may be another. */
export function localDay(date = new Date()): string {
  const two = (part: number) => String(part).padStart(2, '0');
  return `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())}`;
}
