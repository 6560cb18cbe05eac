import { expect, test } from "vitest";
import { listEditionsOnIt } from "@/app/(desk)/performances/programme/[programmeId]/_components/editions-on-it";
import type { ProgrammeEntry, ProgrammePerformance } from "@/lib/store/programmes/programme-record";

const played = (pieceId: string, editionNumber: number, isRemoved = false): ProgrammeEntry => ({
  ...{ itemId: `${pieceId} ${editionNumber}`, gapSeconds: 0, kind: "performance", mayLog: true },
  ...{ expected: { seconds: 60, low: 60, high: 60 }, reads: "soloist" },
  performance: { pieceId, editionNumber, isRemoved, pieceTitle: `Piece ${pieceId}` } as ProgrammePerformance,
});

test("each edition that is played is on it once, in order; nothing that was taken off or has no pages here", () => {
  const words = { kind: "words", title: "A song", plannedSeconds: 60, realSeconds: null } as const;
  const entries: ProgrammeEntry[] = [
    played("b", 2),
    { itemId: "w", gapSeconds: 30, ...words },
    played("a", 1),
    { itemId: "x", gapSeconds: 0, kind: "another piece" },
    played("c", 1, true),
    played("b", 2),
    played("b", 1),
  ];
  expect(listEditionsOnIt({ entries }).map(({ pieceId, number }) => `${pieceId} ${number}`)).toEqual([
    ...["b 2", "a 1", "b 1"],
  ]);
  expect(listEditionsOnIt({ entries })[0]).toEqual({
    ...{ pieceId: "b", number: 2, reader: "soloist", title: "Piece b" },
  });
});
