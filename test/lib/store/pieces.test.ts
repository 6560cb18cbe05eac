import { createHash } from "node:crypto";
import fc from "fast-check";
import { beforeEach, describe, expect, test } from "vitest";
import { printedTempo } from "@/lib/edition/tempo-terms";
import { rateLimits } from "@/lib/store/auth/rate-limit";
import { cleanLine } from "@/lib/store/clean-text";
import { database } from "@/lib/store/database";
import { attachFullScore } from "@/lib/store/pieces/attach-full-score";
import { createPiece } from "@/lib/store/pieces/create-piece";
import { listPieces } from "@/lib/store/pieces/list-pieces";
import { previewSource } from "@/lib/store/pieces/preview-source";
import { readPiece } from "@/lib/store/pieces/read-piece";
import { readPieceScore } from "@/lib/store/pieces/read-piece-score";
import { readSourceBytes } from "@/lib/store/pieces/read-source-bytes";
import { setLimit } from "@/lib/store/pieces/set-limit";
import { setLongTuttiBars } from "@/lib/store/pieces/set-long-tutti-bars";
import { setPartRoles } from "@/lib/store/pieces/set-part-roles";
import { setTempoSettings } from "@/lib/store/pieces/set-tempo-settings";
import { largestSourceBytes } from "@/lib/store/pieces/source-limits";
import { bringDuo, bringPerson, type Duo, kindOf, openStoreForFile, type Person, valued } from "./duo";
import { duoSource } from "./duo-source";

openStoreForFile();
let person: Person;
beforeEach(async () => {
  person = await bringPerson("Ilse Brandow");
});

const file = (bytes = duoSource(), fileName = "concertino.musicxml") => ({ fileName, bytes });
const rowCounts = async () => [
  await database().piece.count(),
  await database().source.count(),
  await database().sourceBytes.count(),
  await database().member.count(),
];

describe("bringing a piece", () => {
  test("keeps the bytes as they came, guesses the parts, and makes the viewer a player", async () => {
    const { pieceId } = valued(await createPiece(person, { role: "soloist" }, file()));
    const piece = valued(await readPiece(person, pieceId));
    const sha256 = createHash("sha256").update(duoSource()).digest("hex");
    expect(piece).toMatchObject({
      title: "Concertino",
      soloInstrument: "Clarinet in B♭",
      myRole: "soloist",
      settings: printedTempo,
      longTuttiBars: 16,
      members: [{ name: "Ilse Brandow", initial: "I", role: "soloist" }],
      source: { hash: sha256, partRoles: { P1: "solo", P2: "reduction" }, hasFullScore: false },
    });
    const { bytes } = valued(await readSourceBytes(person, pieceId));
    expect(Buffer.from(bytes).equals(Buffer.from(duoSource()))).toBe(true);
    expect(valued(await readPieceScore(person, pieceId)).score.bars).toHaveLength(24);
  });

  test("what the person writes counts before what the file says", async () => {
    const about = { role: "pianist", title: "  My\n Concertino ", instrument: "Oboe" };
    const { pieceId } = valued(await createPiece(person, about, file()));
    expect(valued(await readPiece(person, pieceId))).toMatchObject({
      title: "My Concertino",
      soloInstrument: "Oboe",
    });
  });

  test.each([
    ["no music", new TextEncoder().encode("Dear colleague,"), "unreadable-source"],
    ["nothing", new Uint8Array(), "unreadable-source"],
    ["half a file", duoSource().slice(0, 900), "unreadable-source"],
    [
      "an entity",
      new TextEncoder().encode('<!DOCTYPE a [<!ENTITY b "c">]><score-partwise>&b;</score-partwise>'),
      "unreadable-source",
    ],
    ["too much", new Uint8Array(largestSourceBytes + 1), "too-large"],
  ])("of %s stores nothing at all", async (_what, bytes, kind) => {
    const before = await rowCounts();
    expect(kindOf(await createPiece(person, { role: "pianist" }, file(bytes)))).toBe(kind);
    expect(kindOf(await createPiece(person, {}, file()))).toBe("invalid-input");
    expect(await rowCounts()).toEqual(before);
  });

  test("when the database refuses a part of it, nothing of it is kept", async () => {
    const before = await rowCounts();
    const nobody = { userId: "nobody" };
    await expect(createPiece(nobody, { role: "pianist" }, file())).rejects.toThrow();
    expect(await rowCounts()).toEqual(before);
  });

  test.each([
    "../../etc/passwd",
    "C:\\Users\\x\\Concertino.mxl",
    "a\u0000b\u0007.musicxml",
    "",
    "x".repeat(5000),
  ])("the file name “%s” becomes a harmless one", async (fileName) => {
    const { pieceId } = valued(await createPiece(person, { role: "pianist" }, file(duoSource(), fileName)));
    const { source } = valued(await readPiece(person, pieceId));
    expect(source.fileName).toMatch(/^[^/\\\p{Cc}]{1,200}$/u);
  });

  test.each([
    "\u0000",
    "\ud83d alone",
    "a\u202eb",
    "\t\n ",
    "<script>alert(1)</script>",
    "e\u0301",
    "\u2028x",
  ])("the title %j is kept as one line of text, or the file’s is", async (title) => {
    const { pieceId } = valued(await createPiece(person, { role: "pianist", title }, file()));
    expect(valued(await readPiece(person, pieceId)).title).toBe(cleanLine(title) || "Concertino");
  });

  test("law: a line has no control, no half character, no turned direction, no second line", () => {
    fc.assert(
      fc.property(fc.string({ unit: "binary" }), fc.string({ unit: "grapheme" }), (some, more) => {
        const line = cleanLine(`${some}\ud800${more}\r\n\u202e`);
        expect(line).not.toMatch(/[\p{Cc}\p{Surrogate}\u202a-\u202e\n]|^\s|\s$| {2}/u);
        expect(cleanLine(line)).toBe(line);
      }),
    );
  });

  test("is counted: a person brings so many an hour", async () => {
    const { most } = rateLimits.uploadByPerson;
    const key = `uploadByPerson:${person.userId}`;
    valued(await createPiece(person, { role: "pianist" }, file()));
    await database().rateWindow.updateMany({ where: { key }, data: { count: most } });
    const before = await rowCounts();
    expect(kindOf(await createPiece(person, { role: "pianist" }, file()))).toBe("rate-limited");
    expect(await rowCounts()).toEqual(before);
    expect(kindOf(await createPiece(await bringPerson("Another"), { role: "pianist" }, file()))).toBe("done");
  });

  test("a preview tells what is in it and stores nothing", async () => {
    const before = await rowCounts();
    const { report: seen } = valued(await previewSource(person, file()));
    expect(seen).toMatchObject({ title: "Concertino", bars: { count: 24 }, tuttis: [{ barCount: 8 }] });
    expect(seen.parts.map(({ role }) => role)).toEqual(["solo", "reduction"]);
    expect(await rowCounts()).toEqual(before);
  });
});

describe("settings", () => {
  let duo: Duo;
  beforeEach(async () => {
    duo = await bringDuo();
  });
  const place = (barIndex: number, offset = "0") => ({ barIndex, offset });

  test("are the players' to change", async () => {
    const all = [
      [setLimit, { limitSeconds: 540 }],
      [setLongTuttiBars, { longTuttiBars: 8 }],
      [setPartRoles, { partRoles: { P2: "orchestra" } }],
      [setTempoSettings, { settings: { ...printedTempo, fermataFactor: 2 } }],
    ] as const;
    for (const [set, input] of all) {
      expect(kindOf(await set(duo.coach, duo.pieceId, input))).toBe("not-allowed");
      expect(kindOf(await set(duo.reader, duo.pieceId, input))).toBe("not-allowed");
      expect(kindOf(await set(duo.stranger, duo.pieceId, input))).toBe("not-found");
      expect(kindOf(await set(duo.soloist, duo.pieceId, input))).toBe("done");
    }
    expect(valued(await readPiece(duo.reader, duo.pieceId))).toMatchObject({
      limitSeconds: 540,
      longTuttiBars: 8,
      settings: { fermataFactor: 2 },
      source: { partRoles: { P1: "solo", P2: "orchestra" } },
    });
  });

  test.each([
    ["a tempo outside", { tempi: [{ at: place(99), quartersPerMinute: 60 }] }],
    ["a tempo behind the end of its bar", { tempi: [{ at: place(3, "5"), quartersPerMinute: 60 }] }],
    ["two tempi in one place", { tempi: [1, 2].map((n) => ({ at: place(3), quartersPerMinute: 60 * n })) }],
    ["a timing backwards", { timings: [{ from: place(5), to: place(2), seconds: 9 }] }],
    [
      "timings that overlap",
      { timings: [0, 3].map((bar) => ({ from: place(bar), to: place(bar + 5), seconds: 9 })) },
    ],
    ["no speed", { tempi: [{ at: place(3), quartersPerMinute: 0 }] }],
    ["no number", { fermataFactor: Number.NaN }],
  ])("%s is refused with a sentence", async (_what, change) => {
    const settings = { ...printedTempo, ...change };
    const result = await setTempoSettings(duo.pianist, duo.pieceId, { settings });
    expect(result).toMatchObject({ ok: false, problem: { kind: "invalid-input" } });
  });

  test("two soloists, or a part that is not there, are refused", async () => {
    for (const partRoles of [{ P2: "solo" }, { P9: "solo" }, { P1: "conductor" }])
      expect(kindOf(await setPartRoles(duo.pianist, duo.pieceId, { partRoles }))).toBe("invalid-input");
  });

  test("a full score is laid beside the piece once, whoever sends it again", async () => {
    const score = file(duoSource({ title: "Full" }), "full.musicxml");
    valued(await attachFullScore(duo.pianist, duo.pieceId, score));
    valued(await attachFullScore(duo.soloist, duo.pieceId, score));
    expect(kindOf(await attachFullScore(duo.stranger, duo.pieceId, score))).toBe("not-found");
    expect(valued(await readPiece(duo.coach, duo.pieceId)).source.hasFullScore).toBe(true);
    expect(valued(await readSourceBytes(duo.coach, duo.pieceId, "full-score")).fileName).toBe(
      "full.musicxml",
    );
    expect(await database().source.count({ where: { pieceId: duo.pieceId } })).toBe(2);
  });

  test("another's source is not found by its hash", async () => {
    const other = await bringDuo({ title: "Another" });
    const found = await readSourceBytes(duo.pianist, duo.pieceId, { hash: other.sourceHash });
    expect(kindOf(found)).toBe("not-found");
  });

  test("a list has one's own pieces only", async () => {
    expect((await listPieces(duo.reader)).map(({ id, myRole }) => [id, myRole])).toEqual([
      [duo.pieceId, "reader"],
    ]);
    expect(await listPieces(duo.stranger)).toEqual([]);
  });
});
