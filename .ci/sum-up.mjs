import fs from "node:fs";

/**
 * The last line of a run: how many tests passed and failed, from the results the test runner wrote. A file that
 * could not be loaded has no tests to count and counts as one failure.
 *
 * @typedef {{ status: string, assertionResults: { status: string }[] }} TestFile
 */

const [file = ""] = process.argv.slice(2);
if (fs.existsSync(file)) {
  /** @type {{ testResults: TestFile[] }} */
  const { testResults } = JSON.parse(fs.readFileSync(file, "utf8"));
  const tests = testResults.flatMap(({ assertionResults }) => assertionResults.map(({ status }) => status));
  const unloaded = testResults.filter(
    ({ status, assertionResults }) =>
      status === "failed" && !assertionResults.some((test) => test.status === "failed"),
  );
  const passed = tests.filter((status) => status === "passed").length;
  const failed = tests.filter((status) => status === "failed").length + unloaded.length;
  console.log(`${passed} passed, ${failed} failed`);
  process.exitCode = failed > 0 || passed === 0 ? 1 : 0;
} else {
  console.log("0 passed, 1 failed");
  console.error(`The tests left no results in ${file}.`);
  process.exitCode = 1;
}
