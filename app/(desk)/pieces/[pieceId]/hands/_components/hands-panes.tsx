"use client";

import paneBar from "../../_components/pane-bar.module.css";

/** What has the room of a narrow screen. */
export type HandsPane = "passage" | "list" | "practice" | "hands";

/** At the foot of a narrow screen: what has the room. */
export function HandsPanes({
  pane,
  count,
  onPane,
}: {
  pane: HandsPane;
  /** Places that are open. */
  count: number;
  onPane: (pane: HandsPane) => void;
}) {
  const panes: readonly { value: HandsPane; label: string }[] = [
    { value: "passage", label: "Passage" },
    { value: "list", label: count > 0 ? `List ${count}` : "List" },
    { value: "practice", label: "Practice" },
    { value: "hands", label: "Hands" },
  ];
  return (
    <nav className={paneBar.bar} aria-label="Parts of this screen">
      {panes.map(({ value, label }) => (
        <button
          key={value}
          type="button"
          aria-current={value === pane || undefined}
          onClick={() => onPane(value)}
        >
          <span>{label}</span>
        </button>
      ))}
    </nav>
  );
}
