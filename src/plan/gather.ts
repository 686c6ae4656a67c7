/** Puts a value under its key, behind those that are there: the map of a key to all that share it. */
export function gather<K, V>(map: Map<K, V[]>, key: K, value: V): void {
  const list = map.get(key);
  if (list) list.push(value);
  else map.set(key, [value]);
}
