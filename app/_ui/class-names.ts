/** Joins the class names that are there: `classNames("a", isOn && "b", undefined)` is `"a b"` or `"a"`. */
export function classNames(...names: readonly (string | false | null | undefined)[]): string {
  return names.filter(Boolean).join(" ");
}
