import * as Y from "yjs";
import { type RoomMapName, roomMapNames } from "../room-keys";

/** One value that an update writes. */
export interface Writing {
  readonly id: string;
  /** The writing that its writer saw at this place; null when none. */
  readonly over: string | null;
  /** Undefined where its writer's program had forgotten it before it was sent. */
  readonly value: unknown;
}

/** What an update writes at one place. */
export interface WritingsAt {
  readonly map: RoomMapName;
  readonly key: string;
  readonly writings: readonly Writing[];
  /** Those that lead up to what stands now, in order. All others were overtaken by it. */
  readonly standing: readonly Writing[];
}

/**
 * Takes updates into a document one by one and tells what each of them wrote, also where it was overtaken at once.
 * To be used inside a transaction of the document, one or several: at its end, Yjs forgets what does not stand.
 */
export class WritingsReader {
  readonly #doc: Y.Doc;
  readonly #names: ReadonlyMap<unknown, RoomMapName>;
  /** How far each client's structs have been read. */
  readonly #read = new Map<number, number>();

  constructor(doc: Y.Doc) {
    this.#doc = doc;
    this.#names = new Map(roomMapNames.map((name) => [doc.getMap(name) as unknown, name]));
  }

  /** @returns the places in the order in which the update writes there. */
  take(update: Uint8Array): WritingsAt[] {
    Y.applyUpdate(this.#doc, update);
    const clients = [...Y.parseUpdateMeta(update).to.keys()].sort((a, b) => a - b);
    const places = new Map<string, { map: RoomMapName; key: string; writings: Writing[] }>();
    for (const item of clients.flatMap((client) => this.#newItems(client))) {
      const map = this.#names.get(item.parent);
      const key = item.parentSub;
      if (map === undefined || key === null) continue;
      const name = `${map} ${key}`;
      const place = places.get(name) ?? { map, key, writings: [] };
      places.set(name, place);
      place.writings.push(...writingsOf(item));
    }
    return [...places.values()].map((place) => ({ ...place, standing: this.#findStanding(place) }));
  }

  #newItems(client: number): Y.Item[] {
    const structs = this.#doc.store.clients.get(client) ?? [];
    const last = structs.at(-1);
    const [from, end] = [this.#read.get(client) ?? 0, last ? last.id.clock + last.length : 0];
    if (from >= end) return [];
    this.#read.set(client, end);
    const first = Y.findIndexSS(structs, from);
    return structs.slice(first).filter((struct) => struct instanceof Y.Item);
  }

  #findStanding({ map, key, writings }: Omit<WritingsAt, "standing">): Writing[] {
    const item = this.#doc.getMap(map)._map.get(key);
    if (!item || item.deleted) return [];
    const byId = new Map(writings.map((writing) => [writing.id, writing]));
    const line: Writing[] = [];
    let next = byId.get(nameOf(item.lastId));
    while (next) {
      line.unshift(next);
      next = next.over === null ? undefined : byId.get(next.over);
    }
    return line;
  }
}

/** An item is one writing; a merged one is several, each over the one before. */
function writingsOf(item: Y.Item): Writing[] {
  const { client, clock } = item.id;
  const values = item.content instanceof Y.ContentAny ? item.content.arr : [];
  return Array.from({ length: item.length }, (_, index) => ({
    id: nameOf({ client, clock: clock + index }),
    over:
      index > 0
        ? nameOf({ client, clock: clock + index - 1 })
        : item.origin === null
          ? null
          : nameOf(item.origin),
    value: values[index],
  }));
}

function nameOf({ client, clock }: { client: number; clock: number }): string {
  return `${client}:${clock}`;
}
