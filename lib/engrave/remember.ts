/** What was made lately under a name, made now if it was not; what was asked for longest ago is let go. */
export function remember<T>(kept: Map<string, T>, most: number, name: string, make: () => T): T {
  const found = kept.get(name);
  const value = found === undefined ? make() : found;
  kept.delete(name);
  kept.set(name, value);
  const [oldest] = kept.keys();
  if (kept.size > most && oldest !== undefined) kept.delete(oldest);
  return value;
}
