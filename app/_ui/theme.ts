/** Paper by day, or dimmed for a dark stage. */
export type Theme = "light" | "stage";

/** The cookie in which a browser keeps its choice. */
export const themeCookie = "theme";

export function readTheme(value: string | undefined): Theme {
  return value === "stage" ? "stage" : "light";
}
