"use client";

import paneBar from "../../_components/pane-bar.module.css";

/** What has the room of a narrow screen. */
export type BreathPane = "part" | "rests" | "breaths";

/** At the foot of a narrow screen: what has the room. */
export function BreathPanes({
  pane,
  needCount,
  suggestionCount,
  onPane,
}: {
  pane: BreathPane;
  needCount: number;
  suggestionCount: number;
  onPane: (pane: BreathPane) => void;
}) {
  const panes: readonly { value: BreathPane; label: string }[] = [
    { value: "part", label: "Solo part" },
    { value: "rests", label: needCount > 0 ? `Rests ${needCount}` : "Rests" },
    { value: "breaths", label: suggestionCount > 0 ? `Breaths ${suggestionCount}` : "Breaths" },
  ];
  return (
    <nav className={paneBar.bar} aria-label="Parts of this screen">
      {panes.map(({ value, label }) => (
        <button
          key={value}
          type="button"
          aria-current={value === pane || undefined}
          onClick={() => onPane(value === pane ? "part" : value)}
        >
          <span>{label}</span>
        </button>
      ))}
    </nav>
  );
}
