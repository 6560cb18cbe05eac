import type { RoomView } from "./room-view";

/** How things stand between this page and the room, in one sentence. */
export function sayRoomStatus({ status, unsavedCount }: Pick<RoomView, "status" | "unsavedCount">): string {
  switch (status) {
    case "live":
      return unsavedCount === 0 ? "Saved." : `Saving ${sayCount(unsavedCount)}.`;
    case "connecting":
      return unsavedCount === 0 ? "Connecting." : `Connecting. ${sayKept(unsavedCount)}`;
    case "offline":
      return unsavedCount === 0 ? "No connection. What you write stays here." : sayKept(unsavedCount);
    case "refused":
      return unsavedCount === 0
        ? "This piece is no longer open to you here. Load the page again."
        : `This piece is no longer open to you here. ${sayCount(unsavedCount)} not sent: copy it before you leave.`;
  }
}

function sayCount(count: number): string {
  return count === 1 ? "1 change" : `${count} changes`;
}

function sayKept(count: number): string {
  return count === 1
    ? "1 change not sent. It stays here and goes when you are back."
    : `${count} changes not sent. They stay here and go when you are back.`;
}
