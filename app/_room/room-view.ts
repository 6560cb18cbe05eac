import type { Breath } from "@/lib/room/breath";
import type { Comment } from "@/lib/room/comment";
import type { Cue } from "@/lib/room/cue";
import type { PencilledCut } from "@/lib/room/pencilled-cut";
import type { RoomRole } from "@/lib/room/room-member";

export type RoomStatus =
  /** Not reached yet. */
  | "connecting"
  /** What is written is stored and seen at once. */
  | "live"
  /** Not reached now; tried again and again. What is written stays in this browser. */
  | "offline"
  /** The server lets this person in no more, or not with this page. */
  | "refused";

/** Someone who has the piece open. */
export interface PresentPerson {
  readonly userId: string;
  readonly name: string;
  readonly role: RoomRole;
  /** The bar they look at; null when they did not say. */
  readonly barIndex: number | null;
  /** The comment they are writing in. */
  readonly editing: string | null;
  readonly isMe: boolean;
}

/**
 * Something written here that the server did not take, or that a room which was started anew no longer has. It is
 * kept until its writer lets it go.
 */
export interface KeptWriting {
  readonly key: string;
  readonly kind: "comment" | "breath" | "resolution" | "pencilled cut" | "cue";
  /** The words, to be copied; null when there are none. */
  readonly text: string | null;
  /** Why it was not taken. */
  readonly sentence: string;
}

/** A room as a screen shows it. */
export interface RoomView {
  readonly comments: readonly Comment[];
  readonly breaths: readonly Breath[];
  readonly cues: readonly Cue[];
  /** Cuts that a player pencilled in. One with several versions is disputed. */
  readonly pencilledCuts: readonly PencilledCut[];
  /** Pencilled cuts that were rubbed out and can be brought back. */
  readonly rubbedOut: readonly PencilledCut[];
  readonly people: readonly PresentPerson[];
  readonly status: RoomStatus;
  /** How many writings are not stored yet. */
  readonly unsavedCount: number;
  /** Which records these are: "comments 3f…", map and key. */
  readonly unsavedKeys: ReadonlySet<string>;
  readonly kept: readonly KeptWriting[];
}

export const emptyRoomView: RoomView = {
  comments: [],
  breaths: [],
  cues: [],
  pencilledCuts: [],
  rubbedOut: [],
  people: [],
  status: "connecting",
  unsavedCount: 0,
  unsavedKeys: new Set(),
  kept: [],
};
