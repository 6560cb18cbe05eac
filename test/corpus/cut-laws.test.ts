import { describe } from "vitest";
import { checkLaws } from "../lib/cuts/search/laws-of-pieces";
import { corpusFolder, readCorpusFile } from "./corpus-folder";

const pieces = [
  "solo-piano/wieniawski_op22_1.mxl",
  "solo-piano/mlynarski_op11_1.mxl",
  "solo-piano/dobrzynski_monbar_16_aria.mxl",
  "songs/lang_abermals_am_see.mxl",
];

describe.skipIf(corpusFolder === null).each(pieces)("the first ten cuts of %s are the same", (file) => {
  if (corpusFolder !== null) checkLaws(readCorpusFile(file));
});
