import { expect, test } from "vitest";
import { Pictures } from "@/app/_read/pictures";

/** A connection on which each picture comes or fails when it is told to. */
function slowLine() {
  const asked: number[] = [];
  const answers = new Map<number, { come: () => void; fail: () => void }>();
  const fetchText = (index: number) =>
    new Promise<string>((resolve, reject) => {
      asked.push(index);
      answers.set(index, { come: () => resolve(`<svg ${index}>`), fail: () => reject(new Error("cut off")) });
    });
  const settle = async (how: "come" | "fail", ...indices: number[]) => {
    for (const index of indices) answers.get(index)?.[how]();
    await new Promise((resolve) => setImmediate(resolve));
  };
  return { asked, fetchText, settle };
}

test("four at a time, in the order in which they are needed, each once", async () => {
  const { asked, fetchText, settle } = slowLine();
  const pictures = new Pictures(fetchText);
  pictures.want([5, 6, 7, 8, 9, 1]);
  expect(asked).toEqual([5, 6, 7, 8]);
  await settle("come", 6);
  expect(asked).toEqual([5, 6, 7, 8, 9]);
  expect([pictures.find(6), pictures.find(5)]).toEqual(["<svg 6>", null]);
  // Somebody has turned far on: what is needed now comes before what was needed then.
  pictures.want([40, 6, 5, 1]);
  await settle("come", 5);
  expect(asked.slice(5)).toEqual([40]);
  await settle("come", 7, 8, 9, 40);
  expect(asked.slice(6)).toEqual([1]);
});

test("what did not arrive is told, and fetched again when that is asked for", async () => {
  const { asked, fetchText, settle } = slowLine();
  const pictures = new Pictures(fetchText);
  const heard: number[] = [];
  const stop = pictures.subscribe(() => heard.push(pictures.version));
  pictures.want([1, 2]);
  await settle("fail", 1);
  await settle("come", 2);
  expect([pictures.hasFailed(1), pictures.hasFailed(2), pictures.find(2)]).toEqual([true, false, "<svg 2>"]);
  pictures.want([1, 2]);
  expect(asked).toEqual([1, 2]);
  pictures.retry();
  expect([asked, pictures.hasFailed(1)]).toEqual([[1, 2, 1], false]);
  await settle("come", 1);
  expect(pictures.find(1)).toBe("<svg 1>");
  expect(heard).toEqual([1, 2, 3, 4]);
  stop();
  pictures.retry();
  expect(heard).toHaveLength(4);
});

test("after the screen is left nothing more is fetched", async () => {
  const { asked, fetchText, settle } = slowLine();
  const pictures = new Pictures(fetchText);
  pictures.want([1, 2, 3, 4, 5, 6]);
  pictures.stop();
  await settle("come", 1, 2);
  expect(asked).toEqual([1, 2, 3, 4]);
});
