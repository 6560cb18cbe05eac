"use client";

import { ScreenParts } from "../../_components/screen-parts";

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
    <ScreenParts parts={panes} shown={pane} onPick={(value) => onPane(value === pane ? "part" : value)} />
  );
}
