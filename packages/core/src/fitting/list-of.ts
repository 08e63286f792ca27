/** A plain list of the numbers of an array; several times as fast as Array.from. */
export function listOf(values: Float64Array): number[] {
  const list = new Array<number>(values.length);
  for (let i = 0; i < values.length; i++) list[i] = values[i] as number;
  return list;
}
