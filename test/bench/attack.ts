import { fork } from "node:child_process";
import { once } from "node:events";
import WebSocket from "ws";
import { type BadFrame, badFrames, floodFrame, oversizeFrame, readersFrame } from "./bad-frames";
import { badKnocks, type Door, hangUpAtTheDoor, hangUpHalfway, knock } from "./bad-knocks";
import type { FurnishedRoom, RoomGuest } from "./room-people";
import { origin } from "./room-servers";

/** What came of everything that was sent of one kind. */
export interface KindCount {
  sent: number;
  connections: number;
  /** Close codes, HTTP statuses, or "stayed", and how often each came. */
  readonly answers: Map<string, number>;
}

export interface Attack {
  /** Rooms lie at `<address>/<pieceId>`. */
  readonly address: string;
  readonly rooms: readonly FurnishedRoom[];
  /** A ticket for the first room that was used before. */
  readonly usedTicket: string;
  /** Bad frames and handshakes in all. */
  readonly total: number;
  /** Whatever is not sent by then is not sent. */
  readonly longestMs: number;
}

/** One thing to do to the server: what it is called, how much of the whole it is, and how it is done. */
interface Move {
  readonly kind: string;
  /** Of a thousand. */
  readonly share: number;
  /** How many one turn sends. */
  readonly batch: number;
  readonly act: (attack: Attack, turn: number) => Promise<string>;
}

const framesAtOnce = 50;

const moves: readonly Move[] = [
  ...Object.entries(badFrames).map(([kind, frame]) => move(kind, frame, kind.includes("too large") ? 5 : 35)),
  move("whatever a reader writes", readersFrame, 35, 3),
  move("frame over the limit", oversizeFrame, 1, 0, 1),
  move("flood of good frames", floodFrame, 35, 0, 400),
  ...Object.entries(badKnocks).map(([kind, say]) => ({
    kind: `handshake: ${kind}`,
    share: 8,
    batch: 1,
    act: (attack: Attack, turn: number) =>
      knock(portOf(attack), strangerAddress(turn), say(doorOf(attack, turn))),
  })),
  {
    kind: "handshake: half of it",
    share: 8,
    batch: 1,
    act: (attack, turn) => hangUpHalfway(portOf(attack), strangerAddress(turn), doorOf(attack, turn)),
  },
  {
    kind: "handshake: gone before the answer",
    share: 8,
    batch: 1,
    act: (attack, turn) => hangUpAtTheDoor(portOf(attack), strangerAddress(turn), doorOf(attack, turn)),
  },
  {
    kind: "handshake: many from one address",
    share: 8,
    batch: 1,
    act: (attack, turn) =>
      knock(portOf(attack), "127.0.0.9", badKnocks["no cookie"]?.(doorOf(attack, turn)) ?? ""),
  },
];

function move(kind: string, frame: BadFrame, share: number, sender = 0, batch = framesAtOnce): Move {
  return { kind, share, batch, act: (attack, turn) => sendFrames(attack, turn, frame, sender, batch) };
}

const attackersAtOnce = 6;

/** The variable of the environment that makes a benchmark's program attack instead of measuring. */
const orders = "COLLA_BENCH_ATTACK";

/**
 * Attacks from a process of its own, so that making bad frames takes no time from whoever is watched meanwhile.
 *
 * @param program the benchmark's own program, which calls `attackIfAsked`.
 * @returns the counts of each kind.
 */
export async function attackFromOutside(program: string, attack: Attack): Promise<Map<string, KindCount>> {
  const env = { ...process.env, [orders]: JSON.stringify(attack) };
  const child = fork(program, { env, serialization: "advanced" });
  const ended = new AbortController();
  child.once("exit", () => ended.abort(new Error("the attackers ended without a word")));
  const [counts] = (await once(child, "message", { signal: ended.signal })) as [Map<string, KindCount>];
  return counts;
}

/** Attacks when this process was forked for it. */
export async function attackIfAsked(): Promise<void> {
  const attack = process.env[orders];
  if (attack === undefined || !process.send) return;
  process.send(await runAttack(JSON.parse(attack) as Attack), () => process.exit(0));
}

/** Does everything of the list, mixed, until all is sent or the time is over. */
async function runAttack(attack: Attack): Promise<Map<string, KindCount>> {
  const counts = new Map(moves.map(({ kind }) => [kind, newCount()]));
  const shares = moves.reduce((sum, { share }) => sum + share, 0);
  const turns = moves.flatMap((one) => {
    const wanted = (attack.total * one.share) / shares;
    return Array.from({ length: Math.ceil(wanted / one.batch) }, () => one);
  });
  shuffle(turns);
  const end = performance.now() + attack.longestMs;
  let next = 0;
  const attacker = async () => {
    for (let turn = next++; turn < turns.length && performance.now() < end; turn = next++) {
      const one = turns[turn];
      const count = one && counts.get(one.kind);
      if (!one || !count) continue;
      const answer = await one.act(attack, turn);
      count.sent += one.batch;
      count.connections += 1;
      count.answers.set(answer, (count.answers.get(answer) ?? 0) + 1);
    }
  };
  await Promise.all(Array.from({ length: attackersAtOnce }, attacker));
  return counts;
}

function newCount(): KindCount {
  return { sent: 0, connections: 0, answers: new Map() };
}

function shuffle<T>(things: T[]): void {
  for (let index = things.length - 1; index > 0; index -= 1) {
    const other = Math.floor(Math.random() * (index + 1));
    [things[index], things[other]] = [things[other] as T, things[index] as T];
  }
}

/** Bad knocks come from so many addresses that each is heard out. Linux has all of 127/8 on loopback. */
function strangerAddress(turn: number): string {
  return `127.1.${(turn >> 7) % 250}.${1 + (turn % 250)}`;
}

function portOf({ address }: Attack): number {
  return Number(new URL(address).port);
}

function roomOf({ rooms }: Attack, turn: number): FurnishedRoom {
  return rooms[turn % rooms.length] as FurnishedRoom;
}

function doorOf(attack: Attack, turn: number): Door {
  const { pieceId, guests } = roomOf(attack, turn);
  const foreign = roomOf(attack, turn + 1);
  return {
    port: portOf(attack),
    origin,
    pieceId: attack.rooms.length > 0 ? pieceId : "",
    foreignPieceId: foreign.pieceId,
    guest: guests[0] as RoomGuest,
    usedTicket: attack.usedTicket,
  };
}

const signsOfLife = 4;

/** Comes in as a member, sends frames all at once, and waits until they are read or the door is shown. */
async function sendFrames(attack: Attack, turn: number, frame: BadFrame, sender: number, batch: number) {
  const { pieceId, guests } = roomOf(attack, turn);
  const [guest, victim] = [guests[sender] as RoomGuest, guests[sender === 1 ? 0 : 1] as RoomGuest];
  const socket = new WebSocket(`${attack.address}/${pieceId}`, {
    headers: { cookie: guest.cookie, origin },
    perMessageDeflate: false,
    localAddress: "127.0.0.2",
  });
  return new Promise<string>((resolve) => {
    const finish = (answer: string) => {
      socket.terminate();
      resolve(answer);
    };
    socket.on("error", (error) => finish(/\d{3}$/.exec(error.message)?.[0] ?? "error"));
    socket.on("close", (code) => finish(String(code)));
    // A frame is taken a little after it is read: whether the socket stays shows after some signs of life.
    let pongs = 0;
    socket.on("pong", () => {
      pongs += 1;
      if (pongs < signsOfLife) socket.ping();
      else finish("stayed");
    });
    socket.once("message", () => {
      for (let index = 0; index < batch; index += 1) socket.send(frame(guest, victim));
      socket.ping();
    });
  });
}
