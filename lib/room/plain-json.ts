/**
 * Whether a value is plain JSON through and through: no shared type, no bytes, no class, no borrowed prototype.
 * A value that came out of an update may be any of these.
 */
export function isPlainJson(value: unknown): boolean {
  if (value === null || typeof value === "string" || typeof value === "boolean") return true;
  if (typeof value === "number") return Number.isFinite(value);
  if (Array.isArray(value)) return value.every(isPlainJson);
  if (typeof value !== "object" || Object.getPrototypeOf(value) !== Object.prototype) return false;
  return Object.values(value).every(isPlainJson);
}
