import { describe } from "vitest";
import { writeSoloAndReduction } from "@/seed/concertino/write-solo-and-reduction";
import { checkLaws } from "./laws-of-pieces";

describe("the first ten cuts of the concertino's tuttis are the same", () => {
  checkLaws(new TextEncoder().encode(writeSoloAndReduction()));
});
