import type { CloseReason } from "./close-codes";
import type { DoorProblem } from "./door";

/** What the room server counts about itself. Names and texts of people are no part of it. */
export interface RoomMetrics {
  /** An update is in the log, so long after it was received. */
  stored(seconds: number): void;
  /** Something of a client was not taken; `reason` is a kind of `RoomProblem`. */
  refused(reason: string): void;
  /** The server ended a socket. */
  closed(reason: CloseReason): void;
  turnedAway(reason: DoorProblem): void;
  snapshotTaken(): void;
  /** Says how many sockets and rooms are open, whenever somebody asks. */
  watch(count: () => { readonly sockets: number; readonly rooms: number }): void;
}

/** For rooms that nobody measures. */
export const noMetrics: RoomMetrics = {
  stored: () => {},
  refused: () => {},
  closed: () => {},
  turnedAway: () => {},
  snapshotTaken: () => {},
  watch: () => {},
};
