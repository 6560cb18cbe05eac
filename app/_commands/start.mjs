// `npm start`, `npm run dev` and `npm run realtime` on a fresh clone: written so that old versions of Node can read it and say why not.
const wanted = [20, 19];
const [major = 0, minor = 0] = process.versions.node.split(".").map(Number);

if (major < 20 || (major === 20 && minor < 19)) {
  console.error(
    `Colla Parte needs Node ${wanted.join(".")} or newer; this is Node ${process.versions.node}.`,
  );
  process.exitCode = 1;
} else if (process.argv.includes("--rooms")) {
  import("./run-rooms.mjs").then(({ runRooms }) => runRooms());
} else {
  import("./run-start.mjs").then(({ runStart }) =>
    runStart({ isDevelopment: process.argv.includes("--dev") }),
  );
}
