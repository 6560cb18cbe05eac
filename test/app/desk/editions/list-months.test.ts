import { expect, test } from "vitest";
import { listMonths } from "@/app/(desk)/pieces/[pieceId]/editions/_components/list-months";

test.each([
  ["from the first day to today", ["2026-10-30"], "2026-12-02", ["2026-12", "2026-11", "2026-10"]],
  ["over the turn of a year", ["2025-12-31"], "2026-01-01", ["2026-01", "2025-12"]],
  [
    "as far as what is planned",
    ["2026-05-01", "2026-07-09"],
    "2026-06-01",
    ["2026-07", "2026-06", "2026-05"],
  ],
  ["nothing yet", [], "2026-06-01", ["2026-06"]],
])("%s", (_name, days, today, expected) => expect(listMonths(days, today)).toEqual(expected));

test("not without end", () => expect(listMonths(["1990-01-01"], "2026-06-01")).toHaveLength(36));
