import { beforeEach, describe, expect, test } from "vitest";
import { printedTempo } from "@/lib/edition/tempo-terms";
import { rateLimits } from "@/lib/store/auth/rate-limit";
import { runAt } from "@/lib/store/clock";
import { database } from "@/lib/store/database";
import { approveEdition } from "@/lib/store/editions/approve-edition";
import { readWorkingEdition } from "@/lib/store/editions/read-working-edition";
import { saveEngraving } from "@/lib/store/engravings/save-engraving";
import { logPerformance } from "@/lib/store/performances/log-performance";
import { removeMember } from "@/lib/store/pieces/remove-member";
import { setTempoSettings } from "@/lib/store/pieces/set-tempo-settings";
import { lastDayOf } from "@/lib/store/readers/choose-expiry";
import { listReaderLinks } from "@/lib/store/readers/list-reader-links";
import { makeReaderLink } from "@/lib/store/readers/make-reader-link";
import { openReaderLink, readByLink, readPictureByLink } from "@/lib/store/readers/open-reader-link";
import { revokeReaderLink } from "@/lib/store/readers/revoke-reader-link";
import { readCover, readNewestEdition, readReading } from "@/lib/store/readings/read-reading";
import { bringDuo, type Duo, kindOf, openStoreForFile, valued } from "../duo";

openStoreForFile();
let duo: Duo;
beforeEach(async () => {
  await database().rateWindow.deleteMany();
  duo = await bringDuo();
  await freeze();
});

const address = "192.0.2.9";
const toTurner = { editionNumber: 1, forWhom: "the page turner" };

async function freeze(): Promise<void> {
  const { hash } = valued(await readWorkingEdition(duo.pianist, duo.pieceId));
  for (const player of [duo.pianist, duo.soloist])
    valued(await approveEdition(player, duo.pieceId, { hash }));
}

async function freezeAnother(): Promise<void> {
  valued(
    await setTempoSettings(duo.pianist, duo.pieceId, { settings: { ...printedTempo, fermataFactor: 2 } }),
  );
  await freeze();
}

/** Asks until the pages are made. */
async function readingBy(token: string, reader = "pianist") {
  for (;;) {
    const asked = valued(await readByLink(token, address, { for: reader }));
    if (asked.state === "ready") return asked.reading;
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
}

describe("a reader's link", () => {
  test("opens one edition's cover, pages and pictures, and is stored without its token", async () => {
    const { token, id } = valued(await makeReaderLink(duo.pianist, duo.pieceId, toTurner));
    expect(valued(await openReaderLink(token, address))).toMatchObject({
      ...{ title: "Concertino", editionNumber: 1, readers: ["pianist", "soloist"] },
    });
    const stored = await database().readerLink.findUniqueOrThrow({ where: { id } });
    expect(JSON.stringify(stored)).not.toContain(token);
    expect(stored.openedAt).not.toBeNull();
    for (const reader of ["pianist", "soloist"]) {
      const { key, pages } = await readingBy(token, reader);
      const systems = pages.flatMap((page) => page.systems);
      expect(systems.length).toBeGreaterThan(0);
      for (const { index } of systems) valued(await readPictureByLink(token, address, { key, index }));
      expect(kindOf(await readPictureByLink(token, address, { key, index: 999 }))).toBe("not-found");
    }
    expect(kindOf(await readByLink(token, address, { for: "conductor" }))).toBe("invalid-input");
  });

  test("opens nothing else of the piece: no other edition's pictures, and none of the desk's", async () => {
    await freezeAnother();
    const first = valued(await makeReaderLink(duo.pianist, duo.pieceId, toTurner));
    const second = valued(await makeReaderLink(duo.pianist, duo.pieceId, { ...toTurner, editionNumber: 2 }));
    const [one, two] = [await readingBy(first.token), await readingBy(second.token)];
    expect(one.key).not.toBe(two.key);
    await saveEngraving(duo.pieceId, "desk", {
      rendererVersion: "test",
      systems: [
        {
          ...{ index: 0, width: 1, height: 1, firstBarIndex: 0, lastBarIndex: 0, bars: [] },
          svg: "<svg/>",
        },
      ],
    });
    const look = (token: string, key: string) => readPictureByLink(token, address, { key, index: 0 });
    valued(await look(first.token, one.key));
    valued(await look(second.token, two.key));
    for (const [token, key] of [
      [first.token, two.key],
      [second.token, one.key],
      [first.token, "desk"],
    ] as const)
      expect(kindOf(await look(token, key))).toBe("not-found");
  });

  test("opens nothing once it is taken back or has run out, or while its piece is deleted", async () => {
    const made = valued(await makeReaderLink(duo.soloist, duo.pieceId, { ...toTurner, lasting: "1 day" }));
    const { token } = made;
    const { key } = await readingBy(token);
    const tryAll = async () => [
      kindOf(await openReaderLink(token, address)),
      kindOf(await readByLink(token, address, {})),
      kindOf(await readPictureByLink(token, address, { key, index: 0 })),
    ];
    const [opened, closed] = [Array(3).fill("done"), Array(3).fill("not-found")];
    expect(await tryAll()).toEqual(opened);
    expect(await runAt(new Date(made.expiresAt.getTime() - 1000), tryAll)).toEqual(opened);
    expect(await runAt(made.expiresAt, tryAll)).toEqual(closed);
    const where = { id: duo.pieceId };
    await database().piece.update({ where, data: { deletedAt: new Date() } });
    expect(await tryAll()).toEqual(closed);
    await database().piece.update({ where, data: { deletedAt: null } });
    expect(await tryAll()).toEqual(opened);
    valued(await revokeReaderLink(duo.pianist, duo.pieceId, { readerLinkId: made.id }));
    expect(await tryAll()).toEqual(closed);
    expect(kindOf(await revokeReaderLink(duo.pianist, duo.pieceId, { readerLinkId: made.id }))).toBe(
      "not-found",
    );
  });

  test("is for players to make, see and take back, of editions there are", async () => {
    const { pieceId, pianist, coach, reader, stranger } = duo;
    const made = valued(await makeReaderLink(pianist, pieceId, toTurner));
    for (const [person, kind] of [
      [coach, "not-allowed"],
      [reader, "not-allowed"],
      [stranger, "not-found"],
    ] as const) {
      expect(kindOf(await makeReaderLink(person, pieceId, toTurner))).toBe(kind);
      expect(kindOf(await listReaderLinks(person, pieceId))).toBe(kind);
      expect(kindOf(await revokeReaderLink(person, pieceId, { readerLinkId: made.id }))).toBe(kind);
    }
    for (const wrong of [
      { editionNumber: 2 },
      { editionNumber: 0 },
      { forWhom: "  " },
      { lasting: "2 years" },
      { lasting: "2001-01-01" },
      { lasting: "2999-01-01" },
    ])
      expect(kindOf(await makeReaderLink(pianist, pieceId, { ...toTurner, ...wrong }))).toBe("invalid-input");
    const other = await bringDuo();
    expect(kindOf(await revokeReaderLink(other.pianist, other.pieceId, { readerLinkId: made.id }))).toBe(
      "not-found",
    );
    expect(valued(await listReaderLinks(duo.soloist, pieceId)).links).toMatchObject([
      { forWhom: "the page turner", editionNumber: 1, madeBy: "Ilse Brandow", openedAt: null },
    ]);
  });

  test("lasts a week beyond the next performance when nothing is said, else 30 days", async () => {
    const at = new Date("2026-03-01T09:00:00Z");
    const make = () => runAt(at, () => makeReaderLink(duo.pianist, duo.pieceId, toTurner));
    const lastDay = async () => lastDayOf(valued(await make()).expiresAt);
    expect(await lastDay()).toBe("2026-03-31");
    for (const on of ["2026-02-20", "2026-05-02", "2026-03-14"])
      valued(
        await logPerformance(duo.pianist, duo.pieceId, {
          ...{ kind: "jury", name: "Jury", on, editionNumber: 1 },
        }),
      );
    expect(await lastDay()).toBe("2026-03-21");
    const listed = await runAt(at, () => listReaderLinks(duo.pianist, duo.pieceId));
    expect(valued(listed).suggestedLastDay).toBe("2026-03-21");
  });

  test("that is guessed is refused after sixty tries, and then a right one from there too", async () => {
    const { token } = valued(await makeReaderLink(duo.pianist, duo.pieceId, toTurner));
    const guess = () => openReaderLink("x".repeat(43), address);
    const { most } = rateLimits.wrongReaderLinkFromAddress;
    for (let tries = 0; tries < most; tries += 1) expect(kindOf(await guess())).toBe("not-found");
    expect(kindOf(await guess())).toBe("rate-limited");
    expect(kindOf(await openReaderLink(token, address))).toBe("rate-limited");
    expect(kindOf(await openReaderLink(token, "192.0.2.10"))).toBe("done");
    const later = new Date(Date.now() + 16 * 60 * 1000);
    expect(kindOf(await runAt(later, () => openReaderLink(token, address)))).toBe("done");
  });

  test("that works is opened as often as a page asks for pictures", async () => {
    const { token } = valued(await makeReaderLink(duo.pianist, duo.pieceId, toTurner));
    for (let tries = 0; tries < 70; tries += 1) valued(await openReaderLink(token, address));
    expect(await database().rateWindow.count({ where: { key: { startsWith: "wrongReaderLink" } } })).toBe(0);
  });
});

describe("reading as a member", () => {
  test("everybody who belongs to the piece reads; the soloist's own part first", async () => {
    const { pieceId, pianist, soloist, coach, reader, stranger } = duo;
    for (const [person, mine] of [
      [pianist, "pianist"],
      [soloist, "soloist"],
      [coach, "pianist"],
      [reader, "pianist"],
    ] as const) {
      expect(valued(await readCover(person, pieceId, "1"))).toMatchObject({ mine, editionNumber: 1 });
      expect(valued(await readNewestEdition(person, pieceId))).toEqual({ number: 1, for: mine });
      valued(await readReading(person, pieceId, { number: "1", for: mine }));
    }
    for (const ask of [
      readCover(stranger, pieceId, "1"),
      readNewestEdition(stranger, pieceId),
      readReading(stranger, pieceId, { number: 1 }),
      readCover(pianist, pieceId, "2"),
      readCover(pianist, pieceId, "one"),
      readReading(pianist, pieceId, { number: 2 }),
    ])
      expect(kindOf<unknown>(await ask)).toBe("not-found");
    valued(await removeMember(pianist, pieceId, { userId: coach.userId }));
    expect(kindOf(await readCover(coach, pieceId, "1"))).toBe("not-found");
  });

  test("pages that were made are kept: asked for again they are the same, and nothing is engraved", async () => {
    const { token } = valued(await makeReaderLink(duo.pianist, duo.pieceId, toTurner));
    const reading = await readingBy(token);
    const before = await database().engraving.count({ where: { pieceId: duo.pieceId } });
    const again = valued(await readReading(duo.pianist, duo.pieceId, { number: 1, for: "pianist" }));
    expect(again).toEqual({ state: "ready", reading });
    expect(await database().engraving.count({ where: { pieceId: duo.pieceId } })).toBe(before);
    await freezeAnother();
    expect(valued(await readNewestEdition(duo.reader, duo.pieceId)).number).toBe(2);
  });
});
