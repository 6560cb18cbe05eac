import { beforeAll, describe, expect, test } from "vitest";
import { database } from "@/lib/store/database";
import { approveEdition } from "@/lib/store/editions/approve-edition";
import { readWorkingEdition } from "@/lib/store/editions/read-working-edition";
import { listPageBreaks } from "@/lib/store/page-breaks/list-page-breaks";
import { pinPage } from "@/lib/store/page-breaks/pin-page";
import { unpinPage } from "@/lib/store/page-breaks/unpin-page";
import { bringDuo, bringPerson, type Duo, kindOf, openStoreForFile, valued } from "./duo";

openStoreForFile();
let duo: Duo;
beforeAll(async () => {
  duo = await bringDuo();
  const { hash } = valued(await readWorkingEdition(duo.pianist, duo.pieceId));
  for (const player of [duo.pianist, duo.soloist])
    valued(await approveEdition(player, duo.pieceId, { hash }));
});

const pages = { editionNumber: 1, reader: "pianist", paper: "A4" };
const pinned = async (reader = "pianist", paper = "A4") =>
  valued(await listPageBreaks(duo.soloist, duo.pieceId, { reader, paper, sourceHash: duo.sourceHash })).map(
    ({ barIndex }) => barIndex,
  );

describe("pinned page breaks", () => {
  test("are kept for a reader and a paper, once, and either player may take them off", async () => {
    for (const barIndex of [12, 5, 12])
      valued(await pinPage(duo.pianist, duo.pieceId, { ...pages, barIndex }));
    expect(await pinned()).toEqual([5, 12]);
    expect([await pinned("soloist"), await pinned("pianist", "tablet")]).toEqual([[], []]);
    valued(await unpinPage(duo.soloist, duo.pieceId, { ...pages, barIndex: 12 }));
    expect(await pinned()).toEqual([5]);
  });

  test("stay in the table when they are taken off, and on the trail", async () => {
    const rows = await database().pageBreak.findMany({ where: { pieceId: duo.pieceId, barIndex: 12 } });
    expect(rows.map(({ removedAt, pinnedById }) => [removedAt !== null, pinnedById])).toEqual([
      [true, duo.pianist.userId],
    ]);
    const trail = await database().auditEntry.findMany({
      where: { pieceId: duo.pieceId },
      orderBy: { at: "asc" },
    });
    expect(trail.map(({ what }) => what).filter((what) => what.startsWith("page break"))).toEqual([
      "page break pinned",
      "page break pinned",
      "page break taken off",
    ]);
  });

  test.each([
    ["the first bar, which begins a page anyway", { ...pages, barIndex: 0 }],
    ["a bar that the file has not", { ...pages, barIndex: 5000 }],
    ["an edition that there is not", { ...pages, editionNumber: 7, barIndex: 3 }],
    ["a paper that is none", { ...pages, paper: "A0", barIndex: 3 }],
  ])("refuse %s", async (_, input) => {
    expect(kindOf(await pinPage(duo.pianist, duo.pieceId, input))).toBe("invalid-input");
  });

  test("are nobody else's to set or to see", async () => {
    const stranger = await bringPerson("Stranger");
    expect(kindOf(await pinPage(stranger, duo.pieceId, { ...pages, barIndex: 3 }))).toBe("not-found");
    expect(kindOf(await unpinPage(stranger, duo.pieceId, { ...pages, barIndex: 5 }))).toBe("not-found");
    const asked = { reader: "pianist", paper: "A4", sourceHash: duo.sourceHash };
    expect(kindOf(await listPageBreaks(stranger, duo.pieceId, asked))).toBe("not-found");
  });
});
