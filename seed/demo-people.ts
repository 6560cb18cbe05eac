/** The invented people of the demo. */
export const demoPeople = {
  nerys: { name: "Nerys Quill", email: "nerys@example.org", role: "pianist", plays: "piano" },
  matthis: { name: "Matthis Orban", email: "matthis@example.org", role: "soloist", plays: "clarinet" },
  dagny: { name: "Dagny Thorsell", email: "dagny@example.org", role: "coach", plays: "coach" },
} as const;

export type DemoName = keyof typeof demoPeople;
export const demoNames = ["nerys", "matthis", "dagny"] as const satisfies readonly DemoName[];
