/** What one connection, and one person, may use. */
export interface RealtimeLimits {
  /** Largest frame in bytes; a larger one ends the connection (RFC 6455 close code 1009). */
  readonly frameBytes: number;
  /** Messages a second in the long run, and how many at once. */
  readonly messagesPerSecond: number;
  readonly messageBurst: number;
  /** Bytes a second in the long run, and how many at once. */
  readonly bytesPerSecond: number;
  readonly byteBurst: number;
  /** Largest presence message. A client repeats what others sent, so it grows with the room. */
  readonly presenceBytes: number;
  /** What may wait unsent for a reader that is too slow. */
  readonly waitingBytes: number;
  readonly socketsPerPerson: number;
  /** Different pieces that one person has open at once. */
  readonly roomsPerPerson: number;
  readonly socketsPerRoom: number;
  /** How many from one network address may be turned away, a second in the long run and at once. */
  readonly failedKnocksPerSecond: number;
  readonly failedKnockBurst: number;
  /** A connection that does not answer for this long is dead. */
  readonly heartbeatMs: number;
  /** How often sessions, memberships and the heads of the logs are looked up, whatever notifications say. */
  readonly recheckMs: number;
  /** How often the other nodes are told who is here, and how long they are believed who say no more. */
  readonly peopleRepeatMs: number;
  readonly peopleExpireMs: number;
  /** How long an empty room stays loaded. */
  readonly idleRoomMs: number;
  /** How long reading a session and a membership may take at the door. */
  readonly admissionMs: number;
}

export const defaultLimits: RealtimeLimits = {
  frameBytes: 1024 * 1024,
  messagesPerSecond: 40,
  messageBurst: 200,
  bytesPerSecond: 128 * 1024,
  byteBurst: 4 * 1024 * 1024,
  presenceBytes: 16 * 1024,
  waitingBytes: 8 * 1024 * 1024,
  socketsPerPerson: 32,
  roomsPerPerson: 16,
  socketsPerRoom: 64,
  // A whole school may sit behind one address, with pages open from which everybody has signed out.
  failedKnocksPerSecond: 20,
  failedKnockBurst: 400,
  // y-websocket leaves a server that says nothing for 30 s.
  heartbeatMs: 12_000,
  recheckMs: 15_000,
  // A client forgets whom it has not heard of for 30 s (y-protocols).
  peopleRepeatMs: 10_000,
  peopleExpireMs: 30_000,
  idleRoomMs: 20_000,
  admissionMs: 10_000,
};
