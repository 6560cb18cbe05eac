import { Counter, collectDefaultMetrics, Gauge, Histogram, Registry } from "prom-client";
import type { CloseReason } from "./close-codes";
import type { RoomMetrics } from "./room-metrics";

/** What is measured, and how a collector reads it. */
export interface Measurements {
  readonly metrics: RoomMetrics;
  readonly contentType: string;
  /** Everything in the Prometheus text format. */
  text(): Promise<string>;
}

/** Seconds. An append takes a few milliseconds on a quiet disk; above ten it was given up. */
const storingBuckets = [0.002, 0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10];

/** Frames that were not even read: the socket was closed for them. */
const unreadFrames: ReadonlySet<CloseReason> = new Set(["unreadableMessage", "tooFast"]);

/** Measures the rooms of this process, and the process itself. */
export function measureRooms(): Measurements {
  const registry = new Registry();
  const registers = [registry];
  collectDefaultMetrics({ register: registry });
  const counter = <L extends string>(name: string, help: string, ...labelNames: L[]) =>
    new Counter({ name: `colla_${name}`, help, labelNames, registers });
  const stored = counter("room_updates_stored_total", "Updates appended to the logs of rooms.");
  const refused = counter("room_frames_refused_total", "What a client sent and was not taken.", "reason");
  const closed = counter("room_sockets_closed_total", "Sockets that the server ended.", "reason");
  const turnedAway = counter("room_turned_away_total", "Who was not let in at the door.", "reason");
  const snapshots = counter("room_snapshots_total", "Snapshots made from the logs of rooms.");
  const storing = new Histogram({
    name: "colla_room_storing_seconds",
    help: "From receiving an update to having it in the log.",
    buckets: storingBuckets,
    registers,
  });
  let count = () => ({ sockets: 0, rooms: 0 });
  const gauge = (name: "sockets" | "rooms", help: string) =>
    new Gauge({
      name: `colla_room_${name}`,
      help,
      registers,
      collect() {
        this.set(count()[name]);
      },
    });
  gauge("sockets", "Open sockets.");
  gauge("rooms", "Rooms that are loaded.");
  const metrics: RoomMetrics = {
    stored: (seconds) => {
      stored.inc();
      storing.observe(seconds);
    },
    refused: (reason) => refused.inc({ reason }),
    closed: (reason) => {
      closed.inc({ reason });
      if (unreadFrames.has(reason)) refused.inc({ reason });
    },
    turnedAway: (reason) => turnedAway.inc({ reason }),
    snapshotTaken: () => snapshots.inc(),
    watch: (counting) => {
      count = counting;
    },
  };
  return { metrics, contentType: registry.contentType, text: () => registry.metrics() };
}
