import path from "node:path";
import { describe, expect, it } from "vitest";
import { inspect, openFolder } from "./inspect-command";

const { folder, write } = openFolder();

const oneBar = `<score-partwise version="4.0">
  <part-list><score-part id="P1"><part-name>Oboe</part-name></score-part></part-list>
  <part id="P1"><measure number="1">
    <attributes><divisions>1</divisions><time><beats>4</beats><beat-type>4</beat-type></time></attributes>
    <note><pitch><step>C</step><octave>5</octave></pitch><duration>4</duration><voice>1</voice></note>
  </measure></part>
</score-partwise>`;

describe("npm run -s inspect", () => {
  const file = write("one-bar.musicxml", oneBar);

  it("prints a report for people", () => {
    const { status, stdout, stderr } = inspect(file);
    expect({ status, stderr }).toEqual({ status: 0, stderr: "" });
    expect(stdout).toContain("solo      Oboe, 1 staff, 1 note");
    expect(stdout).toContain("1 (1–1); 4/4; 4 quarters");
  });

  it("prints the same as JSON", () => {
    const { status, stdout } = inspect(file, "--json");
    expect(status).toBe(0);
    expect(JSON.parse(stdout)).toMatchObject({
      bars: { count: 1, quarters: "4" },
      performed: { order: "1" },
    });
  });

  it.each([
    ["a file that is no score", [write("letter.txt", "Dear Clara")], /not MusicXML|not a MusicXML file/],
    ["a file that is absent", [path.join(folder, "nothing.mxl")], /There is no file/],
    ["a folder", [folder], /cannot be read/],
    ["no file", [], /^Usage/],
    ["two files", [file, file], /^Usage/],
    ["an option it does not know", [file, "--xml"], /^Usage/],
  ])("ends with 1 and a sentence for %s", (_name, args, sentence) => {
    const { status, stdout, stderr } = inspect(...args);
    expect({ status, stdout }).toEqual({ status: 1, stdout: "" });
    expect(stderr).toMatch(sentence);
    expect(stderr.trim().split("\n")).toHaveLength(1);
  });
});
