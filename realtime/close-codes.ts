/**
 * Why the server closes a socket (RFC 6455: 4000–4999 are free for private use). 44xx: coming back as you are
 * changes nothing, and the client waits for its person; 45xx: come back later. y-websocket keeps to this.
 */
export const closeCodes = {
  goingAway: 1001,
  unreadableMessage: 4400,
  signedOut: 4401,
  notAMember: 4403,
  otherEpoch: 4409,
  refused: 4422,
  roomUnavailable: 4503,
  tooSlow: 4508,
  roomCrowded: 4513,
  tooFast: 4529,
} as const;

export type CloseReason = keyof typeof closeCodes;

/** What stands in the close frame, for whoever reads it there. */
export const closeWords: Readonly<Record<CloseReason, string>> = {
  goingAway: "the server stops",
  unreadableMessage: "a message could not be read",
  signedOut: "signed out",
  notAMember: "no longer a member of this piece",
  otherEpoch: "the room was started anew",
  refused: "a change was refused",
  roomUnavailable: "the room cannot be loaded or stored just now",
  tooSlow: "too much is waiting to be received",
  roomCrowded: "too many people are in this room",
  tooFast: "too many messages",
};
