import type { Notice } from "@/lib/score/notice";
import { failure, type Result, success } from "@/lib/score/result";
import type { ReadScore } from "@/lib/score/score";
import { NoticeBook } from "./notice-book";
import { parseXml } from "./parse-xml";
import { ScoreProjector } from "./project-score";
import { ReadFailure } from "./read-failure";
import type { ReadProblem } from "./read-problem";
import { readText } from "./read-text";
import { headOf, treeOf } from "./read-tree";
import { scoreFromTree } from "./score-from-tree";
import type { XmlElement } from "./xml-tree";

/**
 * Reads a .musicxml, .xml or .mxl file, within `readLimits`, into the score model, roles guessed. Each measure is read
 * and forgotten as soon as it is complete, so that no tree of the whole file is ever built.
 *
 * @returns the score with notices on what was imperfect, or the problem that made it unreadable.
 */
export function readScore(bytes: Uint8Array): Result<ReadScore, ReadProblem> {
  const source = readText(bytes);
  if (!source.ok) return source;
  const { text, notices } = source.value;
  return /<score-timewise[\s>]/.test(text.slice(0, 20_000))
    ? readTimewise(text, notices)
    : readPartwise(text, notices);
}

function readPartwise(text: string, notices: readonly Notice[]): Result<ReadScore, ReadProblem> {
  let projector: ScoreProjector | null = null;
  const onClose = (closed: XmlElement, around: readonly XmlElement[]): "keep" | "drop" => {
    const isMeasure = around.length === 2 && closed.name === "measure" && around[1]?.name === "part";
    const isPart = around.length === 1 && closed.name === "part";
    const root = around[0];
    if ((!isMeasure && !isPart) || root === undefined) return "keep";
    if (root.name !== "score-partwise") throw new ReadFailure({ kind: "wrong-root", rootName: root.name });
    projector ??= new ScoreProjector(root, headOf(root));
    projector.takePart(isPart ? closed : (around[1] ?? closed));
    if (isMeasure) projector.takeMeasure(closed);
    return "drop";
  };
  return finishing(() => {
    const parsed = parseXml(text, { keepBlankText: false, onClose });
    if (!parsed.ok) return parsed;
    const { root } = parsed.value;
    if (root.name !== "score-partwise") return failure({ kind: "wrong-root", rootName: root.name });
    const read = (projector ?? new ScoreProjector(root, headOf(root))).finish();
    return success(withNotices(read, notices));
  });
}

function readTimewise(text: string, notices: readonly Notice[]): Result<ReadScore, ReadProblem> {
  const parsed = parseXml(text, { keepBlankText: false });
  if (!parsed.ok) return parsed;
  const tree = treeOf(parsed.value, notices);
  return tree.ok ? finishing(() => success(scoreFromTree(tree.value))) : tree;
}

function finishing(read: () => Result<ReadScore, ReadProblem>): Result<ReadScore, ReadProblem> {
  try {
    return read();
  } catch (error) {
    if (error instanceof ReadFailure) return failure(error.problem);
    throw error;
  }
}

function withNotices(read: ReadScore, notices: readonly Notice[]): ReadScore {
  if (notices.length === 0) return read;
  const book = new NoticeBook();
  book.addAll(notices);
  book.addAll(read.notices);
  return { ...read, notices: book.list() };
}
