"use client";

import type { Dispatch } from "react";
import type { Desk } from "@/app/_data/desk/desk";
import { Icon } from "@/app/_ui/icon";
import { Fermata } from "@/app/_ui/music-sign";
import type { Comment } from "@/lib/room/comment";
import { useSeen } from "../_talk/talk-provider";
import type { DeskMove, DeskState, Pane } from "./desk-state";
import styles from "./pane-bar.module.css";
import { openSpanComments } from "./room-marks";
import { useRoomHere } from "./room-provider";

/** At the foot of a narrow screen: leafing through the score, and what else can have the room. */
export function PaneBar({ desk, state, move }: { desk: Desk; state: DeskState; move: Dispatch<DeskMove> }) {
  const { comments, pencilledCuts } = useRoomHere();
  const { unseen } = useSeen();
  const newOn = (kind: Comment["about"]["kind"]) => unseen.filter(({ about }) => about.kind === kind).length;
  const waiting = desk.cuts.filter(({ waitsForMe }) => waitsForMe).length;
  const drawn = desk.cuts.filter(({ state: how }) => how === "open" || how === "agreed").length;
  const next = desk.bars[(state.view?.lastBar ?? -1) + 1]?.label;
  const panes: readonly { pane: Pane; label: string; count: number | null; fresh: number }[] = [
    { pane: "score", label: "Score", count: null, fresh: 0 },
    { pane: "cuts", label: "Cuts", count: drawn + pencilledCuts.length, fresh: newOn("proposal") },
    { pane: "tutti", label: "Tutti", count: desk.tuttis.length, fresh: 0 },
    ...(desk.may.readDiscussion
      ? [
          {
            ...{ pane: "comments" as const, label: "Comments" },
            ...{ count: openSpanComments(comments).length, fresh: newOn("span") },
          },
        ]
      : []),
    { pane: "time", label: "Time", count: null, fresh: 0 },
  ];
  return (
    <nav className={styles.bar} aria-label="Parts of this screen">
      <button type="button" className={styles.leaf} onClick={() => move({ kind: "leaf", direction: -1 })}>
        <span>
          <Icon name="back" /> Back
        </span>
      </button>
      {panes.map(({ pane, label, count, fresh }) => (
        <button
          key={pane}
          type="button"
          aria-current={state.pane === pane || undefined}
          onClick={() => move({ kind: "pane", pane: state.pane === pane ? "score" : pane })}
        >
          <span>
            {label}
            {count !== null && count > 0 && ` ${count}`}
          </span>
          {pane === "cuts" && waiting > 0 ? (
            <small>
              <Fermata /> {waiting === 1 ? "waits for you" : `${waiting} wait`}
            </small>
          ) : (
            fresh > 0 && <small>{fresh} new</small>
          )}
        </button>
      ))}
      <button type="button" className={styles.leaf} onClick={() => move({ kind: "leaf", direction: 1 })}>
        <span>
          {next === undefined ? "On" : `Bar ${next}`} <Icon name="forward" />
        </span>
      </button>
    </nav>
  );
}
