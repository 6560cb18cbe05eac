import { expect, it } from "vitest";
import { abbreviatePart } from "@/lib/engrave/normalise/abbreviate-part";

it.each([
  ["Violino", null, "Vl."],
  ["Violoncello", null, "Vc."],
  ["Viola", null, "Va."],
  ["Contrabass", null, "Cb."],
  ["Clarinet in B♭", null, "Cl."],
  ["Trombone", null, "Tbn."],
  ["Corno", null, "Hn."],
  ["Cor anglais", null, "E. H."],
  ["Pianoforte", null, "Pf."],
  ["Klavier", null, "Pf."],
  ["Singstimme", null, "V."],
  ["Alto", null, "Va."],
  ["Soprano", null, "S."],
  ["Ondes", null, "Ondes"],
  ["Theremin", null, "Ther."],
  ["Violin", "Vln.", "Vln."],
  ["Violin", "  ", "Vl."],
  ["", null, ""],
])("%j, printed %j, becomes %j", (name, printed, short) => {
  expect(abbreviatePart(name, printed)).toBe(short);
});
