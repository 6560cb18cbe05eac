"use client";

import { ScreenParts } from "../../_components/screen-parts";

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
  return <ScreenParts parts={panes} shown={pane} onPick={onPane} />;
}
