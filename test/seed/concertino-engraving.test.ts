import { VerovioToolkit } from "verovio/esm";
import createVerovioModule from "verovio/wasm";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { writeFullScore } from "@/seed/concertino/write-full-score";
import { writeSoloAndReduction } from "@/seed/concertino/write-solo-and-reduction";
import { composition } from "./sounding";

describe("the engraver", () => {
  const said = {
    log: vi.spyOn(console, "log"),
    warn: vi.spyOn(console, "warn"),
    error: vi.spyOn(console, "error"),
  };
  const complaints = () => Object.values(said).flatMap((spy) => spy.mock.calls);
  let toolkit: VerovioToolkit;

  beforeAll(async () => {
    toolkit = new VerovioToolkit(await createVerovioModule());
    toolkit.setOptions({ breaks: "none", footer: "none", header: "none" });
  });
  afterAll(() => vi.restoreAllMocks());

  it("would be heard complaining", () => {
    const open = '<direction><direction-type><wedge type="crescendo"/></direction-type></direction>';
    const note = "<note><rest/><duration>4</duration><type>whole</type></note>";
    const parts = '<part-list><score-part id="P1"><part-name>A</part-name></score-part></part-list>';
    const bar = `<measure number="1"><attributes><divisions>1</divisions></attributes>${open}${note}</measure>`;
    toolkit.loadData(`<score-partwise version="4.0">${parts}<part id="P1">${bar}</part></score-partwise>`);
    expect(complaints()).not.toEqual([]);
  });

  it.each([
    ["solo and reduction", writeSoloAndReduction],
    ["full score", writeFullScore],
  ])(
    "loads the %s without a warning and finds every bar",
    (_, write) => {
      for (const spy of Object.values(said)) spy.mockClear();
      expect(toolkit.loadData(write())).toBeTruthy();
      const svg = toolkit.renderToSVG(1);
      expect(complaints()).toEqual([]);
      expect(svg.match(/class="measure"/g)).toHaveLength(composition.bars.length);
    },
    120_000,
  );
});
